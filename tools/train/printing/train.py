"""Train the reader of print; run as ``python -m octavo.tools.train.printing.train FONTS WORDS OUT`` (GPU or CPU)."""

from __future__ import annotations

import itertools
from functools import lru_cache
from pathlib import Path

import numpy as np
import torch

from ....extract.eyes.words.printed import CHARSET, HEIGHT, WIDEST, classes_of
from ..lettering.word import legible_faces
from ..readers import CHECKS_SEED, WordRing, Words, arguments, as_words, export, fonts_of, train
from ..school import Training
from .line import paint_words
from .net import PrintNet
from .texts import words_from

MOST = 48
"""The longest text."""
PAINT_AT_ONCE = 128


@lru_cache(maxsize=1)
def _listed(path: Path) -> tuple[str, ...]:
    return words_from(path)


def paint_batch(job: tuple[list[Path], Path, int, int]) -> Words:
    """Paint a batch of words from a seed."""
    fonts, listed, seed, count = job
    painted = paint_words(fonts, _listed(listed), np.random.default_rng([7301, seed]), count)
    return as_words(painted, classes_of, CHARSET, MOST)


def main() -> None:
    """Train for the time given, with every eighth font held out to score on, and write the running average as ONNX."""
    args = arguments(__doc__, ring=400_000, words=True)
    torch.manual_seed(11)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    args.out.mkdir(parents=True, exist_ok=True)
    fonts, held = fonts_of(legible_faces(args.fonts))
    training = Training(PrintNet(), args, device, name="printed")
    held_jobs = [(held, args.words, CHECKS_SEED + i, PAINT_AT_ONCE) for i in range(32)]
    jobs = ((fonts, args.words, seed, PAINT_AT_ONCE) for seed in itertools.count(args.first))
    train(training, WordRing(args.ring, (HEIGHT, WIDEST), MOST, device), paint_batch, (held_jobs, jobs), CHARSET)
    export(training.average.module, args.out / "printed.onnx", (HEIGHT, 128))


if __name__ == "__main__":
    main()
