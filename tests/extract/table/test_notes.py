"""What notes beside, under and across a table of thresholds say of its values, and how its frequencies stand."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from by_hand import SIZE, sheet, word

from octavo.extract.page import Pixels, Word
from octavo.extract.table import Tables, read_tables
from octavo.interpret.record import Threshold

HZ = ("250", "500", "1000", "2000", "4000")
RIGHT, LEFT = ("10", "15", "20", "30", "45"), ("5", "10", "20", "35", "60")
LETTER = 7.84


def text_at(text: str, x: float, y: float) -> list[Word]:
    """Print words one after another, the first beginning at x."""
    words: list[Word] = []
    for part in text.split():
        words.append(word(part, x + LETTER * len(part) / 2, y))
        x += LETTER * (len(part) + 1)
    return words


def row(name: str, cells: Sequence[str], y: float) -> list[Word]:
    return text_at(name, 120.0, y) + [word(t, 350 + 90.0 * i, y) for i, t in enumerate(cells) if t]


def both(heads: Sequence[str] = HZ, right: Sequence[str] = RIGHT, left: Sequence[str] = LEFT) -> list[Word]:
    return row("Hz", heads, 300) + row("Right AC", right, 340) + row("Left AC", left, 380)


def read(words: Sequence[Word], pixels: Pixels | None = None) -> Tables:
    blank = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    return read_tables(sheet("drawn", words=tuple(words), pixels=blank if pixels is None else pixels), words, "given")


def values(words: Sequence[Word], pixels: Pixels | None = None) -> list[Threshold]:
    return [t for table in read(words, pixels).tables for t in table.thresholds]


def sure(words: Sequence[Word], pixels: Pixels | None = None) -> set[tuple[str, bool, float, float]]:
    return {
        (t.ear, t.masked, t.frequency_hz, t.level_db_hl) for t in values(words, pixels) if t.standing == "sure"
    }  # fmt: skip


def said(ear: str, levels: Sequence[str], heads: Sequence[str] = HZ) -> set[tuple[str, bool, float, float]]:
    return {(ear, False, float(hz), float(level)) for hz, level in zip(heads, levels, strict=True)}


@pytest.mark.parametrize(
    "note",
    ["All values in dB SPL", "Note: values are corrected for age.", "Table 2. Threshold shift from baseline",
     "Estimated from the ABR.", "Alle Werte sind geschätzt", "Valores corregidos por la edad"],
)  # fmt: skip
def test_numbers_that_a_note_below_calls_no_thresholds_are_not_sure(note: str) -> None:
    assert not sure([*both(), *text_at(note, 120, 430)])


@pytest.mark.parametrize(
    "note", ["Results within normal limits", "Standard threshold shift: none", "Speech at 65 dB SPL", "No change"]
)
def test_a_usual_note_below_leaves_thresholds_sure(note: str) -> None:
    assert len(sure([*both(), *text_at(note, 120, 430)])) == 10


def test_the_title_of_the_next_table_is_no_note_of_the_one_above() -> None:
    other = [(w.text, (w.box[0] + w.box[2]) / 2, w.box[1] + 7 + 200) for w in both()]
    below = [word(text, x, y) for text, x, y in other]
    words = [*both(), *text_at("Table 2: threshold shift", 120, 460), *below]
    assert sure(words) == said("right", RIGHT) | said("left", LEFT)


@pytest.mark.parametrize(
    "note", ["Values in red: masked", "Underlined values were measured with masking.", "Bold: masked",
             "Kursiv = vertäubt", "Valores en negrita: enmascarados"],
)  # fmt: skip
def test_levels_whose_masking_only_a_colour_or_a_face_tells_are_not_sure(note: str) -> None:
    found = values([*both(), *text_at(note, 120, 430)])
    assert {t.why_ask for t in found} == {("masking-uncertain",)}


def test_a_charts_key_of_colours_and_masking_leaves_a_table_sure() -> None:
    assert len(sure([*both(), *text_at("Right red, left blue, masked filled", 120, 430)])) == 10
    assert len(sure([*both(), *text_at("Route Level Masked", 120, 430)])) == 10  # "rote" is red in German


def test_a_row_of_the_noise_that_masks_is_no_masked_threshold() -> None:
    words = [*both(), *row("Right AC M", ("", "", "50", "55", "60"), 420)]
    words += text_at("M: masking noise in the opposite ear", 120, 470)
    assert sure(words) == said("right", RIGHT) | said("left", LEFT)


def test_a_note_of_several_words_still_says_that_its_sign_means_masked() -> None:
    words = both(left=(*LEFT[:4], "60*")) + text_at("* with contralateral masking", 120, 430)
    assert ("left", True, 4000.0, 60.0) in sure(words)


@pytest.mark.parametrize("first", ["()*", '()"', "( )="])
def test_brackets_whose_equals_sign_runs_into_them_are_still_explained(first: str) -> None:
    words = both(right=("(10)", *RIGHT[1:])) + text_at(f"{first} masked NR no response", 120, 440)
    found = [t for table in read(words).tables for t in table.thresholds if t.masked]
    assert [(t.level_db_hl, t.standing) for t in found] == [(10, "sure")]


@pytest.mark.parametrize("cell", ["70+*", "70\u2193*"])
def test_a_starred_level_beside_a_cell_that_was_not_tested_is_no_note_of_the_star(cell: str) -> None:
    words = both(right=(cell, "CNT", *RIGHT[2:])) + text_at("* = masked", 120, 440)
    found = [t for table in read(words).tables for t in table.thresholds if t.masked]
    assert [(t.level_db_hl, t.response, t.standing) for t in found] == [(70, False, "sure")]


def test_a_remark_across_a_table_does_not_end_it() -> None:
    words = row("Hz", HZ, 300) + row("Right AC", RIGHT, 340)
    words += text_at("The patient was tired here and a break of ten minutes was taken before the next ear", 120, 380)
    assert sure(words + row("Left AC", LEFT, 420)) == said("right", RIGHT) | said("left", LEFT)


def test_a_row_far_below_its_table_is_told() -> None:
    words = row("Hz", HZ, 300) + row("Right AC", RIGHT, 330) + row("Left AC", LEFT, 480)
    assert "table-row-unread" in {r.code for r in read(words).remarks}


def test_frequencies_in_the_order_of_the_test_are_all_read() -> None:
    heads = ("1000", "2000", "4000", "8000", "500", "250")
    right, left = ("25", "30", "50", "55", "20", "15"), ("20", "40", "65", "75", "15", "10")
    assert sure(both(heads, right, left)) == said("right", right, heads) | said("left", left, heads)


def test_a_frequency_tested_twice_asks_and_loses_none_before_it() -> None:
    heads = ("250", "500", "1000", "1000", "2000", "4000", "8000")
    right, left = ("15", "20", "25", "30", "30", "50", "55"), ("10", "15", "20", "25", "40", "65", "75")
    found = values(both(heads, right, left))
    assert len(found) == 14
    assert {t.frequency_hz for t in found if t.standing == "ask"} == {1000.0}


def test_thousands_apart_by_a_space_are_frequencies() -> None:
    heads = ("250", "500", "1 000", "2 000", "4 000")
    words = row("Right AC", RIGHT, 340) + row("Left AC", LEFT, 380)
    for i, head in enumerate(heads):
        words += text_at(head, 350 + 90 * i - LETTER * len(head) / 2, 300)
    assert sure(words) == said("right", RIGHT) | said("left", LEFT)


def test_a_speck_read_as_one_kilohertz_does_not_cut_a_row_of_frequencies_in_hertz() -> None:
    assert sure([*both(), word("1", 500, 300)]) == said("right", RIGHT) | said("left", LEFT)


def test_a_column_of_even_steps_beside_frequencies_is_no_level_axis() -> None:
    """On a scan the thresholds of a sloping loss, 20 to 50 dB in steps of 5, were taken for the labels of a chart."""
    levels = [str(level) for level in range(20, 55, 5)]
    heads = ("250", "500", "1000", "2000", "3000", "4000", "8000")
    words = [*text_at("Hz", 120, 250), word("Right", 400, 250), word("Left", 500, 250)]
    for i, (hz, level) in enumerate(zip(heads, levels, strict=True)):
        words += [word(hz, 150, 290 + 40 * i), word(level, 400, 290 + 40 * i), word(level, 500, 290 + 40 * i)]
    words += text_at("Air conduction", 250, 200)
    assert sure(words) == said("right", levels, heads) | said("left", levels, heads)


def test_a_number_that_is_struck_through_is_not_sure() -> None:
    pixels = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    big = [word(t, 350 + 90.0 * i, 340, height=24.0) for i, t in enumerate(RIGHT)]
    words = [*row("Hz", HZ, 300), *text_at("Right AC", 120, 340), *big]
    left, top, right, bottom = (round(side) for side in big[2].box)
    pixels[(top + bottom) // 2 : (top + bottom) // 2 + 2, left - 4 : right + 4] = 40
    assert {t.frequency_hz for t in values(words, pixels) if t.standing == "ask"} == {1000.0}


def test_sound_field_with_hearing_aids_is_aided() -> None:
    words = row("Hz", HZ, 300) + row("Field without HA", RIGHT, 340) + row("Field with HA", LEFT, 380)
    assert {(t.aided, t.level_db_hl) for t in values(words) if t.frequency_hz == 4000} == {(False, 45), (True, 60)}


def test_a_note_of_signs_below_a_table_is_no_row_that_was_not_read() -> None:
    note = [*text_at("m masked", 120, 420), *text_at("no response at this level", 320, 420)]
    assert read([*both(), *note]).remarks == ()


def test_a_piece_of_a_fold_between_a_title_and_its_table_names_no_ear() -> None:
    # it was read as an l: on a fax all values of the right ear became the left one's, and the right ear was not told
    title = text_at("Right ear", 120, 250)
    bar = word("l", 330, 285)
    assert {t.ear for t in values([*title, bar, *row("Hz", HZ, 300), *row("Air", RIGHT, 340)])} == {"right"}
