"""Where an implant evaluation may be discussed."""

from __future__ import annotations

import pytest
from invented_pages import asked, value
from invented_tests import words

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Side, Speech, Threshold

HZ = (500, 1000, 2000, 3000, 4000)


def row(ear: Side, *levels: float) -> tuple[Threshold, ...]:
    return tuple(value(ear, hz, db) for hz, db in zip(HZ, levels, strict=False))


def of(rule: str, values: tuple[Threshold, ...], *speech: Speech) -> list[Finding]:
    found = findings(Audiogram(thresholds=values, speech=speech)).of("implant-evaluation")
    return [one for one in found if one.rule.startswith(rule)]


# NICE TA566: 80 dB or more at two or more of 0.5, 1, 2, 3, 4 kHz in both ears. The first is the worked case.
@pytest.mark.parametrize(
    ("right", "left", "told"),
    [((75, 80, 85, 90, 95), (70, 85, 85, 90, 95), 1), ((75, 75, 75, 80, 80), (80, 80, 10, 10, 10), 1),
     ((75, 75, 75, 75, 80), (90, 90, 90, 90, 90), 0), ((90, 90, 90, 90, 90), (10, 10, 10, 10, 10), 0)],
)  # fmt: skip
def test_the_audiometric_part_of_the_british_criterion(
    right: tuple[float, ...], left: tuple[float, ...], told: int
) -> None:
    found = of("NICE TA566, audiometric part", (*row("right", *right), *row("left", *left)))
    assert [one.word for one in found] == ["met"] * told


def test_levels_that_were_not_heard_count_as_this_or_more() -> None:
    right = (value("right", 2000, 80, response=False), value("right", 4000, 80, response=False))
    assert [one.word for one in of("NICE TA566", (*right, *row("left", 90, 90, 90, 90, 90)))] == ["met"]


def test_a_value_to_look_at_could_meet_it() -> None:
    right = (value("right", 2000, 85), asked("right", 4000, 75, "faint"))
    [found] = of("NICE TA566", (*right, *row("left", 90, 90, 90, 90, 90)))
    assert (found.word, found.could_be, found.standing) == ("not met", ("not met", "met"), "ask")


# Zwolan et al. 2020 [memory]: better-ear average 60 dB or more and unaided word score 60 % or less.
@pytest.mark.parametrize(("level", "score", "told"), [(60, 60, 1), (55, 60, 0), (60, 62, 0), (75, 20, 1)])
def test_the_american_referral_criterion(level: float, score: float, told: int) -> None:
    values = (*row("right", level, level, level), *row("left", 90, 90, 90))
    found = of("60/60", values, words("right", score), words("left", 10))
    assert [one.word for one in found] == ["met"] * told


def test_without_a_word_score_of_the_better_ear_it_is_silent() -> None:
    values = (*row("right", 70, 70, 70), *row("left", 90, 90, 90))
    assert of("60/60", values, words("left", 10)) == []
