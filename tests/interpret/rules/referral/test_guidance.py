"""Patterns that guidance says should be seen, at their published edges."""

from __future__ import annotations

import pytest
from invented_pages import asked, value
from invented_tests import words

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Side, Threshold
from octavo.interpret.settings import Settings


def row(ear: Side, levels: dict[int, float], *, bone: bool = False) -> tuple[Threshold, ...]:
    kind = "bone" if bone else "air"
    return tuple(value(ear, hz, db, kind, masked=bone) for hz, db in levels.items())


def of(code: str, values: tuple[Threshold, ...], settings: Settings | None = None) -> tuple[Finding, ...]:
    return findings(Audiogram(thresholds=values), settings).of(code)


def test_the_size_of_a_sudden_loss_is_30_db_at_three_consecutive_frequencies() -> None:
    # AAO-HNSF guideline 2019; the worked case: differences of 35, 40, 40, 40 dB at 0.5, 1, 2, 4 kHz.
    right = row("right", {500: 45, 1000: 50, 2000: 55, 4000: 60})
    left = row("left", {500: 10, 1000: 10, 2000: 15, 4000: 20})
    assert [(one.ear, one.word) for one in of("refer-if-sudden", (*right, *left))] == [("right", "met")]


@pytest.mark.parametrize(
    ("levels", "told"),
    [({500: 40, 1000: 40, 2000: 40}, 1), ({500: 40, 1000: 35, 2000: 40}, 0), ({500: 40, 1000: 40}, 0),
     ({500: 40, 1000: 10, 2000: 40, 4000: 40}, 0)],
)  # fmt: skip
def test_the_edges_of_a_sudden_loss(levels: dict[int, float], told: int) -> None:
    left = row("left", dict.fromkeys(levels, 10.0))
    assert len(of("refer-if-sudden", (*row("right", levels), *left))) == told


def test_a_value_to_look_at_could_make_the_size_of_a_sudden_loss() -> None:
    right = (*row("right", {500: 40, 1000: 40}), asked("right", 2000, 35, "faint"))
    [found] = of("refer-if-sudden", (*right, *row("left", {500: 10, 1000: 10, 2000: 10})))
    assert (found.word, found.could_be, found.standing, found.rests_on) == (
        "not met",
        ("not met", "met"),
        "ask",
        (2000,),
    )


def test_asymmetry_that_should_be_seen_is_that_of_nice() -> None:
    # NICE NG98, 1.3.2, as quoted: 15 dB or more at two adjacent of 0.5, 1, 2, 4, 8 kHz.
    right = row("right", {500: 10, 1000: 25, 2000: 25, 4000: 20})
    left = row("left", {500: 10, 1000: 10, 2000: 10, 4000: 20})
    assert [one.ear for one in of("refer-asymmetry", (*right, *left))] == ["right"]
    assert of("refer-asymmetry", (*row("right", {500: 10, 1000: 25, 2000: 20, 4000: 35}), *left)) == ()


# WHO 2021, as commonly quoted [memory]: better ear below 20, worse ear 35 or more.
@pytest.mark.parametrize(("worse", "better", "told"), [(35, 15, 1), (30, 15, 0), (35, 20, 0)])
def test_a_one_sided_loss_should_be_seen(worse: float, better: float, told: int) -> None:
    hz = (500, 1000, 2000, 4000)
    values = (*row("left", dict.fromkeys(hz, worse)), *row("right", dict.fromkeys(hz, better)))
    assert [one.ear for one in of("refer-one-sided", values)] == ["left"] * told


# 21 CFR 801.420(c)(3): a gap of 15 dB or more at 500, 1000 and 2000 Hz; the worked cases 20/20/20 and 20/20/10.
@pytest.mark.parametrize(("last", "told"), [(20, 1), (15, 1), (10, 0)])
def test_a_gap_at_all_three_frequencies_should_be_seen(last: float, told: int) -> None:
    air = row("right", {500: 30, 1000: 30, 2000: 30})
    bone = row("right", {500: 10, 1000: 10, 2000: 30 - last}, bone=True)
    assert len(of("refer-gap", (*air, *bone))) == told


def test_without_bone_at_all_three_the_gap_rule_is_silent() -> None:
    air = row("right", {500: 30, 1000: 30, 2000: 30})
    assert of("refer-gap", (*air, *row("right", {500: 0, 1000: 0}, bone=True))) == ()


@pytest.mark.parametrize(("age", "told"), [(17.9, 1), (18, 0), (None, 0)])
def test_a_child_sees_a_doctor_first(age: float | None, told: int) -> None:
    # 21 CFR 801.422.
    assert len(of("refer-child", row("right", {1000: 30}), Settings(age_years=age))) == told


# A difference of 15 % as quoted with MRI guidance, and beyond chance: Thornton and Raffin 1978, 50 words.
@pytest.mark.parametrize(("left", "n", "told"), [(70, 50, 1), (80, 50, 0), (80, 10, 0), (70, 10, 0)])
def test_word_scores_should_be_seen_where_chance_does_not_explain_them(left: float, n: int, told: int) -> None:
    speech = (words("right", 94 if n == 50 else 90, of=n), words("left", left, of=n))
    assert len(findings(Audiogram(speech=speech)).of("refer-word-scores")) == told


def test_ears_that_hear_alike_and_well_give_no_referral() -> None:
    hz = (250, 500, 1000, 2000, 4000, 8000)
    values = (*row("right", dict.fromkeys(hz, 10)), *row("left", dict.fromkeys(hz, 10)))
    found = findings(Audiogram(thresholds=values), Settings(age_years=40)).found
    assert [one.code for one in found if one.code.startswith(("refer", "implant"))] == []


# NICE NG98, 1.1.2: within 24 hours where it began in the last 30 days, else within 2 weeks.
@pytest.mark.parametrize(("days", "word"), [(1, "within 24 hours"), (30, "within 24 hours"), (31, "within 2 weeks")])
def test_a_loss_that_came_suddenly_has_its_time(days: float, word: str) -> None:
    found = of("refer-sudden", row("right", {1000: 30}), Settings(sudden_days_ago=days))
    assert [(one.word, one.ear) for one in found] == [(word, "both")]
    assert of("refer-sudden", row("right", {1000: 30})) == ()
