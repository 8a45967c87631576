"""Tables as grids of cells, printed as a page's own words and read."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from by_hand import SIZE, sheet, word

from octavo.extract.table import Table, read_tables
from octavo.interpret.record import Threshold

HZ = ("500", "1000", "2000", "4000")
RIGHT, LEFT = ("15", "20", "30", "45"), ("10", "20", "35", "60")
WIDE, HIGH, LEFT_EDGE, TOP, LETTER = 100.0, 50.0, 150.0, 250.0, 7.84
Printed = str | tuple[str, float, float]
"""A cell's words, or words that stand so many columns right and rows down of its place."""


def read(rows: Sequence[Sequence[Printed]]) -> tuple[Table, ...]:
    """Print a grid of cells as a page's own words, and read its tables."""
    words = []
    for r, row in enumerate(rows):
        for c, cell in enumerate(row):
            text, right, down = cell if isinstance(cell, tuple) else (cell, 0.0, 0.0)
            parts = text.split()
            x = LEFT_EDGE + WIDE * (c + right) - LETTER * len(text) / 2
            for part in parts:
                words.append(word(part, x + LETTER * len(part) / 2, TOP + HIGH * (r + down)))
                x += LETTER * (len(part) + 1)
    page = sheet(words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    return read_tables(page, page.words, "given").tables


def values(rows: Sequence[Sequence[Printed]]) -> tuple[Threshold, ...]:
    return tuple(t for table in read(rows) for t in table.thresholds)


def sure(rows: Sequence[Sequence[Printed]]) -> set[tuple[str, str, bool, float, float]]:
    return {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl)
            for t in values(rows) if t.standing == "sure"}  # fmt: skip


def said(ear: str, way: str, levels: Sequence[str]) -> set[tuple[str, str, bool, float, float]]:
    return {(ear, way, False, float(hz), float(level)) for hz, level in zip(HZ, levels, strict=True) if level}
