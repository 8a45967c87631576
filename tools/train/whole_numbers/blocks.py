"""Write the first layers of a network over blocks of pixels: few channels at many places run slowly."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Weights = npt.NDArray[np.float32]


def over_blocks(weight: Weights, stride: int, pad: int, places: int) -> tuple[Weights, tuple[int, int]]:
    """Write a convolution over blocks of pixels, with stride 1: few channels at many places run slowly.

    Parameters
    ----------
    weight : ndarray, shape (gives, takes, size, size)
        Of the convolution.
    stride, pad : int
        How it is laid over its picture.
    places : int
        So many of its outputs each way become channels of one place.

    Returns
    -------
    ndarray, shape (gives * places**2, takes * block**2, blocks, blocks)
        With ``block`` = ``stride`` * ``places``; the channels of one block, or of one place, stand one behind the
        other for each channel, row by row.
    tuple of int
        How many blocks to pad before and behind.
    """
    gives, takes, size, _ = weight.shape
    block = stride * places
    before = -((-pad) // block)
    behind = (stride * (places - 1) + size - 1 - pad) // block
    span = before + 1 + behind
    wide = np.zeros((gives, places, places, takes, span * block, span * block), np.float32)
    for down in range(places):
        for right in range(places):
            y, x = (before * block + stride * at - pad for at in (down, right))
            wide[:, down, right, :, y : y + size, x : x + size] = weight
    cut = wide.reshape(gives * places**2, takes, span, block, span, block).transpose(0, 1, 3, 5, 2, 4)
    return cut.reshape(gives * places**2, takes * block**2, span, span), (before, behind)
