"""Tests by steps of 1 or 2 dB (trade.md: marks stand on 5-dB steps unless the clinic tests in 1- or 2-dB steps)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from by_hand import chart, row, sheet

from octavo.extract.chart import Mark, MeasuredChart
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.meaning.frequencies import Habit
from octavo.interpret.record import Threshold

FINE = {250: 12, 500: 14, 1000: 21, 2000: 38, 4000: 59, 8000: 66}
MISSES = (0.05, -0.05, 0.03, -0.08, 0.05, 0.0)
STEPS = {250: 10, 500: 15, 1000: 25, 2000: 40, 4000: 60, 8000: 65}


def read(levels: Mapping[int, float]) -> list[Threshold]:
    left = row("cross", missed(STEPS), "blue")
    reading = mean(sheet(), (), (chart(*row("circle", levels, "red"), *left),), Choices())
    return [t for audiogram in reading.audiograms for t in audiogram.thresholds if t.ear == "right"]


def missed(levels: dict[int, int]) -> dict[int, float]:
    return {hz: level + miss for (hz, level), miss in zip(levels.items(), MISSES, strict=True)}


def test_a_test_by_single_decibels_is_read_so_and_asks() -> None:
    # 14 and 59 dB were rounded to 15 and 60 and stood as sure
    found = read(missed(FINE))
    assert [t.level_db_hl for t in found] == list(FINE.values())
    assert all("between-steps" in t.why_ask for t in found)


def test_one_mark_between_steps_asks_where_all_others_lie_on_theirs() -> None:
    found = read(missed(STEPS) | {4000: 59.0})
    assert [(t.frequency_hz, t.why_ask) for t in found if t.standing == "ask"] == [(4000, ("between-steps",))]


PLOTTED = {250: 20, 500: 30, 750: 35, 1000: 41, 1500: 36, 2000: 47, 3000: 50, 4000: 59, 6000: 61}


def plotted(levels: Mapping[int, float], *, across_px: float = 0.0, apart: bool = True) -> tuple[Mark, ...]:
    """Set marks 0.09 dB off, each in turn so far left or right of its line; ``apart`` if the file's own paths do."""
    marks = row("circle", {hz: level - 0.09 for hz, level in levels.items()}, "red")
    return tuple(
        replace(m, sight=replace(m.sight, apart=apart), x=m.x + across_px * (-1) ** i) for i, m in enumerate(marks)
    )


def values(*charts: MeasuredChart) -> list[Threshold]:
    return [t for audiogram in mean(sheet(), (), charts, Choices()).audiograms for t in audiogram.thresholds]


def test_a_plot_of_single_decibels_is_no_hands() -> None:
    # its marks miss 5-dB steps as a hand's do, but no line of a frequency: 41 and 59 dB stood as sure 40 and 60
    found = values(chart(*plotted(PLOTTED)))
    assert [(t.level_db_hl, t.standing) for t in found] == [(v, "sure") for v in PLOTTED.values()]


def test_a_scanned_plot_of_single_decibels_asks() -> None:
    found = values(chart(*plotted(PLOTTED, across_px=0.2, apart=False)))
    assert [t.level_db_hl for t in found] == list(PLOTTED.values())
    assert all("between-steps" in t.why_ask for t in found)


@pytest.mark.parametrize("apart", [True, False])
def test_a_plot_of_levels_between_whole_decibels_asks(*, apart: bool) -> None:
    # as averages of several ears are
    levels = {hz: level + 0.37 * i for i, (hz, level) in enumerate(PLOTTED.items())}
    assert all(t.standing == "ask" for t in values(chart(*plotted(levels, apart=apart))))


@pytest.mark.parametrize("apart", [True, False])
def test_marks_that_miss_the_lines_of_frequencies_too_are_on_5_db_steps(*, apart: bool) -> None:
    # as those are that a person drags onto a chart with a mouse
    found = values(chart(*plotted(PLOTTED, across_px=4.0, apart=apart)))
    assert [t.level_db_hl for t in found] == [5 * round(v / 5) for v in PLOTTED.values()]


def test_where_one_chart_goes_by_single_decibels_marks_off_their_steps_ask_on_the_others_too() -> None:
    few = row("cross", {500: 31.0, 1000: 35.0, 2000: 44.0}, "blue")
    alone = {t.level_db_hl: t.standing for t in values(chart(*few))}
    beside = {
        t.level_db_hl: t.why_ask for t in values(chart(*plotted(PLOTTED)), chart(*few, number=1)) if t.ear == "left"
    }
    assert alone == {30: "sure", 35: "sure", 45: "sure"}
    assert beside == {30: ("between-steps",), 35: (), 45: ("between-steps",)}


@pytest.mark.parametrize("spread", [1.0, 12.0])
def test_marks_that_miss_5_db_steps_as_machines_and_hands_do_are_on_them(spread: float) -> None:
    levels = [level + spread * miss for (level, miss) in zip(STEPS.values(), MISSES, strict=True)]
    habit = Habit.of(levels)
    assert not habit.fine
    assert [habit.step_of(level) for level in levels] == list(STEPS.values())


def test_a_hands_few_marks_that_agree_by_chance_on_whole_decibels_are_on_5_db_steps() -> None:
    # eight marks of a form filled in by hand, of which one stood as 104 dB and all asked
    habit = Habit.of([108.9, 109.1, 110.4, 104.0, 105.1, 106.1, 109.9, 110.3])
    assert not habit.fine
    assert habit.step_of(104.0) == 105


def test_a_hands_marks_of_which_only_those_between_steps_agree_on_whole_decibels_are_on_5_db_steps() -> None:
    # sixteen marks of a form filled in by hand: half of them were read 1 or 2 dB off, and all asked
    levels = [39.9, 37.0, 40.4, 0.2, -1.0, 5.4, 40.5, -1.0, 0.3, 0.1, -0.4, -1.0, 40.3, 38.1, 33.1, 35.8]
    habit = Habit.of(levels)
    assert not habit.fine
    assert habit.step_of(33.1) == 35
