"""Teach a network in whole numbers to say what it said in fractions; run on a GPU, or on the CPU to rehearse.

Run as ``python -m octavo.tools.train.whole_numbers.taught OUT --kind KIND --network NETWORK --whole WHOLE``, where
NETWORK is what the training of the KIND (marks, by-hand, words) wrote and WHOLE what ``measured`` made of it. Weights
are rounded in every step, and learn as if they were not (Jacob et al. 2018, arXiv:1712.05877); the steps of what the
layers give stay as measured.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from itertools import islice
from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import numpy_helper
from torch import nn

from ..finder import train as of_words
from ..finder.tiles import TILE as WORD_TILE
from ..finder.tiles import finder_families
from ..marks import train as of_marks
from ..marks.crops import TILE, training_families
from ..school import Painted, Ring, Training, in_turn, run, vary
from .kinds import KINDS
from .rewritten import rewrite_first

MOST = 64.0
"""Weights are whole numbers from -64 to 64 steps."""
VALIDATION_SEED = 9_000_000
SEEN = -3.0
"""Where the teacher's log odds of anything are over this, what is said matters."""
ELSEWHERE = 0.03
"""How much the rest of the picture weighs."""
HEATS = {"marks": 31, "by-hand": 31, "words": 1}
"""The maps of log odds; those after them count where something is."""


class Graph(nn.Module):
    """A network as its file says, with steps of whole numbers or without; its weights and biases can learn."""

    def __init__(self, model: onnx.ModelProto, weights: dict[str, np.ndarray] | None = None) -> None:
        super().__init__()
        self.nodes = [(n.op_type, list(n.input), list(n.output), _told(n)) for n in model.graph.node]
        self.takes, self.gives = model.graph.input[0].name, model.graph.output[0].name
        held = {i.name: numpy_helper.to_array(i) for i in model.graph.initializer}
        self.rounded = {}
        """Of each weight or bias in whole numbers the name by which the steps use it."""
        for op, inputs, outputs, _ in self.nodes:
            if op == "DequantizeLinear" and inputs[0] in held:
                self.rounded[inputs[0]] = outputs[0]
        self.steps = {name: held[name].item() for name in held if held[name].ndim == 0}
        self.learned = nn.ParameterDict()
        for op, inputs, _, _ in self.nodes:
            if op == "Conv":
                for name in inputs[1:]:
                    given = held.get(name) if weights is None else weights[plain_name(name)]
                    self.learned[_key(name)] = nn.Parameter(torch.from_numpy(np.array(given, np.float32)))

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Run it on pictures in blocks, from 0 to 1."""
        values = {self.takes: x}
        for op, inputs, outputs, told in self.nodes:
            if op == "Constant" or (op == "DequantizeLinear" and inputs[0] in self.rounded):
                continue
            given = values[inputs[0]]
            if op == "Conv":
                weight = self.learned[_key(inputs[1])]
                weight = weight if inputs[1] not in self.rounded.values() else weight_in_steps(weight)[0]
                top, left, bottom, right = told["pads"]
                padded = nn.functional.pad(given, (left, right, top, bottom))
                out = nn.functional.conv2d(padded, weight, self.learned[_key(inputs[2])], tuple(told["strides"]))
            elif op == "QuantizeLinear":
                out = _in_steps(given, self.steps[inputs[1]], self.steps[inputs[2]])
            elif op == "DequantizeLinear":
                out = given
            elif op == "Relu":
                out = given.relu()
            elif op == "MaxPool":
                out = nn.functional.max_pool2d(given, told["kernel_shape"], told["strides"])
            elif op == "Resize":
                out = nn.functional.interpolate(given, scale_factor=2, mode="nearest")
            elif op == "Add":
                out = given + values[inputs[1]]
            else:
                raise NotImplementedError(op)
            values[outputs[0]] = out
        return values[self.gives]


def plain_name(name: str) -> str:
    """Give the name that a weight or bias has in the network without steps."""
    return name.removesuffix("_DequantizeLinear_Output")


def _key(name: str) -> str:
    return name.replace(".", "|")


def _told(node: onnx.NodeProto) -> dict[str, list[int]]:
    return {a.name: list(a.ints) for a in node.attribute if a.ints}


def weight_in_steps(weight: torch.Tensor) -> tuple[torch.Tensor, torch.Tensor]:
    """Round a weight to whole steps, of one size for each output; give it and the steps, shape (gives, 1, 1, 1)."""
    step = weight.detach().abs().amax((1, 2, 3), keepdim=True).clamp(min=1e-9) / MOST
    return weight + ((weight / step).round().clamp(-MOST, MOST) * step - weight).detach(), step


def _in_steps(x: torch.Tensor, step: float, zero: float) -> torch.Tensor:
    """Round to steps of a byte; what is beyond them learns nothing."""
    inside = x.clamp(-zero * step, (255 - zero) * step)
    return inside + ((inside / step).round() * step - inside).detach()


def write(model: onnx.ModelProto, net: Graph, path: Path) -> None:
    """Put what was learned into the network in whole numbers, and write it."""
    held = {i.name: i for i in model.graph.initializer}
    scales = {n.output[0]: n.input[1] for n in model.graph.node if n.op_type == "DequantizeLinear"}
    whole = {out: name for name, out in net.rounded.items()}

    def put(name: str, value: np.ndarray) -> None:
        held[name].CopyFrom(numpy_helper.from_array(value, name))

    for node in model.graph.node:
        if node.op_type != "Conv":
            continue
        weight, bias = (net.learned[_key(name)].detach().cpu() for name in node.input[1:])
        if node.input[1] not in whole:
            put(node.input[1], weight.numpy())
            put(node.input[2], bias.numpy())
            continue
        step = weight_in_steps(weight)[1]
        put(whole[node.input[1]], (weight / step).round().clamp(-MOST, MOST).numpy().astype(np.int8))
        put(scales[node.input[1]], step.flatten().numpy())
        both = step.flatten().double() * net.steps[scales[node.input[0]]]
        put(whole[node.input[2]], (bias.double() / both).round().numpy().astype(np.int32))
        put(scales[node.input[2]], both.numpy().astype(np.float32))
    onnx.checker.check_model(model)
    onnx.save(model, str(path))


def differences(student: torch.Tensor, teacher: torch.Tensor, heats: int) -> tuple[torch.Tensor, torch.Tensor]:
    """Give by how much two answers differ, for log odds and for the maps after them, where something is."""
    odds, rest = (student[:, :heats] - teacher[:, :heats]).abs(), (student[:, heats:] - teacher[:, heats:]).abs()
    here = teacher[:, :heats] > SEEN
    anywhere = here.any(1, keepdim=True).expand_as(rest)
    weight = torch.where(here, 1.0, ELSEWHERE)
    off = nn.functional.smooth_l1_loss(odds, torch.zeros_like(odds), reduction="none", beta=0.2)
    return (off * weight).sum() / weight.sum(), rest[anywhere].sum() / anywhere.sum().clamp(min=1)


def weigh(net: nn.Module, teacher: nn.Module, ring: Ring, args: Namespace) -> torch.Tensor:
    """Show both the same pictures, and give how far they differ."""
    raw, _ = ring.draw(args.batch, args.side, 0)
    blocks = _blocks(raw, args.block, varied=True)
    with torch.no_grad():
        wanted = teacher(blocks)
    odds, rest = differences(net(blocks), wanted, HEATS[args.kind])
    return odds + 0.3 * rest


def _blocks(raw: torch.Tensor, side: int, *, varied: bool) -> torch.Tensor:
    grey = raw.ndim == 3
    pixels = 255 - raw[:, None].float() if grey else raw.permute(0, 3, 1, 2).float()
    pixels = vary(pixels / 255) if varied else pixels / 255
    return nn.functional.pixel_unshuffle((255 * pixels).round() / 255, side)


def score(net: nn.Module, teacher: nn.Module, ring: Ring, args: Namespace) -> dict[str, float]:
    """Give the mean difference of the log odds where something is, its lean, and that of the other maps."""
    off, lean, rest = [], [], []
    net.eval()
    with torch.no_grad():
        for start in range(0, ring.count, 16):
            blocks = _blocks(ring.pixels[start : min(start + 16, ring.count)], args.block, varied=False)
            said, wanted = net(blocks), teacher(blocks)
            heats = HEATS[args.kind]
            here = wanted[:, :heats] > SEEN
            off.append((said - wanted)[:, :heats][here].abs().mean().item())
            lean.append((said - wanted)[:, :heats][here].mean().item())
            rest.append(differences(said, wanted, heats)[1].item())
    net.train()
    return {name: float(np.nanmean(v)) for name, v in (("off", off), ("lean", lean), ("rest_off", rest))}


def paint(job: tuple[str, int]) -> Painted:
    """Paint pictures for the mark networks."""
    return [(pixels, marks[:1, :2]) for pixels, marks in of_marks.paint(job)]


def paint_words(job: tuple[str, int]) -> Painted:
    """Paint pictures for the word finder."""
    return [(pixels, words[:1, :2]) for pixels, words in of_words.paint(job)]


def arguments() -> Namespace:
    """Read the arguments."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--kind", choices=sorted(KINDS), required=True)
    parser.add_argument("--network", type=Path, required=True, help="the network in fractions")
    parser.add_argument("--whole", type=Path, required=True, help="what measured made of it")
    parser.add_argument("--fonts", default=None, help="folder of font files, where the packages are not installed")
    parser.add_argument("--seconds", type=float, default=200)
    parser.add_argument("--workers", type=int, default=10)
    parser.add_argument("--batch", type=int, default=24)
    parser.add_argument("--side", type=int, default=384)
    parser.add_argument("--ring", type=int, default=12_000)
    parser.add_argument("--first", type=int, default=61_000_000)
    parser.add_argument("--rate", type=float, default=3e-4)
    parser.add_argument("--checks", type=int, default=96)
    parser.set_defaults(start=None)
    return parser.parse_args()


def main() -> None:
    """Teach for the time given while other processes paint, and write the running average."""
    args = arguments()
    torch.manual_seed(7)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    plain, model = onnx.load(str(args.network)), onnx.load(str(args.whole))
    args.block = rewrite_first(plain, KINDS[args.kind].blocks)
    weights = {i.name: numpy_helper.to_array(i) for i in plain.graph.initializer}
    teacher = Graph(plain).to(device).eval()
    training = Training(Graph(model, weights), args, device, name=args.kind)
    words = args.kind == "words"
    shape = (WORD_TILE, WORD_TILE) if words else (TILE, TILE, 3)
    rings = (Ring(args.ring, shape, (1, 2), device), Ring(args.checks, shape, (1, 2), device))
    families = finder_families() if words else training_families(by_hand=args.kind == "by-hand")
    jobs = (list(islice(in_turn(families, VALIDATION_SEED), args.checks)), in_turn(families, args.first))
    run(
        training, rings, paint_words if words else paint, jobs,
        lambda net, ring: weigh(net, teacher, ring, args), lambda net, ring: score(net, teacher, ring, args),
    )  # fmt: skip
    learned = training.average.module
    assert isinstance(learned, Graph)
    write(model, learned, args.out / f"{args.kind}.onnx")


if __name__ == "__main__":
    main()
