"""Sheet to Sightings: words, charts by their labels, and the marks on each chart."""

from __future__ import annotations

from ..sheet import Sheet
from ..sightings import Sightings
from .areas import chart_areas
from .crops import chart_crop
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
    marks = [marks_in(chart_crop(sheet.pixels, area.box), i) for i, area in enumerate(areas)]
    return Sightings(sheet.words, areas, tuple(mark for of_area in marks for mark in of_area))
