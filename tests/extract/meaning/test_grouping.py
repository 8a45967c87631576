"""Which charts of a page are one test (common practice: two charts of an ear each, or a chart a date)."""

from __future__ import annotations

import pytest
from by_hand import chart, row, sheet

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.grouping import grouped
from octavo.interpret.record import Threshold

RIGHT = (Threshold("right", "air", False, 1000, 30.0), Threshold("right", "bone", False, 1000, 20.0))
LEFT = (Threshold("left", "air", False, 1000, 30.0),)
BOTH = RIGHT + LEFT


@pytest.mark.parametrize(
    ("charts", "groups"),
    [
        ([RIGHT, LEFT], [[0, 1]]),
        ([LEFT, RIGHT], [[0, 1]]),
        ([BOTH, BOTH], [[0], [1]]),
        ([RIGHT, RIGHT], [[0], [1]]),
        ([RIGHT, BOTH], [[0], [1]]),
        ([RIGHT, LEFT, RIGHT, LEFT], [[0, 1], [2, 3]]),
        ([BOTH], [[0]]),
        ([], []),
    ],
)
def test_a_right_and_a_left_chart_beside_one_another_are_one_test(
    charts: list[tuple[Threshold, ...]], groups: list[list[int]]
) -> None:
    assert grouped(charts) == groups


def test_two_charts_of_an_ear_each_make_one_audiogram_whose_marks_know_their_chart() -> None:
    levels = {500: 20.0, 1000: 25.0, 2000: 40.0}
    charts = (chart(*row("circle", levels, "red")), chart(*row("cross", levels, "blue"), number=1))
    (audiogram,) = mean(sheet(), (), charts, Choices()).audiograms
    assert len(audiogram.charts) == 2
    assert {(t.ear, t.seen.chart) for t in audiogram.thresholds if t.seen} == {("right", 0), ("left", 1)}


def test_two_charts_of_both_ears_make_two_audiograms_of_one_chart_each() -> None:
    marks = row("circle", {500: 20, 1000: 25}, "red") + row("cross", {500: 10, 1000: 15}, "blue")
    audiograms = mean(sheet(), (), (chart(*marks), chart(*marks, number=1)), Choices()).audiograms
    assert [len(a.charts) for a in audiograms] == [1, 1]
    assert [t.seen.chart for a in audiograms for t in a.thresholds if t.seen] == [0] * 8
