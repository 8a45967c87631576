"""Whether a machine set marks between 5-dB steps: then the test went by finer ones, or the chart shows averages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ....interpret.record import Threshold
from ...chart import Mark, MeasuredChart
from ..beside import beside_lines
from ..frequencies import STEP_DB, Habit
from ..slots import asked
from .one_size import of_one_size
from .steps import LEAST_MACHINE_MISS_DB, between_steps, on_whole_decibels

FEWEST_APART, FEWEST_SEEN = 5, 8
"""So many marks tell that they stand exactly on the lines of frequencies: such as their own paths drew, and others."""
EXACT, EXACT_ON_DECIBELS = 0.1, 0.2
"""They miss these by so little of what they miss their 5-dB steps by (medians, in pixels), or by so little where they
stand on whole decibels: no hand's marks do."""


def habit_of(marks: Sequence[Mark], chart: MeasuredChart) -> Habit:
    """Find the habit of a chart's marks; a hand misses the lines of frequencies too, a plotter does not.

    Where marks by a machine stand exactly on those lines, what they miss 5-dB steps by was measured.

    Parameters
    ----------
    marks : sequence of Mark
        The marks of the chart that are read.
    chart : MeasuredChart
        The chart.
    """
    levels = [mark.level_db_hl for mark in marks]
    habit = Habit.of(levels)
    if not levels:
        return habit
    drawn = _mostly_apart(marks)
    shift = on_whole_decibels(np.array(levels))
    most = EXACT if shift is None else EXACT_ON_DECIBELS
    if _across(marks, habit, chart, FEWEST_APART if drawn else FEWEST_SEEN) >= most:
        return habit
    if not (drawn or of_one_size(marks)):
        return habit
    if not between_steps(np.array([habit.miss_db(level) for level in levels])):
        return replace(habit, set_by="machine", exact=drawn)
    if shift is not None and drawn:
        return Habit(shift, "machine", fine=True, usual_miss_db=habit.usual_miss_db, exact=True)
    if shift is not None:
        habit = replace(habit, shift_db=shift, fine=True)
    return replace(habit, set_by="machine", between=True)


def between_asked(thresholds: tuple[Threshold, ...]) -> tuple[Threshold, ...]:
    """Ask about values read on 5-dB steps that their marks miss, where another chart of the page goes by finer ones."""
    return tuple(
        asked(t, "between-steps") if t.level_db_hl % STEP_DB == 0 and _rounded_by(t) > LEAST_MACHINE_MISS_DB else t
        for t in thresholds
    )


def _rounded_by(value: Threshold) -> float:
    seen = value.seen.level_db_hl if value.seen is not None else None
    return 0.0 if seen is None else abs(seen - value.level_db_hl)


def _mostly_apart(marks: Sequence[Mark]) -> bool:
    return 2 * sum(mark.sight.apart for mark in marks) >= len(marks)


def _across(marks: Sequence[Mark], habit: Habit, chart: MeasuredChart, fewest: int) -> float:
    """Give what marks miss the lines of frequencies by over what they miss 5-dB steps by; 1 where they are too few."""
    usual_px = habit.usual_miss_db * abs(chart.level.px_per_db)
    if len(marks) < fewest or not usual_px:
        return 1.0
    beside = beside_lines(tuple(marks), chart.frequency)
    across = np.median([beside.placed(mark, chart.frequency).miss_octaves for mark in marks])
    return float(across) * chart.frequency.octave_px / usual_px
