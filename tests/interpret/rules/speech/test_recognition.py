"""Word recognition: grades, ears, time, rollover."""

from __future__ import annotations

from dataclasses import replace

import pytest
from invented_pages import value
from invented_tests import words

from octavo.interpret.finding import Finding
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Speech, Threshold
from octavo.interpret.rules.speech.recognition import changes


def of(code: str, *speech: Speech, values: tuple[Threshold, ...] = ()) -> tuple[Finding, ...]:
    return findings(Audiogram(thresholds=values, speech=speech)).of(code)


# After Goetzinger 1978 [memory; edges differ between books]: 90-100, 76-88, 60-74, 50-58, below 50.
@pytest.mark.parametrize(
    ("score", "grade"),
    [(100, "excellent"), (90, "excellent"), (88, "good"), (76, "good"), (74, "fair"), (60, "fair"), (58, "poor"),
     (50, "poor"), (48, "very poor"), (0, "very poor")],
)  # fmt: skip
def test_scores_are_graded(score: float, grade: str) -> None:
    [found] = of("word-recognition", words("right", score))
    assert (found.word, found.number, found.unit) == (grade, score, "%")


def test_a_grade_names_the_scores_that_chance_alone_may_give() -> None:
    # Thornton and Raffin 1978: 80 % of 50 words, 64 to 92.
    [found] = of("word-recognition", words("right", 80))
    assert (found.named("alike_from_percent"), found.named("alike_to_percent")) == (64, 92)


def test_a_score_to_look_at_may_be_any() -> None:
    [found] = of("word-recognition", words("left", 92, standing="ask"))
    assert (found.word, len(found.could_be), found.low, found.high) == ("excellent", 5, 0, 100)


def test_aided_scores_and_scores_in_noise_are_left_aside() -> None:
    one = words("right", 92)
    assert of("word-recognition", replace(one, aided=True), replace(one, snr_db=5), replace(one, phonemes=True)) == ()


# Thornton and Raffin 1978, 50 words: 80 is alike to 64-92; 25 words: 80 to 56-96.
@pytest.mark.parametrize(
    ("right", "left", "n", "word"),
    [(80, 76, 50, "not different"), (80, 58, 50, "different"), (80, 62, 50, "borderline"),
     (80, 64, 25, "not different")],
)  # fmt: skip
def test_ears_are_compared_by_the_binomial_table(right: float, left: float, n: int, word: str) -> None:
    [found] = of("word-recognition-between-ears", words("right", right, of=n), words("left", left, of=n))
    assert (found.word, found.ear, found.number) == (word, "left", left - right)


def test_equal_scores_name_no_worse_ear() -> None:
    [found] = of("word-recognition-between-ears", words("right", 88), words("left", 88))
    assert (found.word, found.ear) == ("not different", "both")


def test_without_the_number_of_words_no_difference_is_claimed() -> None:
    [found] = of("word-recognition-between-ears", words("right", 100, of=None), words("left", 20))
    assert (found.word, found.number) == (None, -80)


def test_a_change_over_time_is_judged_by_the_same_table() -> None:
    old, new = (Audiogram(speech=(words("right", score),)) for score in (92, 70))
    [found] = changes(old, new)
    # 50 words, 92 %: 78 to 98 (Thornton and Raffin 1978).
    assert (found.word, found.number, found.ear) == ("different", -22, "right")


def test_a_score_far_below_what_a_mild_loss_lets_expect_is_told() -> None:
    # A textbook chapter names 68 % at an average of 35 dB a warning sign.
    mild = tuple(value("right", hz, 35) for hz in (500, 1000, 2000))
    assert [one.word for one in of("word-recognition-below-expected", words("right", 68), values=mild)] == ["met"]
    assert of("word-recognition-below-expected", words("right", 88), values=mild) == ()
    severe = tuple(value("right", hz, 75) for hz in (500, 1000, 2000))
    assert of("word-recognition-below-expected", words("right", 68), values=severe) == ()


def rollover_of(*levels: tuple[float, float]) -> dict[str, Finding]:
    scores = (words("right", score, at=level) for level, score in levels)
    return {one.rule: one for one in of("rollover", *scores)}


# The case of a textbook chapter, 72 falling to 30: (72 - 30) / 72 = 0.583; and worked by hand.
@pytest.mark.parametrize(("best", "least", "index"), [(72, 30, 0.5833), (80, 40, 0.5), (92, 76, 0.1739)])
def test_rollover_index(best: float, least: float, index: float) -> None:
    found = rollover_of((60, best), (90, least))
    assert {round(one.number or 0, 4) for one in found.values()} == {index}


def test_rollover_is_judged_by_four_named_limits() -> None:
    found = rollover_of((60, 80), (90, 48))
    # Index 0.40: above 0.35 and 0.25, not above 0.4 or 0.45.
    assert [one.word for one in found.values()] == ["not met", "not met", "met", "met"]


def test_rollover_needs_scores_that_differ_by_more_than_chance() -> None:
    found = [one.word for one in of("rollover", words("right", 40, of=10, at=60), words("right", 20, of=10, at=90))]
    assert found == ["not met"] * 4


def test_a_score_that_is_lower_at_a_lower_level_is_no_rollover() -> None:
    assert rollover_of((40, 30), (70, 80)) == {}
