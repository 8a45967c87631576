"""Train the word finder; run as ``python -m octavo.tools.train.finder.train OUT`` (GPU, or CPU to rehearse)."""

from __future__ import annotations

from itertools import islice

import numpy as np
import torch
from torch import nn

from ....extract.eyes.words.finder import boxes_of
from ..school import Painted, Ring, Training, arguments, export, in_turn, run, vary
from .net import WordFinder, loss_of
from .tiles import TILE, finder_families, paint_word_tiles

MOST_WORDS = 320
VALIDATION_SEED = 9_500_000
SAME_WORD = 0.5
"""A box found is a word's where their intersection over their union is greater."""


def paint(job: tuple[str, int]) -> Painted:
    """Paint pieces of one page; words as in ``tiles.WordTile``."""
    out = []
    for tile in paint_word_tiles(*job):
        words = np.full((MOST_WORDS, 4), np.nan, np.float32)
        words[: len(tile.words)] = tile.words[:MOST_WORDS]
        out.append((tile.pixels, words))
    return out


def weigh(net: nn.Module, ring: Ring, n: int, side: int) -> torch.Tensor:
    """Draw a batch of ``n`` squares of ``side`` pixels and give the loss on it."""
    raw, words = ring.draw(n, side, 4)
    pixels = vary(1 - raw[:, None].float() / 255)
    middle = (words[:, :, :2] + words[:, :, 2:]) / 2
    good = ((middle > 0) & (middle < side)).all(2)
    kept = words[good].clamp(-2, side + 2)
    with torch.autocast(raw.device.type, dtype=torch.bfloat16):
        out = net(pixels)
    return loss_of(out, kept, good.nonzero()[:, 0])


def score(net: nn.Module, ring: Ring) -> dict[str, float]:
    """Find words on held-out tiles: the share found, false boxes, and the mean overlap of what was found."""
    words = found = false = 0
    overlap = 0.0
    net.eval()
    with torch.no_grad():
        for i in range(ring.count):
            out = net(1 - ring.pixels[i][None, None].float() / 255)[0].float().cpu().numpy()
            boxes = boxes_of(out)[:, :4]
            truth = ring.truth[i].cpu().numpy()
            truth = truth[~np.isnan(truth[:, 0])]
            words += len(truth)
            if len(boxes) and len(truth):
                shared = _overlaps(truth, boxes)
                found += int((shared.max(1) > SAME_WORD).sum())
                false += int((shared.max(0) <= SAME_WORD).sum())
                overlap += float(shared.max(1)[shared.max(1) > SAME_WORD].sum())
            else:
                false += len(boxes)
    net.train()
    return {"found": found / max(words, 1), "false": false / max(words, 1), "overlap": overlap / max(found, 1),
            "words": words}  # fmt: skip


def _overlaps(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    low = np.maximum(one[:, None, :2], other[None, :, :2])
    high = np.minimum(one[:, None, 2:], other[None, :, 2:])
    shared = (high - low).clip(min=0).prod(2)
    areas = [(b[:, 2:] - b[:, :2]).prod(1) for b in (one, other)]
    return shared / (areas[0][:, None] + areas[1][None] - shared)


def main() -> None:
    """Train for the time given while other processes paint, and write the running average as ONNX."""
    args = arguments(__doc__, seconds=300, batch=64, side=384, ring=40_000, first=3_000_000)
    torch.manual_seed(6)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    training = Training(WordFinder(), args, device, name="words")
    rings = tuple(Ring(size, (TILE, TILE), (MOST_WORDS, 4), device) for size in (args.ring, args.checks))
    families = finder_families()
    jobs = (list(islice(in_turn(families, VALIDATION_SEED), args.checks)), in_turn(families, args.first))
    run(
        training, (rings[0], rings[1]), paint, jobs,
        lambda net, ring: weigh(net, ring, args.batch, args.side), score,
    )  # fmt: skip
    export(training.average.module, args.out / "words.onnx", torch.zeros(1, 1, 416, 448), ("page", "words"))


if __name__ == "__main__":
    main()
