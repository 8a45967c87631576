"""Find where words stand on a sheet, with a small network."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ...page import Pixels
from ...shades import reduced
from ..networks import in_blocks, said_by

LONG_SIDE = 1600
"""Words are looked for on a picture reduced to this many pixels on its long side."""
BLOCK = 4
"""The network takes the picture in blocks of so many pixels each way."""
STRIDE = 4
"""Pixels of that picture for each cell of the network's maps."""
REACH_PX = 16.0
"""The network's distances are logarithms of pixels over this."""
LEAST = 0.15
"""How well centred a word must seem somewhere, 0 to 1, to be taken for one."""
MOST_SHARED = 0.3
"""Of two boxes that share more of the smaller than this, the worse is dropped."""
MULTIPLE = 32
FAINT = 24
"""Where the picture differs by no more than this within a few pixels, nothing is printed that could be read."""
NEAR_PX = 8
MARGIN_PX = 40
"""So much empty paper around all that is printed is looked at with it."""

Box = tuple[float, float, float, float]


def word_boxes(grey: Pixels) -> list[Box]:
    """Find the boxes of level words.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet, dark ink on light paper.

    Returns
    -------
    list of tuple of float
        Ink boxes (left, top, right, bottom) in pixels of ``grey``, from top to bottom.
    """
    scale = min(1.0, LONG_SIDE / max(grey.shape))
    small = reduced(grey, scale)
    left, top, right, bottom = _printed(small)
    high, wide = bottom - top, right - left
    if not high or not wide:
        return []
    padded = np.full((-(-high // MULTIPLE) * MULTIPLE, -(-wide // MULTIPLE) * MULTIPLE), 255, np.uint8)
    padded[:high, :wide] = small[top:bottom, left:right]
    found = boxes_of(said_by("words/words", in_blocks(255 - padded[..., None], BLOCK))[0])
    boxes = (found[:, :4] + (left + 0.5, top + 0.5, left + 0.5, top + 0.5)) / scale - 0.5
    return [(float(b[0]), float(b[1]), float(b[2]), float(b[3])) for b in boxes[np.argsort(boxes[:, 1])]]


def _printed(small: Pixels) -> tuple[int, int, int, int]:
    """Give left, top, right and bottom of the part of a picture that is not empty paper; all 0 where all of it is.

    It begins at multiples of 32, so that the network's coarse cells lie as they would on the whole.
    """
    import cv2

    near = np.ones((NEAR_PX + 1, NEAR_PX + 1), np.uint8)  # from each pixel on to the right and down
    range_of = cv2.subtract(cv2.dilate(small, near, anchor=(0, 0)), cv2.erode(small, near, anchor=(0, 0)))
    differs = range_of[::NEAR_PX, ::NEAR_PX] > FAINT
    sides = []
    for axis, length in ((1, small.shape[0]), (0, small.shape[1])):
        inked = np.flatnonzero(differs.any(axis=axis)) * NEAR_PX
        if not len(inked):
            return 0, 0, 0, 0
        first = max(int(inked[0]) - MARGIN_PX, 0) // MULTIPLE * MULTIPLE
        sides.append((first, min(int(inked[-1]) + NEAR_PX + MARGIN_PX, length)))
    (top, bottom), (left, right) = sides
    return left, top, right, bottom


def boxes_of(maps: npt.NDArray[np.float32]) -> npt.NDArray[np.float64]:
    """Turn the network's maps into boxes.

    Parameters
    ----------
    maps : ndarray, shape (5, height, width)
        How well a word is centred at a cell (logit), and the logarithms of the distances to its edges over 16 px.

    Returns
    -------
    ndarray, shape (n, 5)
        Left, top, right, bottom in pixels of the picture that the network saw, and how well centred; best first, and
        none over another.
    """
    least = np.log(LEAST / (1 - LEAST))
    logits = maps[0]
    row, column = np.divmod(np.flatnonzero(logits > least), logits.shape[1])
    around = np.pad(logits, 1, constant_values=-np.inf)
    top = np.ones(len(row), bool)
    for down, right in ((1, 0), (1, 2), (0, 1), (2, 1)):
        top &= logits[row, column] >= around[row + down, column + right]
    row, column = row[top], column[top]
    score = 1 / (1 + np.exp(-logits[row, column].astype(np.float64)))
    reach = np.exp(np.clip(maps[1:, row, column].astype(np.float64), -4, 4)) * REACH_PX
    x, y = column * STRIDE + 1.5, row * STRIDE + 1.5
    boxes = np.stack([x - reach[0], y - reach[1], x + reach[2], y + reach[3], score], axis=1)
    boxes = boxes[np.argsort(-boxes[:, 4], kind="stable")]
    return boxes[_apart(boxes[:, :4])]


def _apart(boxes: npt.NDArray[np.float64]) -> npt.NDArray[np.intp]:
    """Give the numbers of the boxes that share little with any kept before them."""
    left, top, right, bottom = boxes.T
    area = (right - left) * (bottom - top)
    kept = np.empty(len(boxes), np.intp)
    count = 0
    for i in range(len(boxes)):
        k = kept[:count]
        wide = np.minimum(right[k], right[i]) - np.maximum(left[k], left[i])
        high = np.minimum(bottom[k], bottom[i]) - np.maximum(top[k], top[i])
        both = np.maximum(wide, 0.0) * np.maximum(high, 0.0)
        if not (both >= MOST_SHARED * np.maximum(np.minimum(area[k], area[i]), 1e-6)).any():
            kept[count], count = i, count + 1
    return kept[:count]
