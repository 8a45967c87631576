"""What stands over and beside a chart: an ear's name, or that it shows something other than hearing thresholds."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from ....chart import MeasuredChart, OneEar
from ....eyes import key_words
from ....eyes.words import read_upward
from ....page import Word
from ....shades import grey_of
from ....sheet import Sheet
from ...lines import Cell, Line, lines_of
from ..vocabulary import bare, parts_of, vocabulary
from .phrases import says

CODE = "other-quantity"
ONE_EAR: tuple[OneEar, ...] = ("right", "left")
TITLE_OCTAVES = 1.2
"""A chart's title stands at most so far above its plot, with a row of frequencies and its caption between."""
TITLE_LINES, FARTHEST_OCTAVES = 6.0, 1.6
"""Or so many of its own heights, where that is more, and no farther than so."""
CENTRED = 0.15
"""A title's middle lies so near the plot's, in widths of the plot; or it begins or ends where the plot does."""
MOST_WORDS = 8
"""What has more words is a sentence."""
BESIDE_OCTAVES = 2.5
"""The name of the level axis stands at most so far beside the labelled frequencies."""
WELL_READ = 0.8
"""Words beside a chart in a picture say something from this confidence on."""
BEGUN = tuple(re.compile(rf"(?i)\b(?:{ear})") for ear in (key_words.RIGHT, key_words.LEFT))
"""Words that begin with an ear's name: "Rightear" is read where the gap is narrow."""
SHORT = 2
"""A word of so few letters names an ear where the title is nothing else: "R", "AS"."""


def with_captions(charts: Sequence[MeasuredChart], words: Sequence[Word]) -> tuple[MeasuredChart, ...]:
    """Tell charts what stands over and beside them.

    Parameters
    ----------
    charts : sequence of MeasuredChart
        The page's charts.
    words : sequence of Word
        The words outside their plots, in sheet pixels.

    Returns
    -------
    tuple of MeasuredChart
        The same, ``titled`` where their titles name one ear; those that show attenuation, gain, reflexes and so on by
        title or level axis have ``other-quantity`` among their doubts. Text that goes on to a value ("Reflexes:
        present") is no title.
    """
    return tuple(_captioned(chart, words) for chart in charts)


def upward_words(sheet: Sheet, charts: Sequence[MeasuredChart]) -> tuple[Word, ...]:
    """Read what is printed upward on either side of the charts of a picture, which no pass over level words sees.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.
    charts : sequence of MeasuredChart
        Its charts.

    Returns
    -------
    tuple of Word
        None on a page with words of its own.
    """
    if sheet.words_given:
        return ()
    found: list[Word] = []
    for chart in charts:
        left, top, right, bottom = _plot(chart)
        reach, room = BESIDE_OCTAVES * chart.frequency.octave_px, 0.2 * chart.frequency.octave_px
        for start, end in ((left - reach, left - room), (right + room, right + reach)):
            found += read_upward(grey_of(sheet.pixels), (start, top, end, bottom))
    return tuple(w for w in found if w.confidence >= WELL_READ)


def _captioned(chart: MeasuredChart, words: Sequence[Word]) -> MeasuredChart:
    titles, beside = _titles(chart, words), [_spoken(text) for text in _beside(chart, words)]
    title = [word for text in titles for word in _spoken(text)]
    other = any(says(text, "quantity") for text in beside) or (says(title, "quantity") and not says(title, "hearing"))
    ears: set[OneEar] = {ear for text in titles for ear in _ears(text)}
    titled = ears.pop() if len(ears) == 1 else None
    return replace(chart, titled=titled, doubts=(*chart.doubts, *([CODE] if other else [])))


def _spoken(text: str) -> list[str]:
    return [bare(part) for part in parts_of(text)]


def _ears(title: str) -> set[OneEar]:
    """Give the ears that a title names; two named together are none of them."""
    parts = [part for part in parts_of(title) if part.isalnum()]
    found: set[OneEar] = set()
    at = 0
    while at < len(parts):
        taken, meanings = vocabulary().match(parts[at:])
        if taken == len(parts) or sum(map(len, parts[at : at + taken])) > SHORT:
            found |= {ear for ear in ONE_EAR if ear in meanings}
        at += taken or 1
    return found


def _titles(chart: MeasuredChart, words: Sequence[Word]) -> list[str]:
    """Give the lines over a plot, from its first frequency up, that are its title and no text of the page."""
    left, top, right, _ = _plot(chart)
    octave = chart.frequency.octave_px
    over = [w for w in words if not w.upright and 0 < top - (w.box[1] + w.box[3]) / 2 < _room(w, octave)]
    found: list[str] = []
    for cell in (cell for line in lines_of(over) for cell in _no_key(line, left, right)):
        x0, _, x1, _ = cell.box
        centred = abs((x0 + x1) / 2 - (left + right) / 2) < CENTRED * (right - left)
        flush = min(abs(x0 - left), abs(x1 - right)) < 0.5 * octave and x1 - x0 < 0.7 * (right - left)
        if (centred or flush) and len(cell.words) <= MOST_WORDS and not re.search(r"[:=.]\s*(\w|$)", cell.text):
            found.append(cell.text)
    return found


def _room(word: Word, octave: float) -> float:
    """Give how far over a plot a word of its title may stand: small charts have lines between as large ones do."""
    lines = TITLE_LINES * (word.box[3] - word.box[1])
    return octave * min(max(TITLE_OCTAVES, lines / octave), FARTHEST_OCTAVES)


def _no_key(line: Line, left: float, right: float) -> Sequence[Cell]:
    """Give a line's cells that stand over a plot; none of one that names both ears there, as a key's does.

    An ear's initial beside others is no name either: half-read labels and rules look like an L.
    """
    here = [cell for cell in line.cells if left < (cell.box[0] + cell.box[2]) / 2 < right]
    text = " ".join(cell.text for cell in here)
    if all(begun.search(text) for begun in BEGUN):
        return ()
    return here if len(here) == 1 else [cell for cell in here if len(cell.text) > SHORT]


def _beside(chart: MeasuredChart, words: Sequence[Word]) -> list[str]:
    """Give what is written upward or downward beside a plot, each way of turning in the order that it reads in."""
    left, top, right, bottom = _plot(chart)
    reach = BESIDE_OCTAVES * chart.frequency.octave_px
    found: list[str] = []
    for turn in (90, 270):
        for start, end in ((left - reach, left), (right, right + reach)):
            some = [
                w for w in words
                if w.upright == turn
                and start < (w.box[0] + w.box[2]) / 2 < end
                and w.box[3] > top
                and w.box[1] < bottom
            ]  # fmt: skip
            some.sort(key=lambda w: w.box[1], reverse=turn == 90)
            found.append(" ".join(w.text for w in some))
    return found


def _plot(chart: MeasuredChart) -> tuple[float, float, float, float]:
    """Give a chart's labelled part: left, top, right, bottom, in sheet pixels without its bend."""
    top, bottom = sorted(chart.level.zero_px + db * chart.level.px_per_db for db in chart.level.printed)
    return chart.frequency.anchors[0][1], top, chart.frequency.anchors[-1][1], bottom
