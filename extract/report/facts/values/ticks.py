"""Tick boxes: whether a small square stands before a word, and whether something was put into it."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from ....page import Pixels
from ...lines import Box

SIDES = (0.7, 1.9)
"""How large a tick box is, in heights of the letters beside it."""
REACH = 2.6
"""How far it begins before its word, in the same."""
DRAWN = 0.8
"""Each of a box's sides is ink over at least this part."""
INNER = 0.22
"""What of a box lies this near its sides, in parts of its side, is no evidence: the sides are as thick as they are."""
FILLED, EMPTY = 0.1, 0.03
"""A box is ticked from this share of ink inside on, and empty up to the other."""

Mask = npt.NDArray[np.bool_]


def tick_before(grey: Pixels, box: Box, height: float, *, after: float = 0.0) -> bool | str | None:
    """Look for a tick box before a word.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    box : tuple of float
        The word's box in sheet pixels.
    height : float
        The height of its line's letters, in sheet pixels.
    after : float
        Where the word before it ends; nothing left of that is looked at.

    Returns
    -------
    bool, str or None
        Whether it is ticked; "unclear" where that cannot be said; None where there is no box.
    """
    middle = (box[1] + box[3]) / 2
    left, right = int(max(box[0] - REACH * height, after + 1, 0)), int(max(box[0] - 0.05 * height, 0))
    top, bottom = int(max(middle - 1.3 * height, 0)), int(min(middle + 1.3 * height, grey.shape[0]))
    crop = grey[top:bottom, left:right]
    if min(crop.shape, default=0) < 5:
        return None
    paper = float(np.percentile(crop, 80))
    ink = crop < min(paper - 40.0, 0.75 * paper)
    found = _square(ink, height)
    if found is None:
        return None
    x, y, side = found
    edge = max(2, round(INNER * side))
    inside = ink[y + edge : y + side - edge + 1, x + edge : x + side - edge + 1]
    share = float(inside.mean()) if inside.size else 0.0
    return True if share >= FILLED else (False if share <= EMPTY else "unclear")


def _square(ink: Mask, height: float) -> tuple[int, int, int] | None:
    """Find the square whose four sides are best drawn: its left, top and side in pixels."""
    wide = _thick(ink)
    rows, columns = np.cumsum(wide, axis=1, dtype=np.int32), np.cumsum(wide, axis=0, dtype=np.int32)
    rows, columns = np.pad(rows, ((0, 0), (1, 0))), np.pad(columns, ((1, 0), (0, 0)))
    best: tuple[float, int, int, int] = (0.0, 0, 0, 0)
    for side in range(max(5, round(SIDES[0] * height)), round(SIDES[1] * height) + 1):
        if side >= ink.shape[0] or side >= ink.shape[1]:
            break
        along = (rows[:, side + 1 :] - rows[:, : -side - 1]) / (side + 1)  # at (y, x): ink of the row from x on
        down = (columns[side + 1 :] - columns[: -side - 1]) / (side + 1)
        least = np.minimum(
            np.minimum(along[: ink.shape[0] - side], along[side:]),
            np.minimum(down[:, : ink.shape[1] - side], down[:, side:]),
        )
        y, x = (int(v) for v in np.unravel_index(int(least.argmax()), least.shape))
        worth = float(least[y, x]) + 0.002 * side
        drawn = least[y, x] >= DRAWN and not _solid(ink[y : y + side + 1, x : x + side + 1])
        if drawn and worth > best[0]:
            best = (worth, x, y, side)
    return best[1:] if best[0] else None


def _thick(ink: Mask) -> Mask:
    """Widen ink by a pixel to all sides, so that a side that leans a little is one."""
    padded = np.pad(ink, 1)
    shifted = [padded[1 + dy : padded.shape[0] - 1 + dy, 1 + dx : padded.shape[1] - 1 + dx] for dy, dx in _AROUND]
    return np.logical_or.reduce(shifted)


_AROUND = ((0, 0), (0, 1), (0, -1), (1, 0), (-1, 0))


def _solid(part: Mask) -> bool:
    """Say whether a square is ink all over: a bullet or a bar, no box."""
    return float(part.mean()) > 0.93
