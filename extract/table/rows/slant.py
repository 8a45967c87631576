"""Words of a page that still leans a little, as if it did not: rows then stand at one height."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import median

import numpy as np

from ...page import Word
from .lines import height

NEIGHBOUR = (1.5, 25.0)
"""A word's neighbour at its right stands so far away, in heights of the word."""
FEWEST = 6
SAME_LINE = 0.5


@dataclass(frozen=True, slots=True)
class Slant:
    """How many pixels lines fall per pixel to the right."""

    slope: float

    def undone(self, x: float, y: float) -> tuple[float, float]:
        """Give the place of a sheet position on the level page."""
        return x + self.slope * y, y - self.slope * x

    def done(self, x: float, y: float) -> tuple[float, float]:
        """Give the place on the sheet of a position on the level page."""
        square = 1 + self.slope**2
        return (x - self.slope * y) / square, (y + self.slope * x) / square

    def box_done(self, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        """Give a word's box, size kept, on the sheet."""
        at = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        return _moved(box, self.done(*at), at)

    def level(self, words: Sequence[Word]) -> list[Word]:
        """Give the words with their boxes, sizes kept, where they would stand on the level page."""
        return [replace(w, box=_moved(w.box, self.undone(*w.middle), w.middle)) for w in words]


def _moved(
    box: tuple[float, float, float, float], to: tuple[float, float], at: tuple[float, float]
) -> tuple[float, float, float, float]:
    dx, dy = to[0] - at[0], to[1] - at[1]
    return box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy


def slant_of(words: Sequence[Word]) -> Slant:
    """Find how a page's lines of words lean: by the median of each word's height over its neighbour's at the right.

    The lower edges are compared, since those stand on one line whatever the letters; words of several heights differ.
    """
    slopes: list[float] = []
    x, y, high = np.array([(w.middle[0], w.box[3], height(w)) for w in words]).reshape(-1, 3).T
    for number in range(len(words)):
        across, down = x - x[number], y - y[number]
        near = np.flatnonzero(
            (NEIGHBOUR[0] * high[number] < across)
            & (across < NEIGHBOUR[1] * high[number])
            & (np.abs(down) < SAME_LINE * high[number])
            & (np.abs(high - high[number]) < 0.15 * high[number])
        )
        if len(near):
            across, down = max((float(across[k]), float(down[k])) for k in near)
            slopes.append(down / across)
    return Slant(median(slopes) if len(slopes) >= FEWEST else 0.0)
