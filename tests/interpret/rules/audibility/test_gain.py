"""NAL-R: the worked gains, and where it is not given."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Threshold
from octavo.interpret.rules.audibility.gain import NOT_FOR_CONDUCTIVE

PUBLISHED = Path(__file__).parents[3] / "published"


def standard(name: str) -> tuple[Threshold, ...]:
    with (PUBLISHED / "standard_audiograms_bisgaard2010.csv").open(encoding="utf-8", newline="") as rows:
        row = next(row for row in csv.DictReader(rows) if row.pop("name") == name)
    return tuple(value("left", float(hz.removeprefix("hz")), float(db)) for hz, db in row.items())


def gains(values: tuple[Threshold, ...]) -> dict[float | None, Finding]:
    return {one.frequency_hz: one for one in findings(Audiogram(thresholds=values)).of("gain-indication")}


# Byrne and Dillon 1986 as in a public reference implementation, worked by hand on the standard audiograms; N5 lies
# beyond the sum of 180 dB. Without bone the type cannot be told, so that the gains are given.
@pytest.mark.parametrize(
    ("name", "expected"),
    [("N3", (0.10, 9.10, 19.65, 20.75, 22.85, 24.40)), ("N5", (17.37, 27.92, 38.47, 38.02, 37.02, 37.02))],
)
def test_the_worked_gains(name: str, expected: tuple[float, ...]) -> None:
    found = gains(standard(name))
    told = [found[hz].number for hz in (250, 500, 1000, 2000, 4000, 6000)]
    assert told == pytest.approx(expected, abs=0.006)  # worked to 0.01 dB


def test_a_normal_ear_needs_none() -> None:
    assert gains(tuple(value("left", hz, 10) for hz in (500, 1000, 2000, 4000))) == {}


def test_a_conductive_loss_gets_no_gain_but_the_reason() -> None:
    bone = tuple(value("left", hz, 10, "bone", masked=True) for hz in (500, 1000, 2000))
    found = gains((*(value("left", hz, 45) for hz in (500, 1000, 2000)), *bone))
    assert [(one.number, one.word) for one in found.values()] == [(None, NOT_FOR_CONDUCTIVE)]


def test_a_frequency_that_was_not_heard_has_no_gain() -> None:
    values = (*(value("left", hz, 60) for hz in (500, 1000, 2000)), value("left", 4000, 110, response=False))
    assert sorted(hz for hz in gains(values) if hz) == [500, 1000, 2000]


def test_a_value_to_look_at_gives_the_range() -> None:
    values = (value("left", 500, 40), value("left", 1000, 40), asked("left", 2000, 40, "faint"))
    found = gains(values)[2000]
    # 10 dB change the mean's part by 0.5 and the frequency's own by 3.1 dB.
    assert found.number is not None
    assert found.high == pytest.approx(found.number + 3.6)
