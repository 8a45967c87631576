"""Sheet to Sightings: words, charts by their labels, and the marks on each chart."""

from __future__ import annotations

from ..sheet import Sheet
from ..sightings import Sightings
from .areas import chart_areas
from .crops import chart_crop
from .key import key_lines
from .leftover import chart_like
from .network import marks_in


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
    seen = [marks_in(chart_crop(sheet.pixels, area.box), i) for i, area in enumerate(areas)]
    marks = tuple(mark for of_area in seen for mark in of_area)
    return Sightings(
        sheet.words, areas, marks, key_lines(sheet, areas, marks), chart_like(sheet.pixels, sheet.words, areas)
    )
