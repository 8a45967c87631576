"""Tables in layouts that our painter does not draw: each value is found and its ear is right, or a person is asked."""

from __future__ import annotations

import pytest
from printed_rows import HZ, LEFT, RIGHT, Printed, read, said, sure, values


@pytest.mark.parametrize(
    "title", ["Change since last year", "Standard threshold shift", "Values in dB SPL", "Age-corrected thresholds",
              "Hörverlust: Differenz", "Umbrales esperados", "Seuils corrigés", "Expected at 60 years",
              "Ambient levels in the booth"],
)  # fmt: skip
def test_numbers_that_a_title_calls_no_thresholds_are_not_sure(title: str) -> None:
    rows = [[(title, 2.0, 0.0)], ["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]]
    assert {t.standing for t in values(rows)} <= {"ask"}


@pytest.mark.parametrize(
    "title", ["Thresholds in dB HL", "Audiogramm vom 3.4.2021", "Résultats du test", "Resultados", "Test 2021-04-03"]
)
def test_thresholds_under_a_usual_title_are_sure(title: str) -> None:
    rows = [[(title, 2.0, 0.0)], ["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]]
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_levels_in_db_spl_by_the_corner_of_their_table_are_not_sure() -> None:
    assert not sure([["dB SPL", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]])


def test_rows_below_a_heading_of_something_else_are_not_sure() -> None:
    assert not sure([["", *HZ], ["Yearly drift"], ["Right AC", *RIGHT], ["Left AC", *LEFT]])


def test_uncomfortable_levels_by_their_title_are_no_sure_thresholds() -> None:
    assert not sure([[("Uncomfortable levels", 2.0, 0.0)], ["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]])


def test_a_title_that_begins_far_before_its_table_is_not_read_in_part() -> None:
    title = "Air conduction thresholds in dB hearing level with the results of the tests"
    rows = [[(title, 2.0, 0.0)], [*[""] * 6, *HZ], [*[""] * 5, "Right", *RIGHT]]
    assert sure(rows) == said("right", "air", RIGHT)


def test_a_note_of_masking_in_a_title_masks_no_value_without_the_sign() -> None:
    rows = [[("Air conduction (* = masked)", 2.0, 0.0)], ["", *HZ], ["Right", "15", "20", "30*", "45"]]
    assert sure(rows) == said("right", "air", ("15", "20", "", "45")) | {("right", "air", True, 2000.0, 30.0)}


def test_a_column_of_averages_between_frequencies_is_no_sure_value_of_its_neighbour() -> None:
    rows = [["", "500", "1000", "2000", "Mean", "3000", "4000"], ["Right AC", *RIGHT[:3], "20", "40", "45"],
            ["Left AC", "10", "20", "", "15", "", "60"]]  # fmt: skip
    assert ("left", "air", False, 3000.0, 15.0) not in sure(rows)
    assert ("left", "air", False, 2000.0, 15.0) not in sure(rows)
    assert ("left", "air", False, 4000.0, 60.0) in sure(rows)


def test_ears_in_cells_merged_over_two_rows_go_to_both() -> None:
    # each name stands between its rows: "Right" is no heading over the row below it and the next
    rows = [["", "", *HZ], [("Right", 0.0, 0.5), "AC", *RIGHT], ["", "BC", *RIGHT], [("Left", 0.0, 0.5), "AC", *LEFT],
            ["", "BC", *LEFT]]  # fmt: skip
    assert sure(rows) == (said("right", "air", RIGHT) | said("right", "bone", RIGHT)
                          | said("left", "air", LEFT) | said("left", "bone", LEFT))  # fmt: skip


def test_one_ear_in_a_merged_cell_leaves_the_others_rows_to_be_asked_about() -> None:
    rows = [["", "", *HZ], ["", "AC", *RIGHT], ["", "BC", *RIGHT], [("Left", 0.0, 0.5), "AC", *LEFT],
            ["", "BC", *LEFT]]  # fmt: skip
    assert not sure(rows)


def test_columns_of_one_ear_at_each_side_of_the_frequencies_are_read() -> None:
    rows = [[("Right", 0.5, 0.0), "", "", ("Left", 0.5, 0.0)], ["BC", "AC", "Hz", "AC", "BC"]]
    rows += [[r, r, hz, level, level] for r, hz, level in zip(RIGHT, HZ, LEFT, strict=True)]
    assert sure(rows) == (said("right", "air", RIGHT) | said("right", "bone", RIGHT)
                          | said("left", "air", LEFT) | said("left", "bone", LEFT))  # fmt: skip


def test_two_blocks_of_frequencies_share_the_names_before_the_first() -> None:
    rows = [["", ("Air", 1.5, 0.0), "", "", "", ("Bone", 1.5, 0.0)], ["", *HZ, *HZ], ["Right", *RIGHT, *RIGHT],
            ["Left", *LEFT, *LEFT]]  # fmt: skip
    assert sure(rows) == (said("right", "air", RIGHT) | said("right", "bone", RIGHT)
                          | said("left", "air", LEFT) | said("left", "bone", LEFT))  # fmt: skip


def test_an_ear_in_the_corner_of_its_table_is_that_of_its_rows() -> None:
    rows = [["Right", *HZ], ["Air", *RIGHT], ["Bone", *RIGHT], ["Left", *HZ], ["Air", *LEFT], ["Bone", *LEFT]]
    assert sure(rows) == (said("right", "air", RIGHT) | said("right", "bone", RIGHT)
                          | said("left", "air", LEFT) | said("left", "bone", LEFT))  # fmt: skip


def test_rows_of_several_dates_are_tests_of_their_own() -> None:
    rows = [["", "", "", *HZ], ["2019-03-12", "", "R AC", *RIGHT], ["2019-03-12", "", "L AC", *LEFT],
            ["2021-04-15", "", "R AC", *LEFT], ["2021-04-15", "", "L AC", *RIGHT]]  # fmt: skip
    assert [(table.tested_on, len(table.thresholds)) for table in read(rows)] == [("2019-03-12", 8), ("2021-04-15", 8)]
    assert {t.standing for t in values(rows)} == {"sure"}


def test_empty_columns_join_no_numbers_of_two_ears_in_one() -> None:
    heads = ["Hz", "R AC", ("R AC m", 1.5, 0.0), ("R BC", 2.5, 0.0), ("L AC", 2.0, 0.0)]
    rows = [heads, *([hz, r, "", (b, 2.5, 0.0), (level, 2.0, 0.0)]
                     for hz, r, b, level in zip(HZ, RIGHT, RIGHT, LEFT, strict=True))]  # fmt: skip
    assert sure(rows) == said("right", "air", RIGHT) | said("right", "bone", RIGHT) | said("left", "air", LEFT)


@pytest.mark.parametrize("text", ["NR@110", "NR 110", "NR (110)", "NR > 110", "N.R. 110 dB", "NR=110"])
def test_no_response_before_its_level_is_read(text: str) -> None:
    found = values([["", *HZ], ["Right AC", *RIGHT[:3], text]])
    assert [(t.level_db_hl, t.response) for t in found if t.frequency_hz == 4000] == [(110.0, False)]


def test_rising_levels_of_a_row_are_no_frequencies_in_khz() -> None:
    rows = [["", *HZ], ["Right AC", *RIGHT], ["Gain", "10", "12", "18", "20"], ["Left AC", *LEFT]]
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)


NAMED = (("right", "air", RIGHT), ("left", "air", LEFT), ("right", "bone", RIGHT), ("left", "bone", LEFT))


@pytest.mark.parametrize(("first", "second"), [(-0.25, 0.25), (0.0, 0.42)], ids=["beside the middle", "beside the top"])
@pytest.mark.parametrize("ear_first", [True, False])
def test_names_wrapped_over_two_lines_name_their_own_row_alone(first: float, second: float, ear_first: bool) -> None:
    # "right ear", in the second line of one row's name, was taken for the heading over the next row
    rows: list[list[Printed]] = [["", *HZ]]
    for number, (ear, way, levels) in enumerate(NAMED):
        lines = (f"{ear} ear", f"{way} conduction") if ear_first else (f"{way} conduction", f"{ear} ear")
        for text, down in zip(lines, (first, second), strict=True):
            rows.append([(text, 0.0, number + 1 + down - len(rows))])
        rows.append(["", *((level, 0.0, number + 1.0 - len(rows)) for level in levels)])
    found: set[tuple[str, str, bool, float, float]] = set()
    assert sure(rows) == found.union(*(said(ear, way, levels) for ear, way, levels in NAMED))


def test_rows_below_a_heading_of_masking_levels_are_no_sure_thresholds() -> None:
    rows = [["", *HZ], ["Right AC", *RIGHT[:3]], ["Masking level"], ["Right AC", "", "", "", "60"]]
    assert ("right", "air", False, 4000.0, 60.0) not in sure(rows)


def test_a_title_at_the_margin_names_a_table_in_the_middle_of_the_page() -> None:
    rows = [["Air conduction"], [*[""] * 6, *HZ], [*[""] * 5, "Right", *RIGHT]]
    assert sure(rows) == said("right", "air", RIGHT)


def test_columns_beyond_a_wide_column_of_what_was_not_tested_are_read() -> None:
    # on a scan, the left ear's column stood 41 heights of a word away: it was lost, and the page stood as sure
    heads: list[Printed] = [("R AC", 0.5, 0.0), ("L AC", 6.2, 0.0)]
    rows = [
        ["Hz", *heads],
        *([hz, (r, 0.5, 0.0), (level, 6.2, 0.0)] for hz, r, level in zip(HZ, RIGHT, LEFT, strict=True)),
    ]
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_numbers_by_hand_above_and_below_their_names_stay_in_their_rows() -> None:
    # "Right air", a little below its numbers, was taken for the heading over the left ear's
    rows: list[list[Printed]] = [["", *HZ]]
    for name, levels in (("Right air", RIGHT), ("Left air", LEFT)):
        offs = (-0.35, -0.3, 0.3, -0.3)
        rows.append([name, *((level, 0.0, off) for level, off in zip(levels, offs, strict=True))])
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_rows_that_stand_wide_apart_for_numbers_by_hand_are_all_read() -> None:
    rows: list[list[Printed]] = [["", *HZ]]
    for number, (ear, way, levels) in enumerate(NAMED):  # 1.6 rows apart: 5.7 heights of a word
        down = 1.6 * (number + 1) - 1 - number
        rows.append([(f"{ear} {way}", 0.0, down), *((level, 0.0, down) for level in levels)])
    found: set[tuple[str, str, bool, float, float]] = set()
    assert sure(rows) == found.union(*(said(ear, way, levels) for ear, way, levels in NAMED))


def test_a_title_of_shifts_that_stands_far_over_its_table_counts() -> None:
    rows = [[("Shift since 2019", 2.0, -1.8)], ["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT]]
    assert not sure(rows)


def test_numbers_by_hand_above_the_first_frequency_are_no_heads_of_their_columns() -> None:
    rows: list[list[Printed]] = [["Hz", ("R AC", 1.0, 0.0), ("L AC", 2.0, 0.0)]]
    for number, (hz, r, level) in enumerate(zip(HZ, RIGHT, LEFT, strict=True)):
        off = -0.2 if number == 0 else 0.0
        rows.append([hz, (r, 1.0, off), (level, 2.0, off)])
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_a_number_written_anew_beside_a_wrong_one_makes_no_second_column() -> None:
    rows: list[list[Printed]] = [["Hz", ("R AC", 1.0, 0.0), ("L AC", 2.0, 0.0)]]
    for number, (hz, r, level) in enumerate(zip(HZ, RIGHT, LEFT, strict=True)):
        written: list[Printed] = [(r, 1.0, 0.0)] if number < 3 else [("80", 0.75, 0.0), (r, 0.25, 0.0)]
        rows.append([hz, *written, (level, 2.0 if number < 3 else 1.0, 0.0)])
    assert sure(rows) == said("right", "air", (*RIGHT[:3], "")) | said("left", "air", LEFT)


def test_cells_whose_brackets_touch_are_two() -> None:
    # "[120 NR][120 NR]" came as the words "[120", "NR][120" and "NR]", and the values were missed
    rows: list[list[Printed]] = [
        ["", *HZ],
        ["Right AC", "[20]", "[30]", ("[120 NR][110 NR]", 0.5, 0.0), ""],
        ["Left AC", *LEFT],
    ]
    found = [(t.frequency_hz, t.level_db_hl, t.response, t.masked) for t in values(rows) if t.ear == "right"]
    assert found[-2:] == [(2000.0, 120.0, False, True), (4000.0, 110.0, False, True)]


@pytest.mark.parametrize("title", ["Ototoxicity monitoring", "Follow-up", "Warble tone thresholds"])
def test_titles_of_monitoring_and_of_the_tones_used_leave_the_rows_sure(title: str) -> None:
    rows: list[list[Printed]] = [[(title + ", air conduction", 2.0, 0.0)], ["", *HZ], ["Right", *RIGHT]]
    assert sure(rows) == said("right", "air", RIGHT)


def test_a_table_of_other_numbers_below_a_heading_takes_none_of_its_values_from_the_thresholds() -> None:
    rows = [[("Thresholds in dB HL", 2.0, 0.0)], ["", *HZ], ["Right AC", *RIGHT], ["Left AC", *LEFT],
            [("Middle ear function", 1.0, 0.0)], ["Right", "C", "-181", "1.17", "1.0"],
            ["Left", "C", "-197", "0.76", "1.2"]]  # fmt: skip
    assert sure(rows) == said("right", "air", RIGHT) | said("left", "air", LEFT)
