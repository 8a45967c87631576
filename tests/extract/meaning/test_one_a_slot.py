"""Of two marks that mean one value, which stands."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.interpret.record import AxisScale, Ear, Threshold

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 60, 8000: 65}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}, "blue")


def at(reading: Reading, ear: Ear, hz: float, level: float) -> Threshold:
    found = reading.audiograms[0].thresholds
    (one,) = [t for t in found if (t.ear, t.frequency_hz, t.level_db_hl) == (ear, hz, level)]
    return one


@pytest.mark.parametrize(("scale", "beside", "asks"), [("log", 0.3, False), ("equal", 0.3, True), ("log", 0.05, True)])
def test_of_two_marks_that_read_as_one_frequency_one_on_its_label_stands_and_the_other_is_told(
    scale: AxisScale, beside: float, asks: bool
) -> None:
    # seen where the label of 12,500 Hz was lost: its mark passed for a second one of the last frequency read
    level = 50 if beside == 0.3 else 65
    twice = (mark("cross", 8000, 50, "blue"), mark("cross", 8000, level, "blue", beside=beside))
    made = chart(*RIGHT, *LEFT[:5], *twice)
    made = replace(made, frequency=replace(made.frequency, scale=scale))
    reading = mean(sheet(), (), (made,), Choices())
    one = at(reading, "left", 8000, 50)
    assert ("two-readings" in one.why_ask) == asks
    assert ("left", "air") in {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}


@pytest.mark.parametrize(("score", "level", "asks"), [(0.6, 60, False), (0.85, 60, True), (0.6, 22.7, True)])
def test_of_two_marks_at_one_frequency_a_much_clearer_one_stands_unless_they_touch(
    score: float, level: float, asks: bool
) -> None:
    # a letter or lines that cross, far up the column of a clear mark, made it ask
    other = mark("circle", 1000, level, "red", score=score)
    reading = mean(sheet(), (), (chart(*RIGHT, *LEFT, other),), Choices())
    one = at(reading, "right", 1000, 20)
    assert ("two-readings" in one.why_ask) == asks
    assert ("right", "air") in {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}
