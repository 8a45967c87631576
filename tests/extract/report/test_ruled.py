"""Columns that stand close together, with words placed by hand."""

from __future__ import annotations

import numpy as np

from octavo.extract.page import Word
from octavo.extract.report.lines import Line, lines_of
from octavo.extract.report.ruled import cut_into_columns

HIGH = 20


def words(y: float, *placed: tuple[float, float, str]) -> list[Word]:
    return [Word(text, (left, y, right, y + HIGH)) for left, right, text in placed]


def texts(lines: tuple[Line, ...]) -> list[list[str]]:
    return [[cell.text for cell in line.cells] for line in lines]


def cut(*rows: list[Word], rules: tuple[tuple[int, int, int], ...] = (), grey: int = 140) -> list[list[str]]:
    """Cut lines on a white sheet with vertical rules, each at an x from one y to another."""
    sheet = np.full((400, 900), 255, np.uint8)
    for x, top, foot in rules:
        sheet[top:foot, x : x + 2] = grey
    return texts(cut_into_columns(lines_of([one for row in rows for one in row]), sheet))


HEADS = ((100, 150, "SRT"), (162, 210, "WRS"))


def test_a_rule_between_two_heads_parts_them() -> None:
    assert cut(words(100, *HEADS), rules=((155, 80, 140),)) == [["SRT", "WRS"]]
    assert cut(words(100, *HEADS), rules=((155, 80, 140),), grey=225) == [["SRT", "WRS"]]


def test_a_stroke_no_higher_than_the_letters_is_no_rule() -> None:
    assert cut(words(100, *HEADS), rules=((155, 100, 120),)) == [["SRT WRS"]]


def test_words_without_a_rule_between_them_stay_together() -> None:
    assert cut(words(100, *HEADS), rules=((60, 80, 140), (240, 80, 140))) == [["SRT WRS"]]


def test_numbers_over_numbers_are_columns_though_close() -> None:
    rows = words(100, (100, 140, "65"), (155, 195, "55")), words(130, (100, 140, "70"), (155, 195, "60"))
    assert cut(*rows) == [["65", "55"], ["70", "60"]]


def test_two_numbers_on_one_line_alone_stay_together() -> None:
    assert cut(words(100, (100, 140, "65"), (155, 195, "55"))) == [["65 55"]]


def test_numbers_a_space_apart_stay_together() -> None:
    rows = words(100, (100, 140, "12"), (146, 186, "03")), words(130, (100, 140, "05"), (146, 186, "06"))
    assert cut(*rows) == [["12 03"], ["05 06"]]


def test_heads_that_end_where_their_columns_end_are_parted() -> None:
    heads = words(100, (100, 150, "Noise"), (156, 172, "dB"), (182, 230, "SNR"), (236, 252, "dB"))
    values = words(130, (150, 172, "5.0"), (230, 252, "6.4"))
    assert cut(heads, values) == [["Noise dB", "SNR dB"], ["5.0", "6.4"]]


def test_a_title_over_two_columns_stays_one() -> None:
    title = words(100, (100, 200, "Speech"), (206, 330, "audiometry"))
    values = words(130, (100, 122, "50"), (300, 322, "64"))
    assert cut(title, values) == [["Speech audiometry"], ["50", "64"]]


def test_a_sentence_over_a_table_stays_one() -> None:
    text = words(100, (100, 150, "The"), (156, 260, "results"), (266, 300, "are"), (306, 400, "below"))
    values = words(130, (100, 122, "50"), (200, 222, "64"), (380, 402, "70"))
    assert cut(text, values)[0] == ["The results are below"]
