"""Crosses drawn in one stroke have loops that look like brackets."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import OCTAVE, chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.symbols import Glyph

AIR = {250: 40, 500: 45, 1000: 50, 2000: 55, 4000: 65, 8000: 70}
BESIDE = 0.42 * 14 / OCTAVE
"""Where a loop joins the ends of a cross, in octaves beside it."""


def loops(glyph: Glyph, side: int, *frequencies: int) -> tuple[Mark, ...]:
    marks = (mark(glyph, hz, AIR[hz], beside=side * BESIDE, score=0.7) for hz in frequencies)
    return tuple(replace(m, sight=replace(m.sight, size=(5.0, 12.0))) for m in marks)


def read(*marks: Mark) -> set[tuple[str, str, float]]:
    reading = mean(sheet(), (), (chart(*row("cross", AIR), *marks),), Choices("asha-1990"))
    return {(t.ear, t.conduction, t.frequency_hz) for a in reading.audiograms for t in a.thresholds}


def test_loops_of_crosses_drawn_in_one_stroke_are_no_bone_of_the_other_ear() -> None:
    """Right bone stood as sure that nobody had marked: the left ends of most crosses were joined by a loop."""
    air = {("left", "air", float(hz)) for hz in AIR}
    assert read(*loops("bracket-left", -1, 250, 500, 1000, 4000, 8000)) == air
    assert read(*loops("bracket-right", 1, 250, 500, 1000, 4000, 8000)) == air


def test_loops_that_are_taken_away_are_told() -> None:
    marks = (*row("cross", AIR), *loops("bracket-left", -1, 250, 500, 1000, 4000, 8000))
    told = mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).remarks
    assert any((r.code, r.ear, r.conduction) == ("missing-expected", "right", "bone") for r in told)


def test_brackets_beside_the_crosses_where_bone_is_tested_are_bone() -> None:
    bone = {("right", "bone", hz) for hz in (500.0, 1000.0, 2000.0, 4000.0)}
    assert bone <= read(*loops("bracket-left", -1, 500, 1000, 2000, 4000))


def test_a_bracket_beside_one_cross_at_8000_hz_takes_no_others_away() -> None:
    assert ("right", "bone", 500.0) in read(*loops("bracket-left", -1, 500, 1000, 8000))


def test_loops_of_crosses_speak_for_no_symbol_set() -> None:
    """Two ears' bone stood under each other's name: brackets spoke against the set that turns the angles round."""
    crosses, circles = row("cross", AIR), row("circle", dict.fromkeys(AIR, 75))
    angles = (*row("angle-left", {500: 40, 1000: 45, 2000: 55}), *row("angle-right", {500: 70, 1000: 75, 2000: 75}))
    joined = loops("bracket-left", -1, 250, 500, 1000, 4000, 8000)
    reading = mean(sheet(), (), (chart(*crosses, *circles, *angles, *joined),), Choices())
    bone = [t for t in reading.audiograms[0].thresholds if t.conduction == "bone"]
    said = {(t.ear, t.level_db_hl, t.why_ask) for t in bone}
    assert said == {("left", level, ()) for level in (40, 45, 55)} | {("right", level, ()) for level in (70, 75)}


def test_loops_that_close_to_a_circle_are_no_air_of_the_other_ear() -> None:
    """Fifteen values of a left ear's chart stood in a test of their own: its crosses' loops were read as circles."""
    joined = loops("bracket-left", -1, 250, 500, 1000, 4000, 8000)
    closed = tuple(mark("circle", hz, AIR[hz], beside=-0.02, score=0.6) for hz in (500, 1000, 8000))
    assert read(*joined, *closed) == {("left", "air", float(hz)) for hz in AIR}


@pytest.mark.parametrize(("glyph", "below"), [("triangle", 2), ("circle", 6), ("angle-left", 4)])
def test_loops_at_the_feet_of_crosses_are_no_marks(glyph: Glyph, below: float) -> None:
    """On three pages such a loop stood as sure: as air of the right ear, as masked air, as bone."""
    crosses = row("cross", AIR)
    big = tuple(replace(m, sight=replace(m.sight, size=(50.0, 50.0))) for m in crosses)
    feet = tuple(mark(glyph, hz, AIR[hz] + below * 2 / 3, score=0.6) for hz in (250, 500, 1000, 4000, 8000))
    reading = mean(sheet(), (), (chart(*big, *feet),), Choices("asha-1990"))
    assert {t.ear for t in reading.audiograms[0].thresholds} == {"left"}
    clear = tuple(replace(m, sight=replace(m.sight, score=0.9)) for m in feet)
    reading = mean(sheet(), (), (chart(*big, *clear),), Choices("asha-1990"))
    assert "right" in {t.ear for t in reading.audiograms[0].thresholds}


def test_a_clear_circle_on_a_cross_with_a_loop_is_the_other_ear() -> None:
    joined = loops("bracket-left", -1, 250, 500, 1000, 4000, 8000)
    assert ("right", "air", 1000.0) in read(*joined, mark("circle", 1000, AIR[1000], score=0.88))
