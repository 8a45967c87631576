"""Labels, marks, charts and pages made by hand, so that each test says all that its chart holds."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np

from octavo.extract.chart import Bend, FrequencyScale, LevelScale, Mark, MeasuredChart
from octavo.extract.page import Page, Pixels, Word
from octavo.extract.sheet import Sheet
from octavo.extract.sightings import LabelRun, MarkSight
from octavo.interpret.record import AxisScale, Source, TakenBy
from octavo.interpret.symbols import Glyph, Ink

OCTAVES = (125, 250, 500, 1000, 2000, 4000, 8000)
LEVELS = tuple(range(-10, 121, 10))
SIZE = (1000, 1200)
"""Width and height of the sheets made here, in pixels."""
LEFT, TOP, OCTAVE = 200.0, 200.0, 100.0
"""Where 125 Hz and -10 dB stand on the charts made here, and the width of an octave; 20 dB are as high as it."""
DECIBEL = OCTAVE / 20


def x_of(hz: float) -> float:
    return LEFT + OCTAVE * math.log2(hz / 125)


def y_of(level: float) -> float:
    return TOP + DECIBEL * (level + 10)


def word(text: str, x: float, y: float, *, height: float = 14.0, upright: int = 0) -> Word:
    """Print a word with its middle at (x, y)."""
    half = 0.28 * height * len(text)
    return Word(text, (x - half, y - height / 2, x + half, y + height / 2), 0.99, upright)


def frequency_words(values: Iterable[int] = OCTAVES, *, y: float = TOP - 30) -> tuple[Word, ...]:
    return tuple(word(str(hz), x_of(hz), y) for hz in values)


def level_words(values: Iterable[int] = LEVELS, *, x: float = LEFT - 50) -> tuple[Word, ...]:
    """Print a column of levels, right-aligned."""
    return tuple(word(str(v), x - 3.92 * len(str(v)), y_of(v)) for v in values)


def frequency_run(values: Iterable[float], at: Iterable[float], scale: AxisScale = "log") -> LabelRun:
    values, at = tuple(map(float, values)), tuple(map(float, at))
    return LabelRun("frequency", "x", scale, values, at, TOP - 30, (0.99,) * len(values), 14.0, 0)


def level_run(values: Iterable[float], at: Iterable[float]) -> LabelRun:
    values, at = tuple(map(float, values)), tuple(map(float, at))
    return LabelRun("level", "y", "linear", values, at, LEFT - 50, (0.99,) * len(values), 14.0, 0)


def frequency_scale(values: Iterable[float] = OCTAVES) -> FrequencyScale:
    anchors = tuple((float(hz), x_of(hz)) for hz in values)
    return FrequencyScale("log", anchors, len(anchors), 0.0, frozenset(hz for hz, _ in anchors))


def level_scale() -> LevelScale:
    return LevelScale(y_of(0), DECIBEL, (-10.0, 120.0), len(LEVELS), 0.0, len(LEVELS))


def mark(
    glyph: Glyph,
    hz: float,
    level: float,
    ink: Ink = "neutral",
    *,
    beside: float = 0.0,
    score: float = 0.97,
    arrows: tuple[float, float, float] = (0.01, 0.01, 0.01),
    rivals: tuple[tuple[Glyph, float], ...] = (),
) -> Mark:
    """See a mark clearly at a frequency and level, ``beside`` octaves right of its line."""
    x, y = x_of(hz) + beside * OCTAVE, y_of(level)
    red, blue = float(ink == "red"), float(ink == "blue")
    sight = MarkSight(0, glyph, (x, y), (14.0, 14.0), score, rivals, red, blue, arrows)
    return Mark(sight, x, y, hz * 2**beside, level)


def sized(marks: Iterable[Mark]) -> tuple[Mark, ...]:
    """Draw marks as a hand does, each a little larger or smaller than the others."""
    sizes = (14.0, 12.6, 15.2, 13.2, 15.8, 12.2)
    return tuple(replace(m, sight=replace(m.sight, size=(sizes[i % 6], sizes[i % 6]))) for i, m in enumerate(marks))


def row(glyph: Glyph, levels: Mapping[int, float], ink: Ink = "neutral", *, beside: float = 0.0) -> tuple[Mark, ...]:
    return tuple(mark(glyph, hz, level, ink, beside=beside) for hz, level in levels.items())


def chart(*marks: Mark, doubts: tuple[str, ...] = (), number: int = 0) -> MeasuredChart:
    box = (LEFT - 75, TOP - 100, x_of(8000) + 75, y_of(120) + 100)
    bend = Bend(box, (0.0,) * 6, (0.0,) * 6, 150, 0.2)
    return MeasuredChart(number, box, frequency_scale(), level_scale(), bend, marks, doubts)


def sheet(taken_by: TakenBy = "scan", pixels: Pixels | None = None, words: tuple[Word, ...] = ()) -> Sheet:
    """Lay a page that needed no straightening; blank where no picture is given."""
    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8) if pixels is None else pixels
    height, width = picture.shape[:2]
    return Sheet(picture, np.eye(3), (width, height), taken_by, words, (), 0.0, words_given=taken_by == "drawn")


def page(pixels: Pixels, words: tuple[Word, ...] | None = None) -> Page:
    """Make a page of a picture: a drawn one with its words, else a scan."""
    source = Source("page", "0" * 64, 1, 1, "scan" if words is None else "drawn")
    pixels = np.ascontiguousarray(pixels)
    pixels.flags.writeable = False
    return Page(source, pixels, None, words)


def grid_picture(size: tuple[int, int] = SIZE, *, ink: int = 90) -> Pixels:
    """Draw the lattice of the charts made here: octaves and 10-dB lines, 2 px thick, without labels."""
    picture = np.full((size[1], size[0], 3), 255, np.uint8)
    first, last = int(y_of(-10)), int(y_of(120))
    for hz in OCTAVES:
        picture[first : last + 1, int(x_of(hz)) : int(x_of(hz)) + 2] = ink
    for level in LEVELS:
        picture[int(y_of(level)) : int(y_of(level)) + 2, int(LEFT) : int(x_of(8000)) + 1] = ink
    return picture
