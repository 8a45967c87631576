"""Whether a value may be a letter or a digit: words that a hand writes over the grid hold an O, an X, a 7."""

from __future__ import annotations

import math
from collections.abc import Iterable

from ....interpret.record import Threshold
from ...chart import Mark, MeasuredChart
from ...eyes.key import named_beside
from ...sheet import Sheet
from ..nearby import same_place
from ..slots import Candidate, asking

IN_LINE = 0.25
NEXT = (0.4, 1.3)
ALIKE_HIGH = 0.6
"""How far up or down, and how far along, a letter stands from the next one, in its height; and how high it is at least
as a share of the other."""
UNREAD, APART = 0.25, 0.4
"""Peak from which what was not read counts, and how far from all that was read, in sizes: of 78,148 values of printed
pages some ten ask for a look so faint alone, and the digit beside the X of a remark on a stranger's form has 0.34."""
IN_ROW_DB = 15.0
"""So near the way between its neighbours a value belongs to their row, whatever stands beside it."""

MADE_OF = 0.45
"""So near, in sizes, stand the marks of which a letter may be made. On 9 of 5,600 painted pages all letters of a
loudspeaker stand so and are right; on strangers' faxes three did that were brackets over crosses."""

LEAST_UNCOMFORTABLE_DB = 85.0
"""Levels from which sound is uncomfortable to most, 90 to 110 dB HL and seldom a step less [common practice]."""

LETTERS_OF_A_WORD = 3
DIGITS_OF_A_NUMBER = 3
UNITS = frozenset({"db", "hl", "hz", "khz"})
LETTER_HEIGHTS = 1.6
DIGIT_HEIGHTS = 1.1
"""A mark that is larger than so many heights of a word's box is none of its letters, or of a number's digits."""

Place = tuple[float, float, float]
"""Where something stands on the sheet, and how high it is."""


def in_caption(mark: Mark, chart: MeasuredChart, sheet: Sheet) -> bool:
    """Say whether a mark is a letter of a word or a digit: captions along the axes hold an O, an X, an A, 1000 three O.

    Between the printed levels the marks themselves may be read as a word: only letters are held against words there.
    """
    low, high = chart.level.printed
    if low <= mark.level_db_hl <= high and not mark.sight.glyph.startswith("letter"):
        return False
    x, y = mark.sight.at
    return any(
        w.box[0] <= x <= w.box[2]
        and w.box[1] <= y <= w.box[3]
        and max(mark.sight.size) < _largest(w.text) * (w.box[3] - w.box[1])
        for w in sheet.words
    )


def _largest(text: str) -> float:
    """Give how large a letter or a digit of a caption may look, in heights of its box; 0 where the word is none."""
    if sum(map(str.isalpha, text)) >= LETTERS_OF_A_WORD or text.strip("()[]., ").casefold() in UNITS:
        return LETTER_HEIGHTS
    return DIGIT_HEIGHTS if sum(map(str.isdigit, text)) >= DIGITS_OF_A_NUMBER else 0.0


def letters_asked(
    kept: list[Candidate], dropped: Iterable[Mark], weak: Iterable[Mark], chart: MeasuredChart
) -> list[Candidate]:
    """Ask about values out of their row that stand in one line with what is no mark, as letters of a word do.

    Parameters
    ----------
    kept : list of Candidate
        The chart's values with their marks.
    dropped, weak : iterable of Mark
        The marks that another one's value stands for, and peaks too weak to be marks.
    chart : MeasuredChart
        The chart with its unexplained ink.

    Returns
    -------
    list of Candidate
        The same, in their order; of what a program drew, and was seen apart, none is a letter.
    """
    read = [c.mark for c in kept]
    strays = [_place(c.mark) for c in kept if _astray(c)]
    unread = (*dropped, *(m for m in weak if m.sight.striking >= UNREAD))
    strays += [_place(m) for m in unread if not any(same_place(m, o, APART) for o in read)]
    strays += [(*ink.at, ink.size[1]) for ink in chart.unexplained if ink.hangs_from is None]
    return [
        asking(c, "two-readings")
        if not c.mark.sight.apart and _in_line(_place(c.mark), strays) and not _in_row(c.threshold, kept)
        else c
        for c in kept
    ]


def made_letters_asked(kept: list[Candidate]) -> list[Candidate]:
    """Ask about letters of a loudspeaker that all stand upon marks of an ear: brackets over a cross look like an S."""
    field = [c for c in kept if c.threshold.conduction == "field" and not c.mark.sight.apart]
    others = [c.mark for c in kept if c.threshold.conduction != "field"]
    if not field or not all(any(same_place(c.mark, o, MADE_OF) for o in others) for c in field):
        return kept
    return [asking(c, "two-readings") if c in field else c for c in kept]


def specimens_asked(kept: list[Candidate], sheet: Sheet) -> list[Candidate]:
    """Ask about values whose marks have a key's words beside them: a lone specimen in the chart, or a row's name."""
    named = {sight.at for sight in named_beside(sheet, [c.mark.sight for c in kept])}
    return [asking(c, "two-readings") if c.mark.sight.at in named else c for c in kept]


def _in_row(value: Threshold, kept: list[Candidate]) -> bool:
    """Say whether a value lies on the way between its neighbours, or near the last one where both ears were tested."""
    alike = [t for c in kept if (t := c.threshold) is not value and _kind(t) == _kind(value)]
    own = [t for t in alike if t.ear == value.ear and t.frequency_hz != value.frequency_hz]
    below = max((t for t in own if t.frequency_hz < value.frequency_hz), key=_hz, default=None)
    above = min((t for t in own if t.frequency_hz > value.frequency_hz), key=_hz, default=None)
    if below and above:
        share = math.log2(value.frequency_hz / below.frequency_hz) / math.log2(above.frequency_hz / below.frequency_hz)
        way = below.level_db_hl + share * (above.level_db_hl - below.level_db_hl)
        return abs(value.level_db_hl - way) <= IN_ROW_DB
    beside = below or above
    both = any(t.ear != value.ear and t.frequency_hz == value.frequency_hz for t in alike)
    return both and beside is not None and abs(value.level_db_hl - beside.level_db_hl) <= IN_ROW_DB


def _kind(t: Threshold) -> tuple[object, ...]:
    return (t.conduction, t.aided, t.measure)


def _hz(t: Threshold) -> float:
    return t.frequency_hz


def _astray(candidate: Candidate) -> bool:
    """Say whether a value stands at no frequency, or alone in its row of bone or loudness."""
    t = candidate.threshold
    return "frequency-uncertain" in t.why_ask or (
        "implausible" in t.why_ask and (t.conduction == "bone" or t.measure != "threshold")
    )


def _place(mark: Mark) -> Place:
    return (*mark.sight.at, mark.sight.size[1])


def _in_line(one: Place, strays: list[Place]) -> bool:
    x, y, high = one
    return any(
        NEXT[0] * high < abs(u - x) < NEXT[1] * high
        and abs(v - y) < IN_LINE * high
        and min(high, other) > ALIKE_HIGH * max(high, other)
        for u, v, other in strays
    )


def loudness_asked(kept: list[Candidate], *, told: bool) -> list[Candidate]:
    """Ask about a chart's most comfortable levels where all are as loud as uncomfortable ones.

    The letter m stands for either, as the clinic will have it, and no other shape of a symbol set tells which. Of 209
    most comfortable levels on 450 painted pages, where others of their chart are softer, none asks for it. ``told``
    says that the page's key tells which of the two it is.
    """
    comfortable = [c.threshold.level_db_hl for c in kept if c.threshold.measure == "mcl"]
    if told or not comfortable or min(comfortable) < LEAST_UNCOMFORTABLE_DB:
        return kept
    return [asking(c, "symbol-set-unknown") if c.threshold.measure == "mcl" else c for c in kept]
