"""Train the close look; run as ``python -m octavo.tools.train.closely.train OUT`` (GPU, or CPU to rehearse)."""

from __future__ import annotations

from itertools import islice

import numpy as np
import torch
from torch import nn

from ....extract.eyes.marks.closely import SIDE
from ..marks.crops import training_families
from ..school import Ring, Training, arguments, export, in_turn, run, vary
from .changes import changed
from .net import CloseNet, loss_of
from .pictures import ROOM, TARGETS, pictures

VALIDATION_SEED = 9_000_000


def paint(job: tuple[str, int]) -> list[tuple[np.ndarray, np.ndarray]]:
    """Paint the charts of one page and cut out what the mark network saw."""
    return pictures(*job)


def weigh(net: nn.Module, ring: Ring, n: int) -> torch.Tensor:
    """Draw a batch of ``n`` pictures and give the network's loss on it."""
    raw, truth = ring.draw(n, SIDE, 0)
    pixels = vary(changed(raw.permute(0, 3, 1, 2).float() / 255)).contiguous(memory_format=torch.channels_last)
    with torch.autocast(raw.device.type, dtype=torch.bfloat16):
        out = net(pixels)
    return loss_of(out.float(), truth[:, 0, :TARGETS])


def logits(net: nn.Module, ring: Ring) -> torch.Tensor:
    """Look at the middles of all pictures of a ring."""
    found = []
    half = ROOM // 2
    net.eval()
    with torch.no_grad():
        for start in range(0, ring.count, 512):
            raw = ring.pixels[start : min(start + 512, ring.count), half : half + SIDE, half : half + SIDE]
            found.append(net(raw.permute(0, 3, 1, 2).float() / 255).float())
    net.train()
    return torch.cat(found)


def score(net: nn.Module, ring: Ring) -> dict[str, float]:
    """Score held-out pictures: the loss, and the share of wrong answers at a half, for glyphs and for arrows.

    ``before`` are those of the mark network at the same places.
    """
    out, truth = logits(net, ring), ring.truth[: ring.count, 0]
    want, seen = truth[:, :TARGETS], truth[:, TARGETS:]
    told = ~want.isnan()

    def wrong(chance: torch.Tensor, columns: slice) -> float:
        off = ((chance > 0.5) != (want > 0.5)) & told
        return float(off[:, columns].any(1).float().mean())

    glyphs, arrows = slice(0, TARGETS - 3), slice(TARGETS - 3, TARGETS)
    return {"held_out": float(loss_of(out, want)), "pictures": ring.count,
            "glyph_wrong": wrong(out.sigmoid(), glyphs), "glyph_wrong_before": wrong(seen, glyphs),
            "arrow_wrong": wrong(out.sigmoid(), arrows), "arrow_wrong_before": wrong(seen, arrows)}  # fmt: skip


def main() -> None:
    """Train for the time given while other processes paint, and write the running average as ONNX."""
    args = arguments(__doc__, seconds=500, batch=1024, side=SIDE, ring=400_000, first=0)
    torch.manual_seed(5)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    training = Training(CloseNet(), args, device, name="closely")
    side = SIDE + ROOM
    rings = tuple(Ring(size, (side, side, 3), (1, 2 * TARGETS), device) for size in (args.ring, 50 * args.checks))
    jobs = (
        list(islice(in_turn(training_families(), VALIDATION_SEED), args.checks)),
        in_turn(training_families(), args.first),
    )
    run(training, (rings[0], rings[1]), paint, jobs, lambda net, ring: weigh(net, ring, args.batch), score)
    held = {
        "logits": logits(training.average.module, rings[1]).cpu(),
        "truth": rings[1].truth[: rings[1].count, 0].cpu(),
    }
    np.savez_compressed(args.out / "closely_held_out.npz", **{k: v.numpy().astype(np.float32) for k, v in held.items()})
    example = torch.zeros(1, 3, SIDE, SIDE)
    export(training.average.module, args.out / "closely.onnx", example, ("mark", "chances"), many=True)


if __name__ == "__main__":
    main()
