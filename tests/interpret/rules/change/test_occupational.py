"""Shifts as the rules for noise at work count them: the worked example of appendix F, edges, and what doubt does."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.record import Threshold
from octavo.interpret.rules.change.occupational import (
    NIOSH,
    OSHA,
    OSHA_AGED,
    RECORDABLE,
    RECORDABLE_AGED,
    Aged,
    age_corrected,
    age_correction,
    age_value,
    shifts,
)
from octavo.interpret.rules.doubt import row_of

HZ = (1000, 2000, 3000, 4000, 6000)
# The example of 29 CFR 1910.95, appendix F (the same in 49 CFR 227, appendix F): right ear, male, ages 27 and 32.
BASELINE = tuple(value("right", hz, db) for hz, db in zip(HZ, (0, 0, 0, 5, 5), strict=True))
LATEST = tuple(value("right", hz, db) for hz, db in zip(HZ, (5, 10, 10, 25, 20), strict=True))
EXAMPLE = Aged("male", 27, 32)


def found(
    old: tuple[Threshold, ...] = BASELINE, new: tuple[Threshold, ...] = LATEST, aged: Aged | None = EXAMPLE
) -> dict[str, Finding]:
    return {one.rule: one for one in shifts(old, new, aged)}


def flat(level: float, *, response: bool = True) -> tuple[Threshold, ...]:
    return tuple(value("left", hz, level, response=response) for hz in (500, *HZ))


@pytest.mark.parametrize(("hz", "db"), list(zip(HZ, (1, 1, 1, 3, 3), strict=True)))
def test_the_correction_of_the_example(hz: float, db: float) -> None:
    # Row 32 less row 27 of table F-1; the row of 32 years at 6 kHz [memory].
    assert age_correction(EXAMPLE, hz) == db


def test_4_khz_of_the_example_is_22_after_the_correction_and_the_shift_17() -> None:
    # Worked from the regulation's own rows; the shift of 17 dB stands in the regulation [memory], of 20 without the
    # correction is in the text.
    corrected = age_corrected(row_of(LATEST, "right"), EXAMPLE)[4000].db_hl
    assert corrected == 22
    assert corrected - 5 == 17


def test_the_example_is_a_standard_threshold_shift_without_the_correction() -> None:
    # (10 + 10 + 25) / 3 - (0 + 0 + 5) / 3 = 15.00 - 1.67 = 13.33 dB.
    shift = found()[OSHA]
    assert (shift.code, shift.word) == ("standard-threshold-shift", "met")
    assert shift.number == pytest.approx(40 / 3)


def test_the_example_is_one_with_the_correction_too() -> None:
    # (9 + 9 + 22) / 3 - 1.67 = 11.67 dB.
    shift = found()[OSHA_AGED]
    assert shift.word == "met"
    assert shift.number == pytest.approx(35 / 3)


@pytest.mark.parametrize("rule", [RECORDABLE, RECORDABLE_AGED])
def test_the_example_is_not_recordable(rule: str) -> None:
    # The mean at 2, 3 and 4 kHz is 15 dB, under 25 (29 CFR 1904.10).
    assert (found()[rule].word, found()[rule].number) == ("not met", 15)


def test_niosh_finds_4_and_6_khz_in_the_example() -> None:
    # 20 dB at 4 kHz, 15 dB at 6 kHz. 500 Hz is not in the example.
    shift = found()[NIOSH]
    assert (shift.word, shift.numbers) == ("met", (("shift_db_at_4000_hz", 20), ("shift_db_at_6000_hz", 15)))


def test_without_sex_or_age_there_is_no_corrected_shift() -> None:
    assert OSHA_AGED not in found(aged=None)


@pytest.mark.parametrize(("level", "word"), [(9, "not met"), (10, "met")])
def test_a_mean_shift_of_exactly_10_db_is_one(level: float, word: str) -> None:
    assert found(flat(0), flat(level), None)[OSHA].word == word


@pytest.mark.parametrize(("old", "new", "word"), [(10, 24, "not met"), (14, 25, "met"), (20, 29, "not met")])
def test_recordable_needs_both_a_shift_and_25_db(old: float, new: float, word: str) -> None:
    assert found(flat(old), flat(new), None)[RECORDABLE].word == word


def test_the_25_db_are_never_corrected_for_age() -> None:
    # Male, 40 to 60 years: 7, 13 and 19 dB come off at 2, 3 and 4 kHz (table F-1 [memory]), 13 dB on average.
    recorded = found(flat(5), flat(28), Aged("male", 40, 60))
    assert (recorded[OSHA_AGED].word, recorded[OSHA_AGED].number) == ("met", 10)
    assert (recorded[RECORDABLE_AGED].word, recorded[RECORDABLE_AGED].number) == ("met", 28)


def test_a_missing_frequency_leaves_the_shift_open_and_is_named() -> None:
    shift = found(BASELINE, tuple(t for t in LATEST if t.frequency_hz != 3000), None)[OSHA]
    assert (shift.word, shift.missing_hz) == (None, (3000,))


def test_no_response_is_a_shift_at_least() -> None:
    shift = found(flat(50), flat(70, response=False), None)[OSHA]
    assert (shift.word, shift.high) == ("met", float("inf"))


def test_no_response_before_and_after_leaves_it_open() -> None:
    assert found(flat(70, response=False), flat(70, response=False), None)[OSHA].word is None


def test_a_value_to_look_at_could_turn_the_word() -> None:
    new = (*(value("left", hz, 10) for hz in (2000, 3000)), asked("left", 4000, 15, "faint"))
    shift = found(flat(0), new, None)[OSHA]
    assert (shift.word, shift.could_be) == ("met", ("not met", "met"))
    assert (shift.low, shift.high) == (pytest.approx(25 / 3), 15)


@pytest.mark.parametrize(("age", "row"), [(18, 20), (20, 20), (60, 60), (72, 60), (32.9, 32)])
def test_ages_beyond_the_table_take_its_ends_and_fractions_are_dropped(age: float, row: float) -> None:
    assert age_value("male", age, 4000) == age_value("male", row, 4000)
