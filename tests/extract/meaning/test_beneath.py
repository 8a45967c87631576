"""Marks that others cover: what is seen of them tells that they may be missing, and gives no value."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.interpret.record import Conduction, Ear
from octavo.interpret.symbols import Glyph

OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
RIGHT = row("circle", dict.fromkeys(OCTAVES, 10))
LEFT = row("cross", dict.fromkeys(OCTAVES, 60))


def read(*marks: Mark, symbols: str = "asha-1990") -> Reading:
    return mean(sheet(), (), (chart(*marks),), Choices(symbols))


def missing(reading: Reading) -> set[tuple[Ear | None, Conduction | None]]:
    return {(r.ear, r.conduction) for r in reading.remarks if r.code == "missing-expected"}


@pytest.mark.parametrize(("score", "told"), [(0.25, True), (0.1, False)])
def test_a_square_that_a_cross_and_a_triangle_cover_is_told_where_the_chart_has_squares(
    score: float, *, told: bool
) -> None:
    # a masked left threshold under three marks of a scan was left out without a word
    masked = row("square", {250: 65, 1000: 65, 2000: 65, 4000: 65, 8000: 65})
    cover = (mark("cross", 500, 60, rivals=(("square", score),)), mark("triangle", 500, 60))
    others = [m for m in LEFT if m.frequency_hz != 500]
    told_at = [r.at for r in read(*RIGHT, *others, *masked, *cover).remarks if (r.ear, r.conduction) == ("left", "air")]
    assert any(told_at) == told


def test_what_is_seen_in_a_mark_at_a_frequency_that_has_its_like_is_nothing_to_tell() -> None:
    square, cross = mark("square", 500, 80), mark("cross", 500, 60, rivals=(("square", 0.25),))
    others = [m for m in LEFT if m.frequency_hz != 500]
    assert not missing(read(*RIGHT, *others, cross, square, *row("square", {1000: 80, 2000: 80})))


@pytest.mark.parametrize(("frequencies", "told"), [((500, 1000, 2000), True), ((500, 1000), False)])
def test_thin_brackets_under_a_row_of_thick_angles_are_told(frequencies: tuple[int, ...], *, told: bool) -> None:
    # all masked bone of an ear lay under bold `>`; each was seen faintly
    angles = [mark("angle-right", hz, 40, beside=0.1) for hz in OCTAVES[:5]]
    thin = [mark("half-bracket-left", hz, 40, beside=0.11, score=0.18) for hz in frequencies]
    plain = read(*RIGHT, *LEFT, *angles)
    assert ("left", "bone") not in missing(plain)
    assert (("left", "bone") in missing(read(*RIGHT, *LEFT, *angles, *thin))) == told


@pytest.mark.parametrize(("red", "ears"), [(0.9, {"right", "left"}), (0.05, {"left"})])
def test_loudness_in_both_inks_beneath_others_may_be_of_either_ear(red: float, ears: set[Ear]) -> None:
    # a blue U under a red triangle looked red, and the right ear's loudness was told
    weak = mark("letter-u", 500, 100, "blue", score=0.35)
    weak = replace(weak, sight=replace(weak.sight, red=red, blue=0.85))
    found = missing(read(*RIGHT, *LEFT, weak))
    assert {ear for ear, conduction in found if conduction == "air" and ear != "unspecified"} == ears


@pytest.mark.parametrize("glyph", ["bracket-left", "square"])
def test_what_looks_like_a_bracket_in_a_circle_may_be_a_foot_of_the_british_set(glyph: Glyph) -> None:
    # BSA 2018: uncomfortable loudness is a right angle at the foot of the line
    weak = mark(glyph, 2000, 100, score=0.38)
    assert ("right", "air") in missing(read(*RIGHT, *LEFT, weak, symbols="bsa-2018"))


def test_a_caret_beneath_a_cross_may_be_a_triangle_where_triangles_are_bone() -> None:
    weak = mark("caret", 500, 60, "blue", score=0.31)
    assert ("left", "bone") in missing(read(*RIGHT, *LEFT, weak, symbols="triangle-bone"))
