"""Invented records for the tests: pages of the Harbour Lane clinic, which does not exist."""

from __future__ import annotations

from octavo.interpret.reasons import remark
from octavo.interpret.record import (
    Audiogram,
    Chart,
    Conduction,
    Ear,
    FrequencyAxis,
    LevelAxis,
    PageRecord,
    Remark,
    Report,
    Seen,
    Source,
    Threshold,
)

SHA = "5e" * 32


def value(
    ear: Ear, hz: float, level: float, conduction: Conduction = "air", *, masked: bool = False, response: bool = True
) -> Threshold:
    """One value that stands as sure."""
    return Threshold(ear, conduction, masked, hz, level, response=response, standing="sure", probability=0.9999)


def asked(
    ear: Ear, hz: float, level: float, *why: str, conduction: Conduction = "air", masked: bool = False
) -> Threshold:
    """One value that a person must look at, seen at a place of the page."""
    seen = Seen(0, (0.31, 0.37), hz * 1.004, level - 0.4)
    return Threshold(ear, conduction, masked, hz, level, probability=0.81, why_ask=why, seen=seen)


def page(*audiograms: Audiogram, report: Report | None = None, remarks: tuple[Remark, ...] = ()) -> PageRecord:
    """A page of the invented clinic with these audiograms."""
    source = Source("harbour-lane-07.tif", SHA, 2, 3, "scan")
    asks = any(t.standing == "ask" for audiogram in audiograms for t in audiogram.thresholds)
    return PageRecord(source, "ask" if asks else "sure", audiograms, report or Report(), remarks)


def chart() -> Chart:
    """A chart in the left half of a page."""
    corners = ((0.08, 0.21), (0.52, 0.21), (0.52, 0.64), (0.08, 0.64))
    frequency = FrequencyAxis("log", (125.0, 8000.0), ((0.1, 0.23), (0.5, 0.23)), 7, 0.004)
    level = LevelAxis("linear", (-10.0, 120.0), ((0.1, 0.23), (0.1, 0.62)), 14, 0.3)
    return Chart(corners, frequency, level)


def rich_page() -> PageRecord:
    """A page with most of what a page can hold: masking, no response, doubts, a loudspeaker, two dates, remarks."""
    right = (
        *(value("right", hz, db) for hz, db in ((250, 20), (500, 25), (1000, 30), (2000, 45), (3000, 55))),
        asked("right", 4000, 60, "marks-overlap", "faint"),
        value("right", 8000, 70),
        *(value("right", hz, db, "bone") for hz, db in ((500, 20), (1000, 30), (2000, 45))),
    )
    left = (
        *(value("left", hz, db) for hz, db in ((250, 65), (500, 75), (1000, 85))),
        value("left", 1000, 95, masked=True),
        value("left", 2000, 105),
        value("left", 4000, 120, response=False),
        asked("left", 8000, 100, "arrow-uncertain"),
        *(value("left", hz, db, "bone", masked=True, response=False) for hz, db in ((500, 60), (1000, 70))),
        value("both", 1000, 30, "field"),
    )
    first = Audiogram("2019-03-14", "asha-1990", (chart(), chart()), (*right, *left))
    second = Audiogram(None, None, (chart(),), tuple(value("right", hz, 20) for hz in (500, 1000, 2000, 4000)))
    remarks = (
        remark("missing-expected", ear="left", conduction="bone", frequency_hz=2000, chart=1),
        remark("skewed"),
    )
    report = Report(patient="Ines Invented", born="1950-02-01", transducer="inserts", reliability="good")
    return page(first, second, report=report, remarks=remarks)
