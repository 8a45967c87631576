"""Write a trained network's arithmetic in whole numbers of eight bits, in which it runs in half the time.

Run as ``python -m octavo.tools.train.whole_numbers.measured marks|by-hand|words NETWORK OUT``, where NETWORK is what
the training wrote. What each layer gives is measured on painted pictures of the training families. ``taught`` is next.

Weights have seven bits, not eight: on processors that add two products of bytes in sixteen bits, as many from before
2019 do, larger ones would run over. So the same picture gives the same numbers on all.
"""

from __future__ import annotations

import argparse
import tempfile
from itertools import islice
from pathlib import Path

import numpy as np
import numpy.typing as npt
import onnx
from onnxruntime.quantization import CalibrationDataReader, QuantFormat, QuantType, quantize_static

from ....extract.eyes.networks import in_blocks
from .kinds import KINDS, Kind, Seen
from .rewritten import rewrite_first

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
            quant_format=QuantFormat.QDQ, per_channel=True, reduce_range=True,
            activation_type=QuantType.QUInt8, weight_type=QuantType.QInt8, nodes_to_exclude=[last],
            extra_options={"TensorQuantOverrides": {takes: [pixel]}},
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
