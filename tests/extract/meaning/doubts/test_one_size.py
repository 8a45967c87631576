"""A machine sets its marks in one size, and a hand draws none twice."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet, sized

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.doubts.one_size import of_one_size
from octavo.interpret.symbols import Glyph

OCTAVES = (250, 500, 1000, 2000, 4000, 8000)
CIRCLES = row("circle", dict(zip(OCTAVES, range(10, 70, 10), strict=True)), "red")


def test_marks_of_one_size_are_a_machines_and_those_that_differ_a_hands() -> None:
    assert of_one_size(CIRCLES)
    assert not of_one_size(sized(CIRCLES))


def test_few_marks_and_marks_seen_apart_tell_no_size() -> None:
    assert not of_one_size(CIRCLES[:5])
    assert not of_one_size([replace(m, sight=replace(m.sight, apart=True)) for m in CIRCLES])


@pytest.mark.parametrize(("hand", "asks"), [(True, True), (False, False)])
def test_brackets_beneath_angles_ask_in_a_hand_and_not_where_print_misses_its_steps(hand: bool, asks: bool) -> None:
    # on poor pictures printed marks miss their steps as a hand's do, and all bone of a chart asked
    missed = (0.9, -1.1, 0.4, -0.7, 1.3, -0.3)
    air: list[Mark] = []
    rows: tuple[tuple[Glyph, int], ...] = (("circle", 30), ("cross", 50))
    for glyph, first in rows:
        levels = {hz: first + 5 * i + off for i, (hz, off) in enumerate(zip(OCTAVES, missed, strict=True))}
        air += row(glyph, levels, "red" if glyph == "circle" else "blue")
    twins: tuple[tuple[Glyph, Glyph], ...] = (("angle-left", "bracket-left"), ("bracket-left", "angle-left"))
    bone = [
        mark(glyph, hz, 10, "red", score=0.85, rivals=((other, 0.8),), beside=-0.15)
        for glyph, other in twins
        for hz in (500, 1000, 2000)
    ]
    marks = (*air, *bone)
    (reading,) = mean(sheet(), (), (chart(*(sized(marks) if hand else marks)),), Choices("asha-1990")).audiograms
    found = [t for t in reading.thresholds if t.conduction == "bone"]
    assert len(found) == 6
    assert {"two-readings" in t.why_ask for t in found} == {asks}
