"""One whole chart: its paper, its joining lines and its marks, each recorded in the truth as it is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ....interpret.record import Seen
from ....interpret.symbols import SYMBOL_SETS, Glyph, Ink
from ..patient import TestedEar, Tone
from ..pen import XY, Colour
from ..sheet import Sheet
from ..truth import PaintedMark
from .axes import Axes
from .convention import LEFT_OF_LINE, arrow_for, glyph_for, true_ear, true_threshold
from .joins import draw_joins
from .look import Look, Strokes
from .marks import draw_arrow, draw_glyph
from .ruling import draw_ruling, draw_words


@dataclass(frozen=True, slots=True)
class Drawn:
    """A result with the glyph, ink and place in points that it gets on this chart."""

    tone: Tone
    glyph: Glyph
    ink: Ink
    at: XY


def ink_of(ear: str, strokes: Strokes) -> Ink:
    """Give the ink of an ear's marks."""
    if strokes.one_ink or ear not in ("right", "left"):
        return "neutral"
    return "red" if ear == "right" else "blue"


HIDDEN = 0.25
"""A hollow mark so near to a filled one of its shape, in heights of a mark, is hidden by it."""


def colour_of(ink: Ink, strokes: Strokes) -> Colour:
    """Give the colour that a form prints an ink in."""
    return {"red": strokes.red, "blue": strokes.blue, "neutral": strokes.neutral}[ink]


def draw_chart(
    sheet: Sheet,
    audiogram: int,
    axes: Axes,
    look: Look,
    tones: Sequence[Tone],
    rng: np.random.Generator,
    *,
    only: TestedEar | None = None,
) -> int:
    """Draw a chart with its marks and add it to the page's truth.

    Parameters
    ----------
    sheet : Sheet
        The page.
    audiogram : int
        The audiogram it belongs to, by its number on the page.
    axes, look : Axes, Look
        Where the chart lies and how it is drawn.
    tones : sequence of Tone
        The results to show; those for which the symbol set has no glyph are left out of page and truth alike.
    rng : numpy.random.Generator
        For the misplacement of marks drawn by hand.
    only : str, optional
        The ear, where the chart is for one ear alone.

    Returns
    -------
    int
        The chart's number on the page.
    """
    draw_ruling(sheet.pen, axes, look.ruling)
    number = sheet.charts
    labels = draw_words(sheet.pen, axes, look, number)
    sheet.open_chart(audiogram, axes, labels)
    placed = [item for item in (_placed(tone, axes, look, rng) for tone in tones) if item is not None]
    drawn = _seen(placed, look.strokes.height_db * axes.db_pt)
    if look.strokes.join_over:
        _draw_marks(sheet, audiogram, number, axes, look, drawn, only, rng)
    draw_joins(sheet, axes, look, [(d.tone, d.at) for d in drawn])
    if not look.strokes.join_over:
        _draw_marks(sheet, audiogram, number, axes, look, drawn, only, rng)
    return number


def _placed(tone: Tone, axes: Axes, look: Look, rng: np.random.Generator) -> Drawn | None:
    glyph = glyph_for(tone, look.symbol_set)
    if glyph is None:
        return None
    strokes = look.strokes
    x, y = axes.x(tone.frequency_hz), axes.y(tone.level_db_hl)
    if glyph in SYMBOL_SETS[look.symbol_set].beside_line:
        x += strokes.beside * axes.step_pt * (-1 if glyph in LEFT_OF_LINE else 1)
    if strokes.wobble_db:
        off = np.clip(rng.normal(0, strokes.wobble_db, 2), -2, 2) * axes.db_pt
        x, y = x + float(off[0]), y + float(off[1])
    return Drawn(tone, glyph, ink_of(tone.ear, strokes), (x, y))


def _seen(drawn: Sequence[Drawn], height: float) -> list[Drawn]:
    """Leave out marks that nobody could see: one exactly on another of its shape, and a hollow one under a filled."""
    kept: dict[tuple[Glyph, XY], Drawn] = {}
    for item in drawn:
        kept.setdefault((item.glyph, item.at), item)
    filled = [item for item in kept.values() if item.glyph.endswith("-filled")]
    return [item for item in kept.values() if not any(_hides(over, item, HIDDEN * height) for over in filled)]


def _hides(over: Drawn, item: Drawn, reach: float) -> bool:
    near = max(abs(over.at[k] - item.at[k]) for k in (0, 1)) < reach
    return over.glyph == f"{item.glyph}-filled" and near


def _draw_marks(
    sheet: Sheet,
    audiogram: int,
    number: int,
    axes: Axes,
    look: Look,
    drawn: Sequence[Drawn],
    only: TestedEar | None,
    rng: np.random.Generator,
) -> None:
    strokes = look.strokes
    inner = len(sheet.audiograms[audiogram].charts) - 1
    height = strokes.height_db * axes.db_pt
    for count, item in enumerate(drawn):
        colour = colour_of(item.ink, strokes)
        # a white inside would hide the mark beneath, which the truth still holds
        covers = any(max(abs(item.at[k] - below.at[k]) for k in (0, 1)) < height for below in drawn[:count])
        pen_now = replace(strokes, white_inside=False) if strokes.white_inside and covers else strokes
        box = draw_glyph(sheet.pen, item.glyph, item.at, height, pen_now, colour, rng)
        arrow = arrow_for(item.tone, look.symbol_set)
        tip = None if arrow is None else sheet.fraction(draw_arrow(sheet.pen, box, arrow, strokes, colour))
        at = sheet.fraction(item.at)
        tone = item.tone
        ear = true_ear(item.glyph, look.symbol_set, item.ink, only)
        frequency, level = round(axes.hz_at(item.at[0]), 3), round(axes.level_at(item.at[1]), 3)
        threshold = true_threshold(tone, ear, Seen(inner, at, frequency, level))
        sheet.add_threshold(audiogram, threshold)
        size = ((box[2] - box[0]) / sheet.pen.width, (box[3] - box[1]) / sheet.pen.height)
        sheet.marks.append(
            PaintedMark(item.glyph, item.ink, threshold, at, size, arrow, tip, number, audiogram, in_key=False)
        )
