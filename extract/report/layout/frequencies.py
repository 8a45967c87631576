"""Which frequency a value of a table or a line belongs to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...eyes.words.numbers import STANDARD_HZ
from .context import Layout
from .tokens import Row, Token

FEWEST = 3
"""So many rising audiometric frequencies on a line are a head even without a unit."""
LEAST_HZ, MOST_HZ = 125.0, 20000.0
NEAR = 0.5
"""A value stands at most so far from its column's frequency, in steps of the columns."""


@dataclass(frozen=True, slots=True)
class Named:
    """A frequency where the page names it."""

    hz: float
    token: Token


def frequencies(layout: Layout) -> dict[int, tuple[Named, ...]]:
    """Find the frequencies that each line of a page names.

    Returns
    -------
    dict of int to tuple of Named
        By the number of the line; lines that name none are left out.
    """
    found = {number: _named(layout, number) for number in range(len(layout.rows))}
    return {number: named for number, named in found.items() if named}


def frequency_of(layout: Layout, named: dict[int, tuple[Named, ...]], row: int, token: Token) -> Named | None:
    """Find a value's frequency: the nearest one before it on its line, "at" one behind it, or its column's."""
    here = named.get(row, ())
    behind = _behind(layout.rows[row], here, token)
    if behind is not None:
        return behind
    before = [one for one in here if one.token.box[0] < token.box[0]]
    if before:
        return before[-1]
    for number in range(row - 1, -1, -1):
        heads = named.get(number)
        if heads is None:
            continue
        if len(heads) == 1:
            over = min(heads[0].token.box[2], token.box[2]) - max(heads[0].token.box[0], token.box[0]) > 0
            return heads[0] if over else None
        step = min(b.token.middle - a.token.middle for a, b in pairwise(heads))
        nearest = min(heads, key=lambda one: abs(one.token.middle - token.middle))
        return nearest if abs(nearest.token.middle - token.middle) < NEAR * step else None
    return None


def _behind(row: Row, here: Sequence[Named], token: Token) -> Named | None:
    at = row.tokens.index(token)
    rest = row.tokens[at + 1 : at + 3]
    if len(rest) == 2 and "level" in rest[0].meanings:
        return next((one for one in here if one.token is rest[1]), None)
    return None


def _named(layout: Layout, number: int) -> tuple[Named, ...]:
    row = layout.rows[number]
    numbers = [token for token in row.tokens if token.kind == "number" and token.unit in ("Hz", "kHz", None)]
    told = [one for token in numbers if (one := _by_unit(layout, number, token)) is not None]
    if told:
        return tuple(told)
    bare = [token for token in numbers if token.unit is None]
    return _by_themselves(bare) or (_in_khz(bare) if len(bare) == len(row.tokens) else ())


def _by_unit(layout: Layout, number: int, token: Token) -> Named | None:
    """Read a number that a unit or a head says to be a frequency."""
    unit = token.unit
    if unit is None:
        label = next((f.token for f in layout.labels(number, token) if _says(f.token)), None)
        if label is None or not ("frequency" in label.meanings or label.unit in ("Hz", "kHz")):
            return None
        unit = label.unit or _unit_beside(layout, label) or ("kHz" if "khz" in label.text.casefold() else None)
    assert token.value is not None
    hz = token.value * (1000.0 if unit == "kHz" or (unit is None and token.value < 20) else 1.0)
    return Named(hz, token) if LEAST_HZ <= hz <= MOST_HZ else None


def _says(label: Token) -> bool:
    """Say whether a label tells what a number in a table by frequency is."""
    wanted = {"frequency", "amplitude", "noise", "noise_ratio", "ipsi", "contra", "result", "probe", "average"}
    return label.kind == "unit" or bool(label.meanings & wanted)


def _unit_beside(layout: Layout, label: Token) -> str | None:
    for row in layout.rows:
        if label in row.tokens:
            units = [one.unit for one in row.cell(label.cell) if one.kind == "unit"]
            return units[0] if units else None
    return None


def _in_khz(numbers: list[Token]) -> tuple[Named, ...]:
    """Read a line of nothing but "0.5 1 2": no other numbers rise so, and whole ones are written without decimals."""
    hz = [1000.0 * (token.value or 0.0) for token in numbers]
    rising = len(hz) >= FEWEST and all(a < b for a, b in pairwise(hz)) and {500.0, 1000.0} <= set(hz)
    if rising and all(one in STANDARD_HZ for one in hz) and any(token.text == "1" for token in numbers):
        return tuple(Named(one, token) for one, token in zip(hz, numbers, strict=True))
    return ()


def _by_themselves(numbers: list[Token]) -> tuple[Named, ...]:
    values = [token.value or 0.0 for token in numbers]
    rising = len(values) >= FEWEST and all(a < b for a, b in pairwise(values))
    if rising and all(value in STANDARD_HZ for value in values):
        return tuple(Named(token.value or 0.0, token) for token in numbers)
    return ()
