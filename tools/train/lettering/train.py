"""Train the label reader; run as ``python -m octavo.tools.train.lettering.train FONTS OUT`` (GPU or CPU)."""

from __future__ import annotations

import argparse
import itertools
import json
import multiprocessing
import os
import time
from multiprocessing.pool import IMapIterator
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ....extract.eyes.words.reader import CHARSET, HEIGHT, WIDTH, decode_all
from ..school import Training, laid_out
from .texts import spelled, target
from .word import legible_faces, paint_words

MOST = WIDTH // 4
"""The longest text: one character for each step."""
HELD_EVERY = 8
CHECKS_SEED = 10**6
PAINT_AT_ONCE = 256

Words = tuple[np.ndarray, list[str], np.ndarray]
"""Crops, shape (n, 32, 128), uint8; what they say; the same in classes, shape (n, MOST), 0 after the end."""


def _layer(a: int, b: int, kernel: tuple[int, int], stride: tuple[int, int], pad: tuple[int, int]) -> list[nn.Module]:
    return [nn.Conv2d(a, b, kernel, stride, pad, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True)]


class _Along(nn.Module):
    """Look at the neighbouring steps and add what they tell."""

    def __init__(self, width: int) -> None:
        super().__init__()
        self.body = nn.Sequential(nn.Conv2d(width, width, (1, 3), padding=(0, 1), bias=False), nn.BatchNorm2d(width))
        self.end = nn.ReLU(inplace=True)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        return self.end(x + self.body(x))


class LabelNet(nn.Module):
    """A column of convolutions that ends in one vector of characters for each 4 pixels of width."""

    def __init__(self, widths: tuple[int, int, int, int, int, int] = (8, 16, 32, 48, 80, 128)) -> None:
        super().__init__()
        a, b, c, d, e, f = widths
        self.body = nn.Sequential(
            *_layer(1, a, (5, 5), (2, 2), (2, 2)),
            *_layer(a, b, (3, 3), (1, 1), (1, 1)), nn.MaxPool2d((2, 1)),
            *_layer(b, c, (3, 3), (1, 2), (1, 1)),
            *_layer(c, d, (3, 3), (2, 1), (1, 1)),
            *_layer(d, e, (3, 3), (2, 1), (1, 1)),
            *_layer(e, f, (2, 3), (1, 1), (0, 1)),
            _Along(f), _Along(f), _Along(f),
            nn.Conv2d(f, 1 + len(CHARSET), 1),
        )  # fmt: skip

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn words, shape (n, 1, 32, 128), ink 1 and paper 0, into logits, shape (n, 1, steps, characters + 1)."""
        return self.body(x).permute(0, 2, 3, 1)


def start_painter() -> None:
    """Set up a painting process: one thread."""
    import cv2

    cv2.setNumThreads(1)


def paint_batch(job: tuple[list[Path], int, int]) -> Words:
    """Paint a batch of words from a seed."""
    fonts, seed, count = job
    rng = np.random.default_rng([7001, seed])
    words = paint_words(fonts, rng, count)
    targets = np.zeros((count, MOST), np.int64)
    for row, (_, text) in zip(targets, words, strict=True):
        classes = target(text)[:MOST]
        row[: len(classes)] = classes
    return np.stack([w[0] for w in words]), [w[1] for w in words], targets


class WordRing:
    """Painted words, kept on the training device; new ones take the places of the oldest."""

    def __init__(self, size: int, device: str) -> None:
        self.crops = torch.zeros((size, HEIGHT, WIDTH), dtype=torch.uint8, device=device)
        self.targets = torch.zeros((size, MOST), dtype=torch.long, device=device)
        # The lengths stay beside the processor: the CTC loss of PyTorch wants them there.
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
        with torch.autocast(ink.device.type, dtype=torch.bfloat16, enabled=ink.is_cuda):  # slow on a processor
            logits = net(ink)
        chances = logits.squeeze(1).float().log_softmax(2).permute(1, 0, 2)
        steps = torch.full((n,), chances.shape[0], dtype=torch.long)
        return nn.functional.ctc_loss(
            chances, self.targets[there], steps, self.lengths[pick], zero_infinity=True, reduction="sum"
        ) / n  # fmt: skip


def score(net: nn.Module, batches: list[Words], device: str) -> dict[str, float]:
    """Give the shares of crops read right, by kind, and of those read wrong with a confidence over 0.9.

    Kinds: numbers, words with a letter, and crops that show neither.
    """
    right: dict[str, list[bool]] = {"all": [], "numbers": [], "letters": [], "nothing": []}
    sure_wrong = 0
    net.eval()
    with torch.no_grad():
        for crops, texts, _ in batches:
            ink = 1.0 - torch.from_numpy(crops).to(device)[:, None].float() / 255.0
            for got, text in zip(decode_all(net(ink).squeeze(1).float().cpu().numpy()), texts, strict=True):
                want = spelled(text)
                kind = "nothing" if want in ("", "?") else "letters" if any(map(str.isalpha, want)) else "numbers"
                right["all"].append(got.text == want)
                right[kind].append(got.text == want)
                sure_wrong += got.text != want and got.confidence > 0.9
    net.train()
    return {k: sum(v) / max(len(v), 1) for k, v in right.items()} | {"sure_wrong": sure_wrong / len(right["all"])}


def take(stream: IMapIterator[Words], ring: WordRing) -> int:
    """Take the batches that are ready and no more; say how many words came."""
    taken = 0
    for _ in range(16):
        try:
            words = stream.next(timeout=0.0005)
        except multiprocessing.TimeoutError:
            break
        ring.add(words)
        taken += len(words[1])
    return taken


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("fonts", type=Path, help="folder of font files")
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--seconds", type=float, default=480)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=512)
    parser.add_argument("--ring", type=int, default=200_000, help="painted words kept")
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
    training, ring, painted = Training(LabelNet(), args, device, name="labels"), WordRing(args.ring, device), 0
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter) as painters:
        checks = painters.map(paint_batch, [(held, CHECKS_SEED + i, PAINT_AT_ONCE) for i in range(16)], chunksize=1)
        jobs = ((fonts, seed, PAINT_AT_ONCE) for seed in itertools.count(args.first))
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
    (args.out / "labels_log.json").write_text(json.dumps(training.log), encoding="utf-8")
    export(training.average.module, args.out / "labels.onnx")


def export(net: nn.Module, path: Path) -> None:
    """Write the network for cv2.dnn."""
    plain = laid_out(net.eval().cpu(), torch.contiguous_format)
    torch.onnx.export(
        plain, (torch.zeros(8, 1, HEIGHT, WIDTH),), str(path), opset_version=13, dynamo=False,
        input_names=["words"], output_names=["characters"], dynamic_axes={"words": {0: "n"}, "characters": {0: "n"}},
    )  # fmt: skip


if __name__ == "__main__":
    main()
