"""Whether what looks like a chart that was not read is a table that was."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..chart import MeasuredChart
from ..eyes.axes.leftover import chart_like
from ..sheet import Sheet
from ..sightings import ChartArea, LabelRun
from .lines import middle
from .reading import Box, Table

MARGIN = 0.04
"""How far a table reaches beyond the middle of its numbers, in page sides: its lines, and half a column."""

WITHIN = 0.5
"""A chart of whose levels a larger share stands in tables is one: its numbers were taken for the labels of an axis."""


def without_tables(
    charts: tuple[MeasuredChart, ...], areas: tuple[ChartArea, ...], tables: Sequence[Table]
) -> tuple[MeasuredChart, ...]:
    """Leave out what was taken for a chart and is a table."""
    return tuple(c for c in charts if not _among(areas[c.area].level, [table.box for table in tables]))


def _among(levels: LabelRun, boxes: Sequence[Box]) -> bool:
    places = [(levels.across, at) if levels.along == "y" else (at, levels.across) for at in levels.at]
    inside = sum(any(b[0] < x < b[2] and b[1] < y < b[3] for b in boxes) for x, y in places)
    return inside > WITHIN * len(places)


def all_in_tables(sheet: Sheet, tables: Sequence[Table], areas: tuple[ChartArea, ...]) -> bool:
    """Say whether nothing looks like an unread chart any more once the tables are taken off the sheet.

    Parameters
    ----------
    sheet : Sheet
        The page.
    tables : sequence of Table
        The tables that were read.
    areas : tuple of ChartArea
        The charts that were read.
    """
    pixels, words = np.array(sheet.pixels), sheet.words
    margin = MARGIN * max(pixels.shape[:2])
    for left, top, right, bottom in (table.box for table in tables):
        words = tuple(w for w in words if not (left <= middle(w)[0] <= right and top <= middle(w)[1] <= bottom))
        rows, columns = (
            slice(max(round(low - margin), 0), round(high + margin)) for low, high in ((top, bottom), (left, right))
        )
        pixels[rows, columns] = 255
    return not chart_like(pixels, words, areas)
