"""Sheet to Sightings: words, charts by their labels, and the marks on each chart."""

from __future__ import annotations

from ..sheet import Sheet
from ..sightings import ChartArea, MarkSight, Sightings
from .axes.areas import chart_areas
from .axes.leftover import chart_like
from .key import key_lines, without_specimens
from .marks.crops import chart_crop
from .marks.network import marks_in


def see(sheet: Sheet) -> Sightings:
    """Look at a sheet.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.

    Returns
    -------
    Sightings
        What kind of ink is where, with scores; no values yet.
    """
    height, width = sheet.pixels.shape[:2]
    areas = chart_areas(sheet.words, (width, height))
    seen = [without_specimens(sheet, _off_labels(_marks_of(sheet, i, area), area)) for i, area in enumerate(areas)]
    marks = tuple(mark for of_area in seen for mark in of_area)
    return Sightings(
        sheet.words, areas, marks, key_lines(sheet, areas, marks), chart_like(sheet.pixels, sheet.words, areas)
    )


def _off_labels(marks: tuple[MarkSight, ...], area: ChartArea) -> tuple[MarkSight, ...]:
    """Leave out what is a character of a label: the noughts of "10" and "100" look like small circles."""
    places = [
        (at, run.across, run.text_height) if run.along == "x" else (run.across, at, run.text_height)
        for run in (area.frequency, area.level, *area.more)
        for at in run.at
    ]
    return tuple(
        m
        for m in marks
        if not any(
            abs(m.at[0] - x) < 1.6 * high and abs(m.at[1] - y) < 0.6 * high and max(m.size) < 1.4 * high
            for x, y, high in places
        )
    )


SMALL_MARK_PX = 17.0
"""Marks smaller than this in a chart's crop are looked at once more, larger: shapes that overlap run together there."""
WANTED_MARK_PX = 24.0


def _marks_of(sheet: Sheet, number: int, area: ChartArea) -> tuple[MarkSight, ...]:
    """See the marks of one chart, small ones at a larger scale."""
    crop = chart_crop(sheet.pixels, area.box)
    marks = marks_in(crop, number)
    sizes = sorted(max(m.size) * crop.scale for m in marks if m.score > 0.4)
    if len(sizes) < 3 or sizes[len(sizes) // 2] >= SMALL_MARK_PX:
        return marks
    larger = min(2.2, WANTED_MARK_PX / sizes[len(sizes) // 2])
    return marks_in(chart_crop(sheet.pixels, area.box, scale=larger * crop.scale), number)
