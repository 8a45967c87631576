"""Printed values with what gives them their meaning, ready for a test's own reader."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from .context import Found, Layout
from .tokens import Token
from .wording.doubts import doubts_of, sign_in_words

BEYOND = frozenset({">", "\u2265"})
"""Signs before a number that say: more than that, or not even at that level."""
LIMITS = frozenset({"<", "\u2264", "~"})
"""Signs before a number that say: less, or about so much."""
FAR = 25.0
"""A label so many heights of the text before its value, with no head above, may belong to something else."""


@dataclass(frozen=True, slots=True)
class Value:
    """One printed value: its line and token, its label, and which of the meanings wanted that label has."""

    row: int
    token: Token
    label: Found
    meaning: str
    unit: str | None

    loose: bool = False
    """The label stands so that it could belong to something else."""
    doubts: tuple[str, ...] = ()
    """Reason codes for which the words around it speak against it."""


def values(layout: Layout, wanted: Callable[[Token], frozenset[str]]) -> Iterator[Value]:
    """Give every value whose nearest label has one of the meanings wanted.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    wanted : callable
        Gives the meanings, by the names of the label files, that a token may be a value of; none where it is no value.

    Yields
    ------
    Value
        In reading order.
    """
    for number, row in enumerate(layout.rows):
        for token in row.tokens:
            may_be = wanted(token)
            found = layout.find(number, token, may_be) if may_be else None
            if found is None and may_be and follows(layout, number, token, may_be):
                found = Found(after(layout, number, token)[0], "beside", number)
            if found is not None and not _cut_off(layout, number, token, found):
                meaning = sorted(found.token.meanings & may_be)[0]
                unit = unit_of(layout, number, token, found)
                loose, doubts = _loose(layout, number, token, found), doubts_of(layout, number, token, found)
                yield Value(number, token, found, meaning, unit, loose, doubts)


def _loose(layout: Layout, row: int, token: Token, label: Found) -> bool:
    if label.how == "above" or label.token.cell == token.cell:
        return not label.aligned
    far = token.box[0] - label.token.box[2] > FAR * layout.rows[row].height
    ear = layout.ear(row, token) if far else None
    return far and (ear is None or ear.row == row)


def _cut_off(layout: Layout, row: int, token: Token, label: Found) -> bool:
    """Say whether other ears are named between a head and what seems to stand below it: it ends a table's column."""
    if label.how != "above":
        return False
    ear = layout.ear(row, token)
    return ear is not None and label.row + 1 < ear.row < row


def unclaimed(layout: Layout, claimed: Iterable[Token], row: int) -> list[Token]:
    """Give the numbers of a line that stand outside brackets and that nothing was made of."""
    known = {id(token) for token in claimed}
    tokens = layout.rows[row].tokens
    open_at = [number for number, one in enumerate(tokens) if one.text in "([{"]
    close_at = [number for number, one in enumerate(tokens) if one.text in ")]}"]

    def bracketed(at: int) -> bool:
        return any(one < at for one in open_at) and any(one > at for one in close_at)

    return [one for at, one in enumerate(tokens) if one.kind == "number" and id(one) not in known and not bracketed(at)]


def named_by_head(layout: Layout, value: Value, wanted: frozenset[str]) -> Value:
    """Give a value the meaning of the head above it, where the label beside it stands in a cell of its own.

    A line's label and a column's head may say two things: which test, and what of it.
    """
    label = value.label
    if label.how != "beside" or label.token.cell == value.token.cell:
        return value
    for found in layout.above(value.row, value.token):
        meanings = found.token.meanings & wanted
        if meanings and found.aligned:
            unit = unit_of(layout, value.row, value.token, found)
            return replace(value, label=found, meaning=sorted(meanings)[0], unit=unit)
    return value


def follows(layout: Layout, row: int, token: Token, wanted: frozenset[str]) -> bool:
    """Say whether a label with one of the meanings wanted stands directly behind a value."""
    behind = after(layout, row, token)
    return bool(behind) and bool(behind[0].meanings & wanted)


def unit_of(layout: Layout, row: int, token: Token, label: Found) -> str | None:
    """Give a value's unit: printed with it, beside its label, between the two, behind it, or above its label."""
    if token.unit is not None:
        return token.unit
    beside = _units_beside(layout.rows[label.row].cell(label.token.cell), label.token)
    if beside:
        return beside[0]
    tokens = layout.rows[row].tokens
    at = tokens.index(token)
    if label.row == row:
        between = [one for one in tokens[min(tokens.index(label.token), at) : at] if one.kind == "unit"]
        if between:
            return between[-1].unit
    part = layout.segment(row, token)
    behind = [one for one in part[part.index(token) + 1 :] if one.kind == "unit"]
    if len(behind) == 1:
        return behind[0].unit
    under = [one for one in layout.above(row, token) if one.token.kind == "unit" and one.row > label.row]
    if label.how == "above" and under:  # the head runs over two lines
        return under[-1].token.unit
    over = (one.token.unit for one in layout.above(label.row, label.token) if one.token.kind == "unit")
    return next(over, None)


def _units_beside(cell: tuple[Token, ...], label: Token) -> list[str | None]:
    """Give the units behind a label in its cell, as far as the next label; else those before it."""
    at = cell.index(label)
    found: list[str | None] = []
    for one in cell[at + 1 :]:
        if one.kind == "label":
            break
        if one.kind == "unit":
            found.append(one.unit)
    return found or [one.unit for one in cell[:at] if one.kind == "unit"]


def after(layout: Layout, row: int, token: Token) -> list[Token]:
    """Give what follows a value in its cell, as far as the next number."""
    tokens = layout.rows[row].cell(token.cell)
    found: list[Token] = []
    for one in tokens[tokens.index(token) + 1 :]:
        if one.kind in ("number", "dash"):
            break
        found.append(one)
    return found


def sign_before(layout: Layout, row: int, token: Token) -> str:
    """Give the sign that stands directly before a value, or that words there stand for; or nothing."""
    cell = layout.rows[row].cell(token.cell)
    at = cell.index(token)
    return cell[at - 1].text if at and cell[at - 1].kind == "sign" else sign_in_words(cell, token)
