"""Marks many times fainter than their chart's: they show through from the back, were rubbed out or are covered."""

from __future__ import annotations

import math
from collections import Counter
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
FAR_PALER, PALE, FULL = 0.4, 0.65, 0.8
"""Shares of the chart's darkness below which a mark is far paler than the others, or paler, and from which it is as
dark."""
FEWEST_ALIKE, FEWEST_PALE = 2, 3
"""So many pale marks of a shape, beside as many dark ones of it, are no matter of shape or ink; and so many of such
shapes, or far paler of any, may be an earlier test's in grey, under today's in black. Of 308 charts of painted training
pages, drawn and of all kinds of pictures, none is such."""
TOUCHING = 1.0
"""So near, in sizes, another mark may lend its darkness."""
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
    dark = _shares(pixels, marks)
    if dark is None:
        return marks
    through = sum(d < THROUGH for d, mark in zip(dark, marks, strict=True) if mark.score >= CLEAR)
    most = TOLD if through >= FEWEST_THROUGH else ASKED
    marks = tuple(_doubted(m, most) if d < THROUGH else m for d, m in zip(dark, marks, strict=True))
    return _earlier_asked(dark, marks)


def not_paler(pixels: Pixels, marks: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    """Doubt the marks of a drawn chart that are so much paler than the others that they may be of an earlier test."""
    dark = _shares(pixels, marks)
    return marks if dark is None else _earlier_asked(dark, marks)


def _shares(pixels: Pixels, marks: tuple[MarkSight, ...]) -> list[float] | None:
    """Give how dark each mark of a chart is, in shares of what its darker ones are; None where too few are clear."""
    light = darkest_of(pixels)
    dark = [_darkness(light, mark) for mark in marks]
    clear = [d for d, mark in zip(dark, marks, strict=True) if mark.score >= CLEAR]
    usual = float(np.percentile(clear, 75)) if len(clear) >= FEWEST else 0.0
    return [d / usual for d in dark] if usual > 0.0 else None


def _earlier_asked(dark: list[float], marks: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    """Ask about marks that may be of an earlier test.

    Several of one shape are paler than several others of it, as far as they stand by themselves, or several of any
    shape are far paler than the others.
    """
    clear = [(d, m) for d, m in zip(dark, marks, strict=True) if m.score >= CLEAR]
    alone = [(d, m.glyph) for d, m in clear if not any(o is not m and _touch(m, o) for _, o in clear)]
    pale, full = (Counter(g for d, g in alone if low <= d < high) for low, high in ((0.0, PALE), (FULL, math.inf)))
    shapes = {glyph for glyph, count in pale.items() if min(count, full[glyph]) >= FEWEST_ALIKE}
    if sum(pale[glyph] for glyph in shapes) < FEWEST_PALE:
        shapes.clear()
    below = FAR_PALER if sum(d < FAR_PALER for d, _ in clear) >= FEWEST_PALE else 0.0
    return tuple(
        _doubted(m, ASKED) if d < max(below, PALE if m.glyph in shapes else 0.0) else m
        for d, m in zip(dark, marks, strict=True)
    )


def _touch(one: MarkSight, other: MarkSight) -> bool:
    return math.dist(one.at, other.at) < TOUCHING * max(*one.size, *other.size)


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
