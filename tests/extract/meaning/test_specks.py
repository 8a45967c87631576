"""Marks so few and faint that they are told and give no value."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, sheet

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean


@pytest.mark.parametrize(("faint", "clear", "values"), [(2, 0, 0), (3, 0, 3), (1, 1, 2)])
def test_one_or_two_faint_marks_alone_on_a_chart_give_no_value_and_are_told(
    faint: int, clear: int, values: int
) -> None:
    # a copier's streak through a label made a bracket on a blank form
    marks = [mark("bracket-left", hz, 20, score=0.5) for hz in (500, 1000, 2000)[:faint]]
    marks += [mark("circle", 4000, 30)] * clear
    reading = mean(sheet(), (), (chart(*marks),), Choices("asha-1990"))
    assert sum(len(a.thresholds) for a in reading.audiograms) == values
    assert (
        any((r.code, r.ear, r.conduction) == ("missing-expected", "right", "bone") for r in reading.remarks) or values
    )
