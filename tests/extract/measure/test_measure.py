"""Charts as measured from sightings made by hand: which marks count, and when the axes are in doubt."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import LEVELS, OCTAVES, SIZE, frequency_words, level_words, mark, sheet, word, x_of, y_of

from octavo.extract import measure as measuring
from octavo.extract.chart import MeasuredChart
from octavo.extract.choices import Choices
from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.meaning import mean
from octavo.extract.measure import CLEAR_MARK, empty_charts, measure
from octavo.extract.page import Word
from octavo.extract.sightings import Sightings

FOOT = y_of(120) + 30


def measured(words: tuple[Word, ...], *levels: float, hz: float = 1000, score: float = 0.97) -> MeasuredChart:
    """Measure a blank sheet with these labels, and a mark at one frequency at each of some levels."""
    areas = chart_areas(words, SIZE)
    marks = tuple(mark("circle", hz, level, score=score).sight for level in levels)
    (one,) = measure(sheet(), Sightings(words, areas, marks, (), False))
    return one


def levels_of(chart: MeasuredChart) -> list[int]:
    return [round(m.level_db_hl) for m in chart.marks]


def test_marks_up_to_the_row_of_frequencies_are_kept_beyond_the_last_level_that_could_be_read() -> None:
    words = frequency_words(y=FOOT) + level_words(range(-10, 61, 10))
    assert levels_of(measured(words, 55, 80, 100, 115)) == [55, 80, 100, 115]


def test_marks_up_to_a_row_at_the_top_are_kept_above_the_first_level_that_could_be_read() -> None:
    words = frequency_words() + level_words(range(40, 121, 10))
    assert levels_of(measured(words, -10, 5, 20, 60)) == [-10, 5, 20, 60]


def test_marks_far_beyond_the_last_level_are_left_out_where_no_row_stands_there() -> None:
    words = frequency_words() + level_words(range(-10, 61, 10))
    assert levels_of(measured(words, 55, 65, 85, 100)) == [55, 65]


@pytest.mark.parametrize(("columns", "kept"), [((500, 1000, 2000), True), ((500, 1000), False)])
def test_a_row_of_marks_that_covers_the_first_levels_is_kept(columns: tuple[int, ...], *, kept: bool) -> None:
    # seen on a fax: circles and crosses at 0 to 15 dB over the labels 0, 10 and 20; they were missed without a word
    words = frequency_words(y=FOOT) + level_words(range(40, 121, 10))
    marks = tuple(mark("circle", hz, 10).sight for hz in columns)
    (chart,) = measure(sheet(), Sightings(words, chart_areas(words, SIZE), marks, (), False))
    assert levels_of(chart) == ([10] * len(columns) if kept else [])
    values = mean(sheet(), (), (chart,), Choices()).audiograms[0].thresholds
    assert all("axis-uncertain" in t.why_ask for t in values)


def test_a_row_of_marks_where_the_last_of_few_level_labels_was_lost_is_kept() -> None:
    # labels every 20 dB: the next one would stand at 80
    words = frequency_words() + level_words(range(0, 61, 20))
    assert levels_of(measured(words, 55, 80, 85, 100)) == [55, 80, 85]


def test_a_row_on_the_frame_half_a_step_beyond_the_last_of_few_labels_is_kept() -> None:
    # labels every 20 dB to 110, the plot to 120: five arrows on its frame were missed
    words = frequency_words() + level_words(range(-10, 111, 20))
    assert levels_of(measured(words, 100, 110, 120)) == [100, 110, 120]


def test_a_mark_at_the_top_of_a_chart_is_not_one_at_the_foot_of_the_chart_above_it_too() -> None:
    words = frequency_words() + level_words(range(-10, 61, 10))
    (area,) = chart_areas(words, SIZE)
    below = y_of(72) - y_of(0)
    moved = replace(area, level=replace(area.level, at=tuple(at + below for at in area.level.at)))
    seen = mark("cross", 1000, 72).sight
    both = Sightings(words, (area, moved), (seen, replace(seen, area=1)), (), False)
    assert [levels_of(chart) for chart in measure(sheet(), both)] == [[], [0]]


@pytest.mark.parametrize(("beside", "own"), [(0.45, False), (0.3, False), (0.15, True)])
def test_a_mark_at_the_first_line_of_a_chart_is_not_one_beside_the_last_line_of_the_chart_left_of_it_too(
    beside: float, *, own: bool
) -> None:
    # two panels close by, as charting programs set them: the left ear's 250 Hz stood as 8000 Hz of the right, surely
    words = frequency_words() + level_words()
    (area,) = chart_areas(words, SIZE)
    across = x_of(8000) + 0.45 * (x_of(2000) - x_of(1000)) - x_of(125)
    moved = replace(area, frequency=replace(area.frequency, at=tuple(at + across for at in area.frequency.at)))
    seen = mark("cross", 8000, 40, beside=beside).sight
    both = Sightings(words, (area, moved), (seen, replace(seen, area=1)), (), False)
    first, second = (levels_of(chart) for chart in measure(sheet(), both))
    assert (first, second) == (([40], []) if own else ([], [40]))


def test_marks_beyond_the_row_of_frequencies_are_left_out() -> None:
    words = frequency_words(y=FOOT) + level_words()
    assert levels_of(measured(words, 115, 125, 150)) == [115, 125]


@pytest.mark.parametrize(("hz", "kept"), [(90, True), (60, False), (11000, True), (14000, False)])
def test_a_mark_farther_beside_the_frequencies_than_brackets_stand_is_left_out(hz: float, kept: bool) -> None:
    assert bool(measured(frequency_words() + level_words(), 40, hz=hz).marks) == kept


@pytest.mark.parametrize("hz", [60, 14000])
@pytest.mark.parametrize(("score", "told"), [(CLEAR_MARK + 0.05, True), (CLEAR_MARK - 0.05, False)])
def test_only_a_clear_mark_beside_the_frequencies_is_told_as_possibly_missing(
    hz: float, score: float, told: bool
) -> None:
    # the label of its frequency may have been lost
    found = measured(frequency_words() + level_words(), 40, hz=hz, score=score)
    assert [m.sight.score for m in found.beyond] == ([score] if told else [])
    assert found.marks == ()
    reading = mean(sheet(), (), (found,), Choices())
    assert all(not a.thresholds for a in reading.audiograms)
    named = [(r.code, r.ear, r.conduction, r.at) for r in reading.remarks]
    there = sheet().on_page(x_of(hz), y_of(40))
    assert named == ([("missing-expected", "right", "air", there)] if told else [])


def test_a_mark_among_the_frequencies_is_not_also_told_as_beside_them() -> None:
    assert measured(frequency_words() + level_words(), 40, hz=8000).beyond == ()


def test_a_clear_mark_beside_the_frequencies_and_beyond_the_levels_is_left_out() -> None:
    assert measured(frequency_words() + level_words(), 150, hz=14000).beyond == ()


def test_a_mark_is_given_its_frequency_and_level() -> None:
    (one,) = measured(frequency_words() + level_words(), 35, hz=3000).marks
    assert (one.frequency_hz, one.level_db_hl) == pytest.approx((3000, 35), abs=0.5)


def with_chance(words: tuple[Word, ...], chance: float) -> tuple[Word, ...]:
    return tuple(replace(w, confidence=chance) for w in words)


@pytest.mark.parametrize(("chance", "doubted"), [(0.55, True), (0.65, False)])
def test_an_axis_whose_label_chances_add_up_to_little_is_uncertain(chance: float, doubted: bool) -> None:
    # four labels: 2.2 or 2.6
    levels = with_chance(level_words((0, 20, 40, 60)), chance)
    frequencies = with_chance(frequency_words((250, 500, 1000, 2000)), chance)
    for words in (frequency_words() + levels, frequencies + level_words()):
        assert ("axis-uncertain" in measured(words).doubts) == doubted


@pytest.mark.parametrize(("chance", "doubted"), [(0.95, True), (0.5, False)])
def test_words_that_contradict_the_frequencies_make_them_uncertain_only_where_read_with_certainty(
    chance: float, doubted: bool
) -> None:
    odd = with_chance(tuple(word("8000", x_of(hz), y_of(-10) - 30) for hz in (354, 707)), chance)
    assert ("axis-uncertain" in measured(frequency_words() + odd + level_words()).doubts) == doubted


@pytest.mark.parametrize("text", ["5000", "6000"])
def test_another_number_in_the_very_place_of_8000_makes_the_frequencies_uncertain(text: str) -> None:
    # a label misread in one digit would move all marks of that line to another frequency
    words = (*frequency_words(OCTAVES[:-1]), word(text, x_of(8000), y_of(-10) - 30))
    assert "axis-uncertain" in measured(words + level_words()).doubts


def test_a_form_that_spaces_its_frequencies_evenly_is_certain() -> None:
    # common practice: many forms print octaves and inter-octaves at equal distances
    tested = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    words = tuple(word(str(hz), x_of(125) + 60 * i, y_of(-10) - 30) for i, hz in enumerate(tested))
    chart = measured(words + level_words())
    assert (chart.frequency.scale, chart.doubts) == ("equal", ())


def test_the_level_at_the_row_of_frequencies_is_told() -> None:
    assert measured(frequency_words(y=FOOT) + level_words()).row_db == pytest.approx(126, abs=0.5)
    assert measured(frequency_words() + level_words()).row_db == pytest.approx(-16, abs=0.5)


def test_axes_whose_labels_stand_where_they_should_are_certain() -> None:
    assert measured(frequency_words() + level_words()).doubts == ()


@pytest.mark.parametrize(("off", "read"), [(6, len(LEVELS)), (14, len(LEVELS) - 1)])
def test_a_level_label_far_off_its_place_is_left_out_and_moves_nothing(off: float, read: int) -> None:
    words = list(level_words())
    words[-1] = replace(words[-1], box=tuple(b + off * (i % 2) for i, b in enumerate(words[-1].box)))
    chart = measured(frequency_words() + tuple(words))
    assert chart.level.labels_read == read
    assert chart.level.level_at(y_of(60)) == pytest.approx(60, abs=0.3)
    assert chart.doubts == ()


def test_axes_that_were_measured_before_the_marks_give_the_same_chart_and_are_not_measured_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    areas = chart_areas(frequency_words() + level_words(), SIZE)
    marks = tuple(mark("circle", 1000, level).sight for level in (10, 40))
    sightings = Sightings(frequency_words() + level_words(), areas, marks, (), False)
    empty, whole = empty_charts(sheet(), areas), measure(sheet(), sightings)
    monkeypatch.setattr(measuring, "fit_bend", None)
    assert measure(sheet(), sightings, empty) == whole
    assert len(whole) == 1
    assert len(whole[0].marks) == 2
