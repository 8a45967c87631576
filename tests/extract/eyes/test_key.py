"""The printed key of a painted page is found, specimen by specimen."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
from by_hand import frequency_words, level_words, mark, sheet, word

from octavo.extract.eyes import see
from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.key import KEY_WORD, key_lines
from octavo.extract.intake import pages
from octavo.extract.meaning.symbols.key import sets_of_key
from octavo.extract.page import Page, Word
from octavo.extract.sightings import KeyLine
from octavo.extract.straighten import straighten
from octavo.tools.painter import PaintedPage, paint

AXES = (*frequency_words(), *level_words())
KEYED = [("keyed", seed) for seed in range(8)]


def key_of(painted: PaintedPage, folder: Path) -> tuple[KeyLine, ...]:
    path = folder / "page.pdf"
    path.write_bytes(painted.pdf)
    (page,) = pages(path)
    assert isinstance(page, Page)
    return see(straighten(page)).key


def test_a_key_that_is_found_shows_the_glyphs_that_were_printed_and_never_names_a_wrong_set(tmp_path: Path) -> None:
    printed = right = named = 0
    for family, seed in KEYED:
        painted = paint(family, seed)
        specimens = {m.glyph for m in painted.marks if m.in_key}
        lines = key_of(painted, tmp_path)
        printed += len(lines)
        right += sum(line.glyph in specimens for line in lines)
        sets = sets_of_key(lines)
        named += len(sets)
        assert sets in ((), (painted.record.audiograms[0].symbol_set,))
    assert named >= 3
    assert right >= 0.95 * printed


def test_a_page_whose_marks_are_clear_in_every_set_needs_no_key() -> None:
    marks = (mark("circle", 1000, 30).sight, mark("cross", 1000, 20).sight)
    assert key_lines(sheet(), chart_areas((), (1000, 1200)), marks) == ()


def test_a_specimen_that_was_read_as_a_word_ends_the_words_of_the_one_before() -> None:
    picture = np.full((1200, 1000, 3), 255, np.uint8)
    cv2.circle(picture, (100, 1100), 9, (200, 0, 0), -1, cv2.LINE_AA)
    for x0, x1 in ((232, 248), (248, 232)):
        cv2.line(picture, (x0, 1092), (x1, 1108), (0, 0, 200), 2, cv2.LINE_AA)
    cv2.rectangle(picture, (382, 1092), (398, 1108), (0, 0, 200), -1)
    texts = ((150, "right"), (195, "air"), (240, ""), (290, "left"), (335, "air"), (390, "x"), (450, "masked"))
    words = tuple(word(text, x, 1100, height=16) for x, text in texts)
    words = (*words[:2], replace(words[2], box=(231, 1091, 249, 1109)), *words[3:])
    unclear = (mark("triangle", 1000, 30).sight,)
    lines = key_lines(sheet(pixels=picture, words=words), chart_areas(AXES, (1000, 1200)), unclear)
    assert {line.glyph: line.text for line in lines} == {
        "circle-filled": "right air", "cross": "left air", "square-filled": "masked",
    }  # fmt: skip


def test_a_line_of_a_key_ends_before_the_sign_of_a_column_that_stands_too_far_off_to_be_looked_at_with_it() -> None:
    # seen on a drawn page: the first specimen had the words of the whole row, "masked" among them, and all values asked
    texts = ((140, "air"), (205, "conduction"), (285, "right"), (350, "x"), (400, "air"), (470, "masked"))
    words = [word(text, x, y, height=16) for y in (1060, 1100) for x, text in texts]
    picture = with_specimens((100, 1060), (100, 1100))
    unclear = (mark("triangle", 1000, 30).sight,)
    lines = key_lines(sheet(pixels=picture, words=tuple(words)), chart_areas(AXES, (1000, 1200)), unclear)
    assert [line.text for line in lines if line.glyph == "circle-filled"] == ["air conduction right"] * 2


def with_specimens(*places: tuple[float, float]) -> np.ndarray:
    """Draw a filled red circle at each place of a blank sheet."""
    picture = np.full((1200, 1000, 3), 255, np.uint8)
    for x, y in places:
        cv2.circle(picture, (round(x), round(y)), 9, (200, 0, 0), -1, cv2.LINE_AA)
    return picture


def texts_of(picture: np.ndarray, texts: tuple[tuple[float, str], ...]) -> list[str]:
    words = tuple(word(text, x, 1100, height=16) for x, text in texts)
    unclear = (mark("triangle", 1000, 30).sight,)
    return [one.text for one in key_lines(sheet(pixels=picture, words=words), chart_areas(AXES, (1000, 1200)), unclear)]


def test_specimens_behind_their_words_have_the_words_before_them() -> None:
    texts = ((150, "right"), (195, "air"), (390, "left"), (435, "bone"))
    told = texts_of(with_specimens((240, 1100), (480, 1100)), texts)
    assert sorted(told) == ["left bone", "right air"]


def test_a_key_of_two_entries_far_apart_on_one_line_is_read() -> None:
    # on a spreadsheet's chart at 100 dpi: without the key, filled circles stood as masked
    texts = ((150, "right"), (195, "air"), (650, "left"), (695, "air"))
    assert sorted(texts_of(with_specimens((110, 1100), (610, 1100)), texts)) == ["left air", "right air"]


def test_an_entry_of_a_loudness_may_stand_apart_and_its_letter_be_told_by_the_file() -> None:
    letter = Word("m", (100, 1094, 120, 1106), 1.0, 0, tight=True, ink=(220, 30, 30))
    words = (letter, word("Uncomfortable", 210, 1100, height=16), word("level", 300, 1100, height=16))
    page = sheet(pixels=with_specimens(), words=words)
    (line,) = key_lines(page, chart_areas(AXES, (1000, 1200)), (mark("letter-m", 1000, 95).sight,))
    assert (line.glyph, line.ink, line.text) == ("letter-m", "red", "uncomfortable level")


def test_key_words_far_apart_in_running_text_are_no_key() -> None:
    texts = ((150, "right"), (195, "air"), (650, "left"), (695, "air"))
    assert texts_of(with_specimens((110, 1100)), texts) == []
    assert texts_of(with_specimens((110, 1100), (610, 1060)), (*texts[:2], (650, "left"), (695, "ear"))) == []


def test_the_nought_of_an_axis_beside_a_key_is_no_specimen() -> None:
    texts = ((100, "0"), (290, "right"), (335, "air"), (450, "bone"))
    told = texts_of(with_specimens((100, 1100), (240, 1100)), texts)
    assert told == ["right air"]


def test_trade_words_are_key_words_in_many_languages_and_others_are_not() -> None:
    for text in ("Air", "BONE", "masked", "AC", "BC:", "Luftleitung", "Knochenleitung", "vertäubt", "aérienne",
                 "osseuse", "masquée", "aérea", "Luchtgeleiding", "ossea", "benledning", "UCL", "LL", "KL",
                 "VO"):  # fmt: skip
        assert KEY_WORD.match(text), text
    for text in ("Airport", "Harbour", "1000", "dB", "right", "", "fair", "all", "Vor"):
        assert not KEY_WORD.match(text), text


def test_specimens_in_columns_have_the_words_of_their_line_and_the_ear_above_them() -> None:
    # seen on pages: of a key of two columns only the one before the words was read, and whose it is was not
    picture = np.full((1200, 1000, 3), 255, np.uint8)
    for y in (1040, 1080):
        cv2.line(picture, (108, y - 9), (98, y), (0, 0, 0), 2, cv2.LINE_AA)
        cv2.line(picture, (98, y), (108, y + 9), (0, 0, 0), 2, cv2.LINE_AA)
        cv2.line(picture, (270, y - 9), (280, y), (0, 0, 0), 2, cv2.LINE_AA)
        cv2.line(picture, (280, y), (270, y + 9), (0, 0, 0), 2, cv2.LINE_AA)
    words = [word(text, x, 1010, height=16) for x, text in ((85, "Linker"), (135, "oor"), (275, "Rechteroor"))]
    words += [word("Beengeleiding", 470, 1040, height=16), word("luchtgeleiding", 470, 1080, height=16)]
    unclear = (mark("triangle", 1000, 30).sight,)
    lines = key_lines(sheet(pixels=picture, words=tuple(words)), chart_areas(AXES, (1000, 1200)), unclear)
    assert sorted((line.glyph, line.text) for line in lines) == [
        ("angle-left", "left beengeleiding"), ("angle-left", "left luchtgeleiding"),
        ("angle-right", "right beengeleiding"), ("angle-right", "right luchtgeleiding"),
    ]  # fmt: skip
