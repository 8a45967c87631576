"""SRT against the pure-tone average."""

from __future__ import annotations

from dataclasses import replace

import pytest
from invented_pages import asked, value
from invented_tests import srt

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Speech, Threshold

FLAT = tuple(value("right", hz, db) for hz, db in ((500, 30), (1000, 30), (2000, 30)))


def of(code: str, values: tuple[Threshold, ...], *speech: Speech) -> tuple[Finding, ...]:
    return findings(Audiogram(thresholds=values, speech=speech)).of(code)


# Brandy 2002, as commonly quoted [memory]: to 6 dB good, 7 to 12 fair, 13 or more poor; and within 10 dB.
@pytest.mark.parametrize(
    ("level", "brandy", "ten"),
    [(30, "good", "agrees"), (36, "good", "agrees"), (40, "fair", "agrees"), (42, "fair", "differs"),
     (43, "poor", "differs"), (24, "good", "agrees"), (15, "poor", "differs")],
)  # fmt: skip
def test_agreement_is_graded_by_two_rules(level: float, brandy: str, ten: str) -> None:
    first, second = of("srt-agreement", FLAT, srt("right", level))
    assert (first.word, second.word) == (brandy, ten)
    assert first.number == level - 30
    assert first.rule.startswith("Brandy 2002")


def test_where_the_curve_slopes_the_best_two_are_taken() -> None:
    # Fletcher 1950 [memory]: 0.5 and 1 kHz, (10 + 20) / 2 = 15; the average of all three is 30.
    sloping = (value("right", 500, 10), value("right", 1000, 20), value("right", 2000, 60))
    first, _ = of("srt-agreement", sloping, srt("right", 15))
    assert (first.word, first.number) == ("good", 0)
    assert "two-best" in first.rule


def test_no_average_or_no_srt_gives_no_agreement() -> None:
    assert of("srt-agreement", FLAT[:2], srt("right", 30)) == ()
    assert of("srt-agreement", FLAT, srt("left", 30)) == ()
    assert of("srt-agreement", FLAT, replace(srt("right", 30), aided=True)) == ()
    assert of("srt-agreement", FLAT, replace(srt("right", 100), response=False)) == ()


def test_an_average_with_a_value_to_look_at_says_what_the_agreement_could_be() -> None:
    # One of three open by 10 dB moves the average by 3.3 dB: a difference of 5 dB could be 8.3.
    values = (FLAT[0], asked("right", 1000, 30, "faint"), FLAT[2])
    first, _ = of("srt-agreement", values, srt("right", 35))
    assert (first.word, first.could_be, first.standing, first.rests_on) == ("good", ("good", "fair"), "ask", (1000,))
    assert (first.low, first.high) == (pytest.approx(1.667, abs=0.01), pytest.approx(8.333, abs=0.01))


def test_a_tone_that_was_not_heard_leaves_the_agreement_open_unless_it_is_poor_anyway() -> None:
    values = (value("left", 500, 100), value("left", 1000, 110), value("left", 2000, 120, response=False))
    assert of("srt-agreement", values, srt("left", 105))[0].word is None
    assert of("srt-agreement", values, srt("left", 60))[0].word == "poor"


def test_an_srt_far_better_than_the_tones_is_told() -> None:
    assert [one.word for one in of("srt-better-than-average", FLAT, srt("right", 15))] == ["met"]
    assert of("srt-better-than-average", FLAT, srt("right", 18)) == ()
    assert of("srt-better-than-average", FLAT, srt("right", 60)) == ()


def test_an_srt_to_look_at_may_be_far_better() -> None:
    [found] = of("srt-better-than-average", FLAT, srt("right", 25, standing="ask"))
    assert (found.word, found.could_be, found.standing) == ("not met", ("not met", "met"), "ask")
