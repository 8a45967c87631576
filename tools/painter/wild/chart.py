"""One freely drawn chart: paper, notes, joining lines and marks in any mixture, each recorded in the truth."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ....interpret.record import Seen, Threshold
from ....interpret.symbols import SYMBOL_SETS, Glyph, Ink, Meaning, ear_of
from .. import fonts
from ..chart.axes import Axes, place
from ..chart.chance import any_lettering, any_ruling, any_scale, grey, pick
from ..chart.look import Look, Rule, Ruling, Strokes
from ..chart.ruling import draw_ruling, draw_words, room
from ..pen import XY
from ..sheet import Sheet
from ..truth import Arrow, PaintedMark
from . import notes
from .mark import InkBox, draw_arrow, draw_mark
from .palette import Inks, any_inks
from .series import Dials, Series, any_series, second_test

MEANINGS: dict[Glyph, Meaning] = {
    "triangle-filled": Meaning("right", "air", masked=True),
    "square-filled": Meaning("left", "air", masked=True),
}
"""What a mark of a freely drawn page says: by the first symbol set that has it."""
for _symbols in reversed(SYMBOL_SETS.values()):
    MEANINGS |= _symbols.meanings
_ARROWS: tuple[Arrow, Arrow, Arrow] = ("down-left", "down-right", "down")
_LEGEND = ("Right air", "Left air", "Right bone", "Left bone", "masked", "Air conduction R", "AC left", "unmasked BC")


@dataclass(frozen=True, slots=True)
class _Placed:
    box: InkBox
    glyph: Glyph
    ink: Ink
    solid: bool
    bold: bool


def _ruling(rng: np.random.Generator, ruling: Ruling, dials: Dials) -> Ruling:
    """Widen a ruling: hair lines, heavy ones, ticks alone, grounds, dark bands."""
    style = rng.random()
    if style < 0.2:
        none = Rule(0.0)
        ruling = replace(ruling, octave=none, inter=none, level=none, minor=none, tick=float(rng.uniform(2, 5)))
        frame = Rule(float(rng.uniform(0.4, 1.5)), grey(rng, 0.0, 0.3))
        ruling = replace(ruling, frame=frame, frame_sides=pick(rng, ("box", "axes")))
    elif style < 0.2 + dials.heavy:
        heavy = Rule(float(rng.uniform(0.8, 2.0)), grey(rng, 0.0, 0.7))
        inter = pick(rng, (heavy, replace(heavy, dash=(3, 3))))
        ruling = replace(ruling, octave=heavy, level=heavy, inter=inter)
    elif style < 0.65:
        faint = Rule(float(rng.uniform(0.2, 0.5)), grey(rng, 0.3, 0.9))
        ruling = replace(ruling, octave=faint, level=faint, inter=faint)
    if ruling.bands and rng.random() < 0.4:
        dark = float(rng.uniform(0.62, 0.85))
        bands = [(a, b, (c[0] * dark, c[1] * dark, c[2] * dark), w) for a, b, c, w in ruling.bands]
        ruling = replace(ruling, bands=tuple(bands))
    return ruling


def _ground(sheet: Sheet, rng: np.random.Generator, axes: Axes) -> None:
    sheet.pen.rect(axes.frame, None, fill=notes.any_paper_colour(rng))
    if rng.random() > 0.15:
        return
    left, top, right, bottom = axes.frame
    step = int(pick(rng, (1, 2, 5)))
    low, high = (int(level) for level in axes.scale.levels)
    lines = [[(left, axes.y(level)), (right, axes.y(level))] for level in range(low, high + 1, step)]
    if rng.random() < 0.4:
        count = int((right - left) / (axes.db_pt * step * 2))
        lines += [[(left + (right - left) * k / count, y) for y in (top, bottom)] for k in range(1, count)]
    sheet.pen.turns(0, 0)
    sheet.pen.paths(lines, grey(rng, 0.65, 0.9), float(rng.uniform(0.15, 0.4)))


def draw_wild_chart(
    sheet: Sheet, rng: np.random.Generator, box: tuple[float, float, float, float], dials: Dials, *, title: str | None
) -> None:
    """Draw one chart into a box of the page (points) and record every mark.

    The record that it leaves holds each mark as a value, but a reader cannot be held to it: glyphs of several symbol
    sets stand together, and two tests may share one chart.
    """
    pen = sheet.pen
    wide, high = box[2] - box[0], box[3] - box[1]
    scale = any_scale(rng, equal=0.2, high=0.08, free=0.5)
    size = float(np.clip(min(wide, high) * rng.uniform(0.018, 0.034), 4.5, 16))
    lettering = replace(any_lettering(rng, size), title=title)
    ruling = _ruling(rng, any_ruling(rng, scale), dials)
    look = Look("asha-1990", lettering, ruling, Strokes())
    left, top, right, bottom = room(lettering, ruling)
    axes = place(scale, (box[0] + left, box[1] + top, box[2] - right, box[3] - bottom))
    audiogram, number = sheet.open_audiogram("asha-1990", None), sheet.charts
    _ground(sheet, rng, axes)
    draw_ruling(pen, axes, ruling)
    labels = draw_words(pen, axes, look, number)
    sheet.open_chart(audiogram, axes, labels)
    inks = any_inks(rng, mono=pen.mono)
    phonemes = rng.random() < dials.notes * 0.3
    if phonemes:
        notes.draw_phonemes(pen, rng, axes, lettering.face, number)
    _clutter(sheet, rng, axes, dials, lettering.face, number)
    series = any_series(rng, axes, dials, inks, letters=not phonemes)
    later = second_test(rng, series[:3], axes) if rng.random() < dials.second_test else []
    crew = _Crew(sheet, rng, axes, audiogram, number, inks)
    taken = crew.legend(series, lettering.face) if rng.random() < dials.legend else None
    for one in (*later, *series):
        crew.draw(one, taken)
    if rng.random() < dials.notes * 0.5:
        _values(sheet, rng, axes, lettering.face, number)
    if rng.random() < dials.notes * 0.3:
        notes.draw_cursor(pen, rng, axes, lettering.face, number)


def _clutter(sheet: Sheet, rng: np.random.Generator, axes: Axes, dials: Dials, face: str, chart: int) -> None:
    if rng.random() < dials.notes * 0.35:
        notes.draw_hatching(sheet.pen, rng, axes)
    if rng.random() < dials.notes * 0.2:
        notes.draw_picture(sheet.pen, rng, axes)
    if rng.random() < dials.notes:
        notes.draw_words_inside(sheet.pen, rng, axes, face, chart)
    if rng.random() < dials.notes * 0.25:
        notes.draw_ticks_of_approval(sheet.pen, rng, axes)


def _values(sheet: Sheet, rng: np.random.Generator, axes: Axes, face: str, chart: int) -> None:
    """Print levels beside some of the marks."""
    size, share = axes.db_pt * float(rng.uniform(4, 7)), float(rng.uniform(0.2, 1))
    side = pick(rng, (-1, 1))
    for mark in sheet.marks:
        if mark.chart != chart or mark.threshold is None or rng.random() > share:
            continue
        x = mark.at[0] * sheet.pen.width + side * (mark.size[0] * sheet.pen.width / 2 + size * 0.3)
        y = mark.at[1] * sheet.pen.height - float(rng.uniform(-0.3, 0.8)) * size
        words = f"{mark.threshold.level_db_hl:g}"
        sheet.pen.text((x, y), words, face, size, (0.2, 0.2, 0.2), anchor=0.0 if side > 0 else 1.0, chart=chart)


class _Crew:
    """Draws the series of one chart and keeps in mind where marks already stand."""

    def __init__(
        self, sheet: Sheet, rng: np.random.Generator, axes: Axes, audiogram: int, number: int, inks: Inks
    ) -> None:
        self.sheet, self.rng, self.axes = sheet, rng, axes
        self.audiogram, self.number, self.inks = audiogram, number, inks
        self.placed: list[_Placed] = []

    def _near(self, at: XY, series: Series) -> tuple[bool, bool]:
        """Tell whether a mark here would be lost among the others, and whether it touches any."""
        half = series.style.height * 0.55
        touches = False
        solid = series.style.solid
        for other in self.placed:
            left, top, right, bottom = other.box
            across = min(at[0] + half, right) - max(at[0] - half, left)
            down = min(at[1] + half, bottom) - max(at[1] - half, top)
            if across <= 0 or down <= 0:
                continue
            touches = True
            overlap = across * down / max(min(4 * half * half, (right - left) * (bottom - top)), 1e-9)
            apart = max(abs(at[0] - (left + right) / 2), abs(at[1] - (top + bottom) / 2))
            if other.glyph == series.glyph and apart < half:
                return True, True
            told_apart = other.ink != series.ink and not self.sheet.pen.mono
            if overlap > 0.12 and (solid or (other.solid and not told_apart)):
                return True, True
            if overlap > 0.4 and other.bold and series.style.stroke > 0.2 and not told_apart:
                return True, True
        return False, touches

    def draw(self, series: Series, taken: InkBox | None) -> None:
        """Draw the joining line and the marks of a series, but for those that nobody could see."""
        todo: list[tuple[XY, float, float, bool, bool]] = []
        for hz, level in series.levels:
            x = self.axes.x(hz) if hz in self.axes.scale.printed else self._between(hz)
            at = (x + series.beside * self.axes.step_pt, self.axes.y(level))
            lost, touches = self._near(at, series)
            if lost or (taken is not None and taken[0] < at[0] < taken[2] and taken[1] < at[1] < taken[3]):
                continue
            todo.append((at, hz, level, touches, bool(self.rng.random() < series.unheard)))
        pen, heard = self.sheet.pen, [item[0] for item in todo if not item[4]]
        if series.join and len(heard) > 1:
            pen.turns(0, 1)
            pen.path(heard, series.colour, series.join, series.dash)
            self.sheet.joins.append(tuple(self.sheet.fraction(at) for at in heard))
        for at, hz, level, touches, unheard in todo:
            box = draw_mark(pen, series.glyph, at, series.style, series.colour, bare=touches)
            bold = series.style.stroke > 0.2
            self.placed.append(_Placed(box, series.glyph, series.ink, series.style.solid, bold))
            self._record(series, box, hz, level, unheard)

    def _between(self, hz: float) -> float:
        scale = self.axes.scale
        return self.axes.frame_left + (scale.margin[0] + scale.along(hz)) * self.axes.step_pt

    def _record(self, series: Series, box: InkBox, hz: float, level: float, unheard: bool) -> None:
        sheet, pen = self.sheet, self.sheet.pen
        arrow, tip = None, None
        if unheard:
            arrow = _ARROWS[series.side] if self.rng.random() < 0.9 else "down"
            tip = sheet.fraction(draw_arrow(pen, box, arrow, series.arrow, series.colour))
        centre = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        meaning = MEANINGS[series.glyph]
        seen = Seen(
            0,
            sheet.fraction(centre),
            round(self.axes.hz_at(centre[0]), 3),
            round(self.axes.level_at(centre[1]), 3),
        )
        threshold = Threshold(
            ear=ear_of(meaning, series.ink),
            conduction=meaning.conduction,
            masked=meaning.masked,
            frequency_hz=hz,
            level_db_hl=level,
            aided=meaning.aided,
            measure=meaning.measure,
            response=not unheard,
            standing="sure",
            probability=1.0,
            seen=seen,
        )
        sheet.add_threshold(self.audiogram, threshold)
        self._mark(series, box, threshold, arrow, tip)

    def _mark(
        self, series: Series, box: InkBox, threshold: Threshold | None, arrow: Arrow | None, tip: XY | None
    ) -> None:
        sheet = self.sheet
        at = sheet.fraction(((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))
        size = ((box[2] - box[0]) / sheet.pen.width, (box[3] - box[1]) / sheet.pen.height)
        in_key = threshold is None
        sheet.marks.append(
            PaintedMark(series.glyph, series.ink, threshold, at, size, arrow, tip, self.number, self.audiogram, in_key)
        )

    def legend(self, series: list[Series], face: str) -> InkBox:
        """Draw a legend in a corner of the plot, as plotting programs do, and give its box."""
        pen, rng = self.sheet.pen, self.rng
        left, top, right, bottom = self.axes.frame
        tall = max(one.style.height for one in series)
        size = float(np.clip(0.035 * min(right - left, bottom - top), 3.5, 14))
        pitch = max(size * 1.5, tall * 1.15)
        lines = rng.random() < 0.6
        words = [pick(rng, _LEGEND) for _ in series]
        wide = max(fonts.width(face, text, size) for text in words) + size * 1.2 + max(tall * 3.4, size * 3)
        high = pitch * len(series) + size
        x = left + 4 if rng.random() < 0.5 else right - wide - 4
        y = bottom - high - 4 if rng.random() < 0.65 else top + 4
        box = (x, y, x + wide, y + high)
        if rng.random() < 0.7:
            pen.turns(0, 0)
            pen.rect(box, grey(rng, 0.2, 0.8), 0.6, fill=(1, 1, 1) if rng.random() < 0.7 else None)
        for number, (one, text) in enumerate(zip(series, words, strict=True)):
            middle = y + size * 0.5 + pitch * (number + 0.5)
            spot = (x + size * 0.4 + max(tall * 1.6, size * 1.4), middle)
            if lines and one.join:
                reach = max(tall * 1.5, size * 1.3)
                pen.line((spot[0] - reach, middle), (spot[0] + reach, middle), one.colour, one.join, one.dash)
            ink = draw_mark(pen, one.glyph, spot, one.style, one.colour)
            self._mark(one, ink, None, None, None)
            at = (x + size * 0.9 + max(tall * 3.2, size * 2.8), middle + size * 0.35)
            pen.text(at, text, face, size, chart=self.number)
        return (x - tall / 2, y - tall / 2, x + wide + tall / 2, y + high + tall / 2)
