"""Notice a chart that could not be taken for one: a grid, or an axis without its partner."""

from __future__ import annotations

from ...page import Pixels, Word
from ...sightings import ChartArea, LabelRun, MarkSight
from ..marks.crops import chart_crop
from ..marks.network import marks_in
from .frequency import frequency_runs
from .level import level_runs
from .ruling import Box, Ruling, covered

LINES = 5
"""So many long parallel lines each way look like a chart's grid."""
MARKS = 5
CLEAR_MARK = 0.6
"""So many marks seen so clearly look like an audiogram."""
LEAST_FRAME = 0.12
"""A chart is at least so wide and high, in long sides of the page."""
MOST_FRAMES = 3
COLUMN = 4
OVER = 0.2
NARROWEST = 0.5
"""So many levels make a column; marks stand so far beyond its ends, in its heights, at the most, and what is narrower
than this is no chart but a margin."""
BESIDE = 2.5
"""A specimen stands so near its words, in sizes."""
OWN_INK = 0.6
"""A word is what a mark itself was read as, or lies beneath it, from such a share of it in the mark."""
ON_EDGE = 0.08
"""Marks on the lines that frame a region reach so far beyond it, in its shorter sides."""
COVERED = 0.3
"""Lines of which a chart found covers less, and that cover less of it, are not its own."""


def chart_like(pixels: Pixels, words: tuple[Word, ...], areas: tuple[ChartArea, ...], ruling: Ruling) -> bool:
    """Say whether something looks like an audiogram that is not among the areas.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    words : tuple of Word
        Its words.
    areas : tuple of ChartArea
        The charts found.
    ruling : Ruling
        Its long lines.

    Returns
    -------
    bool
        True for a row of audiometric frequencies or a column of levels that belongs to no chart found; for marks beside
        a column of levels that is no chart's own, or where long lines stand outside the charts found; and, where no
        chart was found, for a grid of at least five long lines each way, or for marks anywhere.
    """
    for run in frequency_runs(words):
        middle = (run.at[0] + run.at[-1]) / 2
        held = any(
            a.box[0] <= middle <= a.box[2]
            and a.box[1] - 6 * run.text_height <= run.across <= a.box[3] + 6 * run.text_height
            for a in areas
        )
        if not held and len(run.values) >= 4:
            return True
    columns = level_runs(words)
    for run in columns:
        held = any(
            a.box[1] <= (run.at[0] + run.at[-1]) / 2 <= a.box[3]
            and a.box[0] - 12 * run.text_height <= run.across <= a.box[2] + 12 * run.text_height
            for a in areas
        )
        if not held and len(run.values) >= 4:
            return True
    height, width = pixels.shape[:2]
    if not areas and min(ruling.counts()) >= LINES:
        return True
    framed = _framed(ruling.frames, (width, height), areas)
    beside = [box for run in columns for box in _beside_column(run, (width, height), areas)]
    whole = [] if areas else [(0.0, 0.0, width - 1.0, height - 1.0)]
    return any(_has_marks(pixels, words, box) for box in whole + framed + beside)


def _beside_column(run: LabelRun, size: tuple[int, int], areas: tuple[ChartArea, ...]) -> list[Box]:
    """Give where a chart may stand on either side of a column of levels by which none was found, outside all charts.

    Of two charts side by side, the second one's column may have been taken for the first one's labels on its right.
    """
    if run.along != "y" or len(run.values) < COLUMN or any(run == a.level for a in areas):
        return []
    first, last = min(run.at), max(run.at)
    high = last - first
    top, bottom = max(first - OVER * high, 0.0), min(last + OVER * high, size[1] - 1.0)
    level = [a.box for a in areas if a.box[1] < bottom and top < a.box[3]]
    right_end = min((box[0] for box in level if box[0] > run.across), default=size[0] - 1.0)
    left_end = max((box[2] for box in level if box[2] < run.across), default=0.0)
    held = any(box[0] < run.across < box[2] for box in level)
    sides = ((left_end, run.across), (run.across, right_end))
    return [] if held or top >= bottom else [(x0, top, x1, bottom) for x0, x1 in sides if x1 - x0 > NARROWEST * high]


def _has_marks(pixels: Pixels, words: tuple[Word, ...], box: Box) -> bool:
    """Say whether marks larger than the page's letters stand in a region, other than in the lines of a key."""
    crop = chart_crop(pixels, box)
    heights = sorted(w.box[3] - w.box[1] for w in words)
    letters = heights[len(heights) // 2] if heights else 0.0
    clear = [
        m
        for m in marks_in(crop, 0)
        if m.score > CLEAR_MARK and min(m.size) > letters and not any(_beside(m, w) for w in words)
    ]
    return len(clear) >= MARKS


def _beside(mark: MarkSight, word: Word) -> bool:
    """Say whether a mark stands within a word or beside it, as a specimen does in a key."""
    left, top, right, bottom = word.box
    reach = BESIDE * max(mark.size)
    own = tuple(at + way * (0.5 * side + 1) for way in (-1, 1) for at, side in zip(mark.at, mark.size, strict=True))
    if covered(word.box, (own[0], own[1], own[2], own[3])) > OWN_INK:
        return False  # it was read as a word itself, or hides a label of the axis
    return left - reach <= mark.at[0] <= right + reach and top <= mark.at[1] <= bottom


def _framed(frames: tuple[Box, ...], size: tuple[int, int], areas: tuple[ChartArea, ...]) -> list[Box]:
    """Give the largest regions that long lines frame or cross, outside the charts found."""
    least = LEAST_FRAME * max(size)
    found: list[tuple[float, Box]] = []
    for box in frames:
        wide, high = box[2] - box[0], box[3] - box[1]
        apart = all(max(covered(box, a.box), covered(a.box, box)) < COVERED for a in areas)
        if min(wide, high) >= least and apart:
            found.append((wide * high, _with_edges(box, size, areas)))
    return [box for _, box in sorted(found, reverse=True)[:MOST_FRAMES]]


def _with_edges(box: Box, size: tuple[int, int], areas: tuple[ChartArea, ...]) -> Box:
    """Widen a region by the marks that stand on its frame, on the sides where no chart found begins."""
    reach = ON_EDGE * min(box[2] - box[0], box[3] - box[1])
    wider = (
        max(box[0] - reach, 0.0),
        max(box[1] - reach, 0.0),
        min(box[2] + reach, size[0] - 1.0),
        min(box[3] + reach, size[1] - 1.0),
    )
    sides = list(box)
    for side in range(4):
        tried = (*sides[:side], wider[side], *sides[side + 1 :])
        strip = (tried[0], tried[1], tried[2], tried[3])
        if all(covered(strip, a.box) <= covered(box, a.box) for a in areas):
            sides[side] = wider[side]
    return (sides[0], sides[1], sides[2], sides[3])
