"""Which symbol set a page was drawn under; what the sets say: tests/published/audiometric_symbols.csv."""

from __future__ import annotations

import pytest
from by_hand import mark, row

from octavo.extract.meaning.convention import convention
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Ink

AIR = (*row("circle", {500: 20, 1000: 25, 2000: 40}, "red"), *row("cross", {500: 15, 1000: 20, 2000: 30}, "blue"))


def test_what_the_key_says_goes_before_what_the_person_assumes_and_both_before_the_marks() -> None:
    marks = (*AIR, mark("square", 1000, 40))
    assert convention(marks, key="bsa-2018", asked="jis-t-1201").symbol_set.id == "bsa-2018"
    assert convention(marks, key=None, asked="jis-t-1201").symbol_set.id == "jis-t-1201"
    assert convention(marks, key=None, asked="jis-t-1201").told
    assert not convention(marks, key=None, asked=None).told


def test_marks_that_the_named_set_does_not_know_stay_open() -> None:
    chosen = convention((*AIR, mark("square", 1000, 40)), key=None, asked="jis-t-1201")
    assert chosen.open_glyphs == {"square"}


@pytest.mark.parametrize("glyph", ["circle-filled", "cross-filled", "foot-right", "foot-left"])
def test_a_mark_that_only_bsa_has_settles_bsa(glyph: Glyph) -> None:
    assert [s for s, known in SYMBOL_SETS.items() if glyph in known.meanings] == ["bsa-2018"]
    assert convention((*AIR, mark(glyph, 500, 50)), key=None, asked=None).symbol_set.id == "bsa-2018"


@pytest.mark.parametrize(
    ("glyph", "ink", "set_id"),
    [
        ("angle-left", "red", "asha-1990"),
        ("angle-right", "blue", "asha-1990"),
        ("angle-right", "red", "leaflet-de"),
        ("angle-left", "blue", "leaflet-de"),
    ],
)
def test_the_ink_of_angle_marks_tells_the_two_conventions_apart(glyph: Glyph, ink: Ink, set_id: str) -> None:
    # references.md section 2, marks whose meaning changes, no. 2 [seen]: red is the right ear in every text
    marks = (*AIR, *row(glyph, {500: 10, 1000: 15, 2000: 20}, ink))
    chosen = convention(marks, key=None, asked=None)
    assert chosen.symbol_set.id == set_id
    assert not chosen.open_glyphs


def test_angle_marks_whose_inks_contradict_one_another_stay_open() -> None:
    marks = (*AIR, *row("angle-left", {500: 10, 1000: 15}, "red"), *row("angle-left", {2000: 20, 4000: 15}, "blue"))
    assert "angle-left" in convention(marks, key=None, asked=None).open_glyphs


@pytest.mark.parametrize("ink", ["red", "neutral"])
def test_triangles_alone_may_be_masked_air_or_bone_and_stay_open(ink: Ink) -> None:
    # references.md section 2, worked case (b): without a legend the answer must be "ambiguous"
    marks = (*AIR, *row("triangle", {1000: 50, 2000: 60}, ink))
    assert "triangle" in convention(marks, key=None, asked=None).open_glyphs


def test_blue_triangles_are_bone_because_masked_air_of_the_left_ear_is_a_square() -> None:
    # ASHA 1990: the triangle is the right ear's, and red if coloured; BSA: either ear, in the ear's colour
    marks = (*AIR, *row("triangle", {500: 20, 1000: 25}, "blue"), *row("triangle", {2000: 30}, "red"))
    assert convention(marks, key=None, asked=None).symbol_set.id == "bsa-2018"


@pytest.mark.parametrize("glyph", ["bracket-left", "bracket-right"])
def test_brackets_alone_may_be_masked_or_not_and_stay_open(glyph: Glyph) -> None:
    # references.md section 2, marks whose meaning changes, no. 3: masked bone, or in Japan the ordinary marks
    assert glyph in convention((*AIR, *row(glyph, {500: 10, 1000: 15})), key=None, asked=None).open_glyphs


def test_a_square_settles_asha_for_triangles_and_brackets_too() -> None:
    marks = (*AIR, mark("square", 500, 50), mark("triangle", 500, 55), mark("bracket-left", 1000, 20))
    chosen = convention(marks, key=None, asked=None)
    assert chosen.symbol_set.id == "asha-1990"
    assert not chosen.open_glyphs


def test_circles_and_crosses_say_the_same_everywhere_and_leave_nothing_open() -> None:
    assert not convention(AIR, key=None, asked=None).open_glyphs
    for known in SYMBOL_SETS.values():
        assert (known.meanings["circle"].ear, known.meanings["cross"].ear) == ("right", "left")
