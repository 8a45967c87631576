"""Which ear and conduction a cell belongs to: names in sections, in columns of their own, over several columns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import matplotlib
import numpy as np
import pytest
from by_hand import SIZE, sheet, word
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.page import Pixels, Word
from octavo.extract.table import Tables, read_tables
from octavo.extract.table.certainty import Way
from octavo.extract.table.rows.lines import frequency_lines
from octavo.extract.table.rows.vocabulary import name_of
from octavo.interpret.record import Threshold

HZ = (500, 1000, 2000, 4000)
LEVELS = {"a": (25, 30, 45, 60), "b": (10, 15, 20, 25), "c": (35, 40, 40, 50), "d": (5, 5, 10, 0)}


def heads(y: float = 300.0) -> list[Word]:
    return [word(f"{hz}", 400 + 90 * i, y) for i, hz in enumerate(HZ)]


def line(label: str, y: float, row: str = "", *, x: float = 100.0) -> list[Word]:
    """Print a row's name, its words close together, and its numbers."""
    words: list[Word] = []
    for part in label.split():
        half = 0.28 * 14 * len(part)
        words.append(word(part, x + half, y))
        x += 2 * half + 6
    return words + [word(f"{v}", 400 + 90 * i, y) for i, v in enumerate(LEVELS.get(row, ()))]


def read(words: Sequence[Word], way: Way = "given") -> Tables:
    page = sheet("drawn", words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    return read_tables(page, words, way)


def rows_of(found: Tables) -> dict[tuple[str, str, bool], tuple[float, ...]]:
    rows: dict[tuple[str, str, bool], list[float]] = {}
    for t in (t for table in found.tables for t in table.thresholds):
        rows.setdefault((t.ear, t.conduction, t.masked), []).append(t.level_db_hl)
    return {key: tuple(levels) for key, levels in rows.items()}


def values(found: Tables) -> list[Threshold]:
    return [t for table in found.tables for t in table.thresholds]


EXPECTED = {("right", "air", False): LEVELS["a"], ("right", "bone", False): LEVELS["b"],
            ("left", "air", False): LEVELS["c"], ("left", "bone", True): LEVELS["d"]}  # fmt: skip


def test_ears_as_lines_of_their_own_name_the_rows_below_them() -> None:
    words = heads() + line("Right ear", 330) + line("Air", 360, "a") + line("Bone", 390, "b")
    words += line("Left ear", 420) + line("Air", 450, "c") + line("Bone masked", 480, "d")
    found = read(words)
    assert rows_of(found) == EXPECTED
    assert {t.standing for t in values(found)} == {"sure"}


def test_an_ear_in_a_column_of_its_own_names_the_rows_beside_and_below_it() -> None:
    words = heads() + line("Right", 330) + line("Air", 330, "a", x=180) + line("Bone", 360, "b", x=180)
    words += line("Left", 390) + line("Air", 390, "c", x=180) + line("Bone masked", 420, "d", x=180)
    assert rows_of(read(words)) == EXPECTED


def test_a_title_names_the_ear_of_a_table() -> None:
    words = line("Right ear", 275) + heads() + line("Air", 330, "a") + line("Bone", 360, "b")
    words += line("Left ear", 475) + heads(500) + line("Air", 530, "c") + line("Bone masked", 560, "d")
    found = read(words)
    assert rows_of(found) == EXPECTED
    assert len(found.tables) == 1


def test_ears_over_their_columns_name_them() -> None:
    words = [word(f"{hz}", 120, 330 + 30 * i) for i, hz in enumerate(HZ)]
    words += [word("Right", 295, 270), word("Left", 475, 270)]
    for c, (name, row) in enumerate((("AC", "a"), ("BC", "b"), ("AC", "c"), ("BC", "d"))):
        words += [word(name, 250 + 90 * c, 300)]
        words += [word(f"{v}", 250 + 90 * c, 330 + 30 * i) for i, v in enumerate(LEVELS[row])]
    expected = {key[:2]: levels for key, levels in EXPECTED.items()}
    assert {key[:2]: levels for key, levels in rows_of(read(words)).items()} == expected


@pytest.mark.parametrize(
    ("right", "left"),
    [("Rechts Luft", "Links Luft"), ("OD VA", "OI VA"), ("Oreille droite CA", "Oreille gauche CA"), ("RE AC", "LE AC")],
    ids=["german", "spanish", "french", "english"],
)
def test_names_in_four_languages(right: str, left: str) -> None:
    found = read(heads() + line(right, 330, "a") + line(left, 360, "c"))
    assert rows_of(found) == {("right", "air", False): LEVELS["a"], ("left", "air", False): LEVELS["c"]}


def test_a_heading_that_is_not_understood_leaves_the_rows_below_it_unread() -> None:
    words = heads() + line("Right ear", 330) + line("Air", 360, "a") + line("Xqz vbn", 390) + line("Air", 420, "c")
    found = read(words)
    assert rows_of(found) == {("right", "air", False): LEVELS["a"]}
    assert "table-row-unread" in {r.code for r in found.remarks}
    assert "missing-expected" in {r.code for r in found.remarks}


def test_a_row_with_an_unknown_word_asks() -> None:
    found = read(heads() + line("Right air wibble", 330, "a") + line("Left air", 360, "c"))
    assert {(t.ear, t.standing) for t in values(found)} == {("right", "ask"), ("left", "sure")}


def test_a_row_that_tells_no_conduction_asks() -> None:
    found = read(heads() + line("Right", 330, "a") + line("Left", 360, "c"))
    assert {(t.conduction, t.standing) for t in values(found)} == {("air", "ask")}


def test_a_sign_without_a_note_leaves_masking_in_doubt() -> None:
    row = [word(f"{v}*", 400 + 90 * i, 330) for i, v in enumerate(LEVELS["a"])]
    words = heads() + line("Right air", 330) + row
    (doubted,) = {(t.masked, t.standing, t.why_ask) for t in values(read(words))}
    assert doubted == (True, "ask", ("masking-uncertain",))
    noted = read(words + line("* = masked", 400))
    assert {(t.masked, t.standing) for t in values(noted)} == {(True, "sure")}
    other = read(words + line("* = repeated", 400))
    assert {(t.masked, t.standing) for t in values(other)} == {(False, "ask")}


def twice(words: Sequence[Word], seconds: dict[str, str] | None = None) -> list[Word]:
    """Read every word a second time, the same but for what ``seconds`` says."""
    said = seconds or {}
    return [replace(w, others=((said.get(w.text, w.text.casefold()), 0.99),)) for w in words]


def drawn(words: Sequence[Word], *smudged: str) -> Pixels:
    """Print the words on a sheet, but for those that are smudged."""
    page = Image.new("RGB", SIZE, "white")
    face = ImageFont.truetype(str(Path(matplotlib.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"), 19)
    for w in words:
        if w.text not in smudged:
            ImageDraw.Draw(page).text(((w.box[0] + w.box[2]) / 2, w.box[3]), w.text, "black", face, anchor="ms")
    return np.asarray(page, np.uint8)


def read_drawn(words: Sequence[Word], *smudged: str) -> Tables:
    return read_tables(sheet(words=tuple(words), pixels=drawn(words, *smudged)), words, "two-readings")


BOTH = heads() + line("Right air", 330, "a") + line("Left air", 360, "c")


def test_values_that_two_readers_agree_on_are_sure_and_others_ask() -> None:
    found = read_drawn(twice(BOTH, {"25": "23"}), "25")
    asked = {(t.ear, t.level_db_hl): t.why_ask for t in values(found) if t.standing == "ask"}
    assert asked == {("right", 25): ("two-readings",)}


def test_a_clear_level_stands_in_spite_of_one_bad_reading() -> None:
    assert {t.standing for t in values(read_drawn(twice(BOTH, {"25": "2S"})))} == {"sure"}


def test_a_frequency_read_in_two_ways_makes_its_column_ask() -> None:
    found = read_drawn(twice(BOTH, {"1000": "1500"}))
    assert {t.frequency_hz for t in values(found) if t.standing == "ask"} == {1000}


def test_an_ear_read_in_two_ways_makes_its_row_ask() -> None:
    found = read_drawn(twice(BOTH, {"Right": "left"}), "Right")
    assert {t.ear for t in values(found) if t.standing == "ask"} == {"right"}


@pytest.mark.parametrize("lost", [0, 1, 3], ids=["first", "within", "last"])
def test_a_frequency_of_a_picture_that_was_not_read_is_told(lost: int) -> None:
    hz = [word(f"{hz}", 400 + 90 * i, 300) for i, hz in enumerate((250, *HZ))]
    rows = [w for y, name in ((330, "Right air"), (360, "Left air")) for w in line(name, y)]
    rows += [word(f"{5 * i + 10}", 400 + 90 * i, y) for y in (330, 360) for i in range(5)]
    assert read(twice([*hz, *rows]), "two-readings").remarks == ()
    found = read(twice([*hz[:lost], *hz[lost + 1 :], *rows]), "two-readings")
    told = {r.code for r in found.remarks}
    # where nothing at all was read, one remark that makes the page ask is enough
    assert ("missing-expected" if found.tables else "table-row-unread") in told


def test_one_reading_of_a_picture_is_never_sure() -> None:
    assert {t.standing for t in values(read(BOTH, "one-reading"))} == {"ask"}


def test_a_lost_heading_makes_the_rows_that_may_be_its_own_ask() -> None:
    words = heads() + line("Right ear", 330) + line("Air", 360, "a") + line("Bone", 390, "b") + line("Air", 450, "c")
    assert {t.standing for t in values(read(twice(words), "two-readings"))} == {"ask"}


def test_numbers_that_stand_as_a_hand_puts_them_ask() -> None:
    rng = np.random.default_rng(3)
    moved = [
        replace(w, box=(w.box[0], w.box[1] + dy, w.box[2], w.box[3] + dy))
        if w.text.isdigit() and int(w.text) < 100
        else w
        for w, dy in zip(twice(BOTH), rng.normal(0, 1.5, len(BOTH)), strict=True)
    ]
    assert {t.standing for t in values(read(moved, "two-readings"))} == {"ask"}


def test_a_table_whose_rows_have_no_name_that_is_understood_is_told() -> None:
    found = read(heads() + line("Xqzvbn", 330, "a") + line("Wibble", 360, "c"))
    assert found.tables == ()
    assert "table-row-unread" in {r.code for r in found.remarks}


def test_levels_under_frequencies_that_could_not_be_read_are_told() -> None:
    levels = [word(f"{v}", 300 + 60 * i, 360) for i, v in enumerate((45, 35, 25, 15, 5))]
    assert [r.code for r in read([*line("Right ear", 300), *levels]).remarks] == ["table-row-unread"]
    assert read([*line("Price list", 300), *levels]).remarks == ()
    assert read([*line("Right ear", 300), *levels[:3]]).remarks == ()


def test_a_name_whose_words_lost_their_space_is_known_by_its_capitals() -> None:
    words = [*heads(), *line("RightAir", 340, "a"), *line("LeftAir", 380, "b")]
    assert set(rows_of(read(words))) == {("right", "air", False), ("left", "air", False)}


def test_a_table_that_the_pictures_side_cuts_off_is_told() -> None:
    """Its frequencies and its rows' names are gone: nothing can be read, and the page must say so."""
    words = [
        Word("llen", (0, 290, 30, 304), 0.9),
        Word("dB", (40, 290, 60, 304), 0.9),
        Word("HL", (66, 290, 86, 304), 0.9),
    ]
    for row in range(4):
        y = 340 + 40 * row
        words += [Word(f"{25 + 5 * row}", (x, y, x + 20, y + 14), 0.9) for x in (80.0, 200.0)]
    cut = [Word("rt", (0, y, 14, y + 14), 0.9) for y in (200.0, 230.0)]
    assert [r.code for r in read([*words, *cut], "two-readings").remarks] == ["table-row-unread"]
    assert read(words, "two-readings").remarks == ()


@pytest.mark.parametrize("way", ["given", "two-readings"])
def test_levels_that_are_also_frequencies_in_khz_keep_the_brackets_of_masking(way: Way) -> None:
    row = [word(f"({level})", 400 + 90 * i, 340) for i, level in enumerate((5, 10, 15, 20))]
    note = [word(text, 100 + 30 * i, 420) for i, text in enumerate(("(", ")", "=", "masked"))]
    words = [*heads(), *line("right bone", 340), *row, *note]
    assert rows_of(read(twice(words) if way == "two-readings" else words, way)) == {
        ("right", "bone", True): (5, 10, 15, 20)
    }


def test_specks_of_a_shaded_head_belong_to_no_frequency() -> None:
    shaded = [replace(w, text=text) for w, text in zip(heads(), ("'500", "1000.", "-2000", "4000:"), strict=True)]
    assert rows_of(read([*shaded, *line("right air", 340, "a")], "one-reading")) == {
        ("right", "air", False): LEVELS["a"]
    }


def test_an_ear_and_a_conduction_without_a_space_between_name_a_row() -> None:
    words = heads() + line("RAC", 330, "a") + line("RBC", 360, "b") + line("LAC", 390, "c") + line("LBCm", 420, "d")
    assert rows_of(read(words)) == EXPECTED


def test_an_article_in_capitals_names_no_ear() -> None:
    found = read([*line("LOS UMBRALES", 270), *heads(), *line("VA", 330, "a")])
    assert rows_of(found) == {}


def test_two_tables_beside_one_another_keep_their_frequencies() -> None:
    row = [word(text, 300 + 60 * i, 300) for i, text in enumerate(("500", "1000", "2000", "4000") * 2)]
    assert sorted(one.hz for one in frequency_lines(row)) == [(500, 1000, 2000, 4000)] * 2


def test_a_letter_of_masking_that_one_reader_alone_saw_leaves_its_row_in_doubt() -> None:
    seen = replace(word("m", 200.0, 300.0), others=(("i", 0.35),))
    name = name_of([replace(word("Air", 150.0, 300.0), others=(("Air", 0.9),)), seen])
    assert (name.conduction, name.masked, name.two) == ("air", True, True)
    both = replace(seen, others=(("m", 0.9),))
    assert not name_of([both]).two


def test_der_with_its_stop_is_the_right_ear_in_spanish_and_without_an_article_in_german() -> None:
    assert name_of([Word("Der.", (0, 0, 9, 9)), Word("VA", (10, 0, 19, 9))]).ear == "right"
    assert name_of([Word("Izq.", (0, 0, 9, 9))]).ear == "left"
    assert name_of([Word(text, (0, 0, 9, 9)) for text in ["Messung", "der", "Hörschwelle"]]).ear is None


def test_the_head_of_a_second_table_in_kilohertz_without_its_first_frequency_is_no_row_of_the_first() -> None:
    first = [word(t, 400 + 90 * i, 300) for i, t in enumerate(("0.5", "1", "2", "4", "8"))]
    second = [word(t, 400 + 90 * i, 420) for i, t in enumerate(("0.", "1", "2", "4", "8"))]
    assert [line.hz for line in frequency_lines([*first, *second])] == [(500, 1000, 2000, 4000, 8000),
                                                                        (1000, 2000, 4000, 8000)]  # fmt: skip


def test_what_is_left_of_a_half_kilohertz_is_no_sure_five() -> None:
    heads = [word(t, 400 + 90 * i, 300) for i, t in enumerate(("5", "1", "2", "4", "8"))]
    rows = [[*line(f"{ear} air", y), *(word(f"{v}", 400 + 90 * i, y) for i, v in enumerate((20, 25, 30, 40, 45)))]
            for y, ear in ((330, "Right"), (360, "Left"))]  # fmt: skip
    found = values(read([*heads, *rows[0], *rows[1]]))
    assert {t.standing for t in found if t.frequency_hz == 5000} <= {"ask"}
    assert {t.standing for t in found if t.frequency_hz == 1000} == {"sure"}
