"""A training page of any marks by hand: every glyph, on any place of a form."""

from __future__ import annotations

import numpy as np

from .....interpret.symbols import GLYPHS, Glyph, Ink, ear_of
from ...chart.axes import Axes
from ...chart.chance import any_look, any_scale, pick
from ...chart.convention import LEFT_OF_LINE
from ...chart.ruling import draw_ruling, draw_words
from ...hand.chart import HandMark, draw_placed
from ...hand.filling import Filling, any_filling
from ...hand.joins import draw_run
from ...hand.marks import InkBox
from ...hand.words.notes import draw_fields, scrawl
from ...patient import Tone
from ...pen import XY
from ...sheet import Sheet
from ...truth import Arrow
from ...wild.chart import MEANINGS
from ..around import any_date
from ..form import new_sheet, seat
from ..training import any_paper
from .paper import any_wear, copied

_WEIGHTS: dict[Glyph, float] = {
    "vee": 8, "letter-s": 5, "square-filled": 5, "triangle-filled": 3, "circle-filled": 3, "cross-filled": 3,
    "caret": 3, "letter-a": 2, "letter-m": 2, "letter-u": 3, "foot-left": 2, "foot-right": 3,
    "half-bracket-left": 2, "half-bracket-right": 2, "circle": 0.4, "cross": 0.4,
}  # fmt: skip
"""How often a glyph is drawn here, over one that other pages hold enough of: what they hold least of comes most."""
_ARROWS: dict[str, Arrow] = {"right": "down-left", "left": "down-right"}
_CLOSE = 0.3
"""Marks of one shape nearer than this share of their height cannot be told apart."""


def pen_medley(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw many kinds of marks by hand on one chart, as no single symbol set has them."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.4))
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.45, wear=any_wear(rng))
    top = draw_fields(sheet, rng, (45, 24, pen.width - 45, 0), "Helvetica", 9, filling, date)
    scale = any_scale(rng, high=0.02)
    look = copied(rng, any_look(rng, scale, size=float(rng.uniform(6, 10)), mono=mono))
    bottom = pen.height * float(rng.uniform(0.6, 0.95))
    axes = seat((35, top + 6, pen.width - 35, bottom), scale, look, (float(rng.random()), 0.2))
    draw_ruling(pen, axes, look.ruling)
    labels = draw_words(pen, axes, look, 0)
    if filling.wear is not None:
        filling.wear(pen, axes.frame, rng)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    sheet.open_chart(audiogram, axes, labels)
    boxes: list[InkBox] = []
    for glyph in _chosen(rng):
        marks = _series(rng, glyph, axes, filling)
        if len(marks) > 1 and rng.random() < 0.35:
            heard = [m.at for m in marks if m.tone.response]
            draw_run(sheet, heard, pick(rng, ("free", "dashed", "ruler")), filling, marks[0].tool,
                     filling.height(axes), rng)  # fmt: skip
        for mark in marks:
            boxes += draw_placed(sheet, audiogram, axes, filling, mark, rng)
    scrawl(sheet, rng, axes.frame, filling, boxes, 0, int(rng.poisson(1.5)))
    return sheet


def _chosen(rng: np.random.Generator) -> list[Glyph]:
    """Choose glyphs, mostly such as forms seldom hold."""
    weights = np.array([_WEIGHTS.get(glyph, 1.0) for glyph in GLYPHS])
    count = int(rng.integers(4, 10))
    return [GLYPHS[int(k)] for k in rng.choice(len(GLYPHS), count, replace=False, p=weights / weights.sum())]


def _series(rng: np.random.Generator, glyph: Glyph, axes: Axes, filling: Filling) -> list[HandMark]:
    """Set marks of one glyph along a curve."""
    meaning, low, high = MEANINGS[glyph], axes.scale.levels[0], axes.scale.levels[1]
    tool = pick(rng, (filling.right, filling.left, filling.dark), (0.4, 0.4, 0.2))
    named: Ink = "neutral" if filling.one_pen else tool.ink
    side = 0.0 if rng.random() < 0.5 else filling.beside * (-1 if glyph in LEFT_OF_LINE else 1)
    level, step = float(rng.uniform(low, high)), float(rng.normal(0, 6))
    height = filling.height(axes)
    taken: list[XY] = []
    marks: list[HandMark] = []
    for hz in axes.scale.printed:
        level = float(np.clip(level + step + rng.normal(0, 5), low, high))
        if rng.random() < 0.35:
            continue
        stands = 5 * round(level / 5)
        off, octaves = filling.aim(rng)
        at = (axes.x(hz) + (octaves + side) * axes.step_pt, axes.y(stands + off))
        if any(max(abs(at[k] - other[k]) for k in (0, 1)) < _CLOSE * height for other in taken):
            continue
        taken.append(at)
        heard = bool(rng.random() < 0.85)
        ear = ear_of(meaning, named)
        arrow = None if heard else _ARROWS.get(ear, "down") if rng.random() < 0.9 else "down"
        tone = Tone(ear, meaning.conduction, meaning.masked, hz, float(stands), heard, meaning.measure, meaning.aided)
        marks.append(HandMark(tone, glyph, tool, at, arrow, ear))
    return marks
