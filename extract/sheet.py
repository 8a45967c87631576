"""Sheet: a page turned upright and straight, ready to be looked at."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..interpret.record import Point, TakenBy
from .page import DrawnPath, Pixels, Word


@dataclass(frozen=True, slots=True)
class Sheet:
    """The straightened page.

    ``pixels`` has shape (height, width, 3), uint8, RGB. ``to_page`` is the 3 x 3 homography from sheet pixels to
    pixels of the page as displayed, ``page_size`` that page's (width, height) in pixels. ``words`` and ``paths``
    are in sheet pixels.
    """

    pixels: Pixels
    to_page: npt.NDArray[np.float64]
    page_size: tuple[int, int]
    taken_by: TakenBy
    words: tuple[Word, ...]
    paths: tuple[DrawnPath, ...]
    turn_deg: float
    notes: tuple[str, ...] = ()
    words_given: bool = False
    """Whether the words are those of the file itself, and not read from its picture."""

    def on_page(self, x: float, y: float) -> Point:
        """Give the page fractions of a sheet position in pixels."""
        u, v, w = self.to_page @ np.array([x, y, 1.0])
        return float((u / w + 0.5) / self.page_size[0]), float((v / w + 0.5) / self.page_size[1])
