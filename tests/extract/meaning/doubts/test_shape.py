"""Whether what looks like a mark is made of another mark's strokes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet, sized

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.doubts.shape import between_crosses
from octavo.interpret.symbols import Glyph, Ink

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45}, "blue")
ANGLES = row("angle-left", {500: 5, 1000: 10, 2000: 20}, "red", beside=-0.15)


@pytest.mark.parametrize(("glyph", "asks"), [("bracket-left", True), ("angle-left", False)])
def test_the_only_bracket_of_a_chart_at_the_edge_of_a_circle_may_be_its_loop(glyph: Glyph, asks: bool) -> None:
    # a circle whose loop began twice had a `[` at its edge, which stood as masked bone
    circle = mark("circle", 4000, 60, "red")
    edge = mark(glyph, 4000, 60, "red", beside=-0.07, score=0.68)
    marks = (*RIGHT, *LEFT, *ANGLES, circle, edge)
    (reading,) = mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 4000)]
    assert ("marks-overlap" in one.why_ask) == asks


@pytest.mark.parametrize(("hz", "asks"), [(6000, True), (4000, False)])
def test_an_angle_at_the_edge_of_a_circle_where_bone_is_seldom_tested_may_be_its_loop(hz: int, asks: bool) -> None:
    # a circle that began outside itself had a `<` at its edge, which stood as bone at 6000 Hz
    edge = mark("angle-left", hz, 60, "red", beside=-0.07, score=0.65)
    marks = (*RIGHT, *LEFT, *ANGLES, mark("circle", hz, 60, "red"), edge)
    (reading,) = mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz, t.level_db_hl) == ("bone", hz, 60)]
    assert ("marks-overlap" in one.why_ask) == asks


@pytest.mark.parametrize(
    ("glyph", "score", "ink", "asks"),
    [
        ("circle", 0.66, "blue", True),
        ("circle", 0.8, "blue", False),
        ("circle", 0.66, "red", False),  # no stroke of a blue cross
        ("letter-s", 0.64, "blue", True),
    ],
)
def test_a_faint_circle_or_s_on_a_cross_may_be_what_its_strokes_close(
    glyph: Glyph, score: float, ink: Ink, *, asks: bool
) -> None:
    # the right ear's circle was missed, and a cross that a hand had gone over stood for it, 25 dB off
    letters = row("letter-s", {250: 0, 500: 0, 1000: 5})
    marks = (*RIGHT, *LEFT, *letters, mark(glyph, 4000, 45, ink, score=score, beside=0.01))
    (reading,) = mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if t.frequency_hz == 4000 and t.ear != "left"]
    assert ("marks-overlap" in one.why_ask) == asks


OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
MISSED = (0.9, -1.1, 0.4, -0.7, 1.3, -0.3)
"""By so many decibels a hand misses its steps: a machine's angles are no brackets."""
BY_HAND = sized((
    *row("circle", {hz: step + off for hz, step, off in zip(OCTAVES, range(30, 60, 5), MISSED, strict=True)}, "red"),
    *row("cross", {hz: step + off for hz, step, off in zip(OCTAVES, range(50, 80, 5), MISSED, strict=True)}, "blue"),
))  # fmt: skip


@pytest.mark.parametrize(("brackets", "like", "asks"), [(3, 0.3, True), (3, 0.05, False), (0, 0.3, False)])
def test_an_angle_among_a_hands_brackets_that_looks_like_one_of_them_may_be_one(
    brackets: int, like: float, asks: bool
) -> None:
    # a hand that draws brackets as brows made two of five surely unmasked
    row_of = [mark("bracket-left", hz, 10, "red", beside=-0.15) for hz in (250, 500, 2000)[:brackets]]
    brow = mark("angle-left", 1000, 10, "red", score=0.75, rivals=(("bracket-left", like),), beside=-0.15)
    alike = mark("angle-left", 4000, 10, "red", beside=-0.15)
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *row_of, brow, alike),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 1000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("like", "asks"), [(0.7, True), (0.3, False)])
def test_a_bracket_among_angles_asks_where_a_hand_draws_others_that_look_like_both(like: float, asks: bool) -> None:
    # angles drawn as bows: two of a row looked like brackets and like nothing else
    other_side: list[tuple[int, Glyph]] = [(500, "angle-right"), (2000, "angle-right")]
    blurred = [
        mark(glyph, hz, 10, "blue", score=0.7, rivals=(("bracket-right", 0.7 * like),), beside=0.15)
        for hz, glyph in other_side
    ]
    bow = mark("bracket-left", 1000, 10, "red", score=0.75, beside=-0.15)
    angles = [mark("angle-left", hz, 10, "red", beside=-0.15) for hz in (250, 500)]
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *blurred, bow, *angles),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.conduction, t.frequency_hz) == ("right", "bone", 1000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("score", "apart", "asks"), [(0.7, True, True), (0.85, True, False), (0.7, False, False)])
def test_a_cross_that_no_figure_of_a_drawing_shows_may_be_two_lines_that_cross(
    score: float, apart: bool, asks: bool
) -> None:
    # the joining lines of both ears crossed at 750 Hz, and stood as the left ear's threshold
    figures = [replace(m, sight=replace(m.sight, apart=apart)) for m in (*RIGHT, *LEFT)]
    crossing = mark("cross", 750, 20, "blue", score=score)
    (reading,) = mean(sheet("drawn"), (), (chart(*figures, crossing),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if t.frequency_hz == 750]
    assert (one.standing == "ask") == asks


@pytest.mark.parametrize(("carets", "like", "asks"), [(2, 0.1, True), (2, 0.0, False), (0, 0.1, False)])
def test_a_triangle_among_carets_that_looks_a_little_like_one_may_be_one(carets: int, like: float, asks: bool) -> None:
    # a caret over a cross or a circle was closed by it, and stood as the right ear's masked air
    row_of = [mark("caret", hz, 5) for hz in (500, 1000)[:carets]]
    closed = mark("triangle", 4000, 40, "red", score=0.9, rivals=(("caret", like),))
    (reading,) = mean(sheet(), (), (chart(*RIGHT, *LEFT, *row_of, closed),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.masked, t.frequency_hz) == ("right", True, 4000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("triangles", "like", "asks"), [(1, 0.15, True), (1, 0.05, False), (3, 0.15, False)])
def test_the_only_triangle_of_a_chart_that_looks_like_a_caret_may_be_one(
    triangles: int, like: float, *, asks: bool
) -> None:
    # a circle below closed a `^` of bone, which stood as masked air of the right ear
    shapes = [mark("triangle", hz, 10, score=0.8, rivals=(("caret", like),)) for hz in (500, 1000, 2000)[:triangles]]
    (reading,) = mean(sheet(), (), (chart(*RIGHT, *LEFT, *shapes),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if t.masked and t.frequency_hz == 500]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("score", "asks"), [(0.62, True), (0.9, False)])
def test_the_points_of_two_angles_that_meet_are_no_cross(score: float, *, asks: bool) -> None:
    # `>` of one frequency and `<` of the next met halfway, and gave the left ear air there
    cross = mark("cross", 1000, 35, score=score)
    points = mark("angle-right", 1000, 35, beside=-0.06), mark("angle-left", 1000, 35, beside=0.06)
    others = [m for m in LEFT if m.frequency_hz != 1000]
    (reading,) = mean(sheet(), (), (chart(*RIGHT, *others, cross, *points),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.conduction, t.frequency_hz) == ("left", "air", 1000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("like", "letters", "asks"), [(0.26, 2, True), (0.05, 2, False), (0.26, 0, False)])
def test_a_caret_that_looks_like_a_letter_asks_where_the_chart_has_that_letter(
    like: float, letters: int, *, asks: bool
) -> None:
    # a circle hid the feet of an A: aided hearing in the field stood as bone of no ear
    carets = [mark("caret", 1000, 10, score=0.82, rivals=(("letter-a", like),)), mark("caret", 250, 10)]
    row_of = [mark("letter-a", hz, 10) for hz in (500, 2000)[:letters]]
    (reading,) = mean(sheet("drawn"), (), (chart(*RIGHT, *LEFT, *carets, *row_of),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 1000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("filled", "asks"), [(2, True), (0, False)])
def test_a_hollow_cross_on_a_filled_circle_asks_where_the_chart_fills_its_crosses(filled: int, *, asks: bool) -> None:
    # BSA 2018 masks by filling: an hourglass over a filled circle was read as unmasked on a copy
    place = mark("cross", 1000, 75, score=0.7), mark("circle-filled", 1000, 75)
    rows = (*row("cross-filled", {250: 70, 4000: 90}), *row("cross", {500: 75, 2000: 75}))[2 - filled :]
    circles = row("circle-filled", {250: 60, 500: 60, 2000: 60})
    (reading,) = mean(sheet(), (), (chart(*place, *rows, *circles),), Choices("bsa-2018")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.frequency_hz) == ("left", 1000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("apart", "crosses", "asks"), [(0.6, 2, True), (0.6, 1, False), (1.2, 2, False)])
def test_the_arms_of_two_large_crosses_of_a_loose_hand_are_no_angle(apart: float, crosses: int, *, asks: bool) -> None:
    angle = mark("angle-right", 1000, 0)
    x, y = angle.sight.at
    size = max(angle.sight.size)
    beside = [replace(mark("cross", 1000, 0).sight, at=(x + side * apart * size, y)) for side in (-1, 1)[:crosses]]
    taken = (angle, *(replace(angle, sight=cross) for cross in beside))
    assert between_crosses(angle, taken) == asks
