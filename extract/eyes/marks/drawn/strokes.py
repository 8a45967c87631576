"""Straight strokes of a drawn page, and the dashes and dots of one line among them."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ....page import DrawnPath

Box = tuple[float, float, float, float]
Polygon = npt.NDArray[np.float64]

DASH_THIN, DASH_OFF, FEWEST_DASHES = 0.35, 0.25, 4
"""So many strokes one after the other in one line are a dashed line, each at most so wide, and so far off the line of
the one before, in its length: some programs draw each dash, of a grid or a join, as a small figure."""
FEWEST_DOTS, DOT_OFF, DOT_GAPS = 8, 0.5, 3.0
"""So many small pieces one after the other are a dotted line: each is off the line of the two before by at most so
much of its size, and no gap is so many times as wide as the one before. Some programs draw all dots as one path."""
SAME_COLOUR = 60
"""Two colours that differ by less than this, summed over red, green and blue, are one ink."""
WHITE_FROM = 735


def dashes_of(paths: tuple[DrawnPath, ...], small: float) -> set[int]:
    """Give the places, in the order of drawing, of paths that are dashes or dots of one line.

    Parameters
    ----------
    paths : tuple of DrawnPath
        In drawing order.
    small : float
        What is smaller may be a dot, in sheet pixels.

    Returns
    -------
    set of int
        None of them is a piece of a mark.
    """
    return _dashes(paths) | _dots(paths, small)


def _dots(paths: tuple[DrawnPath, ...], small: float) -> set[int]:
    found: set[int] = set()
    run: list[tuple[int, _Place, float]] = []
    for place, path in enumerate(paths):
        left, top, right, bottom = bounds_of(path)
        size = max(right - left, bottom - top)
        ink = ink_of(path)
        if ink is None or size >= small:
            run = []
            continue
        middle = (left + right) / 2, (top + bottom) / 2
        if run and not same_ink(ink, ink_of(paths[run[-1][0]]) or ink):
            run = []
        if len(run) >= 2 and not _goes_on(run[-2][1], run[-1][1], middle, max(size, run[-1][2])):
            run = run[-1:]
        run = [*run[-FEWEST_DOTS:], (place, middle, size)]
        if len(run) >= FEWEST_DOTS:
            found.update(number for number, _, _ in run)
    return found


def _goes_on(first: _Place, second: _Place, third: _Place, size: float) -> bool:
    """Say whether a third dot goes on in the line of two others."""
    step, next_step = math.dist(first, second), math.dist(second, third)
    if not 0 < next_step < DOT_GAPS * step or step > DOT_GAPS * next_step:
        return False
    (x, y), (u, v) = ((b - a for a, b in zip(p, q, strict=True)) for p, q in ((first, second), (second, third)))
    return abs(x * v - y * u) < DOT_OFF * size * step and x * u + y * v > 0


def _dashes(paths: tuple[DrawnPath, ...]) -> set[int]:
    """Give the places, in the order of drawing, of paths that are dashes of one line."""
    found: set[int] = set()
    run: list[int] = []
    before: _Stroke | None = None
    for place, path in enumerate(paths):
        stroke = _stroke_of(path)
        goes_on = before and stroke and _in_one_line(before, stroke)
        run = [*(run if goes_on else []), *([place] if stroke else [])]
        if len(run) >= FEWEST_DASHES:
            found.update(run)
        before = stroke
    return found


_Place = tuple[float, float]
_Stroke = tuple[_Place, _Place, float, tuple[int, int, int]]


def _stroke_of(path: DrawnPath) -> _Stroke | None:
    """Give a straight path's middle, its direction, its length and its ink."""
    ink, points = ink_of(path), path.points
    if ink is None or not 2 <= len(points) <= 5 or not path.on_curve.all():
        return None
    along, across, way = spread_of(points)
    if along <= 0 or across > DASH_THIN * along:
        return None
    left, top, right, bottom = bounds_of(path)
    reach = [x * way[0] + y * way[1] for x, y in points.tolist()]
    return ((left + right) / 2, (top + bottom) / 2), way, max(reach) - min(reach), ink


def spread_of(points: Polygon) -> tuple[float, float, _Place]:
    """Give how far points spread along and across (the singular values of their misses), and the way along."""
    x, y = (points - points.mean(axis=0)).T
    xx, yy, xy = float(x @ x), float(y @ y), float(x @ y)
    half, apart = (xx + yy) / 2, math.hypot((xx - yy) / 2, xy)
    turn = math.atan2(2 * xy, xx - yy) / 2
    return math.sqrt(half + apart), math.sqrt(max(half - apart, 0.0)), (math.cos(turn), math.sin(turn))


def _in_one_line(one: _Stroke, other: _Stroke) -> bool:
    (middle, way, long, ink), (middle_2, way_2, long_2, ink_2) = one, other
    step = middle_2[0] - middle[0], middle_2[1] - middle[1]
    off = max(abs(way[0] * y - way[1] * x) for x, y in (step, (long_2 * way_2[0], long_2 * way_2[1])))
    near, apart = off < DASH_OFF * min(long, long_2), abs(step[0] * way[0] + step[1] * way[1]) > 0.5 * (long + long_2)
    return near and apart and same_ink(ink, ink_2)


def same_ink(one: tuple[int, int, int], other: tuple[int, int, int]) -> bool:
    return sum(abs(a - b) for a, b in zip(one, other, strict=True)) <= SAME_COLOUR


def bounds_of(path: DrawnPath) -> Box:
    across, down = path.points.T.tolist()
    return min(across), min(down), max(across), max(down)


def ink_of(path: DrawnPath) -> tuple[int, int, int] | None:
    """Give the colour that a path leaves on white paper; None for one that only covers."""
    for colour in (path.stroke, path.fill):
        if colour is not None and sum(colour) < WHITE_FROM:
            return colour
    return None
