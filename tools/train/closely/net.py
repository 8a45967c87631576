"""The network that looks closely: a picture around a place in, a logit for each glyph and arrow out."""

from __future__ import annotations

import torch
from torch import nn

from ....extract.eyes.marks.closely import SIDE
from .pictures import TARGETS


def _step(a: int, b: int, *, size: int = 3, stride: int = 1) -> nn.Sequential:
    conv = nn.Conv2d(a, b, size, stride=stride, padding=size // 2, bias=False)
    return nn.Sequential(conv, nn.BatchNorm2d(b), nn.ReLU(inplace=True))


class CloseNet(nn.Module):
    """Convolutions that halve the picture four times; the last map is read place by place, as its middle counts."""

    def __init__(self) -> None:
        super().__init__()
        self.body = nn.Sequential(
            _step(3, 24, size=5, stride=2), _step(24, 32, stride=2), _step(32, 48),
            _step(48, 64, stride=2), _step(64, 96), _step(96, 96, stride=2), _step(96, 96), _step(96, 40, size=1),
        )  # fmt: skip
        self.head = nn.Sequential(
            nn.Conv2d(40, 128, SIDE // 16), nn.ReLU(inplace=True), nn.Conv2d(128, TARGETS, 1), nn.Flatten()
        )
        assert isinstance(self.head[2].bias, nn.Parameter)
        nn.init.constant_(self.head[2].bias, -4.0)  # most glyphs are not there

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn pictures, shape (n, 3, 80, 80), from 0 to 1, into logits, shape (n, 25)."""
        return self.head(self.body(x))


def loss_of(out: torch.Tensor, truth: torch.Tensor) -> torch.Tensor:
    """Weigh logits against the truth, shape (n, 25), where it is told: the mean over pictures of the summed entropy."""
    told = ~truth.isnan()
    each = nn.functional.binary_cross_entropy_with_logits(out, truth.nan_to_num(), reduction="none")
    return (each * told).sum() / len(out)
