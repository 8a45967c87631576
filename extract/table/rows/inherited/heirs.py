"""Rows that take their ear from a heading: one heading that was not seen gives them the wrong one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from ..row import Layout, Row


def heirs_doubted(layouts: Sequence[Layout]) -> tuple[Layout, ...]:
    """Doubt the rows that take their ear from a heading where a heading may be lost.

    Parameters
    ----------
    layouts : sequence of Layout
        All tables of a page that was read from a picture.

    Returns
    -------
    tuple of Layout
        The same. A heading may be lost where all rows of the page are one ear's, or where a table has two rows of one
        ear, conduction and masking.
    """
    ears = {row.name.ear for layout in layouts for row in layout.rows}
    one_ear = not {"right", "left"} <= ears
    return tuple(replace(one, rows=tuple(_doubted(row, one, one_ear=one_ear) for row in one.rows)) for one in layouts)


def _doubted(row: Row, layout: Layout, *, one_ear: bool) -> Row:
    kinds = Counter((r.name.ear, r.name.conduction, r.name.masked, r.name.aided, r.name.measure) for r in layout.rows)
    lost = one_ear or max(kinds.values()) > 1
    return replace(row, doubtful=True) if row.heir and lost else row
