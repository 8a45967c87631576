"""Printed averages against values; the arithmetic is by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from octavo.extract.crosscheck import against_averages
from octavo.interpret.record import Audiogram, PrintedAverage, Standing, Threshold

LEVELS = {500.0: 20.0, 1000.0: 30.0, 2000.0: 45.0}  # mean 31.67
AVERAGE = PrintedAverage("right", (500.0, 1000.0, 2000.0), 32.0, standing="sure", probability=0.99)


def audiogram(average: PrintedAverage, *more: Threshold) -> Audiogram:
    values = tuple(Threshold("right", "air", False, hz, level, standing="sure") for hz, level in LEVELS.items())
    return Audiogram(thresholds=(*values, *more), printed_averages=(average,))


@pytest.mark.parametrize("level", [31.0, 31.7, 32.0])
def test_an_average_that_fits_rounded_or_cut_leaves_all_as_it_is(level: float) -> None:
    before = audiogram(replace(AVERAGE, level_db_hl=level))
    assert against_averages(before) == before


def test_an_average_that_does_not_fit_makes_its_values_and_itself_ask() -> None:
    other = Threshold("left", "air", False, 500.0, 90.0, standing="sure")
    after = against_averages(audiogram(replace(AVERAGE, level_db_hl=37.0), other))
    assert [t.standing for t in after.thresholds] == ["ask", "ask", "ask", "sure"]
    assert after.thresholds[0].why_ask == ("printed-average-differs",)
    assert after.printed_averages[0].standing == "ask"


def test_an_average_in_doubt_doubts_no_value() -> None:
    after = against_averages(audiogram(replace(AVERAGE, level_db_hl=37.0, standing="ask")))
    assert {t.standing for t in after.thresholds} == {"sure"}


def test_the_masked_value_counts_before_the_unmasked_one() -> None:
    masked = Threshold("right", "air", True, 2000.0, 60.0, standing="sure")  # (20 + 30 + 60) / 3 = 36.67
    assert against_averages(audiogram(replace(AVERAGE, level_db_hl=37.0), masked)).thresholds[0].standing == "sure"


def test_values_not_heard_or_missing_say_nothing() -> None:
    before = audiogram(replace(AVERAGE, frequencies_hz=(500.0, 1000.0, 4000.0), level_db_hl=60.0))
    assert against_averages(before) == before
    unheard = audiogram(replace(AVERAGE, level_db_hl=90.0))
    unheard = replace(unheard, thresholds=tuple(replace(t, response=False) for t in unheard.thresholds))
    assert against_averages(unheard) == unheard


@pytest.mark.parametrize(
    ("level", "standing", "expected"),
    [
        (31.7, "sure", "sure"),
        (32.0, "sure", "sure"),
        (31.0, "sure", "sure"),
        (31.2, "sure", "ask"),
        (31.7, "ask", "ask"),
    ],
)
def test_an_average_that_sure_values_give_to_its_digits_was_read_right(
    level: float, standing: Standing, expected: Standing
) -> None:
    asking = replace(AVERAGE, level_db_hl=level, standing="ask", why_ask=("low-certainty",), probability=0.9)
    before = audiogram(asking)
    values = tuple(replace(value, standing=standing) for value in before.thresholds)
    (after,) = against_averages(replace(before, thresholds=values)).printed_averages
    assert after.standing == expected


def test_an_average_in_doubt_for_more_than_its_letters_still_asks() -> None:
    asking = replace(AVERAGE, standing="ask", why_ask=("ear-uncertain", "low-certainty"), probability=0.5)
    assert against_averages(audiogram(asking)).printed_averages[0].standing == "ask"
