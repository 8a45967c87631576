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
from .strokes import WHITE_FROM, Box, Polygon, bounds_of, dashes_of, ink_of, same_ink, spread_of

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
CURVE_STEPS = 8


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
        along, across, _ = spread_of(points)
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
        return same_ink(self.ink, other.ink)

    def _of(self, number: int) -> Figure:
        kept = [i for i, p in enumerate(self.paths) if p.number == number]
        paths, outlines = tuple(self.paths[i] for i in kept), tuple(self.outlines[i] for i in kept)
        ink = next((c for p in paths for c in (ink_of(p),) if c is not None), self.ink)
        return Figure(paths, outlines, _around([bounds_of(p) for p in paths]), ink)


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

    dashes = dashes_of(paths, SMALLEST * side)
    for place, path in enumerate(paths):
        ink = ink_of(path)
        if ink is None:
            continue
        bounds = bounds_of(path)
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
    if placed.path.number < 0 or not same_ink(placed.ink, run[-1].ink):
        return False  # of letters, each is a figure of its own
    return any(_boxes_touch(placed.box, r.box, placed.near) and _lines_touch(placed, r) for r in run)


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
