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
    return [tuple(v / scale for v in box) for box in _joined(stats[1:], max(small.shape))]  # type: ignore[misc]


def _joined(stats: npt.NDArray[np.int32], side: int) -> list[Box]:
    """Join letters that stand side by side into words."""
    left, top, width, height, area = stats.T
    biggest = side / 34
    fits = (height <= biggest) & (width <= 1.6 * biggest) & (area >= 5)
    left, top, width, height = left[fits], top[fits], width[fits], height[fits]
    right, bottom = left + width, top + height
    tall = height >= side / 420
    order = np.argsort(left, kind="stable")
    word_of = np.full(len(left), -1)
    open_words: list[list[float]] = []
    letters: list[int] = []
    for i in order:
        best, best_gap = -1, np.inf
        for k in range(len(open_words) - 1, -1, -1):
            l, t, r, b = open_words[k]
            reach = 0.55 * max(b - t, height[i])
            gap = left[i] - r
            if gap > reach or gap < -0.7 * width[i] - 2:
                continue
            overlap = min(b, bottom[i]) - max(t, top[i])
            if overlap < 0.5 * min(b - t, height[i]) or max(b - t, height[i]) > 3.2 * max(min(b - t, height[i]), 3) and tall[i]:
                continue
            if gap < best_gap:
                best, best_gap = k, gap
        if best < 0:
            open_words.append([left[i], top[i], right[i], bottom[i]])
            letters.append(int(tall[i]))
            word_of[i] = len(open_words) - 1
        else:
            word = open_words[best]
            word[1], word[2], word[3] = min(word[1], top[i]), max(word[2], right[i]), max(word[3], bottom[i])
            letters[best] += int(tall[i])
    words = []
    for (l, t, r, b), count in zip(open_words, letters, strict=True):
        if 1 <= count <= 14 and b - t >= side / 420 and (r - l) < 14 * (b - t):
            words.append((float(l), float(t), float(r), float(b)))
    return words
