"""What the trainings of the readers of words share: painted words on the device, and the steps through time."""

from __future__ import annotations

import json
import multiprocessing
import os
import time
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

import numpy as np
import torch
from torch import nn

from ...extract.eyes.words.reader import decode_all
from .painters import start_painter
from .school import Training, laid_out, take

HELD_EVERY = 8
CHECKS_SEED = 10**6

Words = tuple[np.ndarray, list[str], np.ndarray]
"""Crops, shape (n, high, wide), uint8; what the network is to say; the same in classes, shape (n, most), 0 after the
end."""
Job = TypeVar("Job")


def layer(a: int, b: int, kernel: tuple[int, int], stride: tuple[int, int], pad: tuple[int, int]) -> list[nn.Module]:
    """Give one convolution with what follows it."""
    return [nn.Conv2d(a, b, kernel, stride, pad, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True)]


class Along(nn.Module):
    """Look at the steps so many places away and add what they tell."""

    def __init__(self, width: int, reach: int = 1) -> None:
        super().__init__()
        self.body = nn.Sequential(
            nn.Conv2d(width, width, (1, 3), padding=(0, reach), dilation=(1, reach), bias=False), nn.BatchNorm2d(width)
        )
        self.end = nn.ReLU(inplace=True)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        return self.end(x + self.body(x))


def arguments(description: str | None, *, ring: int, words: bool = False) -> Namespace:
    """Read a training's arguments; ``ring`` is how many words it keeps unless told, ``words`` asks for a word list."""
    parser = ArgumentParser(description=description)
    parser.add_argument("fonts", type=Path, help="folder of font files")
    if words:
        parser.add_argument(
            "words", type=Path, help="file with words of the languages to read, one a line, small letters"
        )
    parser.add_argument("out", type=Path, help="folder for the network, its weights and its log")
    parser.add_argument("--seconds", type=float, default=480)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=512)
    parser.add_argument("--ring", type=int, default=ring, help="painted words kept")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--rate", type=float, default=3e-3)
    parser.add_argument("--start", type=Path, default=None, help="weights to go on from")
    return parser.parse_args()


def as_words(
    painted: list[tuple[np.ndarray, str]], classes_of: Callable[[str], list[int]], charset: str, most: int
) -> Words:
    """Put painted crops with their texts together, in classes of at most so many characters."""
    targets = np.zeros((len(painted), most), np.int64)
    for row, (_, text) in zip(targets, painted, strict=True):
        classes = classes_of(text)[:most]
        row[: len(classes)] = classes
    said = ["".join(charset[c - 1] for c in row if c).strip() for row in targets]
    return np.stack([crop for crop, _ in painted]), said, targets


class WordRing:
    """Painted words, kept on the training device; new ones take the places of the oldest."""

    def __init__(self, size: int, crop: tuple[int, int], most: int, device: str) -> None:
        self.crops = torch.zeros((size, *crop), dtype=torch.uint8, device=device)
        self.targets = torch.zeros((size, most), dtype=torch.long, device=device)
        # The lengths stay beside the processor: the CTC loss of PyTorch wants them there.
        self.lengths = torch.zeros(size, dtype=torch.long)
        self.size, self.count, self.next = size, 0, 0

    def add(self, words: Words) -> int:
        """Put words in; say how many."""
        crops, _, targets = words
        places = (self.next + torch.arange(len(crops))) % self.size
        there = places.to(self.crops.device)
        self.crops[there] = torch.from_numpy(crops).to(self.crops.device)
        self.targets[there] = torch.from_numpy(targets).to(self.crops.device)
        self.lengths[places] = torch.from_numpy((targets > 0).sum(1))
        self.next = int(self.next + len(crops)) % self.size
        self.count = min(self.count + len(crops), self.size)
        return len(crops)

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


def score(net: nn.Module, batches: list[Words], charset: str, device: str) -> dict[str, float]:
    """Give the shares of crops read right, by kind, and of those read wrong with a confidence over 0.9.

    Kinds: numbers, words with a letter (these also with capitals taken for small letters), and crops that show neither.
    """
    right: dict[str, list[bool]] = {"all": [], "numbers": [], "letters": [], "cases-aside": [], "nothing": []}
    sure_wrong = 0
    net.eval()
    with torch.no_grad():
        for crops, texts, _ in batches:
            ink = 1.0 - torch.from_numpy(crops).to(device)[:, None].float() / 255.0
            said = decode_all(net(ink).squeeze(1).float().cpu().numpy(), charset)
            for got, want in zip(said, texts, strict=True):
                kind = "nothing" if want in ("", "?") else "letters" if any(map(str.isalpha, want)) else "numbers"
                right["all"].append(got.text == want)
                right[kind].append(got.text == want)
                if kind == "letters":
                    right["cases-aside"].append(got.text.casefold() == want.casefold())
                sure_wrong += got.text != want and got.confidence > 0.9
    net.train()
    return {k: sum(v) / max(len(v), 1) for k, v in right.items()} | {"sure_wrong": sure_wrong / len(right["all"])}


def fonts_of(fonts: list[Path]) -> tuple[list[Path], list[Path]]:
    """Part the fonts into those to train on and every eighth, which is held out to score on."""
    held = fonts[3::HELD_EVERY]
    return [font for font in fonts if font not in held], held


def train(
    training: Training,
    ring: WordRing,
    paint: Callable[[Job], Words],
    jobs: tuple[list[Job], Iterator[Job]],
    charset: str,
) -> None:
    """Train for the time given while other processes paint; weights and log are written as it goes.

    Parameters
    ----------
    training : Training
        The network; its ``args`` hold ``out``, ``workers``, ``batch`` and ``seconds``.
    ring : WordRing
        Empty, for the words to train on.
    paint : callable
        Paints the words of a job, in another process.
    jobs : tuple
        The held-out jobs, and those to train on, without end.
    charset : str
        What the network's classes say, from class 1 on.
    """
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ[name] = "1"
    args, painted = training.args, 0
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter) as painters:
        checks = painters.map(paint, jobs[0], chunksize=1)
        stream = painters.imap_unordered(paint, jobs[1])
        training.start = time.time()
        while training.spent < 1:
            painted += take(stream, ring.add)
            if ring.count < min(4 * args.batch, ring.size):
                continue
            training.learn(lambda net: ring.loss(net, args.batch))
            if (training.step - 1) % 1000 == 0:
                training.note(score(training.average, checks, charset, training.device), painted)
        painters.terminate()
    training.note(score(training.average, checks, charset, training.device), painted)
    (args.out / f"{training.name}_log.json").write_text(json.dumps(training.log), encoding="utf-8")


def export(net: nn.Module, path: Path, crop: tuple[int, int]) -> None:
    """Write the network for ``extract/eyes/networks.py``, for any number of words of any width."""
    plain = laid_out(net.eval().cpu(), torch.contiguous_format)
    words, said = {0: "n", 3: "wide"}, {0: "n", 2: "steps"}
    torch.onnx.export(
        plain, (torch.zeros(8, 1, *crop),), str(path), opset_version=13, dynamo=False,
        input_names=["words"], output_names=["characters"], dynamic_axes={"words": words, "characters": said},
    )  # fmt: skip
