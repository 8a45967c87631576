"""The word finder: a grey page in, at a quarter of its size how well a word is centred there and how far it reaches."""

from __future__ import annotations

import torch
from torch import nn

from ....extract.eyes.words.finder import REACH_PX, STRIDE


def _once(a: int, b: int, stride: int = 1) -> nn.Sequential:
    return nn.Sequential(
        nn.Conv2d(a, b, 3, stride=stride, padding=1, bias=False), nn.BatchNorm2d(b), nn.ReLU(inplace=True)
    )


class WordFinder(nn.Module):
    """A U-shaped network from half resolution down to a thirty-second and back to a quarter."""

    def __init__(self, widths: tuple[int, int, int, int, int] = (12, 24, 48, 64, 96)) -> None:
        super().__init__()
        a, b, c, d, e = widths
        first = nn.Conv2d(1, a, 5, stride=2, padding=2, bias=False)
        self.stem = nn.Sequential(first, nn.BatchNorm2d(a), nn.ReLU(inplace=True))
        self.quarter = _once(a, b, 2)
        self.eighth = nn.Sequential(_once(b, c, 2), _once(c, c))
        self.sixteenth = nn.Sequential(_once(c, d, 2), _once(d, d))
        self.last = nn.Sequential(_once(d, e, 2), _once(e, e))
        self.up = nn.Upsample(scale_factor=2, mode="nearest")
        self.side3, self.side2, self.side1 = nn.Conv2d(e, d, 1), nn.Conv2d(d, c, 1), nn.Conv2d(c, b, 1)
        self.back3, self.back2, self.back1 = _once(d, d), _once(c, c), _once(b, b)
        self.head = nn.Conv2d(b, 5, 1)
        assert self.head.bias is not None
        with torch.no_grad():
            self.head.bias[0] = -4.0  # a page is empty nearly everywhere

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Turn pages, shape (n, 1, h, w), ink 1 and paper 0, into shape (n, 5, h / 4, w / 4).

        The first map is the logit of how well a word is centred there; the others are the logarithms of the distances
        to its left, top, right and bottom over 16 px.
        """
        quarter = self.quarter(self.stem(x))
        eighth = self.eighth(quarter)
        sixteenth = self.sixteenth(eighth)
        last = self.last(sixteenth)
        sixteenth = self.back3(sixteenth + self.up(self.side3(last)))
        eighth = self.back2(eighth + self.up(self.side2(sixteenth)))
        return self.head(self.back1(quarter + self.up(self.side1(eighth))))


def targets(words: torch.Tensor, batch: torch.Tensor, shape: tuple[int, int, int]) -> tuple[torch.Tensor, torch.Tensor]:
    """Draw the wanted maps.

    Parameters
    ----------
    words : Tensor, shape (n, 4)
        Boxes in tile pixels.
    batch : Tensor, shape (n,)
        To which picture each belongs.
    shape : tuple of int
        Pictures, and height and width of the maps.

    Returns
    -------
    tuple of Tensor
        How well centred, shape (pictures, height, width): 1 at a word's centre, falling to 0 at its edges (the
        centre-ness of Tian et al. 2019, arXiv:1904.01355); and the distances to its edges in tile pixels, shape
        (pictures, 4, height, width), of the word whose centre is nearest.
    """
    count, high, wide = shape
    device = words.device
    centred = torch.zeros((count, high, wide), device=device)
    reach = torch.ones((count, 4, high, wide), device=device)
    if not len(words):
        return centred, reach
    steps_y, steps_x = torch.arange(-6, 7, device=device), torch.arange(-24, 25, device=device)
    dy, dx = (g.reshape(1, -1) for g in torch.meshgrid(steps_y, steps_x, indexing="ij"))
    middle = (words[:, :2] + words[:, 2:]) / 2
    cx = ((middle[:, 0] - 1.5) / STRIDE).round().long()[:, None]
    cy = ((middle[:, 1] - 1.5) / STRIDE).round().long()[:, None]
    px, py = cx + dx, cy + dy
    x, y = px * STRIDE + 1.5, py * STRIDE + 1.5
    left, top, right, bottom = (words[:, i : i + 1] for i in range(4))
    edges = torch.stack([x - left, y - top, right - x, bottom - y], dim=-1)
    level = torch.minimum(edges[..., 0], edges[..., 2]) / torch.maximum(edges[..., 0], edges[..., 2]).clamp(min=0.1)
    steep = torch.minimum(edges[..., 1], edges[..., 3]) / torch.maximum(edges[..., 1], edges[..., 3]).clamp(min=0.1)
    value = (level.clamp(min=0) * steep.clamp(min=0)).sqrt()
    home = (dx == 0) & (dy == 0)
    value = torch.where(home.expand_as(value), torch.ones_like(value), value)
    good = (value > 0.05) & (px >= 0) & (px < wide) & (py >= 0) & (py < high)
    index = (batch[:, None] * high + py) * wide + px
    order = value[good].argsort()  # the last written wins: the best centred
    flat = index[good][order]
    centred.view(-1).scatter_reduce_(0, flat, value[good][order], "amax")
    best = value[good] >= centred.view(-1)[index[good]] - 1e-6
    picked, place = edges[good][best].clamp(min=0.5), index[good][best]
    for i in range(4):
        plane = torch.ones(count * high * wide, device=device)
        plane[place] = picked[:, i]
        reach[:, i] = plane.view(count, high, wide)
    return centred, reach


def loss_of(out: torch.Tensor, words: torch.Tensor, batch: torch.Tensor) -> torch.Tensor:
    """Weigh what the finder gave against the true words.

    It is the quality focal loss on the first map (Li et al. 2020, arXiv:2006.04388), and the absolute error of the
    logarithms of the distances where a word is centred well.
    """
    count, _, high, wide = out.shape
    centred, reach = targets(words, batch, (count, high, wide))
    logits = out[:, 0].float()
    plain = nn.functional.binary_cross_entropy_with_logits(logits, centred, reduction="none")
    heat = (plain * (logits.sigmoid() - centred).square()).sum() / max(len(words), 1)
    sure = centred > 0.35
    misses = (out[:, 1:].float() - torch.log(reach / REACH_PX)).abs().sum(1)[sure]
    weight = centred[sure]
    return heat + 0.8 * (misses * weight).sum() / weight.sum().clamp(min=1)
