"""Notches by several criteria: the worked case, and what each needs."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.record import Threshold
from octavo.interpret.rules.doubt import row_of
from octavo.interpret.rules.shape.notch import NOTCH_RULES, notches

HZ = (500, 1000, 2000, 3000, 4000, 6000, 8000)
NOTCHED = tuple(value("right", hz, db) for hz, db in zip(HZ, (10, 10, 10, 25, 45, 35, 20), strict=True))
# Standard audiogram S1 (Bisgaard 2010) with 70 dB at 8 kHz.
SLOPING = tuple(value("right", hz, db) for hz, db in zip(HZ, (10, 10, 10, 30, 55, 70, 70), strict=True))


def judged(values: tuple[Threshold, ...]) -> dict[str, Finding]:
    return {one.rule: one for one in notches(row_of(values, "right"), "right")}


# Worked by hand: Wilson and McArdle 4 kHz +35 dB below, +25 dB above; index 26.67 - 15.
# Coles, Niskar and Hoffman [memory].
@pytest.mark.parametrize("rule", [rule.name for rule in NOTCH_RULES])
def test_the_worked_notch_is_one_by_every_criterion(rule: str) -> None:
    assert judged(NOTCHED)[rule].word == "met"


@pytest.mark.parametrize("rule", [rule.name for rule in NOTCH_RULES if not rule.name.startswith("notch index")])
def test_a_slope_to_8_khz_is_none(rule: str) -> None:
    assert judged(SLOPING)[rule].word == "not met"


def test_the_notch_index_of_the_worked_case() -> None:
    # mean(10, 25, 45) - mean(10, 20) = 26.67 - 15.
    assert judged(NOTCHED)["notch index, Rabinowitz and Dobie 2003"].number == pytest.approx(11.67, abs=0.005)


def test_the_notch_index_of_the_slope_is_negative() -> None:
    # mean(10, 30, 55) - mean(10, 70) = 31.67 - 40.
    found = judged(SLOPING)["notch index, Rabinowitz and Dobie 2003"]
    assert found.number == pytest.approx(-8.33, abs=0.005)
    assert found.word == "not met"


@pytest.mark.parametrize("rule", [rule.name for rule in NOTCH_RULES])
def test_without_8_khz_no_criterion_is_applied(rule: str) -> None:
    found = judged(NOTCHED[:-1])[rule]
    assert (found.word, 8000 in found.missing_hz) == (None, True)


def test_8_khz_not_heard_denies_the_recovery() -> None:
    silent = (*NOTCHED[:-1], value("right", 8000, 80, response=False))
    assert judged(silent)["Wilson and McArdle 2013"].word == "not met"


def test_8_khz_not_heard_at_a_low_level_leaves_it_open() -> None:
    silent = (*NOTCHED[:-1], value("right", 8000, 30, response=False))
    assert judged(silent)["Wilson and McArdle 2013"].word is None


def test_a_value_to_look_at_could_turn_the_word() -> None:
    values = (*NOTCHED[:4], asked("right", 4000, 25, "faint"), value("right", 6000, 20), value("right", 8000, 20))
    found = judged(values)["Wilson and McArdle 2013"]
    assert (found.word, found.could_be, found.standing) == ("not met", ("not met", "met"), "ask")
