"""A hand that parts angles from brackets badly is asked about all of them."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, row, sheet, sized

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean

OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
MISSED = (0.9, -1.1, 0.4, -0.7, 1.3, -0.3)
"""By so many decibels a hand misses its steps."""
BY_HAND = sized((
    *row("circle", {hz: step + off for hz, step, off in zip(OCTAVES, range(30, 60, 5), MISSED, strict=True)}, "red"),
    *row("cross", {hz: step + off for hz, step, off in zip(OCTAVES, range(50, 80, 5), MISSED, strict=True)}, "blue"),
))  # fmt: skip


@pytest.mark.parametrize(("untold", "angles", "asks"), [(3, True, True), (2, True, False), (3, False, False)])
def test_a_clear_bracket_asks_where_three_others_cannot_be_told_from_angles(
    untold: int, *, angles: bool, asks: bool
) -> None:
    # of four wrong bone marks of one hand three asked and the fourth, clear by itself, was surely masked
    blurred = [
        mark("bracket-right", hz, 10, "blue", score=0.6, rivals=(("angle-right", 0.35),), beside=0.15)
        for hz in (250, 500, 1000)[:untold]
    ]
    others = [mark("angle-right", hz, 20, "blue", beside=0.15) for hz in (1500, 2000, 3000) if angles]
    clear = mark("bracket-right", 4000, 10, "blue", score=0.85, beside=0.15)
    (reading,) = mean(
        sheet(), (), (chart(*BY_HAND, *sized((*blurred, *others, clear))),), Choices("asha-1990")
    ).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 4000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("told", "asks"), [(0, True), (1, False)])
def test_a_bone_mark_asks_where_the_others_of_its_few_could_not_be_told(told: int, *, asks: bool) -> None:
    # loops of crosses drawn in one stroke looked like three brackets: two asked, the third stood as sure
    scores = (0.75,) * told + (0.55,) * (2 - told)
    others = [
        mark("bracket-left", hz, 10, score=score, rivals=(("angle-left", 0.4 if score < 0.6 else 0.0),), beside=-0.15)
        for hz, score in zip((250, 500), scores, strict=True)
    ]
    clear = mark("bracket-left", 1000, 15, score=0.85, beside=-0.15)
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *sized((*others, clear))),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 1000)]
    assert ("low-certainty" in one.why_ask) == asks


@pytest.mark.parametrize(("hz", "asks"), [(1000, False), (750, True)])
def test_bone_where_a_hand_drew_no_air_asks(hz: int, *, asks: bool) -> None:
    # common practice: bone is tested where air was
    bone = [mark("angle-left", at, 10, "red", beside=-0.15) for at in (250, 500, 2000, hz)]
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *sized(bone)),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", hz)]
    assert ("implausible" in one.why_ask) == asks
