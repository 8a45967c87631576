"""Columns of norms beside those of both ears: what stands there is nobody's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..cells import box_of, cells_of
from ..ears import heads_in
from ..tokens import Box, Row
from ..wording.phrases import begins, spoken

FAR = 3.0
"""The lines of a table are at most so many heights of their text apart."""


def without_norms(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Leave out the cells under a head such as "Normal range" on a line that names both ears in other cells."""
    made: list[Row] = []
    columns: list[Box] = []
    for number, row in enumerate(rows):
        if number and row.top - rows[number - 1].bottom > FAR * row.height:
            columns = []
        columns = _norms(row) or columns
        under = [cell for cell in cells_of(row.tokens) if any(_under(box_of(cell), column) for column in columns)]
        kept = tuple(token for token in row.tokens if not any(token in cell for cell in under))
        made.append(replace(row, tokens=kept) if kept and _norms(row) == [] else row)
    return tuple(made)


def _norms(row: Row) -> list[Box]:
    """Give the heads of norms of a line that names both ears in cells of their own."""
    cells = cells_of(row.tokens)
    ears = {head.ear for cell in cells for head in heads_in(cell)}
    if not {"right", "left"} <= ears:
        return []
    return [box_of(cell) for cell in cells if not heads_in(cell) and begins(spoken(cell), "norm")]


def _under(cell: Box, head: Box) -> bool:
    return min(cell[2], head[2]) > max(cell[0], head[0])
