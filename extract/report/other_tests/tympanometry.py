"""Tympanometry in numbers: type, peak pressure, static admittance, ear-canal volume, width, probe tone of each ear."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ....interpret.record import Immittance, Side, Tympanogram
from ...sheet import Sheet
from ..layout.context import Layout
from ..layout.tokens import Token
from ..layout.values import BEYOND, LIMITS, Value, after, sign_before, unclaimed, values
from .evidence import judge

UNREAD = "unread"
MEASURED = frozenset({"pressure", "admittance", "volume", "width"})
FLAT = frozenset({"B"})
"""Types that mean a trace without a peak (Liden 1969, Jerger 1970)."""
NUMBERS = frozenset({"pressure", "admittance", "volume", "width", "gradient", "probe"})
UNITS = frozenset({"daPa", "mL", "mmho"})
BLOCK = 4
"""The lines of one tympanogram are at most so many apart."""
TITLED = frozenset({"tympanometry"})
TYPE = re.compile(r"A[sdSD]?|B|C[12]?|D|E|A[dD]{2}")
"""Types after Liden and Jerger with the usual sub-types (textbooks); printed with a large first letter."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What a number of a tympanogram may be.

    The ranges are wider than any ear's: IEC 60645-5 has instruments sweep from -600 to +400 daPa at most and measure
    volumes to 5 mL (from memory); a value outside of them asks.
    """

    units: frozenset[str]
    least: float
    most: float


KINDS: dict[str, Kind] = {
    "pressure": Kind(frozenset({"daPa"}), -600, 400),
    "admittance": Kind(frozenset({"mmho", "mL"}), 0, 5),
    "volume": Kind(frozenset({"mL"}), 0.1, 8),
    "width": Kind(frozenset({"daPa"}), 10, 400),
    "probe": Kind(frozenset({"Hz"}), 220, 1000),
}
"""1 mmho at 226 Hz is the admittance of 1 mL of air, so reports print either unit for the static admittance."""
USUAL_PROBE_HZ = 226.0
PROBES_HZ = (226.0, 220.0, 660.0, 678.0, 800.0, 1000.0)
"""Probe tones of instruments: 226, 678, 800 and 1000 Hz, older ones 220 and 660 (common practice)."""


@dataclass(frozen=True, slots=True)
class _Read:
    """One value of an ear's tympanogram."""

    meaning: str
    ear: Side
    number: float | None
    text: str
    token: Token
    why: tuple[str, ...]


def read_tympanometry(layout: Layout, sheet: Sheet) -> tuple[Immittance, ...]:
    """Read the tympanograms that a page prints as numbers.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    sheet : Sheet
        The page they stand on.

    Returns
    -------
    tuple of Immittance
        One an ear, the right ear first, without reflexes; empty where the page prints none.
    """
    read = [*_numbers(layout), *_types(layout)]
    read += _unread(layout, [one.token for one in read])
    probes = [value for value in values(layout, _probe) if value.token.value in PROBES_HZ]
    probe = next((value.token.value for value in probes), None)
    found = [
        _immittance(
            sheet, ear, [one for one in read if one.ear == ear], probe, {one.meaning for one in read} & MEASURED
        )
        for ear in ("right", "left")
    ]
    return tuple(one for one in found if one is not None)


def _probe(token: Token) -> frozenset[str]:
    return frozenset({"probe", "tympanometry"}) if token.kind == "number" and token.unit == "Hz" else frozenset()


def _wanted(token: Token) -> frozenset[str]:
    return NUMBERS if token.kind == "number" and token.unit not in ("%", "dB", "dB{HL}", "dB{SPL}") else frozenset()


def _numbers(layout: Layout) -> list[_Read]:
    read: list[_Read] = []
    for value in values(layout, _wanted):
        if value.meaning == "gradient" and value.unit == "daPa":  # a gradient proper has no unit
            value = replace(value, meaning="width")
        if value.label.token.meanings >= {"pressure", "admittance"}:  # "Peak": its unit tells of what
            value = replace(value, meaning="pressure" if value.unit == "daPa" else "admittance")
        kind = KINDS.get(value.meaning)
        if kind is None or value.meaning == "probe" or value.token.value is None:
            continue
        number, why = value.token.value, _doubts(value)
        if value.unit is None:
            why.append("unit-missing")
        elif value.unit not in kind.units:
            why.append("unit-differs")
        if not kind.least <= number <= kind.most or (kind.units <= {"mmho", "mL"} and value.token.decimals == 0):
            why.append("implausible")
        if sign_before(layout, value.row, value.token) in LIMITS | BEYOND:
            why.append("two-readings")
        read += _of_ear(layout, value, number, value.token.text, why)
    return read


def _types(layout: Layout) -> list[_Read]:
    read: list[_Read] = []
    for value in values(layout, _may_be_type):
        text = _type_text(layout, value) if value.token.kind == "word" else None
        if value.token.kind == "dash":
            read += _of_ear(layout, replace(value, meaning="dash"), None, "", ["dash-unclear"])
        elif "no_peak" in value.token.meanings:
            read += _of_ear(layout, replace(value, meaning="no_peak"), None, value.token.text, _doubts(value))
        elif text is not None:
            read += _of_ear(layout, replace(value, meaning="type"), None, text, _doubts(value))
    return read


def _may_be_type(token: Token) -> frozenset[str]:
    if token.kind == "dash":
        return frozenset({"pressure"})
    if "no_peak" in token.meanings:
        return TITLED | {"type", "pressure", "admittance"}
    return TITLED | {"type"} if token.kind == "word" and TYPE.fullmatch(token.text) else frozenset()


def _type_text(layout: Layout, value: Value) -> str | None:
    """Give the type as printed, with a letter printed apart; None where the letter is the beginning of words."""
    behind = after(layout, value.row, value.token)
    small = behind[0] if behind and behind[0].kind == "word" else None
    if small is None:
        return value.token.text
    if small.text in ("s", "d", "S", "D") and len(value.token.text) == 1:
        return value.token.text + small.text
    return value.token.text if value.meaning == "type" else None


def _doubts(value: Value) -> list[str]:
    return [*(["label-uncertain"] if value.loose else []), *value.doubts]


def _unread(layout: Layout, claimed: list[Token]) -> list[_Read]:
    """Give the numbers on the lines of tympanograms that nothing was made of: their ear asks."""
    rows = {number for number, row in enumerate(layout.rows) if any(token in row.tokens for token in claimed)}
    unknown = {
        number
        for row in rows for number in range(max(row - BLOCK, 0), min(row + BLOCK + 1, len(layout.rows)))
        if number not in rows and layout.together(row, number) and _of_unknown(layout, number)
    }  # fmt: skip
    found: list[_Read] = []
    for number in sorted(rows | unknown):
        for token in unclaimed(layout, claimed, number):
            ear = layout.ear(number, token)
            near = layout.find(number, token, NUMBERS | TITLED | {"type"})
            here = number in unknown or (near is not None and bool(near.token.meanings & (TITLED | {"type"})))
            here = here or (near is None and _headed_by_unit(layout, number, token))
            if ear is not None and ear.ear != "both" and here:
                found.append(_Read(UNREAD, ear.ear, None, "", token, ("label-uncertain",)))
    return found


def _of_unknown(layout: Layout, number: int) -> bool:
    """Say whether a line holds numbers in a tympanogram's unit, and begins with a word that names nothing known."""
    tokens = layout.rows[number].tokens
    return tokens[0].kind == "word" and any(one.unit in UNITS for one in tokens)


def _headed_by_unit(layout: Layout, number: int, token: Token) -> bool:
    """Say whether a number stands under a head of which nothing but a tympanogram's unit is known."""
    return any(found.how == "above" and found.token.unit in UNITS for found in layout.labels(number, token))


def _of_ear(layout: Layout, value: Value, number: float | None, text: str, why: list[str]) -> list[_Read]:
    """Give a value with its ear; nothing where no ear is named, since a record of no ear says nothing."""
    ear = layout.ear(value.row, value.token)
    if ear is None or (ear.ear == "both" and number is not None):
        return []
    codes = (*why, *(("ear-uncertain",) if ear.doubt else ()))
    named: tuple[Side, ...] = ("right", "left") if ear.ear == "both" else (ear.ear,)  # "type A in both ears"
    return [_Read(value.meaning, one, number, text, value.token, codes) for one in named]


def _printed_peak(read: Mapping[str, _Read]) -> bool:
    """Say whether the printed type is one of a trace with a peak."""
    return "type" in read and read["type"].text not in FLAT


def _immittance(
    sheet: Sheet, ear: Side, read: Sequence[_Read], probe: float | None, told: set[str]
) -> Immittance | None:
    """Put one ear's values together; ``told`` is what the page tells of any ear."""
    if not read:
        return None
    first: dict[str, _Read] = {}
    why: list[str] = []
    for one in read:
        known = first.setdefault(one.meaning, one)
        if known.number != one.number or (one.number is None and known.text != one.text):
            why.append("two-readings")
        why += one.why

    def number(meaning: str) -> float | None:
        return first[meaning].number if meaning in first else None

    pressure, height = number("pressure"), number("admittance")
    flat = "no_peak" in first or (pressure is None and "type" in first and first["type"].text in FLAT)
    if flat and "dash" in first:
        why = [code for code in why if code != "dash-unclear"]
    if not flat and not told <= {one.meaning for one in read}:  # the other ear has a number that this one lacks
        why.append("label-uncertain")
    lost = _printed_peak(first) and (pressure is None or height is None) and len(first) > 1
    if lost and not sheet.words_given:  # a number or its label may not have been recognised
        why.append("label-uncertain")
    if "no_peak" in first and (pressure is not None or ("type" in first and first["type"].text != "B")):
        why.append("two-readings")
    printed = first["type"].text if "type" in first else None
    if printed is not None and not sheet.words_given:  # large and small letters of one shape look alike in a picture
        printed = printed.capitalize()
    evidence = judge(sheet, "tympanogram", [one.token for one in read], why)
    trace = Tympanogram(
        False if flat else True if pressure is not None else None, pressure, height,
        number("volume"), number("width"), probe or USUAL_PROBE_HZ, printed,
    )  # fmt: skip
    return Immittance(
        ear, trace, (), evidence.standing, evidence.why_ask, probability=evidence.probability, box=evidence.box
    )
