"""Arrows without a head, or whose head lies beyond the sheet: strokes that hang from a mark and lead to no other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from .apart import Figure
from .arrows import ARROW, LESS, Alone
from .heads import LEAST_FALL, SLANT

LEAST_LONG, MOST_LONG = 0.4, 2.5
"""How long a shaft is, in sizes of its mark."""
BEGINS, LEAST_OUT = 0.25, 0.25
"""It begins within so many sizes of the edge of its mark's box, and so many from its middle, where joins begin."""
ENDS = 0.5
"""It ends no nearer than so many sizes to another mark's box: else it joins two marks."""

Place = tuple[float, float]


def with_headless(found: list[Alone], strokes: Sequence[Figure]) -> list[Alone]:
    """Give marks without an arrow half a one where a stroke of their ink hangs from them as its shaft would.

    Parameters
    ----------
    found : list of Alone
        The marks.
    strokes : sequence of Figure
        Straight strokes that are of no mark and of no arrow.

    Returns
    -------
    list of Alone
        The marks. On 500 painted pages 9 have such a stroke, on 2 pages, all of them arrows that leave the sheet.
    """
    hung: dict[int, int] = {}
    for stroke in strokes:
        for mark in found:
            way = _way(stroke, mark, [other for other in found if other is not mark])
            if way is not None and mark.piece.like_ink(stroke) and max(mark.sight.arrows) < ARROW:
                hung.setdefault(id(mark), way)
    return [_hung(mark, hung[id(mark)]) if id(mark) in hung else mark for mark in found]


def _hung(mark: Alone, way: int) -> Alone:
    left, right, down = (max(LESS, a) if i == way else a for i, a in enumerate(mark.sight.arrows))
    return Alone(mark.piece, replace(mark.sight, arrows=(left, right, down)))


def _way(stroke: Figure, mark: Alone, others: list[Alone]) -> int | None:
    """Say which way a stroke hangs from a mark; None where it does not, or leads to another mark."""
    (points,) = stroke.outlines
    (x, y), (u, v) = points[points[:, 1].argmin()].tolist(), points[points[:, 1].argmax()].tolist()
    size, long = max(mark.sight.size), math.hypot(u - x, v - y)
    if not LEAST_LONG * size < long < MOST_LONG * size or v - y < LEAST_FALL * long:
        return None
    right, down = (u - x) / long, (v - y) / long
    out = (x - mark.sight.at[0]) * right + (y - mark.sight.at[1]) * down
    if out < LEAST_OUT * min(mark.sight.size) or _outside((x, y), mark) > BEGINS * size:
        return None
    if any(_outside((u, v), other) < ENDS * max(other.sight.size) for other in others):
        return None
    return 2 if abs(right) < SLANT else int(right > 0)


def _outside(place: Place, mark: Alone) -> float:
    """Give how far a place lies from a mark's box."""
    half = (mark.sight.size[0] / 2, mark.sight.size[1] / 2)
    return math.hypot(*(max(0.0, abs(p - c) - h) for p, c, h in zip(place, mark.sight.at, half, strict=True)))
