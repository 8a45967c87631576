"""What a page says around its charts, in words; who the patient is stands in ``whose``."""

from __future__ import annotations

from collections.abc import Iterator

from ..exports.threshold_table import Signs
from ..reasons import REASONS
from ..record import Fact, FactName, Report

NAMES: dict[FactName, str] = {
    "patient-name": "Patient's name",
    "record-number": "Record number",
    "birth-date": "Birth date",
    "age": "Age",
    "sex": "Sex",
    "page-number": "Page number as printed",
    "test-date": "Test date",
    "test-time": "Test time",
    "tester": "Tester",
    "place": "Place",
    "audiometer": "Audiometer",
    "calibration-date": "Calibrated on",
    "transducer": "Earphone",
    "reliability": "Reliability as stated",
    "reason": "Reason",
    "note": "Notes",
}
OF_THE_PATIENT: frozenset[FactName] = frozenset({"patient-name", "record-number", "birth-date", "sex"})
"""Facts whose values a summary leaves out: they would name the patient."""


def facts_told(report: Report, signs: Signs) -> str | None:
    """Say what the page states, the values that a person must check marked.

    Parameters
    ----------
    report : Report
        The page's facts; of a record without them, its transducer and reliability.
    signs : Signs
        The sign of a value that asks.

    Returns
    -------
    str or None
        One line without a full stop, no fact of the patient in it; None where there is nothing to tell.
    """
    told = [
        f"{NAMES[fact.name]}: {fact.value}{signs.ask if fact.standing == 'ask' else ''}"
        for fact in sorted(report.facts, key=lambda fact: list(NAMES).index(fact.name))
        if fact.name not in OF_THE_PATIENT
    ]
    if not report.facts:
        about: tuple[tuple[FactName, str | None], ...] = (
            ("transducer", report.transducer),
            ("reliability", report.reliability),
        )
        told = [f"{NAMES[name]}: {text}" for name, text in about if text]
    return "; ".join(told) or None


def facts_to_check(report: Report) -> Iterator[str]:
    """Name every fact that asks, with the reason and its place; the patient's without their values."""
    for fact in report.facts:
        if fact.standing != "ask":
            continue
        why = "; ".join(REASONS[code].name if code in REASONS else code for code in fact.why_ask or ("low-certainty",))
        value = "" if fact.name in OF_THE_PATIENT else f", {fact.value}"
        yield f"{NAMES[fact.name]}{value}{_place(fact)}: {why}"


def _place(fact: Fact) -> str:
    return f" ({fact.box[0]:.0%} across, {fact.box[1]:.0%} down)" if fact.box else ""
