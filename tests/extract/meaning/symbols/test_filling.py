"""Filled marks: BSA masking, or a program's style; what the sets say: tests/published/audiometric_symbols.csv."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.extract.meaning.symbols.filling import without_style
from octavo.extract.sightings import KeyLine
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Ink

RIGHT = {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 60, 8000: 65}
LEFT = {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}
FILLED = row("circle-filled", RIGHT, "red")
HOLLOW = row("circle", RIGHT, "red")
CROSSES = row("cross", LEFT, "blue")
SQUARES = row("square", {500: 55, 1000: 60, 2000: 65, 4000: 70}, "blue")
ANGLES = row("angle-left", {500: 10, 1000: 15, 2000: 35}, "red", beside=-0.1)


def line(glyph: Glyph, text: str, ink: Ink = "neutral") -> KeyLine:
    return KeyLine(glyph, ink, text, 0.9)


def read(*marks: Mark, key: tuple[KeyLine, ...] = (), symbols: str | None = None) -> Reading:
    return mean(sheet(), key, (chart(*marks),), Choices(symbols))


def right_air(reading: Reading) -> tuple[Threshold, ...]:
    return tuple(t for a in reading.audiograms for t in a.thresholds if (t.ear, t.conduction) == ("right", "air"))


def values(found: tuple[Threshold, ...], *, masked: bool = False) -> dict[float, float | None]:
    return {t.frequency_hz: t.level_db_hl for t in found if t.masked == masked}


def test_filled_circles_without_hollow_ones_are_ordinary_right_air_and_asked_about_while_bsa_is_possible() -> None:
    # common practice: who tests a masked threshold has tested the unmasked one, so some right air is hollow under BSA
    found = right_air(read(*FILLED, *CROSSES))
    assert values(found) == RIGHT
    assert {t.standing for t in found} == {"ask"}
    assert all(t.why_ask == ("symbol-set-unknown",) for t in found)


@pytest.mark.parametrize(("filled", "standing"), [({1500: 55}, "ask"), ({1500: 55, 3000: 60}, "sure")])
def test_the_only_filled_square_of_a_page_may_be_a_mark_that_was_scribbled_over(
    filled: dict[int, float], standing: str
) -> None:
    # a wrong mark blotted out on a copy stood as masked left air
    (audiogram,) = read(*HOLLOW, *CROSSES, *ANGLES, *row("square-filled", filled), symbols="asha-1990").audiograms
    assert {t.standing for t in audiogram.thresholds if t.ear == "left" and t.masked} == {standing}


def test_the_left_ears_crosses_beside_filled_circles_stay_sure() -> None:
    (audiogram,) = read(*FILLED, *CROSSES).audiograms
    assert {t.standing for t in audiogram.thresholds if t.ear == "left"} == {"sure"}


def test_filled_circles_are_sure_where_squares_and_angle_marks_exclude_bsa() -> None:
    # no square and no angle mark in BSA 2018
    assert not {"square", "angle-left"} & SYMBOL_SETS["bsa-2018"].meanings.keys()
    found = right_air(read(*FILLED, *CROSSES, *SQUARES, *ANGLES))
    assert values(found) == RIGHT
    assert {t.standing for t in found} == {"sure"}


def test_one_square_does_not_exclude_bsa() -> None:
    assert {t.standing for t in right_air(read(*FILLED, *CROSSES, *SQUARES[:1]))} == {"ask"}


TOLD = (line("circle-filled", "Right air"), line("cross", "Left air"))


@pytest.mark.parametrize("text", ["Right air", "filled circle: Right air", "Right", "Air, unmasked", "Air, not mask.",
                                  "Luftleitung rechts", "aérienne droite"])  # fmt: skip
def test_a_key_that_says_a_filled_circle_is_ordinary_air_makes_it_so_without_a_doubt(text: str) -> None:
    found = right_air(read(*FILLED, *CROSSES, key=(line("circle-filled", text), line("cross", "Left air"))))
    assert values(found) == RIGHT
    assert {t.standing for t in found} == {"sure"}


def test_a_key_that_says_so_goes_before_hollow_circles_and_bsas_own_marks() -> None:
    bsa = row("cross-filled", {500: 50, 1000: 55}, "blue")
    filling = without_style((chart(*FILLED, mark("circle", 3000, 50), *bsa),), TOLD)
    assert {m.sight.glyph for m in filling.charts[0].marks} == {"circle", "cross-filled"}
    assert filling.doubtful == frozenset()


@pytest.mark.parametrize("text", ["Right air masked", "Air right, masked", "Luftleitung rechts, vertäubt",
                                  "aérienne droite masquée", "R, air mask."])  # fmt: skip
def test_filled_circles_that_the_key_calls_masked_stay_masked(text: str) -> None:
    key = (line("circle", "Right air"), line("circle-filled", text), line("cross", "Left air"))
    found = right_air(read(*FILLED, *CROSSES, key=key, symbols="bsa-2018"))
    assert values(found, masked=True) == RIGHT
    assert values(found) == {}


@pytest.mark.parametrize(("text", "standing"), [("luft clubt", "ask"), ("luft schwelle", "sure")])
def test_a_key_whose_words_for_a_filled_circle_go_on_unread_does_not_settle_what_filling_is(
    text: str, standing: str
) -> None:
    # seen on a copy: "Luft vertäubt" was read "luft clubt", and seven masked values stood as unmasked and sure
    found = right_air(read(*FILLED, *CROSSES, key=(line("circle-filled", text), line("cross", "luft"))))
    assert {t.standing for t in found} == {standing}


def test_a_key_of_words_other_than_air_settles_nothing_about_filling() -> None:
    (seen,) = without_style((chart(*FILLED, *HOLLOW, *CROSSES),), (line("circle-filled", "Right bone"),)).charts
    assert {m.sight.glyph for m in seen.marks} == {"circle-filled", "circle", "cross"}


def test_the_keys_own_filled_specimens_are_turned_with_the_marks() -> None:
    filling = without_style((chart(*FILLED, *CROSSES),), TOLD)
    assert [k.glyph for k in filling.key] == ["circle", "cross"]
    assert [k.text for k in filling.key] == ["Right air", "Left air"]


@pytest.mark.parametrize(("filled", "hollow"), [("square-filled", "square"), ("triangle-filled", "triangle")])
def test_a_filled_shape_that_no_set_has_is_its_hollow_twin(filled: Glyph, hollow: Glyph) -> None:
    assert not any(filled in s.meanings for s in SYMBOL_SETS.values())
    levels = {500: 55, 1000: 60, 2000: 65}
    (seen,) = without_style((chart(*HOLLOW, *CROSSES, *row(filled, levels)),), (line(filled, "masked"),)).charts
    assert [m.sight.glyph for m in seen.marks[-3:]] == [hollow] * 3
    assert [(m.frequency_hz, m.level_db_hl) for m in seen.marks[-3:]] == list(levels.items())
    with_filled = read(*HOLLOW, *CROSSES, *row(filled, levels), symbols="asha-1990")
    assert with_filled == read(*HOLLOW, *CROSSES, *row(hollow, levels), symbols="asha-1990")


def test_a_rival_that_is_the_same_shape_unfilled_is_no_rival_any_more() -> None:
    doubtful = mark("square-filled", 1000, 60, rivals=(("square", 0.4), ("circle", 0.2), ("triangle-filled", 0.1)))
    (seen,) = without_style((chart(doubtful),), ()).charts
    assert dict(seen.marks[0].sight.rivals) == {"circle": 0.2, "triangle": 0.1}


BSA = (
    *row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40}, "red"),
    *row("circle-filled", {2000: 55, 4000: 60, 8000: 65}, "red"),
    *CROSSES,
    *row("triangle", {500: 10, 1000: 10, 2000: 25}, "red"),
)


def test_a_bsa_page_keeps_its_masking() -> None:
    reading = read(*BSA)
    (audiogram,) = reading.audiograms
    assert audiogram.symbol_set == "bsa-2018"
    found = right_air(reading)
    assert values(found, masked=True) == {2000: 55, 4000: 60, 8000: 65}
    assert values(found) == {250: 10, 500: 15, 1000: 20, 2000: 40}
    assert {t.standing for t in found} == {"sure"}


@pytest.mark.parametrize("glyph", ["cross-filled", "foot-right", "foot-left"])
def test_one_mark_that_bsa_alone_has_keeps_filled_circles_masked(glyph: Glyph) -> None:
    assert [s for s, known in SYMBOL_SETS.items() if glyph in known.meanings] == ["bsa-2018"]
    (seen,) = without_style((chart(*FILLED, *CROSSES, mark(glyph, 500, 70)),), ()).charts
    assert [m.sight.glyph for m in seen.marks[: len(FILLED)]] == ["circle-filled"] * len(FILLED)


def test_crosses_on_discs_are_no_filled_crosses() -> None:
    # equal thresholds of both ears on a spreadsheet's chart: each disc stood as masked right air, one of them surely
    both = {hz: level for hz, level in RIGHT.items() if hz != 8000}
    seen_as = (*row("cross-filled", both, "blue"), *row("cross", {8000: 40}, "blue"))
    doubles = tuple(replace(m, sight=replace(m.sight, glyph="cross", score=0.8)) for m in seen_as[:-1])
    (audiogram,) = read(*FILLED, *seen_as, *doubles, key=(line("circle-filled", "right air"),)).audiograms
    found = {ear: [t for t in audiogram.thresholds if t.ear == ear] for ear in ("right", "left")}
    assert values(tuple(found["right"])) == RIGHT
    assert values(tuple(found["left"])) == both | {8000: 40}
    assert not [t for t in audiogram.thresholds if t.masked]


@pytest.mark.parametrize(("on_discs", "asks"), [(5, True), (1, False)])
def test_crosses_ask_where_most_lie_on_discs_and_nothing_says_what_filling_means(on_discs: int, *, asks: bool) -> None:
    # masked air of both ears, nothing heard at any level: filled crosses on filled circles stood as unmasked
    both = dict(list(RIGHT.items())[:on_discs])
    others = {hz: level + 20 for hz, level in RIGHT.items() if hz not in both}
    (audiogram,) = read(*FILLED, *row("cross-filled", both, "blue"), *row("cross", others, "blue")).audiograms
    left = [t for t in audiogram.thresholds if t.ear == "left"]
    assert {"symbol-set-unknown" in t.why_ask for t in left} == {asks}


@pytest.mark.parametrize(("hollow", "turned"), [(0, True), (1, False), (2, False)])
def test_a_sixth_as_many_hollow_circles_as_filled_ones_keep_them_masked(hollow: int, turned: bool) -> None:
    (seen,) = without_style((chart(*FILLED, *CROSSES, *HOLLOW[:hollow]),), ()).charts
    assert ({m.sight.glyph for m in seen.marks} == {"circle", "cross"}) == turned


def test_one_filled_circle_alone_is_left_as_it_is() -> None:
    (seen,) = without_style((chart(mark("circle-filled", 1000, 30), *CROSSES),), ()).charts
    assert seen.marks[0].sight.glyph == "circle-filled"


def test_marks_too_weak_to_count_do_not_settle_what_filling_is() -> None:
    weak = tuple(replace(m, sight=replace(m.sight, score=0.3)) for m in HOLLOW)
    (seen,) = without_style((chart(*FILLED, *CROSSES, *weak),), ()).charts
    assert seen.marks[0].sight.glyph == "circle"


@pytest.mark.parametrize(("triangles", "asked"), [(0, True), (1, True), (3, False)])
def test_filled_and_hollow_circles_alone_are_asked_about_until_two_more_marks_are_bsas(
    triangles: int, asked: bool
) -> None:
    marks = tuple(m for m in BSA if m.sight.glyph != "triangle")
    found = right_air(read(*marks, *[m for m in BSA if m.sight.glyph == "triangle"][:triangles]))
    masked = [t for t in found if t.masked]
    assert len(masked) == 3
    assert ({t.standing for t in masked} == {"ask"}) == asked
