"""A mark that is all but hidden is given, to be looked at, just where a row of its kind leaves one out."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

RIGHT = {250: 10, 500: 15, 2000: 40, 4000: 60, 8000: 65}
LEFT = {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45, 8000: 50}
ROWS = (*row("circle", RIGHT, "red"), *row("cross", LEFT, "blue"))


def right_air(*marks: Mark, rows: tuple[Mark, ...] = ROWS) -> dict[float, Threshold]:
    reading = mean(sheet(), (), (chart(*rows, *marks),), Choices("bsa-2018"))
    found = (t for a in reading.audiograms for t in a.thresholds)
    return {t.frequency_hz: t for t in found if (t.ear, t.conduction, t.masked) == ("right", "air", False)}


def test_a_circle_all_but_hidden_in_a_gap_of_its_row_is_given_and_asks() -> None:
    # on forms by hand most thresholds that were missed had been seen so, beneath other marks
    found = right_air(mark("circle", 1000, 25, "red", score=0.38))[1000]
    assert found.level_db_hl == 25
    assert (found.standing, "faint" in found.why_ask) == ("ask", True)


@pytest.mark.parametrize(
    "strange",
    [
        mark("circle", 1000, 25, "red", score=0.3),  # any crossing of strokes
        mark("circle", 1000, 80, "red", score=0.38),  # far from its neighbours
        mark("circle", 125, 10, "red", score=0.38),  # neither ear was tested there
        mark("circle", 500, 20, "red", score=0.38),  # has its value
    ],
)
def test_nothing_is_given_where_no_gap_speaks_for_a_faint_mark(strange: Mark) -> None:
    found = right_air(strange)
    assert set(found) == set(RIGHT)
    assert found[500].level_db_hl == RIGHT[500]


def test_two_circles_are_no_row_in_which_a_third_is_missed() -> None:
    few = (*row("circle", {500: 15, 2000: 40}, "red"), *row("cross", LEFT, "blue"))
    assert set(right_air(mark("circle", 1000, 25, "red", score=0.38), rows=few)) == {500, 2000}


@pytest.mark.parametrize(("score", "given"), [(0.5, True), (0.4, False)])
def test_a_hollow_circle_seen_in_a_filled_one_is_given_only_where_it_is_clear(score: float, given: bool) -> None:
    # BSA 2018: the filled circle is masked; a hatched one looks hollow as well
    filled = mark("circle-filled", 1000, 25, "red", rivals=(("circle", score),))
    found = right_air(filled, mark("circle", 1000, 25, "red", score=score))
    assert (1000 in found) == given
    assert all(t.standing == "ask" for t in found.values() if t.frequency_hz == 1000)


def test_what_a_faint_mark_may_have_been_is_still_told_as_missing() -> None:
    reading = mean(sheet(), (), (chart(*ROWS, mark("circle", 1000, 25, "red", score=0.38)),), Choices("bsa-2018"))
    told = [(r.code, r.ear, r.conduction) for r in reading.remarks]
    assert ("missing-expected", "right", "air") in told
