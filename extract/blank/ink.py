"""Ink: every spot that is not paper, the long ruled lines among it, and solid areas that cover what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from ..page import Pixels
from .places import Box, Mask

_TILE = 16
_WINDOW, _DARKEST = 0.06, 0.6
_LEAST, _MOST, _SIGMAS = 14.0, 40.0, 6.0
_LINES_ACROSS, _LINES_UPRIGHT, _THICK = 4.0, 2.4, 0.5
"""In heights of a word: no stroke of a letter is so long, straight and level or upright, and no line so thick."""
_SPECK = 0.08
_WIDE, _TALL, _MARGIN, _HOLE = 1.3, 0.6, 0.4, 8.0
_HULL_TALL, _HULL_WIDE = 12.0, 60.0
_SIGN, _SIGN_REACH = 1.8, 5.0


@dataclass(frozen=True, slots=True)
class Ink:
    """What on a picture is ink.

    ``mask`` has shape (height, width). ``paper`` is the paper's colour at every pixel, shape (height, width, 3), uint8,
    RGB. ``grainy``: faint ink was not told from the grain of the paper.
    """

    mask: Mask
    paper: Pixels
    grainy: bool


def ink_of(pixels: Pixels) -> Ink:
    """Find every pixel that differs from the paper around it.

    Parameters
    ----------
    pixels : Pixels
        Shape (height, width, 3), uint8, RGB.

    Notes
    -----
    On clean paper a pixel counts that differs by 14 of 255 in any colour, on grainy paper more.
    """
    paper = _paper(pixels)
    apart = cv2.absdiff(pixels, paper).max(axis=2)
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY).astype(np.float32)
    grain = cv2.Laplacian(grey, cv2.CV_32F, ksize=1)
    # Of white noise with standard deviation s the Laplacian has sqrt(20) s; the median tells it on mostly blank pages.
    sigma = float(np.median(np.abs(grain))) / (0.6745 * np.sqrt(20))
    contrast = max(_LEAST, _SIGMAS * sigma)
    return Ink(np.asarray(apart > min(contrast, _MOST)), paper, contrast > _MOST)


def _paper(pixels: Pixels) -> Pixels:
    """Give the paper's colour at every pixel: what most bright places nearby have; a dark picture is no paper."""
    height, width = pixels.shape[:2]
    rows, columns = max(1, height // _TILE), max(1, width // _TILE)
    tiles = pixels[: rows * _TILE, : columns * _TILE] if min(height, width) >= _TILE else pixels
    small = cv2.resize(tiles, (columns, rows), interpolation=cv2.INTER_AREA)
    side = max(3, 2 * round(_WINDOW * max(rows, columns) / 2) + 1)
    bright = cv2.dilate(small, np.ones((side, side), np.uint8))
    usual = np.percentile(small.reshape(-1, 3), 80, axis=0)
    bright = np.maximum(bright, (_DARKEST * usual).astype(np.uint8))
    smooth = cv2.blur(cv2.erode(bright, np.ones((side, side), np.uint8)), (3, 3))
    smooth = np.maximum(smooth, (_DARKEST * usual).astype(np.uint8))
    return np.asarray(cv2.resize(smooth, (width, height), interpolation=cv2.INTER_LINEAR), np.uint8)


def without_rules(ink: Mask, height: float) -> Mask:
    """Take out the long thin lines of forms and tables; bars that stand close together are no ruled lines."""
    found = ink.astype(np.uint8)
    for upright, lines in ((False, _LINES_ACROSS), (True, _LINES_UPRIGHT)):
        found[_rules(ink, max(8, round(lines * height)), height, upright=upright)] = 0
    return found.astype(bool)


def _rules(ink: Mask, length: int, height: float, *, upright: bool) -> Mask:
    picture = (ink.T if upright else ink).astype(np.uint8)
    # Grown by a pixel, since a line that is a little askew goes over to the next row.
    grown = cv2.dilate(picture, np.ones((3, 1), np.uint8))
    lines = cv2.morphologyEx(grown, cv2.MORPH_OPEN, np.ones((1, length), np.uint8))
    thick = max(3, round(_THICK * height)) + 2
    solid = cv2.morphologyEx(lines, cv2.MORPH_OPEN, np.ones((thick, 1), np.uint8))
    # Lines with less than a line of print between them: the bars of a bar code, the rows of a screen.
    near = cv2.morphologyEx(lines, cv2.MORPH_CLOSE, np.ones((max(3, round(0.5 * height)), 1), np.uint8))
    crowd = cv2.morphologyEx(near, cv2.MORPH_OPEN, np.ones((max(thick + 1, round(0.8 * height)), 1), np.uint8))
    crowd = cv2.dilate(cv2.bitwise_or(crowd, solid), np.ones((3, 3), np.uint8))
    rules = (np.asarray(lines) > 0) & (np.asarray(crowd) == 0) & (picture > 0)
    return np.asarray(rules.T if upright else rules)


def covering(ink: Mask, height: float, kept: Sequence[Box] = ()) -> Mask:
    """Grow spots of ink into solid areas, so that not even the outline of a letter is left.

    Parameters
    ----------
    ink : Mask
        What must go.
    height : float
        The usual height of a word, pixels.
    kept : sequence of Box
        Words that stay: a single sign left of one, as in the key of a chart, stays with it.

    Returns
    -------
    Mask
        Areas that reach 0.4 of a word's height beyond the ink, with gaps and hollows filled, so that a signature leaves
        no trace of its line; specks smaller than a full stop and far from all else are left out.
    """
    wide, tall = (max(1, round(factor * height)) for factor in (_WIDE, _TALL))
    closed = cv2.morphologyEx(ink.astype(np.uint8), cv2.MORPH_CLOSE, np.ones((tall, wide), np.uint8))
    count, found, stats, _ = cv2.connectedComponentsWithStats(closed, connectivity=8)
    labels = np.asarray(found, np.int32)
    mass = np.bincount(labels[ink], minlength=count)
    keep = mass >= max(4.0, _SPECK * height * height)
    keep[0] = False
    for number in np.flatnonzero(keep):
        keep[number] = not _is_sign(tuple(map(int, stats[number, :4])), height, kept)
    solid = keep[labels].astype(np.uint8)
    for number in map(int, np.flatnonzero(keep)):
        _fill_hull(solid, labels, number, tuple(map(int, stats[number, :4])), height)
    solid = _filled(solid > 0, height).astype(np.uint8)
    reach = 2 * max(1, round(_MARGIN * height)) + 1
    return np.asarray(cv2.dilate(solid, np.ones((reach, reach), np.uint8)) > 0)


def _is_sign(place: tuple[int, ...], height: float, kept: Sequence[Box]) -> bool:
    """Say whether a spot is a single sign that stands left of a word that stays."""
    x, y, wide, high = place
    if max(wide, high) > _SIGN * height:
        return False
    middle = y + high / 2
    return any(box[1] <= middle <= box[3] and 0 < box[0] - (x + wide / 2) < _SIGN_REACH * height for box in kept)


def _fill_hull(
    solid: npt.NDArray[np.uint8], labels: npt.NDArray[np.int32], number: int, place: tuple[int, ...], height: float
) -> None:
    """Fill what a spot goes round, unless it is as large as a frame."""
    x, y, wide, high = place
    if high > _HULL_TALL * height or wide > _HULL_WIDE * height:
        return
    there = (slice(y, y + high), slice(x, x + wide))
    points = cv2.findNonZero((labels[there] == number).astype(np.uint8))
    hull = np.zeros((high, wide), np.uint8)
    cv2.fillConvexPoly(hull, cv2.convexHull(points), 1)
    solid[there] |= hull


def _filled(mask: Mask, height: float) -> Mask:
    """Fill the holes of areas, as far as they are no larger than a photo of a face."""
    _, labels, stats, _ = cv2.connectedComponentsWithStats((~mask).astype(np.uint8), connectivity=4)
    small = np.asarray(stats[:, cv2.CC_STAT_AREA] <= (_HOLE * height) ** 2)
    small[0] = False
    return np.asarray(mask | small[np.asarray(labels, np.int32)])
