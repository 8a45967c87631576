"""Rings, corners and crossings-out that a pen or a stamp leaves on a chart, and that look like marks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet, sized

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 4000: 60}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45}, "blue")
BONE = row("angle-left", {250: 10, 500: 10, 1000: 20}, "red", beside=-0.15)


def at(marks: tuple[Mark, ...], conduction: str, hz: float) -> list[Threshold]:
    (reading,) = mean(sheet(), (), (chart(*sized(marks)),), Choices("asha-1990")).audiograms
    return [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == (conduction, hz) and t.ear != "left"]


@pytest.mark.parametrize(
    ("size", "score", "asks"), [(22.0, 0.7, True), (15.0, 0.7, False), (22.0, 0.9, False)],
    ids=["a ring", "as large as others", "a clear circle"],
)  # fmt: skip
def test_a_ring_around_a_mark_is_no_circle(size: float, score: float, asks: bool) -> None:
    # a pen had pointed out a bone mark: the ring stood as the right ear's air
    circle = mark("circle", 2000, 40, "red", score=score)
    (one,) = at((*RIGHT, *LEFT), "air", 4000)
    assert "two-readings" not in one.why_ask
    ring = replace(circle, sight=replace(circle.sight, size=(size, size)))
    (reading,) = mean(sheet(), (), (chart(*sized((*RIGHT, *LEFT)), ring),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.frequency_hz) == ("right", 2000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(
    ("score", "weak", "level", "asks"),
    [(0.68, 0.3, 35, True), (0.9, 0.3, 35, False), (0.68, 0.18, 35, False), (0.68, 0.3, 30.5, False)],
    ids=["the mark is hidden", "a clear one", "hardly a peak", "the same mark"],
)
def test_a_stray_above_a_mark_that_is_half_hidden_asks(score: float, weak: float, level: float, asks: bool) -> None:
    # the corner of a stamp stood for the bone mark that its frame ran through, 5 dB off
    stray = mark("angle-left", 2000, 30, "red", beside=-0.1, score=score)
    hidden = mark("angle-left", 2000, level, "red", beside=-0.12, score=weak)
    (one,) = at((*RIGHT, *LEFT, *BONE, stray, hidden), "bone", 2000)
    assert one.level_db_hl == 30
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("other", "asks"), [(0.5, True), (0.9, False)], ids=["faint company", "a second mark"])
def test_a_mark_whose_row_is_made_of_doubtful_ones_is_alone(other: float, asks: bool) -> None:
    # two zigzags through marks that were crossed out made a row of carets, one of them faint
    carets = (mark("caret", 500, 45, "red", score=0.9), mark("caret", 4000, 25, "red", score=other))
    (reading,) = mean(sheet(), (), (chart(*sized((*RIGHT, *LEFT)), *carets),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if t.level_db_hl == 45 and t.frequency_hz == 500]
    assert ("implausible" in one.why_ask) == asks


@pytest.mark.parametrize("both_ears", [False, True], ids=["a chart of the right ear", "a chart of both"])
def test_round_brackets_around_a_mark_are_no_bone(both_ears: bool) -> None:
    # whoever takes a mark back puts it in brackets: on a chart of the right ear "(" stood as its bone
    around = (mark("angle-left", 2000, 40, "red", beside=-0.18), mark("angle-right", 2000, 40, "red", beside=0.18))
    marks = (*RIGHT, *BONE, mark("circle", 2000, 40, "red"), *around, *(LEFT if both_ears else ()))
    asked = {
        t.conduction: "two-readings" in t.why_ask for hz in (2000,) for c in ("air", "bone") for t in at(marks, c, hz)
    }
    assert asked == {"air": not both_ears, "bone": not both_ears}


def test_bone_on_one_side_of_a_circle_is_in_no_brackets() -> None:
    marks = (*RIGHT, *BONE, mark("circle", 2000, 40, "red"), mark("angle-left", 2000, 40, "red", beside=-0.18))
    assert all("two-readings" not in t.why_ask for c in ("air", "bone") for t in at(marks, c, 2000))
