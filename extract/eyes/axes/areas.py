"""Find charts by their labels: a row of audiometric frequencies that meets a column of levels."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import islice

from ...page import Word
from ...sightings import ChartArea, LabelRun
from .against import among_words
from .frequency import frequency_runs
from .level import level_runs
from .ruling import Box, Ruling, covered
from .shared import shared_axes

ROOM_OCTAVES = 0.75
"""How far beyond the outermost printed frequency a mark may stand."""
USUAL_HZ = (125.0, 8000.0)
"""Marks are looked for over this range at the least, where the axis runs on evenly."""
LABEL_WORTH = 0.04
"""A row of one label more may stand so much worse: the headings of a table below a chart are frequencies too."""
HEADING = 0.5
"""What it costs to take a row of frequencies with numbers below each for the axis of a chart: it heads a table."""
HEADED = 0.5
"""Share of a row's labels with a number below from which it heads a table."""
ROOM_DB = 20.0
"""How far beyond the outermost printed level a mark or its arrow may stand."""
ABOVE_ZERO_DB, MOST_ROOM_DB = 10.0, 30.0
"""Every form shows 0 dB: where its label is lost under a mark or on a copy, a whole mark still has room there."""
FRAMED = 0.5
"""A frame that covers so much of what the labels span is the chart's."""
FEW_LABELS = 8
"""Fewer on both axes are a chart's only within a frame of lines: any page of numbers holds so many by chance."""
SHEET = 0.98
"""No frame is so wide and so high, in sheets."""
LINES_GO_ON = 3
"""So many lines within the labels' span lead from the labels to the frame's side where it is the grid's: a box around
the chart and what stands beside it has two."""
SHARE_GO_ON = 1 / 3
"""And such a share of the lines that run through the labels' span: where a grid goes on, most of its lines do."""
GOES_ON_OCTAVES = 1.3
GOES_ON_DB = 45.0
"""How far a chart's own lines may go on beyond its region: farther, they are the page's."""
OVER_FRAME_OCTAVES = 0.35
OVER_FRAME_DB = 10.0
"""How far a mark at the end of the lines reaches beyond them."""
EDGE_PX = 3.0
"""So near to the sheet's edge, in pixels of the picture in which lines are looked for, a line ends there."""
MOST_LEAN = 0.05
"""How far a column may lean, aside for each pixel down: some three degrees."""
FLATTEST, STEEPEST = 0.2, 4.5
"""20 dB over an octave: standard forms have 1, a plot that fills a wide window or a narrow column is far from it."""
UNREAD_DB = 65.0
"""So far from the nearest level that could be read the row of frequencies may stand, at a cost: end labels get lost."""


def chart_areas(words: tuple[Word, ...], size: tuple[int, int]) -> tuple[ChartArea, ...]:
    """Pair frequency runs with level runs.

    Parameters
    ----------
    words : tuple of Word
        All words of the sheet.
    size : tuple of int
        The sheet's width and height in pixels.

    Returns
    -------
    tuple of ChartArea
        From left to right and top to bottom; each frequency run and each level run serves the charts it fits.
    """
    rows = frequency_runs(words)
    columns = level_runs(words)
    found: list[tuple[float, LabelRun, LabelRun]] = []
    for row in rows:
        heading = HEADING * heads_table(row, words)
        fits = [(cost, column) for column in columns if (cost := _distance(row, column)) is not None]
        best = (fit for fit in sorted(fits, key=lambda fit: fit[0]) if not among_words(row, fit[1], words))
        found += [(cost + heading, row, column) for cost, column in islice(best, 1)]
    areas: list[ChartArea] = []
    for _, row, column in sorted(found, key=lambda fit: fit[0] - LABEL_WORTH * len(fit[1].values)):
        areas = _with(areas, _area(row, column, columns, size))
    # a column that a sheet in perspective broke in two made two regions of one chart: whole, they lie on one another
    whole: list[ChartArea] = []
    for area in areas:
        whole = _with(whole, _with_more_levels(area, columns, size[1]))
    for row, column in shared_axes(whole, rows, columns, words):
        whole = _with(whole, _area(row, column, columns, size))
    areas = [replace(a, goes_on=any(_one_row(a, b) for b in whole if b is not a)) for a in whole]
    return tuple(sorted(areas, key=lambda a: (round(a.box[1] / max(size[1], 1) * 4), a.box[0])))


def _with(areas: list[ChartArea], area: ChartArea) -> list[ChartArea]:
    """Add a region, or its row of frequencies to one of the same chart that fits better and came before."""
    twin = next((i for i, other in enumerate(areas) if _same_chart(area, other)), None)
    if twin is None:
        return [*areas, area]
    other = areas[twin]
    joined = replace(other, more=(*other.more, area.frequency, *(r for r in area.more if r.kind == "frequency")))
    return [*areas[:twin], joined, *areas[twin + 1 :]]


def within_frames(areas: tuple[ChartArea, ...], ruling: Ruling) -> tuple[ChartArea, ...]:
    """Widen each chart's region to where its own lines end: beyond the last label that was read there may be marks.

    Parameters
    ----------
    areas : tuple of ChartArea
        The charts.
    ruling : Ruling
        The sheet's long lines.

    Returns
    -------
    tuple of ChartArea
        Where lines of the chart go on farther than labels get lost, the region stays and the chart ``goes_on``; where
        they end at the edge of the sheet it is ``cut_off``. What has few labels and no lines around them is none.
    """
    high, wide = (side / ruling.scale for side in ruling.level.shape)
    # what reaches across the whole sheet are specks and shadows of a copier that run into one another
    frames = tuple(f for f in ruling.frames if f[2] - f[0] < SHEET * wide or f[3] - f[1] < SHEET * high)
    areas = tuple(a for a in areas if _is_framed(a, frames))
    return tuple(_within(area, ruling, frames, [_core(a) for a in areas if a is not area]) for area in areas)


def _is_framed(area: ChartArea, frames: tuple[Box, ...]) -> bool:
    """Say whether a chart has lines around it, or labels enough to stand without."""
    labels = len(area.frequency.values) + max(len(r.values) for r in (area.level, *area.more) if r.kind == "level")
    return labels >= FEW_LABELS or any(covered(_core(area), frame) > FRAMED for frame in frames)


def _core(area: ChartArea) -> Box:
    """Give what the labels of a chart span."""
    return min(area.frequency.at), min(area.level.at), max(area.frequency.at), max(area.level.at)


def _within(area: ChartArea, ruling: Ruling, frames: tuple[Box, ...], others: list[Box]) -> ChartArea:
    core = _core(area)
    own = [f for f in frames if covered(core, f) > FRAMED and not any(covered(o, f) > FRAMED for o in others)]
    if not own:
        return area
    frame = max(own, key=lambda box: covered(core, box) / ((box[2] - box[0]) * (box[3] - box[1])))
    octave, decibel = octave_px(area.frequency), decibel_px(area.level)
    over = (OVER_FRAME_OCTAVES * octave, OVER_FRAME_DB * decibel)
    most = (GOES_ON_OCTAVES * octave, GOES_ON_DB * decibel)
    box, goes_on, cut_off = list(area.box), False, False
    for side in range(4):
        sign, axis = (-1 if side < 2 else 1), side % 2
        beyond = sign * (frame[side] - box[side])
        at_edge = _at_edge(frame, side, ruling) and sign * (frame[side] - core[side]) > over[axis]
        if beyond <= -over[axis] / 2 and not at_edge:
            continue
        strip = list(core)  # from the outermost label to the end of the lines
        strip[(side + 2) % 4], strip[side] = core[side], frame[side]
        if not _lines_go_on(ruling, core, (strip[0], strip[1], strip[2], strip[3]), axis):
            continue
        if at_edge:
            cut_off = True
        elif beyond < most[axis]:
            box[side] += sign * (beyond + over[axis])
        elif axis == 0:
            goes_on = True
    return replace(area, box=(box[0], box[1], box[2], box[3]), goes_on=area.goes_on or goes_on, cut_off=cut_off)


def _lines_go_on(ruling: Ruling, core: Box, strip: Box, along: int) -> bool:
    """Say whether a chart's lines run on through a strip beside it; specks of a copy lengthen single ones."""
    through = ruling.going_on(core, core, along=along)
    return ruling.going_on(core, strip, along=along) >= max(LINES_GO_ON, SHARE_GO_ON * through)


def _at_edge(frame: Box, side: int, ruling: Ruling) -> bool:
    """Say whether a side of a frame is the edge of the sheet: the chart was cut off there."""
    edge = 0.0 if side < 2 else ruling.level.shape[1 - side % 2] / ruling.scale
    return abs(frame[side] - edge) < EDGE_PX / ruling.scale


def heads_table(row: LabelRun, words: tuple[Word, ...]) -> bool:
    """Say whether numbers stand right below most labels of a row."""
    pitch = abs(row.at[-1] - row.at[0]) / (len(row.at) - 1)
    below = [
        (w.box[0] + w.box[2]) / 2
        for w in words
        if any(map(str.isdigit, w.text)) and 1.0 < ((w.box[1] + w.box[3]) / 2 - row.across) / row.text_height < 3.5
    ]
    headed = sum(any(abs(x - at) < 0.25 * pitch for x in below) for at in row.at)
    return headed > HEADED * len(row.at)


def octave_px(row: LabelRun) -> float:
    """Give the width of an octave in pixels, on the whole of a frequency run."""
    span = math.log2(max(row.values) / min(row.values))
    return abs(row.at[-1] - row.at[0]) / span


def decibel_px(column: LabelRun) -> float:
    """Give the height of one decibel in pixels."""
    return abs(column.at[-1] - column.at[0]) / abs(column.values[-1] - column.values[0])


def _distance(row: LabelRun, column: LabelRun) -> float | None:
    """How badly a row and a column fit as the two axes of one chart (None: not at all)."""
    octave, decibel = octave_px(row), decibel_px(column)
    aspect = 20 * decibel / octave
    if not FLATTEST < aspect < STEEPEST:
        return None
    left, right = row.at[0], row.at[-1]
    gap = min(abs(column.across - left), abs(column.across - right))
    outside = column.across < left + 0.2 * octave or column.across > right - 0.2 * octave
    if not outside or gap > 2.2 * octave + 3 * column.text_height:
        return None
    top, bottom = column.at[0], column.at[-1]
    above, below = top - row.across, row.across - bottom
    inside = top - 2 * decibel <= row.across <= bottom + 2 * decibel
    # charting programs print the frequencies along the line of 0 dB, wherever that lies
    zero = top - column.values[0] * decibel
    along_zero = abs(row.across - zero) < 3 * row.text_height
    off = min((gap for gap in (above, below) if gap > -6 * decibel), default=0.0 if along_zero else math.inf)
    if off > UNREAD_DB * decibel + 4 * row.text_height:
        return None
    if inside and not (along_zero or abs(above) < 6 * decibel or abs(below) < 6 * decibel):
        return None
    left_side = 0.0 if column.across < left + 0.2 * octave else 0.35
    # an end of the row may bear no label, but a table's heading below a chart stands off it
    return 0.3 * gap / octave + left_side + 0.6 * abs(off) / (20 * decibel) + 0.2 * abs(aspect - 1)


def _area(row: LabelRun, column: LabelRun, columns: tuple[LabelRun, ...], size: tuple[int, int]) -> ChartArea:
    """Mark off the region in which a chart's marks may stand, up to the level labels on either side of it."""
    octave, decibel = octave_px(row), decibel_px(column)
    up, down = min(max(column.values[0] + ABOVE_ZERO_DB, ROOM_DB), MOST_ROOM_DB) * decibel, ROOM_DB * decibel
    left, right = row.at[0], row.at[-1]
    if row.scale == "log":  # labels that could not be read still have marks
        left = min(left, left - octave * math.log2(row.values[0] / USUAL_HZ[0]))
        right = max(right, right + octave * math.log2(USUAL_HZ[1] / row.values[-1]))
    left, right = left - ROOM_OCTAVES * octave, right + ROOM_OCTAVES * octave
    for other in columns:
        beside = other.at[0] < column.at[-1] and other.at[-1] > column.at[0]
        if beside and other.across < row.at[0]:
            left = max(left, min(other.across, row.at[0] - ROOM_OCTAVES * octave))
        elif beside and other.across > row.at[-1]:
            right = min(right, max(other.across, row.at[-1] + ROOM_OCTAVES * octave))
    # the row of frequencies stands at the chart's end: levels up to it exist, even where their labels were not read
    top, bottom = min(column.at[0] - up, row.across), max(column.at[-1] + down, row.across)
    box = (max(0.0, left), max(0.0, top), min(size[0] - 1.0, right), min(size[1] - 1.0, bottom))
    return ChartArea(row, column, (), box)


def _same_chart(one: ChartArea, other: ChartArea) -> bool:
    """Two frequency rows, above and below one plot, are one chart."""
    wide = min(one.box[2], other.box[2]) - max(one.box[0], other.box[0])
    high = min(one.box[3], other.box[3]) - max(one.box[1], other.box[1])
    if wide <= 0 or high <= 0:
        return False
    small = min((a.box[2] - a.box[0]) * (a.box[3] - a.box[1]) for a in (one, other))
    return wide * high > 0.6 * small


def _one_row(one: ChartArea, other: ChartArea) -> bool:
    """Say whether two regions are parts of one chart whose row of frequencies broke: one column serves both."""
    level = abs(one.frequency.across - other.frequency.across) < one.frequency.text_height
    first, last = sorted((one.frequency, other.frequency), key=lambda row: row.at[0])
    return level and one.level is other.level and max(first.values) < min(last.values)


def _with_more_levels(area: ChartArea, columns: tuple[LabelRun, ...], height: int) -> ChartArea:
    """Add the other level columns that fit the chart (levels printed on both sides)."""
    others = (c for c in columns if c is not area.level and _agree(c, area.level))
    more = [c for c in others if _distance(area.frequency, c) is not None or _goes_on_in(c, area.level)]
    up = ROOM_DB * decibel_px(area.level)
    top = min(area.box[1], *(max(c.at[0] - up, 0.0) for c in more), math.inf)
    bottom = max(area.box[3], *(min(c.at[-1] + up, height - 1.0) for c in more), -math.inf)
    return ChartArea(area.frequency, area.level, (*area.more, *more), (area.box[0], top, area.box[2], bottom))


def _goes_on_in(one: LabelRun, other: LabelRun) -> bool:
    """Say whether two level columns stand in one line, one above the other; a photo's may lean."""
    apart = one.at[-1] < other.at[0] or other.at[-1] < one.at[0]
    down = abs(one.at[0] + one.at[-1] - other.at[0] - other.at[-1]) / 2
    return apart and abs(one.across - other.across) < max(one.text_height, other.text_height) + MOST_LEAN * down


def _agree(one: LabelRun, other: LabelRun) -> bool:
    """Say whether two level columns give the same heights the same levels, within 4 dB at both ends."""
    return all(
        abs(other.at[0] + (one.values[i] - other.values[0]) * decibel_px(other) - one.at[i]) < 4 * decibel_px(other)
        for i in (0, -1)
    )
