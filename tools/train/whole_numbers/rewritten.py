"""Rewrite the first layers of a network's file over blocks of pixels."""

from __future__ import annotations

import numpy as np
import onnx
from onnx import numpy_helper

from .blocks import over_blocks


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
