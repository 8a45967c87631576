"""Train the mark network; run as ``python -m octavo.tools.train.marks.train OUT`` (GPU, or CPU to rehearse)."""

from __future__ import annotations

from collections import Counter
from itertools import islice

import numpy as np
import torch
from torch import nn

from ....interpret.symbols import GLYPHS
from ..school import Painted, Ring, Training, arguments, export, in_turn, run, vary
from .crops import ARROWS, TILE, paint_tiles, training_families
from .net import HEATS, MarkNet, loss_of

MOST_MARKS = 96
VALIDATION_SEED = 9_000_000
SCORE_LIMIT = 0.3
"""Heat over which a peak counts as a mark found."""
SCORE_REACH_PX = 4.0
SCORE_EDGE_PX = 8.0
"""Marks and peaks closer to a tile's edge are not scored: they may be cut."""


def paint(job: tuple[str, int]) -> Painted:
    """Paint the charts of one page; marks as in ``crops.Tile``."""
    out = []
    for tile in paint_tiles(*job):
        marks = np.full((MOST_MARKS, 9), np.nan, np.float32)
        marks[: len(tile.marks)] = tile.marks[:MOST_MARKS]
        out.append((tile.pixels, marks))
    return out


def weigh(net: nn.Module, ring: Ring, n: int, side: int) -> torch.Tensor:
    """Draw a batch of ``n`` squares of ``side`` pixels and give the network's loss on it."""
    raw, marks = ring.draw(n, side, 2)
    pixels = (raw.permute(0, 3, 1, 2).float() / 255).contiguous(memory_format=torch.channels_last)
    good = (marks[:, :, :2] > -4).all(2) & (marks[:, :, :2] < side + 4).all(2)
    with torch.autocast(raw.device.type, dtype=torch.bfloat16):
        out = net(vary(pixels))
    return loss_of(out, marks[good], good.nonzero()[:, 0])


def score(net: nn.Module, ring: Ring) -> dict[str, float]:
    """Find marks on held-out tiles: share found within 4 px, false ones, wrong arrows, and tips not seen."""
    counts: Counter[str] = Counter()
    net.eval()
    with torch.no_grad():
        for start in range(0, ring.count, 32):
            pixels = ring.pixels[start : min(start + 32, ring.count)].permute(0, 3, 1, 2).float() / 255
            heats = net(pixels)[:, :HEATS].float().sigmoid()
            for heat, marks in zip(heats, ring.truth[start : start + len(heats)], strict=True):
                counts += _compared(heat, marks[~marks[:, 0].isnan()])
    net.train()
    marks, found = max(counts["marks"], 1), max(counts["found"], 1)
    return {"found": counts["found"] / marks, "false": counts["false"] / marks,
            "arrow_wrong": counts["arrow_wrong"] / found, "ink_wrong": counts["ink_wrong"] / found,
            "tip_missed": counts["tip_missed"] / max(counts["arrows"], 1),
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
    for mark in marks[marks[:, 3] >= 0]:
        tip = heat[HEATS - len(ARROWS) + int(mark[3]), *_around(mark[:2] + mark[7:9])]
        counts["arrows"] += 1
        counts["tip_missed"] += tip.numel() == 0 or float(tip.max()) < SCORE_LIMIT
    for mark in marks[near.any(1)]:
        spot = heat[len(GLYPHS) :, *_around(mark[:2])].amax((1, 2))
        seen = int(spot[: len(ARROWS)].argmax()) if spot[: len(ARROWS)].max() > 0.4 else -1
        counts["arrow_wrong"] += seen != int(mark[3])
        counts["ink_wrong"] += float(spot[len(ARROWS) + int(mark[4])]) < 0.4
    return counts


def _around(at: torch.Tensor) -> tuple[slice, slice]:
    """Give the rows and columns of the maps at and beside a place of the tile."""
    column, row = (max(int((v / 2 - 0.25).round()), 0) for v in at)
    return slice(max(row - 1, 0), row + 2), slice(max(column - 1, 0), column + 2)


def _inner(x: torch.Tensor, y: torch.Tensor) -> torch.Tensor:
    edge = TILE - SCORE_EDGE_PX
    return (x > SCORE_EDGE_PX) & (x < edge) & (y > SCORE_EDGE_PX) & (y < edge)


def main() -> None:
    """Train for the time given while other processes paint, and write the running average as ONNX."""
    args = arguments(__doc__, seconds=500, batch=48, side=448, ring=30_000, first=0)
    torch.manual_seed(5)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    training = Training(MarkNet(), args, device, name="by-hand" if args.by_hand else "marks")
    rings = tuple(Ring(size, (TILE, TILE, 3), (MOST_MARKS, 9), device) for size in (args.ring, args.checks))
    families = training_families(by_hand=args.by_hand)
    jobs = (list(islice(in_turn(families, VALIDATION_SEED), args.checks)), in_turn(families, args.first))
    run(
        training, (rings[0], rings[1]), paint, jobs,
        lambda net, ring: weigh(net, ring, args.batch, args.side), score,
    )  # fmt: skip
    export(training.average.module, args.out / f"{training.name}.onnx", torch.zeros(1, 3, 544, 560), ("chart", "heat"))


if __name__ == "__main__":
    main()
