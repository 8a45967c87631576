"""Rows whose names and cells are wrapped over several lines, as narrow columns make them."""

from __future__ import annotations

import pytest
from printed_rows import HZ, LEFT, RIGHT, said, values


def lines(name: str, cells: tuple[str, ...], top: float) -> list[list[tuple[str, float, float]]]:
    """Print each word of a name and of the cells on a line of its own, a third of a row apart, around one middle."""
    columns = [text.split() for text in (name, *cells)]
    return [
        [(word, float(column), top + (k - (len(words) - 1) / 2) * 0.34)]
        for column, words in enumerate(columns)
        for k, word in enumerate(words)
    ]


def page(*rows: tuple[str, tuple[str, ...]]) -> list[list[str | tuple[str, float, float]]]:
    # rows stand two steps apart, lines a third of one
    made: list[list[str | tuple[str, float, float]]] = [["", *HZ]]
    for number, (name, cells) in enumerate(rows):
        for (entry,) in lines(name, cells, 1.5 + 1.6 * number):
            text, across, down = entry
            made.append([(text, across, down - len(made))])
    return made


def test_rows_with_names_of_three_and_four_lines_are_each_their_own() -> None:
    rows = page(("Right ear air", RIGHT), ("Right ear air masked", LEFT), ("Left ear bone", LEFT))
    found = {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.standing) for t in values(rows)}
    masked = {(ear, way, True, *rest) for ear, way, _, *rest in said("right", "air", LEFT)}
    assert found == {(*one, "sure") for one in said("right", "air", RIGHT) | masked | said("left", "bone", LEFT)}


def test_a_note_of_masking_near_the_last_row_is_no_part_of_its_name() -> None:
    rows = [["", *HZ], ["Right air", *RIGHT], ["Left air", *LEFT], ["Left bone", *RIGHT], [("|", 0.3, -0.7)],
            [("m = masked", 0.0, -1.2)]]  # fmt: skip
    found = {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.standing) for t in values(rows)}
    told = said("right", "air", RIGHT) | said("left", "air", LEFT) | said("left", "bone", RIGHT)
    assert found == {(*one, "sure") for one in told}


@pytest.mark.parametrize("phrase", ["no response (110)", "keine Reaktion (110)", "sin respuesta (110)"])
def test_a_level_in_brackets_under_no_response_is_no_masked_level_that_was_heard(phrase: str) -> None:
    rows = page(("Right ear air", RIGHT), ("Left ear air", ("10", "20", phrase, phrase)))
    left = {(t.frequency_hz, t.level_db_hl, t.response, t.masked) for t in values(rows) if t.ear == "left"}
    assert left == {
        (500.0, 10.0, True, False), (1000.0, 20.0, True, False),
        (2000.0, 110.0, False, False), (4000.0, 110.0, False, False),
    }  # fmt: skip


def test_a_cell_of_two_lines_that_says_not_tested_leaves_its_row_whole() -> None:
    rows = page(("Right ear", RIGHT), ("Left ear", ("10", "not tested", "35", "60")))
    assert {t.frequency_hz for t in values(rows) if t.ear == "left"} == {500.0, 2000.0, 4000.0}


def test_a_long_name_that_reaches_under_a_wide_first_column_keeps_its_last_word() -> None:
    head = ["", ("500", 0.6, 0.0), "1000", "2000", "4000"]
    masked = ("", "20", "35", "60")
    found = values([head, ["Right air", ("15", 0.6, 0.0), *RIGHT[1:]], [("Right air masked", 0.5, 0.0), *masked]])
    assert {t.frequency_hz for t in found if t.masked} == {1000.0, 2000.0, 4000.0}
    assert all(t.standing == "sure" for t in found)


def test_words_over_two_narrow_cells_stand_in_the_one_at_their_middle() -> None:
    found = values([["", *HZ], ["Right air", "15", ("no response", -0.1, 0.0), "30", "45"], ["Left air", *LEFT]])
    assert {t.frequency_hz for t in found if t.ear == "right"} == {500.0, 2000.0, 4000.0}
    assert all(t.standing == "sure" for t in found)
