"""Which frequency a mark belongs to, on charts made by hand."""

from __future__ import annotations

import math

import pytest
from by_hand import OCTAVE, frequency_scale, mark, row

from octavo.extract.chart import FrequencyScale
from octavo.extract.meaning.beside import beside_lines, distance_beside
from octavo.extract.meaning.frequencies import place, places_of


@pytest.mark.parametrize("hz", [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000])
def test_a_mark_on_its_line_has_that_frequency_whether_printed_or_not(hz: float) -> None:
    placed = place(mark("circle", hz, 30), frequency_scale(), 0.0)
    assert placed.frequency_hz == hz
    assert placed.miss_octaves == pytest.approx(0, abs=1e-9)
    assert placed.margin == pytest.approx(1)


@pytest.mark.parametrize(("hz", "below"), [(750, 500), (1500, 1000), (3000, 2000), (6000, 4000)])
def test_an_inter_octave_drawn_half_way_is_read_although_no_label_says_so(hz: float, below: float) -> None:
    # references.md section 1: half way is 0.085 octave off the true place
    placed = place(mark("circle", below * math.sqrt(2), 30), frequency_scale(), 0.0)
    assert placed.frequency_hz == hz
    assert placed.miss_octaves < 0.01


def test_a_mark_between_two_frequencies_has_hardly_a_margin() -> None:
    placed = place(mark("circle", 250 * math.sqrt(2), 30), frequency_scale(), 0.0)
    assert placed.margin < 0.72


def test_seldom_tested_frequencies_count_only_where_they_are_printed() -> None:
    assert 5000 not in {hz for hz, _ in places_of(frequency_scale())}
    printed = frequency_scale((125, 250, 500, 1000, 2000, 4000, 5000, 8000))
    assert place(mark("circle", 5000, 30), printed, 0.0).frequency_hz == 5000


@pytest.mark.parametrize("share", [0.0, 0.08, 0.12, 0.2])
def test_bone_marks_tell_together_how_far_beside_their_line_they_stand(share: float) -> None:
    levels = {250: 10, 500: 15, 1000: 20, 2000: 25, 4000: 30}
    marks = row("angle-left", levels, beside=-share) + row("angle-right", levels, beside=share)
    assert distance_beside(marks, frequency_scale()) / OCTAVE == pytest.approx(share, abs=0.021)
    for one in marks:
        wanted = one.frequency_hz * 2 ** (share if one.sight.glyph == "angle-left" else -share)
        assert place(one, frequency_scale(), share * OCTAVE).frequency_hz == pytest.approx(wanted)


def test_marks_on_the_line_say_nothing_of_how_far_beside_it_bone_is_drawn() -> None:
    assert distance_beside(row("circle", {500: 10, 1000: 20}), frequency_scale()) == 0.0


def test_an_equally_spaced_axis_is_read_by_its_own_places() -> None:
    values = (250.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0)
    anchors = tuple((hz, 300 + 50.0 * i) for i, hz in enumerate(values))
    scale = FrequencyScale("equal", anchors, 6, 0.0, frozenset(values))
    for i, hz in enumerate(values):
        one = mark("circle", 1000, 30)
        placed = place(type(one)(one.sight, 300 + 50.0 * i, one.y, hz, 30), scale, 0.0)
        assert placed.frequency_hz == hz


def test_a_mark_that_steps_aside_for_another_of_its_side_keeps_that_ones_frequency() -> None:
    levels = {250: 10, 500: 15, 1000: 20, 2000: 25, 4000: 30}
    inner = row("angle-left", levels, beside=-0.15) + row("angle-right", levels, beside=0.15)
    outer = row("bracket-left", levels, beside=-0.29) + row("bracket-right", levels, beside=0.28)
    beside = beside_lines(inner + outer, frequency_scale())
    for one in inner + outer:
        placed = place(one, frequency_scale(), beside.of(one))
        wanted = min(levels, key=lambda hz: abs(math.log2(hz / one.frequency_hz)))
        assert placed.frequency_hz == wanted
        assert placed.miss_octaves < 0.03


def test_marks_of_one_side_at_neighbouring_inter_octaves_step_aside_for_none() -> None:
    # 750 Hz stands 0.415 octave left of 1000 Hz: farther than a mark steps aside
    marks = row("angle-left", {1000: 20, 2000: 20}, beside=-0.15) + row(
        "bracket-left", {750: 20, 1500: 20}, beside=-0.15
    )
    beside = beside_lines(marks, frequency_scale())
    assert [place(m, frequency_scale(), beside.of(m)).frequency_hz for m in marks] == [1000, 2000, 750, 1500]


def test_a_mark_above_another_of_its_side_does_not_step_aside_for_it() -> None:
    inner = row("angle-left", {500: 15, 1000: 20, 2000: 25}, beside=-0.15)
    farther = mark("bracket-left", 1000, 60, beside=-0.29)
    assert farther.sight.at not in beside_lines((*inner, farther), frequency_scale()).aside


def test_a_shape_that_stands_farther_out_throughout_has_its_own_distance() -> None:
    levels = {250: 10, 500: 15, 1000: 20, 2000: 25, 4000: 30}
    unmasked = row("angle-left", levels, beside=-0.14) + row("angle-right", levels, beside=0.14)
    masked = row("bracket-right", {hz: level + 40 for hz, level in levels.items()}, beside=0.3)
    beside = beside_lines(unmasked + masked, frequency_scale())
    for one in unmasked + masked:
        assert place(one, frequency_scale(), beside.of(one)).miss_octaves < 0.02


def test_large_brackets_half_an_octave_out_on_a_narrow_chart_are_no_inter_octaves() -> None:
    marks = row("bracket-left", {250: 5, 500: 5, 1000: 5, 2000: 15, 4000: 20}, beside=-0.5)
    beside = beside_lines(marks, frequency_scale())
    placed = [beside.placed(m, frequency_scale()) for m in marks]
    assert [p.frequency_hz for p in placed] == [250, 500, 1000, 2000, 4000]
    assert min(p.margin for p in placed) > 0.9


def test_brackets_that_are_inter_octaves_or_stand_half_an_octave_out_have_no_margin() -> None:
    marks = row("bracket-left", {1000: 5, 2000: 15, 4000: 20}, beside=-0.5)
    beside = beside_lines(marks, frequency_scale())
    assert max(beside.placed(m, frequency_scale()).margin for m in marks) < 0.72


def test_angles_that_point_at_their_lines_from_the_other_side_are_no_inter_octaves() -> None:
    # a German form sets the right ear's `>` left of the line; on a narrow chart that is where 750 Hz has its own
    levels = {500: 10, 1000: 15, 2000: 20, 4000: 25}
    marks = row("angle-right", levels, beside=-0.3) + row("angle-left", levels, beside=0.3)
    beside = beside_lines(marks, frequency_scale())
    placed = [beside.placed(m, frequency_scale()) for m in marks]
    assert [p.frequency_hz for p in placed] == [500, 1000, 2000, 4000] * 2
    assert min(p.margin for p in placed) > 0.9


def test_few_angles_that_may_stand_on_either_side_of_their_lines_have_no_margin() -> None:
    marks = row("angle-right", {1000: 15, 4000: 25}, beside=-0.3)
    beside = beside_lines(marks, frequency_scale())
    assert max(beside.placed(m, frequency_scale()).margin for m in marks) < 0.72


@pytest.mark.parametrize("levels", [{750: 20}, {500: 10, 750: 20, 1000: 30, 1500: 20}])
def test_brackets_of_inter_octaves_beside_their_lines_keep_their_margin(levels: dict[int, float]) -> None:
    marks = row("bracket-left", levels, beside=-0.14)
    beside = beside_lines(marks, frequency_scale())
    placed = [beside.placed(m, frequency_scale()) for m in marks]
    assert [p.frequency_hz for p in placed] == list(levels)
    assert min(p.margin for p in placed) > 0.72


def test_a_mark_between_12000_and_12500_has_hardly_a_margin_whichever_label_was_read() -> None:
    # 12,500 was read as 12,000, and the marks on its line stood as sure 12000 Hz
    printed = frequency_scale((250, 1000, 8000, 10000, 12000))
    assert place(mark("circle", 12260, 30), printed, 0.0).margin < 0.72
    assert place(mark("circle", 12000, 30), printed, 0.0).margin == pytest.approx(1)
