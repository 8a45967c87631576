"""Charts filled in with one coloured pen: red is right and blue is left in every text that names colours (ASHA 1990,
BSA 2018; tests/published/SOURCES.md), so a pen that draws both ears' shapes names none."""

from __future__ import annotations

from dataclasses import replace

from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.symbols.one_ink import denied_inks, one_pen, shapes_without_colour, without_one_ink
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import SYMBOL_SETS

RIGHT = {250: 10, 500: 15, 1000: 20, 2000: 40}
LEFT = {250: 45, 500: 50, 1000: 60, 2000: 75}
BLUE_PEN = (*row("circle", RIGHT, "blue"), *row("cross", LEFT, "blue"))
TWO_PENS = (*row("circle", RIGHT, "red"), *row("cross", LEFT, "blue"))
TRIANGLES = row("triangle", {500: 5, 1000: 10, 2000: 15}, "blue")


def read(*charts: tuple[Mark, ...]) -> tuple[Threshold, ...]:
    measured = tuple(chart(*marks, number=number) for number, marks in enumerate(charts))
    reading = mean(sheet(), (), measured, Choices("bsa-2018"))
    return tuple(t for audiogram in reading.audiograms for t in audiogram.thresholds)


def bone(thresholds: tuple[Threshold, ...]) -> set[str]:
    return {t.ear for t in thresholds if t.conduction == "bone"}


def test_circles_and_crosses_in_one_blue_are_by_one_pen_and_in_two_inks_are_not() -> None:
    assert one_pen(BLUE_PEN) == "blue"
    assert one_pen(TWO_PENS) is None


def test_a_pencil_that_looks_blue_here_and_there_is_one_pen() -> None:
    # on photos in warm light; a chart of circles in black and crosses in blue is by two
    pencil = (*row("circle", {250: 10, 500: 15, 1000: 20}, "blue"), *row("circle", {2000: 40}), *row("cross", LEFT))
    assert one_pen(pencil) == "blue"
    assert one_pen((*row("circle", RIGHT), *row("cross", LEFT, "blue"))) is None


def test_a_triangle_by_one_blue_pen_is_of_no_ear() -> None:
    assert SYMBOL_SETS["bsa-2018"].meanings["triangle"].ear == "by-colour"
    assert bone(read((*BLUE_PEN, *TRIANGLES))) == {"unspecified"}
    assert bone(read((*TWO_PENS, *TRIANGLES))) == {"left"}


def test_two_circles_in_blue_tell_of_one_pen_where_all_else_is_blue_too() -> None:
    few = (*row("circle", {250: 105, 500: 110}, "blue"), *TRIANGLES)
    assert one_pen(few) == "blue"
    assert one_pen((*few, *row("angle-left", {1000: 20}, "red"))) is None


def test_circles_on_crosses_of_one_blue_tell_of_one_pen_where_no_red_shows() -> None:
    # a red circle beneath a blue cross shows as much red as blue
    on = row("circle", {hz: level - 2 for hz, level in LEFT.items()}, "blue")
    crosses = row("cross", LEFT, "blue")
    assert one_pen((*on, *crosses)) == "blue"
    in_red = tuple(replace(m, sight=replace(m.sight, red=0.7)) for m in on)
    assert one_pen((*in_red, *crosses)) is None


def test_one_pen_on_one_chart_takes_no_colour_from_another_days_two_pens() -> None:
    one, two = without_one_ink((chart(*BLUE_PEN), chart(*TWO_PENS, number=1)))
    assert {m.sight.ink for m in one.marks} == {"neutral"}
    assert {m.sight.ink for m in two.marks} == {"red", "blue"}


def test_a_chart_that_cannot_tell_is_by_the_pen_that_drew_the_other() -> None:
    _, other = without_one_ink((chart(*BLUE_PEN), chart(*TRIANGLES, number=1)))
    assert {m.sight.ink for m in other.marks} == {"neutral"}


def test_the_ears_of_blue_triangles_are_asked_where_a_circle_is_blue_too() -> None:
    odd = (*row("circle", {250: 10, 500: 15, 1000: 20}, "red"), mark("circle", 2000, 40, "blue"))
    marks = (*odd, *row("cross", LEFT, "blue"), *TRIANGLES)
    assert denied_inks(marks) == {"blue"}
    assert all("ear-uncertain" in t.why_ask for t in read(marks) if t.conduction == "bone")


def test_a_circle_that_lies_on_a_blue_cross_denies_no_ink() -> None:
    circle = mark("circle", 1000, 60, "blue")
    assert denied_inks((*TWO_PENS, circle)) == frozenset()
    assert denied_inks((*TWO_PENS, replace(circle, x=circle.x + 40))) == {"blue"}


def test_a_black_specimen_of_the_key_takes_no_colour_from_triangles_that_the_file_draws_in_red() -> None:
    # seen on a drawn page: every triangle lay on a circle, so none stood free to show its red, and all asked
    on_circles = row("triangle", RIGHT, "red")
    specimen = mark("triangle", 1000, 115)
    specimen = replace(specimen, sight=replace(specimen.sight, plain=0.9))
    marks = (*row("circle", RIGHT, "red"), specimen)
    assert shapes_without_colour((*marks, *on_circles)) == {"triangle"}
    apart = tuple(replace(m, sight=replace(m.sight, apart=True)) for m in on_circles)
    assert shapes_without_colour((*marks, *apart)) == frozenset()
