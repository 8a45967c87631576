"""Whether what looks like a mark is made of another mark's strokes."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.symbols import Glyph

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40}, "red")
LEFT = row("cross", {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45}, "blue")
ANGLES = row("angle-left", {500: 5, 1000: 10, 2000: 20}, "red", beside=-0.15)


@pytest.mark.parametrize(("glyph", "asks"), [("bracket-left", True), ("angle-left", False)])
def test_the_only_bracket_of_a_chart_at_the_edge_of_a_circle_may_be_its_loop(glyph: Glyph, asks: bool) -> None:
    # a circle whose loop began twice had a `[` at its edge, which stood as masked bone
    circle = mark("circle", 4000, 60, "red")
    edge = mark(glyph, 4000, 60, "red", beside=-0.07, score=0.68)
    marks = (*RIGHT, *LEFT, *ANGLES, circle, edge)
    (reading,) = mean(sheet(), (), (chart(*marks),), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.conduction, t.frequency_hz) == ("bone", 4000)]
    assert ("marks-overlap" in one.why_ask) == asks
