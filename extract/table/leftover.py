"""Whether what looks like a chart that was not read is a table that was."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ...interpret.record import Audiogram
from ..eyes.axes.leftover import LINES, chart_like
from ..eyes.axes.ruling import ruling_of
from ..sheet import Sheet
from ..sightings import ChartArea
from .reading import Table, Tables

MARGIN = 0.04
"""How far a table reaches beyond the middle of its numbers, in page sides: its lines, and half a column."""


def without_numbers(sheet: Sheet, tables: Sequence[Table]) -> Sheet:
    """Give a sheet without the words in its tables' cells, which else are taken for the labels of axes.

    The frequencies stay: a table below a chart may have the chart's own labels for heads.
    """
    boxes = [box for table in tables for box in table.numbers]
    if not boxes:
        return sheet
    words = tuple(w for w in sheet.words if not any(b[0] < x < b[2] and b[1] < y < b[3] for b in boxes
                                                    for x, y in [w.middle]))  # fmt: skip
    return replace(sheet, words=words)


def all_in_tables(sheet: Sheet, tables: Tables, areas: tuple[ChartArea, ...]) -> bool:
    """Say whether nothing looks like an unread chart any more once the tables are taken off the sheet.

    Parameters
    ----------
    sheet : Sheet
        The page.
    tables : Tables
        The tables that were read, and those of reflexes; without any, the answer is no.
    areas : tuple of ChartArea
        The charts that were read.
    """
    boxes = (*(table.box for table in tables.tables), *tables.reflexes)
    if not boxes:
        return False
    pixels, words = np.array(sheet.pixels), sheet.words
    ruling = ruling_of(pixels)
    margin = MARGIN * max(pixels.shape[:2])
    for left, top, right, bottom in boxes:
        words = tuple(w for w in words if not (left <= w.middle[0] <= right and top <= w.middle[1] <= bottom))
        rows, columns = (
            slice(max(round(low - margin), 0), round(high + margin)) for low, high in ((top, bottom), (left, right))
        )
        pixels[rows, columns] = np.median(pixels[rows, columns].reshape(-1, 3), axis=0)  # white would have edges
        ruling = ruling.without((columns.start, rows.start, columns.stop, rows.stop))
    return not chart_like(pixels, words, areas, ruling if areas else ruling.grids(LINES))


def audiograms_of(tables: Tables) -> tuple[Audiogram, ...]:
    """Give the tests that tables state where no chart shows any."""
    return tuple(Audiogram(table.tested_on, thresholds=table.thresholds) for table in tables.tables)


def unchecked(audiograms: tuple[Audiogram, ...]) -> tuple[Audiogram, ...]:
    """Let all values ask: a chart beside their table was not read, and may show others."""
    return tuple(
        replace(a, thresholds=tuple(
            t if t.standing == "ask" else replace(t, standing="ask", why_ask=("low-certainty",)) for t in a.thresholds
        ))
        for a in audiograms
    )  # fmt: skip
