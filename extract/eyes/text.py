"""Find where words stand on a sheet, from its connected ink."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ..page import Pixels

Box = tuple[float, float, float, float]

LONG_SIDE = 2400
"""Words are looked for on a picture reduced to this many pixels on its long side."""


def word_boxes(grey: Pixels) -> list[Box]:
    """Find the boxes of words.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet, dark ink on light paper.

    Returns
    -------
    list of tuple of float
        Boxes (left, top, right, bottom) in pixels of ``grey``, of words 1 to about 14 characters long.
    """
    import cv2

    scale = min(1.0, LONG_SIDE / max(grey.shape))
    small = grey if scale == 1.0 else cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    ink = cv2.adaptiveThreshold(small, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 41, 18)
    length = max(30, round(max(small.shape) / 55))
    for kernel in (np.ones((1, length), np.uint8), np.ones((length, 1), np.uint8)):
        lines = cv2.morphologyEx(ink, cv2.MORPH_OPEN, kernel)
        ink = cv2.subtract(ink, cv2.dilate(lines, np.ones((3, 3), np.uint8)))
    _, _, stats, _ = cv2.connectedComponentsWithStats(ink, connectivity=8)
    words = _joined(np.asarray(stats[1:], np.int32), max(small.shape))
    return [(left / scale, top / scale, right / scale, bottom / scale) for left, top, right, bottom in words]


def _joined(stats: npt.NDArray[np.int32], side: int) -> list[Box]:
    """Join letters that stand side by side into words."""
    left, top, width, height, area = stats.T
    biggest, least = side / 34, side / 420
    fits = (height <= biggest) & (width <= 1.6 * biggest) & (area >= 4)
    tall = fits & (height >= least)
    words = _grown(np.column_stack([left, top, left + width, top + height])[tall].astype(float), biggest)
    small = np.column_stack([left, top, left + width, top + height])[fits & ~tall].astype(float)
    for word in words:
        _take_small(word, small)
    return [
        (float(w[0]), float(w[1]), float(w[2]), float(w[3]))
        for w in words
        if w[4] <= 14 and w[2] - w[0] < 14 * (w[3] - w[1])
    ]


def _grown(letters: npt.NDArray[np.float64], biggest: float) -> list[list[float]]:
    """Make words of letters from left to right; each word is left, top, right, bottom and its number of letters."""
    done: list[list[float]] = []
    growing: list[list[float]] = []
    for x0, y0, x1, y1 in letters[np.argsort(letters[:, 0], kind="stable")]:
        done += [w for w in growing if w[2] + 0.6 * biggest < x0]
        growing = [w for w in growing if w[2] + 0.6 * biggest >= x0]
        best, best_gap = None, np.inf
        for word in growing:
            high, low = max(word[3] - word[1], y1 - y0), min(word[3] - word[1], y1 - y0)
            gap = x0 - word[2]
            overlap = min(word[3], y1) - max(word[1], y0)
            alike = high <= 2.6 * max(low, 3)
            # a point, a comma or a minus sign stands closer than a letter
            reach = 0.46 * high if alike else 0.42 * high
            near = -0.7 * (x1 - x0) - 2 <= gap <= reach and overlap >= (0.5 if alike else 0.6) * low
            if near and gap < best_gap:
                best, best_gap = word, gap
        if best is None:
            growing.append([x0, y0, x1, y1, 1])
        else:
            best[1], best[2], best[3] = min(best[1], y0), max(best[2], x1), max(best[3], y1)
            best[4] += 1
    return done + growing


def _take_small(word: list[float], small: npt.NDArray[np.float64]) -> None:
    """Give a word the points, commas and minus signs that touch it or stand within a third of its height."""
    reach = 0.4 * (word[3] - word[1])
    near = (
        (small[:, 2] > word[0] - reach) & (small[:, 0] < word[2] + 0.2 * reach)
        & (small[:, 1] >= word[1] - 0.1 * reach) & (small[:, 3] <= word[3] + 0.8 * reach)
    )  # fmt: skip
    if 0 < near.sum() <= 6:
        word[0] = min(word[0], small[near, 0].min())
        word[2] = max(word[2], small[near, 2].max())
        word[3] = max(word[3], small[near, 3].max())
