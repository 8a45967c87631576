"""Dotted lines between labels and values, or to write on: found and taken off, since dots are read as letters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ..page import Pixels, Word
from .growth import spots_of

Box = tuple[float, float, float, float]
Mask = npt.NDArray[np.bool_]
Boxes = npt.NDArray[np.int64]

DOT = 0.24
"""A dot is at most so high and wide, in the usual height of the page's words: the point of an i stands alone."""
STEP = 0.9
"""Dots of a line are at most so far apart, middle to middle."""
LEVEL = 0.1
"""So far above or below the last one the next dot may stand."""
FEWEST = 6
"""So many dots make a line: three are an ellipsis."""
EVEN = 0.3
"""Their steps differ from the usual one by at most this part of it, but for one in four, where a dot was lost."""
REST = 0.35
"""What is left of a word beside the dots is a word if it is so wide, in the usual height."""


def without_leaders(grey: Pixels, ink: Mask, words: tuple[Word, ...]) -> tuple[Pixels, tuple[Word, ...]]:
    """Take dotted lines off a sheet, and out of the words that they were taken for, or for a part of.

    Parameters
    ----------
    grey, ink : ndarray, shape (height, width)
        The sheet, uint8, and its ink, bool.
    words : tuple of Word
        Its level words outside the charts.

    Returns
    -------
    ndarray, shape (height, width), uint8
        The sheet without them; the same one where there is none.
    tuple of Word
        The words, those cut that end or begin with dots.
    """
    usual = float(np.median([w.box[3] - w.box[1] for w in words])) if words else 0.0
    lines = _dotted(_dots(ink, usual), usual) if usual else []
    if not lines:
        return grey, words
    clean = grey.copy()
    paper = np.uint8(np.percentile(grey[::4, ::4], 85))
    for dots in lines:
        for left, top, right, bottom in dots:
            clean[max(top - 1, 0) : bottom + 1, max(left - 1, 0) : right + 1] = paper
    boxes = [_around(dots) for dots in lines]
    return clean, tuple(cut for word in words if (cut := _cut(word, boxes, usual)) is not None)


def _dots(ink: Mask, usual: float) -> Boxes:
    """Give the small separate spots of ink as left, top, right, bottom, from left to right."""
    import cv2

    stats = spots_of(ink)
    most = max(DOT * usual, 2.0)
    small = (stats[:, cv2.CC_STAT_WIDTH] <= most) & (stats[:, cv2.CC_STAT_HEIGHT] <= most)
    x, y, wide, high = (stats[small][:, k].astype(np.int64) for k in range(4))
    boxes = np.stack((x, y, x + wide, y + high), axis=1)
    return boxes[np.argsort(boxes[:, 0], kind="stable")]


def _dotted(dots: Boxes, usual: float) -> list[Boxes]:
    """Give the runs of dots that stand evenly beside each other."""
    lefts, middles = dots[:, 0].tolist(), ((dots[:, 1] + dots[:, 3]) / 2).tolist()
    runs: list[list[int]] = []
    ends: dict[int, list[int]] = {}  # the runs that may go on, by the height of their last dot
    band = max(LEVEL * usual, 1.0)
    for number, (x, y) in enumerate(zip(lefts, middles, strict=True)):
        key = round(y / band)
        for k in (key - 1, key, key + 1):  # dots come from left to right: what is too far behind never goes on
            ends[k] = [run for run in ends.get(k, ()) if x - lefts[runs[run][-1]] <= STEP * usual]
        near = [run for k in (key - 1, key, key + 1) for run in ends[k] if x - lefts[runs[run][-1]] > 0]
        if near:
            run = max(near, key=lambda one: lefts[runs[one][-1]])
            ends[round(middles[runs[run][-1]] / band)].remove(run)
            runs[run].append(number)
        else:
            run = len(runs)
            runs.append([number])
        ends[key].append(run)
    return [dots[run] for run in runs if len(run) >= FEWEST and _even(dots[run])]


def _even(dots: Boxes) -> bool:
    steps = np.diff((dots[:, 0] + dots[:, 2]) / 2)
    usual = float(np.median(steps))
    return usual > 0 and float((np.abs(steps - usual) <= max(EVEN * usual, 1.0)).mean()) >= 0.75


def _around(dots: Boxes) -> Box:
    return (float(dots[:, 0].min()), float(dots[:, 1].min()), float(dots[:, 2].max()), float(dots[:, 3].max()))


def _cut(word: Word, lines: Sequence[Box], usual: float) -> Word | None:
    """Cut a word to what stands beside dotted lines; None where nothing is left."""
    left, top, right, bottom = word.box
    for line in lines:
        meets = min(right, line[2]) - max(left, line[0]) > 0 and top - 1 <= (line[1] + line[3]) / 2 <= bottom + 1
        if not meets:
            continue
        before, behind = line[0] - left, right - line[2]
        if max(before, behind) < REST * usual:
            return None
        left, right = (left, min(right, line[0] - 1)) if before >= behind else (max(left, line[2] + 1), right)
    return word if (left, right) == (word.box[0], word.box[2]) else replace(word, box=(left, top, right, bottom))
