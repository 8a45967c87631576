"""Charts on which an earlier test lies beneath the present one."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

NOW = {250: 40, 500: 45, 1000: 50, 2000: 60, 4000: 70, 8000: 75}
BEFORE = {250: 20, 500: 20, 1000: 25, 2000: 30, 4000: 45, 8000: 50}
WORSE = {hz: level + 15 for hz, level in NOW.items()}


def read(*marks: Mark) -> list[Threshold]:
    return list(mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).audiograms[0].thresholds)


def air(thresholds: list[Threshold], ear: str, *, masked: bool = False) -> Mapping[float, Threshold]:
    return {t.frequency_hz: t for t in thresholds if (t.ear, t.masked) == (ear, masked)}


COLOURED = (*row("circle", NOW, "red"), *row("cross", WORSE, "blue"))


def test_grey_marks_of_an_earlier_test_do_not_stand_beside_the_coloured_ones_of_the_present() -> None:
    # grey squares and circles of an older test stood as the left ear's masked air and the right ear's, surely
    values = read(*COLOURED, *row("circle", BEFORE), *row("square", {hz: db + 10 for hz, db in BEFORE.items()}))
    assert {hz: t.level_db_hl for hz, t in air(values, "right").items()} == NOW
    assert all(not t.why_ask for t in air(values, "right").values())
    assert all("test-date-uncertain" in t.why_ask for t in air(values, "left", masked=True).values())


def test_bone_in_black_beside_air_in_colour_is_of_the_same_test() -> None:
    values = read(*COLOURED, *row("bracket-left", {500: 30, 1000: 35, 2000: 45, 4000: 60}, beside=-0.15))
    assert all("test-date-uncertain" not in t.why_ask for t in values)


def test_a_chart_in_one_ink_with_two_levels_at_many_frequencies_asks_of_which_test_each_is() -> None:
    values = read(*row("circle", NOW), *row("circle", BEFORE), *row("square", WORSE))
    assert all("test-date-uncertain" in t.why_ask for t in values)


def test_a_corrected_mark_or_two_are_no_second_test() -> None:
    values = read(*row("circle", NOW), *row("circle", {1000: 65, 4000: 90}), *row("cross", WORSE))
    assert all("test-date-uncertain" not in t.why_ask for t in values)


@pytest.mark.parametrize(("score", "asks"), [(0.45, True), (0.97, False)])
def test_masked_air_on_which_a_faint_cross_lies_asks_whether_it_is_a_square(score: float, asks: bool) -> None:
    # a cross on two triangles of bone was seen as a cross in a square, which stood as sure masked air
    both = (mark("square", 1000, 65, "blue"), mark("cross", 1000, 65, "blue", score=score))
    values = read(*(m for m in COLOURED if m.x != both[0].x or m.sight.glyph != "cross"), *both)
    (masked,) = air(values, "left", masked=True).values()
    assert ("marks-overlap" in masked.why_ask) == asks


@pytest.mark.parametrize(("partners", "asks"), [((), True), ((250, 500), False)])
def test_a_circle_in_a_masked_mark_asks_where_the_other_masked_ones_stand_alone(
    partners: tuple[int, ...], *, asks: bool
) -> None:
    # on copies of a stranger's pages an angle of bone in a triangle was seen as a circle in it, surely
    masked = {250: 40, 500: 45, 1000: 50}
    circles = {hz: level for hz, level in NOW.items() if hz not in masked or hz in (1000, *partners)}
    values = read(*row("triangle", masked, "red"), *row("circle", circles, "red"), *row("cross", WORSE, "blue"))
    pair = air(values, "right")[1000], air(values, "right", masked=True)[1000]
    assert [("marks-overlap" in t.why_ask) for t in pair] == [asks, asks]


@pytest.mark.parametrize(("free", "asks"), [((), True), ((500,), False)])
def test_masked_air_that_stands_only_on_circles_of_the_other_ear_asks(free: tuple[int, ...], *, asks: bool) -> None:
    # circles of a stranger's copy hid crosses but for their corners: two stood as masked air
    squares = {hz: NOW[hz] for hz in (2000, 4000)} | dict.fromkeys(free, 20)
    crosses = {hz: level for hz, level in WORSE.items() if hz not in squares}
    values = read(*row("circle", NOW, "red"), *row("cross", crosses, "blue"), *row("square", squares, "blue"))
    masked = air(values, "left", masked=True)
    assert {hz: "marks-overlap" in t.why_ask for hz, t in masked.items()} == dict.fromkeys(squares, asks)
