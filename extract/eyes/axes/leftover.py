"""Notice a chart that could not be taken for one: a grid, or an axis without its partner."""

from __future__ import annotations

import numpy as np

from ...page import Pixels, Word
from ...sightings import ChartArea, MarkSight
from ..marks.crops import chart_crop
from ..marks.network import marks_in
from .frequency import frequency_runs
from .level import level_runs

LINES = 5
"""So many long parallel lines each way look like a chart's grid."""
MARKS = 5
CLEAR_MARK = 0.6
"""So many marks seen so clearly look like an audiogram."""
LEAST_FRAME = 0.12
"""A chart is at least so wide and high, in long sides of the page."""
MOST_FRAMES = 3
BESIDE = 2.5
"""A specimen stands so near its words, in sizes."""
COVERED = 0.3
"""Lines of which a chart found covers less, and that cover less of it, are not its own."""

Box = tuple[float, float, float, float]


def chart_like(pixels: Pixels, words: tuple[Word, ...], areas: tuple[ChartArea, ...]) -> bool:
    """Say whether something looks like an audiogram that is not among the areas.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    words : tuple of Word
        Its words.
    areas : tuple of ChartArea
        The charts found.

    Returns
    -------
    bool
        True for a row of audiometric frequencies or a column of levels that belongs to no chart found; for marks where
        long lines stand outside the charts found; and, where no chart was found, for a grid of at least five long
        lines each way, or for marks.
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
    for run in level_runs(words):
        held = any(
            a.box[1] <= (run.at[0] + run.at[-1]) / 2 <= a.box[3]
            and a.box[0] - 12 * run.text_height <= run.across <= a.box[2] + 12 * run.text_height
            for a in areas
        )
        if not held and len(run.values) >= 4:
            return True
    if areas:
        return any(_has_marks(pixels, words, box) for box in _framed(pixels, areas))
    height, width = pixels.shape[:2]
    return _has_grid(pixels) or _has_marks(pixels, words, (0.0, 0.0, width - 1.0, height - 1.0))


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
    return left - reach <= mark.at[0] <= right + reach and top <= mark.at[1] <= bottom


def _framed(pixels: Pixels, areas: tuple[ChartArea, ...]) -> list[Box]:
    """Give the largest regions that long lines frame or cross, outside the charts found."""
    import cv2

    columns, rows, scale = _long_lines(pixels)
    count, _, stats, _ = cv2.connectedComponentsWithStats(cv2.dilate(columns | rows, np.ones((5, 5), np.uint8)))
    least = LEAST_FRAME * max(columns.shape)
    found: list[tuple[float, Box]] = []
    for left, top, wide, high, _ in stats[1:count].tolist():
        box = (left / scale, top / scale, (left + wide) / scale, (top + high) / scale)
        apart = all(max(_covered(box, a.box), _covered(a.box, box)) < COVERED for a in areas)
        if min(wide, high) >= least and apart:
            found.append((wide * high, box))
    return [box for _, box in sorted(found, reverse=True)[:MOST_FRAMES]]


def _covered(box: Box, by: Box) -> float:
    """Give the share of a box that another covers."""
    wide = min(box[2], by[2]) - max(box[0], by[0])
    high = min(box[3], by[3]) - max(box[1], by[1])
    return max(wide, 0.0) * max(high, 0.0) / max((box[2] - box[0]) * (box[3] - box[1]), 1e-9)


def _has_grid(pixels: Pixels) -> bool:
    """Say whether five long lines each way stand on the page."""
    import cv2

    counts = []
    for axis, lines in enumerate(_long_lines(pixels)[:2]):
        found, _, _, centres = cv2.connectedComponentsWithStats(cv2.dilate(lines, np.ones((3, 3), np.uint8)))
        across = np.sort(centres[1:, axis])
        counts.append(1 + int((np.diff(across) > max(lines.shape) / 120).sum()) if found > 1 else 0)
    return min(counts) >= LINES


def _long_lines(pixels: Pixels) -> tuple[Pixels, Pixels, float]:
    """Give masks of the vertical and of the horizontal lines longer than an eighth of the page, and their scale."""
    import cv2

    scale = min(1.0, 1200 / max(pixels.shape[:2]))
    small = cv2.resize(pixels, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA).min(axis=2)
    ink = cv2.adaptiveThreshold(small, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 25, 6)
    side = max(small.shape)
    masks = []
    for kernel, join in (((side // 8, 1), (9, 1)), ((1, side // 8), (1, 9))):
        joined = cv2.morphologyEx(ink, cv2.MORPH_CLOSE, np.ones(join, np.uint8))
        masks.append(np.asarray(cv2.morphologyEx(joined, cv2.MORPH_OPEN, np.ones(kernel, np.uint8)), np.uint8))
    return masks[0], masks[1], scale
