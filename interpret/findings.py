"""Findings: what follows from the values of one audiogram by named rules."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from .record import Audiogram, Conduction, Ear, PageRecord
from .rules.averages import AVERAGES, Average, average
from .rules.degree import DEFAULT_SCHEME, SCHEMES, Degree, degree, degree_of_person, scheme_named

USUAL_AVERAGES = ("0.5-1-2", "0.5-1-2-4")
"""The averages that are given beside the scheme's own."""

_SIDES: tuple[tuple[Ear, Conduction], ...] = (
    ("right", "air"),
    ("left", "air"),
    ("right", "bone"),
    ("left", "bone"),
    ("unspecified", "bone"),
    ("both", "field"),
)


@dataclass(frozen=True, slots=True)
class Findings:
    """What follows from one audiogram.

    Attributes
    ----------
    scheme : str
        Id of the scheme that graded.
    averages : tuple of Average
        For every ear and conduction that has a value, right ear first, air before bone.
    degrees : tuple of Degree
        One for every ear with an air value, by that ear's own average.
    person : Degree or None
        The degree of the person, where the scheme grades by the better ear and both ears are known.
    """

    scheme: str
    averages: tuple[Average, ...]
    degrees: tuple[Degree, ...]
    person: Degree | None = None

    def to_json(self) -> dict[str, Any]:
        """Give the findings as they stand in the record; levels rounded to 0.01 dB."""
        scheme = SCHEMES[self.scheme]
        return {
            "scheme": {"id": scheme.id, "name": scheme.name, "average": scheme.average, "note": scheme.note},
            "averages": [_average(one) for one in self.averages],
            "degrees": [_degree(one) for one in (*self.degrees, *((self.person,) if self.person else ()))],
        }


def findings(audiogram: Audiogram, *, scheme: str = DEFAULT_SCHEME) -> Findings:
    """Draw the averages and the degree of every ear.

    Parameters
    ----------
    audiogram : Audiogram
        Its values, whatever they stand as: what rests on an ``ask`` value says so.
    scheme : str
        Id of the grading scheme (``rules.degree.SCHEMES``).

    Raises
    ------
    MisuseError
        When there is no such scheme.
    """
    wanted = tuple(dict.fromkeys((*USUAL_AVERAGES, scheme_named(scheme).average)))
    values = audiogram.thresholds
    present = {(t.ear, t.conduction) for t in values if t.measure == "threshold" and not t.aided}
    sides = [side for side in _SIDES if side in present]
    averages = tuple(average(values, rule, ear, conduction) for ear, conduction in sides for rule in wanted)
    degrees = tuple(degree(values, ear, scheme) for ear, conduction in sides if conduction == "air")
    return Findings(scheme, averages, degrees, degree_of_person(values, scheme))


def with_findings(record: PageRecord, scheme: str = DEFAULT_SCHEME) -> PageRecord:
    """Give the same record with the findings of every audiogram filled in."""
    audiograms = tuple(replace(one, findings=findings(one, scheme=scheme).to_json()) for one in record.audiograms)
    return replace(record, audiograms=audiograms)


def _db(value: float | None) -> float | None:
    return None if value is None else round(value, 2)


def _average(one: Average) -> dict[str, Any]:
    return {
        "ear": one.ear,
        "conduction": one.conduction,
        "average": one.rule,
        "frequencies_hz": list(AVERAGES[one.rule].frequencies_hz),
        "db_hl": _db(one.db_hl),
        "at_least": one.at_least,
        "missing_hz": list(one.missing_hz),
        "no_response_hz": list(one.no_response_hz),
        "ask_hz": list(one.ask_hz),
        "masked_hz": list(one.masked_hz),
    }


def _degree(one: Degree) -> dict[str, Any]:
    return {
        "ear": one.ear,
        "grade": one.grade,
        "at_least": one.at_least,
        "graded_db_hl": _db(one.graded_db_hl),
        "missing_hz": list(one.average.missing_hz),
        "no_response_hz": list(one.average.no_response_hz),
        "ask_hz": list(one.average.ask_hz),
    }
