"""What each step of the road found, drawn over the straightened page: for whoever asks where a reading went wrong."""

from __future__ import annotations

import numpy as np

from ..extract.chart import MeasuredChart
from ..extract.page import Pixels, Word
from ..extract.sheet import Sheet
from ..extract.sightings import ChartArea, LabelRun, MarkSight, Sightings
from ..interpret.record import Point
from ..interpret.symbols import Ink
from .lettering import Colour, Notes, faded

INK_COLOURS: dict[Ink, Colour] = {"red": (200, 0, 0), "blue": (0, 60, 210), "neutral": (60, 60, 60)}
"""RGB of a mark's note, by the colour that its ink was seen in."""
WORD: Colour = (150, 150, 40)
AREA: Colour = (0, 140, 140)
FREQUENCY: Colour = (150, 60, 170)
LEVEL: Colour = (200, 110, 0)
DOUBT: Colour = (200, 0, 120)
_FADE = 0.4
"""How much of the sheet's own ink is kept."""
_LETTERS = 0.62
"""Size of the letters against those of the reading: here more is written."""
_CLEAR = 0.5
"""Score from which a mark's frame is bold."""
_PIECES = 24
"""Into so many straight pieces a bent line is drawn."""


def draw_sheet(sheet: Sheet) -> Pixels:
    """Draw the sheet with the boxes of the words that came with the page.

    Parameters
    ----------
    sheet : Sheet
        What straightening gave.

    Returns
    -------
    Pixels
        A new picture of the sheet's shape; the ink is left as strong as it is.
    """
    notes = Notes(sheet.pixels.copy(), _LETTERS)
    _frame_words(notes, sheet.words)
    notes.beside(f"turned by {sheet.turn_deg:.2f} degrees", (0.0, 0.0), AREA, ((1, 1),), 1.0)
    return notes.picture


def draw_sightings(sheet: Sheet, sightings: Sightings) -> Pixels:
    """Draw what was seen: words, chart areas, label runs with their values, marks with glyph and score.

    Parameters
    ----------
    sheet : Sheet
        The page as it was looked at.
    sightings : Sightings
        What was seen on it.

    Returns
    -------
    Pixels
        A new picture of the sheet's shape. A mark's frame has the colour of its ink; the note beside it gives the
        glyph and the score from 0 to 100; what was hardly seen has a thin frame.
    """
    notes = Notes(faded(sheet.pixels, _FADE), _LETTERS)
    _frame_words(notes, sightings.words)
    for area in sightings.areas:
        _draw_area(notes, area)
    for mark in sightings.marks:
        box = _box_of(mark)
        notes.frame(box, INK_COLOURS[mark.ink], pen=None if mark.score >= _CLEAR else 1)
        notes.keep_clear(box)
    for mark in sorted(sightings.marks, key=lambda one: -one.score):  # the clearest get the best places
        text = f"{mark.glyph} {100 * mark.score:.0f}"
        notes.beside(text, mark.at, INK_COLOURS[mark.ink], away=_clear_of(notes, mark), far=True)
    if sightings.chart_like:
        notes.beside("something like a chart was left unread", (0.0, 0.0), DOUBT, ((1, 1),), 1.0)
    return notes.picture


def draw_charts(sheet: Sheet, charts: tuple[MeasuredChart, ...]) -> Pixels:
    """Draw the axes as fitted, bent as the paper is, every mark before rounding, and ink that nothing explains.

    Parameters
    ----------
    sheet : Sheet
        The page as it was looked at.
    charts : tuple of MeasuredChart
        What the geometry says.

    Returns
    -------
    Pixels
        A new picture of the sheet's shape. Lines that lie on the printed ones show that the fit is good. Ink that
        nothing seen explains is framed.
    """
    notes = Notes(faded(sheet.pixels, _FADE), _LETTERS)
    for chart in charts:
        notes.frame(chart.box, AREA, pen=1)
        _draw_lattice(notes, chart)
        for mark in chart.marks:
            notes.keep_clear(_box_of(mark.sight))
        for mark in chart.marks:
            colour = INK_COLOURS[mark.sight.ink]
            notes.ring(mark.sight.at, 0.35 * notes.radius, colour)
            text = f"{mark.frequency_hz:.0f}: {mark.level_db_hl:.1f}"
            notes.beside(text, mark.sight.at, colour, away=_clear_of(notes, mark.sight), far=True)
        for ink in chart.unexplained:
            (x, y), (wide, high) = ink.at, ink.size
            notes.frame((x - wide / 2, y - high / 2, x + wide / 2, y + high / 2), DOUBT)
            notes.beside("an arrow?" if ink.hangs_from else "a mark?", ink.at, DOUBT, away=1.0, far=True)
        if chart.doubts:
            left, top, *_ = chart.box
            notes.beside(", ".join(chart.doubts), (left, top), DOUBT, ((1, -1), (1, 1)), 1.0)
    return notes.picture


def on_sheet(chart: MeasuredChart, x: float, y: float) -> Point:
    """Give the place on the sheet of a place on the chart's straight lattice: the bend's inverse.

    Parameters
    ----------
    chart : MeasuredChart
        The chart with its bend.
    x, y : float
        Chart coordinates, pixels.

    Returns
    -------
    Point
        Sheet pixels.
    """
    at = x, y
    for _ in range(4):  # the bend changes by far less than a pixel over a pixel: each round makes the miss much smaller
        back = chart.bend.undone(*at)
        at = at[0] + x - back[0], at[1] + y - back[1]
    return at


def _draw_lattice(notes: Notes, chart: MeasuredChart) -> None:
    """Draw a line for each printed frequency and every 10 dB of the printed levels, over the chart's own extent."""
    (low, high), scale = chart.level.printed, chart.level
    left, right = chart.frequency.anchors[0][1], chart.frequency.anchors[-1][1]
    top, bottom = (scale.zero_px + scale.px_per_db * level for level in (low, high))
    for hz, x in chart.frequency.anchors:
        line = [on_sheet(chart, x, y) for y in np.linspace(top, bottom, _PIECES + 1)]
        notes.outline(line, FREQUENCY, pen=1, closed=False)
        notes.beside(f"{hz:g}", line[-1], FREQUENCY, ((0, 1),), 0.6)
    for level in np.arange(np.ceil(low / 10) * 10, high + 0.1, 10):
        y = scale.zero_px + scale.px_per_db * level
        line = [on_sheet(chart, x, y) for x in np.linspace(left, right, _PIECES + 1)]
        notes.outline(line, LEVEL, pen=1, closed=False)
        notes.beside(f"{level:g}", line[-1], LEVEL, ((1, 0),), 0.6)


def _draw_area(notes: Notes, area: ChartArea) -> None:
    notes.frame(area.box, AREA)
    for run in (area.frequency, area.level, *area.more):
        _draw_run(notes, run)


def _draw_run(notes: Notes, run: LabelRun) -> None:
    """Draw a line through the labels of an axis, and beside each the value that it was read as."""
    colour = FREQUENCY if run.kind == "frequency" else LEVEL
    places = [(at, run.across) if run.along == "x" else (run.across, at) for at in run.at]
    notes.outline(places, colour, pen=1, closed=False)
    away = 0.6 + run.text_height / (2 * notes.radius)
    sides = ((0, -1), (0, 1)) if run.along == "x" else ((-1, 0), (1, 0))
    for value, place in zip(run.values, places, strict=True):
        notes.ring(place, 0.3 * notes.radius, colour)
        notes.beside(f"{value:g}", place, colour, sides, away if run.along == "x" else 2 * away)


def _clear_of(notes: Notes, mark: MarkSight) -> float:
    """How far from a mark's centre a note is clear of the mark, in radii."""
    return 0.4 + max(mark.size) / (2 * notes.radius)


def _box_of(mark: MarkSight) -> tuple[float, float, float, float]:
    (x, y), (width, height) = mark.at, mark.size
    return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def _frame_words(notes: Notes, words: tuple[Word, ...]) -> None:
    for word in words:
        notes.frame(word.box, WORD, pen=1)
