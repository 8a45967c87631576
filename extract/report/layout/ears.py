"""Which ear the heads of columns give to a value below them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from .tokens import Box, Token

EarName = Literal["right", "left", "both"]
_NAMES: tuple[EarName, ...] = ("right", "left", "both")
AROUND = 2.5
"""A head stands over its columns, or at most so many heights of the text aside."""


@dataclass(frozen=True, slots=True)
class Head:
    """An ear's name, and the box of the words that it is named among; ``doubt`` where another ear's may be meant."""

    ear: EarName
    token: Token
    span: Box
    doubt: bool = False

    @property
    def box(self) -> Box:
        """Where it stands."""
        return self.token.box


def heads_in(tokens: Iterable[Token]) -> list[Head]:
    """Give the ears that the tokens of a cell name, in their order."""
    cell = list(tokens)
    boxes = [token.box for token in cell]
    return [
        Head(name, token, (min(b[0] for b in boxes), token.box[1], max(b[2] for b in boxes), token.box[3]))
        for token in cell
        for name in _NAMES
        if token.kind == "label" and name in token.meanings
    ]


def ear_of_heads(
    heads: Sequence[Head], token: Token, part: Box, parts: int, columns: Sequence[Box], height: float
) -> Head | None:
    """Find the head that a value stands under.

    Parameters
    ----------
    heads : sequence of Head
        The ears that a line above names, from left to right.
    token : Token
        The value.
    part : Box
        Where the value's part of its line stands.
    parts : int
        How many such parts the line has.
    columns : sequence of Box
        All columns of values.
    height : float
        Of the text.

    Returns
    -------
    Head or None
        With ``doubt`` where it stands aside; None where a single head is not over the value.
    """
    if len(heads) == 1:
        head = heads[0]
        aside = head.span[0] > token.box[2] or head.span[2] < part[0] - AROUND * height
        return None if aside else head
    if parts > 1:
        over = [head for head in heads if _overlap(head.box, part) > 0]
        if len(over) == 1:
            return over[0]
    if len(columns) > len(heads) and len(columns) % len(heads) == 0:
        return _of_group(heads, token, columns, height)
    apart = len({head.span for head in heads}) == len(heads)  # each in a cell of its own, as "Aided R" and "Aided L"
    over = [head for head in heads if _overlap(head.span if apart else head.box, token.box) > 0]
    if len(over) == 1:
        return over[0]
    by_distance = sorted(heads, key=lambda head: abs((head.box[0] + head.box[2]) / 2 - token.middle))
    nearest = by_distance[0]
    aside = max(nearest.box[0] - token.box[2], token.box[0] - nearest.box[2], 0.0)
    uneven = len(columns) > len(heads)  # not every column has an ear's name: the nearest may be its neighbour's
    return replace(nearest, doubt=aside > (0 if uneven else AROUND * height))


def _of_group(heads: Sequence[Head], token: Token, columns: Sequence[Box], height: float) -> Head:
    """Give the head of a value's group of columns: as many of them to each head, from left to right."""
    each = len(columns) // len(heads)
    at = min(range(len(columns)), key=lambda i: abs((columns[i][0] + columns[i][2]) / 2 - token.middle))
    head = heads[at // each]
    group = columns[at // each * each : (at // each + 1) * each]
    left, right = min(box[0] for box in group), max(box[2] for box in group)
    inside = head.box[2] > left - AROUND * height and head.box[0] < right + AROUND * height
    return replace(head, doubt=not inside)


def _overlap(one: Box, other: Box) -> float:
    return min(one[2], other[2]) - max(one[0], other[0])
