"""Handicap by formula: the worked percentages and BIAP's weighted average."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.record import Ear, Threshold
from octavo.interpret.rules.population.handicap import biap_mean, binaural_percent, handicaps, monaural_percent

HZ = (500, 1000, 2000, 3000, 4000)
AAO = "AAO/AMA 1979"


def flat(ear: Ear, level: float, *, response: bool = True) -> tuple[Threshold, ...]:
    return tuple(value(ear, hz, level, response=response) for hz in HZ)


def of(values: tuple[Threshold, ...], ear: Ear, rule: str = AAO) -> Finding:
    return next(one for one in handicaps(values) if (one.ear, one.rule) == (ear, rule))


# First row: abstract of a compensation textbook and Dobie's answer on percentage of hearing loss. The others by hand.
@pytest.mark.parametrize(
    ("right", "left", "percents"),
    [
        (30, 40, (7.5, 22.5, 10.0)),
        (25, 92, (0, 100, 16.67)),
        (45, 45, (30, 30, 30.0)),
        (20, 70, (0, 67.5, 11.25)),
        (60, 100, (52.5, 100, 60.42)),
    ],
)
def test_the_worked_percentages(right: float, left: float, percents: tuple[float, ...]) -> None:
    values = (*flat("right", right), *flat("left", left))
    found = [of(values, ear).number for ear in ("right", "left", "both")]
    assert found == pytest.approx(percents, abs=0.005)


def test_biap_weighs_the_better_ear_7_to_3() -> None:
    # BIAP 02/1 bis: 30 and 60 dB give 39 dB, mild.
    assert biap_mean(60, 30) == 39
    found = next(one for one in handicaps((*flat("right", 60), *flat("left", 30))) if one.code == "handicap-biap")
    assert (found.number, found.word) == (39, "mild")


def test_ama_1959_leaves_3_khz_out() -> None:
    values = (*(value("right", hz, 45) for hz in (500, 1000, 2000)), value("right", 3000, 90))
    assert of(values, "right", "AMA 1959, with the low fence of 25 dB HL").number == 30
    assert of(values, "right").number == pytest.approx(46.875)


def test_a_missing_frequency_leaves_no_percentage_and_is_named() -> None:
    found = of(tuple(t for t in flat("right", 40) if t.frequency_hz != 3000), "right")
    assert (found.number, found.missing_hz) == (None, (3000,))


def test_no_response_is_at_least() -> None:
    values = (*flat("right", 60)[:3], value("right", 3000, 80, response=False))
    found = of(values, "right")
    assert (found.at_least, found.number, found.high) == (True, 60, 100)


def test_a_value_to_look_at_gives_the_range() -> None:
    values = (*flat("right", 45)[:3], asked("right", 3000, 45, "faint"))
    found = of(values, "right")
    # 10 dB at one of four frequencies are 2.5 dB of the average, 3.75 %.
    assert (found.low, found.number, found.high) == (26.25, 30, 33.75)


PERCENT = st.floats(0, 100)


@given(st.floats(-10, 130), st.floats(-10, 130))
def test_a_worse_average_never_has_a_lower_percentage(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert 0 <= monaural_percent(low) <= monaural_percent(high) <= 100


@given(PERCENT, PERCENT)
def test_both_ears_lie_between_the_two(one: float, other: float) -> None:
    assert min(one, other) - 1e-9 <= binaural_percent(one, other) <= max(one, other) + 1e-9
    assert binaural_percent(one, other) == binaural_percent(other, one)
