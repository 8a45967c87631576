"""Whose an arrow is where several marks of one ear stand at one place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.doubts.arrow import anothers_arrow, hidden_at_limit, unheard_with_any
from octavo.extract.meaning.nearby import heard
from octavo.extract.sightings import ArrowTip
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import SYMBOL_SETS, Glyph, Meaning

ASHA = SYMBOL_SETS["asha-1990"].meanings
ROW = {250: 30, 500: 90, 1000: 90, 2000: 90, 4000: 90}


def right(glyph: Glyph, hz: float = 1000, level: float = 70) -> Mark:
    """Give a mark of the right ear with that ear's arrow, down-left by ASHA 1990."""
    one = mark(glyph, hz, level, arrows=(0.9, 0.05, 0.05))
    return replace(one, sight=replace(one.sight, tips=(ArrowTip(0, (0.0, 0.0), one.sight.at, 0.9),)))


@pytest.mark.parametrize(
    ("glyph", "other", "told"),
    [
        ("angle-left", "circle", True),  # bone at the vibrator's limit, where air was heard or not
        ("circle", "angle-left", False),
        ("bracket-left", "angle-left", True),  # masked bone is never better than unmasked
        ("angle-left", "bracket-left", False),
        ("triangle", "circle", True),
        ("bracket-left", "triangle", True),
    ],
)
def test_of_two_marks_of_an_ear_the_one_that_ends_first_has_the_arrow(
    glyph: Glyph, other: Glyph, *, told: bool
) -> None:
    one, beside = right(glyph), right(other)
    with_any = unheard_with_any(one, "right", (one, beside), ASHA)
    assert with_any == told
    assert heard(one, "right", (one, beside), deepest_db=120, with_any=with_any) == (False, told)


def test_where_both_ended_at_other_limits_one_of_an_unmasked_and_a_masked_mark_may_still_have_been_heard() -> None:
    """What ends at three limits says nothing of a fourth: on four painted pages one such mark of a row was heard."""
    row = [
        (right("angle-left", hz, db), right("bracket-left", hz, db))
        for hz, db in ((500, 60), (1000, 70), (2000, 65), (4000, 70))
    ]
    taken = tuple(m for pair in row for m in pair)
    for bone, masked in row:
        assert not unheard_with_any(bone, "right", taken, ASHA)
        assert unheard_with_any(masked, "right", taken, ASHA)


def test_the_arrow_of_discomfort_at_the_place_of_another_mark_may_be_that_marks() -> None:
    letter, bone = right("letter-u", 1000, 120), right("triangle", 1000, 120)
    assert anothers_arrow(letter, (letter, bone), (letter, bone), ASHA)
    assert not anothers_arrow(letter, (letter,), (letter,), ASHA)


def test_a_flat_loss_may_be_heard_by_air_at_several_limits() -> None:
    # seen on a fax: crosses heard at 120 and 115 dB HL, where the better ear heard them, on squares that were not heard
    row = [(right("circle", hz, db), right("triangle", hz, db)) for hz, db in ((1000, 120), (4000, 120), (6000, 115))]
    taken = tuple(m for pair in row for m in pair)
    assert not any(unheard_with_any(plain, "right", taken, ASHA) for plain, _ in row)


def test_a_shape_that_may_be_of_either_ear_leaves_the_arrow_open() -> None:
    bone, angle = right("bracket-left"), right("angle-right")
    earless = frozenset[Glyph]({"angle-left", "angle-right"})
    with_any = unheard_with_any(bone, "right", (bone, angle), ASHA)
    assert not heard(bone, "right", (bone, angle), deepest_db=120, earless=earless, with_any=with_any)[1]


def test_a_mark_without_a_meaning_leaves_the_arrow_open() -> None:
    bone, unknown = right("angle-left"), right("foot-left")
    meanings: dict[Glyph, Meaning] = {g: m for g, m in ASHA.items() if g != "foot-left"}
    assert not unheard_with_any(bone, "right", (bone, unknown), meanings)


@pytest.mark.parametrize(
    ("hz", "level", "arrow", "hidden"),
    [
        (4000, 70, 0.09, True),
        (4000, 45, 0.09, False),
        (4000, 70, 0.02, False),
        (250, 40, 0.09, True),
        (1000, 40, 0.09, False),
    ],
)
def test_bone_at_the_vibrators_limit_asks_where_a_mark_below_may_hide_its_arrow(
    hz: float, level: float, arrow: float, *, hidden: bool
) -> None:
    # seen on a scan: the arrows of both ears' bone at 4 kHz ran under a cross 5 dB lower, and stood as heard and sure
    angle, cross = mark("angle-left", hz, level, arrows=(arrow, 0.02, 0.02)), mark("cross", hz, level + 5)
    near = replace(cross, y=angle.y + 14)  # a mark's size below, as 5 dB are on a usual chart
    assert hidden_at_limit(angle, (angle, near)) == hidden
    assert not hidden_at_limit(angle, (angle, replace(cross, y=angle.y + 60)))
    assert not hidden_at_limit(angle, (angle,))


HALF_AN_ARROW = (0.35, 0.01, 0.01)


@pytest.mark.parametrize(("level", "asks"), [(50, False), (70, True)])
def test_strokes_that_look_half_like_an_arrow_ask_only_where_an_audiometer_may_end(level: float, asks: bool) -> None:
    # IEC 60645-1: even screening audiometers reach 70 dB by air
    marks = (*row("circle", {250: 10, 500: 20, 2000: 30}), mark("circle", 1000, level, arrows=HALF_AN_ARROW))
    assert ("arrow-uncertain" in value(marks, 1000).why_ask) == asks


@pytest.mark.parametrize(("louder", "asks"), [({2000: 90, 3000: 85}, False), ({2000: 90, 3000: 75}, True), ({}, True)])
def test_strokes_that_look_half_like_an_arrow_do_not_ask_where_louder_tones_were_heard(
    louder: Mapping[int, float], asks: bool
) -> None:
    # an audiometer's end hardly differs from 500 to 6000 Hz (IEC 60645-1)
    half = mark("circle", 1000, 75, arrows=HALF_AN_ARROW)
    assert ("arrow-uncertain" in value((*row("circle", {500: 20, **louder}), half), 1000).why_ask) == asks


def test_a_clear_arrow_stays_one_where_louder_tones_were_heard() -> None:
    clear = mark("circle", 1000, 75, arrows=(0.9, 0.01, 0.01))
    assert not value((*row("circle", {500: 20, 2000: 90, 3000: 90}), clear), 1000).response


def test_comfortable_loudness_with_an_arrow_asks() -> None:
    # the most comfortable level is heard by its name; on one painted page it had taken the arrow of an air mark
    letters = (
        *row("letter-m", {500: 70, 2000: 80}, "red"),
        mark("letter-m", 1000, 110, "red", arrows=(0.9, 0.01, 0.01)),
    )
    angles = row("angle-left", {500: 10, 2000: 20, 4000: 20}, "red", beside=-0.1)
    circles = row("circle", {500: 10, 2000: 20, 4000: 20}, "red")
    one = value((*circles, *angles, *letters), 1000)
    assert (one.measure, one.why_ask) == ("mcl", ("arrow-uncertain",))


def value(marks: tuple[Mark, ...], hz: float) -> Threshold:
    (test,) = mean(sheet(), (), (chart(*marks),), Choices()).audiograms
    (one,) = [t for t in test.thresholds if t.frequency_hz == hz]
    return one


@pytest.mark.parametrize(("tip_of_other", "asks"), [(0.1, True), (0.8, False)])
@pytest.mark.parametrize("other", ["bracket-left", "circle-filled"])
def test_one_arrow_seen_at_two_marks_of_an_ear_that_overlap_may_be_either_ones(
    other: Glyph, tip_of_other: float, *, asks: bool
) -> None:
    # the arrow of a masked bone mark just above took a filled circle's threshold away
    mine = right("circle-filled", 500, 65)
    beside = mark(other, 500, 64, beside=-0.06, arrows=(0.6, 0.05, 0.05))
    beside = replace(
        beside, sight=replace(beside.sight, tips=(ArrowTip(0, (0.0, 0.0), beside.sight.at, tip_of_other),))
    )
    assert anothers_arrow(mine, (mine, beside), (mine, beside), SYMBOL_SETS["bsa-2018"].meanings) == asks


@pytest.mark.parametrize(("root_px", "asks"), [(9.0, True), (30.0, False)])
def test_an_arrow_whose_tip_seems_to_hang_from_the_next_place_of_a_crowded_row_asks(
    root_px: float, *, asks: bool
) -> None:
    # crosses in squares all along a limit: two squares that were heard took the arrows of the ones before
    cross, square = (mark(g, 1000, 120, arrows=(0.1, 0.75, 0.1)) for g in ("cross", "square"))
    before = mark("triangle", 750, 120, score=0.2)
    hung = ArrowTip(1, (0.0, 0.0), (square.sight.at[0] - root_px, square.sight.at[1]), 0.8)
    before = replace(before, sight=replace(before.sight, tips=(hung,)))
    taken = cross, square
    assert anothers_arrow(square, taken, (*taken, before), ASHA) == asks


@pytest.mark.parametrize(("score", "asks"), [(0.35, True), (0.2, False)])
def test_an_arrow_may_hang_from_a_bracket_that_an_angle_covers(score: float, *, asks: bool) -> None:
    mine, beneath = right("angle-left"), mark("bracket-left", 1000, 70, score=score)
    assert anothers_arrow(mine, (mine,), (mine, beneath), ASHA) == asks


def test_one_arrow_of_an_angle_and_a_half_bracket_is_asked_about() -> None:
    # both are the right ear's bone (ASHA 1990), and the one not heard was the masked one
    both = right("angle-left"), right("half-bracket-right")
    assert heard(both[0], "right", both, deepest_db=120) == (False, False)


@pytest.mark.parametrize(
    ("arrow", "tip", "certain"), [(0.17, 0.25, False), (0.17, 0.15, True), (0.05, 0.25, True), (0.15, 0.35, False)]
)
def test_an_arrow_and_its_tip_too_faint_to_tell_alone_tell_together(arrow: float, tip: float, *, certain: bool) -> None:
    one = mark("circle", 4000, 60, arrows=(0.05, 0.05, arrow))
    one = replace(one, sight=replace(one.sight, tips=(ArrowTip(2, (0.0, 0.0), one.sight.at, tip),)))
    assert heard(one, "right", (one,), deepest_db=120) == (True, certain)


@pytest.mark.parametrize(("level", "asks"), [(70, True), (50, False)])
def test_a_sign_of_an_arrow_where_the_row_ends_asks(level: float, *, asks: bool) -> None:
    # the last triangle of a row at a vibrator's limit lost its arrow to a printed line
    gone = [right("angle-left", hz, 70) for hz in (500, 1000, 2000)]
    last = mark("angle-left", 4000, level, arrows=(0.13, 0.02, 0.02))
    air = row("circle", ROW)
    (found,) = mean(sheet(), (), (chart(*air, *gone, last),), Choices("asha-1990")).audiograms
    (one,) = [t for t in found.thresholds if (t.conduction, t.frequency_hz) == ("bone", 4000)]
    assert ("arrow-uncertain" in one.why_ask) == asks


@pytest.mark.parametrize(("sign", "untold", "asks"), [(0.08, 3, True), (0.08, 2, False), (0.03, 3, False)])
def test_a_fainter_sign_asks_where_the_rest_of_the_row_may_not_have_been_heard(
    sign: float, untold: int, *, asks: bool
) -> None:
    # the edge of a photo had cut the arrows of a row of squares: all but one asked
    open_ones = [mark("square", hz, 110, arrows=(0.02, 0.4, 0.02)) for hz in (250, 500, 2000)[:untold]]
    last = mark("square", 1000, 110, arrows=(0.02, sign, 0.02))
    (found,) = mean(sheet(), (), (chart(*row("circle", ROW), *open_ones, last),), Choices("asha-1990")).audiograms
    left = {t.frequency_hz: "arrow-uncertain" in t.why_ask for t in found.thresholds if t.ear == "left"}
    assert left == {1000: asks, **{m.frequency_hz: True for m in open_ones}}


@pytest.mark.parametrize(("unheard", "asks"), [((500, 4000), True), ((4000,), False)])
def test_bone_at_a_level_at_which_others_of_its_row_were_not_heard_asks(
    unheard: tuple[int, ...], *, asks: bool
) -> None:
    # on a drawn page the arrows of crowded angles lay across one another, and two were seen without theirs
    gone = [right("angle-left", hz, 70) for hz in unheard]
    last = mark("angle-left", 2000, 70)
    (found,) = mean(sheet(), (), (chart(*row("circle", ROW), *gone, last),), Choices("asha-1990")).audiograms
    (one,) = [t for t in found.thresholds if (t.conduction, t.frequency_hz) == ("bone", 2000)]
    assert (one.response, "arrow-uncertain" in one.why_ask) == (True, asks)


def test_of_an_arrow_that_may_be_anothers_the_level_says_what_is_likelier() -> None:
    # common practice: no audiometer ends at 55 dB HL by air; the arrow of bone on a circle was read as the circle's
    shapes: tuple[Glyph, ...] = ("circle", "triangle")
    at_55, at_110 = ([right(glyph, 1000, level) for glyph in shapes] for level in (55, 110))
    for marks, heard_ in ((at_55, True), (at_110, False)):
        (found,) = mean(sheet(), (), (chart(*row("cross", ROW), *marks),), Choices("asha-1990")).audiograms
        (plain,) = [t for t in found.thresholds if t.ear == "right" and not t.masked]
        assert (plain.response, "arrow-uncertain" in plain.why_ask) == (heard_, True)


# IEC 60645-1 [memory]: what audiometers must reach by air at least.
@pytest.mark.parametrize(
    ("hz", "level", "asks"), [(125, 70, True), (125, 65, False), (4000, 120, True), (4000, 95, False)]
)
def test_a_sign_of_an_arrow_where_audiometers_end_asks(hz: int, level: float, *, asks: bool) -> None:
    # a coarse fax lost the arrow of a cross at 125 Hz
    last = mark("cross", hz, level, arrows=(0.05, 0.12, 0.02))
    others = row("cross", dict.fromkeys((250, 500, 1000, 2000), 60))
    (found,) = mean(sheet(), (), (chart(*others, last),), Choices("asha-1990")).audiograms
    (one,) = [t for t in found.thresholds if t.frequency_hz == hz]
    assert ("arrow-uncertain" in one.why_ask) == asks


def test_an_arrow_between_bone_and_air_is_the_bones_where_no_earphone_ends() -> None:
    # seen on pages: beside a bracket that was not heard a cross at 55 dB seemed not heard either
    def both(level: float) -> dict[str, tuple[bool, str]]:
        bone = row("bracket-right", {500: 30, 2000: 40, 4000: 40}, "blue", beside=0.15)
        others = (*row("cross", {250: 30, 500: 30, 2000: 40, 4000: 40}, "blue"), *bone)
        cross = mark("cross", 1000, level, "blue", arrows=(0.0, 0.52, 0.0))
        seen = [cross, mark("bracket-right", 1000, level, "blue", beside=0.15, arrows=(0.0, 0.5, 0.0))]
        apart = [replace(m, sight=replace(m.sight, apart=True)) for m in seen]
        (audiogram,) = mean(sheet(), (), (chart(*others, *apart),), Choices(symbols="asha-1990")).audiograms
        at_1000 = [t for t in audiogram.thresholds if t.frequency_hz == 1000]
        return {t.conduction: (t.response, t.standing) for t in at_1000}

    assert both(60) == {"air": (True, "sure"), "bone": (False, "sure")}
    assert {standing for _, standing in both(70).values()} == {"ask"}


@pytest.mark.parametrize(("aside_px", "better", "anothers"), [(0.5, 0.1, True), (0.5, -0.1, False), (12, 0.1, False)])
def test_one_arrow_that_is_seen_better_at_another_mark_of_the_ear_may_be_that_ones(
    aside_px: float, better: float, *, anothers: bool
) -> None:
    # the arrow of masked air, the one arrow there, stood for the unmasked mark a step above as well
    one, other = (
        mark("circle", 6000, 95, arrows=(0.74, 0.06, 0.09)),
        mark("triangle", 6000, 100, arrows=(0.8, 0.1, 0.1)),
    )
    at = (one.sight.at[0] - 30, one.sight.at[1] + 40)
    again = (at[0] + aside_px, at[1])
    one = replace(one, sight=replace(one.sight, tips=(ArrowTip(0, at, one.sight.at, 0.8),)))
    other = replace(other, sight=replace(other.sight, tips=(ArrowTip(0, again, other.sight.at, 0.8 + better),)))
    assert anothers_arrow(one, (one, other), (one, other), ASHA) == anothers
