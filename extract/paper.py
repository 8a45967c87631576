"""The sheet of paper in a picture of it: where it is, and its straight edges."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .page import Pixels, Word
from .shades import grey_of, once

Grey = npt.NDArray[np.uint8]
REDUCED = 0.25
"""The sheet is looked for on a picture so much smaller."""
CORNER_SHARE = 0.02
"""An outline is taken as four edges that leave it by no more than this share of its length."""
WHOLE = 0.96
"""Share of the sheet that its four corners hold: one with a corner off the picture or folded has more."""
ENDS = 0.08
"""Share of an edge at either end that is left out: corners are round or folded."""
NEAR_PX = 3.0
MOST_CURL_PX = 0.8
"""Points of an edge, in pixels of the small picture, stray from a line by less, or it is no straight edge."""
BORDER_PX = 3
WELL_READ, PATTERN, UNREADABLE = 0.8, 80, 0.4
"""The confidence of words that say something; so many that say nothing, and such a share of all that are seen beside
the sheet, are the pattern of what it lies on."""


@dataclass(frozen=True, slots=True)
class Paper:
    """The sheet in a grey picture: its mask (255 on it), and its straight edges, shape (n, 4): x0, y0, x1, y1."""

    mask: Grey
    edges: npt.NDArray[np.float64]


def find_paper(grey: Grey) -> Paper:
    """Find the sheet: the largest bright patch, filled; everything where no darker surround is seen.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The picture.
    """
    import cv2

    soft = cv2.GaussianBlur(cv2.resize(grey, None, fx=REDUCED, fy=REDUCED, interpolation=cv2.INTER_AREA), (0, 0), 3)
    _, bright = cv2.threshold(soft, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(bright)
    everything = Paper(np.full(grey.shape, 255, np.uint8), np.empty((0, 4)))
    if count < 2:
        return everything
    largest = 1 + int(stats[1:, cv2.CC_STAT_AREA].argmax())
    share = stats[largest, cv2.CC_STAT_AREA] / bright.size
    border = np.concatenate([labels[0], labels[-1], labels[:, 0], labels[:, -1]])
    if not 0.12 < share < 0.95 or (border == largest).mean() > 0.6:
        return everything
    outlines, _ = cv2.findContours((labels == largest).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    outline = max(outlines, key=cv2.contourArea)
    hull = cv2.convexHull(outline)
    mask = np.zeros(labels.shape, np.uint8)
    cv2.drawContours(mask, [hull], -1, 255, -1)
    whole = cv2.resize(mask, (grey.shape[1], grey.shape[0]), interpolation=cv2.INTER_NEAREST)
    edges = _edges(np.asarray(outline[:, 0], float), np.asarray(hull), (soft.shape[1], soft.shape[0]))
    return Paper(np.asarray(whole, np.uint8), (edges + 0.5) / REDUCED - 0.5)


def _edges(
    outline: npt.NDArray[np.float64], hull: npt.NDArray[np.int32], size: tuple[int, int]
) -> npt.NDArray[np.float64]:
    """Fit a line to each of the sheet's four sides, where all are straight and within the picture."""
    import cv2

    corners = cv2.approxPolyDP(hull, CORNER_SHARE * cv2.arcLength(hull, True), True)
    if len(corners) != 4 or cv2.contourArea(corners) < WHOLE * cv2.contourArea(hull):
        return np.empty((0, 4))
    found = []
    places = corners[:, 0].astype(float)
    for a, b in zip(places, np.roll(places, -1, axis=0), strict=True):
        way = (b - a) / np.hypot(*(b - a))
        along, off = (outline - a) @ way, (outline - a) @ np.array([-way[1], way[0]])
        length = float(np.hypot(*(b - a)))
        side = outline[(np.abs(off) < NEAR_PX) & (along > ENDS * length) & (along < (1 - ENDS) * length)]
        inside = ((side > BORDER_PX) & (side < np.array(size) - 1 - BORDER_PX)).all(axis=1)
        if len(side) < 0.6 * length or inside.mean() < 0.9:
            continue
        vx, vy, x, y = np.asarray(cv2.fitLine(side.astype(np.float32), cv2.DIST_HUBER, 0, 0.01, 0.01)).ravel()
        line, at = np.array([vx, vy]), np.array([x, y])
        if float(np.median(np.abs((side - at) @ np.array([-vy, vx])))) > MOST_CURL_PX:
            continue
        first, last = (at + line * ((corner - at) @ line) for corner in (a, b))
        found.append([*first, *last])
    # a copier's shadow along one side or two is no table that the sheet lies on
    return np.array(found, float) if len(found) == 4 else np.empty((0, 4))


def off_ground(words: tuple[Word, ...], page: Pixels, matrix: npt.NDArray[np.float64]) -> tuple[Word, ...]:
    """Leave out what looks like words beside the sheet in its picture, where that is the pattern of the ground.

    What reads well there stays: it may be the sheet's own, in a shadow.

    Parameters
    ----------
    words : tuple of Word
        The words.
    page : ndarray, shape (height, width, 3), uint8
        The picture.
    matrix : ndarray, shape (3, 3), float64
        The map from its pixels to those in which the words are.
    """
    if sum(w.confidence < WELL_READ for w in words) < PATTERN:
        return words
    mask = once(page, _mask_of)
    middles = np.array([[*w.middle, 1.0] for w in words])
    u, v, away = np.linalg.inv(matrix) @ middles.T
    x, y = (np.rint(at / away).astype(int).clip(0, side - 1) for at, side in ((u, mask.shape[1]), (v, mask.shape[0])))
    on_sheet = mask[y, x] > 0
    beside = [w for w, on in zip(words, on_sheet, strict=True) if not on]
    unread = sum(w.confidence < WELL_READ for w in beside)
    if unread < max(PATTERN, UNREADABLE * len(beside)):
        return words
    return tuple(w for w, on in zip(words, on_sheet, strict=True) if on)


def _mask_of(page: Pixels) -> Grey:
    return find_paper(grey_of(page)).mask
