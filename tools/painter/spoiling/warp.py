"""Where a point of the clean page goes: exact maps from page fractions to page fractions.

Frames: a *page fraction* runs from 0 at the left (top) edge of a picture to 1 at the right (bottom) edge. In pixels the
centre of the top-left pixel is (0, 0), so that ``pixel = fraction * size - 0.5``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]
Points = npt.NDArray[np.float64]
Warp = Callable[[Points], Points]
"""Page fractions before, shape (n, 2), to page fractions after, shape (n, 2)."""


def pixels_of(size: tuple[int, int]) -> Points:
    """Give the 3 x 3 matrix from fractions to pixel positions of a picture of ``size`` (width, height)."""
    width, height = size
    return np.array([[width, 0, -0.5], [0, height, -0.5], [0, 0, 1]], dtype=np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class Homography:
    """A projective map of fractions; ``matrix`` has shape (3, 3) and acts on (x, y, 1)."""

    matrix: Points

    @classmethod
    def of_pixels(cls, matrix: Points, before: tuple[int, int], after: tuple[int, int]) -> Homography:
        """Make the map of fractions from a matrix of pixel positions and both sizes (width, height)."""
        return cls(np.linalg.inv(pixels_of(after)) @ matrix @ pixels_of(before))

    def __call__(self, points: Points) -> Points:
        """Carry points, shape (n, 2), through the map."""
        moved = np.c_[points, np.ones(len(points))] @ self.matrix.T
        return moved[:, :2] / moved[:, 2:]


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """Maps that follow one another, the first one first."""

    steps: tuple[Warp, ...]

    def __call__(self, points: Points) -> Points:
        """Carry points, shape (n, 2), through every step."""
        for step in self.steps:
            points = step(points)
        return points


@dataclass(frozen=True, slots=True, eq=False)
class Curl:
    """A bent sheet seen by a camera.

    The sheet is a cylinder: it bends along one direction (``turn_rad`` from the sheet's x axis) and is straight across
    it. The slope of the surface at the distance s along that direction is ``slope[0] + slope[1] s + slope[2] s**2``,
    where the sheet's width is 1; positions along the bend shorten by half the squared slope, as paper does not stretch.
    ``camera`` has shape (3, 4) and takes (x, y, z, 1) to the picture's fractions.
    """

    height: float
    turn_rad: float
    slope: tuple[float, float, float]
    camera: Points

    def surface(self, points: Points) -> Points:
        """Give the place in space, shape (n, 3), of points of the flat sheet in fractions, shape (n, 2)."""
        x, y = points[:, 0] - 0.5, (points[:, 1] - 0.5) * self.height
        cos, sin = np.cos(self.turn_rad), np.sin(self.turn_rad)
        along, across = x * cos + y * sin, y * cos - x * sin
        rise = np.polynomial.Polynomial(self.slope)
        height = rise.integ()
        shorter = (rise**2).integ()
        along_bent = along - 0.5 * shorter(along)
        return np.c_[along_bent * cos - across * sin, along_bent * sin + across * cos, height(along)]

    def slope_at(self, points: Points) -> Points:
        """Give the surface's slope along x and y, shape (n, 2), at points in fractions."""
        x, y = points[:, 0] - 0.5, (points[:, 1] - 0.5) * self.height
        cos, sin = np.cos(self.turn_rad), np.sin(self.turn_rad)
        rise = np.polynomial.Polynomial(self.slope)(x * cos + y * sin)
        return np.c_[rise * cos, rise * sin]

    def __call__(self, points: Points) -> Points:
        """Carry points of the flat sheet, shape (n, 2), to the picture."""
        seen = np.c_[self.surface(points), np.ones(len(points))] @ self.camera.T
        return seen[:, :2] / seen[:, 2:]


def turned(quarter_turns: int, size: tuple[int, int]) -> tuple[Points, tuple[int, int]]:
    """Give the pixel matrix of clockwise quarter turns, and the size (width, height) after them."""
    width, height = size
    matrix = np.eye(3)
    for _ in range(quarter_turns % 4):
        matrix = np.array([[0, -1, height - 1], [1, 0, 0], [0, 0, 1]], dtype=np.float64) @ matrix
        width, height = height, width
    return matrix, (width, height)


def about(centre: tuple[float, float], *, turn_deg: float = 0.0, stretch: tuple[float, float] = (1.0, 1.0)) -> Points:
    """Give the pixel matrix of a small turn and stretch about a point that stays where it is."""
    angle = np.deg2rad(turn_deg)
    linear = np.diag(stretch) @ np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    matrix = np.eye(3)
    matrix[:2, :2] = linear
    matrix[:2, 2] = np.asarray(centre) - linear @ np.asarray(centre)
    return matrix


def resample(
    pixels: Pixels,
    matrix: Points,
    size: tuple[int, int],
    *,
    paper: tuple[int, int, int] | int = 255,
    aperture: float = 0.4,
) -> Pixels:
    """Draw a picture through a pixel matrix into a picture of ``size`` (width, height).

    Where the picture shrinks it is first blurred with a standard deviation of ``aperture`` new pixels, as the sensor of
    a scanner averages over its cell; without this thin lines would vanish or beat with the sampling.
    """
    spread = np.linalg.norm(np.linalg.inv(matrix[:2, :2]), axis=1)
    sigma = [aperture * s if s > 1.05 else 0.0 for s in spread]
    if max(sigma) > 0:
        pixels = np.asarray(cv2.GaussianBlur(pixels, (0, 0), max(sigma[0], 0.01), sigmaY=max(sigma[1], 0.01)), np.uint8)
    border = (paper,) * 3 if isinstance(paper, int) else paper
    flags = cv2.INTER_LINEAR
    moved = cv2.warpPerspective(
        pixels, matrix, size, flags=flags, borderMode=cv2.BORDER_CONSTANT, borderValue=tuple(float(v) for v in border)
    )
    return np.asarray(moved, np.uint8)


def inverse_map(
    warp: Warp, before: tuple[int, int], after: tuple[int, int], *, step: int = 16
) -> npt.NDArray[np.float32]:
    """Find, for every pixel of the new picture, the pixel position in the old one, shape (height, width, 2).

    Newton's method on a grid of every ``step`` pixels, then linear between: a sheet that bends by 60 px over 3,000 px
    has a second derivative of 5e-5, so that the linear step is off by 5e-5 * 16**2 / 8 < 0.002 px.
    """
    width, height = after
    columns, rows = np.arange(-step, width + 2 * step, step), np.arange(-step, height + 2 * step, step)
    want = (np.stack(np.meshgrid(columns, rows), -1).reshape(-1, 2) + 0.5) / (width, height)
    corners = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=np.float64)
    start = cv2.getPerspectiveTransform(warp(corners).astype(np.float32), corners.astype(np.float32))
    # far outside the sheet the bend's polynomial runs away: it is held there, for there is only background
    at = np.clip(Homography(np.asarray(start, np.float64))(want), -0.3, 1.3)
    tiny = 1e-5
    for _ in range(8):
        here = warp(at)
        by_x, by_y = ((warp(at + move) - here) / tiny for move in (np.array([tiny, 0]), np.array([0, tiny])))
        area = by_x[:, 0] * by_y[:, 1] - by_x[:, 1] * by_y[:, 0]
        off = want - here
        ahead = np.c_[off[:, 0] * by_y[:, 1] - off[:, 1] * by_y[:, 0], by_x[:, 0] * off[:, 1] - by_x[:, 1] * off[:, 0]]
        at = np.clip(at + ahead / area[:, None], -0.3, 1.3)
    coarse = (at * before - 0.5).astype(np.float32).reshape(len(rows), len(columns), 2)
    # grid node (i, j) stands at pixel (step * (j - 1), step * (i - 1))
    place = np.array([[step, 0, -step], [0, step, -step]], dtype=np.float64)
    dense = cv2.warpAffine(coarse, place, after, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return np.asarray(dense, np.float32)
