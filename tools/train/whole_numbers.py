"""Write a trained network's arithmetic in whole numbers of eight bits, in which it runs in half the time.

Run as ``python -m octavo.tools.train.whole_numbers marks|by-hand|words NETWORK OUT``, where NETWORK is what the training
wrote. What each layer gives is measured on painted pictures of the training families that no training saw.

Weights have seven bits, not eight: on processors that add two products of bytes in sixteen bits, as many from before
2019 do, larger ones would run over. So the same picture gives the same numbers on all.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

import numpy as np
import numpy.typing as npt
import onnx
from onnx import numpy_helper
from onnxruntime.quantization import CalibrationDataReader, QuantFormat, QuantType, quantize_static

from ...extract.eyes.networks import in_blocks
from .finder.tiles import finder_families, paint_word_tiles
from .marks.crops import paint_tiles, training_families
from .school import in_turn

Weights = npt.NDArray[np.float32]
Seen = npt.NDArray[np.uint8]

FIRST_SEED = 98_000_000
PICTURES = 160


@dataclass(frozen=True, slots=True)
class Kind:
    """A network that can be written so.

    Attributes
    ----------
    pictures : callable
        Gives pictures of the kind that it is shown, shape (height, width, channels), uint8.
    blocks : tuple of int
        For each of the first convolutions, how many of its places each way one place of the rewritten one stands for;
        the picture comes in blocks of the first one's places times its stride.
    """

    pictures: Callable[[], Iterator[Seen]]
    blocks: tuple[int, ...]


def _charts(*, by_hand: bool) -> Iterator[Seen]:
    for family, seed in in_turn(training_families(by_hand=by_hand), FIRST_SEED):
        yield from (tile.pixels for tile in paint_tiles(family, seed)[:1])


def _pages() -> Iterator[Seen]:
    for family, seed in in_turn(finder_families(), FIRST_SEED):
        yield from (255 - tile.pixels[..., None] for tile in paint_word_tiles(family, seed, count=2))


KINDS = {
    "marks": Kind(lambda: _charts(by_hand=False), (1,)),
    "by-hand": Kind(lambda: _charts(by_hand=True), (1,)),
    "words": Kind(_pages, (2, 1)),
}


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


class _Shown(CalibrationDataReader):
    def __init__(self, name: str, pictures: list[Seen], side: int) -> None:
        self.left = ({name: in_blocks(p, side).astype(np.float32) / np.float32(255)} for p in pictures)

    def get_next(self) -> dict[str, npt.NDArray[np.float32]] | None:
        return next(self.left, None)


def _takes_bytes(model: onnx.ModelProto) -> None:
    """Let a network take pixels as they are: the first step, that makes bytes of numbers from 0 to 1, goes."""
    graph = model.graph
    first = next(n for n in graph.node if n.op_type == "QuantizeLinear" and n.input[0] == graph.input[0].name)
    for node in graph.node:
        node.input[:] = [graph.input[0].name if name == first.output[0] else name for name in node.input]
    graph.node.remove(first)
    graph.input[0].type.tensor_type.elem_type = onnx.TensorProto.UINT8


def in_whole_numbers(network: Path, out: Path, kind: Kind) -> None:
    """Write a network anew.

    The last layer stays as it was: chances near 0 and 1, and the tops of marks between the pixels, need finer steps.

    Parameters
    ----------
    network : Path
        What ``school.export`` wrote.
    out : Path
        It takes pixels, uint8, in blocks; what it gives is as before.
    kind : Kind
        What it is shown, and what of it is rewritten over blocks.
    """
    model = onnx.load(str(network))
    side = rewrite_first(model, kind.blocks)
    takes, last = model.graph.input[0].name, [n for n in model.graph.node if n.op_type == "Conv"][-1].name
    with tempfile.TemporaryDirectory() as folder:
        plain, whole = Path(folder) / "plain.onnx", Path(folder) / "whole.onnx"
        onnx.save(model, str(plain))
        quantize_static(
            plain, whole, _Shown(takes, list(islice(kind.pictures(), PICTURES)), side),
            quant_format=QuantFormat.QDQ, per_channel=True, reduce_range=True,
            activation_type=QuantType.QUInt8, weight_type=QuantType.QInt8, nodes_to_exclude=[last],
            extra_options={"TensorQuantOverrides": {takes: [{"scale": np.array(1 / 255, np.float32), "zero_point": np.array(0, np.uint8)}]}},
        )  # fmt: skip
        model = onnx.load(str(whole))
    _takes_bytes(model)
    onnx.checker.check_model(model)
    onnx.save(model, str(out))


def main() -> None:
    """Read the arguments and write the network."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("kind", choices=sorted(KINDS))
    parser.add_argument("network", type=Path, help="what the training wrote")
    parser.add_argument("out", type=Path, help="the file to write")
    args = parser.parse_args()
    in_whole_numbers(args.network, args.out, KINDS[args.kind])


if __name__ == "__main__":
    main()
