"""What a hand does to marks: it misses steps, lends its ink, and ends joining lines where an arrow might hang."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, chart, mark, row, sheet, sized

from octavo.extract.chart import Mark, Unexplained
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.frequencies import Habit
from octavo.extract.meaning.nearby import heard
from octavo.extract.meaning.symbols.lent_ink import ink_lent
from octavo.extract.sightings import ArrowTip
from octavo.interpret.record import TakenBy, Threshold
from octavo.interpret.symbols import Ink

MISSES = (0.9, -1.1, 0.4, -0.7, 1.3, -0.3, 0.8, -1.0)
"""Of a hand of some 0.9 dB, the standard deviation that the benchmark asks for (issue 4)."""
STEPS = (10, 15, 20, 30, 40, 45, 50, 55)
RIGHT = {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 60, 8000: 65}
LEFT = {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}
TWO_PENS = (*row("circle", RIGHT, "red"), *row("cross", LEFT, "blue"))


def read(*marks: Mark, symbols: str | None = None, taken_by: TakenBy = "scan") -> tuple[Threshold, ...]:
    reading = mean(sheet(taken_by), (), (chart(*marks),), Choices(symbols))
    return tuple(t for audiogram in reading.audiograms for t in audiogram.thresholds)


def at(found: tuple[Threshold, ...], hz: float, level: float) -> Threshold:
    (one,) = [t for t in found if (t.frequency_hz, t.level_db_hl) == (hz, level)]
    return one


def test_a_hand_may_miss_its_step_by_2_db_and_a_machine_may_not() -> None:
    # trade.md: hand-drawn marks miss their step by about 1 dB, at times by 2; past 2.5 nobody can tell
    by_hand = Habit.of([step + miss for step, miss in zip(STEPS, MISSES, strict=True)])
    machine = Habit.of([step + 0.1 * miss for step, miss in zip(STEPS, MISSES, strict=True)])
    assert by_hand.by_hand
    assert not machine.by_hand
    assert 2.0 <= by_hand.sure_level_miss_db < 2.5
    assert machine.sure_level_miss_db < by_hand.sure_level_miss_db


def test_a_hand_that_misses_every_step_by_far_is_trusted_no_further() -> None:
    assert not Habit.of([step + 2.2 * miss for step, miss in zip(STEPS, MISSES, strict=True)]).by_hand


def test_two_marks_far_off_do_not_make_a_machine_a_hand() -> None:
    assert not Habit.of([*map(float, STEPS[:6]), STEPS[6] + 2.0, STEPS[7] - 2.0]).by_hand


def triangle(hz: float, level: float, red: float = 0.0, blue: float = 0.0) -> Mark:
    seen = mark("triangle", hz, level)
    return replace(seen, sight=replace(seen.sight, red=red, blue=blue))


@pytest.mark.parametrize(("in_colour", "standing"), [(True, "sure"), (False, "ask")])
def test_a_black_triangle_on_a_photo_is_surely_of_no_ear_where_colours_show(in_colour: bool, standing: str) -> None:
    # BSA 2018 leaves the ear of unmasked bone to the ink
    air = TWO_PENS if in_colour else (*row("circle", RIGHT), *row("cross", LEFT))
    found = read(*air, *(triangle(hz, 0) for hz in (500, 1000, 2000, 4000)), symbols="bsa-2018", taken_by="photo")
    assert {(t.ear, t.standing) for t in found if t.conduction == "bone"} == {("unspecified", standing)}


def test_a_black_triangle_beneath_a_blue_cross_is_not_the_left_ears() -> None:
    free = [triangle(hz, 0) for hz in (500, 2000, 4000)]
    beneath = triangle(1000, 15, blue=0.8)
    assert ink_lent(beneath, (*TWO_PENS, *free, beneath)) is True
    one = at(tuple(t for t in read(*TWO_PENS, *free, beneath, symbols="bsa-2018") if t.conduction == "bone"), 1000, 15)
    assert (one.ear, one.standing) == ("unspecified", "ask")


@pytest.mark.parametrize(("free_blue", "found"), [(0.0, ("unspecified", "sure")), (0.9, ("left", "ask"))])
def test_a_triangle_beneath_a_blue_cross_is_surely_black_where_others_clearly_are_and_none_is_blue(
    free_blue: float, found: tuple[str, str]
) -> None:
    # on British forms filled in with three pens every triangle beneath a cross or a circle asked, and some stood as
    # an ear's
    black = [_with_plain(triangle(hz, 0), 0.8) for hz in (500, 2000)]
    other = _with_plain(triangle(4000, 0, blue=free_blue), 0.8 - free_blue)
    beneath = _with_plain(triangle(1000, 15, blue=0.8), 0.1)
    read_there = read(*TWO_PENS, *black, other, beneath, symbols="bsa-2018")
    one = at(tuple(t for t in read_there if t.conduction == "bone"), 1000, 15)
    assert (one.ear, one.standing) == found


def _with_plain(seen: Mark, share: float) -> Mark:
    return replace(seen, sight=replace(seen.sight, plain=max(share, 0.0)))


def test_a_blue_triangle_beneath_a_blue_cross_is_the_left_ears_where_all_that_stand_free_are_blue() -> None:
    free = [triangle(hz, 0, blue=0.9) for hz in (500, 2000, 4000)]
    beneath = triangle(1000, 15, blue=0.8)
    assert ink_lent(beneath, (*TWO_PENS, *free, beneath)) is False
    assert ink_lent(beneath, (*TWO_PENS, beneath)) is None


def test_a_lone_level_of_loudness_asks() -> None:
    lone = mark("letter-u", 2000, 95, "red")
    rows = [mark("letter-u", hz, 95, "red") for hz in (500, 1000, 2000, 4000)]
    assert "implausible" in at(read(*TWO_PENS, lone, symbols="asha-1990"), 2000, 95).why_ask
    assert "implausible" not in at(read(*TWO_PENS, *rows, symbols="asha-1990"), 2000, 95).why_ask


def test_a_lone_aided_level_asks() -> None:
    # the A of a word over the grid stood as a loudspeaker's threshold
    assert "implausible" in at(read(*TWO_PENS, mark("letter-a", 500, 55), symbols="asha-1990"), 500, 55).why_ask


def test_an_arrow_of_the_ears_own_side_with_its_tip_is_the_circles_in_a_cross() -> None:
    circle = mark("circle", 1000, 110, "red", arrows=(0.65, 0.6, 0.02))
    cross = mark("cross", 1000, 110, "blue", arrows=(0.65, 0.6, 0.02))
    tip = ArrowTip(0, (circle.x - 15, circle.y + 20), circle.sight.at, 0.8)
    tipped = replace(circle, sight=replace(circle.sight, tips=(tip,)))
    assert heard(circle, "right", (circle, cross), deepest_db=120) == (False, False)
    assert heard(tipped, "right", (tipped, cross), deepest_db=120) == (False, True)
    assert (
        heard(replace(cross, sight=replace(cross.sight, tips=(tip,))), "left", (tipped, cross), deepest_db=120)[1]
        is False
    )


def test_marks_that_miss_their_steps_as_chance_would_ask_about_the_axis() -> None:
    # places at random miss the nearest of steps 5 dB apart by 1.44 dB (root mean square of -2.5 to 2.5)
    leaning = [
        mark("circle", hz, 30 + 1.1 * i) for i, hz in enumerate((125, 250, 500, 750, 1000, 1500, 2000, 4000, 8000))
    ]
    level = [mark("circle", m.frequency_hz, 30) for m in leaning]
    assert all("axis-uncertain" in t.why_ask for t in read(*leaning))
    assert all("axis-uncertain" not in t.why_ask for t in read(*level))


@pytest.mark.parametrize(("right", "standing"), [({}, "ask"), (RIGHT, "sure")])
def test_blue_triangles_are_surely_the_left_ears_only_where_another_pen_is_seen(
    right: dict[int, int], standing: str
) -> None:
    # one pen may have filled in a form of which one ear was tested
    levels = zip(LEFT.items(), MISSES, strict=False)
    crosses = [mark("cross", hz, level + miss, "blue") for (hz, level), miss in levels]
    triangles = [triangle(hz, miss, blue=0.9) for hz, miss in zip((500, 1000, 2000, 4000), MISSES, strict=False)]
    found = read(*sized((*row("circle", right, "red"), *crosses, *triangles)), symbols="bsa-2018")
    assert {(t.ear, t.standing) for t in found if t.conduction == "bone"} == {("left", standing)}


def test_black_triangles_beside_the_air_of_one_ear_ask_whose_they_are() -> None:
    found = read(*row("cross", LEFT), *(triangle(hz, 0) for hz in (500, 1000, 2000)), symbols="bsa-2018")
    assert {(t.ear, t.standing) for t in found if t.conduction == "bone"} == {("left", "ask")}


@pytest.mark.parametrize(("rival", "asks"), [(0.2, False), (0.4, True), (0.65, False)])
def test_a_bone_mark_with_a_round_back_asks_whether_it_is_masked_unless_both_are_there(
    rival: float, asks: bool
) -> None:
    # ASHA 1990: `>` is unmasked left bone, `]` masked
    round_back = mark("bracket-right", 1000, 10, "blue", score=0.72, rivals=(("angle-right", rival),), beside=0.15)
    others = row("bracket-right", {500: 5, 2000: 15, 4000: 20}, "blue", beside=0.15)
    assert ("two-readings" in at(read(*TWO_PENS, round_back, *others, symbols="asha-1990"), 1000, 10).why_ask) == asks


def test_an_angle_that_looks_somewhat_like_a_bracket_is_one() -> None:
    angle = mark("angle-right", 1000, 10, "blue", score=0.72, rivals=(("bracket-right", 0.4),), beside=0.15)
    others = row("angle-right", {500: 5, 2000: 15, 4000: 20}, "blue", beside=0.15)
    assert at(read(*TWO_PENS, angle, *others, symbols="asha-1990"), 1000, 10).standing == "sure"


@pytest.mark.parametrize(
    ("score", "other", "asks"),
    [(0.55, 0.85, {"circle"}), (0.78, 0.85, set()), (0.78, 0.8, {"circle", "triangle"})],
)
def test_a_round_cornered_triangle_that_looks_like_a_circle_too_asks_which_it_is_unless_one_is_clear(
    score: float, other: float, asks: set[str]
) -> None:
    # ASHA 1990: the triangle is masked right air; both stood as sure at one level
    rest = (*row("circle", {4000: 60, 8000: 65}, "red"), *row("triangle", {500: 20, 2000: 40}, "red"))
    drawn = (mark("circle", 1000, 30, "red", score=score), mark("triangle", 1000, 30, "red", score=other))
    found = read(*rest, *row("cross", LEFT, "blue"), *drawn, symbols="asha-1990")
    both = [t for t in found if (t.ear, t.frequency_hz) == ("right", 1000)]
    assert len(both) == 2
    assert {"triangle" if t.masked else "circle" for t in both if "two-readings" in t.why_ask} == asks


@pytest.mark.parametrize(("colour", "asks"), [("red", False), ("", True)])
def test_a_black_triangle_and_a_red_circle_at_one_place_are_not_one_drawing(colour: Ink, asks: bool) -> None:
    # both asked wherever bone and air were equal on British forms filled in with three pens
    black = [_with_plain(triangle(hz, 0), 0.8) for hz in (500, 2000)]
    one = _with_plain(triangle(1000, 30), 0.8)
    drawn = (mark("circle", 1000, 30, colour or "neutral", score=0.6), one)
    rest = row("circle", {4000: 60, 8000: 65}, colour or "neutral")
    found = read(*rest, *row("cross", LEFT, "blue" if colour else "neutral"), *black, *drawn, symbols="bsa-2018")
    both = [t for t in found if (t.frequency_hz, t.level_db_hl) == (1000, 30)]
    assert any("two-readings" in t.why_ask for t in both) == asks


@pytest.mark.parametrize(("missing", "asks"), [(1.0, False), (0.1, True)])
def test_a_circle_that_a_hand_hatched_is_filled_and_one_that_a_machine_drew_may_be_hollow(
    missing: float, asks: bool
) -> None:
    levels = {hz: level + missing * miss for (hz, level), miss in zip(RIGHT.items(), MISSES, strict=False)}
    crosses = {hz: level - missing * miss for (hz, level), miss in zip(LEFT.items(), MISSES, strict=False)}
    hatched = mark("circle-filled", 3000, 50, "red", score=0.8, rivals=(("circle", 0.5),))
    drawn = (*row("circle", levels, "red"), *row("cross", crosses, "blue"))
    rest = (*(sized(drawn) if missing == 1.0 else drawn), *row("foot-right", {500: 90, 1000: 95}))
    found = read(*rest, hatched, symbols="bsa-2018")
    (one,) = [t for t in found if t.frequency_hz == 3000]
    assert one.masked
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("blue", "asks"), [(0.4, False), (0.6, True)])
def test_a_red_triangle_with_some_blue_upon_it_is_the_right_ears(blue: float, asks: bool) -> None:
    # BSA 2018: the ink alone names the ear of a triangle; crosses and joining lines lie on many
    rest = [triangle(hz, 0, red=0.9) for hz in (500, 2000, 4000)]
    found = read(*TWO_PENS, *rest, triangle(1000, -10, red=0.9, blue=blue), symbols="bsa-2018")
    one = at(found, 1000, -10)
    assert one.ear == "right"
    assert ("ear-uncertain" in one.why_ask) == asks


def test_bone_that_is_alone_in_its_row_asks() -> None:
    row_of_bone = row("angle-right", {500: 5, 1000: 10, 2000: 15, 4000: 20}, "blue", beside=0.15)
    alone = at(read(*TWO_PENS, row_of_bone[1], symbols="asha-1990"), 1000, 10)
    assert "implausible" in alone.why_ask
    assert "implausible" not in at(read(*TWO_PENS, *row_of_bone, symbols="asha-1990"), 1000, 10).why_ask


def test_bone_below_250_hz_asks() -> None:
    # ASHA 2005: bone is tested from 250 to 4000 Hz
    bone = row("angle-right", {125: 5, 250: 10, 1000: 15, 2000: 20}, "blue", beside=0.15)
    found = [t for t in read(*TWO_PENS, *bone, symbols="asha-1990") if t.conduction == "bone"]
    assert {t.frequency_hz for t in found if "implausible" in t.why_ask} == {125}


@pytest.mark.parametrize(("miss", "standing"), [(2.1, "sure"), (2.4, "ask")])
def test_a_hands_mark_asks_only_where_it_stands_near_the_middle_of_two_steps(miss: float, standing: str) -> None:
    # trade.md: past 2.5 dB nobody can tell which step was meant
    levels = [step + off for step, off in zip(STEPS, MISSES, strict=True)]
    frequencies = (250, 500, 750, 1000, 1500, 2000, 3000, 4000)
    marks = [mark("circle", hz, level) for hz, level in zip(frequencies, levels, strict=True)]
    found = read(*sized((*marks, mark("circle", 8000, 60 + miss))))
    assert at(found, 8000, 60).standing == standing


def test_a_light_stroke_below_a_hands_mark_is_no_arrow_and_one_below_a_printed_mark_may_be() -> None:
    frequencies = (250, 500, 750, 1000, 1500, 2000, 3000, 4000)
    loud = [step + 40 for step in STEPS]
    hand = [mark("circle", hz, s + m) for hz, s, m in zip(frequencies, loud, MISSES, strict=True)]
    print_ = [mark("circle", hz, s) for hz, s in zip(frequencies, loud, strict=True)]
    for marks, asks in ((hand, False), (print_, True)):
        x, y = marks[-1].sight.at
        stroke = Unexplained((x - 6, y + 12), (6, 8), 3600, 98, 0.0, 0.0, 0.25, hangs_from=marks[-1].sight.at)
        reading = mean(sheet(), (), (replace(chart(*marks), unexplained=(stroke,)),), Choices())
        (one,) = [t for t in reading.audiograms[0].thresholds if t.frequency_hz == 4000]
        assert ("arrow-uncertain" in one.why_ask) == asks


def test_ink_strays_from_a_mark_just_above_and_then_asks_whose_a_triangle_is() -> None:
    # seen on a form in BSA's symbols: a black triangle whose middle was seen red, 0.9 sizes below a red circle
    free = [triangle(hz, 30, red=red) for hz, red in ((500, 0.0), (2000, 0.6), (4000, 0.0))]
    below = triangle(1000, 20 + 0.9 * 14 / DECIBEL, red=0.7)
    (one,) = [
        t
        for t in read(*TWO_PENS, *free, below, symbols="bsa-2018")
        if t.frequency_hz == 1000 and t.conduction == "bone"
    ]
    assert "ear-uncertain" in one.why_ask


def test_a_weak_shape_at_the_place_of_two_others_may_be_made_of_their_strokes() -> None:
    weak = mark("circle", 1000, 20, "red", score=0.68)
    others = (mark("cross", 1000, 20, "blue", score=0.78), mark("triangle", 1000, 20, "red", score=0.66))
    rest = (*row("circle", {500: 15, 2000: 40, 4000: 60}, "red"), *row("cross", {500: 10, 2000: 30, 4000: 45}, "blue"))
    found = read(*rest, weak, *others, symbols="asha-1990")
    (one,) = [t for t in found if (t.frequency_hz, t.ear, t.masked) == (1000, "right", False)]
    assert "marks-overlap" in one.why_ask
    weaker_alone = read(*rest, weak, others[0], symbols="asha-1990")
    assert all("marks-overlap" not in t.why_ask for t in weaker_alone if (t.frequency_hz, t.ear) == (1000, "right"))


def test_the_one_bracket_among_a_row_of_angles_asks_whether_it_is_one_unless_a_machine_set_it_clearly() -> None:
    angles = row("angle-right", {500: 5, 1000: 10, 2000: 15}, "blue", beside=0.15)
    lone = mark("bracket-right", 4000, 20, "blue", beside=0.15)
    weak = replace(lone, sight=replace(lone.sight, score=0.72))
    two = (lone, mark("bracket-right", 3000, 20, "blue", beside=0.15))
    by_hand = sized((*TWO_PENS, *angles))
    told = {
        name: at(read(*rest, symbols="asha-1990"), 4000, 20).why_ask
        for name, rest in {
            "hand": (*by_hand, lone), "two": (*by_hand, *two),
            "machine": (*TWO_PENS, *angles, lone), "weak": (*TWO_PENS, *angles, weak),
        }.items()
    }  # fmt: skip
    assert {name for name, why in told.items() if "two-readings" in why} == {"hand", "weak"}


@pytest.mark.parametrize(("miss", "asks"), [(0.4, False), (1.5, True)])
def test_one_letter_in_both_inks_between_two_steps_may_be_two_letters(miss: float, asks: bool) -> None:
    letters = [mark("letter-u", hz, level, "red") for hz, level in ((500, 95), (2000, 100), (4000, 105))]
    both = mark("letter-u", 1000, 100 + miss, "red")
    both = replace(both, sight=replace(both.sight, red=0.7, blue=0.7))
    found = [
        t for t in read(*TWO_PENS, *letters, both, symbols="asha-1990") if (t.measure, t.frequency_hz) == ("ucl", 1000)
    ]
    assert {t.ear for t in found} == {"right", "left"}
    assert all(("marks-overlap" in t.why_ask) == asks for t in found)


@pytest.mark.parametrize(("plain", "ear"), [(0.1, "left"), (0.4, "unspecified")])
def test_ink_without_colour_tells_a_black_triangle_beneath_a_cross_and_its_lack_tells_nothing(
    plain: float, ear: str
) -> None:
    # black triangles beneath blue crosses were seen with shares of 0.1 and more
    others = [triangle(hz, 0, blue=blue) for hz, blue in ((500, 0.9), (2000, 0.0), (4000, 0.9))]
    beneath = triangle(1000, 15, blue=0.8)
    beneath = replace(beneath, sight=replace(beneath.sight, plain=plain))
    found = read(*TWO_PENS, *others, beneath, symbols="bsa-2018")
    one = at(tuple(t for t in found if t.conduction == "bone"), 1000, 15)
    assert (one.ear, one.standing) == (ear, "ask")
