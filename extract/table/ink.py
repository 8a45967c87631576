"""Whether a cell in which no word was found holds ink all the same."""

from __future__ import annotations

import numpy as np

from ..sheet import Sheet
from .cells import Cell

INKED = 0.006
"""Share of dark pixels from which a cell holds something."""


def inked(sheet: Sheet, cell: Cell) -> bool:
    """Say whether the middle of a cell holds ink."""
    (x, y), (wide, high) = cell.at, cell.size
    part = sheet.pixels[
        max(round(y - 0.3 * high), 0) : round(y + 0.3 * high), max(round(x - 0.35 * wide), 0) : round(x + 0.35 * wide)
    ]
    if not part.size:
        return False
    grey = part.min(axis=2).astype(float)
    return float((grey < 0.6 * np.median(grey)).mean()) > INKED
