"""Take a drawn chart apart: each small figure that the PDF draws, alone on white paper.

Marks that lie on one another, on lines or on words are told from one another by the paths that drew them; what the
network sees of a figure alone needs no guess about what else stands at its place.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from ....page import DrawnPath

Box = tuple[float, float, float, float]
Polygon = npt.NDArray[np.float64]
Look = tuple[tuple[bytes, int, tuple[int, int, int] | None, tuple[int, int, int] | None, int], ...]
"""What a figure looks like: of each path its outline, its place in the order of drawing, its inks and its width."""

LARGEST = 0.16
"""A mark and its arrow are at most so wide and high, in sides of a square of the chart's size."""
SMALLEST = 0.008
TOUCH = 0.012
"""Parts of one figure come as near as this, in the same unit: an arrow need not reach its circle."""
SOLID_PX = 64
SOLID = 0.85
"""A filled area that leaves out less of its hull is no line around something."""
FREE = (0.4, 0.6)
"""The middle of a figure, in its width and in its height."""
THIN = 0.08
"""A figure so many times narrower than long is a straight line."""
DASH_THIN, DASH_OFF, FEWEST_DASHES = 0.35, 0.25, 4
"""So many strokes one after the other in one line are a dashed line, each at most so wide, and so far off the line of
the one before, in its length: some programs draw each dash, of a grid or a join, as a small figure."""
CURVE_STEPS = 8
SAME_COLOUR = 60
"""Two colours that differ by less than this, summed over red, green and blue, are one ink."""
WHITE_FROM = 735


@dataclass(frozen=True, eq=False)  # without slots, which leave no room for what is kept
class Figure:
    """Paths that were drawn one after the other, in one ink, and touch; ``box`` in sheet pixels."""

    paths: tuple[DrawnPath, ...]
    outlines: tuple[Polygon, ...]
    box: Box
    ink: tuple[int, int, int]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in sheet pixels."""
        return self.box[2] - self.box[0], self.box[3] - self.box[1]

    @property
    def is_letter(self) -> bool:
        """Whether it stands for a letter (``lettered.py``), whose paths have numbers below 0."""
        return self.paths[0].number < 0

    @cached_property
    def is_stroke(self) -> bool:
        """Whether it is one straight line, as pieces of joins, dashes and ticks are, or the outline of one."""
        if len(self.outlines) != 1:
            return False
        (points,) = self.outlines
        along, across, _ = _spread_of(points)
        return across <= THIN * along

    @property
    def solid(self) -> bool:
        """Whether it is one filled area, painted once or several times over, as no outline of a hollow mark is."""
        import cv2

        if any(p.stroke not in (None, p.fill) or p.fill is None or sum(p.fill) >= WHITE_FROM for p in self.paths):
            return False
        if len({p.number for p in self.paths}) < len(self.paths):
            return False  # an outline within another of the same path is a hole
        scale = SOLID_PX / max(*self.size, 1e-9)
        filled, hull = (np.zeros((SOLID_PX + 3, SOLID_PX + 3), np.uint8) for _ in range(2))
        placed = [np.round((o - self.box[:2]) * scale).astype(np.int32) for o in self.outlines]
        for outline in placed:
            cv2.fillPoly(filled, [outline], 1)
        cv2.fillConvexPoly(hull, cv2.convexHull(np.concatenate(placed)), 1)
        return int(filled.sum()) > SOLID * int(hull.sum())

    @property
    def hollow(self) -> bool:
        """Whether strokes alone draw it, however thick, and leave its middle free: what is filled in has none free."""
        import cv2

        if any(p.stroke is None or (p.fill is not None and sum(p.fill) < WHITE_FROM) for p in self.paths):
            return False
        scale = SOLID_PX / max(*self.size, 1e-9)
        drawn = np.zeros((SOLID_PX + 3, SOLID_PX + 3), np.uint8)
        for path, outline in zip(self.paths, self.outlines, strict=True):
            placed = np.round((outline - self.box[:2]) * scale).astype(np.int32)
            cv2.polylines(drawn, [placed], isClosed=False, color=1, thickness=max(math.ceil(path.width_px * scale), 1))
        width, height = (side * scale for side in self.size)
        x0, x1, y0, y1 = (round(share * side) for side in (width, height) for share in FREE)
        return not drawn[y0 : y1 + 1, x0 : x1 + 1].any()

    @cached_property
    def groups(self) -> tuple[Figure, ...]:
        """The whole paths that it is made of, each a figure."""
        numbers = dict.fromkeys(p.number for p in self.paths)
        return tuple(self._of(n) for n in numbers)

    def part(self, first: int, end: int) -> Figure:
        """Give the figure of its whole paths from ``first`` up to ``end``."""
        groups = self.groups[first:end]
        paths = tuple(path for group in groups for path in group.paths)
        outlines = tuple(outline for group in groups for outline in group.outlines)
        return Figure(paths, outlines, _around([group.box for group in groups]), groups[0].ink)

    def look(self, step: float) -> Look:
        """Give what it looks like wherever it stands: outlines to the nearest ``step`` sheet pixels, and inks."""
        corner = np.array(self.box[:2])
        first = self.paths[0].number
        return tuple(
            (
                np.round((outline - corner) / step).astype(np.int32).tobytes(),
                path.number - first,
                path.stroke,
                path.fill,
                round(path.width_px / step),
            )
            for path, outline in zip(self.paths, self.outlines, strict=True)
        )

    def like_ink(self, other: Figure) -> bool:
        """Say whether both have one ink."""
        return _same_ink(self.ink, other.ink)

    def _of(self, number: int) -> Figure:
        kept = [i for i, p in enumerate(self.paths) if p.number == number]
        paths, outlines = tuple(self.paths[i] for i in kept), tuple(self.outlines[i] for i in kept)
        ink = next((c for p in paths for c in (_ink(p),) if c is not None), self.ink)
        return Figure(paths, outlines, _around([_bounds(p) for p in paths]), ink)


def figures(paths: tuple[DrawnPath, ...], box: Box) -> tuple[Figure, ...]:
    """Group the small paths within a chart's region into figures.

    Parameters
    ----------
    paths : tuple of DrawnPath
        The sheet's paths, in drawing order.
    box : tuple of float
        The region (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    tuple of Figure
        In drawing order; marks that touch and were drawn one after the other are one figure. White paths, which only
        cover, are left out.
    """
    side = math.sqrt((box[2] - box[0]) * (box[3] - box[1]))
    beyond = LARGEST * side  # an arrow may leave the region
    room = (box[0] - beyond, box[1] - beyond, box[2] + beyond, box[3] + beyond)
    found: list[Figure] = []
    run: list[_Placed] = []

    def close() -> None:
        if run:
            figure = _figure(run)
            if figure.is_letter or max(figure.size) >= SMALLEST * side:
                found.append(figure)
        run.clear()

    dashes = _dashes(paths)
    for place, path in enumerate(paths):
        ink = _ink(path)
        if ink is None:
            continue
        bounds = _bounds(path)
        if place in dashes or not (
            _inside(bounds, room) and max(bounds[2] - bounds[0], bounds[3] - bounds[1]) <= LARGEST * side
        ):
            close()
            continue
        placed = _Placed(path, flattened(path), bounds, ink, TOUCH * side)
        if run and path.number != run[-1].path.number and not _belongs(placed, run):
            close()
        run.append(placed)
    close()
    return tuple(found)


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
    ink, points = _ink(path), path.points
    if ink is None or not 2 <= len(points) <= 5 or not path.on_curve.all():
        return None
    along, across, way = _spread_of(points)
    if along <= 0 or across > DASH_THIN * along:
        return None
    left, top, right, bottom = _bounds(path)
    reach = [x * way[0] + y * way[1] for x, y in points.tolist()]
    return ((left + right) / 2, (top + bottom) / 2), way, max(reach) - min(reach), ink


def _spread_of(points: Polygon) -> tuple[float, float, _Place]:
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
    return near and apart and _same_ink(ink, ink_2)


@dataclass(frozen=True, eq=False)  # without slots, which leave no room for what is kept
class _Placed:
    path: DrawnPath
    outline: Polygon
    box: Box
    ink: tuple[int, int, int]
    near: float
    """How near it may come to another."""

    @cached_property
    def points(self) -> Polygon:
        """Its outline, with points half as far apart."""
        return dense(self.outline, self.near / 2)


def _figure(run: list[_Placed]) -> Figure:
    return Figure(tuple(p.path for p in run), tuple(p.outline for p in run), _around([p.box for p in run]), run[0].ink)


def _belongs(placed: _Placed, run: list[_Placed]) -> bool:
    if placed.path.number < 0 or not _same_ink(placed.ink, run[-1].ink):
        return False  # of letters, each is a figure of its own
    return any(_boxes_touch(placed.box, r.box, placed.near) and _lines_touch(placed, r) for r in run)


def _same_ink(one: tuple[int, int, int], other: tuple[int, int, int]) -> bool:
    return sum(abs(a - b) for a, b in zip(one, other, strict=True)) <= SAME_COLOUR


def _boxes_touch(one: Box, other: Box, near: float) -> bool:
    across = one[0] <= other[2] + near and other[0] <= one[2] + near
    return across and one[1] <= other[3] + near and other[1] <= one[3] + near


def _lines_touch(one: _Placed, other: _Placed) -> bool:
    """Say whether two outlines come near, or one lies within the other."""
    if any(_inside(a.box, b.box) for a, b in ((one, other), (other, one))):
        return True
    (ax, ay), (bx, by) = one.points.T, other.points.T
    return bool(((ax[:, None] - bx) ** 2 + (ay[:, None] - by) ** 2 <= one.near**2).any())


def _inside(one: Box, other: Box) -> bool:
    return other[0] <= one[0] and other[1] <= one[1] and one[2] <= other[2] and one[3] <= other[3]


def dense(outline: Polygon, step: float) -> Polygon:
    """Add points to an outline so that none is farther from the next than ``step``."""
    ways = np.diff(outline, axis=0)
    counts = np.maximum(np.ceil(np.hypot(*ways.T) / step), 1).astype(np.intp)
    begins = np.repeat(np.cumsum(counts) - counts, counts)
    share = (np.arange(len(begins)) - begins) * np.repeat(1 / counts, counts)
    between = np.repeat(outline[:-1], counts, axis=0) + np.repeat(ways, counts, axis=0) * share[:, None]
    return np.concatenate([between, outline[-1:]])


def _around(boxes: list[Box]) -> Box:
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def _bounds(path: DrawnPath) -> Box:
    across, down = path.points.T.tolist()
    return min(across), min(down), max(across), max(down)


def _ink(path: DrawnPath) -> tuple[int, int, int] | None:
    """Give the colour that a path leaves on white paper; None for one that only covers."""
    for colour in (path.stroke, path.fill):
        if colour is not None and sum(colour) < WHITE_FROM:
            return colour
    return None


def flattened(path: DrawnPath) -> Polygon:
    """Follow a path's curves by short chords; shape (n, 2), sheet pixels."""
    if path.on_curve.all():
        return path.points
    points: list[npt.NDArray[np.float64]] = [path.points[:1]]
    t = np.linspace(0, 1, CURVE_STEPS + 1)[1:, None]
    controls: list[npt.NDArray[np.float64]] = []
    start = path.points[0]
    for point, on in zip(path.points[1:], path.on_curve[1:], strict=True):
        if not on:
            controls.append(point)
            continue
        if len(controls) == 2:
            a, b = controls
            points.append((1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * a + 3 * (1 - t) * t**2 * b + t**3 * point)
        elif len(controls) == 1:
            points.append((1 - t) ** 2 * start + 2 * (1 - t) * t * controls[0] + t**2 * point)
        else:
            points.append(point[None])
        controls, start = [], point
    return np.concatenate(points)
