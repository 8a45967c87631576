"""How a page lies in its picture: skew and perspective, from the straight lines on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .page import Pixels, grey_of
from .paper import find_paper

LONG_SIDE = 1300
"""Lines are looked for on a picture reduced to this many pixels on its long side."""
FIRST_LONG_SIDE = 1000
"""Smaller, and enough where the lines show that a page lies flat: on 16 painted pages the corners moved by 1.4 px at
most, of 3,500."""
LONE_WORTH = 0.12
"""What lines that run one way alone count, beside the geometric mean of both ways."""
UNLIKELY_DEG = 6.0
UNLIKELY_WORTH = 0.55
"""Sheets that lie farther askew are rare, and other lines of a chart run so: they need more votes."""
ONE_TURN = 0.004
"""Slopes this near to one another are one direction."""
ONE_TURN_SHARE = 0.55
"""Where so much of the line length has one direction, both ways, the page is flat and only turned."""
FAMILY_DEG = 14.0
"""A line this near to level or upright may be a level or upright line of the page seen askew."""

Segments = npt.NDArray[np.float64]
Homography = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Tilt:
    """The map from page pixels to straight pixels, and how the page lay."""

    matrix: Homography
    skew_deg: float
    perspective: bool
    shear: float = 0.0
    """How far level and upright lines are from a right angle in the middle of the page, as a slope."""


def find_tilt(pixels: Pixels) -> Tilt:
    """Find the homography that lays a page straight.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The page as displayed.

    Returns
    -------
    Tilt
        A turn alone where the lines show no perspective, the identity where they show nothing.

    Notes
    -----
    Line segments (von Gioi's detector, in OpenCV) on the sheet of paper vote with the square of their length for an
    angle modulo 90 degrees. Around it, level and upright segments each give a vanishing point by reweighted least
    squares; the homography that sends both to infinity keeps the picture's centre and scale.
    """
    grey = grey_of(pixels)
    height, width = grey.shape
    seen = _lines_at(grey, FIRST_LONG_SIDE)
    if seen is None or not seen.flat:
        seen = _lines_at(grey, LONG_SIDE)
    if seen is None:
        return Tilt(np.eye(3), 0.0, False)
    skew, turn = seen.skew_deg, _turn(width, height, seen.skew_deg)
    if seen.flat:
        return Tilt(turn, skew, False)
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    across, down = _vanishing(seen.level, 0), _vanishing(seen.upright, 1)
    if across is None or down is None:
        return Tilt(turn, skew, False)
    (m, k), (n, u) = across, down
    if max(abs(m), abs(n)) > 0.2 or max(abs(k), abs(u)) > 0.45:
        return Tilt(turn, skew, False)
    # 1.5 px at the edge of a 1,300 px picture is where a bend of the lattice can still take the rest
    if max(abs(m), abs(n), abs(k), abs(u)) < 0.004:
        return Tilt(turn, skew, False)
    half = max(width, height) / 2
    askew = np.array([[1.0, n, 0], [m, 1.0, 0], [k, u, 1.0]])
    scale = np.diag([half, half, 1.0])
    shift = np.array([[1.0, 0, centre[0]], [0, 1.0, centre[1]], [0, 0, 1]])
    straight = shift @ scale @ np.linalg.inv(askew) @ np.linalg.inv(scale) @ np.linalg.inv(shift)
    return Tilt(straight @ turn, skew, max(abs(k), abs(u)) > 0.02, abs(m + n))


@dataclass(frozen=True, slots=True)
class _Lines:
    """The skew that segments show, and the near-level and near-upright ones, shape (n, 2, 2), with it undone.

    ``flat`` where nearly all have one direction, both ways.
    """

    skew_deg: float
    level: npt.NDArray[np.float64]
    upright: npt.NDArray[np.float64]
    flat: bool


def _lines_at(grey: npt.NDArray[np.uint8], long_side: int) -> _Lines | None:
    """Look at a page's lines at a size; None where they show no skew."""
    segments = _segments(grey, long_side)
    skew = _main_angle(segments)
    if skew is None:
        return None
    height, width = grey.shape
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    ends = np.stack([segments[:, :2], segments[:, 2:]], axis=1) - centre
    radians = math.radians(skew)
    rotation = np.array([[math.cos(radians), math.sin(radians)], [-math.sin(radians), math.cos(radians)]])
    level, upright = _families(ends @ rotation.T / (max(width, height) / 2))
    flat = _one_direction(level, 0) > ONE_TURN_SHARE and _one_direction(upright, 1) > ONE_TURN_SHARE
    return _Lines(skew, level, upright, flat)


def _segments(grey: npt.NDArray[np.uint8], long_side: int) -> Segments:
    """Find the long line segments on the paper and its edges, shape (n, 4): x0, y0, x1, y1 in page pixels."""
    import cv2

    scale = min(1.0, long_side / max(grey.shape))
    small = cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    found = cv2.createLineSegmentDetector(cv2.LSD_REFINE_NONE).detect(small)[0]
    if found is None:
        return np.empty((0, 4))
    ends = np.asarray(found, np.float64).reshape(-1, 4)
    long = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1]) > max(small.shape) / 45
    ends = ends[long]
    paper = find_paper(np.asarray(small, np.uint8))
    middle = ((ends[:, :2] + ends[:, 2:]) / 2).astype(int)
    on_paper = paper.mask[middle[:, 1].clip(0, small.shape[0] - 1), middle[:, 0].clip(0, small.shape[1] - 1)] > 0
    return (np.vstack([ends[on_paper], paper.edges]) + 0.5) / scale - 0.5


def _main_angle(segments: Segments) -> float | None:
    """Give the angle, -45 to 45 degrees clockwise, that most level and upright line length has, modulo 90 degrees."""
    if len(segments) < 4:
        return None
    dx, dy = segments[:, 2] - segments[:, 0], segments[:, 3] - segments[:, 1]
    angle = (np.degrees(np.arctan2(dy, dx)) + 45) % 90 - 45
    weight = dx**2 + dy**2
    flat = np.abs(dx) > np.abs(dy)
    level, upright = (_votes(angle[part], weight[part]) for part in (flat, ~flat))
    # a page has lines both ways; the joining lines of marks and the strokes of crosses mostly have not
    both = np.sqrt(level * upright) + LONE_WORTH * (level + upright)
    bins = (np.arange(len(both)) + 0.5) / 10 - 45
    centre = float(bins[(both * np.where(np.abs(bins) < UNLIKELY_DEG, 1.0, UNLIKELY_WORTH)).argmax()])
    away = (angle - centre + 45) % 90 - 45
    near = np.abs(away) < 0.6
    if weight[np.abs(away) < 3].sum() < 0.25 * weight.sum():
        return None
    return centre + float(np.average(away[near], weights=weight[near]))


def _votes(angle: npt.NDArray[np.float64], weight: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Sum weights over angles in steps of 0.1 degrees, smoothed over 1.5 degrees."""
    bins = np.histogram(angle, bins=900, range=(-45, 45), weights=weight)[0]
    return np.convolve(np.concatenate([bins[-15:], bins, bins[:15]]), np.hanning(15), "same")[15:-15]


def _turn(width: int, height: int, skew: float) -> Homography:
    cos, sin = math.cos(math.radians(skew)), math.sin(math.radians(skew))
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    turn = np.array([[cos, sin], [-sin, cos]])
    matrix = np.eye(3)
    matrix[:2, :2] = turn
    matrix[:2, 2] = centre - turn @ centre
    return matrix


def _families(ends: npt.NDArray[np.float64]) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Split segments, shape (n, 2, 2), into near-level and near-upright ones."""
    way = ends[:, 1] - ends[:, 0]
    steep = math.tan(math.radians(FAMILY_DEG))
    return ends[np.abs(way[:, 1]) < steep * np.abs(way[:, 0])], ends[np.abs(way[:, 0]) < steep * np.abs(way[:, 1])]


def _one_direction(ends: npt.NDArray[np.float64], axis: int) -> float:
    """Give the share of a family's squared length that has its commonest slope."""
    if not len(ends):
        return 0.0
    way = ends[:, 1] - ends[:, 0]
    slope, weight = way[:, 1 - axis] / way[:, axis], (way**2).sum(axis=1)
    order = np.argsort(slope)
    slope, total = slope[order], np.concatenate([[0.0], np.cumsum(weight[order])])
    last = np.searchsorted(slope, slope + 2 * ONE_TURN, side="right")
    return float((total[last] - total[:-1]).max() / total[-1])


def _vanishing(ends: npt.NDArray[np.float64], axis: int) -> tuple[float, float] | None:
    """Fit a family's vanishing point (1, m, k), or for upright lines (n, 1, l), in centred coordinates.

    A line through (x, y) with slope s runs to it when s - m = k (s x - y); upright lines likewise with x and y changed.
    """
    if len(ends) < 6:
        return None
    middle, way = ends.mean(axis=1), ends[:, 1] - ends[:, 0]
    along, off = middle[:, axis], middle[:, 1 - axis]
    slope = way[:, 1 - axis] / way[:, axis]
    weight0 = np.hypot(way[:, 0], way[:, 1]) ** 2
    design = np.stack([np.ones_like(slope), slope * along - off], axis=1)
    weight = weight0.copy()
    fit = np.zeros(2)
    for step in range(15):
        root = np.sqrt(weight)
        pull = 0.02 * math.sqrt(weight0.sum()) * np.diag([0.0, 1.0])
        fit = np.linalg.lstsq(
            np.vstack([design * root[:, None], pull]), np.concatenate([slope * root, np.zeros(2)]), rcond=None
        )[0]
        miss = np.abs(slope - design @ fit)
        limit = max(0.004, 0.05 * 0.6**step)
        weight = weight0 / (1 + (miss / limit) ** 2) ** 2
    return float(fit[0]), float(fit[1])
