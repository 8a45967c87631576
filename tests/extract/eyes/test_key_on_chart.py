"""A key printed on the chart itself: its specimens are no marks, and its words may be read with slips."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from by_hand import mark, sheet, word

from octavo.extract.eyes import see
from octavo.extract.eyes.key import VOCABULARY, key_lines, without_specimens
from octavo.extract.intake import pages
from octavo.extract.meaning.symbols.key import sets_of_key
from octavo.extract.page import Page, Word
from octavo.extract.sightings import MarkSight
from octavo.extract.straighten import straighten
from octavo.interpret.record import TakenBy
from octavo.interpret.symbols import Glyph
from octavo.tools.painter import paint


def at(glyph: Glyph, x: float, y: float) -> MarkSight:
    return replace(mark(glyph, 1000, 40).sight, at=(x, y))


def after(one: MarkSight, *texts: str) -> tuple[Word, ...]:
    """Print words on a mark's line, beginning 10 px right of it."""
    left, found = one.at[0] + one.size[0] / 2 + 10, []
    for text in texts:
        wide = 7.84 * len(text)
        found.append(word(text, left + wide / 2, one.at[1]))
        left += wide + 6
    return tuple(found)


def kept(marks: Sequence[MarkSight], words: Sequence[Word], taken_by: TakenBy = "drawn") -> tuple[MarkSight, ...]:
    return without_specimens(sheet(taken_by, words=tuple(words)), tuple(marks))


CIRCLE, CROSS = at("circle", 640, 300), at("cross", 640, 330)
THRESHOLDS = (at("circle", 400, 420), at("circle", 500, 500), at("cross", 500, 470))
KEY_WORDS = (*after(CIRCLE, "Right", "air"), *after(CROSS, "Left", "air"))


def test_specimens_under_one_another_with_a_keys_words_beside_them_are_no_marks() -> None:
    assert kept((*THRESHOLDS, CIRCLE, CROSS), KEY_WORDS) == THRESHOLDS


def test_specimens_in_one_row_are_no_marks() -> None:
    one, other = at("circle", 300, 300), at("cross", 480, 300)
    assert kept((*THRESHOLDS, one, other), (*after(one, "Right"), *after(other, "Left"))) == THRESHOLDS


def test_two_specimens_that_share_their_words_are_no_marks() -> None:
    # "O X air" over "< > bone"
    right, left = at("circle", 600, 300), at("angle-left", 600, 330)
    shared = (*after(at("cross", 640, 300), "air"), *after(at("angle-right", 640, 330), "bone"))
    specimens = (right, at("cross", 640, 300), left, at("angle-right", 640, 330))
    assert kept((*THRESHOLDS, *specimens), shared) == THRESHOLDS


def test_a_lone_mark_with_a_word_beside_it_stays() -> None:
    assert kept((*THRESHOLDS, CIRCLE), after(CIRCLE, "Right", "air")) == (*THRESHOLDS, CIRCLE)


def test_two_marks_with_a_keys_words_beside_them_that_stand_in_no_row_or_column_stay() -> None:
    far = at("cross", 700, 390)
    marks = (*THRESHOLDS, CIRCLE, far)
    assert kept(marks, (*after(CIRCLE, "Right"), *after(far, "Left"))) == marks


def test_specimens_whose_words_begin_with_the_initial_of_an_ear_are_no_marks() -> None:
    words = (*after(CIRCLE, "R,", "air"), *after(CROSS, "L,", "air"))
    assert kept((*THRESHOLDS, CIRCLE, CROSS), words) == THRESHOLDS


@pytest.mark.parametrize("entries", [(("Both", "ears,"), ("Either", "ear,")), (("Beide", "Ohren"), ("Freifeld",))])
def test_specimens_of_both_ears_are_no_marks(entries: tuple[tuple[str, ...], tuple[str, ...]]) -> None:
    # letters of a key beside a plot were read at its last frequency, where they asked
    letters = at("letter-s", 640, 300), at("letter-a", 640, 330)
    words = [w for one, entry in zip(letters, entries, strict=True) for w in after(one, *entry)]
    assert kept((*THRESHOLDS, *letters), words) == THRESHOLDS


def test_marks_beside_an_initial_that_no_keys_word_follows_stay() -> None:
    marks = (*THRESHOLDS, CIRCLE, CROSS)
    assert kept(marks, (*after(CIRCLE, "R."), *after(CROSS, "L.", "Miller"))) == marks


def test_marks_beside_words_that_no_key_uses_stay() -> None:
    marks = (*THRESHOLDS, CIRCLE, CROSS)
    assert kept(marks, (*after(CIRCLE, "Harbour"), *after(CROSS, "Lane"))) == marks


def test_marks_left_of_a_keys_words_but_far_from_them_or_on_another_line_stay() -> None:
    marks = (*THRESHOLDS, CIRCLE, CROSS)
    for dx, dy in ((60, 0), (0, 14)):
        words = tuple(replace(w, box=(w.box[0] + dx, w.box[1] + dy, w.box[2] + dx, w.box[3] + dy)) for w in KEY_WORDS)
        assert kept(marks, words) == marks


def test_words_on_their_side_name_no_specimens() -> None:
    marks = (*THRESHOLDS, CIRCLE, CROSS)
    assert kept(marks, [replace(w, upright=90) for w in KEY_WORDS]) == marks


SLIPS = (*after(CIRCLE, "Riqht", "air"), *after(CROSS, "unrnasked", "air"))


def test_words_of_a_scan_read_with_a_slip_are_taken_for_a_keys() -> None:
    assert kept((*THRESHOLDS, CIRCLE, CROSS), SLIPS, "scan") == THRESHOLDS


def test_words_of_a_drawn_page_are_what_they_say() -> None:
    marks = (*THRESHOLDS, CIRCLE, CROSS)
    assert kept(marks, SLIPS, "drawn") == marks


def slipped(text: str) -> str:
    """Misread one letter in the middle of a word of the key's vocabulary, as OCR does."""
    bare = text.strip(" .,:;()").lower()
    if bare not in VOCABULARY or len(bare) < 5:
        return text
    place = text.lower().index(bare) + len(bare) // 2
    return text[:place] + "x" + text[place + 1 :]


@pytest.mark.parametrize("seed", [1, 4, 11])
def test_a_scanned_key_read_with_slips_names_the_set_that_it_names_read_without(seed: int, tmp_path: Path) -> None:
    path = tmp_path / "page.pdf"
    path.write_bytes(paint("keyed", seed).pdf)
    (one,) = pages(path)
    assert isinstance(one, Page)
    clean = straighten(one)
    seen = see(clean)
    named = sets_of_key(seen.key)
    assert named is not None
    words = tuple(replace(w, text=slipped(w.text)) for w in clean.words)
    misread = replace(clean, taken_by="scan", words=words)
    unclear = at("triangle", 400, 420)  # without such a mark no key is wanted
    assert sets_of_key(key_lines(misread, seen.areas, (*seen.marks, unclear))) == named
    # the words of a drawn page are not mended: what they still say names no other set
    assert sets_of_key(key_lines(replace(misread, taken_by="drawn"), seen.areas, seen.marks)) in ((), named)
