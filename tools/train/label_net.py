"""Train the label reader; run as ``python -m octavo.tools.train.label_net FONTS OUT`` (GPU or CPU)."""

from __future__ import annotations

import argparse
import json
import multiprocessing
import time
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ...extract.eyes.labels import CHARSET, HEIGHT, WIDTH, decode
from .label_words import paint_word, target


class LabelNet(nn.Module):
    """A column of convolutions that ends in one vector of characters for each 4 pixels of width."""

    def __init__(self, width: int = 24) -> None:
        super().__init__()

        def block(a: int, b: int, pool: tuple[int, int] | None) -> list[nn.Module]:
            layers: list[nn.Module] = [nn.Conv2d(a, b, 3, padding=1), nn.BatchNorm2d(b), nn.ReLU(inplace=True)]
            return layers + ([nn.MaxPool2d(pool)] if pool else [])

        self.body = nn.Sequential(
            nn.Conv2d(1, width, 5, stride=2, padding=2), nn.BatchNorm2d(width), nn.ReLU(inplace=True),
            *block(width, width, (2, 1)),
            *block(width, 2 * width, None),
            *block(2 * width, 2 * width, (2, 2)),
            *block(2 * width, 3 * width, None),
            *block(3 * width, 3 * width, (2, 1)),
            nn.Conv2d(3 * width, 4 * width, (2, 5), padding=(0, 2)), nn.BatchNorm2d(4 * width), nn.ReLU(inplace=True),
            nn.Conv2d(4 * width, 1 + len(CHARSET), 1),
        )  # fmt: skip

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn words, shape (n, 1, 32, 128), ink 1 and paper 0, into logits, shape (n, steps, characters + 1)."""
        return self.body(x).squeeze(2).permute(0, 2, 1)


def paint_batch(job: tuple[list[Path], int, int]) -> tuple[np.ndarray, list[str]]:
    """Paint a batch of words from a seed."""
    fonts, seed, count = job
    rng = np.random.default_rng([7001, seed])
    words = [paint_word(fonts, rng) for _ in range(count)]
    return np.stack([w[0] for w in words]), [w[1] for w in words]


def loss_of(net: nn.Module, crops: torch.Tensor, texts: list[str]) -> torch.Tensor:
    """Give the CTC loss of a batch of crops, shape (n, 32, 128), uint8, and what they say."""
    logits = net(1.0 - crops[:, None].float() / 255.0)
    targets = [target(t) for t in texts]
    flat = torch.tensor([c for t in targets for c in t])
    lengths = torch.tensor([len(t) for t in targets])
    steps = torch.full((len(texts),), logits.shape[1], dtype=torch.long)
    chances = logits.float().log_softmax(2).permute(1, 0, 2)
    return nn.functional.ctc_loss(chances.cpu(), flat, steps, lengths, zero_infinity=True)


def score(net: nn.Module, batches: list[tuple[np.ndarray, list[str]]], device: str) -> dict[str, float]:
    """Count words read right, of all words and of axis numbers, and wrong ones with a confidence over 0.9."""
    right = numbers = numbers_right = confident_wrong = total = 0
    net.eval()
    with torch.no_grad():
        for crops, texts in batches:
            logits = net(1.0 - torch.from_numpy(crops).to(device)[:, None].float() / 255.0).float().cpu().numpy()
            for one, text in zip(logits, texts, strict=True):
                want = "".join(CHARSET[c - 1] for c in target(text)).strip()
                got = decode(one)
                total += 1
                right += got.text == want
                if "?" not in want:
                    numbers += 1
                    numbers_right += got.text == want
                    confident_wrong += got.text != want and got.confidence > 0.9
    net.train()
    return {"words": right / total, "numbers": numbers_right / numbers, "confident_wrong": confident_wrong / numbers}


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("fonts", type=Path, help="folder of font files")
    parser.add_argument("out", type=Path, help="folder for the network and its log")
    parser.add_argument("--seconds", type=float, default=240)
    parser.add_argument("--workers", type=int, default=14)
    parser.add_argument("--batch", type=int, default=256)
    parser.add_argument("--rate", type=float, default=3e-3)
    return parser.parse_args()


def main() -> None:
    """Train for the time given, with every eighth font held out to score on, and write the network as ONNX."""
    args = _arguments()
    torch.manual_seed(11)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    fonts = sorted(p for p in args.fonts.iterdir() if p.suffix.lower() in (".ttf", ".otf"))
    held = [f for i, f in enumerate(fonts) if i % 8 == 3]
    fonts = [f for f in fonts if f not in held]
    net = LabelNet().to(device)
    best = torch.optim.AdamW(net.parameters(), lr=args.rate, weight_decay=1e-4)
    log: list[dict[str, float]] = []
    start = time.time()
    step, last = 0, float("nan")
    with multiprocessing.get_context("spawn").Pool(args.workers) as pool:
        tests = pool.map(paint_batch, [(held, 10**6 + i, 256) for i in range(8)])
        jobs = ((fonts, i, args.batch) for i in range(10**6))
        for step, (crops, texts) in enumerate(pool.imap_unordered(paint_batch, jobs)):
            spent = (time.time() - start) / args.seconds
            if spent >= 1:
                break
            for group in best.param_groups:
                group["lr"] = args.rate * min(1.0, (step + 1) / 100) * max(0.01, 0.5 * (1 + np.cos(np.pi * spent)))
            loss = loss_of(net, torch.from_numpy(crops).to(device), texts)
            best.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 2.0)
            best.step()
            last = loss.item()
            if step % 200 == 0:
                log.append({"step": step, "seconds": time.time() - start, "loss": last, **score(net, tests, device)})
                print(json.dumps(log[-1]), flush=True)
        pool.terminate()
    log.append({"step": step, "seconds": time.time() - start, "loss": last, **score(net, tests, device)})
    print(json.dumps(log[-1]), flush=True)
    args.out.mkdir(parents=True, exist_ok=True)
    export(net, args.out / "labels.onnx")
    (args.out / "labels_log.json").write_text(json.dumps(log), encoding="utf-8")


def export(net: nn.Module, path: Path) -> None:
    """Write the network for cv2.dnn."""
    torch.onnx.export(
        net.eval().cpu(), (torch.zeros(8, 1, HEIGHT, WIDTH),), str(path), opset_version=13, dynamo=False,
        input_names=["words"], output_names=["characters"], dynamic_axes={"words": {0: "n"}, "characters": {0: "n"}},
    )  # fmt: skip


if __name__ == "__main__":
    main()
