"""Choices with tick boxes: what stands behind an empty box was not chosen."""

from __future__ import annotations

from dataclasses import replace

from ..cells import VALUE_SIGNS
from ..tokens import Row, Token

TICKED, EMPTY = frozenset("☒☑✓✔✗✘"), frozenset("☐□")


def without_empty_boxes(row: Row) -> Row:
    """Leave out what stands behind empty boxes of a line that has ticked ones, up to the next box, cell or label.

    Only boxes that the file itself tells: whether one in a picture is ticked is not certain enough to drop a value.
    """
    boxes = [token for token in row.tokens if token.text in TICKED | EMPTY and token.chance >= 1.0]
    if not any(one.text in TICKED for one in boxes) or not any(one.text in EMPTY for one in boxes):
        return row
    kept: list[Token] = []
    empty: Token | None = None
    for token in row.tokens:
        if token in boxes:
            empty = token if token.text in EMPTY else None
            continue
        named = token.kind == "label" and not token.meanings <= VALUE_SIGNS
        if empty is not None and (named or token.cell != empty.cell):
            empty = None
        if empty is None:
            kept.append(token)
    return replace(row, tokens=tuple(kept)) if kept else row
