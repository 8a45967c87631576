"""The marks of the redrawn chart: standard symbols, arrows, doubts."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from any_records import threshold
from hypothesis import given
from invented_pages import asked, value

from octavo.interpret.exports.redraw.marks import LEFT, RIGHT, colour_of, glyph_of, mark
from octavo.interpret.exports.redraw.scene import Circle, Item, Lettering, Line
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import Glyph

PUBLISHED = Path(__file__).parents[3] / "published" / "audiometric_symbols.csv"
LINES = PUBLISHED.read_text("utf-8").splitlines()
ROWS = [row for row in csv.DictReader(LINES) if row["convention"].startswith("ASHA")]
SHAPES: dict[str, Glyph] = {
    "circle, outline": "circle",
    "X of two diagonals": "cross",
    "triangle, outline, apex up": "triangle",
    "square, outline": "square",
    "angle bracket with its point to the LEFT: <": "angle-left",
    "angle bracket with its point to the RIGHT: >": "angle-right",
    "square bracket [ (spine at left)": "bracket-left",
    "square bracket ] (spine at right)": "bracket-right",
    "caret: point up (inverted V)": "caret",
    "capital S": "letter-s",
}
"""The published table's words for shapes, and ours."""


def row(name: str) -> dict[str, str]:
    return next(row for row in ROWS if row["id"] == name)


def drawn(one: Threshold) -> list[Item]:
    return list(mark(one, (100, 100), 60, 1))


def points(items: list[Item]) -> list[tuple[float, float]]:
    return [point for item in items if isinstance(item, Line) for point in item.points]


@pytest.mark.parametrize(
    ("name", "one"),
    [
        ("ac_r", value("right", 1000, 20)), ("ac_l", value("left", 1000, 20)),
        ("ac_r_m", value("right", 1000, 20, masked=True)), ("ac_l_m", value("left", 1000, 20, masked=True)),
        ("bc_r", value("right", 1000, 20, "bone")), ("bc_l", value("left", 1000, 20, "bone")),
        ("bc_r_m", value("right", 1000, 20, "bone", masked=True)),
        ("bc_l_m", value("left", 1000, 20, "bone", masked=True)),
        ("bc_u", value("unspecified", 1000, 20, "bone")), ("sf", value("both", 1000, 20, "field")),
    ],
)  # fmt: skip
def test_every_kind_of_value_has_its_published_symbol(name: str, one: Threshold) -> None:
    assert glyph_of(one) == SHAPES[row(name)["shape"]]


@pytest.mark.parametrize(("ear", "colour", "name"), [("right", RIGHT, "ac_r"), ("left", LEFT, "ac_l")])
def test_right_is_red_and_left_is_blue(ear: str, colour: tuple[float, float, float], name: str) -> None:
    assert ("red" if colour[0] > colour[2] else "blue") in row(name)["colour"]
    assert colour_of(value("right" if ear == "right" else "left", 500, 10)) == colour


def test_both_colours_are_alike_dark_in_a_grey_copy() -> None:
    right, left = (0.299 * r + 0.587 * g + 0.114 * b for r, g, b in (RIGHT, LEFT))
    assert abs(right - left) < 0.05
    assert max(right, left) < 0.35


@pytest.mark.parametrize(("name", "ear", "side"), [("bc_r", "right", -1), ("bc_l", "left", 1)])
def test_bone_stands_beside_its_line(name: str, ear: str, side: int) -> None:
    assert row(name)["anchor"].startswith("left" if side < 0 else "right")
    places = points(drawn(value("right" if ear == "right" else "left", 1000, 20, "bone")))
    assert all((x - 100) * side > 0 for x, _ in places)


@pytest.mark.parametrize(("name", "ear", "side"), [("nr_r", "right", -1), ("nr_l", "left", 1)])
def test_the_arrow_of_no_response_runs_down_and_outward(name: str, ear: str, side: int) -> None:
    assert ("LEFT" if side < 0 else "RIGHT") in row(name)["opens_or_points"]
    one = value("right" if ear == "right" else "left", 1000, 110, response=False)
    shaft = drawn(one)[-2]
    assert isinstance(shaft, Line)
    (x0, y0), (x1, y1) = shaft.points
    assert y1 > y0 > 100
    assert (x1 - x0) * side > 0


def test_the_arrow_of_a_mark_without_an_ear_runs_straight_down() -> None:
    shaft = drawn(replace(value("unspecified", 500, 60, "bone"), response=False))[-2]
    assert isinstance(shaft, Line)
    assert shaft.points[0][0] == shaft.points[1][0] == 100


def test_equal_thresholds_put_the_cross_inside_the_circle() -> None:
    [circle] = drawn(value("right", 1000, 20))
    assert isinstance(circle, Circle)
    cross = points(drawn(value("left", 1000, 20)))
    assert max(((x - 100) ** 2 + (y - 100) ** 2) ** 0.5 for x, y in cross) < circle.radius * 1.1


def test_a_value_to_ask_about_shows_a_question_mark_and_how_far_it_reaches() -> None:
    one = asked("right", 1000, 20, "faint")
    items = drawn(one)
    assert [item.text for item in items if isinstance(item, Lettering)] == ["?"]
    # 10 dB either way are half an octave's width.
    assert (min(y for _, y in points(items)), max(y for _, y in points(items))) == (70, 130)
    assert not any(isinstance(item, Lettering) for item in drawn(value("right", 1000, 20)))


def test_without_a_response_the_doubt_reaches_upward_only() -> None:
    items = drawn(replace(asked("right", 1000, 20, "arrow-uncertain"), response=False))
    [question] = [item for item in items if isinstance(item, Lettering)]
    assert min(y for _, y in points(items)) == 70
    assert max(y for _, y in points(items)) < 130
    assert question.text == "?"


@given(threshold())
def test_any_value_can_be_drawn(one: Threshold) -> None:
    assert drawn(one)
