"""Train the mark network; run as ``python -m octavo.tools.train.train_marks OUT`` (GPU, or CPU to rehearse)."""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import time
from collections import Counter
from collections.abc import Iterator
from itertools import count, islice
from multiprocessing.pool import IMapIterator
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ...interpret.symbols import GLYPHS
from .mark_crops import ARROWS, TILE, paint_tiles, training_families
from .mark_net import HEATS, MarkNet, loss_of

MOST_MARKS = 96
VALIDATION_SEED = 9_000_000
SCORE_LIMIT = 0.3
"""Heat over which a peak counts as a mark found."""
SCORE_REACH_PX = 4.0
SCORE_EDGE_PX = 8.0
"""Marks and peaks closer to a tile's edge are not scored: they may be cut."""


Tiles = list[tuple[np.ndarray, np.ndarray]]
"""The tiles of one page with their marks, shape (MOST_MARKS, 7), NaN where there are fewer."""


def _start_painter(fonts: str | None) -> None:
    import cv2

    cv2.setNumThreads(1)
    if fonts:
        from ..painter.fonts import use_folder

        use_folder(fonts)


def _paint(job: tuple[str, int]) -> Tiles:
    tiles = paint_tiles(*job)
    out = []
    for tile in tiles:
        marks = np.full((MOST_MARKS, 7), np.nan, np.float32)
        marks[: len(tile.marks)] = tile.marks[:MOST_MARKS]
        out.append((tile.pixels, marks))
    return out


class Pool:
    """The painted tiles, kept on the training device in a ring."""

    def __init__(self, size: int, device: str) -> None:
        self.pixels = torch.zeros((size, TILE, TILE, 3), dtype=torch.uint8, device=device)
        self.marks = torch.full((size, MOST_MARKS, 7), float("nan"), device=device)
        self.size, self.count, self.next = size, 0, 0

    def add(self, pixels: np.ndarray, marks: np.ndarray) -> None:
        """Put a tile in the place of the oldest; ``marks`` has shape (MOST_MARKS, 7), NaN where there are fewer."""
        self.pixels[self.next] = torch.from_numpy(pixels).to(self.pixels.device)
        self.marks[self.next] = torch.from_numpy(marks).to(self.marks.device)
        self.next = (self.next + 1) % self.size
        self.count = min(self.count + 1, self.size)

    def batch(self, n: int, side: int) -> tuple[torch.Tensor, torch.Tensor, torch.Tensor]:
        """Draw tiles, cut a random square of ``side`` from each, and vary the light a little.

        Returns
        -------
        tuple of Tensor
            Pictures, shape (n, 3, side, side), from 0 to 1; their marks, shape (m, 7); to which picture each belongs,
            shape (m,).
        """
        pick = torch.randint(0, self.count, (n,))
        x0, y0 = (int(v) for v in torch.randint(0, TILE - side + 1, (2,)))
        pixels = self.pixels[pick, y0 : y0 + side, x0 : x0 + side].permute(0, 3, 1, 2).float() / 255
        pixels = pixels.contiguous(memory_format=torch.channels_last)
        marks = self.marks[pick].clone()
        marks[:, :, 0] -= x0
        marks[:, :, 1] -= y0
        good = (marks[:, :, :2] > -4).all(2) & (marks[:, :, :2] < side + 4).all(2)
        return vary(pixels), marks[good], good.nonzero()[:, 0]


def vary(pixels: torch.Tensor) -> torch.Tensor:
    """Vary brightness and contrast of each picture."""
    n, device = len(pixels), pixels.device
    gain = 1 + 0.12 * torch.randn(n, 1, 1, 1, device=device)
    shift = 0.05 * torch.randn(n, 1, 1, 1, device=device)
    return (pixels * gain + shift).clamp(0, 1)


def score(net: nn.Module, pool: Pool) -> dict[str, float]:
    """Find marks on held-out tiles: share found within 4 px with the right glyph, false ones, and wrong arrows."""
    counts: Counter[str] = Counter()
    net.eval()
    with torch.no_grad():
        for start in range(0, pool.count, 32):
            pixels = pool.pixels[start : min(start + 32, pool.count)].permute(0, 3, 1, 2).float() / 255
            heats = net(pixels)[:, :HEATS].float().sigmoid()
            for heat, marks in zip(heats, pool.marks[start : start + len(heats)], strict=True):
                counts += _compared(heat, marks[~marks[:, 0].isnan()])
    net.train()
    marks, found = max(counts["marks"], 1), max(counts["found"], 1)
    return {"found": counts["found"] / marks, "false": counts["false"] / marks,
            "arrow_wrong": counts["arrow_wrong"] / found, "ink_wrong": counts["ink_wrong"] / found,
            "marks": counts["marks"]}  # fmt: skip


def _compared(heat: torch.Tensor, marks: torch.Tensor) -> Counter[str]:
    """Count on one tile the marks, those found, false peaks, and of those found the wrong arrows and inks."""
    glyphs = heat[: len(GLYPHS)]
    peaks = ((nn.functional.max_pool2d(glyphs[None], 5, 1, 2)[0] == glyphs) & (glyphs > SCORE_LIMIT)).nonzero().float()
    x, y = peaks[:, 2] * 2 + 0.5, peaks[:, 1] * 2 + 0.5
    marks = marks[_inner(marks[:, 0], marks[:, 1])]
    far = (marks[:, :1] - x[None]).square() + (marks[:, 1:2] - y[None]).square()
    near = (far < SCORE_REACH_PX**2) & (marks[:, 2:3].long() == peaks[None, :, 0].long())
    counts = Counter(marks=len(marks), found=int(near.any(1).sum()), false=int((_inner(x, y) & ~near.any(0)).sum()))
    for mark in marks[near.any(1)]:
        column, row = int((mark[0] / 2 - 0.25).round()), int((mark[1] / 2 - 0.25).round())
        spot = heat[len(GLYPHS) :, max(row - 1, 0) : row + 2, max(column - 1, 0) : column + 2].amax((1, 2))
        seen = int(spot[: len(ARROWS)].argmax()) if spot[: len(ARROWS)].max() > 0.4 else -1
        counts["arrow_wrong"] += seen != int(mark[3])
        counts["ink_wrong"] += float(spot[len(ARROWS) + int(mark[4])]) < 0.4
    return counts


def _inner(x: torch.Tensor, y: torch.Tensor) -> torch.Tensor:
    edge = TILE - SCORE_EDGE_PX
    return (x > SCORE_EDGE_PX) & (x < edge) & (y > SCORE_EDGE_PX) & (y < edge)


def jobs(first: int) -> Iterator[tuple[str, int]]:
    """Give a family and a seed without end, the families in turn."""
    families = training_families()
    for seed in count(first):
        yield families[seed % len(families)], seed


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--fonts", default=None, help="folder of font files, where the packages are not installed")
    parser.add_argument("--seconds", type=float, default=500)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=48)
    parser.add_argument("--side", type=int, default=448)
    parser.add_argument("--ring", type=int, default=30000, help="painted tiles kept")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--start", type=Path, default=None, help="weights to go on from")
    parser.add_argument("--checks", type=int, default=300, help="held-out tiles")
    return parser.parse_args()


class Training:
    """A network with its optimiser, its running average and its log."""

    def __init__(self, args: argparse.Namespace, device: str) -> None:
        self.args, self.device = args, device
        # PyTorch's own signatures leave memory_format out
        self.net = MarkNet().to(device, memory_format=torch.channels_last)  # type: ignore[call-overload]
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

    def learn(self, pool: Pool) -> None:
        """Take one step on a batch; the rate rises over 200 steps and falls along a cosine of the time spent."""
        rate = self.args.rate * min(1.0, (self.step + 1) / 200) * max(0.005, 0.5 * (1 + np.cos(np.pi * self.spent)))
        for group in self.best.param_groups:
            group["lr"] = rate
        pixels, marks, batch = pool.batch(self.args.batch, self.args.side)
        with torch.autocast(self.device, dtype=torch.bfloat16):
            out = self.net(pixels)
        loss = loss_of(out, marks, batch)
        self.best.zero_grad()
        loss.backward()
        nn.utils.clip_grad_norm_(self.net.parameters(), 5.0)
        self.best.step()
        self.average.update_parameters(self.net)
        self.mean_loss = loss.item() if self.step == 0 else 0.98 * self.mean_loss + 0.02 * loss.item()
        self.step += 1

    def note(self, checks: Pool, painted: int, step: int) -> None:
        """Score the average, print and log it, and keep its weights."""
        spent = time.time() - self.start
        scores = score(self.average, checks)
        self.log.append({"step": step, "seconds": spent, "painted": painted, "loss": self.mean_loss, **scores})
        print(json.dumps(self.log[-1]), flush=True)
        torch.save(self.average.module.state_dict(), self.args.out / "marks.pt")


def _take(stream: IMapIterator[Tiles], pool: Pool) -> int:
    """Take what is ready and no more, or what the painters made would pile up; say how many tiles came."""
    taken = 0
    for _ in range(16):
        try:
            tiles = stream.next(timeout=0.0005)
        except multiprocessing.TimeoutError:
            break
        for tile in tiles:
            pool.add(*tile)
            taken += 1
    return taken


def main() -> None:
    """Train for the time given while other processes paint, and write the running average as ONNX."""
    args = _arguments()
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ[name] = "1"
    torch.manual_seed(5)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    args.out.mkdir(parents=True, exist_ok=True)
    training = Training(args, device)
    pool, checks = Pool(args.ring, device), Pool(args.checks, device)
    painted = 0
    with multiprocessing.get_context("spawn").Pool(args.workers, _start_painter, (args.fonts,)) as painters:
        for tiles in painters.imap_unordered(_paint, list(islice(jobs(VALIDATION_SEED), args.checks))):
            for tile in tiles[:1]:
                checks.add(*tile)
        stream = painters.imap_unordered(_paint, jobs(args.first))
        while training.spent < 1:
            painted += _take(stream, pool)
            if pool.count < min(512, args.ring // 2):
                continue
            training.learn(pool)
            if (training.step - 1) % 1000 == 0:
                training.note(checks, painted, training.step - 1)
        painters.terminate()
    training.note(checks, painted, training.step)
    (args.out / "marks_log.json").write_text(json.dumps(training.log), encoding="utf-8")
    export(training.average.module, args.out / "marks.onnx")


def export(net: nn.Module, path: Path) -> None:
    """Write the network for cv2.dnn; its heat maps are logits, the sigmoid is left to the reader."""
    plain = net.eval().cpu().to(memory_format=torch.contiguous_format)  # type: ignore[call-overload]
    torch.onnx.export(
        plain, (torch.zeros(1, 3, 544, 560),), str(path), opset_version=13, dynamo=False,
        input_names=["chart"], output_names=["heat"],
        dynamic_axes={"chart": {2: "high", 3: "wide"}, "heat": {2: "high", 3: "wide"}},
    )  # fmt: skip


if __name__ == "__main__":
    main()
