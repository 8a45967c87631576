"""Tests of one person against each other: the words for a change, the order of the tests, the ages."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import asked, page, value

from octavo.interpret.errors import MisuseError
from octavo.interpret.finding import Finding
from octavo.interpret.record import Audiogram, Fact, PageRecord, Report, Threshold
from octavo.interpret.rules.change.comparison import compare, sittings_of
from octavo.interpret.rules.change.occupational import OSHA_AGED
from octavo.interpret.rules.change.retest import WORDS, changes, word_of
from octavo.interpret.settings import Settings, Sex


def right(*levels: float) -> tuple[Threshold, ...]:
    return tuple(value("right", hz, db) for hz, db in zip((500, 1000, 2000, 4000), levels, strict=False))


def of(old: tuple[Threshold, ...], new: tuple[Threshold, ...], code: str = "threshold-change") -> list[Finding]:
    return [one for one in changes(old, new) if one.code == code]


def sheet(date: str | None, *levels: float, file: str = "a.pdf", born: str | None = None) -> PageRecord:
    record = page(Audiogram(date, thresholds=right(*levels)), report=Report(born=born))
    return replace(record, source=replace(record.source, name=file, sha256=file[0] * 64))


# Common practice [memory]: 5 dB is noise, 10 dB at one frequency doubtful, 15 dB a change.
@pytest.mark.parametrize(
    ("change", "word"),
    [(-15, "better"), (-10, "perhaps better"), (-5, "within retest"), (0, "within retest"), (5, "within retest"),
     (10, "perhaps worse"), (15, "worse")],
)  # fmt: skip
def test_the_word_for_a_change(change: float, word: str) -> None:
    assert of(right(40), right(40 + change))[0].word == word


@pytest.mark.parametrize(("new", "word"), [(49, "within retest"), (50, "worse"), (30, "better")])
def test_10_db_on_the_mean_is_a_change(new: float, word: str) -> None:
    assert of(right(40, 40, 40, 40), right(new, new, new, new), "average-change")[0].word == word


def test_a_mean_that_lacks_a_frequency_in_either_test_is_not_given() -> None:
    found = of(right(40, 40, 40, 40), right(40, 40, 40), "average-change")[0]
    assert (found.word, found.missing_hz) == (None, (4000,))


def test_no_response_now_is_worse_at_least() -> None:
    found = of(right(80), (value("right", 500, 100, response=False),))[0]
    assert (found.word, found.at_least, found.high) == ("worse", True, float("inf"))


def test_no_response_both_times_tells_nothing() -> None:
    silent = (value("right", 500, 100, response=False),)
    assert of(silent, silent)[0].word is None


def test_a_value_to_look_at_gives_every_word_that_could_be() -> None:
    found = of(right(40), (asked("right", 500, 45, "faint"),))[0]
    assert (found.word, found.could_be) == ("within retest", ("within retest", "perhaps worse", "worse"))


def test_tests_are_taken_by_date() -> None:
    tests = sittings_of((sheet("2021-05-02", 40), sheet("2019-03-14", 30, file="b.pdf")))
    assert [test.tested_on for test in tests] == ["2019-03-14", "2021-05-02"]


def test_without_a_date_the_order_given_counts() -> None:
    tests = sittings_of((sheet("2021-05-02", 40), sheet(None, 30, file="b.pdf")))
    assert [test.file for test in tests] == ["a.pdf", "b.pdf"]


def test_two_ears_on_two_pages_of_one_file_are_one_test() -> None:
    left = page(Audiogram("2021-05-02", thresholds=(value("left", 500, 20),)))
    same = replace(left, source=replace(left.source, name="a.pdf", sha256="a" * 64))
    tests = sittings_of((sheet("2021-05-02", 40), same))
    assert [len(test.audiogram.thresholds) for test in tests] == [2]


def test_one_test_cannot_be_compared() -> None:
    with pytest.raises(MisuseError, match="1 test was found and a comparison needs two"):
        compare(sittings_of((sheet("2021-05-02", 40),)))


def test_ages_come_from_the_birth_date_of_any_page() -> None:
    tests = sittings_of((sheet("2019-03-14", 40), sheet("2021-03-14", 40, file="b.pdf", born="1979-03-14")))
    found = compare(tests)[0]
    assert (found.old_age_years, found.new_age_years) == (pytest.approx(40, abs=0.01), pytest.approx(42, abs=0.01))


def test_the_age_correction_waits_for_the_sex() -> None:
    values = tuple(value("right", hz, 20) for hz in (2000, 3000, 4000))
    records = [
        page(Audiogram(date, thresholds=values), report=Report(born="1979-03-14"))
        for date in ("2019-01-01", "2021-01-01")
    ]
    given: tuple[tuple[Sex | None, bool], ...] = ((None, False), ("male", True))
    for sex, given_ in given:
        found = compare(sittings_of(records), Settings(sex=sex))[0].found
        assert (OSHA_AGED in {one.rule for one in found}) is given_


@given(st.floats(-130, 130), st.floats(-130, 130))
def test_a_greater_change_never_has_a_better_word(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert WORDS.index(word_of(low)) <= WORDS.index(word_of(high))


def named(record: PageRecord, name: str, number: str | None = None) -> PageRecord:
    facts = [Fact("patient-name", name, name, standing="sure")]
    facts += [Fact("record-number", number, number, standing="sure")] if number else []
    return replace(record, report=replace(record.report, facts=tuple(facts)))


def test_tests_of_two_patients_are_refused_by_their_files_and_nobody_is_named() -> None:
    tests = sittings_of([named(sheet("2019-01-10", 40, file="a.pdf"), "Kira Brandt"),
                         named(sheet("2020-01-10", 40, file="b.pdf"), "Jonas Holm")])  # fmt: skip
    with pytest.raises(MisuseError, match=r"a\.pdf and b\.pdf are of different patients") as refused:
        compare(tests)
    assert "Kira" not in str(refused.value)
    assert len(compare(tests, same_person=True)) == 1


@pytest.mark.parametrize(("other", "asks"), [("Brandt, Kira", False), ("Kira Brandl", True)])
def test_a_name_that_is_a_letter_off_is_asked_about(other: str, asks: bool) -> None:
    tests = sittings_of([named(sheet("2019-01-10", 40, file="a.pdf"), "Kira Brandt"),
                         named(sheet("2020-01-10", 40, file="b.pdf"), other)])  # fmt: skip
    assert compare(tests)[0].person_asks == asks


def test_pages_of_two_patients_in_one_file_with_one_date_are_two_tests() -> None:
    pages = [
        named(sheet("2019-01-10", 40), "Kira Brandt", "HL-1201"),
        named(sheet("2019-01-10", 55), "Jonas Holm", "X-7"),
    ]
    assert [len(test.audiogram.thresholds) for test in sittings_of(pages)] == [1, 1]
    with pytest.raises(MisuseError, match=r"two reports in a\.pdf are of different patients"):
        compare(sittings_of(pages))
