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
