"""Train the reader of print; run as ``python -m octavo.tools.train.printing.train FONTS WORDS OUT`` (GPU or CPU)."""

from __future__ import annotations

import argparse
import itertools
import json
import multiprocessing
import os
import time
from functools import lru_cache
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ....extract.eyes.words.printed import CHARSET, HEIGHT, WIDEST, classes_of
from ....extract.eyes.words.reader import decode_all
from ..lettering.train import start_painter, take
from ..lettering.word import legible_faces
from ..school import Training, laid_out
from .line import paint_words
from .net import PrintNet
from .texts import words_from

MOST = 48
"""The longest text."""
HELD_EVERY = 8
CHECKS_SEED = 10**6
PAINT_AT_ONCE = 128

Words = tuple[np.ndarray, list[str], np.ndarray]
"""Crops, shape (n, 32, 256), uint8; what they say; the same in classes, shape (n, MOST), 0 after the end."""


@lru_cache(maxsize=1)
def _listed(path: Path) -> tuple[str, ...]:
    return words_from(path)


def paint_batch(job: tuple[list[Path], Path, int, int]) -> Words:
    """Paint a batch of words from a seed."""
    fonts, listed, seed, count = job
    rng = np.random.default_rng([7301, seed])
    words = paint_words(fonts, _listed(listed), rng, count)
    targets = np.zeros((count, MOST), np.int64)
    for row, (_, text) in zip(targets, words, strict=True):
        classes = classes_of(text)[:MOST]
        row[: len(classes)] = classes
    return np.stack([w[0] for w in words]), [w[1] for w in words], targets


class WordRing:
    """Painted words, kept on the training device; new ones take the places of the oldest."""

    def __init__(self, size: int, device: str) -> None:
        self.crops = torch.zeros((size, HEIGHT, WIDEST), dtype=torch.uint8, device=device)
        self.targets = torch.zeros((size, MOST), dtype=torch.long, device=device)
        self.lengths = torch.zeros(size, dtype=torch.long)
        self.size, self.count, self.next = size, 0, 0

    def add(self, words: Words) -> None:
        """Put words in."""
        crops, _, targets = words
        places = (self.next + torch.arange(len(crops))) % self.size
        there = places.to(self.crops.device)
        self.crops[there] = torch.from_numpy(crops).to(self.crops.device)
        self.targets[there] = torch.from_numpy(targets).to(self.crops.device)
        self.lengths[places] = torch.from_numpy((targets > 0).sum(1))
        self.next = int(self.next + len(crops)) % self.size
        self.count = min(self.count + len(crops), self.size)

    def loss(self, net: nn.Module, n: int) -> torch.Tensor:
        """Draw words, vary their light a little, and give the mean CTC loss of a word."""
        pick = torch.randint(0, self.count, (n,))
        there = pick.to(self.crops.device)
        ink = 1.0 - self.crops[there][:, None].float() / 255.0
        gain = 1 + 0.1 * torch.randn(n, 1, 1, 1, device=ink.device)
        shift = 0.04 * torch.randn(n, 1, 1, 1, device=ink.device)
        ink = (ink * gain + shift).clamp(0, 1).contiguous(memory_format=torch.channels_last)
        with torch.autocast(ink.device.type, dtype=torch.bfloat16, enabled=ink.is_cuda):
            logits = net(ink)
        chances = logits.squeeze(1).float().log_softmax(2).permute(1, 0, 2)
        steps = torch.full((n,), chances.shape[0], dtype=torch.long)
        return nn.functional.ctc_loss(
            chances, self.targets[there], steps, self.lengths[pick], zero_infinity=True, reduction="sum"
        ) / n  # fmt: skip


def score(net: nn.Module, batches: list[Words], device: str) -> dict[str, float]:
    """Give the shares of crops read right, by kind, and of those read wrong with a confidence over 0.9."""
    right: dict[str, list[bool]] = {"all": [], "numbers": [], "letters": [], "cases-aside": [], "nothing": []}
    sure_wrong = 0
    net.eval()
    with torch.no_grad():
        for crops, _, targets in batches:
            ink = 1.0 - torch.from_numpy(crops).to(device)[:, None].float() / 255.0
            said = decode_all(net(ink).squeeze(1).float().cpu().numpy(), CHARSET)
            for got, classes in zip(said, targets, strict=True):
                want = "".join(CHARSET[c - 1] for c in classes if c).strip()
                kind = "letters" if any(map(str.isalpha, want)) else "numbers" if want else "nothing"
                right["all"].append(got.text == want)
                right[kind].append(got.text == want)
                if kind == "letters":
                    right["cases-aside"].append(got.text.casefold() == want.casefold())
                sure_wrong += got.text != want and got.confidence > 0.9
    net.train()
    return {k: sum(v) / max(len(v), 1) for k, v in right.items()} | {"sure_wrong": sure_wrong / len(right["all"])}


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("fonts", type=Path, help="folder of font files")
    parser.add_argument("words", type=Path, help="file with words of the languages to read, one a line, small letters")
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--seconds", type=float, default=480)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=512)
    parser.add_argument("--ring", type=int, default=400_000, help="painted words kept")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--rate", type=float, default=3e-3)
    parser.add_argument("--start", type=Path, default=None, help="weights to go on from")
    return parser.parse_args()


def main() -> None:
    """Train for the time given, with every eighth font held out to score on, and write the running average as ONNX."""
    args = _arguments()
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ[name] = "1"
    torch.manual_seed(11)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    args.out.mkdir(parents=True, exist_ok=True)
    fonts = legible_faces(args.fonts)
    held = fonts[3::HELD_EVERY]
    fonts = [f for f in fonts if f not in held]
    ring, painted = WordRing(args.ring, device), 0
    training = Training(PrintNet(), args, device, name="printed")
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter) as painters:
        held_jobs = [(held, args.words, CHECKS_SEED + i, PAINT_AT_ONCE) for i in range(32)]
        checks = painters.map(paint_batch, held_jobs, chunksize=1)
        jobs = ((fonts, args.words, seed, PAINT_AT_ONCE) for seed in itertools.count(args.first))
        stream = painters.imap_unordered(paint_batch, jobs)
        training.start = time.time()
        while training.spent < 1:
            painted += take(stream, ring)
            if ring.count < min(4 * args.batch, ring.size):
                continue
            training.learn(lambda net: ring.loss(net, args.batch))
            if (training.step - 1) % 1000 == 0:
                training.note(score(training.average, checks, device), painted)
        painters.terminate()
    training.note(score(training.average, checks, device), painted)
    (args.out / "printed_log.json").write_text(json.dumps(training.log), encoding="utf-8")
    export(training.average.module, args.out / "printed.onnx")


def export(net: nn.Module, path: Path) -> None:
    """Write the network for cv2.dnn; words may be of any width."""
    plain = laid_out(net.eval().cpu(), torch.contiguous_format)
    torch.onnx.export(
        plain, (torch.zeros(8, 1, HEIGHT, 128),), str(path), opset_version=13, dynamo=False,
        input_names=["words"], output_names=["characters"],
        dynamic_axes={"words": {0: "n", 3: "wide"}, "characters": {0: "n", 2: "steps"}},
    )  # fmt: skip


if __name__ == "__main__":
    main()
