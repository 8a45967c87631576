"""A finding: one thing that follows from the values by a named rule, with what it rests on and how sure it is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from .finding_codes import finding_code
from .record import Conduction, Ear, Standing

Numbers = tuple[tuple[str, float], ...]
"""Named numbers in a fixed order, such as ``(("better_db", 20.0), ("worse_db", 60.0))``."""

_DECIMALS = 4


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding.

    Attributes
    ----------
    code : str
        Registered in ``finding_codes``: what kind of finding it is.
    rule : str
        The published name of the rule, or of the choice where several are published ("Clark 1981, as used by ASHA").
    ear, conduction, frequency_hz : optional
        Whose and where; ``ear`` "both" is the person.
    word : str or None
        What was found, in one word of the rule: a grade, a type, ``met``, ``not met``. None where it cannot be told.
    could_be : tuple of str
        Every word that it could be within the doubt of the values, the least first; empty where it is ``word`` alone.
    number, unit : optional
        The number that was found or that decided, unrounded.
    low, high : float or None
        The range that the number could have; ``high`` may be infinite where nothing was heard. None where there is no
        number.
    numbers : tuple of (str, float)
        The other numbers that decided, each by its name with its unit.
    at_least : bool
        A no response entered: the number or word is this one or more.
    standing : {"sure", "ask"}
        ``ask`` where it rests on a value that a person must look at first.
    rests_on : tuple of float
        The frequencies of those values, Hz, ascending; empty where a value without a frequency is asked about.
    missing_hz, no_response_hz : tuple of float
        Frequencies that the rule wants and that have no value, or no response.
    """

    code: str
    rule: str
    ear: Ear | None = None
    conduction: Conduction | None = None
    frequency_hz: float | None = None
    word: str | None = None
    could_be: tuple[str, ...] = ()
    number: float | None = None
    unit: str | None = None
    low: float | None = None
    high: float | None = None
    numbers: Numbers = ()
    at_least: bool = False
    standing: Standing = "sure"
    rests_on: tuple[float, ...] = ()
    missing_hz: tuple[float, ...] = ()
    no_response_hz: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        finding_code(self.code)

    def named(self, name: str) -> float | None:
        """Give one of the other numbers by its name, None where it is not there."""
        return next((number for key, number in self.numbers if key == name), None)

    def to_json(self) -> dict[str, Any]:
        """Give the finding as it stands in the record: what is empty is left out, an open upper end is null.

        Numbers are rounded to 4 decimals.
        """
        told: dict[str, Any] = {"code": self.code, "rule": self.rule, "standing": self.standing}
        for name in ("ear", "conduction", "frequency_hz", "word"):
            if getattr(self, name) is not None:
                told[name] = getattr(self, name)
        if self.could_be:
            told["could_be"] = list(self.could_be)
        if self.number is not None:
            told |= {"number": _plain(self.number), "unit": self.unit, "range": [_end(self.low), _end(self.high)]}
        if self.numbers:
            told["numbers"] = {name: _plain(number) for name, number in self.numbers}
        if self.at_least:
            told["at_least"] = True
        for name in ("rests_on", "missing_hz", "no_response_hz"):
            if getattr(self, name):
                told[name] = list(getattr(self, name))
        return told


def standing_of(rests_on: tuple[float, ...]) -> Standing:
    """Give the standing of what rests on these values to look at: ``ask`` where there is any."""
    return "ask" if rests_on else "sure"


def _plain(number: float) -> float:
    return round(float(number), _DECIMALS)


def _end(number: float | None) -> float | None:
    return None if number is None or math.isinf(number) else _plain(number)
