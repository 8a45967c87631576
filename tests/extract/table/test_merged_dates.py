"""Dates and ears in cells over several rows, and lines under the last row that are no part of its name."""

from __future__ import annotations

from collections.abc import Sequence

from printed_rows import HZ, LEFT, RIGHT, Printed, read, said, sure, values

DATES = ("2019-05-02", "2020-11-30", "2021-12-01")


def at(*lines: tuple[float, Sequence[str]]) -> list[list[Printed]]:
    """Place printed lines at heights in rows, the frequencies at 0."""
    placed: list[list[Printed]] = [["", "", *HZ]]
    for number, (y, cells) in enumerate(lines, 1):
        placed.append([(text, 0.0, y - number) for text in cells])
    return placed


def dated(rows: list[list[Printed]]) -> list[tuple[str | None, set[tuple[str, float]]]]:
    return [(t.tested_on, {(v.ear, v.level_db_hl) for v in t.thresholds if v.frequency_hz == 500}) for t in read(rows)]


def test_a_date_between_two_rows_is_of_both_of_them() -> None:
    # a date in a merged cell was taken for a heading: each right ear got the date of the test before, and was sure
    lines: list[tuple[float, Sequence[str]]] = []
    for number, date in enumerate(DATES[:2]):
        y = 1.0 + 2 * number
        lines += [(y, ("", "Right AC", *RIGHT)), (y + 0.5, (date,)), (y + 1, ("", "Left AC", *LEFT))]
    assert dated(at(*lines)) == [(date, {("right", 15.0), ("left", 10.0)}) for date in DATES[:2]]
    assert sure(at(*lines)) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_a_date_beside_the_middle_of_three_rows_is_of_all_three() -> None:
    lines: list[tuple[float, Sequence[str]]] = []
    for number, date in enumerate(DATES):
        y = 1.0 + 3 * number
        lines += [(y, ("", "Right AC", *RIGHT)), (y + 1, (date, "Right BC", *RIGHT)), (y + 2, ("", "Left AC", *LEFT))]
    assert [date for date, _ in dated(at(*lines))] == list(DATES)
    assert {t.standing for t in values(at(*lines))} == {"sure"}


def test_a_date_over_its_rows_is_of_the_rows_below_it() -> None:
    lines: list[tuple[float, Sequence[str]]] = []
    for number, date in enumerate(DATES[:2]):
        y = 1.0 + 3 * number
        lines += [(y, (date,)), (y + 1, ("", "Right AC", *RIGHT)), (y + 2, ("", "Left AC", *LEFT))]
    assert dated(at(*lines)) == [(date, {("right", 15.0), ("left", 10.0)}) for date in DATES[:2]]


def test_dates_whose_rows_are_not_clear_make_all_ask() -> None:
    lines = [(1.0, ("", "Right AC", *RIGHT)), (2.0, (DATES[0], "Left AC", *LEFT)), (3.0, ("", "Right AC", *RIGHT)),
             (3.5, (DATES[1],)), (4.0, ("", "Left AC", *LEFT)), (5.0, ("", "Right BC", *RIGHT))]  # fmt: skip
    assert {t.standing for t in values(at(*lines))} == {"ask"}


def test_headings_with_one_row_under_each_name_it() -> None:
    # the headings stand half way between two rows, as names in merged cells do, and all rows were doubtful
    lines = [(1.0, ("", "Right")), (2.0, ("", "Air", *RIGHT)), (3.0, ("", "Left")), (4.0, ("", "Air", *LEFT))]
    assert sure(at(*lines)) == said("right", "air", RIGHT) | said("left", "air", LEFT)


def test_a_note_close_under_the_last_row_is_no_part_of_its_name() -> None:
    # "m masked", whose "=" was lost, went to the name of the last row, all of whose values were masked then
    lines = [(1.0, ("", "Right")), (2.0, ("", "Air", *RIGHT)), (3.0, ("", "Left")), (4.0, ("", "Air", *LEFT)),
             (4.7, ("", "m masked"))]  # fmt: skip
    assert sure(at(*lines)) == said("right", "air", RIGHT) | said("left", "air", LEFT)
