"""Notice a chart that could not be taken for one: a grid, or an axis without its partner."""

from __future__ import annotations

import numpy as np

from ...page import Pixels, Word
from ...sightings import ChartArea
from ..marks.crops import chart_crop
from ..marks.network import marks_in
from .frequency import frequency_runs
from .level import level_runs

LINES = 5
"""So many long parallel lines each way look like a chart's grid."""
MARKS = 5
CLEAR_MARK = 0.6
"""So many marks seen so clearly look like an audiogram."""
LONG_SIDE = 1024
"""Marks without a chart are looked for on the page reduced to this many pixels on its long side."""


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
        True for a row of audiometric frequencies or a column of levels that belongs to no chart found, and, where no
        chart was found, for a grid of at least five long lines each way, or for marks.
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
    return not areas and (_has_grid(pixels) or _has_marks(pixels, words))


def _has_marks(pixels: Pixels, words: tuple[Word, ...]) -> bool:
    """Say whether marks larger than the page's letters stand on it."""
    height, width = pixels.shape[:2]
    crop = chart_crop(pixels, (0.0, 0.0, width - 1.0, height - 1.0), scale=LONG_SIDE / max(height, width))
    heights = sorted(w.box[3] - w.box[1] for w in words)
    letters = heights[len(heights) // 2] if heights else 0.0
    clear = [
        m
        for m in marks_in(crop, 0)
        if m.score > CLEAR_MARK
        and min(m.size) > letters
        and not any(w.box[0] <= m.at[0] <= w.box[2] and w.box[1] <= m.at[1] <= w.box[3] for w in words)
    ]
    return len(clear) >= MARKS


def _has_grid(pixels: Pixels) -> bool:
    import cv2

    scale = min(1.0, 1200 / max(pixels.shape[:2]))
    small = cv2.resize(pixels.min(axis=2), None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    ink = cv2.adaptiveThreshold(small, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 25, 6)
    side = max(small.shape)
    counts = []
    for kernel, join in (((1, side // 8), (1, 9)), ((side // 8, 1), (9, 1))):
        joined = cv2.morphologyEx(ink, cv2.MORPH_CLOSE, np.ones(join, np.uint8))
        lines = cv2.morphologyEx(joined, cv2.MORPH_OPEN, np.ones(kernel, np.uint8))
        found, _, _, centres = cv2.connectedComponentsWithStats(cv2.dilate(lines, np.ones((3, 3), np.uint8)))
        across = np.sort(centres[1:, 1 if kernel[0] == 1 else 0])
        counts.append(1 + int((np.diff(across) > side / 120).sum()) if found > 1 else 0)
    return min(counts) >= LINES
