"""Whether a mark's frequency or level may be another."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from ...chart import FrequencyScale, Mark, MeasuredChart
from ..frequencies import COLUMNS_HZ, NEAR_TWINS, SELDOM, STEP_DB, Habit, Placed, side_of
from ..nearby import another, same_place

BEYOND_DB = 3.0
"""A mark farther beyond the printed levels stands where the axis may be misread."""
MOST_LOST_DB = 20.0
"""Where the first level read is no higher, the label of 0 dB was but lost: 106 values of 10 such painted charts are
right."""
OCTAVE = 2.1
"""A little more than an octave, as a ratio: so far beyond the labels read well a mark's frequency may lie, and labels
of columns that are farther apart leave out more than what is between octaves."""
UNPRINTED_SCORE, COLUMN, ONE_PLACE = 0.65, 0.3, 0.2
"""Score below which such a mark is asked about, how far aside others of its frequency stand at most, and how near
another look at the same one, in sizes: of 16 such that stood as sure on painted pages one was none."""
BESIDE_FREQUENCY_MISS = 0.12
"""How far, in octaves, a mark that stands beside its line may miss the usual distance from it: of 293 such values of
5,600 painted pages that missed it by 0.075 and more none was of another frequency."""
HALVED_FROM = 4000.0
"""Up to here an axis whose labels were read may go on in columns of half an octave."""
ON_DECIBEL = 0.2
"""How far a mark of a test by single decibels may stand off one where its own paths say where it stands."""
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
    finer = habit.between or (habit.fine and not _told_finely(habit, mark))
    if off > habit.sure_level_miss_db or abs(habit.shift_db) > 1.5 or finer:
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
    hz = placed.frequency_hz
    most = max(habit.sure_frequency_miss, BESIDE_FREQUENCY_MISS if side_of(mark.sight.glyph) else 0.0)
    astray = placed.miss_octaves > most or placed.margin < 0.72
    lost = between_lost_labels(chart.frequency, hz) or _beside_a_jump(chart.frequency, hz)
    if astray or lost or _unread(chart.frequency, hz) or _twin_fits_better(chart.frequency, hz):
        why.append("frequency-uncertain")
    if habit.no_steps or not _in_plot(chart, mark.level_db_hl):
        why.append("axis-uncertain")
    return why


def _told_finely(habit: Habit, mark: Mark) -> bool:
    """Say whether a mark of a test by single decibels, which its own paths drew, stands on one."""
    return habit.exact and mark.sight.apart and habit.miss_db(mark.level_db_hl) < ON_DECIBEL


def _unread(scale: FrequencyScale, hz: float) -> bool:
    """Say whether labels too poorly read alone give a mark this frequency.

    That is so far beyond those read well, where an axis may change its steps, and for frequencies with near neighbours.
    Below 500 Hz steps change soonest: of 56 such values without a poorly read label on a logarithmic axis 5 were wrong.
    """
    if hz in SELDOM:
        return hz not in scale.well_read
    first, last = min(scale.well_read, default=math.inf), max(scale.well_read, default=0.0)
    # one row of labels ends with a frequency that the axis has no place for: the last column may be its
    if hz >= scale.anchors[-1][0] and last > scale.anchors[-1][0]:
        return True
    # the first column of an equal axis is held from one side alone
    held = {anchor for anchor, _ in (scale.anchors if scale.scale == "log" else scale.anchors[1:])}
    if hz < 0.75 * first and hz not in held:
        return True
    # above 2 kHz columns may be of equal widths: beyond a label of 2 kHz 3000 stood where 4000 was expected
    if last <= HALVED_FROM and hz > 1.6 * last and hz not in dict(scale.anchors):
        return True
    return hz < first / OCTAVE or hz > last * OCTAVE


def unprinted_alone(scale: FrequencyScale, taken: tuple[Mark, ...], mark: Mark, frequency_hz: float) -> bool:
    """Say whether a mark that is not clear stands alone at a frequency that the form does not print.

    Thick marks of neighbouring columns that meet half-way look like one.
    """
    if mark.sight.apart or mark.sight.score >= UNPRINTED_SCORE or any(hz == frequency_hz for hz, _ in scale.anchors):
        return False
    near = COLUMN * max(mark.sight.size)
    return not any(abs(o.x - mark.x) < near and not same_place(o, mark, ONE_PLACE) for o in taken if another(o, mark))


def _twin_fits_better(scale: FrequencyScale, frequency_hz: float) -> bool:
    """Say whether a label stands where one that looks like it would: 12000 where 12500 is on a logarithmic axis."""
    twin, at = NEAR_TWINS.get(frequency_hz), dict(scale.anchors).get(frequency_hz)
    others = [anchor for anchor in scale.anchors if anchor[0] not in NEAR_TWINS]
    if twin is None or at is None or scale.scale != "log" or len(others) < 2:
        return False
    around = replace(scale, anchors=tuple(others))
    return abs(around.x_of(twin) - at) < abs(around.x_of(frequency_hz) - at)


def _beside_a_jump(scale: FrequencyScale, frequency_hz: float) -> bool:
    """Say whether neighbouring columns of an equal axis are more than an octave apart, one of them a frequency's.

    A line of the frame before a label reads as a figure: 8,000 became 18,000.
    """
    if scale.scale != "equal":
        return False
    column = min(b - a for (_, a), (_, b) in pairwise(scale.anchors))
    return any(
        frequency_hz in (low, high) and high > OCTAVE * low and round((b - a) / column) == 1
        for (low, a), (high, b) in pairwise(scale.anchors)
    )


def between_lost_labels(scale: FrequencyScale, frequency_hz: float) -> bool:
    """Say whether a frequency stands among columns that have lost their labels and may be any of several.

    Beneath marks and arrows labels are lost. On an axis of equal columns those between two labels are known only where
    they are as many as there are frequencies between the two.
    """
    if scale.scale != "equal" or any(hz == frequency_hz for hz, _ in scale.anchors):
        return False
    column = min(b - a for (_, a), (_, b) in pairwise(scale.anchors))
    for (low, a), (high, b) in pairwise(scale.anchors):
        if low < frequency_hz < high and high > OCTAVE * low:
            return round((b - a) / column) - 1 != sum(low < hz < high for hz in COLUMNS_HZ)
    return False


def _in_plot(chart: MeasuredChart, level_db: float) -> bool:
    """Say whether a level lies where the plot is known to be: between its labels, half a step on, or up to its row.

    Every audiogram shows 0 dB, whether its label was read or not; where more were lost the axis may be misread.
    """
    low, high = chart.level.printed
    low = min(low, 0.0) if low <= MOST_LOST_DB else low
    room = max(BEYOND_DB, 0.5 * chart.level.printed_step_db + 1)
    row = low if chart.row_db is None else chart.row_db
    return min(low - room, row) <= level_db <= max(high + room, row)
