"""What a stranger's pens leave on paper, for `drawn_by_pens`: ink that swells, skips and grains, and the scan of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
from cases import pick
from hand_strokes import Numbers
from PIL import Image

DPI = 300


@dataclass(frozen=True, slots=True)
class Nib:
    """A pen: its width in dots, its colour (0 to 1), how much slower strokes widen it, and how grainy it is."""

    width: float
    colour: tuple[float, float, float]
    swells: float
    grain: float
    skips: float


class Sheet:
    """The form as a picture that ink is multiplied into."""

    def __init__(self, paper: npt.NDArray[np.uint8], rng: np.random.Generator) -> None:
        self.shown = paper.astype(np.float32) / 255
        self._rng = rng

    def stroke(self, path: Numbers, nib: Nib) -> None:
        """Draw one stroke, in dots of the page."""
        path = path[:: max(1, round(1.5 / max(float(np.hypot(*np.diff(path, axis=0).T).mean()), 1e-3)))]
        if len(path) < 2:
            return
        low = np.maximum(np.floor(path.min(axis=0) - 3 * nib.width), 0).astype(int)
        high = np.minimum(np.ceil(path.max(axis=0) + 3 * nib.width), self.shown.shape[1::-1]).astype(int)
        if (high - low < 2).any():
            return
        size = high - low
        cover = np.zeros((4 * size[1], 4 * size[0]), np.uint8)
        steps = np.hypot(*np.diff(path, axis=0).T)
        usual = max(float(np.median(steps)), 1e-6)
        wide = nib.width * (1 + nib.swells * np.clip(1 - steps / usual, -0.7, 1))
        on = np.ones(len(steps))
        for _ in range(int(self._rng.poisson(nib.skips * steps.sum() / 300))):
            start = int(self._rng.integers(len(on)))
            on[start : start + int(self._rng.integers(3, 20))] = self._rng.uniform(0.1, 0.6)
        points = np.rint((path - low) * 4 * 8).astype(int)
        for a, b, w, dark in zip(points[:-1], points[1:], wide, on, strict=True):
            ends = tuple(int(v) for v in a), tuple(int(v) for v in b)
            cv2.line(cover, *ends, (int(255 * dark),), max(1, round(4 * float(w))), cv2.LINE_AA, 3)
        ink = cv2.resize(cover, (int(size[0]), int(size[1])), interpolation=cv2.INTER_AREA).astype(np.float32) / 255
        ink *= np.clip(self._rng.normal(1 - 0.6 * nib.grain, nib.grain, ink.shape), 0, 1).astype(np.float32)
        part = self.shown[low[1] : high[1], low[0] : high[0]]
        part *= 1 - ink[..., None] * (1 - np.array(nib.colour, np.float32))

    def save(self, path: Path) -> None:
        """Write the page as a flat scanner would see it: a little soft, a little noisy."""
        soft = cv2.GaussianBlur(self.shown, (0, 0), float(self._rng.uniform(0.5, 1.1)))
        noise = self._rng.standard_normal(soft.shape, np.float32) * float(self._rng.uniform(1, 4))
        seen = np.clip(soft * 255 + noise, 0, 255).astype(np.uint8)
        dpi = pick(self._rng, (200, 250, 300))
        size = seen.shape[1] * dpi // DPI, seen.shape[0] * dpi // DPI
        picture = Image.fromarray(seen).resize(size, Image.Resampling.BOX)
        picture.save(path, quality=int(self._rng.integers(75, 92)), dpi=(dpi, dpi))


def three_pens(rng: np.random.Generator, colour: str) -> tuple[Nib, Nib, Nib]:
    kinds = {"ball": (4.2, 6.0, 0.25, 0.08, 0.6), "fine": (3.2, 4.6, 0.1, 0.02, 0.0), "gel": (5.0, 7.0, 0.2, 0.03, 0.1),
             "felt": (7.5, 11.0, 0.3, 0.05, 0.0)}  # fmt: skip
    low, high, swells, grain, skips = kinds[pick(rng, list(kinds))]
    if colour == "pencil":
        low, high, swells, grain, skips = 4.5, 7.5, 0.1, 0.28, 0.0

    def nib(shade: tuple[float, float, float]) -> Nib:
        tone = np.clip(np.array(shade) + rng.normal(0, 0.04, 3), 0, 1)
        return Nib(
            float(rng.uniform(low, high)), (float(tone[0]), float(tone[1]), float(tone[2])), swells, grain, skips
        )

    shades = {"black": (0.1, 0.1, 0.12), "blue": (0.12, 0.2, 0.6), "pencil": (0.38, 0.38, 0.4)}
    if colour in shades:
        one = nib(shades[colour])
        return one, one, one
    red, blue = pick(rng, ((0.82, 0.1, 0.14), (0.9, 0.25, 0.3), (0.7, 0.05, 0.1))), (0.12, 0.22, 0.65)
    plain = replace(nib(pick(rng, ((0.1, 0.1, 0.12), blue))), width=4.5)
    return nib(red), nib(blue), plain
