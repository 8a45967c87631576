"""Train the mark network; run as ``python -m octavo.tools.train.train_marks OUT`` (GPU, or CPU to rehearse)."""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import time
from pathlib import Path

import numpy as np
import torch
from torch import nn

from ...interpret.symbols import GLYPHS
from .mark_crops import TILE, paint_tiles, training_families
from .mark_net import HEATS, MarkNet, loss_of

MOST_MARKS = 96
VALIDATION_SEED = 9_000_000


def _start_painter(fonts: str | None) -> None:
    import cv2

    cv2.setNumThreads(1)
    if fonts:
        from ..painter.fonts import use_folder

        use_folder(fonts)


def _paint(job: tuple[str, int]) -> list[tuple[np.ndarray, np.ndarray]]:
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
        self.pixels[self.next] = torch.from_numpy(pixels).to(self.pixels.device)
        self.marks[self.next] = torch.from_numpy(marks).to(self.marks.device)
        self.next = (self.next + 1) % self.size
        self.count = min(self.count + 1, self.size)

    def batch(self, n: int, side: int) -> tuple[torch.Tensor, torch.Tensor, torch.Tensor]:
        """Draw tiles, cut a random square of ``side`` from each, and vary the light a little."""
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
    n, device = len(pixels), pixels.device
    gain = 1 + 0.12 * torch.randn(n, 1, 1, 1, device=device)
    shift = 0.05 * torch.randn(n, 1, 1, 1, device=device)
    negative_free = (pixels * gain + shift).clamp(0, 1)
    return negative_free


def score(net: nn.Module, pool: Pool, limit: float = 0.3) -> dict[str, float]:
    """Find marks on held-out tiles: share found within 4 px with the right glyph, false ones, and wrong arrows."""
    found = total = false = arrows = arrow_wrong = ink_wrong = 0
    net.eval()
    with torch.no_grad():
        for start in range(0, pool.count, 32):
            pixels = pool.pixels[start : min(start + 32, pool.count)].permute(0, 3, 1, 2).float() / 255
            heat = net(pixels)[:, :HEATS].float().sigmoid()
            glyphs = heat[:, : len(GLYPHS)]
            peak = (nn.functional.max_pool2d(glyphs, 5, 1, 2) == glyphs) & (glyphs > limit)
            for i in range(len(pixels)):
                marks = pool.marks[start + i]
                marks = marks[~marks[:, 0].isnan()]
                marks = marks[(marks[:, 0] > 8) & (marks[:, 0] < TILE - 8) & (marks[:, 1] > 8) & (marks[:, 1] < TILE - 8)]
                at = peak[i].nonzero().float()
                near = torch.zeros((len(marks), len(at)), dtype=torch.bool, device=at.device)
                if len(at) and len(marks):
                    x, y = at[:, 2] * 2 + 0.5, at[:, 1] * 2 + 0.5
                    inner = (x > 8) & (x < TILE - 8) & (y > 8) & (y < TILE - 8)
                    far = (marks[:, :1] - x[None]).square() + (marks[:, 1:2] - y[None]).square()
                    near = (far < 16) & (marks[:, 2:3].long() == at[None, :, 0].long())
                    false += int((inner & ~near.any(0)).sum())
                found += int(near.any(1).sum())
                total += len(marks)
                for m in marks[near.any(1)] if len(at) else marks[:0]:
                    px, py = int((m[0] / 2 - 0.25).round()), int((m[1] / 2 - 0.25).round())
                    spot = heat[i, len(GLYPHS) :, max(py - 1, 0) : py + 2, max(px - 1, 0) : px + 2].amax((1, 2))
                    seen = int(spot[:3].argmax()) if spot[:3].max() > 0.4 else -1
                    arrow_wrong += seen != int(m[3])
                    arrows += 1
                    ink_wrong += float(spot[3 + int(m[4])]) < 0.4
    net.train()
    return {"found": found / max(total, 1), "false": false / max(total, 1), "arrow_wrong": arrow_wrong / max(arrows, 1),
            "ink_wrong": ink_wrong / max(arrows, 1), "marks": total}  # fmt: skip


def jobs(first: int):
    families = training_families()
    seed = first
    while True:
        yield families[seed % len(families)], seed
        seed += 1


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("out", type=Path)
    parser.add_argument("--fonts", default=None)
    parser.add_argument("--seconds", type=float, default=500)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=48)
    parser.add_argument("--side", type=int, default=448)
    parser.add_argument("--ring", type=int, default=30000)
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--start", type=Path, default=None, help="weights to go on from")
    parser.add_argument("--checks", type=int, default=300, help="held-out tiles")
    args = parser.parse_args()
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ[name] = "1"
    torch.manual_seed(5)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    net = MarkNet().to(device, memory_format=torch.channels_last)  # type: ignore[call-overload]
    if args.start:
        net.load_state_dict(torch.load(args.start, map_location=device, weights_only=True))
    average = torch.optim.swa_utils.AveragedModel(net, multi_avg_fn=torch.optim.swa_utils.get_ema_multi_avg_fn(0.998), use_buffers=True)
    best = torch.optim.AdamW(net.parameters(), lr=args.rate, weight_decay=1e-3)
    args.out.mkdir(parents=True, exist_ok=True)
    log: list[dict[str, float]] = []
    start = time.time()
    pool, checks = Pool(args.ring, device), Pool(args.checks, device)
    step, mean_loss = 0, 0.0
    with multiprocessing.get_context("spawn").Pool(args.workers, _start_painter, (args.fonts,)) as painters:
        held = jobs(VALIDATION_SEED)
        for tiles in painters.imap_unordered(_paint, [next(held) for _ in range(args.checks)]):
            for tile in tiles[:1]:
                checks.add(*tile)
        stream = painters.imap_unordered(_paint, jobs(args.first))
        painted = 0
        while (spent := (time.time() - start) / args.seconds) < 1:
            for _ in range(16):  # take what is ready and no more, or what the painters made would pile up
                try:
                    tiles = stream.next(timeout=0.0005)
                except multiprocessing.TimeoutError:
                    break
                for tile in tiles:
                    pool.add(*tile)
                    painted += 1
            if pool.count < min(512, args.ring // 2):
                continue
            for group in best.param_groups:
                group["lr"] = args.rate * min(1.0, (step + 1) / 200) * max(0.005, 0.5 * (1 + np.cos(np.pi * spent)))
            pixels, marks, batch = pool.batch(args.batch, args.side)
            with torch.autocast(device, dtype=torch.bfloat16):
                out = net(pixels)
            loss = loss_of(out, marks, batch)
            best.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(net.parameters(), 5.0)
            best.step()
            average.update_parameters(net)
            mean_loss = loss.item() if step == 0 else 0.98 * mean_loss + 0.02 * loss.item()
            if step % 1000 == 0:
                log.append({"step": step, "seconds": time.time() - start, "painted": painted, "loss": mean_loss, **score(average, checks)})
                print(json.dumps(log[-1]), flush=True)
                torch.save(average.module.state_dict(), args.out / "marks.pt")
            step += 1
        painters.terminate()
    log.append({"step": step, "seconds": time.time() - start, "painted": painted, "loss": mean_loss, **score(average, checks)})
    print(json.dumps(log[-1]), flush=True)
    torch.save(average.module.state_dict(), args.out / "marks.pt")
    (args.out / "marks_log.json").write_text(json.dumps(log))
    export(average.module, args.out / "marks.onnx")


def export(net: nn.Module, path: Path) -> None:
    """Write the network for cv2.dnn, sigmoid included for the heat maps left out: they are logits."""
    torch.onnx.export(
        net.eval().cpu().to(memory_format=torch.contiguous_format), (torch.zeros(1, 3, 544, 560),), str(path),  # type: ignore[call-overload]
        opset_version=13, dynamo=False, input_names=["chart"], output_names=["heat"],
        dynamic_axes={"chart": {2: "high", 3: "wide"}, "heat": {2: "high", 3: "wide"}},
    )  # fmt: skip


if __name__ == "__main__":
    main()
