"""How a page lies in its picture: skew and perspective, from the straight lines on it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from .page import Pixels
from .paper import find_paper
from .shades import grey_of, reduced

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
MORE_IN_LINE = 0.3
"""Lines that run together at two points must hold so much more of the line length, of both ways in all, than lines of
one direction each do: on 75 painted flat pages they held 0.24 more at the most, and on most nothing."""
MORE_ON_GROUND = 0.1
"""The same where the sheet is seen to lie on some ground: that is a photo, and seldom taken from straight above."""
LONG, SHORT, FEW_LONG = 1 / 45, 1 / 110, 15
"""Segments are longer than this share of the picture's long side; than the lesser where fewer are."""
BESIDE_EDGE = 0.008
"""Lines so near to the sheet's outline, as a share of the picture's long side, are its edge."""
EDGE_TURN = 0.01
"""Edges of a flat sheet run as its print does, by so much: one that is seen from aside has edges that run together."""
SHEAR_ON_GROUND = 0.015
"""Level and upright lines of a photo that are farther from a right angle, as a slope, are no flat page's."""
FAMILY_DEG = 14.0
"""A line this near to level or upright may be a level or upright line of the page seen askew."""

Segments = npt.NDArray[np.float64]
Homography = npt.NDArray[np.float64]
Ends = npt.NDArray[np.float64]
Place = tuple[float, float]


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
    if seen is None or seen.on_ground or not seen.flat:  # the edges of a sheet are found better
        seen = _lines_at(grey, LONG_SIDE)
    if seen is None:
        return Tilt(np.eye(3), 0.0, False)
    skew, turn = seen.skew_deg, _turn(width, height, seen.skew_deg)
    if seen.flat:
        return Tilt(turn, skew, False)
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    found = seen.vanishing
    if found is None:
        return Tilt(turn, skew, False)
    (m, k), (n, u) = found
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


@dataclass(frozen=True, eq=False)  # without slots, which leave no room for what is kept
class _Lines:
    """The skew that segments show, and the near-level and near-upright ones, shape (n, 2, 2), with it undone.

    ``edges`` are those of them that are edges of the sheet, ``on_ground`` says whether it lies on a darker ground.
    """

    skew_deg: float
    level: Ends
    upright: Ends
    edges: tuple[Ends, Ends]
    on_ground: bool

    @cached_property
    def vanishing(self) -> tuple[Place, Place] | None:
        """Where the lines run together, as `_vanishing` has it; None where there are too few."""
        across, down = _vanishing(self.level, 0), _vanishing(self.upright, 1)
        return None if across is None or down is None else (across, down)

    @cached_property
    def flat(self) -> bool:
        """Whether enough lines have one direction each, and a right angle between them."""
        if max(_steepest(edges, axis) for axis, edges in enumerate(self.edges)) > EDGE_TURN:
            return False
        found = self.vanishing
        if found is None:
            return False
        across, down = found
        if self.on_ground and abs(across[0] + down[0]) > SHEAR_ON_GROUND:
            return False
        more = _in_line(self.level, 0, across) - _one_direction(self.level, 0)
        more += _in_line(self.upright, 1, down) - _one_direction(self.upright, 1)
        return more < (MORE_ON_GROUND if self.on_ground else MORE_IN_LINE)


def _lines_at(grey: npt.NDArray[np.uint8], long_side: int) -> _Lines | None:
    """Look at a page's lines at a size; None where they show no skew."""
    printed, edges, on_ground = _segments(grey, long_side)
    skew = _main_angle(np.vstack([printed, edges]))
    if skew is None:
        return None
    height, width = grey.shape
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    radians = math.radians(skew)
    rotation = np.array([[math.cos(radians), math.sin(radians)], [-math.sin(radians), math.cos(radians)]])

    def turned(segments: Segments) -> Segments:
        ends = np.stack([segments[:, :2], segments[:, 2:]], axis=1) - centre
        return ends @ rotation.T / (max(width, height) / 2)

    level, upright = _families(turned(np.vstack([printed, edges])))
    return _Lines(skew, level, upright, _families(turned(edges)), on_ground)


def _segments(grey: npt.NDArray[np.uint8], long_side: int) -> tuple[Segments, Segments, bool]:
    """Find the long line segments on the paper, and its edges, each of shape (n, 4): x0, y0, x1, y1 in page pixels.

    Say as well whether it lies on a darker ground.
    """
    import cv2

    scale = min(1.0, long_side / max(grey.shape))
    small = reduced(grey, scale)
    found = cv2.createLineSegmentDetector(cv2.LSD_REFINE_NONE).detect(small)[0]
    if found is None:
        return np.empty((0, 4)), np.empty((0, 4)), False
    ends = np.asarray(found, np.float64).reshape(-1, 4)
    ends = np.concatenate([_long_enough(ends[part], max(small.shape)) for part in _flat_and_steep(ends)])
    paper = find_paper(small)
    middle = ((ends[:, :2] + ends[:, 2:]) / 2).astype(int)
    inner = cv2.erode(
        paper.mask, np.ones((3, 3), np.uint8), iterations=round(BESIDE_EDGE * max(small.shape)), borderValue=255
    )
    on_paper = inner[middle[:, 1].clip(0, small.shape[0] - 1), middle[:, 0].clip(0, small.shape[1] - 1)] > 0
    on_ground = not paper.mask.all()
    return (ends[on_paper] + 0.5) / scale - 0.5, (paper.edges + 0.5) / scale - 0.5, on_ground


def _flat_and_steep(ends: Segments) -> tuple[npt.NDArray[np.bool_], npt.NDArray[np.bool_]]:
    flat = np.abs(ends[:, 2] - ends[:, 0]) > np.abs(ends[:, 3] - ends[:, 1])
    return flat, ~flat


def _long_enough(ends: Segments, long_side: int) -> Segments:
    """Keep the long segments of one way; shorter ones too where few are: lines of a small chart break each other."""
    length = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    long = length > LONG * long_side
    return ends[long] if long.sum() >= FEW_LONG else ends[length > SHORT * long_side]


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


def _families(ends: Ends) -> tuple[Ends, Ends]:
    """Split segments, shape (n, 2, 2), into near-level and near-upright ones."""
    way = ends[:, 1] - ends[:, 0]
    steep = math.tan(math.radians(FAMILY_DEG))
    return ends[np.abs(way[:, 1]) < steep * np.abs(way[:, 0])], ends[np.abs(way[:, 0]) < steep * np.abs(way[:, 1])]


def _steepest(ends: Ends, axis: int) -> float:
    """Give the greatest slope in a family, as a size."""
    way = ends[:, 1] - ends[:, 0]
    return float(np.abs(way[:, 1 - axis] / way[:, axis]).max(initial=0.0))


def _in_line(ends: Ends, axis: int, place: Place) -> float:
    """Give the share of a family's squared length that runs to a vanishing point as `_vanishing` has it."""
    middle, way = ends.mean(axis=1), ends[:, 1] - ends[:, 0]
    slope, weight = way[:, 1 - axis] / way[:, axis], (way**2).sum(axis=1)
    miss = np.abs(slope - place[0] - place[1] * (slope * middle[:, axis] - middle[:, 1 - axis]))
    return float(weight[miss < ONE_TURN].sum() / weight.sum())


def _one_direction(ends: Ends, axis: int) -> float:
    """Give the share of a family's squared length that has its commonest slope."""
    if not len(ends):
        return 0.0
    way = ends[:, 1] - ends[:, 0]
    slope, weight = way[:, 1 - axis] / way[:, axis], (way**2).sum(axis=1)
    order = np.argsort(slope)
    slope, total = slope[order], np.concatenate([[0.0], np.cumsum(weight[order])])
    last = np.searchsorted(slope, slope + 2 * ONE_TURN, side="right")
    return float((total[last] - total[:-1]).max() / total[-1])


def _vanishing(ends: Ends, axis: int) -> Place | None:
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
    pull = np.diag([0.0, 0.0004 * weight0.sum()])
    for step in range(15):
        weighed = design.T * weight
        fit = np.linalg.solve(weighed @ design + pull, weighed @ slope)
        miss = np.abs(slope - design @ fit)
        limit = max(0.004, 0.05 * 0.6**step)
        weight = weight0 / (1 + (miss / limit) ** 2) ** 2
    return float(fit[0]), float(fit[1])
