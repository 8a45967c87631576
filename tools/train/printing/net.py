"""The network that reads print: convolutions down to one row, then looks along it near and far."""

from __future__ import annotations

import torch
from torch import nn

from ....extract.eyes.words.printed import CHARSET


def _layer(a: int, b: int, kernel: tuple[int, int], stride: tuple[int, int], pad: tuple[int, int]) -> list[nn.Module]:
    return [nn.Conv2d(a, b, kernel, stride, pad, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True)]


class Along(nn.Module):
    """Look at steps so many places away and add what they tell."""

    def __init__(self, width: int, reach: int) -> None:
        super().__init__()
        self.body = nn.Sequential(
            nn.Conv2d(width, width, (1, 3), padding=(0, reach), dilation=(1, reach), bias=False), nn.BatchNorm2d(width)
        )
        self.end = nn.ReLU(inplace=True)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        return self.end(x + self.body(x))


class PrintNet(nn.Module):
    """Ends in one vector of characters for each 2 pixels of width."""

    def __init__(self, widths: tuple[int, int, int, int, int, int] = (12, 24, 40, 64, 96, 144)) -> None:
        super().__init__()
        a, b, c, d, e, f = widths
        self.body = nn.Sequential(
            *_layer(1, a, (5, 5), (2, 2), (2, 2)),
            *_layer(a, b, (3, 3), (1, 1), (1, 1)), nn.MaxPool2d((2, 1)),
            *_layer(b, c, (3, 3), (1, 1), (1, 1)),
            *_layer(c, d, (3, 3), (2, 1), (1, 1)),
            *_layer(d, e, (3, 3), (2, 1), (1, 1)),
            *_layer(e, f, (2, 3), (1, 1), (0, 1)),
            Along(f, 1), Along(f, 2), Along(f, 4), Along(f, 1), Along(f, 2), Along(f, 4),
            nn.Conv2d(f, 1 + len(CHARSET), 1),
        )  # fmt: skip

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn words, shape (n, 1, 32, wide), ink 1 and paper 0, into logits, shape (n, 1, steps, characters + 1)."""
        return self.body(x).permute(0, 2, 3, 1)
