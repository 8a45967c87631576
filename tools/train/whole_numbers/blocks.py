"""Write the first layers of a network over blocks of pixels: few channels at many places run slowly."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import onnx
from onnx import numpy_helper

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


def rewrite_first(model: onnx.ModelProto, blocks: tuple[int, ...]) -> int:
    """Rewrite the first convolutions of a network over blocks, in place; give the side of the picture's blocks."""
    graph = model.graph
    held = {i.name: i for i in graph.initializer}
    taken = 1
    side = 1
    for node, places in zip((n for n in graph.node if n.op_type == "Conv"), blocks, strict=False):
        told = {a.name: a for a in node.attribute}
        weight = numpy_helper.to_array(held[node.input[1]])
        new, (before, behind) = over_blocks(weight, told["strides"].ints[0], told["pads"].ints[0], places)
        side = side if taken > 1 else told["strides"].ints[0] * places
        assert taken in (1, told["strides"].ints[0] * places)
        bias = np.repeat(numpy_helper.to_array(held[node.input[2]]), places**2)
        held[node.input[1]].CopyFrom(numpy_helper.from_array(new, node.input[1]))
        held[node.input[2]].CopyFrom(numpy_helper.from_array(bias, node.input[2]))
        told["strides"].ints[:] = [1, 1]
        told["kernel_shape"].ints[:] = new.shape[2:]
        told["pads"].ints[:] = [before, before, behind, behind]
        taken = places
    graph.input[0].type.tensor_type.shape.dim[1].dim_value *= side**2
    del graph.value_info[:]
    return side
