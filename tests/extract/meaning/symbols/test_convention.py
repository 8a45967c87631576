"""Which symbol set a page was drawn under; what the sets say: tests/published/audiometric_symbols.csv."""

from __future__ import annotations

import pytest
from by_hand import mark, row

from octavo.extract.chart import Mark
from octavo.extract.meaning.symbols.convention import convention
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Ink

AIR = (*row("circle", {500: 20, 1000: 25, 2000: 40}, "red"), *row("cross", {500: 15, 1000: 20, 2000: 30}, "blue"))


def test_what_the_key_says_goes_before_what_the_person_assumes_and_both_before_the_marks() -> None:
    marks = (*AIR, mark("square", 1000, 40))
    assert convention(marks, key=("bsa-2018",), asked="jis-t-1201").symbol_set.id == "bsa-2018"
    assert convention(marks, key=(), asked="jis-t-1201").symbol_set.id == "jis-t-1201"
    assert convention(marks, key=(), asked="jis-t-1201").told
    assert not convention(marks, key=(), asked=None).told


def test_marks_that_the_named_set_does_not_know_stay_open() -> None:
    chosen = convention((*AIR, mark("square", 1000, 40)), key=(), asked="jis-t-1201")
    assert chosen.open_glyphs == {"square"}


OPEN_ALONE = {
    "triangle", "angle-left", "angle-right", "bracket-left", "bracket-right", "letter-m", "circle-filled",
    "cross-filled",
}  # fmt: skip
"""Read off tests/published/audiometric_symbols.csv: glyphs that say different things in two sets; and the filled marks,
of which a single one may be a plain one smeared, where the other sets have only those."""


@pytest.mark.parametrize("glyph", sorted({g for s in SYMBOL_SETS.values() for g in s.meanings}))
def test_one_mark_alone_is_open_where_the_sets_read_it_differently(glyph: Glyph) -> None:
    chosen = convention((*AIR, mark(glyph, 500, 25)), key=(), asked=None)
    assert (glyph in chosen.open_glyphs) == (glyph in OPEN_ALONE)


@pytest.mark.parametrize("glyph", ["circle-filled", "cross-filled", "foot-right", "foot-left"])
def test_a_mark_that_only_bsa_has_settles_bsa(glyph: Glyph) -> None:
    assert [s for s, known in SYMBOL_SETS.items() if glyph in known.meanings] == ["bsa-2018"]
    assert convention((*AIR, mark(glyph, 500, 50)), key=(), asked=None).symbol_set.id == "bsa-2018"


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
    chosen = convention(marks, key=(), asked=None)
    assert chosen.symbol_set.id == set_id
    assert not chosen.open_glyphs


@pytest.mark.parametrize(("blue", "open_"), [(1, True), (4, False)])
def test_one_angle_of_four_that_looks_blue_does_not_name_their_ear(blue: int, open_: bool) -> None:
    # a pencil on a photo: the page passed for the leaflet's, and all `<` stood as the left ear's, surely
    levels = {250: 5, 500: 20, 1000: 45, 2000: 35}
    marks = [mark("angle-left", hz, db, "blue" if i < blue else "neutral") for i, (hz, db) in enumerate(levels.items())]
    assert ("angle-left" in convention(tuple(marks), key=(), asked=None).open_glyphs) == open_


def test_two_angles_of_a_black_pen_that_look_blue_do_not_turn_them_round() -> None:
    # in warm light two `<` of five did: they spoke ASHA out, and all bone stood as the other ear's, surely
    left = [
        mark("angle-left", hz, 5, "blue" if hz < 400 or hz == 3000 else "neutral")
        for hz in (250, 500, 2000, 3000, 4000)
    ]
    right = row("angle-right", {250: -5, 500: 0, 1000: -5, 2000: 0, 4000: 30}, "neutral")
    assert convention((*left, *right), key=(), asked=None, leaflet="no").symbol_set.id == "asha-1990"


def test_angles_that_their_inks_alone_turn_round_stay_open_where_the_page_speaks_against_it() -> None:
    marks = (*AIR, *row("angle-left", {500: 10, 1000: 15, 2000: 20}, "blue"))
    assert "angle-left" in convention(marks, key=(), asked=None, leaflet="no").open_glyphs
    assert "angle-left" not in convention(marks, key=(), asked=None, leaflet="open").open_glyphs


def test_angle_marks_whose_inks_contradict_one_another_stay_open() -> None:
    marks = (*AIR, *row("angle-left", {500: 10, 1000: 15}, "red"), *row("angle-left", {2000: 20, 4000: 15}, "blue"))
    assert "angle-left" in convention(marks, key=(), asked=None).open_glyphs


@pytest.mark.parametrize("ink", ["red", "neutral"])
def test_triangles_alone_may_be_masked_air_or_bone_and_stay_open(ink: Ink) -> None:
    # references.md section 2, worked case (b): without a legend the answer must be "ambiguous"
    marks = (*AIR, *row("triangle", {1000: 30, 2000: 45}, ink))
    assert "triangle" in convention(marks, key=(), asked=None).open_glyphs


def test_triangles_twice_at_a_frequency_are_no_ears_masked_air() -> None:
    # one ear has one masked air threshold at a frequency; bone of each ear may stand there
    twice = (*row("triangle", {500: 5, 1000: 10}), *row("triangle", {500: 60, 1000: 70}))
    found = convention((*AIR, *twice), key=(), asked=None)
    assert found.symbol_set.meanings["triangle"].conduction == "bone"


def test_blue_triangles_are_bone_because_masked_air_of_the_left_ear_is_a_square() -> None:
    # ASHA 1990: the triangle is the right ear's, and red if coloured; BSA: either ear, in the ear's colour
    marks = (*AIR, *row("triangle", {500: 20, 1000: 25}, "blue"), *row("triangle", {2000: 30}, "red"))
    assert convention(marks, key=(), asked=None).symbol_set.id == "bsa-2018"


@pytest.mark.parametrize("glyph", ["bracket-left", "bracket-right"])
def test_brackets_alone_may_be_masked_or_not_and_stay_open(glyph: Glyph) -> None:
    # references.md section 2, marks whose meaning changes, no. 3: masked bone, or in Japan the ordinary marks
    assert glyph in convention((*AIR, *row(glyph, {500: 10, 1000: 15})), key=(), asked=None).open_glyphs


def squares(count: int, score: float = 0.85) -> tuple[Mark, ...]:
    return tuple(mark("square", hz, 50, score=score) for hz in (500, 1000, 2000, 4000)[:count])


TRIANGLES_ON_AIR = row("triangle", {500: 35, 1000: 35, 2000: 40})
MASKED_BONE = row("bracket-left", {500: 10, 1000: 20, 2000: 25})


def test_one_square_does_not_settle_what_triangles_and_brackets_are() -> None:
    # a single glyph may be a false one: seen on a coarse fax, where it turned bone triangles into masked air
    chosen = convention((*AIR, *squares(1), *TRIANGLES_ON_AIR, *MASKED_BONE), key=(), asked=None)
    assert "triangle" in chosen.open_glyphs


def test_faint_squares_that_two_brackets_make_do_not_settle_the_brackets() -> None:
    # `[` and `]` at one level close to a square; two or three of low score are no evidence
    chosen = convention((*AIR, *squares(2, 0.7), *MASKED_BONE), key=(), asked=None)
    assert "bracket-left" in chosen.open_glyphs


def test_a_square_beside_brackets_stays_open_while_a_set_of_brackets_alone_is_possible() -> None:
    # JIS T 1201 as taught: `[` right bone and `]` left bone, which make a square at one level
    assert "square" in convention((*AIR, *squares(2, 0.7), *MASKED_BONE), key=(), asked=None).open_glyphs


def test_a_single_square_without_brackets_is_what_the_only_set_with_squares_says() -> None:
    chosen = convention((*AIR, *squares(1)), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("asha-1990", frozenset())


def test_several_squares_settle_asha_for_triangles_and_brackets_too() -> None:
    # tests/published/audiometric_symbols.csv: no other set has a square
    chosen = convention((*AIR, *squares(3), *TRIANGLES_ON_AIR, *MASKED_BONE), key=(), asked=None)
    assert chosen.symbol_set.id == "asha-1990"
    assert not chosen.open_glyphs


def test_a_few_false_squares_among_many_triangles_leave_them_open() -> None:
    many = tuple(mark("triangle", hz, 30) for hz in (250, 375, 500, 750, 1000, 1500, 2000, 4000))
    assert "triangle" in convention((*AIR, *squares(2), *many), key=(), asked=None).open_glyphs


def test_two_glyphs_at_one_frequency_are_one_piece_of_evidence() -> None:
    doubled = (mark("square", 1000, 50, score=0.85), mark("square", 1000, 60, score=0.85))
    assert "triangle" in convention((*AIR, *doubled, *TRIANGLES_ON_AIR), key=(), asked=None).open_glyphs


def test_angle_marks_settle_that_brackets_are_the_masked_ones() -> None:
    # no set but ASHA has both `<` and `[`; so the angles themselves are settled as well, without any colour
    angles = row("angle-left", {500: 10, 1000: 15, 2000: 20})
    chosen = convention((*AIR, *angles, *MASKED_BONE), key=(), asked=None)
    assert chosen.symbol_set.id == "asha-1990"
    assert not chosen.open_glyphs


def test_triangles_where_the_right_ears_air_is_missing_are_that_air() -> None:
    # common practice: who tests bone at a frequency tests air there, and a masked mark stands for the unmasked one
    circles = row("circle", {125: 20, 250: 20, 500: 20})
    crosses = row("cross", {125: 20, 250: 20, 500: 20, 1000: 20, 2000: 20, 4000: 20})
    chosen = convention((*circles, *crosses, *row("triangle", {1000: 60, 2000: 65, 4000: 65})), key=(), asked=None)
    assert chosen.symbol_set.id == "asha-1990"
    assert not chosen.open_glyphs


def test_triangles_deeper_than_bone_is_tested_are_air() -> None:
    deep = row("triangle", {500: 90, 1000: 95, 2000: 100})
    assert convention((*AIR, *deep), key=(), asked=None).open_glyphs == frozenset()


def test_triangles_far_worse_than_the_better_air_are_masked_air() -> None:
    # unmasked bone is heard by the better ear, so it is never much worse than the better air
    shadowed = row("triangle", {500: 60, 1000: 65, 2000: 70})
    chosen = convention((*AIR, *shadowed), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("asha-1990", frozenset())


def test_triangles_better_than_the_right_ears_unmasked_air_are_bone() -> None:
    # masking noise makes no threshold better
    air = (*row("circle", {500: 50, 1000: 50, 2000: 55}), *row("cross", {500: 45, 1000: 50, 2000: 55}))
    chosen = convention((*air, *row("triangle", {500: 10, 1000: 10, 2000: 15})), key=(), asked=None)
    assert chosen.symbol_set.id == "bsa-2018"
    assert not chosen.open_glyphs


def test_triangles_at_the_left_ears_air_on_a_chart_without_the_right_are_its_bone() -> None:
    # BSA 2018, rule 1: air is masked where the ears differ by 40 dB; at the left ear's own levels nothing is masked
    crosses = row("cross", {500: 20, 1000: 25, 2000: 40})
    chosen = convention((*crosses, *row("triangle", {500: 20, 1000: 25, 2000: 40})), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset())


def test_triangles_far_worse_than_the_left_ears_air_may_be_the_right_ears_masked_air() -> None:
    crosses = row("cross", {500: 5, 1000: 5, 2000: 10})
    chosen = convention((*crosses, *row("triangle", {500: 50, 1000: 55, 2000: 60})), key=(), asked=None)
    assert chosen.symbol_set.id == "asha-1990"


@pytest.mark.parametrize(("worse", "set_id"), [(20, "bsa-2018"), (30, "asha-1990")])
def test_triangles_on_the_left_ears_chart_are_masked_air_only_where_there_is_reason_to_mask(
    worse: float, set_id: str
) -> None:
    # BSA 2018, rule 1: 40 dB between the ears, of which test and retest of both leave some 25 dB (common practice)
    levels = {500: 20, 1000: 25, 2000: 40}
    triangles = row("triangle", {hz: level + worse for hz, level in levels.items()})
    chosen = convention((*row("cross", levels), *triangles), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == (set_id, frozenset())


@pytest.mark.parametrize(("bone_db", "may_be_masked"), [(15, True), (55, False)])
def test_triangles_forty_decibels_worse_than_bone_may_be_masked_for_its_sake(bone_db: int, may_be_masked: bool) -> None:
    """Rule 3 of the BSA's masking procedure, 40 dB for headphones [memory]."""
    hz = (500, 1000, 2000)
    marks = (
        *row("cross", dict.fromkeys(hz, 55)), *row("triangle", dict.fromkeys(hz, 75)),
        *row("bracket-left", dict.fromkeys(hz, bone_db)), *row("bracket-right", dict.fromkeys(hz, bone_db)),
    )  # fmt: skip
    assert ("triangle" in convention(marks, key=(), asked=None).open_glyphs) == may_be_masked


@pytest.mark.parametrize(("letters", "set_id"), [(3, "triangle-bone"), (2, "bsa-2018"), (0, "bsa-2018")])
def test_of_sets_equally_possible_the_one_that_has_the_letters_seen_is_taken(letters: int, set_id: str) -> None:
    # tests/published/audiometric_symbols.csv: both give the triangle to bone, one alone has the letter M
    bone = row("triangle", {500: 20, 1000: 25, 2000: 35}, "blue")
    loud = tuple(mark("letter-m", hz, 95, "red") for hz in (500, 1000, 2000)[:letters])
    chosen = convention((*AIR, *bone, *loud), key=(), asked=None)
    assert chosen.symbol_set.id == set_id
    assert "triangle" not in chosen.open_glyphs


def test_letters_do_not_outweigh_a_mark_that_speaks_against_their_set() -> None:
    # ASHA 1990 has the letter S but no filled cross, BSA 2018 the cross but not the letter; one mark rules out neither
    letters = row("letter-s", {500: 30, 1000: 30, 2000: 30})
    assert convention((*AIR, *letters), key=(), asked=None).symbol_set.id == "asha-1990"
    filled = mark("cross-filled", 1000, 50, "blue")
    assert convention((*AIR, *letters, filled), key=(), asked=None).symbol_set.id == "bsa-2018"


FILLED_CIRCLES = row("circle-filled", {500: 45, 1000: 50, 2000: 55}, "red")


def test_filled_circles_that_no_other_mark_of_bsa_backs_stay_open() -> None:
    # common practice: some programs fill ordinary circles for looks
    chosen = convention((*AIR, *FILLED_CIRCLES), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset({"circle-filled"}))


@pytest.mark.parametrize(
    ("glyph", "ink"), [("cross-filled", "blue"), ("foot-right", "red"), ("foot-left", "blue"), ("triangle", "blue")]
)
def test_two_other_marks_of_bsa_back_filled_circles_and_one_does_not(glyph: Glyph, ink: Ink) -> None:
    # tests/published/audiometric_symbols.csv: BSA 2018 fills masked air, and has feet for loudness, triangles for bone
    others = row(glyph, {500: 30, 1000: 35}, ink)
    for count, open_there in ((2, False), (1, True)):
        chosen = convention((*AIR, *FILLED_CIRCLES, *others[:count]), key=(), asked=None)
        assert chosen.symbol_set.id == "bsa-2018"
        assert ("circle-filled" in chosen.open_glyphs) == open_there


def test_one_triangle_far_worse_than_the_better_air_settles_nothing() -> None:
    assert "triangle" in convention((*AIR, mark("triangle", 1000, 70)), key=(), asked=None).open_glyphs


def test_angle_marks_without_ink_or_masked_marks_beside_them_are_open_wherever_they_stand() -> None:
    # references.md section 2, marks whose meaning changes, no. 2: the side of the line helps only where the
    # placement of ASHA is known to be used
    for beside in (0.0, 0.1):
        left = row("angle-left", {500: 10, 1000: 15}, beside=-beside)
        right = row("angle-right", {500: 10, 1000: 15}, beside=beside)
        chosen = convention((*AIR, *left, *right), key=(), asked=None)
        assert chosen.open_glyphs == {"angle-left", "angle-right"}


def test_angle_marks_of_the_other_ear_on_charts_of_one_ear_are_the_leaflets() -> None:
    # the German-language leaflet: right `>`, left `<`
    right = row("circle", {500: 20, 1000: 25, 2000: 40}) + row("angle-right", {500: 10, 1000: 15, 2000: 20})
    chosen = convention(right, key=(), asked=None)
    assert chosen.symbol_set.id == "leaflet-de"
    assert not chosen.open_glyphs


def test_one_false_mark_of_the_other_ear_leaves_a_chart_an_ears_own() -> None:
    left = row("cross", {125: 20, 250: 20, 500: 20, 1000: 25, 2000: 40, 4000: 50, 8000: 50})
    angles = row("angle-left", {500: 10, 1000: 15, 2000: 20})
    chosen = convention((*left, mark("circle", 500, 60, score=0.6), *angles), key=(), asked=None)
    assert chosen.symbol_set.id == "leaflet-de"


def test_the_letter_m_stays_open_where_two_sets_say_different_loudness_levels() -> None:
    # references.md section 2, marks whose meaning changes, no. 5
    assert "letter-m" in convention((*AIR, mark("letter-m", 1000, 60, "red")), key=(), asked=None).open_glyphs


def test_circles_and_crosses_say_the_same_everywhere_and_leave_nothing_open() -> None:
    assert not convention(AIR, key=(), asked=None).open_glyphs
    for known in SYMBOL_SETS.values():
        assert (known.meanings["circle"].ear, known.meanings["cross"].ear) == ("right", "left")


def test_red_triangles_on_a_chart_of_the_left_ears_air_alone_are_no_bone_of_an_ear_without_air() -> None:
    levels = {250: 40, 500: 45, 1000: 40, 2000: 40, 4000: 45}
    crosses = row("cross", levels, "blue")
    triangles = row("triangle", {hz: level + 10 for hz, level in levels.items()}, "red")
    assert convention((*crosses, *triangles), key=(), asked=None).symbol_set.id == "asha-1990"


@pytest.mark.parametrize(("bone_db", "set_id"), [(15, "jis-t-1201"), (0, "asha-1990")])
def test_brackets_at_the_level_of_their_ears_air_are_more_likely_unmasked_but_stay_open(
    bone_db: int, set_id: str
) -> None:
    # ASHA 2005: bone is masked where the air-bone gap is more than 10 dB; under JIS T 1201 brackets are unmasked bone
    brackets = (
        *row("bracket-left", {500: bone_db, 1000: bone_db}),
        *row("bracket-right", {500: bone_db, 1000: bone_db}),
    )
    air = (*row("circle", {500: 20, 1000: 20}), *row("cross", {500: 20, 1000: 20}))
    chosen = convention((*air, *brackets), key=(), asked=None)
    assert chosen.symbol_set.id == set_id
    assert chosen.open_glyphs == {"bracket-left", "bracket-right"}
    # JIS T 1201 is taught in Japanese: on a form in another language they rather are ASHA's or BSA's, masked throughout
    western = convention((*air, *brackets), key=(), asked=None, western=True)
    assert western.symbol_set.id == "asha-1990"
    assert western.open_glyphs == chosen.open_glyphs
    more = (*brackets, *row("bracket-left", {2000: bone_db}), *row("circle", {2000: 20}))
    assert convention((*air, *more), key=(), asked=None, western=True).symbol_set.id == set_id


def test_brackets_that_look_like_squares_do_not_settle_that_brackets_are_masked() -> None:
    # seen on a scan: `[` and `]` of JIS T 1201 at one level were read as squares, which that set has not
    brackets = (mark("bracket-left", 2000, 30, beside=-0.1), mark("bracket-right", 2000, 25, beside=0.1))
    sides = [
        *(mark("bracket-left", hz, 20, beside=-0.05, score=0.2) for hz in (500, 1000)),
        *(mark("bracket-right", hz, 20, beside=0.05, score=0.2) for hz in (500, 1000)),
    ]
    squares = [mark("square", hz, 20, score=0.7) for hz in (500, 1000)]
    squares += [mark("square", 4000, 20, score=0.7, beside=0.02)]
    assert not convention((*AIR, *squares, *brackets), key=(), asked=None).open_glyphs & {"bracket-left"}
    chosen = convention((*AIR, *squares, *brackets, *sides), key=(), asked=None)
    assert {"square", "bracket-left", "bracket-right"} <= chosen.open_glyphs


AIR_ON_GREY = (*row("circle", {500: 60, 1000: 60}), *row("cross", {500: 10, 1000: 10}))


@pytest.mark.parametrize(("left_db", "right_db", "set_id"), [(10, 50, "asha-1990"), (50, 10, "leaflet-de")])
def test_angle_marks_that_would_be_worse_than_their_ears_air_are_more_likely_the_other_ears_but_stay_open(
    left_db: int, right_db: int, set_id: str
) -> None:
    # bone is not worse than the same ear's air by more than test and retest, 10 dB
    angles = (*row("angle-right", {500: left_db, 1000: left_db}), *row("angle-left", {500: right_db, 1000: right_db}))
    chosen = convention((*AIR_ON_GREY, *angles), key=(), asked=None)
    assert chosen.symbol_set.id == set_id
    assert chosen.open_glyphs == {"angle-left", "angle-right"}


@pytest.mark.parametrize(("arrows", "set_id"), [((0.9, 0.0, 0.0), "asha-1990"), ((0.0, 0.9, 0.0), "leaflet-de")])
def test_the_arrow_of_an_angle_mark_tells_the_likelier_set(arrows: tuple[float, float, float], set_id: str) -> None:
    # ASHA 1990: the right ear's arrow points down-left, the left ear's down-right; its `<` is the right ear's
    marks = (*AIR_ON_GREY, mark("angle-left", 500, 10), mark("angle-left", 2000, 70, arrows=arrows))
    assert convention(marks, key=(), asked=None).symbol_set.id == set_id


def test_triangles_where_circles_are_lost_do_not_exclude_bone_of_no_ear() -> None:
    # circles beneath crosses are lost on a fax: that none stands at the triangles is no sign
    crosses = row(
        "cross", {250: 5, 500: 5, 750: 10, 1000: 5, 1500: 5, 2000: 10, 3000: 15, 4000: 35, 6000: 25, 8000: 10}
    )
    circles = row("circle", {250: 0, 500: 5, 8000: 5})
    triangles = row("triangle", {1000: 5, 2000: 5, 3000: 20, 4000: 35})
    chosen = convention((*crosses, *circles, *triangles), key=(), asked=None)
    assert "triangle" in chosen.open_glyphs


def test_where_no_set_fits_the_inks_a_triangle_stays_open() -> None:
    # one blue pen: triangles of the right ear and squares of the left, as only ASHA 1990 has both
    marks = (*row("triangle", {250: 50, 500: 45, 1000: 45, 2000: 40, 4000: 30}, "blue"),
             *row("square", {250: 30, 500: 25, 1000: 25, 2000: 20, 4000: 20}, "blue"))  # fmt: skip
    assert "triangle" in convention(marks, key=(), asked=None).open_glyphs
