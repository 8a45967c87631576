"""Round weights to whole steps with which no processor's sums run over."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Weights = npt.NDArray[np.float32]

MOST = 127
"""A weight is a byte with a sign."""
MOST_OF_TWO = 128
"""Two neighbours together: processors without instructions of their own for it, as most from before 2019, add two
products of a byte (up to 255) and a weight in sixteen bits, and what passes 32,767 is cut off (Intel's manual on
VPMADDUBSW). Bounding both together leaves finer steps than bounding each by half."""


def in_steps(weight: Weights) -> tuple[npt.NDArray[np.int8], Weights]:
    """Round a convolution's weight, with steps of one size for each output.

    Parameters
    ----------
    weight : ndarray, shape (gives, takes, height, width)
        In fractions; ``takes`` is even, as the runtime sums over it first.

    Returns
    -------
    ndarray, shape (gives, takes, height, width), int8
        In steps.
    ndarray, shape (gives,)
        The size of a step.
    """
    large = np.abs(weight).transpose(0, 2, 3, 1).reshape(len(weight), -1, 2)
    two = large.sum(axis=2).max(axis=1) / (MOST_OF_TWO - 1)  # rounding may add half a step to each
    step = np.maximum(np.maximum(two, large.max(axis=(1, 2)) / MOST), 1e-9).astype(np.float32)
    whole = np.round(weight / step[:, None, None, None]).clip(-MOST, MOST).astype(np.int8)
    return whole, step
