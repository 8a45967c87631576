"""Whether a triangle beneath a coloured mark has a colour of its own (BSA 2018 leaves bone's ear to the ink)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

LEVELS = {250: 10, 500: 15, 1000: 20, 2000: 40}
AIR = (*row("circle", LEVELS, "red"), *row("cross", {hz: level + 20 for hz, level in LEVELS.items()}, "blue"))
HALF_A_MARK_DB = 0.6 * 14.0 / DECIBEL
"""Six tenths of the size of the marks of ``by_hand``, as a level difference."""


def triangles(plain: float, *, red: float = 0.0, blue: float = 0.0, lower_db: float = 0.0) -> list[Mark]:
    """See a row of triangles that air marks cover, and how much of their ink has no colour."""
    seen = [mark("triangle", hz, level + (20 if blue else 0) + lower_db) for hz, level in LEVELS.items()]
    return [replace(m, sight=replace(m.sight, red=red, blue=blue, plain=plain)) for m in seen]


def bone(*marks: Mark, air: tuple[Mark, ...] = AIR) -> list[Threshold]:
    (test,) = mean(sheet(), (), (chart(*air, *marks),), Choices(symbols="bsa-2018")).audiograms
    return [t for t in test.thresholds if t.conduction == "bone"]


def test_red_triangles_beneath_red_circles_without_any_black_ink_are_the_right_ears() -> None:
    # on colour scans a page of triangles that all lay on their ear's circles asked whose each was
    assert {(t.ear, t.standing) for t in bone(*triangles(0.08, red=0.85))} == {("right", "sure")}


@pytest.mark.parametrize("red", [0.85, 0.6])
def test_triangles_with_black_ink_beneath_red_circles_ask(red: float) -> None:
    assert {t.standing for t in bone(*triangles(0.3, red=red))} == {"ask"}


def test_triangles_all_hidden_by_blue_crosses_ask_since_black_looks_like_blue_there() -> None:
    assert {t.standing for t in bone(*triangles(0.08, blue=0.85))} == {"ask"}


def test_triangles_partly_off_blue_crosses_show_their_own_blue() -> None:
    found = bone(*triangles(0.06, blue=0.85, lower_db=HALF_A_MARK_DB))
    assert [t.ear for t in found] == ["left"] * 4
    assert not any("ear-uncertain" in t.why_ask for t in found)


def test_triangles_on_a_chart_of_one_ear_are_its_own_be_they_black_or_of_its_colour() -> None:
    crosses = tuple(m for m in AIR if m.sight.glyph == "cross")
    found = bone(*triangles(0.08, blue=0.85), air=crosses)
    assert {(t.ear, t.standing) for t in found} == {("left", "sure")}


@pytest.mark.parametrize(("blue", "asks"), [(0.36, True), (0.6, False)])
def test_a_cross_in_a_red_circle_that_shows_hardly_any_blue_asks(blue: float, *, asks: bool) -> None:
    # the head of another mark's arrow in a circle stood as the left ear's air
    cross = mark("cross", 4000, 70)
    cross = replace(cross, sight=replace(cross.sight, red=0.9, blue=blue, plain=0.1))
    (test,) = mean(
        sheet(), (), (chart(*AIR, mark("circle", 4000, 70, "red"), cross),), Choices(symbols="asha-1990")
    ).audiograms
    (value,) = [t for t in test.thresholds if (t.ear, t.frequency_hz) == ("left", 4000)]
    assert ("colour-and-shape-differ" in value.why_ask) == asks
