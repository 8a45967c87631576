"""Sightings to Charts: axes, lattice, and every mark in Hz and dB HL."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..chart import Bend, FrequencyScale, LevelScale, Mark, MeasuredChart
from ..eyes.axes.areas import USUAL_HZ
from ..sheet import Sheet
from ..sightings import ChartArea, MarkSight, Sightings
from .axes import fit_frequency, fit_level
from .ink import Axes, unexplained_ink
from .lattice import fit_bend
from .leaning import leaning_of, middle_of, slopes_of

BEYOND_OCTAVES = 0.62
"""A mark farther beyond the printed frequencies is no threshold of this chart (brackets stand beside their line)."""
BRACKET_OCTAVES, APART_OCTAVES = 0.3, 0.1
"""Brackets stand so far from their line at most; and so much farther from a chart's own lines than from another's is a
mark of that one."""
BEYOND_DB = 7.5
"""The same for levels: marks at the axis' end may hang over it."""
HALF_STEP_ROOM_DB = 2.5
"""Where every other level has a label, the plot may end half a step beyond the last; marks there hang over less."""
USUAL_DB = (-10.0, 110.0)
"""An axis that reads as shorter than this may have a label at its end that could not be read."""
MOST_LABEL_MISFIT_DB = 2.0
MOST_LABEL_MISFIT_OCTAVES = 0.07
CLEAR_MARK = 0.6
"""A mark beside the frequencies that is seen so clearly is told."""
ON_LINE_OCTAVES = 0.08
FEWEST_OFF_LEVELS = 3
"""Clear marks so near to lines of frequency, at so many of them, are a row of the chart also where the levels beside
it were not read: large marks cover their labels. Letters and the shapes of a key do not stand so."""
SURE_LABELS = 2.4
"""An axis is in doubt where the chances of its labels add up to less."""
MOST_SHIFT_DB = 1.8
"""The printed lines may lie so far from their labels before the axis is in doubt."""


def measure(
    sheet: Sheet, sightings: Sightings, known: Mapping[ChartArea, MeasuredChart] | None = None
) -> tuple[MeasuredChart, ...]:
    """Measure every chart of a sheet.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.
    sightings : Sightings
        What was seen on it.
    known : mapping, optional
        By their areas, charts whose axes were measured already (``empty_charts``).
    """
    known = known or {}
    empty = (known.get(area) or _empty(sheet, area) for area in sightings.areas)
    charts = [_measured(sheet, sightings, number, chart) for number, chart in enumerate(empty)]
    return tuple(_without_marks_of(chart, [other for other in charts if other is not chart]) for chart in charts)


def empty_charts(sheet: Sheet, areas: tuple[ChartArea, ...]) -> dict[ChartArea, MeasuredChart]:
    """Measure the axes alone of some areas of a sheet."""
    return {area: _empty(sheet, area) for area in areas}


def _without_marks_of(chart: MeasuredChart, others: list[MeasuredChart]) -> MeasuredChart:
    """Leave out what stands beyond a chart's levels, or beside its lines, on another's plot: regions may overlap."""
    away = [m for m in chart.marks if not _on_plot(chart, m.sight.at)]
    theirs = {m.sight.at for m in away if any(_on_plot(other, m.sight.at) for other in others)}
    theirs |= {m.sight.at for m in chart.marks if any(_on_lines_of(other, chart, m.sight.at) for other in others)}
    kept = tuple(m for m in chart.marks if m.sight.at not in theirs)
    return chart if len(kept) == len(chart.marks) else replace(chart, marks=kept)


def _on_plot(chart: MeasuredChart, at: tuple[float, float]) -> bool:
    """Say whether a place on the sheet lies on a chart's plot, or so near its edge that a mark there is one of its."""
    x, y = chart.bend.undone(*at)
    low, high = chart.level.printed
    on_levels = low - BEYOND_DB <= chart.level.level_at(y) <= high + BEYOND_DB
    return on_levels and _octaves_out(chart.frequency, x) <= BEYOND_OCTAVES


def _on_lines_of(other: MeasuredChart, chart: MeasuredChart, at: tuple[float, float]) -> bool:
    """Say whether a place lies among the lines of another chart, and nearer to them than to a chart's own beside it."""
    theirs, own = (_octaves_aside(one, at) for one in (other, chart))
    return theirs <= BRACKET_OCTAVES and own > max(theirs, 0.0) + APART_OCTAVES and _on_plot(other, at)


def _octaves_aside(chart: MeasuredChart, at: tuple[float, float]) -> float:
    """How far beyond the frequencies that were read a place on the sheet lies, in octaves; below 0 inside."""
    x, _ = chart.bend.undone(*at)
    first, last = chart.frequency.anchors[0][1], chart.frequency.anchors[-1][1]
    return max(first - x, x - last) / chart.frequency.octave_px


def _empty(sheet: Sheet, area: ChartArea) -> MeasuredChart:
    """Measure the axes of a chart, whose number is 0 until its marks are measured."""
    more_rows = tuple(run for run in area.more if run.kind == "frequency")
    frequency = fit_frequency(area.frequency, more_rows)
    level_runs = (area.level, *(run for run in area.more if run.kind == "level"))
    slopes = slopes_of(level_runs, (area.frequency, *more_rows))
    level = fit_level(level_runs, slopes.level)
    leaning = leaning_of(slopes, level_runs, area.frequency, area.box)
    held_at = middle_of(level_runs), area.frequency.across
    may_turn = sheet.taken_by != "drawn"
    bend = fit_bend(sheet.pixels, area.box, frequency, level, leaning, held_at, may_turn=may_turn)
    doubts = []
    if (
        level.worst_misfit > MOST_LABEL_MISFIT_DB
        or frequency.worst_misfit > MOST_LABEL_MISFIT_OCTAVES
        or _shifted_db(bend, frequency, level, middle_of(level_runs)) > MOST_SHIFT_DB
        or max(sum(run.confidences) for run in level_runs) < SURE_LABELS
        or sum(area.frequency.confidences) < SURE_LABELS
        or area.frequency.strays > 1
        or area.goes_on
    ):
        doubts.append("axis-uncertain")
    row_db = level.level_at(area.frequency.across)
    return MeasuredChart(
        0, area.box, frequency, level, bend, (), tuple(doubts),
        row_db=row_db, goes_on=area.goes_on, cut_off=area.cut_off,
    )  # fmt: skip


def _measured(sheet: Sheet, sightings: Sightings, number: int, chart: MeasuredChart) -> MeasuredChart:
    """Put the marks on a chart whose axes are measured, and account for its ink."""
    area = sightings.areas[number]
    seen = tuple(sight for sight in sightings.marks if sight.area == number)
    axes = Axes(chart.frequency, chart.level, chart.bend)
    marks, beyond = _placed(seen, axes, area.frequency.across)
    unexplained = unexplained_ink(sheet.pixels, sheet.words, seen, area, axes)
    return replace(chart, area=number, marks=marks, beyond=beyond, unexplained=unexplained)


def _placed(sights: tuple[MarkSight, ...], axes: Axes, row: float) -> tuple[tuple[Mark, ...], tuple[Mark, ...]]:
    """Give the marks on a chart's axes, and the clear ones beside its frequencies, whose labels stand at ``row``."""
    low, high = _reach(axes.level, row)
    marks: list[Mark] = []
    beyond: list[Mark] = []
    placed = [_mark(sight, axes) for sight in sights]
    row_beyond = _rows_beyond(placed, axes, (low, high))
    for mark in placed:
        sight, x, db = mark.sight, mark.x, mark.level_db_hl
        if not low <= db <= high and mark not in row_beyond:
            continue
        if _octaves_out(axes.frequency, x) <= BEYOND_OCTAVES:
            marks.append(mark)
        elif sight.score > CLEAR_MARK:
            beyond.append(mark)
    return tuple(marks), tuple(beyond)


def _mark(sight: MarkSight, axes: Axes) -> Mark:
    x, y = axes.bend.undone(*sight.at)
    return Mark(sight, x, y, axes.frequency.hz_at(x), axes.level.level_at(y))


def _rows_beyond(marks: list[Mark], axes: Axes, reach: tuple[float, float]) -> list[Mark]:
    """Give the marks of rows that lie beyond the levels read, where an axis usually still goes on."""
    near = ON_LINE_OCTAVES * axes.frequency.octave_px
    found: list[Mark] = []
    for low, high in ((USUAL_DB[0] - BEYOND_DB, reach[0]), (reach[1], USUAL_DB[1] + BEYOND_DB)):
        there = [m for m in marks if low <= m.level_db_hl < high and m.sight.score > CLEAR_MARK]
        columns = {hz for m in there for hz, x in axes.frequency.anchors if abs(m.x - x) < near}
        found += there if len(columns) >= FEWEST_OFF_LEVELS else []
    return found


def _shifted_db(bend: Bend, frequency: FrequencyScale, level: LevelScale, labels: float) -> float:
    """Give how far the level lines lie from their labels, in dB on the mean, at these or at the columns next to them.

    The lesser of both: lines that lean leave their labels, and a bend tells little beyond the last column.
    """
    columns = [x for _, x in frequency.anchors]
    places = [level.zero_px + level.px_per_db * db for db in level.printed]
    nearest = min(max(labels, columns[0]), columns[-1])
    return min(abs(sum(bend.off(x, y)[1] for y in places)) for x in (labels, nearest)) / len(places) / level.px_per_db


def _octaves_out(frequency: FrequencyScale, x: float) -> float:
    """How far beyond the chart's frequencies a position lies, in octaves; below 0 inside."""
    low, high = frequency.anchors[0][0], frequency.anchors[-1][0]
    if frequency.scale == "log":
        low, high = min(low, USUAL_HZ[0]), max(high, USUAL_HZ[1])
    return max(frequency.x_of(low) - x, x - frequency.x_of(high)) / frequency.octave_px


def _reach(level: LevelScale, row: float) -> tuple[float, float]:
    """Give the levels between which a mark may stand: beyond the labels read, up to the row of frequencies."""
    low, high = level.printed
    low, high = min(low, level.level_at(row)), max(high, level.level_at(row))
    step = max(10.0, level.printed_step_db)
    room = max(BEYOND_DB, step / 2 + HALF_STEP_ROOM_DB)
    return (
        low - room - (step if low > USUAL_DB[0] else 0),
        high + room + (step if high < USUAL_DB[1] else 0),
    )
