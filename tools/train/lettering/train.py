"""Train the label reader; run as ``python -m octavo.tools.train.lettering.train FONTS OUT`` (GPU or CPU)."""

from __future__ import annotations

import itertools
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ....extract.eyes.words.reader import CHARSET, HEIGHT, WIDTH, classes_of
from ..readers import CHECKS_SEED, Along, WordRing, Words, arguments, as_words, export, fonts_of, layer, train
from ..school import Training
from .word import legible_faces, paint_words

MOST = WIDTH // 4
"""The longest text: one character for each step."""
PAINT_AT_ONCE = 256
CROP = (HEIGHT, WIDTH)


class LabelNet(nn.Module):
    """A column of convolutions that ends in one vector of characters for each 4 pixels of width."""

    def __init__(self, widths: tuple[int, int, int, int, int, int] = (8, 16, 32, 48, 80, 128)) -> None:
        super().__init__()
        a, b, c, d, e, f = widths
        self.body = nn.Sequential(
            *layer(1, a, (5, 5), (2, 2), (2, 2)),
            *layer(a, b, (3, 3), (1, 1), (1, 1)), nn.MaxPool2d((2, 1)),
            *layer(b, c, (3, 3), (1, 2), (1, 1)),
            *layer(c, d, (3, 3), (2, 1), (1, 1)),
            *layer(d, e, (3, 3), (2, 1), (1, 1)),
            *layer(e, f, (2, 3), (1, 1), (0, 1)),
            Along(f), Along(f), Along(f),
            nn.Conv2d(f, 1 + len(CHARSET), 1),
        )  # fmt: skip

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn words, shape (n, 1, 32, 128), ink 1 and paper 0, into logits, shape (n, 1, steps, characters + 1)."""
        return self.body(x).permute(0, 2, 3, 1)


def paint_batch(job: tuple[list[Path], int, int]) -> Words:
    """Paint a batch of words from a seed."""
    fonts, seed, count = job
    return as_words(paint_words(fonts, np.random.default_rng([7001, seed]), count), classes_of, CHARSET, MOST)


def main() -> None:
    """Train for the time given, with every eighth font held out to score on, and write the running average as ONNX."""
    args = arguments(__doc__, ring=200_000)
    torch.manual_seed(11)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    args.out.mkdir(parents=True, exist_ok=True)
    fonts, held = fonts_of(legible_faces(args.fonts))
    training = Training(LabelNet(), args, device, name="labels")
    held_jobs = [(held, CHECKS_SEED + i, PAINT_AT_ONCE) for i in range(16)]
    jobs = ((fonts, seed, PAINT_AT_ONCE) for seed in itertools.count(args.first))
    train(training, WordRing(args.ring, CROP, MOST, device), paint_batch, (held_jobs, jobs), CHARSET)
    export(training.average.module, args.out / "labels.onnx", CROP)


if __name__ == "__main__":
    main()
