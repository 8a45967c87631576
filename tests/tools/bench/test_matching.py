"""Each kind of error, silent or not, by hand; what is silent is the record's own definition (its last paragraph)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from octavo.interpret.record import Remark, Threshold
from octavo.tools.bench.matching import Finding, compare


def verdicts(findings: tuple[Finding, ...]) -> list[tuple[str, bool]]:
    return sorted((finding.verdict, finding.silent) for finding in findings)


def test_a_reading_equal_to_the_truth_is_right_in_every_value(value, page):
    values = (value(), value("left", "bone", 2000, 10), value(masked=True), value(response=False, hz=4000, db=110))
    assert verdicts(compare(page(*values), page(*values))) == [("right", False)] * 4


def test_a_right_value_left_to_a_person_is_right_and_not_silent(value, page):
    assert verdicts(compare(page(value()), page(value(standing="ask")))) == [("right", False)]


WRONG = [
    ("wrong-level", {"db": 40}),
    ("wrong-response", {"response": False}),
    ("wrong-frequency", {"hz": 1500}),
    ("wrong-ear", {"ear": "left"}),
    ("wrong-masking", {"masked": True}),
    ("wrong-symbol", {"conduction": "bone"}),
    ("wrong-symbol", {"ear": "left", "masked": True}),
]


@pytest.mark.parametrize(("verdict", "change"), WRONG)
def test_a_misread_mark_is_one_wrong_threshold_and_silent_when_sure(verdict, change, value, page):
    truth = page(value(at=(0.4, 0.5)))
    assert verdicts(compare(truth, page(value(at=(0.401, 0.5), **change)))) == [(verdict, True)]


@pytest.mark.parametrize(("verdict", "change"), WRONG)
def test_a_misread_mark_that_asks_is_not_silent(verdict, change, value, page):
    truth = page(value(at=(0.4, 0.5)))
    read = page(value(at=(0.401, 0.5), standing="ask", **change))
    assert verdicts(compare(truth, read)) == [(verdict, False)]


def test_a_misread_mark_without_a_place_is_known_by_its_frequency_and_level(value, page):
    assert verdicts(compare(page(value()), page(value("left")))) == [("wrong-ear", True)]


def test_a_value_at_another_place_is_one_missed_and_one_invented(value, page):
    truth, read = page(value(at=(0.4, 0.5))), page(value("left", at=(0.4, 0.56)))
    assert verdicts(compare(truth, read)) == [("invented", True), ("missed", True)]


def test_of_two_marks_at_one_place_the_right_one_keeps_its_partner(value, page):
    # An X inside an O: the O is read as a masked right ear, the X rightly.
    both = (value(at=(0.4, 0.5)), value("left", at=(0.4, 0.5)))
    read = (value(masked=True, at=(0.4, 0.5)), value("left", at=(0.4, 0.5)))
    assert verdicts(compare(page(*both), page(*read))) == [("right", False), ("wrong-masking", True)]


def test_a_sure_misread_mark_counts_twice_under_the_strictest_count(value, page):
    (finding,) = compare(page(value()), page(value("left")))
    assert finding.silent_by_key == 2


def test_a_value_read_twice_is_right_once_and_invented_once(value, page):
    read = page(value(at=(0.4, 0.5)), value(db=60, at=(0.4, 0.7)))
    assert verdicts(compare(page(value(at=(0.4, 0.5))), read)) == [("invented", True), ("right", False)]


def test_an_invented_value_that_asks_is_not_silent(value, page):
    assert verdicts(compare(page(), page(value(standing="ask")))) == [("invented", False)]


def test_a_missed_threshold_is_silent_on_a_page_that_asks_about_something_else(value, page):
    read = page(value(hz=2000, standing="ask", why_ask=("faint",)), standing="ask")
    assert ("missed", True) in verdicts(compare(page(value(), value(hz=2000)), read))


def test_a_missed_threshold_is_not_silent_where_a_remark_expects_it(value, page):
    remark = Remark("missing-expected", "", ear="right", conduction="air", frequency_hz=1000)
    findings = compare(page(value(), value(hz=2000)), page(value(hz=2000), remarks=[remark]))
    assert verdicts(findings) == [("missed", False), ("right", False)]


def test_a_missed_threshold_is_not_silent_where_a_value_of_its_ear_and_conduction_expects_more(value, page):
    read = page(value(hz=2000, standing="ask", why_ask=("missing-expected",)))
    assert ("missed", False) in verdicts(compare(page(value(), value(hz=2000)), read))


@pytest.mark.parametrize(
    "remark",
    [
        Remark("missing-expected", "", ear="left", conduction="air"),
        Remark("missing-expected", "", ear="right", conduction="bone"),
        Remark("missing-expected", ""),
        Remark("unexplained-ink", "", ear="right", conduction="air"),
    ],
)
def test_a_missed_threshold_stays_silent_where_the_remark_names_something_else(remark, value, page):
    findings = compare(page(value(), value(hz=2000)), page(value(hz=2000), remarks=[remark]))
    assert ("missed", True) in verdicts(findings)


def test_nothing_read_on_a_page_that_asks_is_not_silent(value, page):
    assert verdicts(compare(page(value()), page(standing="ask"))) == [("missed", False)]


def test_nothing_read_on_a_page_that_stands_as_sure_is_silent(value, page):
    assert verdicts(compare(page(value()), page(standing="sure"))) == [("missed", True)]


def test_a_page_refused_with_an_error_misses_everything_but_not_silently(value, page):
    assert verdicts(compare(page(value()), None)) == [("missed", False)]


def test_within_5_db_takes_one_step_and_not_two_nor_another_response(value, page):
    def within(read: Threshold) -> bool:
        (finding,) = compare(page(value()), page(read))
        return finding.within_5_db

    assert [within(value(db=db)) for db in (35, 30, 40, 45)] == [True, True, True, False]
    assert not within(value(response=False))
    assert not within(value("left"))


def test_audiograms_of_two_dates_are_matched_by_place_not_by_order(value, page):
    first, second = (value(db=20),), (value(db=60),)
    truth = page(first, second, lefts=(0.1, 0.6))
    assert verdicts(compare(truth, page(second, first, lefts=(0.6, 0.1)))) == [("right", False)] * 2


def test_audiograms_on_one_chart_are_matched_by_date(value, page):
    first, second = (value(db=20),), (value(db=60),)
    truth = page(first, second, lefts=(0.1, 0.1), dates=("2019-03-14", "2021-03-14"))
    read = page(second, first, lefts=(0.1, 0.1), dates=("2021-03-14", "2019-03-14"))
    assert verdicts(compare(truth, read)) == [("right", False)] * 2


def test_a_value_put_to_the_other_date_is_wrong(value, page):
    truth = page((value(at=(0.2, 0.4)),), (value(hz=2000, at=(0.7, 0.4)),), lefts=(0.1, 0.6))
    read = page((value(at=(0.2, 0.4)), value(hz=2000, at=(0.7, 0.4))), lefts=(0.1,))
    assert verdicts(compare(truth, read)) == [("right", False), ("wrong-audiogram", True)]


def test_swapping_both_ears_in_truth_and_reading_changes_no_verdict(value, page):
    def swapped(values: tuple[Threshold, ...]) -> tuple[Threshold, ...]:
        return tuple(replace(one, ear="left" if one.ear == "right" else "right") for one in values)

    truth = (value(), value("left", db=50), value("left", "bone", 2000, 10))
    read = (value(db=40), value("left", "bone", 2000, 10), value("right", "bone", 500, 5))
    assert verdicts(compare(page(*truth), page(*read))) == verdicts(
        compare(page(*swapped(truth)), page(*swapped(read)))
    )


def test_a_mark_read_as_a_value_that_the_other_chart_has_too_is_one_misread_mark(value, page):
    # Both ears have the same bone threshold, each on its own chart; the right one is read as a second left one.
    right, left = (0.2, 0.4), (0.7, 0.4)
    truth = page(value(at=right), value("left", at=left))
    read = page(value("left", at=right), value("left", at=left))
    assert verdicts(compare(truth, read)) == [("right", False), ("wrong-ear", True)]
