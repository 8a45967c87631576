"""How a chart's lines run where the sheet still lies askew or in perspective: by where most of their darkness is."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

MOST_OFF_DB = 6.0
STEP_DB = 0.75
"""Level lines are tried so far off at the far side of the chart, in such steps, at its top and at its bottom."""
MUCH_DARKER = 1.35
"""Lines elsewhere than the labels tell must be darker by this factor: a chart without lines is dark anywhere."""
RARER = 0.15
"""What the farthest lean that is tried counts less: a lean by a whole line looks the same."""
LEAST_DARK = 2.0
"""Grey levels by which the lines found are darker than the paper beside them, on the mean."""

Numbers = npt.NDArray[np.float64]


def keystone(
    profiles: npt.NDArray[np.float32],
    at: Numbers,
    rows: Numbers,
    expected: Numbers,
    fixed: float,
    decibel: float,
) -> tuple[float, float]:
    """Find how much farther lines lean than expected, at the first row and at the last.

    Parameters
    ----------
    profiles : ndarray, shape (pieces, length), float32
        How much darker each place down a piece of the chart is than those beside it.
    at : ndarray, shape (pieces,)
        Where the pieces are across, in pixels.
    rows : ndarray, shape (rows,)
        Where the lines are by their labels.
    expected : ndarray, shape (pieces, rows)
        The place down the profile of each line, as far as is known.
    fixed : float
        Where across the lines are at their rows: at their labels.
    decibel : float
        Pixels a decibel.

    Returns
    -------
    tuple of float
        Pixels down for each pixel across, at the first row and at the last; (0, 0) where nothing speaks for more.
    """
    import cv2

    far = at[np.abs(at - fixed).argmax()] - fixed if len(at) else 0.0
    if len(rows) < 3 or abs(far) < 1:
        return 0.0, 0.0
    wide = max(int(STEP_DB * decibel) | 1, 3)
    spread = cv2.dilate(profiles, np.ones((1, wide), np.uint8))
    tried = np.arange(-MOST_OFF_DB, MOST_OFF_DB + 0.1, STEP_DB) * decibel / far
    part = (rows - rows[0]) / (rows[-1] - rows[0])
    reach = at[:, None] - fixed

    def darkness(places: Numbers) -> float:
        down = places.round().astype(int)
        inside = (down >= 0) & (down < spread.shape[1])
        return float((np.take_along_axis(spread, down.clip(0, spread.shape[1] - 1), axis=1) * inside).mean())

    best, chosen, plain = -1.0, (0.0, 0.0), 0.0
    for first in tried:
        for last in tried:
            worth = darkness(expected + reach * (first * (1 - part) + last * part))
            if first == last and abs(first) < 1e-9:
                plain = worth
            worth *= 1 - RARER * max(abs(first), abs(last)) / abs(tried[0])
            if worth > best:
                best, chosen = worth, (float(first), float(last))
    halfway = darkness(expected + np.diff(rows).min() / 2)
    leans = best > LEAST_DARK and best > MUCH_DARKER * plain and best > halfway
    return chosen if leans else (0.0, 0.0)
