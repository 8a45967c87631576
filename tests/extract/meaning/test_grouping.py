"""Which charts of a page are one test (common practice: two charts of an ear each, or a chart a date)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, LEFT, TOP, chart, mark, row, sheet, word, x_of

from octavo.extract.chart import MeasuredChart
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.grouping import OneEar, OneTest, grouped, only_ear
from octavo.extract.page import Word
from octavo.interpret.record import Ear, Standing, Threshold

RIGHT_MARKS = row("circle", {250: 20, 500: 20, 1000: 25, 2000: 40, 4000: 40, 8000: 50}, "red")
LEFT_MARKS = row("cross", {250: 20, 500: 20, 1000: 25, 2000: 40, 4000: 40, 8000: 50}, "blue")
APART = 800.0
MIDDLE = (LEFT + x_of(8000)) / 2


def moved(made: MeasuredChart, right: float) -> MeasuredChart:
    """Move a chart to the right, sheet pixels."""
    anchors = tuple((hz, x + right) for hz, x in made.frequency.anchors)
    marks = tuple(replace(m, x=m.x + right) for m in made.marks)
    return replace(made, frequency=replace(made.frequency, anchors=anchors), marks=marks)


def pair(stretch: float = 1.0) -> tuple[MeasuredChart, MeasuredChart]:
    other = moved(chart(*LEFT_MARKS, number=1), APART)
    return chart(*RIGHT_MARKS), replace(other, level=replace(other.level, px_per_db=stretch * DECIBEL))


def grouped_with(ears: list[OneEar | None], words: tuple[Word, ...] = (), stretch: float = 1.0) -> list[OneTest]:
    one, other = pair(stretch)
    return grouped(ears, [one if i % 2 == 0 else other for i in range(len(ears))], words)


@pytest.mark.parametrize(
    ("ears", "groups"),
    [
        (["right", "left"], [(0, 1)]),
        (["left", "right"], [(0, 1)]),
        ([None, None], [(0,), (1,)]),
        (["right", "right"], [(0,), (1,)]),
        (["right", None], [(0,), (1,)]),
        (["right", "left", "right", "left"], [(0, 1), (2, 3)]),
        (["right", "right", "left", "left"], [(0, 2), (1, 3)]),
        ([None], [(0,)]),
        ([], []),
    ],
)
def test_a_right_and_a_left_chart_are_one_test(ears: list[OneEar | None], groups: list[tuple[int, ...]]) -> None:
    found = grouped_with(ears)
    assert [test.charts for test in found] == groups
    assert all(test.doubt is None for test in found)


def test_a_chart_of_one_ear_beside_one_that_is_mostly_the_others_asks_whether_they_are_one_test() -> None:
    # two squares of a form by hand were read as circles, and its left chart stood as a test of its own
    one, _ = pair()
    strays = row("circle", {750: 20, 1500: 30}, "red")
    mixed = moved(chart(*LEFT_MARKS, *strays, number=1), APART)
    reading = mean(sheet(), (), (one, mixed), Choices("asha-1990"))
    assert all("test-date-uncertain" in t.why_ask for a in reading.audiograms for t in a.thresholds)
    both = moved(chart(*LEFT_MARKS, *RIGHT_MARKS, number=1), APART)
    reading = mean(sheet(), (), (one, both), Choices("asha-1990"))
    assert not any("test-date-uncertain" in t.why_ask for a in reading.audiograms for t in a.thresholds)


@pytest.mark.parametrize(("score", "asks"), [(0.5, True), (0.97, False)])
def test_beside_a_chart_of_which_nothing_is_sure_the_others_values_ask_of_which_test_they_are(
    score: float, asks: bool
) -> None:
    # the right ear's triangles were read as bone of both ears, and the left ear's chart stood as a test of its own
    one, _ = pair()
    unlike = [mark("circle" if i % 2 else "cross", hz, 60, score=score) for i, hz in enumerate((250, 500, 1000, 2000))]
    reading = mean(sheet(), (), (one, moved(chart(*unlike, number=1), APART)), Choices("asha-1990"))
    told = [t.why_ask for a in reading.audiograms for t in a.thresholds if t.ear == "right" and t.level_db_hl < 60]
    assert [("test-date-uncertain" in why) for why in told] == [asks] * len(RIGHT_MARKS)


@pytest.mark.parametrize("dates", [("2017-07-18", "2018-02-28"), ("18.07.2017", "28.02.2018"), ("7/18/17", "2/28/18")])
def test_charts_of_an_ear_each_with_a_date_of_their_own_over_each_are_two_tests(dates: tuple[str, str]) -> None:
    words = tuple(word(text, MIDDLE + k * APART, TOP - 60) for k, text in enumerate(dates))
    assert [test.charts for test in grouped_with(["right", "left"], words)] == [(0,), (1,)]


def test_charts_of_an_ear_each_with_one_date_over_both_are_one_test() -> None:
    words = tuple(word("2018-02-28", MIDDLE + k * APART, TOP - 60) for k in (0, 1))
    assert grouped_with(["right", "left"], words) == [OneTest((0, 1))]


def test_dates_of_a_letterhead_over_the_charts_leave_it_open_whether_they_are_one_test() -> None:
    # a birth date over the one and a test date over the other stand at no common place of the form
    words = (word("2012-07-18", MIDDLE - 100, TOP - 90), word("2018-02-28", MIDDLE + APART + 150, TOP - 60))
    assert grouped_with(["right", "left"], words) == [OneTest((0, 1), "test-date-uncertain")]


def test_a_date_of_birth_over_one_chart_is_no_test_date() -> None:
    # common practice: tests are printed on one page to show a change over months or a few years
    words = (word("1961-07-18", MIDDLE, TOP - 60), word("2018-02-28", MIDDLE + APART, TOP - 60))
    assert grouped_with(["right", "left"], words) == [OneTest((0, 1))]


def test_dates_that_were_not_read_for_certain_tell_no_two_tests_apart() -> None:
    words = tuple(
        replace(word(text, MIDDLE + k * APART, TOP - 60), confidence=0.8)
        for k, text in enumerate(("2017-07-18", "2018-02-28"))
    )
    assert grouped_with(["right", "left"], words) == [OneTest((0, 1), "test-date-uncertain")]


def test_charts_of_an_ear_each_that_seem_of_different_sizes_doubt_their_axes() -> None:
    # common practice: one form prints both at one size
    assert grouped_with(["right", "left"], stretch=1.3) == [OneTest((0, 1), "axis-uncertain")]


def test_charts_of_one_size_of_which_one_lost_an_end_label_do_not_doubt_their_axes() -> None:
    # on an axis with columns of one width an octave is as wide as its columns: one from 125 to 250 Hz, two above 500
    places = dict(
        zip((125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0), (0, 40, 80, 160, 240, 320, 400), strict=True)
    )
    one, other = (
        replace(made, frequency=replace(made.frequency, scale="equal", anchors=tuple(places.items())[first:]))
        for made, first in zip(pair(), (0, 1), strict=True)
    )
    assert grouped(["right", "left"], [one, other], ()) == [OneTest((0, 1))]


def test_a_number_that_is_no_date_says_nothing() -> None:
    words = (word("1,000", MIDDLE, TOP - 30), word("-10", MIDDLE + APART, TOP - 30))
    assert grouped_with(["right", "left"], words) == [OneTest((0, 1))]


def test_one_stray_of_the_other_ear_leaves_a_chart_an_ears_own() -> None:
    right = tuple(Threshold("right", "air", False, hz, 30.0) for hz in (250, 500, 1000, 2000, 4000, 8000, 3000))
    left = tuple(replace(t, ear="left") for t in right)
    assert only_ear((*right, left[0])) == "right"
    assert only_ear((*left, right[0])) == "left"
    assert only_ear((*right, *left[:3])) is None
    assert only_ear(()) is None


def values(ear: Ear, standing: Standing, count: int) -> tuple[Threshold, ...]:
    hertz = (250, 500, 1000, 2000, 3000, 4000, 6000, 8000)[:count]
    return tuple(Threshold(ear, "air", False, hz, 30.0, standing=standing) for hz in hertz)


@pytest.mark.parametrize("strays", [1, 2])
def test_one_or_two_doubtful_values_of_the_other_ear_are_strays_where_four_stand_as_sure(strays: int) -> None:
    assert only_ear((*values("right", "sure", 4), *values("left", "ask", strays))) == "right"
    assert only_ear((*values("left", "sure", 4), *values("right", "ask", strays))) == "left"


def test_further_doubtful_values_of_the_own_ear_are_no_strays() -> None:
    assert only_ear((*values("right", "sure", 4), *values("right", "ask", 6), *values("left", "ask", 2))) == "right"


def test_doubtful_values_of_the_other_ear_are_no_strays_beside_fewer_than_four_that_stand_as_sure() -> None:
    assert only_ear((*values("right", "sure", 3), *values("left", "ask", 2))) is None


def test_a_value_of_the_other_ear_that_stands_as_sure_is_no_stray_on_a_chart_of_few_values() -> None:
    assert only_ear((*values("right", "sure", 4), *values("left", "sure", 1))) is None
    assert only_ear((*values("right", "sure", 4), *values("left", "sure", 1), *values("left", "ask", 1))) is None


@pytest.mark.parametrize("count", [3, 6])
def test_an_ear_all_of_whose_many_values_ask_is_no_stray(count: int) -> None:
    assert only_ear((*values("right", "sure", 6), *values("left", "ask", count))) is None


def test_two_doubtful_strays_part_no_test_and_are_asked_about() -> None:
    one, other = pair()
    strays = tuple(mark("cross", hz, 70, "blue", score=0.5) for hz in (1000, 3000))
    one = replace(one, marks=(*one.marks[:4], *strays))
    (audiogram,) = mean(sheet(), (), (one, other), Choices()).audiograms
    asked = {(t.ear, t.frequency_hz) for t in audiogram.thresholds if "ear-uncertain" in t.why_ask}
    assert asked == {("left", 1000), ("left", 3000)}


def test_two_charts_of_an_ear_each_make_one_audiogram_whose_marks_know_their_chart() -> None:
    (audiogram,) = mean(sheet(), (), pair(), Choices()).audiograms
    assert len(audiogram.charts) == 2
    assert {(t.ear, t.seen.chart) for t in audiogram.thresholds if t.seen} == {("right", 0), ("left", 1)}
    assert all(t.standing == "sure" for t in audiogram.thresholds)


def test_a_stray_of_the_other_ear_on_a_chart_of_one_ear_is_asked_about() -> None:
    one, other = pair()
    one = replace(one, marks=(*one.marks, mark("cross", 3000, 60, "blue")))
    (audiogram,) = mean(sheet(), (), (one, other), Choices()).audiograms
    asked = [t for t in audiogram.thresholds if "ear-uncertain" in t.why_ask]
    assert [(t.ear, t.frequency_hz) for t in asked] == [("left", 3000)]


def test_where_two_charts_of_one_test_contradict_one_another_all_their_values_ask() -> None:
    reading = mean(sheet(), (), pair(1.3), Choices())
    (audiogram,) = reading.audiograms
    assert all(t.standing == "ask" and "axis-uncertain" in t.why_ask for t in audiogram.thresholds)
    assert "axis-uncertain" in {r.code for r in reading.remarks}


def test_where_it_is_open_of_which_date_two_charts_are_all_their_values_ask() -> None:
    words = (word("2012-07-18", MIDDLE - 100, TOP - 90), word("2018-02-28", MIDDLE + APART + 150, TOP - 60))
    reading = mean(sheet(words=words), (), pair(), Choices())
    assert all("test-date-uncertain" in t.why_ask for a in reading.audiograms for t in a.thresholds)
    assert "test-date-uncertain" in {r.code for r in reading.remarks}


def test_two_charts_of_both_ears_make_two_audiograms_of_one_chart_each() -> None:
    marks = row("circle", {500: 20, 1000: 25}, "red") + row("cross", {500: 10, 1000: 15}, "blue")
    audiograms = mean(sheet(), (), (chart(*marks), chart(*marks, number=1)), Choices()).audiograms
    assert [len(a.charts) for a in audiograms] == [1, 1]
    assert [t.seen.chart for a in audiograms for t in a.thresholds if t.seen] == [0] * 8


def test_a_chart_without_marks_beside_one_of_one_ear_is_of_the_same_test() -> None:
    one, _ = pair()
    empty = moved(chart(number=1), APART)
    assert [test.charts for test in grouped(["right", "none"], [one, empty], ())] == [(0, 1)]
    assert [test.charts for test in grouped(["none", "right"], [replace(empty, area=0), one], ())] == [(0, 1)]


@pytest.mark.parametrize(("titled", "asked"), [("right", {"left"}), ("left", {"right"}), (None, set())])
def test_marks_of_the_ear_that_a_charts_title_does_not_name_ask_however_many_they_are(
    titled: OneEar | None, asked: set[str]
) -> None:
    # marks of the sheet's other side shone through a scan: too many for strays, three stood as sure
    levels = {500: 30, 1000: 40, 2000: 50, 4000: 60}
    made = chart(*row("circle", levels), *row("cross", {hz: db + 25 for hz, db in levels.items()}))
    (audiogram,) = mean(sheet(), (), (replace(made, titled=titled),), Choices("asha-1990")).audiograms
    assert {t.ear for t in audiogram.thresholds if "ear-uncertain" in t.why_ask} == asked
