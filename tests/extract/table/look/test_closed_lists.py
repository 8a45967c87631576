"""A second look at a table's picture, once it is known what may stand where: names, levels, lost frequencies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import matplotlib
import numpy as np
from by_hand import SIZE, sheet, word
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.page import Pixels, Word
from octavo.extract.shades import grey_of
from octavo.extract.table import read_tables
from octavo.extract.table.look.names import with_names
from octavo.extract.table.reading import seen_tables

HZ = (500, 1000, 2000, 4000, 8000)
ROWS = {"right": ("25", "30", "45", "60", "65"), "left": ("10", "15", "20", "25", "30")}


def twice(one: Word, second: str | None = None) -> Word:
    return replace(one, others=((one.text if second is None else second, 0.9),))


def printed() -> list[Word]:
    """Print a table, every word read twice alike."""
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    for y, (ear, texts) in zip((330, 360), ROWS.items(), strict=True):
        words += [word(ear, 150, y), word("air", 220, y), *(word(t, 400 + 90 * i, y) for i, t in enumerate(texts))]
    return [fitted(twice(w)) for w in words]


FACE = ImageFont.truetype(str(Path(matplotlib.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"), 19)


def fitted(one: Word) -> Word:
    """Give a word the box of its ink."""
    middle = (one.box[0] + one.box[2]) / 2
    left, top, right, bottom = FACE.getbbox(one.text, anchor="ms")
    return replace(one, box=(middle + left, one.box[3] + top, middle + right, one.box[3] + bottom))


def drawn(words: Sequence[Word]) -> Pixels:
    page = Image.new("RGB", SIZE, "white")
    for w in words:
        left, top, _, _ = FACE.getbbox(w.text)
        ImageDraw.Draw(page).text((w.box[0] - left, w.box[1] - top), w.text, "black", FACE)
    return np.asarray(page, np.uint8)


def misread(words: Sequence[Word], text: str, *said: str) -> list[Word]:
    """Give the words with one of them read otherwise."""
    return [replace(w, text=said[0], others=((said[1], 0.5),)) if w.text == text else w for w in words]


def test_a_name_in_which_both_readers_see_the_same_slip_is_told_by_the_picture() -> None:
    words = [replace(w, text="alr", others=(("alr", 0.9),)) if w.text == "air" else w for w in printed()]
    found = with_names(grey_of(drawn(printed())), words)
    assert {w.text for w in found} >= {"air"}
    assert "alr" not in {w.text for w in found}


def test_a_name_that_both_readers_spoil_is_told_by_the_picture() -> None:
    words = printed()
    found = with_names(grey_of(drawn(words)), misread(words, "right", "rignt", "tigbt"))
    assert [w.text for w in found if w.box == words[5].box] == ["right"]


def test_a_speck_beside_numbers_becomes_no_ear() -> None:
    words = [*printed(), replace(word("I", 130, 360), others=(("/", 0.4),))]
    found = with_names(grey_of(drawn(printed())), words)
    assert found[-1].text == "I"


def named(*names: str) -> list[Word]:
    """Print names in two columns beside rows of numbers, a row for each two; empty ones are left out."""
    words = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate(HZ)]
    for row, two in enumerate(zip(names[::2], names[1::2], strict=True)):
        y, levels = 330 + 30 * row, list(ROWS.values())[row % 2]
        words += [word(name, x, y) for name, x in zip(two, (150, 220), strict=True) if name]
        words += [word(t, 400 + 90 * i, y) for i, t in enumerate(levels)]
    return [fitted(twice(w)) for w in words]


def test_a_short_name_whose_dot_the_fax_lost_is_told_by_the_names_beside_it() -> None:
    words = named("re", "LL", "", "KL", "li", "LL", "", "KL")
    page = drawn([replace(w, text="ll") if w.text == "li" else w for w in words])
    found = with_names(grey_of(page), misread(words, "li", "II", "Il"))
    assert [w.text for w in found if w.box[0] < 170 and w.box[1] > 310] == ["re", "li"]


def test_a_letter_alone_is_told_by_the_other_ears_letter_over_it() -> None:
    words = named("R", "AC", "", "BC", "L", "AC", "", "BC")
    found = with_names(grey_of(drawn(words)), misread(words, "L", "I", "t"))
    assert [w.text for w in found if w.box[0] < 170 and w.box[1] > 310] == ["R", "L"]


def test_a_piece_of_a_rule_under_an_ears_letter_becomes_no_ear() -> None:
    words = named("R", "AC", "I", "BC")
    found = with_names(grey_of(drawn(words)), misread(words, "I", "I", "l"))
    assert [w.text for w in found if w.box[0] < 170 and w.box[1] > 310] == ["R", "I"]


def test_a_conduction_that_is_taken_for_an_ear_by_luck_is_told_by_the_picture() -> None:
    words = named("R", "LL", "L", "LL")
    first = next(w for w in words if w.text == "LL")
    spoiled = [replace(w, text="LI.", others=(("Lt", 0.5),)) if w is first else w for w in words]
    found = with_names(grey_of(drawn(words)), spoiled)
    assert [w.text for w in found if w.box == first.box] == ["LL"]


def test_names_that_ran_together_are_read_by_those_of_the_other_rows() -> None:
    words = named("Right", "Air", "LeftAir", "")
    found = with_names(grey_of(drawn(words)), misread(words, "LeftAir", "LeftAlr", "LeftAir"))
    assert [w.text for w in found if w.box[1] > 340 and w.box[0] < 200] == ["Left Air"]


def test_a_conduction_and_an_ear_that_ran_together_in_capitals_are_told_apart() -> None:
    words = [word(f"{hz}", 400, 330 + 30 * i) for i, hz in enumerate(HZ)]
    words += [word(name, 500 + 150 * i, 300) for i, name in enumerate(("LL", "Rechts", "LLLinks"))]
    words += [word(t, x, 330 + 30 * i) for x in (575, 800) for i, t in enumerate(ROWS["right"])]
    words = [fitted(twice(w)) for w in words]
    found = with_names(grey_of(drawn(words)), words)
    assert [w.text for w in found if w.box[3] < 320] == ["LL", "Rechts", "LL Links"]


def test_a_long_name_that_the_fax_tore_in_two_is_one() -> None:
    words = named("Derecho", "", "Izquierdo", "")
    whole = next(w for w in words if w.text == "Derecho")
    cut = whole.box[0] + 0.75 * (whole.box[2] - whole.box[0])
    halves = [twice(replace(whole, text="Derec", box=(*whole.box[:2], cut - 1, whole.box[3])), "Deret"),
              twice(replace(whole, text="ho", box=(cut + 1, *whole.box[1:])))]  # fmt: skip
    found = with_names(grey_of(drawn(words)), [*(w for w in words if w is not whole), *halves])
    assert sorted(w.text for w in found if w.text.isalpha()) == ["Derecho", "Izquierdo"]


def test_a_long_name_over_a_table_of_one_row_is_known_in_spite_of_a_slip() -> None:
    words = named("CA", "")
    title = fitted(twice(word("Droite", 150, 260)))
    found = with_names(grey_of(drawn([*words, title])), [*words, twice(replace(title, text="Drolte"))])
    assert found[-1].text == "Droite"


def test_a_column_of_which_one_number_alone_stands_beside_words_has_its_frequency() -> None:
    words = [replace(w, text="CNT", others=(("CNT", 0.9),)) if w.text == "15" else w for w in printed()]
    words = [fitted(w) if w.text == "CNT" else w for w in words]
    page = drawn(words)
    left = misread(words, "1000", "l", "l")
    (table,) = read_tables(sheet(words=tuple(left), pixels=page), left, "two-readings").tables
    assert (1000.0, 30.0) in {(t.frequency_hz, t.level_db_hl) for t in table.thresholds if t.ear == "right"}


def test_a_level_is_told_by_the_picture_where_a_bracket_was_read_as_a_digit() -> None:
    words = [fitted(replace(w, text="[45]")) if w.text == "45" else w for w in printed()]
    page = drawn(words)
    spoiled = misread(words, "[45]", "[451", "145]")
    (table,) = seen_tables(sheet(words=tuple(spoiled), pixels=page), spoiled, "two-readings").tables
    (cell,) = [c for c in table.cells if c.key.ear == "right" and c.key.frequency_hz == 2000]
    assert (cell.level_db_hl, cell.key.masked) == (45.0, True)


def test_what_the_picture_does_not_show_is_no_level() -> None:
    words = printed()
    page = drawn([w for w in words if w.text != "45"])
    spoiled = misread(words, "45", "4S", "A5")
    found = read_tables(sheet(words=tuple(spoiled), pixels=page), spoiled, "two-readings")
    assert ("right", 2000) not in {(t.ear, t.frequency_hz) for table in found.tables for t in table.thresholds}
    assert ("missing-expected", 2000) in {(r.code, r.frequency_hz) for r in found.remarks}


def test_two_columns_were_one_where_a_frequency_between_them_was_not_read() -> None:
    words = printed()
    left = [w for w in words if w.text != "2000"]
    found = read_tables(sheet(words=tuple(left), pixels=drawn(words)), left, "two-readings")
    (table,) = found.tables
    assert {t.frequency_hz: t.level_db_hl for t in table.thresholds if t.ear == "right"} == {
        hz: float(level) for hz, level in zip(HZ, ROWS["right"], strict=True)
    }


def test_no_frequency_is_made_up_where_none_is_printed() -> None:
    words = printed()
    left = [w for w in words if w.text != "2000"]
    found = read_tables(sheet(words=tuple(left), pixels=drawn(left)), left, "two-readings")
    assert 2000 not in {t.frequency_hz for table in found.tables for t in table.thresholds}


def test_a_lost_frequency_is_none_of_those_beside_a_misread_one() -> None:
    words = printed()
    page = drawn(words)
    left = misread([w for w in words if w.text != "4000"], "2000", "5000", "5000")
    found = read_tables(sheet(words=tuple(left), pixels=page), left, "two-readings")
    read = {t.frequency_hz for table in found.tables for t in table.thresholds}
    assert read <= {500.0, 1000.0, 5000.0, 8000.0}
    assert "table-row-unread" in {r.code for r in found.remarks}


def test_a_last_frequency_before_one_that_is_lower_is_not_sure() -> None:
    words = misread(printed(), "4000", "20000", "20000")
    words = [replace(w, text="", others=()) if w.text == "8000" else w for w in words]
    words += [twice(word("16000", 400 + 90 * 5, 300)), twice(word("40", 400 + 90 * 5, 330))]
    found = read_tables(sheet(words=tuple(words), pixels=drawn(words)), words, "two-readings")
    of_last = {t.standing for table in found.tables for t in table.thresholds if t.frequency_hz == 20000}
    assert of_last == {"ask"}


def test_a_level_whose_star_a_second_reader_takes_for_a_raised_sign_is_sure() -> None:
    words = [fitted(replace(w, text="45*")) if w.text == "45" else w for w in printed()]
    words.append(twice(word("* = masked", 200, 420)))
    spoiled = misread(words, "45*", "45*", "4S°")
    (table,) = seen_tables(sheet(words=tuple(spoiled), pixels=drawn(words)), spoiled, "two-readings").tables
    (cell,) = [c for c in table.cells if c.key.ear == "right" and c.key.frequency_hz == 2000]
    assert cell.look is not None
    assert (cell.level_db_hl, cell.key.masked, cell.look.agreed) == (45.0, True, True)
