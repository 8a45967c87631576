"""Arrows whose head hides their shaft: filled triangles that point down."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .apart import Figure

LEAST_FALL = 0.4
"""An arrow points down by at least this share of its length."""
SLANT = 0.3
"""An arrow that runs to a side by less than this share of its length points straight down."""
EVEN, UNEVEN = 0.06, 0.12
"""The sides that meet in a head's tip are equal to so much of its longest side, and those of its other corners not."""
CORNER = 0.04
"""A bend of an outline by less, as a share of its length, is no corner."""
HIDDEN = 0.6
"""The tail of the shaft that a head hides is no farther than this from its base, in lengths of the head."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow: ``way`` is 0 for down-left, 1 for down-right, 2 for straight down; its tail in sheet pixels."""

    way: int
    tail: tuple[float, float]


def bare_head(figure: Figure) -> Arrow | None:
    """Say whether a figure is the head of an arrow, with a shaft that it hides or with none.

    Parameters
    ----------
    figure : Figure
        The figure.

    Returns
    -------
    Arrow or None
        None for anything else, and for a triangle alone that points straight down, which may be a mark.
    """
    *shaft, head = figure.groups
    if len(shaft) > 1 or not head.solid or not all(part.is_stroke for part in shaft):
        return None
    corners = _corners(head)
    if len(corners) != 3:
        return None
    tail = _tail(shaft[0], corners) if shaft else None
    tip = _tip(corners, tail)
    if tip is None:
        return None
    base = np.delete(corners, tip, axis=0).mean(axis=0)
    way = corners[tip] - base
    long = float(np.hypot(*way))
    if tail is not None and abs(float((base - tail) @ way)) > HIDDEN * long**2:
        return None
    right, down = (way / long).tolist()
    straight = abs(right) < SLANT
    if down < LEAST_FALL or (straight and tail is None):
        return None
    begins = base if tail is None else tail
    return Arrow(2 if straight else int(right > 0), (float(begins[0]), float(begins[1])))


def _corners(head: Figure) -> npt.NDArray[np.float64]:
    import cv2

    points = np.concatenate(head.outlines).astype(np.float32)
    hull = cv2.convexHull(points)
    found = cv2.approxPolyDP(hull, CORNER * cv2.arcLength(hull, closed=True), closed=True)
    return np.asarray(found, np.float64).reshape(-1, 2)


def _tail(shaft: Figure, corners: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Give the end of a shaft that is not at the tip: the one farther from the corner next to it."""
    points = np.concatenate(shaft.outlines)
    away = np.hypot(*(points[:, None] - corners).transpose(2, 0, 1)).min(axis=1)
    return points[away.argmax()]


def _tip(corners: npt.NDArray[np.float64], tail: npt.NDArray[np.float64] | None) -> int | None:
    """Name the corner in which two equal sides meet: of a triangle of three equal ones, the one away from the shaft."""
    sides = [math.dist(corners[i], corners[i - 1]) for i in range(3)]  # side i leads to corner i
    longest = max(sides)
    uneven = [abs(sides[i] - sides[(i + 1) % 3]) / longest for i in range(3)]
    even = [i for i in range(3) if uneven[i] < EVEN]
    if len(even) == 1 and sorted(uneven)[1] > UNEVEN:
        return even[0]
    if tail is None or not even:
        return None
    return max(even, key=lambda i: float(np.hypot(*(corners[i] - tail))))
