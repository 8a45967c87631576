"""Paths of a page in few arrays, so that a thousand of them cross from one process to another in a millisecond."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...page import DrawnPath, Pixels
from .contents import Shape

Floats = npt.NDArray[np.float64]
Colour = tuple[int, int, int]

_WIDEST_CHECKED_PX = 4.0
"""Beyond this stroke width the middle of a line shows no edge, so that looking for one proves nothing."""

_PAPER_FROM = 735
_SAME_INK = 12
"""Sums over red, green and blue: of a colour that is no ink, and of how far a pixel may be from the stated colour."""
_NO_INK = (-255, -255, -255)

_NEIGHBOURS = tuple((dy, dx) for dy in range(-2, 3) for dx in range(-2, 3) if 0 < abs(dy) + abs(dx) <= 2)
"""What lies within 2 px of a sample, counted along the axes."""


@dataclass(frozen=True, slots=True)
class Packed:
    """All paths of a page: ``points`` of shape (n, 2), in page pixels; path i has those from ``first[i]`` on."""

    points: Floats
    on_curve: npt.NDArray[np.bool_]
    number: npt.NDArray[np.int64]
    first: npt.NDArray[np.int64]
    width_px: Floats
    stroke: tuple[Colour | None, ...]
    fill: tuple[Colour | None, ...]
    dashed: npt.NDArray[np.bool_]

    def paths(self) -> tuple[DrawnPath, ...]:
        """Unpack into one object a path; their points are read-only views of one array."""
        self.points.setflags(write=False)
        ends = [*self.first[1:].tolist(), len(self.points)][: len(self.first)]
        self.on_curve.setflags(write=False)
        rows = zip(self.first.tolist(), ends, self.stroke, self.fill, self.width_px.tolist(),
                   self.dashed.tolist(), self.number.tolist(), strict=True)  # fmt: skip
        return tuple(DrawnPath(self.points[a:b], self.on_curve[a:b], *rest) for a, b, *rest in rows)


def pack(shapes: list[Shape], to_pixels: Floats, pixels: Pixels) -> Packed:
    """Bring the painted paths into page pixels, and drop those that the rendered page does not show.

    Parameters
    ----------
    shapes : list of Shape
        As drawn.
    to_pixels : ndarray
        The affine map from raw points to page pixels, shape (2, 3).
    pixels : Pixels
        The rendered page, which knows what is clipped, covered, outside or in a layer that is off.

    Returns
    -------
    Packed
        A path stays when at least a third of its vertices and of the middles between them lie within 2 px of an edge,
        or show the path's own ink: where strokes of one ink lie over each other there is no edge.
    """
    shapes = [shape for shape in shapes if shape.stroke is not None or shape.fill is not None]
    counts = np.array([len(shape.on_curve) for shape in shapes], dtype=np.int64)
    raw = np.array([value for shape in shapes for value in shape.points], dtype=np.float64).reshape(-1, 2)
    matrix = np.array([shape.matrix for shape in shapes], dtype=np.float64).reshape(-1, 6)
    each = np.repeat(matrix, counts, axis=0)
    placed = np.stack((raw[:, 0] * each[:, 0] + raw[:, 1] * each[:, 2] + each[:, 4],
                       raw[:, 0] * each[:, 1] + raw[:, 1] * each[:, 3] + each[:, 5]), axis=1)  # fmt: skip
    points = placed @ to_pixels[:, :2].T + to_pixels[:, 2]
    first = np.concatenate(([0], np.cumsum(counts)[:-1])).astype(np.int64) if shapes else np.empty(0, np.int64)
    width = np.array([shape.width for shape in shapes], dtype=np.float64)
    width *= np.sqrt(abs(np.linalg.det(to_pixels[:, :2])))
    on_curve = np.array([flag for shape in shapes for flag in shape.on_curve], dtype=bool)
    inks = np.array([_ink(shape) for shape in shapes], dtype=np.int16).reshape(-1, 3)
    shown = _shown(points, on_curve, first, counts, inks, pixels) | (width > _WIDEST_CHECKED_PX)
    kept = np.flatnonzero(shown & np.isfinite(np.add.reduceat(points.sum(1), first) if shapes else width))
    return _taken(shapes, points, on_curve, first, counts, width, kept, pixels)


def _taken(
    shapes: list[Shape],
    points: Floats,
    on_curve: npt.NDArray[np.bool_],
    first: npt.NDArray[np.int64],
    counts: npt.NDArray[np.int64],
    width: Floats,
    kept: npt.NDArray[np.int64],
    pixels: Pixels,
) -> Packed:
    stays = np.zeros(len(shapes), bool)
    stays[kept] = True
    begins = np.concatenate(([0], np.cumsum(counts[kept])[:-1])).astype(np.int64) if len(kept) else kept
    dashed = np.array([shape.dashed for shape in shapes], dtype=bool)
    return Packed(
        points[np.repeat(stays, counts)],
        on_curve[np.repeat(stays, counts)],
        np.array([shapes[i].number for i in kept], np.int64),
        begins,
        width[kept],
        tuple(_seen(shapes[i].stroke, points[first[i] : first[i] + 2], pixels) for i in kept),
        tuple(_seen(shapes[i].fill, points[first[i] : first[i] + counts[i]], pixels) for i in kept),
        dashed[kept],
    )


def _shown(
    points: Floats,
    on_curve: npt.NDArray[np.bool_],
    first: npt.NDArray[np.int64],
    counts: npt.NDArray[np.int64],
    inks: npt.NDArray[np.int16],
    pixels: Pixels,
) -> npt.NDArray[np.bool_]:
    if not len(first):
        return np.empty(0, bool)
    owner = np.repeat(np.arange(len(first)), counts)[on_curve]
    ends = points[on_curve]
    inner = owner[1:] == owner[:-1]
    straight = inner & (np.diff(np.flatnonzero(on_curve)) == 1)  # the middle of a chord is not on its curve
    curves, of_curve = _middles_of_curves(points, on_curve, first, counts)
    samples = np.concatenate((ends, ((ends[1:] + ends[:-1]) / 2)[straight], curves))
    owners = np.concatenate((owner, owner[1:][straight], of_curve))
    told = _near_edge(samples, pixels) | _in_ink(samples, inks[owners], pixels)
    hits = np.bincount(owners, weights=told, minlength=len(first))
    return hits * 3 >= np.maximum(1, np.bincount(owners, minlength=len(first)))


def _middles_of_curves(
    points: Floats, on_curve: npt.NDArray[np.bool_], first: npt.NDArray[np.int64], counts: npt.NDArray[np.int64]
) -> tuple[Floats, npt.NDArray[np.int64]]:
    """Give the middle of every cubic curve, and to which path it belongs."""
    owner = np.repeat(np.arange(len(first)), counts)
    if len(points) < 4:
        return np.empty((0, 2)), np.empty(0, np.int64)
    cubic = on_curve[:-3] & ~on_curve[1:-2] & ~on_curve[2:-1] & on_curve[3:] & (owner[:-3] == owner[3:])
    at = np.flatnonzero(cubic)
    return (points[at] + 3 * points[at + 1] + 3 * points[at + 2] + points[at + 3]) / 8, owner[at]


def _near_edge(samples: Floats, pixels: Pixels) -> npt.NDArray[np.bool_]:
    height, width = pixels.shape[:2]
    with np.errstate(invalid="ignore"):
        inside = ((samples > -2) & (samples < (width + 1, height + 1))).all(axis=1)
    found = np.zeros(len(samples), bool)
    at = samples[inside].round().astype(np.int64)
    middle = pixels[np.clip(at[:, 1], 0, height - 1), np.clip(at[:, 0], 0, width - 1)]
    differs = np.zeros(len(at), bool)
    for dy, dx in (
        (-2, 0),
        (2, 0),
        (0, -2),
        (0, 2),
        (-1, -1),
        (1, 1),
        (-1, 1),
        (1, -1),
        (-1, 0),
        (1, 0),
        (0, -1),
        (0, 1),
    ):
        beside = pixels[np.clip(at[:, 1] + dy, 0, height - 1), np.clip(at[:, 0] + dx, 0, width - 1)]
        differs |= (beside != middle).any(axis=1)
    found[inside] = differs
    return found


def _ink(shape: Shape) -> Colour:
    """Give the colour that a shape leaves on the page; one that no pixel has where it is not stated or is paper's."""
    for colour in (shape.stroke, shape.fill):
        if colour is not None and len(colour) == 3 and sum(colour) < _PAPER_FROM:
            return colour
    return _NO_INK


def _in_ink(samples: Floats, inks: npt.NDArray[np.int16], pixels: Pixels) -> npt.NDArray[np.bool_]:
    """Say which samples lie on pixels of their own path's colour."""
    height, width = pixels.shape[:2]
    with np.errstate(invalid="ignore"):
        at = np.nan_to_num(samples, nan=-9, posinf=-9, neginf=-9).clip(-9, 1e6).round().astype(np.int64)
    inside = ((at >= 0) & (at < (width, height))).all(axis=1)
    found = np.zeros(len(samples), bool)
    shown = pixels[at[inside, 1], at[inside, 0]].astype(np.int16)
    found[inside] = np.abs(shown - inks[inside]).sum(axis=1) <= _SAME_INK
    return found


def _seen(colour: Colour | tuple[()] | None, points: Floats, pixels: Pixels) -> Colour | None:
    """Give the stated colour, or the one that the page shows in the middle of the points where none is stated."""
    if colour is None or len(colour) == 3:
        return colour
    x, y = points.mean(axis=0).round().astype(int)
    red, green, blue = pixels[min(max(y, 0), len(pixels) - 1), min(max(x, 0), pixels.shape[1] - 1)].tolist()
    return red, green, blue
