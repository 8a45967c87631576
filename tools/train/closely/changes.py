"""Change pictures of marks on the training device: what a shape is does not hang on its colour, weight or slant."""

from __future__ import annotations

import math

import torch
from torch.nn import functional

TURN, STRETCH, SHEAR = 0.05, 0.09, 0.05
"""Standard deviations of the turn (radians), of the logarithm of each side's scale, and of the shear."""
CHANGED = 0.65
"""Share of pictures that are changed at all."""
RECOLOURED, GREYED, WEIGHED, BLURRED, GRAINED = 0.3, 0.25, 0.12, 0.15, 0.3
"""Shares of pictures that each befalls."""


def changed(pixels: torch.Tensor) -> torch.Tensor:
    """Bend, recolour, thicken or thin, blur and grain each picture by chance, about its middle.

    Parameters
    ----------
    pixels : Tensor, shape (n, 3, side, side)
        From 0 to 1.

    Returns
    -------
    Tensor, of the same shape
    """
    other = _grained(_weighed(_recoloured(_bent(pixels)))).clamp(0, 1)
    return torch.where(_some(pixels, CHANGED), other, pixels)


def _some(pixels: torch.Tensor, share: float) -> torch.Tensor:
    return torch.rand(len(pixels), 1, 1, 1, device=pixels.device) < share


def _bent(pixels: torch.Tensor) -> torch.Tensor:
    n, device = len(pixels), pixels.device
    turn, slant = TURN * torch.randn(n, device=device), SHEAR * torch.randn(n, device=device)
    wide, high = (torch.exp(STRETCH * torch.randn(n, device=device)) for _ in range(2))
    matrix = torch.zeros(n, 2, 3, device=device)
    matrix[:, 0, 0], matrix[:, 0, 1] = wide * turn.cos(), -high * (turn.sin() + slant)
    matrix[:, 1, 0], matrix[:, 1, 1] = wide * turn.sin(), high * turn.cos()
    grid = functional.affine_grid(matrix, list(pixels.shape), align_corners=False)
    return functional.grid_sample(pixels, grid, padding_mode="border", align_corners=False)


def _recoloured(pixels: torch.Tensor) -> torch.Tensor:
    """Mix the channels of some pictures anew, so that white stays white; make others grey."""
    n, device = len(pixels), pixels.device
    mix = torch.rand(n, 3, 3, device=device).pow(3)
    mix = mix / mix.sum(dim=2, keepdim=True)
    mixed = torch.einsum("nij,njhw->nihw", mix, pixels)
    grey = pixels.mean(dim=1, keepdim=True).expand_as(pixels)
    pixels = torch.where(_some(pixels, RECOLOURED), mixed, pixels)
    return torch.where(_some(pixels, GREYED), grey, pixels)


def _weighed(pixels: torch.Tensor) -> torch.Tensor:
    """Thicken the dark lines of some pictures, thin those of others, and blur others again."""
    thin = functional.max_pool2d(pixels, 3, 1, 1)
    thick = -functional.max_pool2d(-pixels, 3, 1, 1)
    strength = torch.rand(len(pixels), 1, 1, 1, device=pixels.device)
    for other in (thin, thick):
        pixels = torch.where(_some(pixels, WEIGHED), pixels + strength * (other - pixels), pixels)
    soft = functional.avg_pool2d(functional.pad(pixels, (1, 1, 1, 1), mode="replicate"), 3, 1)
    return torch.where(_some(pixels, BLURRED), soft, pixels)


def _grained(pixels: torch.Tensor) -> torch.Tensor:
    depth = 0.08 * math.sqrt(2) * torch.rand(len(pixels), 1, 1, 1, device=pixels.device)
    return torch.where(_some(pixels, GRAINED), pixels + depth * torch.randn_like(pixels), pixels)
