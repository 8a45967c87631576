"""Marks many times fainter than their chart's: they show through from the back, were rubbed out or are covered."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...page import Pixels
from ...shades import darkest_of
from ...sightings import MarkSight

CLEAR = 0.45
"""Score of a mark by whose ink others are judged."""
FEWEST = 4
"""So many of them tell how dark a chart's marks are."""
FEWEST_THROUGH = 3
"""So many clear ones so faint come from the back; one or two may be the front's own, where toner was lost."""
THROUGH = 0.25
"""What shows through has less than this share of the front's darkness; marks of a bad copier have more."""
TOLD = 0.3
"""What such a mark's score is lowered to: it is no value, and is told as what may be missing."""
ASKED = 0.5
"""What the score of one or two so faint is lowered to: they ask, since an eraser or correction fluid leaves such.
On 110 forms by a stranger's hands 13 were rubbed out or the edge of fluid; of 2,397 marks none had less than 0.4."""
AROUND = 2.4
"""How many sizes wide the paper around a mark is."""
ACROSS = 75
"""A line of the grid has ink over so many hundredths of its way through it: neither a mark nor a crowd of them has."""
STROKES_PX, PAPER = 1.5, 80
"""The darkest pixels of a mark, so many for each pixel of its width, are strokes, however thin and long they are; paper
is at this percentile of the brightness."""


def not_through(pixels: Pixels, marks: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    """Doubt the marks of one chart that show through the paper, or that somebody took back.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    marks : tuple of MarkSight
        What was seen on the chart.

    Returns
    -------
    tuple of MarkSight
        All of them, with low scores where they are so faint beside the others.
    """
    light = darkest_of(pixels)
    dark = [_darkness(light, mark) for mark in marks]
    clear = [d for d, mark in zip(dark, marks, strict=True) if mark.score >= CLEAR]
    if len(clear) < FEWEST:
        return marks
    least = THROUGH * float(np.percentile(clear, 75))
    most = TOLD if sum(d < least for d in clear) >= FEWEST_THROUGH else ASKED
    return tuple(_doubted(m, most) if d < least else m for d, m in zip(dark, marks, strict=True))


def _doubted(mark: MarkSight, most: float) -> MarkSight:
    if mark.score <= most:
        return mark
    return replace(mark, score=most, at_first=mark.striking)


def _darkness(light: Pixels, mark: MarkSight) -> float:
    """Give how much darker than its paper a mark's strokes are, as a share of the paper's brightness."""
    (x, y), (wide, high) = mark.at, mark.size
    left, right, top, bottom = (
        max(round(at + side * AROUND * size / 2), 0) for at, size in ((x, wide), (y, high)) for side in (-1, 1)
    )
    around = light[top : bottom + 1, left : right + 1]
    if not around.size:
        return 1.0
    # what is as dark nearly from side to side is a line of the grid
    lines = np.minimum(*(np.percentile(around, ACROSS, axis=axis, keepdims=True) for axis in (0, 1)))
    paper = max(float(np.percentile(around, PAPER)), 1.0)
    beside = np.minimum(lines, paper) - around
    rows, columns = (
        slice(max(round(at - size / 2) - first, 0), round(at + size / 2) - first + 1)
        for at, size, first in ((y, high, top), (x, wide, left))
    )
    own = beside[rows, columns]
    share = min(1.0, STROKES_PX / max(wide, high, 1.0))
    return float(np.percentile(own, 100 * (1 - share))) / paper
