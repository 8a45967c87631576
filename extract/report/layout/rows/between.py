"""Tables that have the right ear's values before their labels, and the left ear's behind them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..cells import VALUE_SIGNS, box_of, cells_of, is_head
from ..ears import Head, heads_in
from ..tokens import Row, Token

FAR = 3.0
"""The lines of such a table are at most so many heights of their text apart."""
Cell = tuple[Token, ...]


def labels_first(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Put labels before both values of their line, where a line above heads one column of each ear.

    "15 | Speech threshold (dB HL) | 20" under "RIGHT | | LEFT": as it stands, the 15 had no label, or the one of the
    line above.
    """
    made: list[Row] = []
    heads: tuple[Head, Head] | None = None
    for number, row in enumerate(rows):
        if number and row.top - rows[number - 1].bottom > FAR * row.height:
            heads = None
        heads = _heads(row) or heads
        moved = _moved(row, heads) if heads is not None else None
        made.append(moved or row)
    return tuple(made)


def _heads(row: Row) -> tuple[Head, Head] | None:
    """Give the heads of a line that names each ear once, and nothing else but what stands between them."""
    named = heads_in(row.tokens)
    if len(named) != 2 or {one.ear for one in named} != {"right", "left"}:
        return None
    first, last = named
    ends = row.tokens[0] is first.token and row.tokens[-1] is last.token
    return (first, last) if ends and first.token.cell != last.token.cell else None


def _moved(row: Row, heads: tuple[Head, Head]) -> Row | None:
    """Give a line with its label first; None where it does not have one between two ears' values."""
    cells = cells_of(row.tokens)
    if len(cells) != 3:
        return None
    first, label, last = cells
    if not (_is_value(first) and _is_value(last) and is_head(label)):
        return None
    over = _overlap(first, heads[0]) and _overlap(last, heads[1])
    if not over or not any(one.kind == "label" and not one.meanings <= VALUE_SIGNS for one in label):
        return None
    order = [replace(one, cell=number) for number, cell in enumerate((label, first, last)) for one in cell]
    return replace(row, tokens=tuple(order))


def _is_value(cell: Cell) -> bool:
    """Say whether a cell holds a value and names nothing."""
    return not any(one.kind == "label" and not one.meanings <= VALUE_SIGNS | {"level"} for one in cell)


def _overlap(cell: Cell, head: Head) -> bool:
    left, _, right, _ = box_of(cell)
    return min(right, head.box[2]) > max(left, head.box[0])
