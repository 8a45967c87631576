"""Whether a mark's frequency or level may be another."""

from __future__ import annotations

from ...chart import Mark, MeasuredChart
from ..frequencies import STEP_DB, Habit, Placed
from ..nearby import another, same_place

BEYOND_DB = 3.0
"""A mark farther beyond the printed levels stands where the axis may be misread."""
SHARED_LEVEL_MISS_DB = 0.9
HAND_SHARED_MISS_DB = 1.8
"""How far a mark, or one by hand, may miss its step where an overlapping mark of another level also does: the two may
have swapped."""


def doubtful_place(
    chart: MeasuredChart, habit: Habit, taken: tuple[Mark, ...], mark: Mark, placed: Placed
) -> list[str]:
    """Give the reasons why a mark's frequency or level is open."""
    why = []
    off, shared = habit.miss_db(mark.level_db_hl), HAND_SHARED_MISS_DB if habit.by_hand else SHARED_LEVEL_MISS_DB
    if off > habit.sure_level_miss_db or abs(habit.shift_db) > 1.5 or habit.fine:
        why.append("between-steps")
    if (
        off > shared
        and not mark.sight.apart
        and any(
            1.0 < abs(o.level_db_hl - mark.level_db_hl) < STEP_DB - shared and habit.miss_db(o.level_db_hl) > shared
            for o in taken
            if another(o, mark) and same_place(o, mark, 0.9)
        )
    ):
        why.append("marks-overlap")
    if placed.miss_octaves > habit.sure_frequency_miss or placed.margin < 0.72:
        why.append("frequency-uncertain")
    if habit.no_steps or not _in_plot(chart, mark.level_db_hl):
        why.append("axis-uncertain")
    return why


def _in_plot(chart: MeasuredChart, level_db: float) -> bool:
    """Say whether a level lies where the plot is known to be: between its labels, half a step on, or up to its row."""
    low, high = chart.level.printed
    room = max(BEYOND_DB, 0.5 * chart.level.printed_step_db + 1)
    row = low if chart.row_db is None else chart.row_db
    return min(low - room, row) <= level_db <= max(high + room, row)
