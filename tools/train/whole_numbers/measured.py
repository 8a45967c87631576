"""Write a trained network's arithmetic in whole numbers of eight bits, in which it runs in half the time.

Run as ``python -m octavo.tools.train.whole_numbers.measured marks|by-hand|words NETWORK OUT``, where NETWORK is what
the training wrote. How large the steps of each layer's answers must be is measured on painted pictures of the training
families; weights are rounded so that the same picture gives the same numbers on every processor (``steps``).
"""

from __future__ import annotations

import argparse
import tempfile
from itertools import islice
from pathlib import Path

import numpy as np
import numpy.typing as npt
import onnx
from onnx import numpy_helper
from onnxruntime.quantization import CalibrationDataReader, QuantFormat, QuantType, quantize_static

from ....extract.eyes.networks import in_blocks
from .kinds import KINDS, Kind, Seen
from .rewritten import rewrite_first
from .steps import in_steps

PICTURES = 160


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


def _rounded(model: onnx.ModelProto, plain: onnx.ModelProto) -> None:
    """Round all weights and biases of a network anew, in place."""
    weights = {i.name: numpy_helper.to_array(i) for i in plain.graph.initializer}
    layers = {n.name: n for n in plain.graph.node if n.op_type == "Conv"}
    held = {i.name: i for i in model.graph.initializer}
    made = {n.output[0]: n for n in model.graph.node if n.op_type == "DequantizeLinear"}
    for node in model.graph.node:
        if node.op_type != "Conv" or node.input[1] not in made:
            continue
        weight, bias = (weights[name] for name in layers[node.name].input[1:])
        whole, step = in_steps(weight)
        both = step.astype(np.float64) * numpy_helper.to_array(held[made[node.input[0]].input[1]])
        news = (whole, step, np.round(bias / both).astype(np.int32), both.astype(np.float32))
        places = (*made[node.input[1]].input[:2], *made[node.input[2]].input[:2])
        for name, new in zip(places, news, strict=True):
            held[name].CopyFrom(numpy_helper.from_array(new, name))


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
    pixel = {"scale": np.array(1 / 255, np.float32), "zero_point": np.array(0, np.uint8)}
    takes, last = model.graph.input[0].name, [n for n in model.graph.node if n.op_type == "Conv"][-1].name
    with tempfile.TemporaryDirectory() as folder:
        plain, whole = Path(folder) / "plain.onnx", Path(folder) / "whole.onnx"
        onnx.save(model, str(plain))
        quantize_static(
            plain, whole, _Shown(takes, list(islice(kind.pictures(), PICTURES)), side),
            quant_format=QuantFormat.QDQ, per_channel=True,
            activation_type=QuantType.QUInt8, weight_type=QuantType.QInt8, nodes_to_exclude=[last],
            extra_options={"TensorQuantOverrides": {takes: [pixel]}},
        )  # fmt: skip
        model, plain_model = onnx.load(str(whole)), model
    _rounded(model, plain_model)
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
