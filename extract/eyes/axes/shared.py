"""Charts that share an axis: of charts in a row or a column only one may bear the labels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ...page import Word
from ...sightings import ChartArea, LabelRun
from ..words.numbers import frequency_values, level_value

ALIKE = 0.03
"""Charts that share an axis have the other one of the same length, within such a share, and the same labels."""
FEWEST_ALIKE = 4
UNREAD = 2
"""So many numbers where the axis' own labels would stand are labels of its own that were not read as an axis."""


def shared_axes(
    areas: list[ChartArea], rows: tuple[LabelRun, ...], columns: tuple[LabelRun, ...], words: tuple[Word, ...]
) -> Iterator[tuple[LabelRun, LabelRun]]:
    """Give the axes of charts that have labels on one axis and share the other with a chart beside, above or below.

    Parameters
    ----------
    areas : list of ChartArea
        The charts with labels on both axes.
    rows, columns : tuple of LabelRun
        All rows of frequencies and columns of levels of the sheet.
    words : tuple of Word
        Its words.

    Yields
    ------
    tuple of (LabelRun, LabelRun)
        A row and a column, one of them moved from the chart that bears its labels.
    """
    runs = [run for area in areas for run in (area.frequency, area.level, *area.more)]
    for row in (row for row in rows if row not in runs):
        for area in areas:
            by = _moved_by(row, area.frequency)
            if by is not None and not _numbered_beside(row, area, words):
                yield row, _moved(area.level, by, _aside(row, area.frequency, area.level.across, by))
                break
    for column in (column for column in columns if column not in runs):
        for area in areas:
            by = _moved_by(column, area.level)
            if by is not None and not _numbered_between(column, area, words):
                yield _moved(area.frequency, by, _aside(column, area.level, area.frequency.across, by)), column
                break


def _moved(run: LabelRun, by: float, lean: float) -> LabelRun:
    """Move an axis to a chart that lies so far off; on a leaning sheet its labels would stand higher or lower there."""
    return replace(run, across=run.across + by, at=tuple(at + lean for at in run.at))


def _aside(run: LabelRun, other: LabelRun, at: float, by: float) -> float:
    """Give how far aside of another run one stands, where the labels stand that are moved from ``at``: paper bends."""
    there, here = (
        one.across + one.lean * (place - sum(one.at) / len(one.at)) for one, place in ((other, at), (run, at + by))
    )
    return here - there


def _moved_by(run: LabelRun, other: LabelRun) -> float | None:
    """Give how far along a run stands from one of the same labels at its height; None where they are unlike."""
    if run.along != other.along or run.scale != other.scale or abs(run.across - other.across) > other.text_height:
        return None
    there = dict(zip(other.values, other.at, strict=True))
    both = [(at, there[value]) for value, at in zip(run.values, run.at, strict=True) if value in there]
    if len(both) < max(FEWEST_ALIKE, len(run.values) - 1, len(other.values) - 1):
        return None
    (first, other_first), (last, other_last) = both[0], both[-1]
    apart = abs(first - other_first) > abs(other_last - other_first)
    alike = math.isclose(last - first, other_last - other_first, rel_tol=ALIKE)
    return first - other_first if apart and alike else None


def _numbered_beside(row: LabelRun, area: ChartArea, words: tuple[Word, ...]) -> bool:
    """Say whether numbers that may be levels stand on either side of a row's chart, at the heights of its levels."""
    octave = abs(row.at[-1] - row.at[0]) / math.log2(row.values[-1] / row.values[0])
    room = 0.2 * octave  # marks of bone stand so far from the outermost frequency
    beside = (row.at[0] - octave, row.at[0] - room), (row.at[-1] + room, row.at[-1] + octave)
    there = area.frequency.at[0] - room, area.frequency.at[-1] + room
    top, bottom = min(area.level.at), max(area.level.at)
    found = [
        w
        for w in words
        if len(w.text) > 1
        and level_value(w.text) is not None
        and any(left < (w.box[0] + w.box[2]) / 2 < right for left, right in beside)
        and not there[0] < (w.box[0] + w.box[2]) / 2 < there[1]
        and top <= (w.box[1] + w.box[3]) / 2 <= bottom
    ]
    return len(found) >= UNREAD


def _numbered_between(column: LabelRun, area: ChartArea, words: tuple[Word, ...]) -> bool:
    """Say whether numbers that may be frequencies stand above or below a column's chart."""
    high = max(column.at) - min(column.at)
    left, right = min(area.frequency.at), max(area.frequency.at)
    room, row = area.frequency.text_height / 2, area.frequency.across
    beyond = (min(column.at) - 0.3 * high, min(column.at) - room), (max(column.at) + room, max(column.at) + 0.3 * high)
    there = min(*area.level.at, row) - room, max(*area.level.at, row) + room
    found = [
        w
        for w in words
        if frequency_values(w.text)
        and left <= (w.box[0] + w.box[2]) / 2 <= right
        and any(top < (w.box[1] + w.box[3]) / 2 < bottom for top, bottom in beyond)
        and not there[0] < (w.box[1] + w.box[3]) / 2 < there[1]
    ]
    return len(found) >= UNREAD
