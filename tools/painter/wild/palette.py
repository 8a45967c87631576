"""Inks of freely drawn charts: every red and blue in use, and colours that are neither."""

from __future__ import annotations

import colorsys
from dataclasses import dataclass

import numpy as np

from ....interpret.symbols import Ink
from ..chart.chance import pick
from ..pen import BLACK, Colour


def _hue(rng: np.random.Generator, low: float, high: float, strength: float, value: tuple[float, float]) -> Colour:
    hue = float(rng.uniform(low, high)) % 360 / 360
    red, green, blue = colorsys.hsv_to_rgb(hue, float(rng.uniform(strength, 1)), float(rng.uniform(*value)))
    return red, green, blue


def any_red(rng: np.random.Generator) -> Colour:
    """Choose a red: plain, pink, orange or dark."""
    if rng.random() < 0.3:
        return pick(rng, ((1.0, 0.0, 0.0), (0.86, 0.08, 0.24), (0.84, 0.15, 0.16), (0.5, 0.0, 0.0), (1.0, 0.39, 0.28)))
    return _hue(rng, 338, 378, 0.55, (0.45, 1.0))


def any_blue(rng: np.random.Generator) -> Colour:
    """Choose a blue: plain, light, navy or towards violet."""
    if rng.random() < 0.3:
        return pick(rng, ((0.0, 0.0, 1.0), (0.12, 0.47, 0.71), (0.0, 0.0, 0.5), (0.25, 0.41, 0.88), (0.0, 0.6, 0.9)))
    return _hue(rng, 196, 258, 0.5, (0.4, 1.0))


def any_neutral(rng: np.random.Generator) -> Colour:
    """Choose black, a grey, or a colour that is neither red nor blue."""
    if rng.random() < 0.6:
        value = float(rng.uniform(0, 0.5)) if rng.random() < 0.5 else 0.0
        return (value, value, value)
    low, high, top = pick(rng, ((90, 160, 0.7), (30, 42, 0.55), (280, 305, 0.8), (50, 70, 0.6), (165, 178, 0.6)))
    return _hue(rng, low, high, 0.5, (0.3, top))


@dataclass(frozen=True, slots=True)
class Inks:
    """The inks of one chart; ``two`` is whether red and blue are in use."""

    red: Colour
    blue: Colour
    neutral: tuple[Colour, Colour]
    two: bool

    def of(self, side: int) -> tuple[Ink, Colour]:
        """Give the ink of a series; ``side`` is 0 for the right ear, 1 for the left, 2 for neither."""
        if not self.two or side == 2:
            return "neutral", self.neutral[min(side, 1)]
        return ("red", self.red) if side == 0 else ("blue", self.blue)


def any_inks(rng: np.random.Generator, *, mono: bool) -> Inks:
    """Invent the inks of a chart."""
    same = any_neutral(rng) if rng.random() < 0.5 else BLACK
    other = same if rng.random() < 0.5 else any_neutral(rng)
    return Inks(any_red(rng), any_blue(rng), (same, other), two=not mono and bool(rng.random() < 0.76))


def lighter(colour: Colour, share: float) -> Colour:
    """Mix a colour with white."""
    red, green, blue = (c + (1 - c) * share for c in colour)
    return red, green, blue
