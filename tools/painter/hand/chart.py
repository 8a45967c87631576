"""A printed chart filled in by hand: marks a little off their place, joining lines, wrong marks struck out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ....interpret.record import Ear, Seen
from ....interpret.symbols import SYMBOL_SETS, Glyph, Ink
from ..chart.axes import Axes
from ..chart.convention import LEFT_OF_LINE, arrow_for, glyph_for, true_ear, true_threshold
from ..chart.look import Look
from ..chart.ruling import draw_ruling, draw_words
from ..patient import TestedEar, Tone
from ..pen import XY, Colour
from ..sheet import Sheet
from ..truth import Arrow, PaintedMark
from .filling import Filling, Tool
from .joins import draw_hand_joins
from .marks import InkBox, draw_arrow, draw_mark, strike_out

CLEAR_OF_OTHERS = 1.7
"""How far a struck-out mark stays from others, in heights of a mark: what strikes it must not strike them."""


DARK: Colour = (0.12, 0.12, 0.15)
"""A pen that is neither red nor blue."""


@dataclass(frozen=True, slots=True)
class HandMark:
    """A result with its glyph, the pen it is drawn with, its place in points, its arrow, and the ear that it names."""

    tone: Tone
    glyph: Glyph
    tool: Tool
    at: XY
    arrow: Arrow | None
    ear: Ear


def draw_hand_chart(
    sheet: Sheet,
    audiogram: int,
    axes: Axes,
    look: Look,
    filling: Filling,
    tones: Sequence[Tone],
    rng: np.random.Generator,
    *,
    only: TestedEar | None = None,
) -> tuple[int, list[InkBox]]:
    """Draw a chart of a form and fill it in by hand, and add it to the page's truth.

    Parameters
    ----------
    sheet : Sheet
        The page.
    audiogram : int
        The audiogram it belongs to, by its number on the page.
    axes, look : Axes, Look
        Where the printed chart lies and how it looks.
    filling : Filling
        Who fills it in, with what, and how well.
    tones : sequence of Tone
        The results to show; those for which the symbol set has no glyph are left out of page and truth alike.
    rng : numpy.random.Generator
        All chance comes from it.
    only : str, optional
        The ear, where the chart is for one ear alone.

    Returns
    -------
    tuple of int and list of tuple
        The chart's number on the page, and the boxes in points of all that writing must leave free.
    """
    draw_ruling(sheet.pen, axes, look.ruling)
    number = sheet.charts
    labels = draw_words(sheet.pen, axes, look, number)
    if filling.wear is not None:
        filling.wear(sheet.pen, axes.frame, rng)
    sheet.open_chart(audiogram, axes, labels)
    height = filling.height(axes)
    marks = placed(tones, axes, look, filling, rng, only=only)
    pairs = [(mark.tone, mark.at) for mark in marks]
    boxes: list[InkBox] = []
    if filling.joins_first:
        draw_hand_joins(sheet, filling, pairs, height, rng)
    for mark in marks:
        boxes += draw_placed(sheet, audiogram, axes, filling, mark, rng)
    if not filling.joins_first:
        draw_hand_joins(sheet, filling, pairs, height, rng)
    boxes += _wrong_marks(sheet, axes, filling, marks, rng)
    return number, boxes


def placed(
    tones: Sequence[Tone],
    axes: Axes,
    look: Look,
    filling: Filling,
    rng: np.random.Generator,
    *,
    only: TestedEar | None = None,
) -> list[HandMark]:
    """Say where the hand sets each result's mark."""
    marks: list[HandMark] = []
    for tone in tones:
        glyph = glyph_for(tone, look.symbol_set)
        if glyph is None:
            continue
        level, octaves = filling.aim(rng)
        x = axes.x(tone.frequency_hz) + octaves * axes.step_pt
        if glyph in SYMBOL_SETS[look.symbol_set].beside_line and look.strokes.beside:
            aside = min(0.6 * filling.height(axes) / axes.step_pt, 0.13)
            out = filling.beside + aside * _beside_another(tone, glyph, marks)
            x += out * axes.step_pt * (-1 if glyph in LEFT_OF_LINE else 1)
        tool = _pen_for(tone, glyph, look, filling)
        named: Ink = "neutral" if filling.one_pen or tone.ear not in ("right", "left") else tool.ink
        at = (x, axes.y(tone.level_db_hl + level))
        ear = true_ear(glyph, look.symbol_set, named, only)
        marks.append(HandMark(tone, glyph, tool, at, arrow_for(tone, look.symbol_set), ear))
    return marks


def _pen_for(tone: Tone, glyph: Glyph, look: Look, filling: Filling) -> Tool:
    """Give the pen of a mark; where ink names the ear, one of no ear is not drawn in an ear's colour."""
    tool = filling.tool(tone.ear)
    by_ink = SYMBOL_SETS[look.symbol_set].meanings[glyph].ear == "by-colour"
    if by_ink and tone.ear not in ("right", "left") and tool.ink != "neutral" and not filling.one_pen:
        return replace(tool, colour=DARK, ink="neutral")
    return tool


def _beside_another(tone: Tone, glyph: Glyph, marks: Sequence[HandMark]) -> bool:
    """Tell whether a mark stands at its place already, on the same side of the line: this one goes further out."""
    return any(
        m.tone.frequency_hz == tone.frequency_hz
        and m.tone.conduction == "bone"
        and abs(m.tone.level_db_hl - tone.level_db_hl) <= 5
        and (m.glyph in LEFT_OF_LINE) == (glyph in LEFT_OF_LINE)
        for m in marks
    )


def draw_placed(
    sheet: Sheet, audiogram: int, axes: Axes, filling: Filling, mark: HandMark, rng: np.random.Generator
) -> list[InkBox]:
    """Draw one mark with its arrow on the page's newest chart, add it to the truth, and give the boxes of its ink."""
    tone, tool = mark.tone, mark.tool
    box = draw_mark(sheet.pen, mark.glyph, mark.at, filling.height(axes), filling.writer, tool.nib, tool.colour, rng)
    boxes, tip = [box], None
    if mark.arrow is not None:
        end = draw_arrow(sheet.pen, box, mark.arrow, filling.writer, tool.nib, tool.colour, rng)
        boxes.append((min(box[0], end[0]), box[3], max(box[2], end[0]), end[1]))
        tip = sheet.fraction(end)
    at = sheet.fraction(mark.at)
    frequency, level = round(axes.hz_at(mark.at[0]), 3), round(axes.level_at(mark.at[1]), 3)
    threshold = true_threshold(tone, mark.ear, Seen(len(sheet.audiograms[audiogram].charts) - 1, at, frequency, level))
    sheet.add_threshold(audiogram, threshold)
    size = ((box[2] - box[0]) / sheet.pen.width, (box[3] - box[1]) / sheet.pen.height)
    sheet.marks.append(
        PaintedMark(
            mark.glyph, tool.ink, threshold, at, size, mark.arrow, tip, sheet.charts - 1, audiogram, in_key=False
        )
    )
    return boxes


def _wrong_marks(
    sheet: Sheet, axes: Axes, filling: Filling, marks: Sequence[HandMark], rng: np.random.Generator
) -> list[InkBox]:
    """Draw marks that were set wrong and struck out: beside the mark that holds, or at another level."""
    boxes: list[InkBox] = []
    height = filling.height(axes)
    low, high = axes.scale.levels
    for _ in range(int(rng.binomial(4, filling.wrong)) if marks else 0):
        mark = marks[int(rng.integers(len(marks)))]
        beside = rng.random() < 0.35
        level = mark.tone.level_db_hl + float(rng.choice((-10, -5, 0, 5) if beside else (-25, -15, -10, 10, 15, 25)))
        aside = float(rng.choice((-1, 1)) * rng.uniform(1.75, 2.4)) * height if beside else 0.0
        off, octaves = filling.aim(rng)
        at = (mark.at[0] + aside + octaves * axes.step_pt, axes.y(level + off))
        others = [m.at for m in marks] + [((b[0] + b[2]) / 2, (b[1] + b[3]) / 2) for b in boxes]
        tips = [m for m in marks if not m.tone.response]
        reach = CLEAR_OF_OTHERS * height
        near = any(max(abs(x - at[0]), abs(y - at[1])) < reach for x, y in others)
        near = near or any(max(abs(m.at[0] - at[0]), abs(m.at[1] + height - at[1])) < 1.5 * reach for m in tips)
        if near or not low <= level <= high:
            continue
        box = draw_mark(sheet.pen, mark.glyph, at, height, filling.writer, mark.tool.nib, mark.tool.colour, rng)
        boxes.append(strike_out(sheet.pen, box, mark.tool.nib, mark.tool.colour, rng, scribbled=filling.scribbled))
    return boxes


def as_printed(look: Look) -> Look:
    """Give the look of what is printed on the form itself: black specimens in its key, drawn by a machine."""
    return replace(look, strokes=replace(look.strokes, one_ink=True, wobble_db=0.0, process="stroke"))
