"""The mark network: a chart crop in, one heat map for each glyph, arrow and ink out."""

from __future__ import annotations

import torch
from torch import nn

from ....interpret.symbols import GLYPHS
from .crops import ARROWS, INKS

HEATS = len(GLYPHS) + len(ARROWS) + len(INKS) + len(ARROWS)
"""Glyphs; at a mark's centre its arrow and its ink; and at each arrow's tip its direction."""
CHANNELS = HEATS + 4
"""Heat maps; the logarithms of a mark's width and height over 32 pixels; and, at an arrow's tip, how far its mark's
centre lies from it in x and y, over 32 pixels."""


class _Twice(nn.Sequential):
    def __init__(self, a: int, b: int) -> None:
        super().__init__(
            nn.Conv2d(a, b, 3, padding=1, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True),
            nn.Conv2d(b, b, 3, padding=1, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True),
        )  # fmt: skip


def _once(a: int, b: int) -> nn.Sequential:
    return nn.Sequential(nn.Conv2d(a, b, 3, padding=1, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True))


class MarkNet(nn.Module):
    """A U-shaped network that works at half resolution and below; all outputs are at half resolution."""

    def __init__(self, widths: tuple[int, int, int, int] = (24, 48, 96, 128)) -> None:
        super().__init__()
        a, b, c, d = widths
        first = nn.Conv2d(3, a, 5, stride=2, padding=2, bias=False)
        self.stem = nn.Sequential(first, nn.BatchNorm2d(a), nn.ReLU(inplace=True))
        self.level1, self.level2, self.level3, self.level4 = _once(a, a), _Twice(a, b), _Twice(b, c), _Twice(c, d)
        self.pool = nn.MaxPool2d(2)
        self.up = nn.Upsample(scale_factor=2, mode="nearest")
        self.side3, self.side2, self.side1 = nn.Conv2d(d, c, 1), nn.Conv2d(c, b, 1), nn.Conv2d(b, a, 1)
        self.back3, self.back2, self.back1 = _Twice(c, c), _once(b, b), _once(a, a + 8)
        self.head = nn.Conv2d(a + 8, CHANNELS, 1)
        assert self.head.bias is not None
        nn.init.constant_(self.head.bias, -4.0)  # a chart is empty nearly everywhere

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn pictures, shape (n, 3, h, w), from 0 to 1, into logits, shape (n, CHANNELS, h / 2, w / 2)."""
        one = self.level1(self.stem(x))
        two = self.level2(self.pool(one))
        three = self.level3(self.pool(two))
        four = self.level4(self.pool(three))
        three = self.back3(three + self.up(self.side3(four)))
        two = self.back2(two + self.up(self.side2(three)))
        one = self.back1(one + self.up(self.side1(two)))
        return self.head(one)


SIGMA = 1.4
"""Spread of a mark's heat, in pixels of the half-resolution map."""


def heat_targets(marks: torch.Tensor, batch: torch.Tensor, shape: tuple[int, int, int]) -> torch.Tensor:
    """Draw the wanted heat maps.

    Parameters
    ----------
    marks : Tensor, shape (n, 9)
        As in ``crops.Tile``, x and y in pixels of the full-resolution tile.
    batch : Tensor, shape (n,)
        To which picture each belongs.
    shape : tuple of int
        Pictures, and height and width of the half-resolution maps.

    Returns
    -------
    Tensor, shape (pictures, HEATS, height, width)
    """
    count, high, wide = shape
    heat = torch.zeros((count, HEATS, high, wide), device=marks.device)
    glyph, arrow, ink = marks[:, 2].long(), marks[:, 3].long(), marks[:, 4].long()
    after = len(GLYPHS) + len(ARROWS)
    channel = torch.cat([glyph, len(GLYPHS) + arrow, after + ink, after + len(INKS) + arrow])
    keep = torch.cat([torch.ones_like(glyph), arrow >= 0, torch.ones_like(ink), arrow >= 0]).bool()
    tips = marks[:, :2] + marks[:, 7:9]
    x, y = (torch.cat([marks[:, i].repeat(3), tips[:, i]]) / 2 - 0.25 for i in (0, 1))
    picture = batch.repeat(4)
    steps = torch.arange(-5, 6, device=marks.device)
    dy, dx = torch.meshgrid(steps, steps, indexing="ij")
    px = x.round()[:, None].long() + dx.reshape(1, -1)
    py = y.round()[:, None].long() + dy.reshape(1, -1)
    value = torch.exp(-((px - x[:, None]) ** 2 + (py - y[:, None]) ** 2) / (2 * SIGMA**2))
    good = keep[:, None] & (px >= 0) & (px < wide) & (py >= 0) & (py < high)
    index = ((picture[:, None] * HEATS + channel[:, None]) * high + py) * wide + px
    return heat.view(-1).scatter_reduce(0, index[good], value[good], "amax").view_as(heat)


def loss_of(out: torch.Tensor, marks: torch.Tensor, batch: torch.Tensor) -> torch.Tensor:
    """Weigh what the network gave against the true marks.

    It is the quality focal loss on the heat maps (Li et al. 2020, arXiv:2006.04388), and the absolute errors of the
    logarithm of the size at each mark, and of the way back to its mark at each arrow's tip.

    Parameters
    ----------
    out : Tensor, shape (pictures, CHANNELS, height, width)
        Logits.
    marks, batch : Tensor
        As for ``heat_targets``.

    Returns
    -------
    Tensor, shape ()
    """
    count, _, high, wide = out.shape
    want = heat_targets(marks, batch, (count, high, wide))
    logits = out[:, :HEATS].float()
    plain = nn.functional.binary_cross_entropy_with_logits(logits, want, reduction="none")
    heat = (plain * (logits.sigmoid() - want).abs().square()).sum() / max(len(marks), 1)
    size = _absolute(out[:, HEATS : HEATS + 2], marks[:, :2], torch.log(marks[:, 5:7].clamp(min=4) / 32), batch)
    hung = marks[:, 3] >= 0
    back = _absolute(
        out[:, HEATS + 2 :], (marks[:, :2] + marks[:, 7:9])[hung], -marks[hung, 7:9] / 32, batch[hung]
    )  # fmt: skip
    return heat + 0.3 * size + 0.3 * back


def _absolute(out: torch.Tensor, at: torch.Tensor, truth: torch.Tensor, batch: torch.Tensor) -> torch.Tensor:
    """Give the mean absolute error of two maps at places of the full-resolution tile."""
    x, y = ((at[:, i] / 2 - 0.25).round().long() for i in (0, 1))
    good = (x >= 0) & (x < out.shape[3]) & (y >= 0) & (y < out.shape[2])
    error = out.float()[batch[good], :, y[good], x[good]] - truth[good]
    return error.abs().sum() / max(2 * int(good.sum()), 1)
