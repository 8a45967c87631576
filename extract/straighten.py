"""Page to Sheet: quarter turns and skew undone, so that rows run along the picture's rows."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from .eyes.runs import frequency_values, level_value
from .eyes.words import read_words
from .page import Page, Pixels, Word
from .sheet import Sheet

LEAST_SKEW_DEG = 0.04
"""A smaller skew is left alone: over the width of a page it moves a line by less than 2 px at 300 dpi."""


def straighten(page: Page) -> Sheet:
    """Turn a page upright.

    Parameters
    ----------
    page : Page
        The page as displayed.

    Returns
    -------
    Sheet
        A drawn page with words of its own is taken as it is; any other is turned by what its lines and words show.
    """
    height, width = page.pixels.shape[:2]
    if page.words is not None:
        return Sheet(
            page.pixels, np.eye(3), (width, height), page.source.taken_by, page.words, page.paths, 0.0, page.notes
        )
    skew = skew_deg(page.pixels)
    matrix = _turn(width, height, skew) if abs(skew) >= LEAST_SKEW_DEG else np.eye(3)
    pixels = _moved(page.pixels, matrix, (width, height)) if abs(skew) >= LEAST_SKEW_DEG else page.pixels
    quarters, words = _upright(pixels)
    if quarters:
        pixels = np.ascontiguousarray(np.rot90(pixels, quarters))
        matrix = _quarter_matrix(quarters, (width, height)) @ matrix
    notes = page.notes + (("skewed",) if abs(skew) > 5 or quarters else ())
    pixels.flags.writeable = False
    return Sheet(
        pixels, np.linalg.inv(matrix), (width, height), page.source.taken_by, words, (), skew + 90 * quarters, notes
    )


def skew_deg(pixels: Pixels) -> float:
    """Measure by how much the page's straight lines are turned clockwise from level, -45 to 45 degrees.

    Notes
    -----
    Line segments (von Gioi's detector, in OpenCV) vote with the square of their length for their angle modulo 90
    degrees; the middle of the votes within 0.6 degrees of the best angle is taken.
    """
    import cv2

    scale = min(1.0, 1300 / max(pixels.shape[:2]))
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    small = cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    segments = cv2.createLineSegmentDetector(cv2.LSD_REFINE_NONE).detect(small)[0]
    if segments is None:
        return 0.0
    ends = np.asarray(segments, np.float64).reshape(-1, 4)
    dx, dy = ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1]
    length = np.hypot(dx, dy)
    long = length > max(small.shape) / 40
    if long.sum() < 4:
        return 0.0
    angle = np.degrees(np.arctan2(dy[long], dx[long]))
    angle = (angle + 45) % 90 - 45
    weight = length[long] ** 2
    bins = np.histogram(angle, bins=900, range=(-45, 45), weights=weight)[0]
    wrapped = np.concatenate([bins[-10:], bins, bins[:10]])
    smooth = np.convolve(wrapped, np.hanning(9), "same")[10:-10]
    centre = -45 + 0.1 * (float(smooth.argmax()) + 0.5)
    away = (angle - centre + 45) % 90 - 45
    near = np.abs(away) < 0.6
    if weight[near].sum() < 0.25 * weight.sum():
        return 0.0
    return centre + float(np.average(away[near], weights=weight[near]))


def _turn(width: int, height: int, skew: float) -> npt.NDArray[np.float64]:
    cos, sin = math.cos(math.radians(skew)), math.sin(math.radians(skew))
    centre = np.array([(width - 1) / 2, (height - 1) / 2])
    turn = np.array([[cos, sin], [-sin, cos]])
    matrix = np.eye(3)
    matrix[:2, :2] = turn
    matrix[:2, 2] = centre - turn @ centre
    return matrix


def _moved(pixels: Pixels, matrix: npt.NDArray[np.float64], size: tuple[int, int]) -> Pixels:
    import cv2

    moved = cv2.warpAffine(
        pixels, matrix[:2], size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=(255, 255, 255)
    )
    return np.asarray(moved, np.uint8)


def _quarter_matrix(quarters: int, size: tuple[int, int]) -> npt.NDArray[np.float64]:
    """Give the map of pixel positions that ``numpy.rot90(pixels, quarters)`` makes."""
    width, height = size
    if quarters == 1:
        return np.array([[0.0, 1, 0], [-1, 0, width - 1], [0, 0, 1]])
    if quarters == 2:
        return np.array([[-1.0, 0, width - 1], [0, -1, height - 1], [0, 0, 1]])
    return np.array([[0.0, -1, height - 1], [1, 0, 0], [0, 0, 1]])


ENOUGH_NUMBERS = 4.5
"""So many numbers read with certainty settle that a page is upright; an axis pair alone has about 12 of this kind."""


def _upright(pixels: Pixels) -> tuple[int, tuple[Word, ...]]:
    """Tell how many quarter turns against the clock make the page's numbers readable, and read its words so turned."""
    best: tuple[float, int, tuple[Word, ...]] = (-1.0, 0, ())
    for quarters in (0, 2, 1, 3):
        turned = np.ascontiguousarray(np.rot90(pixels, quarters)) if quarters else pixels
        words = read_words(turned)
        worth = _numbers_read(words)
        if worth > best[0] * 1.25 + 0.5:
            best = (worth, quarters, words)
        if quarters == 0 and worth >= ENOUGH_NUMBERS:
            break
    return best[1], best[2]


def _numbers_read(words: tuple[Word, ...]) -> float:
    """Count the axis numbers of two digits or more; upside down, 0, 1 and 8 read alike, but most others do not."""
    good = [w for w in words if len(w.text) >= 2 and (frequency_values(w.text) or level_value(w.text) is not None)]
    unlike = [w for w in good if set(w.text) & set("23457")]
    return sum(w.confidence**4 for w in unlike)
