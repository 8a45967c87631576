"""What became of an outside page on its way through somebody's machine, and the tools that the machines share."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from numpy.random import Generator
from PIL import Image

Colour = npt.NDArray[np.uint8]
Numbers = npt.NDArray[np.float64]
Move = Callable[[Numbers], Numbers]


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """A picture, colour or grey, where the page's points went (fractions, shape (n, 2)), and how it is stored.

    ``.tif`` is stored in one bit.
    """

    pixels: npt.NDArray[np.uint8]
    move: Move
    ending: str = ".png"
    dpi: tuple[float, float] | None = None
    quality: int = 85

    def save(self, stem: Path) -> Path:
        """Store the picture beside ``stem``; give the file."""
        path = stem.with_name(stem.name + self.ending)
        picture = Image.fromarray(self.pixels)
        told: dict[str, Any] = {} if self.dpi is None else {"dpi": self.dpi}
        if self.ending == ".tif":
            picture, told = picture.convert("1", dither=Image.Dither.NONE), told | {"compression": "group4"}
        elif self.ending == ".jpg":
            told |= {"quality": self.quality}
        picture.save(path, **told)
        return path


def clipped(values: npt.ArrayLike) -> npt.NDArray[np.uint8]:
    """Round brightness to bytes."""
    return np.clip(np.rint(np.asarray(values, np.float64)), 0, 255).astype(np.uint8)


def cloud(shape: tuple[int, int], rng: Generator, octaves: int) -> npt.NDArray[np.float32]:
    """Draw smooth noise, about -1 to 1: grids of chance, each twice as fine and half as strong as the one before."""
    out = np.zeros(shape, np.float32)
    for octave in range(octaves):
        cells = 2 ** (octave + 1)
        grid = rng.uniform(-1, 1, (cells + 1, cells + 1)).astype(np.float32)
        out += np.asarray(cv2.resize(grid, shape[::-1], interpolation=cv2.INTER_CUBIC), np.float32) / 2 ** (
            octave + 0.5
        )
    return out


def squeezed(pixels: npt.NDArray[np.uint8], quality: int) -> npt.NDArray[np.uint8]:
    """Store as JPEG and open again."""
    _, stored = cv2.imencode(".jpg", pixels, [cv2.IMWRITE_JPEG_QUALITY, quality])
    return np.asarray(cv2.imdecode(stored, cv2.IMREAD_UNCHANGED), np.uint8)


def by_matrix(matrix: Numbers, before: tuple[int, int], after: tuple[int, int]) -> Move:
    """Give the move that a matrix of pixel places makes; sizes are width and height."""

    def move(points: Numbers) -> Numbers:
        at = np.c_[points * before - 0.5, np.ones(len(points))] @ matrix.T
        return (at[:, :2] / at[:, 2:] + 0.5) / after

    return move


def one_after_another(*moves: Move) -> Move:
    """Give the move that several make, the first one first."""

    def move(points: Numbers) -> Numbers:
        for one in moves:
            points = one(points)
        return points

    return move
