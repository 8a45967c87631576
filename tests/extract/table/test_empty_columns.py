"""Columns that have a head and no numbers: the headings over them stay where they are."""

from __future__ import annotations

from collections.abc import Sequence

from printed_rows import HZ, LEFT, RIGHT, Printed, said, sure, values


def below(*columns: tuple[str, ...]) -> list[list[Printed]]:
    return [[hz, *cells] for hz, *cells in zip(HZ, *columns, strict=True)]


EMPTY = ("",) * len(HZ)


def test_the_numbers_beside_a_right_ear_without_any_are_the_left_ears() -> None:
    # "Right" stood over an empty column, "Left" between two: both columns were taken for the right ear's, and were sure
    rows: list[list[Printed]] = [["", "Right", ("Left", 0.5, 0.0)], ["Hz", "Air", "Air", "Bone"]]
    rows += below(EMPTY, LEFT, RIGHT)
    assert sure(rows) == said("left", "air", LEFT) | said("left", "bone", RIGHT)


def test_empty_columns_on_both_sides_leave_each_ear_its_own() -> None:
    heads: list[Printed] = ["Hz", "AC", "AC m", "BC", "AC", "AC m", "BC"]
    rows: list[list[Printed]] = [["", "", "R", "", "", "L"], heads, *below(EMPTY, RIGHT, LEFT, EMPTY, LEFT, RIGHT)]
    assert sure(rows) == (
        {(ear, "air", True, hz, level) for ear, levels in (("right", RIGHT), ("left", LEFT))
         for hz, level in zip(map(float, HZ), map(float, levels), strict=True)}
        | said("right", "bone", LEFT) | said("left", "bone", RIGHT)
    )  # fmt: skip


def test_an_ear_that_is_named_over_no_column_may_be_that_of_any() -> None:
    rows: list[list[Printed]] = [["Air conduction"], ["Hz", "Right", ("Left", 0.5, 0.0)], *below(EMPTY, LEFT, RIGHT)]
    assert {t.standing for t in values(rows)} <= {"ask"}


def test_the_heads_of_a_table_beside_it_are_none_of_its_columns() -> None:
    rows: list[Sequence[Printed]] = [
        ["", ("Right ear", 0.5, 0.0), "", "", "", ("Left ear", 0.5, 0.0)],
        ["Hz", "AC", "BC", "", "Hz", "AC", "BC"],
    ]
    rows += [[hz, r, b, "", hz, a, c] for hz, r, b, a, c in zip(HZ, RIGHT, LEFT, LEFT, RIGHT, strict=True)]
    assert sure(rows) == (said("right", "air", RIGHT) | said("right", "bone", LEFT)
                          | said("left", "air", LEFT) | said("left", "bone", RIGHT))  # fmt: skip
