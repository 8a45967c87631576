"""Numbers as reports print them, and the units beside them."""

from __future__ import annotations

import re

from ..facts.values.dates import dates_in

MINUS = "-\u2212\u2013\u2014\u2010\u2011"
DASHES = frozenset("-\u2212\u2013\u2014\u2012\u2015")
CUBED = frozenset("~?*'\u00ae\u00b0\u2019^\"")
"""What a small raised 3 is read as."""
NUMBER = re.compile(r"\d{1,4}(?:[.,]\d{1,2})?")

# How a unit is printed, in small letters, and its UCUM code: https://ucum.org/ucum (dB, daPa, mL, mho, Hz and % are in
# its tables; levels re a reference are annotated in braces as it allows). One mho is one siemens, one cm3 one mL.
UNITS: dict[tuple[str, ...], str] = {
    ("db", "hl"): "dB{HL}",
    ("dbhl",): "dB{HL}",
    ("db", "nhl"): "dB{nHL}",
    ("db", "spl"): "dB{SPL}",
    ("dbspl",): "dB{SPL}",
    ("db", "sl"): "dB{SL}",
    ("db", "snr"): "dB",
    ("db", "s", "/", "n"): "dB",
    ("db",): "dB",
    ("%",): "%",
    ("dapa",): "daPa",
    ("mmh", "2", "o"): "mm[H2O]",
    ("mm", "h", "2", "o"): "mm[H2O]",
    ("ml",): "mL",
    ("mt",): "mL",  # this and the next as faxes have it
    ("mi",): "mL",
    ("cc",): "mL",
    ("ccm",): "mL",
    ("cm", "3"): "mL",
    ("cm\u00b3",): "mL",
    ("mmho",): "mmho",
    ("mmhos",): "mmho",
    ("ms",): "mmho",
    ("hz",): "Hz",
    ("khz",): "kHz",
}


def unit_at(parts: list[str]) -> tuple[int, str | None]:
    """Find the unit with which some printed parts begin.

    Parameters
    ----------
    parts : list of str
        Words and signs as printed.

    Returns
    -------
    int
        How many of the parts it takes; 0 for none.
    str or None
        Its UCUM code, the reference of a level in braces.
    """
    low = [part.casefold() for part in parts[:4]]
    if len(low) > 1 and low[0] == "cm" and low[1] in CUBED:
        return 2, "mL"
    for taken in range(min(4, len(low)), 0, -1):
        unit = UNITS.get(tuple(low[:taken]))
        if unit is not None:
            return taken, unit
    return 0, None


def value_of(text: str) -> float | None:
    """Give the value of a printed number with a decimal point or comma; None where it is none.

    >>> value_of("0,85")
    0.85
    """
    return float(text.replace(",", ".")) if NUMBER.fullmatch(text) else None


def holds_number(text: str) -> bool:
    """Say whether a text holds a number outside its dates and its brackets, which tell how a test was done.

    >>> holds_number("Tympanometry (226 Hz), 6 May 2030"), holds_number("SRT 25 dB")
    (False, True)
    """
    for one in reversed(dates_in(text)):
        text = text if one.short_year else text[: one.start] + text[one.end :]
    return any(c.isdigit() for c in re.sub(r"\([^()]*\)", "", text))
