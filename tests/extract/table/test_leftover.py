"""What looks like a chart that was not read, and is none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
import pytest
from by_hand import SIZE, frequency_words, sheet, word

from octavo.extract.page import Word
from octavo.extract.table import all_in_tables, read_tables

HZ = ("500", "1000", "2000", "4000")
ROWS = {"Right air": ("25", "30", "45", "60"), "Left air": ("20", "20", "35", "55")}
REFLEXES = {"Right ipsi": ("85", "90", "95", "absent"), "Right contra": ("95", "100", "105", "110")}


def table(rows: Mapping[str, Sequence[str]], top: float) -> list[Word]:
    lines = [("", HZ), *rows.items()]
    return [
        word(text, x, top + 50.0 * down)
        for down, (name, cells) in enumerate(lines)
        for text, x in [*zip(name.split(), (100.0, 170.0), strict=False),
                        *((cell, 300.0 + 100.0 * i) for i, cell in enumerate(cells))]
    ]  # fmt: skip


def none_left(words: Sequence[Word]) -> bool:
    page = sheet(words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    return all_in_tables(page, read_tables(page, page.words, "given"), ())


def test_a_table_of_reflexes_beside_the_thresholds_is_no_chart_that_was_not_read() -> None:
    assert none_left([*table(ROWS, 300.0), word("Reflexes", 300.0, 730.0), *table(REFLEXES, 800.0)])


@pytest.mark.parametrize(
    "rows",
    [
        {"Right air": ("85", "90", "95", "100"), "Left air": ("75", "90", "95", "110")},  # a profound loss
        {"Right": ("25", "30", "45", "60"), "Left": ("20", "20", "35", "55")},
    ],
)
def test_thresholds_below_a_word_of_reflexes_stay_to_be_asked_about(rows: dict[str, Sequence[str]]) -> None:
    assert not none_left([*table(ROWS, 300.0), word("Reflexes", 300.0, 730.0), *table(rows, 800.0)])


def test_a_lone_axis_beside_a_table_of_reflexes_stays_a_chart_that_was_not_read() -> None:
    assert not none_left([word("Reflexes", 300.0, 230.0), *table(REFLEXES, 300.0), *frequency_words()])


def test_lines_of_numbers_on_a_page_that_nobody_could_read_are_told() -> None:
    words = table(ROWS, 300.0) + table(REFLEXES, 700.0)
    spoiled = [replace(w, text=f"q{w.text[1:]}" if w.text.isalpha() else f"{w.text[:-1]}%", others=(("zz", 0.2),))
               for w in words]  # fmt: skip
    page = sheet(words=tuple(spoiled), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    found = read_tables(page, spoiled, "two-readings")
    assert not found.tables
    assert [r.code for r in found.remarks] == ["table-row-unread"]


def test_numbers_on_a_page_of_words_that_were_read_alike_are_no_table() -> None:
    said = ("Invoice", "number", "order", "paid", "total", "twice", "again")
    told = [word(text, 100.0 + 120 * i, 200.0) for i, text in enumerate(said)]
    numbers = [word(f"{7 * (i + j)}1", 100.0 + 120 * i, 300.0 + 40 * j) for i in range(6) for j in range(4)]
    words = [replace(w, others=((w.text, 0.9),)) for w in (*told, *numbers)]
    page = sheet(words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    assert read_tables(page, words, "two-readings").remarks == ()
