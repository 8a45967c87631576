"""Pure-tone averages that the page prints, with their frequencies where it names them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from ....interpret.record import Conduction, Ear, PrintedAverage
from ...eyes.words.numbers import frequency_values
from ...sheet import Sheet
from ..layout.cells import PARTS
from ..layout.context import Layout
from ..layout.tokens import Token
from ..layout.values import BEYOND, LIMITS, Value, sign_before, values
from .evidence import judge
from .owners import SCORES, THRESHOLDS

WANTED = frozenset({"average", "average_3", "average_4", "average_high"})
USUAL: dict[str, tuple[float, ...]] = {
    "average": (500.0, 1000.0, 2000.0),
    "average_3": (500.0, 1000.0, 2000.0),
    "average_4": (500.0, 1000.0, 2000.0, 4000.0),
    "average_high": (),
}
"""What an average that names no frequencies is usually of (common practice)."""
OTHER_TESTS = THRESHOLDS | SCORES | PARTS
FEWEST, WIDEST = 3, 2.0
"""An average is of so many frequencies, and none is farther from the next than by so much: an octave is passed over by
no average in use (common practice), and one that was not recognised leaves such a gap."""
LEAST_DB, MOST_DB = -10.0, 125.0
LEVELS = frozenset({"dB{HL}", "dB"})
ENDS = frozenset({")", "]", "."})
BETWEEN = frozenset({",", "/", "-", "+", "&", ";", "\u2013", "(", ":", "\u00b7", "|"})
"""Signs that may stand between the frequencies of an average, or before the first."""


def read_averages(layout: Layout, sheet: Sheet) -> tuple[PrintedAverage, ...]:
    """Read the averages that a page prints.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    tuple of PrintedAverage
        In reading order; one whose frequencies the page does not name asks.
    """
    listed = {id(token) for row in layout.rows for label in row.tokens for token in _named(row.tokens, label)[1]}
    found = [
        average
        for value in values(layout, _wanted)
        if id(value.token) not in listed and not _of_another_test(layout, value)
        for average in _average(layout, sheet, value)
    ]
    kinds = [(one.ear, one.conduction, one.frequencies_hz) for one in found]
    # two of one kind: the second one's own ear may have been misread
    return tuple(
        replace(one, standing="ask", why_ask=tuple(dict.fromkeys((*one.why_ask, "ear-uncertain"))))
        if kinds.count(kind) > 1
        else one
        for one, kind in zip(found, kinds, strict=True)
    )


def _of_another_test(layout: Layout, value: Value) -> bool:
    """Say whether another test is named between an average's label and a number in one text."""
    cell = layout.rows[value.row].cell(value.token.cell)
    if value.label.row != value.row or value.label.token not in cell:
        return False
    between = cell[cell.index(value.label.token) + 1 : cell.index(value.token)]
    return any(one.meanings & OTHER_TESTS for one in between)


def _wanted(token: Token) -> frozenset[str]:
    return WANTED if token.kind == "number" and token.unit in (None, "dB", "dB{HL}") else frozenset()


def _average(layout: Layout, sheet: Sheet, value: Value) -> Iterator[PrintedAverage]:
    level = value.token.value
    ear = layout.ear(value.row, value.token)
    if level is None or (ear is None and value.unit is None) or level > MOST_DB:
        return
    row = layout.rows[value.label.row].tokens
    hz, named = _named(row, value.label.token)
    why = [code for code, holds in (
        ("frequencies-unnamed", not hz),
        ("ear-uncertain", ear is None or ear.doubt),
        ("label-uncertain", value.loose),
        ("unit-missing", value.unit is None),
        ("unit-differs", value.unit is not None and value.unit not in LEVELS),
        ("implausible", level < LEAST_DB),
        ("two-readings", sign_before(layout, value.row, value.token) in LIMITS | BEYOND),
    ) if holds]  # fmt: skip
    why += value.doubts
    gap = any(higher > WIDEST * lower for lower, higher in pairwise(hz))
    if not sheet.words_given and (gap or 0 < len(hz) < FEWEST):  # a frequency may not have been recognised
        why.append("frequencies-unnamed")
    if value.meaning in ("average_3", "average_4") and hz and len(hz) != len(USUAL[value.meaning]):
        why.append("numbers-differ")
    name: Ear = ear.ear if ear is not None else "unspecified"
    evidence = judge(sheet, "average", [value.token, *named], why, named)
    yield PrintedAverage(
        name, hz or USUAL[value.meaning], level, _conduction(layout, value), evidence.standing, evidence.why_ask,
        evidence.probability, evidence.box,
    )  # fmt: skip


def _conduction(layout: Layout, value: Value) -> Conduction:
    cell = layout.rows[value.label.row].cell(value.label.token.cell)
    near = [*cell, *layout.segment(value.row, value.token)]
    if any("field" in one.meanings for one in near):
        return "field"
    return "bone" if any("bone" in one.meanings for one in near) else "air"


def _named(tokens: Sequence[Token], label: Token) -> tuple[tuple[float, ...], list[Token]]:
    """Give the frequencies named directly behind an average's label, in Hz, and the tokens that name them.

    Two numbers at least, all of them audiometric frequencies in one unit, rising; what the unit behind the last says
    holds for all. Numbers of which both Hz and kHz can be meant are taken for none.
    """
    if not label.meanings & WANTED:
        return (), []
    numbers: list[Token] = []
    for token in tokens[list(tokens).index(label) + 1 :]:
        if token.kind == "number" and (not numbers or numbers[-1].unit in (None, token.unit)):
            numbers.append(token)
            if token.unit in ("Hz", "kHz") and not _goes_on(tokens, token):
                break
        elif token.kind == "unit" and token.unit in ("Hz", "kHz") and numbers:
            return _in_hz(numbers, token.unit)
        elif token.cell != label.cell or token.kind == "label" or token.text in ENDS:
            break
        elif token.text not in BETWEEN:  # something that was not understood: perhaps a further frequency
            return (), []
    unit = next((token.unit for token in reversed(numbers) if token.unit), None)
    return _in_hz(numbers, unit) if unit in ("Hz", "kHz", None) else ((), [])


def _goes_on(tokens: Sequence[Token], token: Token) -> bool:
    rest = tokens[list(tokens).index(token) + 1 :][:2]
    return len(rest) == 2 and rest[0].text in BETWEEN - {":"} and (rest[1].kind, rest[1].unit) == ("number", token.unit)


def _in_hz(numbers: list[Token], unit: str | None) -> tuple[tuple[float, ...], list[Token]]:
    found: list[float] = []
    for token in numbers:
        text = f"{token.value:g}"
        ends = [
            part.rstrip(".") for part in (text[:-1], text[1:]) if "1" in (text[0], text[-1])
        ]  # a bracket or stroke read as 1
        texts = [text] if frequency_values(text) else ends
        wanted = [hz for one in texts for hz, khz in frequency_values(one) if unit is None or khz == (unit == "kHz")]
        if len(wanted) != 1:
            return (), []
        found.append(wanted[0])
    rising = len(found) > 1 and all(a < b for a, b in pairwise(found))
    return (tuple(found), numbers) if rising else ((), [])
