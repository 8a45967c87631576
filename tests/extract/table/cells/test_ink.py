"""What the ink of a table tells: numbers in print or by hand, dashes."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest
from by_hand import SIZE, sheet, word

from octavo.extract.page import Word
from octavo.extract.table.cells.ink import printed
from octavo.extract.table.cells.legend import masking_by_notes
from octavo.extract.table.reading import read_tables, seen_tables

HZ = (500, 1000, 2000, 4000)


def read_twice(one: Word) -> Word:
    return replace(one, others=((one.text, 0.9),))


def in_brackets(text: str, x: float, y: float) -> Word:
    """Print a level in brackets, which stand higher than the digits in them."""
    plain = word(text, x, y)
    left, top, right, bottom = plain.box
    return replace(plain, box=(left, top - 2, right, bottom + 3))


def test_printed_levels_in_brackets_are_not_by_hand() -> None:
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    for y, ear, texts in ((330, "Right", ("25", "30", "[45]", "[60]")), (360, "Left", ("20", "20", "[35]", "[55]"))):
        words += [word(ear, 150, y), word("air", 220, y)]
        words += [(in_brackets if "[" in t else word)(t, 400 + 90 * i, y) for i, t in enumerate(texts)]
    twice = tuple(read_twice(w) for w in words)
    page = sheet(words=twice, pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    (table,) = seen_tables(page, twice, "two-readings").tables
    assert printed(table.layout)
    assert not table.by_hand


def test_print_of_which_a_rule_made_one_rows_boxes_higher_is_not_by_hand() -> None:
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    for y, ear, more in ((330, "Right", 0.0), (360, "Left", 1.5)):
        words += [word(ear, 150, y), word("air", 220, y)]
        plain = [word(t, 400 + 90 * i, y) for i, t in enumerate(("25", "30", "45", "60"))]
        words += [replace(w, box=(w.box[0], w.box[1] - more, w.box[2], w.box[3] + more)) for w in plain]
    twice = tuple(read_twice(w) for w in words)
    page = sheet(words=twice, pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    (table,) = seen_tables(page, twice, "two-readings").tables
    assert not table.by_hand


def test_a_note_whose_empty_brackets_are_read_as_a_letter_still_explains_them() -> None:
    assert masking_by_notes([word("O", 100, 300), word("=", 115, 300), word("masked", 150, 300)]) == {"()": True}
    assert masking_by_notes([word("Older", 100, 300), word("masked", 150, 300)]) == {}
    assert masking_by_notes([word("O", 100, 300), word("not", 130, 300), word("masked", 170, 300)]) == {}


def test_a_note_of_masking_among_others_explains_its_whole_brackets() -> None:
    # "( ) = masked   > = no response at this level": the first was read as "O-" by one reader and "()=" by the other
    sign = replace(word("O-", 100, 300), others=(("()=", 0.07),))
    others = [word(text, 250 + 60 * i, 300) for i, text in enumerate(("no", "response", "at", "this", "level"))]
    assert masking_by_notes([sign, word("masked", 150, 300), *others]) == {"()": True}
    assert masking_by_notes([word("O", 100, 300), word("masked", 150, 300), *others]) == {}  # a circle of a chart's key


@pytest.mark.parametrize("sign", ["arrow", "ring", "frame"])
def test_a_sign_drawn_beside_a_number_of_a_drawn_page_makes_it_ask(sign: str) -> None:
    # arrows that a PDF draws with its pen are no words, and "115" with one behind it was a sure response
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    words += [word("Right", 150, 340), word("air", 220, 340)]
    words += [word(text, 400 + 90 * i, 340) for i, text in enumerate(("90", "100", "110", "115"))]
    pixels = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    x, y = 670, 340
    if sign == "arrow":
        cv2.arrowedLine(pixels, (x + 24, y - 7), (x + 24, y + 7), (0, 0, 0), 2, tipLength=0.4)
    elif sign == "ring":
        cv2.circle(pixels, (x, y), 19, (0, 0, 0), 2)
    else:
        cv2.rectangle(pixels, (x - 20, y - 12), (x + 20, y + 12), (0, 0, 0), 2)
    cv2.line(pixels, (100, 360), (760, 360), (0, 0, 0), 2)
    page = sheet(words=tuple(words), pixels=pixels)
    (table,) = read_tables(page, page.words, "given").tables
    assert [t.why_ask for t in table.thresholds] == [(), (), (), ("unexplained-ink",)]


def test_stars_at_signs_of_no_response_are_no_note() -> None:
    # "NR* NR*" in a row was taken for a note that explains the star as something else than masking
    row = [word(text, 100 + 60 * i, 300) for i, text in enumerate(("Air", "NR*", "NR*", "-", "NR*"))]
    note = [word(text, 100 + 60 * i, 340) for i, text in enumerate(("*", "=", "masked"))]
    assert masking_by_notes(row) == {}
    assert masking_by_notes([*row, *note]) == {"*": True}


@pytest.mark.parametrize("around", [True, False])
def test_a_frame_round_a_number_makes_it_ask_in_a_scan_as_well_and_a_speck_beside_it_does_not(around: bool) -> None:
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    words += [word("Right", 150, 340), word("air", 220, 340)]
    words += [word(text, 400 + 90 * i, 340) for i, text in enumerate(("90", "100", "110", "115"))]
    pixels = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    left, right = (650, 690) if around else (696, 706)
    cv2.rectangle(pixels, (left, 328), (right, 352), (0, 0, 0), 2)
    twice = tuple(read_twice(w) for w in words)
    page = sheet(words=twice, pixels=pixels)
    (seen,) = seen_tables(page, twice, "two-readings").tables
    assert ["unexplained-ink" in cell.doubts for cell in seen.cells] == [False, False, False, around]
