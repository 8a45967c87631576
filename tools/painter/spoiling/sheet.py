"""Spoiled: a page after its way through a machine."""

from __future__ import annotations

from dataclasses import dataclass
from zlib import crc32

import numpy as np

from .warp import Pixels, Warp

SPOILINGS: tuple[str, ...] = ("clean", "scan", "scan-300", "copy", "fax-fine", "fax-coarse", "photo")
"""Names of the ways a page can go."""


@dataclass(frozen=True, slots=True, eq=False)
class Spoiled:
    """One page as displayed after spoiling.

    ``pixels`` is RGB (height, width, 3) or grey or 1 bit as 0 and 255 (height, width). ``dpi`` is (across, down), None
    where the file would not tell it. ``warp`` takes fractions of the clean page, shape (n, 2), to those of this one.
    """

    pixels: Pixels
    dpi: tuple[float, float] | None
    warp: Warp


def generator(kind: str, seed: int) -> np.random.Generator:
    """Make the generator that belongs to a kind and a seed, the same in every process."""
    return np.random.default_rng([crc32(kind.encode()), seed])


def size_of(pixels: Pixels) -> tuple[int, int]:
    """Give (width, height)."""
    return pixels.shape[1], pixels.shape[0]
