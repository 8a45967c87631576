"""A hand that parts angles from brackets badly is asked about all of them."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.symbols import Glyph

OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
MISSED = (0.9, -1.1, 0.4, -0.7, 1.3, -0.3)
"""By so many decibels a hand misses its steps."""
BY_HAND = (
    *row("circle", {hz: step + off for hz, step, off in zip(OCTAVES, range(30, 60, 5), MISSED, strict=True)}, "red"),
    *row("cross", {hz: step + off for hz, step, off in zip(OCTAVES, range(50, 80, 5), MISSED, strict=True)}, "blue"),
)


@pytest.mark.parametrize(("untold", "angles", "asks"), [(3, True, True), (2, True, False), (3, False, False)])
def test_a_clear_bracket_asks_where_three_others_cannot_be_told_from_angles(
    untold: int, *, angles: bool, asks: bool
) -> None:
    # of four wrong bone marks of one hand three asked and the fourth, clear by itself, was surely masked
    blurred = [
        mark("bracket-right", hz, 10, "blue", score=0.6, rivals=(("angle-right", 0.35),), beside=0.15)
        for hz in (250, 500, 1000)[:untold]
    ]
    others = [mark("angle-right", hz, 20, "blue", beside=0.15) for hz in (1500, 2000, 3000) if angles]
    clear = mark("bracket-right", 4000, 10, "blue", score=0.85, beside=0.15)
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *blurred, *others, clear),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 4000)]
    assert ("two-readings" in one.why_ask) == asks


@pytest.mark.parametrize(("look", "asks"), [(0.1, False), (0.6, True)])
def test_angles_on_brackets_do_not_ask_where_the_hand_parts_them_elsewhere(look: float, *, asks: bool) -> None:
    # at three frequencies bone is as good masked as unmasked; a loose hand's whole chart asked for it
    def bone(shape: Glyph, other: Glyph, hz: float, level: float, score: float) -> Mark:
        return mark(shape, hz, level, "blue", score=0.85, rivals=((other, score),), beside=0.15)

    angle: Glyph = "angle-right"
    bracket: Glyph = "bracket-right"
    missed = dict(zip(OCTAVES, MISSED, strict=False))
    two: tuple[tuple[Glyph, Glyph], ...] = ((angle, bracket), (bracket, angle))
    both = [bone(*shapes, hz, 10 + missed[hz], 0.8) for hz in (250, 500, 1000) for shapes in two]
    alone = [bone(angle, bracket, hz, 10 + missed[hz], look) for hz in (2000, 4000)]
    masked = [bone(bracket, angle, hz, 30 + missed[hz], look) for hz in (2000, 4000)]
    (reading,) = mean(sheet(), (), (chart(*BY_HAND, *both, *alone, *masked),), Choices("asha-1990")).audiograms
    asking = ["two-readings" in t.why_ask for t in reading.thresholds if t.conduction == "bone"]
    assert len(asking) == 10
    assert asking == [asks] * 10
