"""Separate spots of a mask: ink that touches, or lines that meet."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.uint16] | npt.NDArray[np.int32]
Stats = npt.NDArray[np.int32]
Centres = npt.NDArray[np.float64]


def spots_in(mask: npt.NDArray[np.uint8]) -> tuple[Numbers, Stats, Centres]:
    """Number the spots of a mask whose pixels touch, at corners too.

    Parameters
    ----------
    mask : ndarray, shape (height, width), uint8
        Not 0 where something is.

    Returns
    -------
    numbers : ndarray, shape (height, width)
        To which spot each pixel belongs, 0 for none.
    stats : ndarray, shape (spots + 1, 5), int32
        Left, top, width, height and area of what is none, and of each spot.
    centres : ndarray, shape (spots + 1, 2)
        Their middles, x and y.
    """
    import cv2

    try:  # with numbers of 16 bits it takes a third of the time
        _, found, stats, centres = cv2.connectedComponentsWithStats(mask, connectivity=8, ltype=cv2.CV_16U)
        numbers: Numbers = np.asarray(found, np.uint16)
    except cv2.error:  # more spots than these can count
        _, found, stats, centres = cv2.connectedComponentsWithStats(mask, connectivity=8, ltype=cv2.CV_32S)
        numbers = np.asarray(found, np.int32)
    return numbers, np.asarray(stats, np.int32), np.asarray(centres, np.float64)
