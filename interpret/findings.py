"""Findings: what follows from the values of one audiogram by named rules, called here in order and nowhere else."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from .finding import Finding, standing_of
from .record import Audiogram, Conduction, Ear, PageRecord, Report
from .rules import otoacoustic, plausibility_of_tests
from .rules.audibility import audible_speech, gain
from .rules.averages import AVERAGES, Average, average_of_row, better_ear, both_ears
from .rules.degree import NORMAL_LIMITS, SCHEMES, Degree, degree, degree_of_person
from .rules.doubt import row_of
from .rules.gap import loss_type
from .rules.immittance import reflexes, tympanogram
from .rules.population import ageing, handicap, noise
from .rules.referral import guidance, implant
from .rules.shape import configuration, symmetry
from .rules.speech import agreement, recognition
from .settings import Case, NormalLimitName, Settings

USUAL_AVERAGES = ("0.5-1-2", "0.5-1-2-4")
"""The averages that are given even where a frequency is missing, beside the scheme's own."""

_SIDES: tuple[tuple[Ear, Conduction], ...] = (
    ("right", "air"),
    ("left", "air"),
    ("right", "bone"),
    ("left", "bone"),
    ("unspecified", "bone"),
    ("both", "field"),
)


Chapter = Callable[[Case], Iterator[Finding]]
"""One part of the findings: from a case to its findings, in the order in which they are told."""


@dataclass(frozen=True, slots=True)
class Findings:
    """What follows from one audiogram.

    Attributes
    ----------
    settings : Settings
        What was asked.
    age_years : float or None
        The listener's age at the test, where it is known.
    normal : str
        Which limit of normal was used.
    averages : tuple of Average
        For every ear and conduction that has a value, right ear first, air before bone.
    degrees : tuple of Degree
        One for every ear with an air value, by that ear's own average.
    person : Degree or None
        The degree of the person, where the scheme grades by the better ear and both ears are known.
    found : tuple of Finding
        Every finding in the order of the registered codes' parts, those of averages and degrees among them.
    """

    settings: Settings
    age_years: float | None
    normal: NormalLimitName
    averages: tuple[Average, ...]
    degrees: tuple[Degree, ...]
    person: Degree | None
    found: tuple[Finding, ...]

    def of(self, code: str, ear: Ear | None = None) -> tuple[Finding, ...]:
        """Give the findings of a code, of one ear where it is named."""
        return tuple(one for one in self.found if one.code == code and ear in (None, one.ear))

    def to_json(self) -> dict[str, Any]:
        """Give the findings as they stand in the record."""
        settings = self.settings
        scheme, limit = SCHEMES[settings.scheme], NORMAL_LIMITS[self.normal]
        noise = settings.noise
        return {
            "scheme": {"id": scheme.id, "name": scheme.name, "average": scheme.average, "note": scheme.note},
            "normal_limit": {"id": limit.id, "db_hl": limit.db_hl, "source": limit.source},
            "gap_rule": settings.gap_rule,
            "age_years": None if self.age_years is None else round(self.age_years, 2),
            "sex": settings.sex,
            "noise": None if noise is None else {"level_dba": noise.level_dba, "years": noise.years},
            "found": [one.to_json() for one in self.found],
        }


def findings(audiogram: Audiogram, settings: Settings | None = None, report: Report | None = None) -> Findings:
    """Draw every finding from one audiogram.

    Parameters
    ----------
    audiogram : Audiogram
        Its values, whatever they stand as: what rests on an ``ask`` value says so.
    settings : Settings, optional
        What was asked, and what is known of the listener.
    report : Report, optional
        What the page says around its charts: birth date, earphone.
    """
    asked, about = settings or Settings(), report or Report()
    age = asked.age_at(audiogram, about)
    case = Case(audiogram, about, asked, age, asked.normal_at(age))
    averages, degrees = tuple(_averages(case)), tuple(_degrees(case))
    person = degree_of_person(audiogram.thresholds, asked.scheme)
    found = (
        *(_average_finding(one) for one in averages),
        *_of_both_ears(averages),
        *(_degree_finding(one) for one in (*degrees, *((person,) if person else ()))),
        *(finding for chapter in _CHAPTERS for finding in chapter(case)),
    )
    return Findings(asked, age, case.normal, averages, degrees, person, found)


def with_findings(record: PageRecord, settings: Settings | None = None) -> PageRecord:
    """Give the same record with the findings of every audiogram filled in."""
    audiograms = tuple(
        replace(one, findings=findings(one, settings, record.report).to_json()) for one in record.audiograms
    )
    return replace(record, audiograms=audiograms)


def _averages(case: Case) -> Iterator[Average]:
    values = case.audiogram.thresholds
    usual = dict.fromkeys((*USUAL_AVERAGES, SCHEMES[case.settings.scheme].average))
    present = {(t.ear, t.conduction) for t in values if t.measure == "threshold" and not t.aided}
    for ear, conduction in _SIDES:
        if (ear, conduction) not in present:
            continue
        row = row_of(values, ear, conduction)
        for rule in (*usual, *(name for name in AVERAGES if name not in usual)):
            found = average_of_row(row, AVERAGES[rule], ear, conduction)
            if rule in usual or (conduction == "air" and found.db_hl is not None):
                yield found


def _degrees(case: Case) -> Iterator[Degree]:
    values = case.audiogram.thresholds
    present = {t.ear for t in values if (t.conduction, t.measure, t.aided) == ("air", "threshold", False)}
    for ear in ("right", "left"):
        if ear in present:
            yield degree(values, ear, case.settings.scheme)


def _of_both_ears(averages: tuple[Average, ...]) -> Iterator[Finding]:
    by_place = {(one.ear, one.rule): one for one in averages if one.conduction == "air"}
    for rule in AVERAGES:
        right, left = by_place.get(("right", rule)), by_place.get(("left", rule))
        if right is None or left is None:
            continue
        for code, one in (
            ("average-better-ear", better_ear(right, left)),
            ("average-binaural", both_ears(right, left)),
        ):
            if one is not None:
                yield _average_finding(one, code)


def _average_finding(one: Average, code: str = "average") -> Finding:
    return Finding(
        code,
        one.rule,
        ear=one.ear,
        conduction=one.conduction,
        number=one.db_hl,
        unit=None if one.db_hl is None else "dB HL",
        low=None if one.span is None else one.span.low,
        high=None if one.span is None else one.span.high,
        at_least=one.at_least,
        standing=standing_of(one.ask_hz),
        rests_on=one.ask_hz,
        missing_hz=one.missing_hz,
        no_response_hz=one.no_response_hz,
    )


def _degree_finding(one: Degree) -> Finding:
    mean = one.average
    return Finding(
        "degree",
        SCHEMES[one.scheme].name,
        ear=one.ear,
        word=one.grade,
        could_be=one.could_be,
        number=one.graded_db_hl,
        unit=None if one.graded_db_hl is None else "dB HL",
        low=None if mean.span is None else mean.span.low,
        high=None if mean.span is None else mean.span.high,
        at_least=one.at_least,
        standing=standing_of(mean.ask_hz),
        rests_on=mean.ask_hz,
        missing_hz=mean.missing_hz,
        no_response_hz=mean.no_response_hz,
    )


_CHAPTERS: tuple[Chapter, ...] = (
    loss_type.conclude,
    configuration.conclude,
    symmetry.conclude,
    ageing.conclude,
    noise.conclude,
    handicap.conclude,
    audible_speech.conclude,
    gain.conclude,
    agreement.conclude,
    recognition.conclude,
    tympanogram.conclude,
    reflexes.conclude,
    otoacoustic.conclude,
    plausibility_of_tests.conclude,
    guidance.conclude,
    implant.conclude,
)
"""The parts after averages and degree, in order."""
