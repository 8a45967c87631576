"""A chart's grid drawn along a known curve, pixel by pixel."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from by_hand import LEFT, OCTAVES, SIZE, chart, x_of, y_of

from octavo.extract.page import Pixels

BOX = chart().box
LEVELS = tuple(range(-10, 121, 10))
Curve = Callable[[float, float], tuple[float, float]]
"""How far a lattice point (x, y) is drawn right and down of its place, in pixels."""


def bent_grid(curve: Curve) -> Pixels:
    """Draw octave and 10-dB lines along a curve, each 2 px thick with soft edges."""
    height, width = SIZE[1], SIZE[0]
    dark = np.zeros((height, width))
    for level in LEVELS:
        for x in range(int(LEFT), int(x_of(8000)) + 1):
            y = y_of(level) + curve(x, y_of(level))[1]
            rows = np.arange(int(y) - 2, int(y) + 4)
            dark[rows, x] = np.maximum(dark[rows, x], np.clip(1.5 - np.abs(rows - y), 0, 1))
    for hz in OCTAVES:
        for y in range(int(y_of(-10)), int(y_of(120)) + 1):
            x = x_of(hz) + curve(x_of(hz), y)[0]
            columns = np.arange(int(x) - 2, int(x) + 4)
            dark[y, columns] = np.maximum(dark[y, columns], np.clip(1.5 - np.abs(columns - x), 0, 1))
    grey = (255 - 160 * dark).astype(np.uint8)
    return np.repeat(grey[:, :, None], 3, axis=2)
