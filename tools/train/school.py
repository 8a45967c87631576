"""What the trainings of the networks share: a ring of painted pictures on the device, and the steps through time."""

from __future__ import annotations

import json
import multiprocessing
import os
import time
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterator
from itertools import count
from multiprocessing.pool import IMapIterator
from pathlib import Path
from typing import Any

import numpy as np
import torch
from torch import nn

from .painters import start_painter

Painted = list[tuple[np.ndarray, np.ndarray]]
"""Pictures of one page, each with its truth, shape (most, columns), NaN where there is less."""


def arguments(description: str | None, **defaults: float) -> Namespace:
    """Read a training's arguments; ``defaults`` gives ``seconds``, ``batch``, ``side``, ``ring`` and ``first``."""
    parser = ArgumentParser(description=description)
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--fonts", default=None, help="folder of font files, where the packages are not installed")
    parser.add_argument("--seconds", type=float)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int)
    parser.add_argument("--side", type=int, help="pixels a side of a training picture")
    parser.add_argument("--ring", type=int, help="painted pictures kept")
    parser.add_argument("--first", type=int, help="first seed")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--start", type=Path, default=None, help="weights to go on from")
    parser.add_argument("--checks", type=int, default=300, help="held-out pictures")
    parser.add_argument("--by-hand", action="store_true", help="marks: families filled in by hand alone")
    parser.set_defaults(**defaults)
    return parser.parse_args()


def in_turn(families: list[str], first: int) -> Iterator[tuple[str, int]]:
    """Give a family and a seed without end, the families in turn."""
    for seed in count(first):
        yield families[seed % len(families)], seed


class Ring:
    """Painted pictures and their truth, kept on the training device; a new one takes the place of the oldest."""

    def __init__(self, size: int, picture: tuple[int, ...], truth: tuple[int, int], device: str) -> None:
        self.pixels = torch.zeros((size, *picture), dtype=torch.uint8, device=device)
        self.truth = torch.full((size, *truth), float("nan"), device=device)
        self.size, self.count, self.next = size, 0, 0

    def add_all(self, pictures: Painted) -> int:
        """Put pictures in, all at once; each truth has the shape that the ring was made for. Say how many."""
        if not pictures:
            return 0
        places = (self.next + torch.arange(len(pictures))) % self.size
        pixels, truth = (torch.from_numpy(np.stack(part)) for part in zip(*pictures, strict=True))
        self.pixels[places] = pixels.to(self.pixels.device)
        self.truth[places] = truth.to(self.truth.device)
        self.next = (self.next + len(pictures)) % self.size
        self.count = min(self.count + len(pictures), self.size)
        return len(pictures)

    def draw(self, n: int, side: int, places: int) -> tuple[torch.Tensor, torch.Tensor]:
        """Draw pictures and cut one random square of ``side`` out of all.

        Parameters
        ----------
        n, side : int
            How many, and how large.
        places : int
            So many first columns of the truth are x and y in turn and move with the square.

        Returns
        -------
        tuple of Tensor
            Pixels, uint8, shape (n, side, side) or (n, side, side, 3); the truth, shape (n, most, columns).
        """
        pick = torch.randint(0, self.count, (n,))
        x0, y0 = (int(v) for v in torch.randint(0, self.pixels.shape[1] - side + 1, (2,)))
        truth = self.truth[pick].clone()
        truth[:, :, 0:places:2] -= x0
        truth[:, :, 1:places:2] -= y0
        return self.pixels[pick, y0 : y0 + side, x0 : x0 + side], truth


def vary(pixels: torch.Tensor) -> torch.Tensor:
    """Vary brightness and contrast of each picture, shape (n, channels, h, w), from 0 to 1."""
    n, device = len(pixels), pixels.device
    gain = 1 + 0.12 * torch.randn(n, 1, 1, 1, device=device)
    shift = 0.05 * torch.randn(n, 1, 1, 1, device=device)
    return (pixels * gain + shift).clamp(0, 1)


def laid_out(net: nn.Module, layout: torch.memory_format) -> nn.Module:
    """Lay a network's weights out in memory for a device; in place, as ``Module.to`` does."""
    untyped: Any = net  # PyTorch's own signatures of Module.to leave memory_format out
    return untyped.to(memory_format=layout)


class Training:
    """A network with its optimiser, its running average and its log."""

    def __init__(self, net: nn.Module, args: Namespace, device: str, *, name: str) -> None:
        self.args, self.device, self.name = args, device, name
        self.net = laid_out(net.to(device), torch.channels_last)
        if args.start:
            self.net.load_state_dict(torch.load(args.start, map_location=device, weights_only=True))
        mean = torch.optim.swa_utils.get_ema_multi_avg_fn(0.998)
        self.average = torch.optim.swa_utils.AveragedModel(self.net, multi_avg_fn=mean, use_buffers=True)
        self.best = torch.optim.AdamW(self.net.parameters(), lr=args.rate, weight_decay=1e-3)
        self.step, self.mean_loss, self.start = 0, 0.0, time.time()
        self.log: list[dict[str, float]] = []

    @property
    def spent(self) -> float:
        """The share of the time given that has gone."""
        return (time.time() - self.start) / self.args.seconds

    def learn(self, weigh: Callable[[nn.Module], torch.Tensor]) -> None:
        """Take one step; the rate rises over 200 steps and falls along a cosine of the time spent.

        ``weigh`` runs the network on a batch and gives the loss.
        """
        rate = self.args.rate * min(1.0, (self.step + 1) / 200) * max(0.005, 0.5 * (1 + np.cos(np.pi * self.spent)))
        for group in self.best.param_groups:
            group["lr"] = rate
        loss = weigh(self.net)
        self.best.zero_grad()
        loss.backward()
        nn.utils.clip_grad_norm_(self.net.parameters(), 5.0)
        self.best.step()
        self.average.update_parameters(self.net)
        self.mean_loss = loss.item() if self.step == 0 else 0.98 * self.mean_loss + 0.02 * loss.item()
        self.step += 1

    def note(self, scores: dict[str, float], painted: int) -> None:
        """Log the scores of the average, print them, and keep its weights."""
        spent = time.time() - self.start
        self.log.append({"step": self.step, "seconds": spent, "painted": painted, "loss": self.mean_loss, **scores})
        print(json.dumps(self.log[-1]), flush=True)
        torch.save(self.average.module.state_dict(), self.args.out / f"{self.name}.pt")


def take(stream: IMapIterator[Any], add: Callable[[Any], int]) -> int:
    """Add what is ready and no more, or what the painters made would pile up; say how much came."""
    taken = 0
    for _ in range(16):
        try:
            taken += add(stream.next(timeout=0.0005))
        except multiprocessing.TimeoutError:
            break
    return taken


def run(
    training: Training,
    rings: tuple[Ring, Ring],
    paint: Callable[[tuple[str, int]], Painted],
    jobs: tuple[list[tuple[str, int]], Iterator[tuple[str, int]]],
    weigh: Callable[[nn.Module, Ring], torch.Tensor],
    score: Callable[[nn.Module, Ring], dict[str, float]],
) -> None:
    """Train for the time given while other processes paint; weights and log are written as it goes.

    Parameters
    ----------
    training : Training
        The network; its ``args`` hold ``out``, ``fonts``, ``workers`` and ``seconds``.
    rings : tuple of Ring
        For training, and for what is held out.
    paint : callable
        Paints the pictures of a job, in another process.
    jobs : tuple
        The held-out jobs, and those to train on, without end.
    weigh, score : callable
        Give the loss of a batch drawn from a ring, and the figures of a network on the held-out ring.
    """
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ[name] = "1"
    args, (ring, checks), painted = training.args, rings, 0
    args.out.mkdir(parents=True, exist_ok=True)
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter, (args.fonts,)) as painters:
        for pictures in painters.imap_unordered(paint, jobs[0]):
            checks.add_all(pictures[: checks.size // len(jobs[0])])
        stream = painters.imap_unordered(paint, jobs[1])
        training.start = time.time()
        while training.spent < 1:
            painted += take(stream, ring.add_all)
            if ring.count < min(512, ring.size // 2):
                continue
            training.learn(lambda net: weigh(net, ring))
            if (training.step - 1) % 1000 == 0:
                training.note(score(training.average, checks), painted)
        painters.terminate()
    training.note(score(training.average, checks), painted)
    (args.out / f"{training.name}_log.json").write_text(json.dumps(training.log), encoding="utf-8")


def export(net: nn.Module, path: Path, example: torch.Tensor, names: tuple[str, str], *, many: bool = False) -> None:
    """Write a network that gives logits, its height and width left open, or how ``many`` pictures it takes."""
    plain = laid_out(net.eval().cpu(), torch.contiguous_format)
    takes = {0: "many"} if many else {2: "high", 3: "wide"}
    gives = takes if many else {2: "rows", 3: "columns"}
    torch.onnx.export(
        plain, (example,), str(path), opset_version=13, dynamo=False, input_names=[names[0]], output_names=[names[1]],
        dynamic_axes={names[0]: takes, names[1]: gives},
    )  # fmt: skip
