"""The network that reads print: convolutions down to one row, then looks along it near and far."""

from __future__ import annotations

import torch
from torch import nn

from ....extract.eyes.words.printed import CHARSET
from ..readers import Along, layer


class PrintNet(nn.Module):
    """Ends in one vector of characters for each 2 pixels of width."""

    def __init__(self, widths: tuple[int, int, int, int, int, int] = (12, 24, 40, 64, 96, 144)) -> None:
        super().__init__()
        a, b, c, d, e, f = widths
        self.body = nn.Sequential(
            *layer(1, a, (5, 5), (2, 2), (2, 2)),
            *layer(a, b, (3, 3), (1, 1), (1, 1)), nn.MaxPool2d((2, 1)),
            *layer(b, c, (3, 3), (1, 1), (1, 1)),
            *layer(c, d, (3, 3), (2, 1), (1, 1)),
            *layer(d, e, (3, 3), (2, 1), (1, 1)),
            *layer(e, f, (2, 3), (1, 1), (0, 1)),
            Along(f, 1), Along(f, 2), Along(f, 4), Along(f, 1), Along(f, 2), Along(f, 4),
            nn.Conv2d(f, 1 + len(CHARSET), 1),
        )  # fmt: skip

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn words, shape (n, 1, 32, wide), ink 1 and paper 0, into logits, shape (n, 1, steps, characters + 1)."""
        return self.body(x).permute(0, 2, 3, 1)
