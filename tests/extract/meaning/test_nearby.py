"""What stands near a mark: whose an arrow is, which shapes are made by others, which may be taken for one another."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, OCTAVE, chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.nearby import heard
from octavo.extract.sightings import ArrowTip, alike
from octavo.interpret.record import Ear, Threshold
from octavo.interpret.symbols import Glyph

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 60, 8000: 65}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}, "blue")
MARK_SIZE = 14.0
"""The size of the marks of ``by_hand``, in pixels."""
DOWN_LEFT, DOWN_RIGHT, DOWN = (0.9, 0.01, 0.01), (0.01, 0.9, 0.01), (0.01, 0.01, 0.9)
NO_ARROW = (0.01, 0.01, 0.01)
Arrows = tuple[float, float, float]


def thresholds(*marks: Mark) -> tuple[Threshold, ...]:
    return tuple(t for a in mean(sheet(), (), (chart(*marks),), Choices()).audiograms for t in a.thresholds)


def at(found: tuple[Threshold, ...], hz: float, level: float) -> Threshold:
    (one,) = [t for t in found if (t.frequency_hz, t.level_db_hl) == (hz, level)]
    return one


def test_an_arrow_half_seen_asks() -> None:
    lost = mark("circle", 4000, 100, "red", arrows=(0.5, 0.01, 0.01))
    assert "arrow-uncertain" in at(thresholds(*RIGHT[:4], *LEFT, lost), 4000, 100).why_ask


@pytest.mark.parametrize(("score", "asks"), [(0.5, True), (0.8, False)])
def test_an_arrow_straight_down_without_a_clear_tip_asks(score: float, *, asks: bool) -> None:
    # dashes of the grid below brackets of a fax looked like arrows: three values stood as not heard
    lost = mark("circle", 4000, 100, "red", arrows=(0.05, 0.05, 0.7))
    x, y = lost.sight.at
    tip = ArrowTip(2, (x, y + 2 * MARK_SIZE), (x, y), score)
    lost = replace(lost, sight=replace(lost.sight, tips=(tip,)))
    assert ("arrow-uncertain" in at(thresholds(*RIGHT[:4], *LEFT, lost), 4000, 100).why_ask) == asks


def test_an_arrow_where_a_cross_lies_in_a_circle_belongs_to_the_ear_it_points_away_from() -> None:
    # ASHA 1990: the right ear's arrow points down-left, the left ear's down-right
    both = [
        mark("circle", 4000, 100, "red", arrows=(0.97, 0.02, 0.02)),
        mark("cross", 4000, 100, "blue", beside=0.005, arrows=(0.97, 0.02, 0.02)),
    ]
    found = {t.ear: t.response for t in thresholds(*RIGHT[:4], *LEFT[:4], *both) if t.frequency_hz == 4000}
    assert found == {"right": False, "left": True}


def test_a_clear_arrow_is_certain_though_a_mark_with_a_weak_arrow_stands_near() -> None:
    lost = mark("circle", 4000, 110, "red", arrows=(0.8, 0.01, 0.01))
    other = mark("cross", 4000, 102, "blue", arrows=(0.3, 0.01, 0.01))
    assert "arrow-uncertain" not in at(thresholds(*RIGHT[:4], *LEFT[:4], lost, other), 4000, 110).why_ask


def test_one_arrow_at_a_place_of_two_marks_of_one_ear_is_asked_about() -> None:
    both = (
        mark("circle", 4000, 100, "red", arrows=(0.85, 0.05, 0.02)),
        mark("triangle", 4000, 100, "red", beside=0.005, arrows=(0.85, 0.05, 0.02)),
    )
    found = [t for t in thresholds(*RIGHT[:4], *LEFT[:4], *both) if t.frequency_hz == 4000]
    # masked air is never better than unmasked: it was not heard in either case
    assert {t.masked: "arrow-uncertain" in t.why_ask for t in found} == {False: True, True: False}


@pytest.mark.parametrize(("peak", "certain"), [(0.85, True), (0.65, False)])
def test_arrows_on_both_sides_of_a_cross_in_a_circle_are_one_for_each_ear(peak: float, certain: bool) -> None:
    both = (
        mark("circle", 4000, 100, "red", arrows=(peak, peak, 0.02)),
        mark("cross", 4000, 100, "blue", beside=0.005, arrows=(peak, peak, 0.02)),
    )
    found = [t for t in thresholds(*RIGHT[:4], *LEFT[:4], *both) if t.frequency_hz == 4000]
    assert ["arrow-uncertain" not in t.why_ask for t in found] == [certain] * 2
    assert not certain or [t.response for t in found] == [False, False]


def test_a_weak_arrow_is_a_doubt_at_the_last_printed_level_and_not_below_where_audiometers_end() -> None:
    # seen on a page whose arrow ran out of the chart: its peak was 0.13 where it is 0.8 else
    faint_arrow = (0.01, 0.01, 0.13)
    end, deep, middle = (mark("circle", 8000, level, "red", arrows=faint_arrow) for level in (120, 95, 65))
    assert "arrow-uncertain" in at(thresholds(*RIGHT[:5], *LEFT, end), 8000, 120).why_ask
    for level, one in ((95, deep), (65, middle)):
        assert "arrow-uncertain" not in at(thresholds(*RIGHT[:5], *LEFT, one), 8000, level).why_ask


@pytest.mark.parametrize(("peak", "other_has", "certain"), [(0.25, 0.05, True), (0.25, 0.9, False), (0.17, 0.9, True)])
def test_a_faint_peak_near_the_last_level_is_no_arrow_unless_another_hangs_close_by(
    peak: float, other_has: float, certain: bool
) -> None:
    # every loud mark of a chart asked, though nothing hung from any of them
    loud = mark("circle", 4000, 110, "red", arrows=(peak, 0.02, 0.02))
    other = mark("cross", 4000, 115, "blue", arrows=(0.02, other_has, 0.02))
    assert heard(loud, "right", (loud, other), deepest_db=120) == (True, certain)


def test_a_circle_that_a_bracket_and_an_angle_make_together_asks() -> None:
    # `[` and `>` at one level close to a circle; seen on small charts
    made = mark("circle", 8000, 65, "red", score=0.72)
    sides = (mark("bracket-left", 8000, 65, beside=-0.04, score=0.42), mark("angle-right", 8000, 65, beside=0.04))
    found = [t for t in thresholds(*RIGHT[:5], *LEFT, made, *sides) if (t.ear, t.conduction) == ("right", "air")]
    (one,) = [t for t in found if t.frequency_hz == 8000]
    assert "marks-overlap" in one.why_ask


def test_a_clear_circle_between_the_bone_marks_of_both_ears_is_one() -> None:
    # of some 470 such of painted pages none was made of the two
    clear = mark("circle", 1000, 20, "red", score=0.79)
    levels = {500: 15, 1000: 20, 2000: 40}
    bone = (row("angle-left", levels, beside=-0.08), row("angle-right", levels, beside=0.08))
    rest = tuple(m for m in (*RIGHT, *LEFT) if m.frequency_hz != 1000)
    found = thresholds(*rest, clear, *(m for of_ear in bone for m in of_ear))
    (one,) = [t for t in found if (t.ear, t.conduction, t.frequency_hz) == ("right", "air", 1000)]
    assert "marks-overlap" not in one.why_ask


def test_a_bracket_at_the_side_of_a_square_asks() -> None:
    # seen on a fax: the right side of a square was read as masked bone at the square's level
    square, side = mark("square", 1000, 50, "blue"), mark("bracket-right", 1000, 50, "blue", beside=0.07)
    bone = [t for t in thresholds(*RIGHT, *LEFT, square, side) if t.conduction == "bone"]
    assert ["marks-overlap" in t.why_ask for t in bone] == [True]
    apart = [t for t in thresholds(*RIGHT, *LEFT, replace(square, y=square.y + 60), side) if t.conduction == "bone"]
    assert ["marks-overlap" in t.why_ask for t in apart] == [False]


def test_a_circle_between_bone_marks_beside_its_line_is_sure() -> None:
    sides = (mark("bracket-left", 8000, 65, "red", beside=-0.2), mark("angle-right", 8000, 65, "blue", beside=0.2))
    found = [t for t in thresholds(*RIGHT, *LEFT, *sides) if (t.ear, t.conduction) == ("right", "air")]
    assert all("marks-overlap" not in t.why_ask for t in found)


@pytest.mark.parametrize(("one", "other"), [("circle", "cross"), ("angle-left", "angle-right"), ("circle", "square")])
def test_marks_of_the_two_ears_are_never_taken_for_one_another(one: Glyph, other: Glyph) -> None:
    assert not alike(one, other)


def heard_beside(ear: Ear, arrows: Arrows, others: Arrows | None, *, sizes: float = 1.3) -> tuple[bool, bool]:
    """Ask of a mark with arrows, where another mark with its own stands so many sizes right of it, or none."""
    glyph, other = ("circle", "cross") if ear == "right" else ("cross", "circle")
    one = mark(glyph, 1000, 80, arrows=arrows)
    if others is None:
        return heard(one, ear, (one,), deepest_db=120)
    beside = mark(other, 1000, 80, beside=sizes * MARK_SIZE / OCTAVE, arrows=others)
    return heard(one, ear, (one, beside), deepest_db=120)


@pytest.mark.parametrize(("ear", "arrows"), [("right", DOWN_LEFT), ("left", DOWN_RIGHT), ("right", DOWN)])
def test_the_clear_arrow_of_a_lone_mark_is_certain(ear: Ear, arrows: Arrows) -> None:
    assert heard_beside(ear, arrows, None) == (False, True)


@pytest.mark.parametrize(("ear", "arrows"), [("right", DOWN_LEFT), ("left", DOWN_RIGHT), ("right", DOWN)])
def test_an_arrow_is_open_where_a_mark_close_by_shows_one_of_the_same_direction(ear: Ear, arrows: Arrows) -> None:
    weaker = (0.5 * arrows[0], 0.5 * arrows[1], 0.5 * arrows[2])
    for others in (arrows, weaker):
        assert heard_beside(ear, arrows, others) == (False, False)


def test_an_arrow_is_certain_where_the_mark_close_by_shows_none_or_one_of_another_direction() -> None:
    assert heard_beside("right", DOWN_LEFT, NO_ARROW) == (False, True)
    assert heard_beside("right", DOWN_LEFT, DOWN_RIGHT) == (False, True)


@pytest.mark.parametrize(("sizes", "certain"), [(0.5, False), (1.5, False), (1.7, True)])
def test_an_arrow_is_open_up_to_a_reach_of_one_and_a_half_sizes(sizes: float, certain: bool) -> None:
    assert heard_beside("right", DOWN_LEFT, DOWN_LEFT, sizes=sizes) == (False, certain)


@pytest.mark.parametrize(("ear", "astray"), [("right", DOWN_RIGHT), ("left", DOWN_LEFT)])
def test_an_arrow_that_points_away_from_its_ear_is_open_where_another_mark_is_close(ear: Ear, astray: Arrows) -> None:
    # ASHA 1990: the right ear's arrow points down-left, the left ear's down-right
    assert heard_beside(ear, astray, NO_ARROW) == (False, False)
    assert heard_beside(ear, astray, NO_ARROW, sizes=1.7) == (False, True)
    assert heard_beside(ear, astray, None) == (False, True)


def test_a_value_whose_arrow_may_hang_from_the_mark_above_it_asks() -> None:
    lost = mark("circle", 4000, 100, "red", arrows=DOWN_LEFT)
    above = 1.4 * MARK_SIZE / DECIBEL
    shared = mark("square", 4000, 100 - above, "blue", arrows=(0.6, 0.01, 0.01))
    for others, asks in (((), False), ((shared,), True)):
        found = thresholds(*RIGHT[:4], *LEFT[:4], lost, *others)
        (right,) = [t for t in found if (t.ear, t.frequency_hz) == ("right", 4000)]
        assert not right.response
        assert ("arrow-uncertain" in right.why_ask) == asks


@pytest.mark.parametrize(("one", "other"), [("letter-s", "letter-a"), ("letter-a", "letter-s")])
def test_the_letters_of_loudspeaker_tests_at_one_place_ask_which_it_is(one: Glyph, other: Glyph) -> None:
    # ASHA 1990: S is sound field, A sound field with a hearing aid; in small print they look alike
    letter, next_to_it = mark(one, 1000, 30, score=0.9, rivals=((other, 0.5),)), mark(one, 2000, 35)
    assert "two-readings" in at(thresholds(*RIGHT, *LEFT, letter, next_to_it), 1000, 30).why_ask
    faint_rival = replace(letter, sight=replace(letter.sight, rivals=((other, 0.2),)))
    assert at(thresholds(*RIGHT, *LEFT, faint_rival, next_to_it), 1000, 30).standing == "sure"


def test_of_the_two_letters_at_one_place_the_weaker_is_no_value_of_its_own() -> None:
    pair = (mark("letter-s", 1000, 30, score=0.9), mark("letter-a", 1000, 30, score=0.5))
    assert [t.aided for t in thresholds(*RIGHT, *LEFT, *pair) if t.conduction == "field"] == [False]


def missing(*marks: Mark) -> set[tuple[object, ...]]:
    reading = mean(sheet(), (), (chart(*marks),), Choices())
    return {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected" and r.at is not None}


@pytest.mark.parametrize(("score", "told"), [(0.45, {("right", "bone")}), (0.2, set[tuple[object, ...]]())])
def test_a_bracket_seen_beneath_an_angle_may_be_a_mark_of_its_own(score: float, told: set[tuple[object, ...]]) -> None:
    angles = row("angle-left", {500: 10, 1000: 15, 2000: 20, 4000: 30}, "red", beside=-0.14)
    beneath = mark("bracket-left", 1000, 15, "red", beside=-0.13, score=score)
    assert missing(*RIGHT, *LEFT, *angles, beneath) == told


def tipped(one: Mark, *tips: tuple[int, float]) -> Mark:
    """Give a mark arrows' tips, each by its way and its peak."""
    seen = tuple(ArrowTip(way, (0.0, 0.0), one.sight.at, score) for way, score in tips)
    return replace(one, sight=replace(one.sight, tips=seen))


def test_an_arrow_whose_tip_is_seen_is_certain_where_a_cross_lies_in_a_circle() -> None:
    # ASHA 1990: the right ear's arrow points down-left, the left ear's down-right
    both = (0.65, 0.62, 0.05)
    circle, cross = (tipped(mark(g, 1000, 80, arrows=both), (0, 0.7), (1, 0.7)) for g in ("circle", "cross"))
    assert heard(circle, "right", (circle, cross), deepest_db=120) == (False, True)
    assert heard(cross, "left", (circle, cross), deepest_db=120) == (False, True)


def test_an_arrow_whose_only_tip_lies_on_the_other_side_asks() -> None:
    lost = mark("angle-left", 4000, 65, "red", arrows=DOWN_LEFT)
    told = {way: at(thresholds(*RIGHT, *LEFT, tipped(lost, (way, 0.9))), 4000, 65).why_ask for way in (0, 1)}
    assert "arrow-uncertain" not in told[0]
    assert "arrow-uncertain" in told[1]


def test_an_arrow_of_which_no_tip_is_seen_asks_where_a_cross_lies_in_a_circle() -> None:
    # seen on a scan: with one tip only, the second arrow was there on one page and was not on another
    circle, cross = (tipped(mark(g, 1000, 80, arrows=(0.65, 0.62, 0.05)), (0, 0.7)) for g in ("circle", "cross"))
    assert heard(circle, "right", (circle, cross), deepest_db=120) == (False, True)
    assert not heard(cross, "left", (circle, cross), deepest_db=120)[1]


def test_a_faint_tip_at_a_cross_in_a_circle_is_a_crossing_of_strokes() -> None:
    circle, cross = (tipped(mark(g, 1000, 40), (0, 0.2)) for g in ("circle", "cross"))
    assert heard(circle, "right", (circle, cross), deepest_db=120) == (True, True)


def test_an_arrow_at_a_cross_and_an_angle_of_the_leaflet_asks_for_both_may_be_the_left_ears() -> None:
    # seen on a fax: `<` is the left ear's bone under the leaflet, and its arrow was taken for the cross's
    cross, angle = (mark(g, 1000, 45, arrows=(0.19, 0.78, 0.07)) for g in ("cross", "angle-left"))
    earless = frozenset[Glyph]({"angle-left", "angle-right"})
    assert not heard(cross, "left", (cross, angle), deepest_db=120, earless=earless)[1]
    assert heard(cross, "left", (cross, angle), deepest_db=120)[1]


@pytest.mark.parametrize(("below_db", "certain"), [(None, True), (5, False), (-5, True), (45, True)])
def test_a_weak_arrow_of_bone_at_its_end_is_a_doubt_where_a_mark_below_may_hide_the_rest_of_it(
    below_db: float | None, certain: bool
) -> None:
    # seen on a scan: the arrow of an angle mark ran into the cross below it, and its peak was 0.24
    row_of_bone = row("angle-right", {500: 40, 2000: 50}, "blue", beside=0.15)
    angle = mark("angle-right", 1000, 70, "blue", beside=0.15, arrows=(0.03, 0.24, 0.04))
    others = () if below_db is None else (mark("circle", 1000, 70 + below_db, "red", beside=0.25),)
    found = at(thresholds(*RIGHT[:2], *RIGHT[3:], *LEFT, *row_of_bone, angle, *others), 1000, 70)
    assert found.response
    assert ("arrow-uncertain" not in found.why_ask) == certain


def test_a_single_triangle_made_by_a_cross_over_one_of_a_row_of_carets_asks() -> None:
    # seen on a scan: a cross closed a caret, and the bone mark was read as masked air
    carets = row("caret", {250: 5, 1000: 0, 2000: 5, 4000: 35})
    lone = mark("triangle", 500, 10)
    (made,) = [t for t in thresholds(*RIGHT, *LEFT, *carets, lone) if t.masked]
    assert "two-readings" in made.why_ask
    (apart,) = [t for t in thresholds(*RIGHT, *LEFT, *carets, mark("triangle", 500, 40)) if t.masked]
    assert "two-readings" not in apart.why_ask


@pytest.mark.parametrize(("symbols", "asks"), [("bsa-2018", True), ("asha-1990", False)])
def test_a_cross_that_may_be_filled_asks_where_filling_means_masking(symbols: str, asks: bool) -> None:
    # seen on a copy: lines over a filled cross hid its filling. BSA 2018: a filled cross is masked left air
    cross = mark("cross", 8000, 50, "blue", rivals=(("cross-filled", 0.28),))
    reading = mean(sheet(), (), (chart(*RIGHT, *LEFT[:5], cross),), Choices(symbols))
    (one,) = [t for t in reading.audiograms[0].thresholds if (t.ear, t.frequency_hz) == ("left", 8000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("below_px", "certain"), [(15, False), (60, True)])
def test_an_arrow_without_a_tip_asks_where_a_mark_below_may_be_what_looks_like_it(below_px: int, certain: bool) -> None:
    # seen on a scan: a bracket below an angle mark looked like an arrow straight down from it
    angle = mark("angle-right", 1000, 35, arrows=(0.04, 0.08, 0.9))
    other = replace(mark("bracket-left", 1000, 35), y=angle.y + below_px)
    assert heard(angle, "left", (angle, other), deepest_db=120) == (False, certain)


SAME_PLACE: dict[Glyph, float] = {"bracket-right": 0.66, "angle-right": 0.36}


def test_an_angle_seen_weakly_beneath_a_bracket_of_its_ear_is_told_as_maybe_missing() -> None:
    # seen on a fax: unmasked and masked bone at one level, the angle's peak 0.36 beside the bracket's 0.66
    bone = [mark(glyph, 500, 25, beside=0.1, score=score) for glyph, score in SAME_PLACE.items()]
    reading = mean(sheet(), (), (chart(*RIGHT, *LEFT, *bone),), Choices("asha-1990"))
    missing = {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}
    assert ("left", "bone") in missing


def test_where_arrows_are_of_a_strange_shape_a_mark_with_a_trace_of_one_is_not_surely_heard() -> None:
    # heads without a shaft hung from all marks: half were seen as arrows by halves, the rest stood as heard, surely
    half_seen = [mark("bracket-left", hz, 60, "red", arrows=(0.4, 0.02, 0.02)) for hz in (500, 1000, 2000)]
    trace, none = (mark("circle", hz, 50, "red", arrows=(peak, 0.0, 0.0)) for hz, peak in ((4000, 0.12), (250, 0.05)))
    taken = (*half_seen, trace, none)
    assert heard(trace, "right", taken, deepest_db=120) == (True, False)
    assert heard(none, "right", taken, deepest_db=120) == (True, True)
    known = mark("cross", 8000, 90, "blue", arrows=(0.0, 0.95, 0.0))
    assert heard(trace, "right", (*taken, known), deepest_db=120) == (True, True)


@pytest.mark.parametrize(("level", "certain"), [(120, False), (60, True)])
def test_a_cross_in_a_circle_at_the_last_level_asks_where_the_least_of_an_arrow_is_seen(
    level: float, certain: bool
) -> None:
    # on a coarse fax an arrow of which only the head was left stood as heard
    circle = mark("circle", 1000, level, "red", arrows=(0.02, 0.04, 0.02))
    cross = mark("cross", 1000, level - 1, "blue", arrows=(0.02, 0.11, 0.04))
    assert heard(cross, "left", (circle, cross), deepest_db=120) == (True, certain)
