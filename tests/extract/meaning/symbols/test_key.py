"""Which set a printed key describes; the meanings are those of tests/published/audiometric_symbols.csv."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, row, sheet

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.symbols.key import denied_by, sets_of_key, with_letters
from octavo.extract.sightings import KeyLine
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Ink


def line(glyph: Glyph, text: str, ink: Ink = "neutral") -> KeyLine:
    return KeyLine(glyph, ink, text, 0.9)


ASHA = (
    line("circle", "Right air unmasked"),
    line("cross", "Left air unmasked"),
    line("triangle", "Right air masked"),
    line("square", "Left air masked"),
    line("angle-left", "Right bone unmasked"),
    line("angle-right", "Left bone unmasked"),
)
BSA = (
    line("circle", "Air right"),
    line("cross", "Air left"),
    line("circle-filled", "Air right, masked"),
    line("triangle", "Bone, not masked"),
    line("bracket-left", "Bone right, masked"),
    line("bracket-right", "Bone left, masked"),
)
JAPAN = (
    line("circle", "Air right"),
    line("cross", "Air left"),
    line("bracket-left", "Bone right"),
    line("bracket-right", "Bone left"),
)
LEAFLET = (
    line("circle", "Luftleitung rechts"),
    line("cross", "Luftleitung links"),
    line("angle-right", "Knochenleitung rechts"),
    line("angle-left", "Knochenleitung links"),
)
TRIANGLE = (
    line("circle", "Luftleitung rechts", "red"),
    line("cross", "Luftleitung links", "blue"),
    line("triangle", "Knochenleitung", "red"),
    line("letter-m", "UCL", "red"),
)


@pytest.mark.parametrize(
    ("lines", "set_id"),
    [(ASHA, "asha-1990"), (BSA, "bsa-2018"), (JAPAN, "jis-t-1201"), (LEAFLET, "leaflet-de"),
     (TRIANGLE, "triangle-bone")],
)  # fmt: skip
def test_a_key_names_the_set_it_describes(lines: tuple[KeyLine, ...], set_id: str) -> None:
    assert sets_of_key(lines) == (set_id,)
    assert sets_of_key(tuple(reversed(lines))) == (set_id,)


def test_a_key_of_two_columns_says_the_ear_by_its_ink() -> None:
    lines = (
        line("circle", "Air", "red"), line("cross", "Air", "blue"),
        line("angle-right", "Bone", "red"), line("angle-left", "Bone", "blue"),
    )  # fmt: skip
    assert sets_of_key(lines) == ("leaflet-de",)


def test_a_key_that_contradicts_every_set_names_none() -> None:
    lines = (line("circle", "Left air"), line("cross", "Right air"), line("angle-left", "Right bone"))
    assert sets_of_key(lines) == ()


SEEN_AMISS = line("cross", "Right bone masked")
"""A bracket seen as a cross: every set contradicts it."""


@pytest.mark.parametrize(
    ("agreeing", "named"), [(ASHA, ("asha-1990",)), (ASHA[:5], ()), (ASHA[:4], ()), (BSA, ("bsa-2018",)), (BSA[:4], ())]
)
def test_one_specimen_may_contradict_a_set_with_which_six_agree_but_not_fewer(
    agreeing: tuple[KeyLine, ...], named: tuple[str, ...]
) -> None:
    assert sets_of_key((*agreeing, SEEN_AMISS)) == named
    assert sets_of_key((SEEN_AMISS, *agreeing)) == named


def test_a_specimen_seen_twice_as_two_shapes_does_not_hide_which_set_a_key_of_four_lines_describes() -> None:
    # seen on a page: `[` and `]` at one level around a cross then stood as masked air, surely
    assert sets_of_key((*JAPAN, line("cross", "o Air right"))) == ("jis-t-1201",)
    assert sets_of_key((*JAPAN, line("cross", "Bone both"))) == ()


def test_two_specimens_may_not_contradict_a_set_with_which_six_agree() -> None:
    assert sets_of_key((*ASHA, SEEN_AMISS, line("circle", "Left bone masked"))) == ()


@pytest.mark.parametrize(
    "lines",
    [
        (),
        (line("circle", "Right air"), line("cross", "Left air")),
        (line("circle", "Normal hearing"), line("cross", "Thursday"), line("triangle", "see overleaf")),
    ],
)
def test_a_key_that_settles_nothing_names_no_set(lines: tuple[KeyLine, ...]) -> None:
    assert sets_of_key(lines) == ()


def test_unmasked_is_not_taken_for_masked() -> None:
    said = {
        "Bone right unmasked": "jis-t-1201", "Bone right not masked": "jis-t-1201", "Bone right, masked": None,
    }  # fmt: skip
    for text, set_id in said.items():
        lines = (line("circle", "Air right"), line("cross", "Air left"), line("bracket-left", text))
        if set_id is None:
            assert sets_of_key(lines) != ("jis-t-1201",)
        else:
            assert sets_of_key(lines) == (set_id,)


def test_a_key_of_which_lines_were_not_read_leaves_the_sets_that_differ_on_shapes_of_the_page() -> None:
    # lines of a key were written over: of ASHA and BSA, which say the same of the rest, it named the first, and five
    # triangles that are bone stood as masked air
    lines = (line("circle", "right air"), line("cross", "left air"), line("bracket-left", "right bone masked"))
    assert sets_of_key(lines, frozenset({"circle", "cross", "bracket-right"})) == ("asha-1990",)
    assert sets_of_key(lines, frozenset({"circle", "cross", "triangle"})) == ("asha-1990", "bsa-2018")


SHORT = (line("bracket-left", "right bone masked", "red"), line("bracket-right", "left bone (masked)", "blue"))


def test_a_short_key_settles_a_page_of_which_it_explains_every_shape_that_sets_differ_on() -> None:
    assert sets_of_key(SHORT) == ()
    assert sets_of_key(SHORT, frozenset({"circle", "cross", "bracket-left", "bracket-right"})) == ("asha-1990",)
    assert sets_of_key(SHORT, frozenset({"triangle", "bracket-left", "bracket-right"})) == ()


def test_a_square_that_the_key_calls_plain_air_is_not_taken_for_masked() -> None:
    # a charting program's markers: the key said "left air" beside a square, and every square stood as masked, surely
    right, left = {250: 10, 500: 15, 1000: 20, 2000: 40}, {250: 15, 500: 25, 1000: 35, 2000: 60}
    marks = chart(*row("circle", right, "red"), *row("square", left, "blue"))
    key = (KeyLine("circle", "red", "right air", 0.9), KeyLine("square", "blue", "left air", 0.9))
    (audiogram,) = mean(sheet(), key, (marks,), Choices()).audiograms
    by_ear = {t.ear: (t.standing, t.why_ask) for t in audiogram.thresholds}
    assert by_ear == {"right": ("sure", ()), "left": ("ask", ("symbol-set-unknown",))}


def test_a_specimen_that_is_seen_twice_denies_nothing() -> None:
    # on a tiny chart the cross of "left air" was given the words of the line below as well, and every X asked
    lines = (KeyLine("square", "blue", "left air masked", 0.9), KeyLine("square", "blue", "left air", 0.9))
    assert denied_by(lines, SYMBOL_SETS["asha-1990"]) == frozenset()
    assert denied_by(lines[1:], SYMBOL_SETS["asha-1990"]) == {"square"}


@pytest.mark.parametrize("word", ["ver t&ubt", "vertdubt", "rnasked"])
def test_a_word_for_masking_that_was_read_with_slips_makes_no_bracket_unmasked(word: str) -> None:
    # seen on a page: brackets that its key calls masked stood as unmasked bone, surely
    lines = (
        line("circle", "Right air"), line("cross", "Left air"),
        line("bracket-left", f"Right bone {word}"), line("bracket-right", f"Left bone {word}"),
    )  # fmt: skip
    assert sets_of_key(lines) == ()
    assert sets_of_key(tuple(replace(one, text=one.text.replace(word, "")) for one in lines)) == ("jis-t-1201",)


def test_where_a_key_says_of_bone_that_it_is_unmasked_a_line_without_a_word_has_lost_one() -> None:
    lines = (
        line("circle", "Right air"), line("cross", "Left air"),
        line("bracket-left", "Right bone"), line("bracket-right", "Left bone unmasked"),
    )  # fmt: skip
    assert "bracket-left" not in denied_by(lines, SYMBOL_SETS["bsa-2018"])


@pytest.mark.parametrize(
    ("glyph", "text", "told"),
    [("letter-u", "Uncomfortable level", True), ("letter-s", "Sound field", True), ("letter-u", "Masked", False)],
)
def test_a_letter_that_the_key_explains_is_told_though_the_pages_set_has_no_such_letter(
    glyph: Glyph, text: str, *, told: bool
) -> None:
    # BSA 2018 has no U; forms that follow it print it in their keys all the same, and every U asked for its set
    levels = {500: 90, 1000: 95, 2000: 95, 4000: 90}
    marks = chart(*row("circle", dict.fromkeys(levels, 20), "red"), *row(glyph, levels, "red"))
    (audiogram,) = mean(sheet(), (*BSA, line(glyph, text)), (marks,), Choices()).audiograms
    assert audiogram.symbol_set == "bsa-2018"
    asked = {t.level_db_hl for t in audiogram.thresholds if "symbol-set-unknown" in t.why_ask}
    assert asked == (set() if told else {90.0, 95.0})


@pytest.mark.parametrize("twice", [False, True])
def test_a_letter_of_the_key_does_not_speak_against_a_set_that_has_no_such_letter(*, twice: bool) -> None:
    # seen on pages: with a U in their keys, brackets called bone stood as masked; U may be seen twice
    lines = (
        line("circle", "Right air"), line("cross", "Left air"), line("letter-u", "Uncomfortable level (UCL)"),
        line("bracket-left", "Right bone"), line("bracket-right", "Left bone"),
    )  # fmt: skip
    more = (line("letter-u", "comfortable level ucl"),) if twice else ()
    assert sets_of_key((*lines, *more)) == ("jis-t-1201",)
    assert "letter-u" in with_letters(SYMBOL_SETS["jis-t-1201"], (*lines, *more)).meanings


def test_a_letter_of_the_key_does_not_speak_for_a_set_either() -> None:
    lines = (line("circle", "Right air"), line("cross", "Left air"), line("letter-u", "Uncomfortable level"))
    assert sets_of_key(lines) == ()


@pytest.mark.parametrize(
    ("text", "measure"),
    [("Unbehaglichkeitsschwelle", "ucl"), ("Seuil d'inconfort", "ucl"), ("Umbral de molestia", "ucl"), ("LDL", "ucl"),
     ("Most comfortable level", "mcl"), ("angenehme Lautheit", "mcl")],
)  # fmt: skip
def test_the_key_says_which_loudness_the_letter_m_is_of(text: str, measure: str) -> None:
    # "m m Seuil d'inconfort" beside brackets of ASHA: four levels of 90 to 100 dB stood as the most comfortable ones
    told = with_letters(SYMBOL_SETS["asha-1990"], (*ASHA, line("letter-m", text, "red")))
    assert told.meanings["letter-m"].measure == measure


def test_a_key_that_says_two_things_of_the_letter_m_leaves_it_to_the_set() -> None:
    lines = (*ASHA, line("letter-m", "MCL", "red"), line("letter-m", "UCL", "blue"))
    assert with_letters(SYMBOL_SETS["asha-1990"], lines) == SYMBOL_SETS["asha-1990"]


def test_a_specimen_in_each_ears_ink_denies_what_both_say_is_something_else() -> None:
    # a short key of "BC unmasked" with a red and a blue triangle: one stood as masked air by ASHA 1990
    asha = SYMBOL_SETS["asha-1990"]
    red, blue = line("triangle", "right BC unmasked", "red"), line("triangle", "left BC unmasked", "blue")
    assert denied_by((red, blue), asha) == {"triangle"}
    assert denied_by((red, replace(blue, ink="red")), asha) == frozenset()
