"""Which row of frequencies and which column of levels are one chart."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from by_hand import LEFT, LEVELS, OCTAVES, SIZE, TOP, frequency_words, level_words, word, x_of, y_of

from octavo.extract.eyes.axes.areas import chart_areas, decibel_px, octave_px, within_frames
from octavo.extract.eyes.axes.ruling import ruling_of
from octavo.extract.page import Pixels, Word


def moved(words: tuple[Word, ...], dx: float, dy: float = 0.0) -> tuple[Word, ...]:
    return tuple(
        Word(w.text, (w.box[0] + dx, w.box[1] + dy, w.box[2] + dx, w.box[3] + dy), w.confidence) for w in words
    )


@pytest.mark.parametrize("y", [TOP - 30, y_of(120) + 30])
def test_a_row_above_or_below_a_column_of_levels_is_a_chart(y: float) -> None:
    (area,) = chart_areas(frequency_words(y=y) + level_words(), SIZE)
    assert octave_px(area.frequency) == pytest.approx(100, abs=0.5)
    assert decibel_px(area.level) == pytest.approx(5, abs=0.05)
    left, top, right, bottom = area.box
    assert left < LEFT < x_of(8000) < right
    assert top < y_of(-10) < y_of(120) < bottom


def test_marks_at_0_db_that_hide_its_label_have_room_on_the_chart() -> None:
    # a copy's fat circles lay on the label 0 at either side: the chart began in their middle
    (area,) = chart_areas(frequency_words(y=y_of(120) + 30) + level_words(range(20, 121, 20)), SIZE)
    assert area.box[1] <= y_of(-10)


def test_levels_at_the_right_of_the_frequencies_serve_as_well() -> None:
    assert len(chart_areas(frequency_words() + level_words(x=x_of(8000) + 60), SIZE)) == 1


@pytest.mark.parametrize("stretch", [0.15, 6.0])
def test_a_column_far_too_flat_or_tall_for_the_row_makes_no_chart(stretch: float) -> None:
    # ISO 8253-1: an octave is as wide as 20 dB are high; forms stray, but not by a factor of five
    levels = tuple(word(str(v), LEFT - 60, TOP + 5 * stretch * (v + 10)) for v in range(-10, 121, 10))
    assert chart_areas(frequency_words() + levels, (1000, 6000)) == ()


@pytest.mark.parametrize("stretch", [0.25, 3.8])
def test_a_plot_that_fills_a_wide_window_or_a_narrow_column_is_a_chart(stretch: float) -> None:
    levels = tuple(word(str(v), LEFT - 60, TOP + 5 * stretch * (v + 10)) for v in range(-10, 121, 10))
    assert len(chart_areas(frequency_words() + levels, (1000, 6000))) == 1


def test_a_row_through_the_middle_of_the_levels_makes_no_chart() -> None:
    assert chart_areas(frequency_words(y=y_of(57)) + level_words(), SIZE) == ()


def test_a_column_that_broke_and_a_tables_head_below_make_no_second_chart() -> None:
    # on a photo the levels leaned into two columns, and the heads of a table below took one: all values were read twice
    levels = level_words()
    broken = moved(levels[:3], 20.0) + levels[3:]
    head = tuple(
        word(str(hz), LEFT + 100 * i, y_of(120) + 120) for i, hz in enumerate((250, 500, 1000, 2000, 3000, 4000, 6000))
    )
    (area,) = chart_areas(frequency_words() + broken + head, SIZE)
    assert area.frequency.across < TOP


def test_a_column_that_broke_in_two_with_a_row_at_either_end_is_one_chart() -> None:
    # on a photo the levels between were not read, and the upper and the lower half of one chart were two tests
    upper, lower = level_words(range(-10, 21, 10)), level_words(range(60, 121, 10))
    rows = frequency_words() + frequency_words(y=y_of(120) + 30)
    (area,) = chart_areas(rows + upper + moved(lower, 20.0), SIZE)
    assert sorted(run.kind for run in area.more) == ["frequency", "level"]
    # two charts above one another begin their levels anew
    again = moved(frequency_words() + level_words(), 0.0, 900.0)
    assert len(chart_areas(frequency_words() + level_words() + again, (1000, 2500))) == 2


def test_a_row_of_frequencies_that_broke_leaves_its_axis_in_doubt() -> None:
    # evenly spaced columns of a photo, one label unread: the row broke in two, and the parts were two tests
    hz = (125, 250, 500, 750, 1000, 1500, 2000, 4000, 6000, 8000, 9000, 10000, 11200, 12500)
    at = (739, 850, 950, 1055, 1163, 1266, 1373, 1580, 1682, 1785, 1890, 1994, 2098, 2202)
    faint = {250: 0.54, 1000: 0.54, 2000: 0.61}
    row = tuple(replace(word(str(v), x, 2143), confidence=faint.get(v, 1.0)) for v, x in zip(hz, at, strict=True))
    row = (*row, word(".3,000", 1475, 2143))
    levels = tuple(word(str(v), 701, 678 + 11.03 * (v + 10)) for v in range(-10, 121, 10))
    areas = chart_areas(row + levels, (2723, 3440))
    assert len(areas) == 2
    assert all(area.goes_on for area in areas)


def test_a_column_far_from_the_row_makes_no_chart() -> None:
    far = moved(level_words(), 0, 1500)
    assert chart_areas(frequency_words() + far, (1000, 3000)) == ()


def test_a_row_without_levels_and_a_column_without_frequencies_are_no_charts() -> None:
    assert chart_areas(frequency_words(), SIZE) == ()
    assert chart_areas(level_words(), SIZE) == ()
    assert chart_areas((), SIZE) == ()


def test_levels_printed_on_both_sides_serve_one_chart() -> None:
    (area,) = chart_areas(frequency_words() + level_words() + level_words(x=x_of(8000) + 60), SIZE)
    assert [run.kind for run in area.more] == ["level"]


def test_a_second_column_that_gives_the_same_heights_other_levels_is_not_taken() -> None:
    other = tuple(word(str(v), x_of(8000) + 60, y_of(v + 25)) for v in range(-10, 96, 10))
    (area,) = chart_areas(frequency_words() + level_words() + other, SIZE)
    assert area.more == ()


def test_frequencies_printed_above_and_below_are_one_chart() -> None:
    (area,) = chart_areas(frequency_words() + frequency_words(y=y_of(120) + 30) + level_words(), SIZE)
    assert [run.kind for run in area.more] == ["frequency"]


def test_two_charts_side_by_side_are_found_from_left_to_right_and_do_not_overlap() -> None:
    one = frequency_words() + level_words()
    first, second = chart_areas(one + moved(one, 900), (2000, 1200))
    assert first.frequency.values == second.frequency.values == OCTAVES
    assert first.box[2] <= second.frequency.at[0]
    assert first.box[0] < second.box[0]


def test_a_box_stays_on_its_sheet() -> None:
    words = moved(frequency_words() + level_words(), -130, -160)
    (area,) = chart_areas(words, (680, 700))
    left, top, right, bottom = area.box
    assert left >= 0
    assert top >= 0
    assert right <= 679
    assert bottom <= 699


@pytest.mark.parametrize("first", [-20, -10])
@pytest.mark.parametrize("above", [8, -8])
def test_a_row_printed_along_the_line_of_0_db_inside_the_chart_is_its_axis(first: int, above: int) -> None:
    # common practice of charting programs: an axis crosses the other at its zero
    words = frequency_words(y=y_of(0) - above) + level_words(range(first, 121, 10))
    (area,) = chart_areas(words, SIZE)
    assert area.frequency.values == OCTAVES
    assert area.box[1] < y_of(first) < y_of(120) < area.box[3]


@pytest.mark.parametrize("last", [60, 90, 110])
def test_a_row_at_the_foot_pairs_with_a_column_whose_last_levels_could_not_be_read(last: int) -> None:
    row = frequency_words(y=y_of(120) + 30)
    (area,) = chart_areas(row + level_words(range(-10, last + 1, 10)), SIZE)
    assert area.level.values[-1] == last
    assert area.box[3] >= y_of(120) + 30


@pytest.mark.parametrize("first", [10, 40])
def test_a_row_at_the_top_pairs_with_a_column_whose_first_levels_could_not_be_read(first: int) -> None:
    (area,) = chart_areas(frequency_words() + level_words(range(first, 121, 10)), SIZE)
    assert area.level.values[0] == first
    assert area.box[1] <= TOP - 30


def test_a_row_farther_from_the_levels_than_labels_get_lost_makes_no_chart() -> None:
    assert chart_areas(frequency_words(y=y_of(120) + 30) + level_words(range(-10, 31, 10)), SIZE) == ()


@pytest.mark.parametrize(("upper", "lower"), [(60, 120), (120, 60)])
def test_a_row_between_two_columns_goes_with_the_one_that_it_stands_at(upper: int, lower: int) -> None:
    # two charts above one another with their frequencies at the foot; those of the lower one could not be read
    above = level_words(range(0, upper + 1, 10))
    below = moved(level_words(range(0, lower + 1, 10)), 0, y_of(upper) - y_of(0) + 230)
    (area,) = chart_areas(frequency_words(y=y_of(upper) + 30) + above + below, (1000, 2500))
    assert area.level.at[-1] == pytest.approx(y_of(upper))


def grid(*, right: float, levels: tuple[int, ...] = LEVELS) -> Pixels:
    """Draw levels and octaves from the axis to a place right of it."""
    picture = np.full((SIZE[1], 2000, 3), 255, np.uint8)
    top, bottom = int(y_of(-10)), int(y_of(120))
    for x in np.arange(LEFT, right + 1, 100).astype(int):
        picture[top:bottom, x : x + 2] = 90
    for level in levels:
        picture[int(y_of(level)) : int(y_of(level)) + 2, int(LEFT) : int(right)] = 90
    return picture


@pytest.mark.parametrize(("octaves", "goes_on"), [(1.0, False), (5.0, True)])
def test_a_grid_that_goes_on_past_the_last_label_read_widens_the_region_or_is_told(
    octaves: float, goes_on: bool
) -> None:
    areas = chart_areas(frequency_words((250, 500, 1000, 2000)) + level_words(), (2000, SIZE[1]))
    end = x_of(8000) + 75 + 100 * octaves
    (area,) = within_frames(areas, ruling_of(grid(right=end)))
    assert area.goes_on == goes_on
    assert (area.box[2] > end) == (not goes_on)


def test_a_box_around_a_chart_and_what_stands_beside_it_is_no_grid_that_goes_on() -> None:
    areas = chart_areas(frequency_words() + level_words(), (2000, SIZE[1]))
    picture = grid(right=x_of(8000))
    picture[int(y_of(-10)) : int(y_of(-10)) + 2, int(LEFT) : 1800] = 90
    picture[int(y_of(120)) : int(y_of(120)) + 2, int(LEFT) : 1800] = 90
    picture[int(y_of(-10)) : int(y_of(120)), 1798:1800] = 90
    (area,) = within_frames(areas, ruling_of(picture))
    assert not area.goes_on
    assert area.box[2] == areas[0].box[2]


@pytest.mark.parametrize(("longer", "goes_on"), [(3, False), (6, True)])
def test_a_few_lines_that_specks_lengthen_are_no_grid_that_goes_on(longer: int, *, goes_on: bool) -> None:
    # seen on a copy: three of fifteen lines ran on into specks at the edge of the sheet, and all values asked
    areas = chart_areas(frequency_words() + level_words(), (2000, SIZE[1]))
    picture = grid(right=x_of(8000))
    for level in LEVELS[:longer]:
        picture[int(y_of(level)) : int(y_of(level)) + 2, int(LEFT) : 1900] = 90
    (area,) = within_frames(areas, ruling_of(picture))
    assert area.goes_on == goes_on


def test_lines_beside_a_chart_at_other_heights_than_its_own_are_no_grid_that_goes_on() -> None:
    # seen on a copy: streaks of toner beside the chart, joined to it by others
    areas = chart_areas(frequency_words() + level_words(), (2000, SIZE[1]))
    picture = grid(right=x_of(8000))
    for level in (*LEVELS[:-1:3], LEVELS[-1]):
        y = int(y_of(level)) + (26 if level < LEVELS[-1] else 0)
        picture[y : y + 2, int(x_of(8000)) - 2 : 1900] = 90
    picture[int(y_of(-10)) : int(y_of(120)), 1898:1900] = 90
    (area,) = within_frames(areas, ruling_of(picture))
    assert not area.goes_on
    assert area.box[2] == areas[0].box[2]


def test_lines_that_run_into_one_another_across_the_whole_sheet_are_no_charts_frame() -> None:
    # seen on a copy whose specks made lines everywhere
    areas = chart_areas(frequency_words() + level_words(), (2000, SIZE[1]))
    picture = grid(right=1999)
    picture[:, 1997:] = picture[:, :3] = picture[:3] = picture[-3:] = 90
    picture[int(y_of(40)) : int(y_of(40)) + 2] = 90
    (area,) = within_frames(areas, ruling_of(picture))
    assert area == areas[0]


@pytest.mark.parametrize(("first", "cut_off"), [(0, True), (40, False)])
def test_a_chart_whose_lines_end_at_the_edge_of_the_sheet_is_cut_off(first: int, cut_off: bool) -> None:
    # seen on a fax: 250 Hz was beyond the paper's edge, and its values were missed without a word
    left = int(x_of(500)) - 100
    picture = grid(right=x_of(8000))[:, left:].copy()
    picture[:, :first] = 255
    labels = frequency_words((500, 1000, 2000, 4000, 8000)) + level_words(x=x_of(8000) + 60)
    (area,) = within_frames(chart_areas(moved(labels, -left), (2000 - left, SIZE[1])), ruling_of(picture))
    assert area.cut_off == cut_off


def test_a_row_of_frequencies_over_numbers_heads_a_table_and_is_no_axis_where_another_row_serves() -> None:
    own = frequency_words((125, 500, 4000))
    heading = tuple(word(str(hz), x_of(hz), y_of(120) + 40) for hz in OCTAVES)
    cells = tuple(word("40", x_of(hz), y_of(120) + 65) for hz in OCTAVES)
    (area,) = chart_areas(own + level_words() + heading + cells, SIZE)
    assert area.frequency.across == pytest.approx(TOP - 30, abs=1)


def test_labels_among_the_shapes_of_a_table_cloth_are_no_chart() -> None:
    # a photo of a page on a patterned cloth: of 1,500 shapes seen as words, four were a row and four a column, and
    # seven values were invented on the cloth
    shapes = tuple(word("o", x, y) for x in range(15, 1000, 33) for y in range(17, 1200, 33))
    labels = frequency_words((500, 1000, 4000, 8000)) + level_words((0, 50, 80, 110))
    assert len(chart_areas(labels, SIZE)) == 1
    assert chart_areas(labels + shapes, SIZE) == ()


def test_labels_among_misread_ones_in_their_own_places_are_a_chart() -> None:
    # a coarse copy: of fourteen levels six could be read, and the chart was taken for words among other words
    levels = [word(str(v) if v in (0, 20, 40, 110, 120) else "i)", LEFT - 60, y_of(v)) for v in range(0, 121, 10)]
    rows = [word(str(hz) if hz != 2000 else "?", x_of(hz), TOP - 30) for hz in OCTAVES]
    assert len(chart_areas((*rows, *levels), SIZE)) == 1
    beside = [
        replace(w, box=(w.box[0], w.box[1] + 22, w.box[2], w.box[3] + 22)) if w.text == "i)" else w for w in levels
    ]
    assert chart_areas((*rows, *beside), SIZE) == ()


def test_a_few_numbers_that_happen_to_lie_like_labels_are_a_chart_only_within_lines() -> None:
    # seen on a newspaper under the page: three numbers in a line of it, and three below one another
    areas = chart_areas(frequency_words((500, 1000, 4000)) + level_words((20, 40, 80)), SIZE)
    assert len(areas) == 1
    assert len(within_frames(areas, ruling_of(grid(right=x_of(8000))))) == 1
    assert within_frames(areas, ruling_of(np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))) == ()


def test_labels_whose_thousands_are_words_of_their_own_are_not_among_other_words() -> None:
    # "2 000" is two words of a file's text; its own parts seemed to be a text's, and five of 630 drawn charts were lost
    parts = []
    for hz in (1000, 2000, 4000, 8000):
        head, tail = word(str(hz // 1000), x_of(hz) - 16, TOP - 30), word("000", x_of(hz) + 8, TOP - 30)
        parts += [Word(f"{head.text} 000", (head.box[0], head.box[1], tail.box[2], tail.box[3]), 0.9), head, tail]
    assert len(chart_areas((*frequency_words((250, 500)), *parts, *level_words((0, 20, 40, 60, 80))), SIZE)) == 1


def test_labels_each_seen_as_two_words_are_no_row_among_other_words() -> None:
    # "1 000" seen as "1" and "000" on a scan: the parts stood between the labels, and the chart was lost
    parts = tuple(
        part
        for hz in (1000, 2000, 4000, 8000)
        for part in (word(str(hz // 1000), x_of(hz) - 16, TOP - 30), word("000", x_of(hz) + 6, TOP - 30))
    )
    (area,) = chart_areas(frequency_words((125, 250, 500)) + parts + level_words(), SIZE)
    assert area.frequency.values == OCTAVES
