"""The chart's frame: where a frequency and a level stand, its grid, its labels, and the region of speech."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ...record import Threshold
from ...tables import published
from ...words.languages.chart_words import ChartWords
from .scene import BLACK, At, Colour, Item, Lettering, Line, Stroke

_OCTAVES = (125, 250, 500, 1000, 2000, 4000, 8000)
_BETWEEN = (750, 1500, 3000, 6000)
_EXTENDED = (10000, 12500, 16000, 20000)
_EXTENDED_BETWEEN = (9000, 11200, 14000, 18000)
_LEVEL_STEP = 10
_EDGE_OCTAVES = 0.5
_DB_AN_OCTAVE = 20

_GRID, _FINE = Stroke((0.62, 0.62, 0.62), 0.6), Stroke((0.72, 0.72, 0.72), 0.5, (2, 2))
_ZERO, _FRAME = Stroke((0.35, 0.35, 0.35), 1.1), Stroke(BLACK, 1)
SPEECH: Colour = (0.925, 0.925, 0.9)


@dataclass(frozen=True, slots=True)
class Plot:
    """One chart's plot area.

    Attributes
    ----------
    left, top : float
        Its upper left corner, points.
    octave : float
        The width of an octave, points; 20 dB are as high (ISO 8253-1, ANSI S3.6 [memory]).
    lowest_hz, highest_hz : float
        The outer frequencies that it labels, half an octave inside of the frame.
    least_db, most_db : float
        Its upper and lower edge, dB HL.
    """

    left: float
    top: float
    octave: float
    lowest_hz: float = 125
    highest_hz: float = 8000
    least_db: float = -10
    most_db: float = 120

    @property
    def width(self) -> float:
        """Points."""
        return self.octave * (math.log2(self.highest_hz / self.lowest_hz) + 2 * _EDGE_OCTAVES)

    @property
    def height(self) -> float:
        """Points."""
        return self.octave * (self.most_db - self.least_db) / _DB_AN_OCTAVE

    @property
    def scale(self) -> float:
        """The size of marks and words on it, 1 where an octave is 60 points wide."""
        return min(1.0, max(0.7, self.octave / 60))

    def x(self, hz: float) -> float:
        """Give where a frequency stands, points."""
        return self.left + self.octave * (_EDGE_OCTAVES + math.log2(hz / self.lowest_hz))

    def y(self, db_hl: float) -> float:
        """Give where a level stands, points."""
        return self.top + self.octave * (db_hl - self.least_db) / _DB_AN_OCTAVE

    def at(self, hz: float, db_hl: float) -> At:
        """Give where a threshold stands, points."""
        return self.x(hz), self.y(db_hl)


def plot_for(values: Iterable[Threshold], left: float, top: float, width: float) -> Plot:
    """Give a plot that has room for the values and is so wide at most: 125 to 8000 Hz, -10 to 120 dB HL, or more."""
    given = list(values)
    highest = max((t.frequency_hz for t in given), default=8000)
    highest_hz = next((hz for hz in (8000, 12500, 16000, 20000) if highest <= hz), highest)
    lowest_hz = min(125, *(t.frequency_hz for t in given)) if given else 125
    levels = [t.level_db_hl for t in given]
    # An arrow that hangs from a mark needs room below it.
    most = max(120, math.ceil((max(levels, default=0) + 5) / _LEVEL_STEP) * _LEVEL_STEP)
    least = min(-10, math.floor((min(levels, default=0) - 5) / _LEVEL_STEP) * _LEVEL_STEP)
    octaves = math.log2(highest_hz / lowest_hz) + 2 * _EDGE_OCTAVES
    return Plot(left, top, min(66.0, width / octaves), lowest_hz, highest_hz, least, most)


def frame(plot: Plot, words: ChartWords) -> Iterator[Item]:
    """Draw the region of speech, the grid, the labels and the frame."""
    yield from _speech_region(plot)
    right, bottom = plot.left + plot.width, plot.top + plot.height
    small, size = 7.5 * plot.scale, 9 * plot.scale
    for hz in (*_OCTAVES, *_BETWEEN, *_EXTENDED, *_EXTENDED_BETWEEN):
        if not plot.lowest_hz <= hz <= plot.highest_hz:
            continue
        x, minor = plot.x(hz), hz not in _OCTAVES
        yield Line(((x, plot.top), (x, bottom)), _FINE if minor else _GRID)
        # The highest frequencies stand too close for whole numbers, and every other one has its label below.
        label = f"{hz}" if hz <= _OCTAVES[-1] else f"{hz / 1000:g}k"
        y = bottom + 11 if hz in _EXTENDED_BETWEEN else plot.top - 5
        yield Lettering((x, y), label, small if minor else size, anchor="middle")
    for level in range(round(plot.least_db), round(plot.most_db) + 1, _LEVEL_STEP):
        y = plot.y(level)
        yield Line(((plot.left, y), (right, y)), _ZERO if level == 0 else _GRID)
        yield Lettering((plot.left - 6, y + size / 3), f"{level}", size, anchor="end")
    corners = ((plot.left, plot.top), (right, plot.top), (right, bottom), (plot.left, bottom))
    yield Line(corners, _FRAME, closed=True)
    yield Lettering((plot.left + plot.width / 2, plot.top - 19), words.frequency_axis, size, anchor="middle")
    yield Lettering((plot.left - 30, plot.top + plot.height / 2), words.level_axis, size, anchor="middle", turned=True)


def speech_levels() -> tuple[tuple[float, float, float], ...]:
    """Give the levels between which average conversational speech at 1 m lies, band by band.

    Returns
    -------
    tuple of (float, float, float)
        Centre in Hz, and the threshold in dB HL at which all of the band's speech is heard and the one at which none
        of it is.

    Notes
    -----
    ANSI S3.5-1997, third-octave bands: normal speech and the reference internal noise of table 3; the speech that
    counts lies 15 dB to either side of its level.
    """
    return tuple(
        (
            float(row["centre_hz"]),
            float(row["speech_normal_db"]) - float(row["ref_internal_noise_db"]) - 15,
            float(row["speech_normal_db"]) - float(row["ref_internal_noise_db"]) + 15,
        )
        for row in published("sii_s3_5_1997_third_octave.csv")
    )


def _speech_region(plot: Plot) -> Iterator[Item]:
    def clipped(db_hl: float) -> float:
        return min(max(db_hl, plot.least_db), plot.most_db)

    bands = [band for band in speech_levels() if plot.lowest_hz <= band[0] <= plot.highest_hz]
    upper = tuple(plot.at(hz, clipped(least)) for hz, least, _ in bands)
    lower = tuple(plot.at(hz, clipped(most)) for hz, _, most in reversed(bands))
    yield Line((*upper, *lower), None, closed=True, fill=SPEECH)
