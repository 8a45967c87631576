"""Training forms that are filled in by hand: of many printers and copiers, with any pen and any writer."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...chart.chance import any_look, any_scale, pick
from ...hand.chart import as_printed, draw_hand_chart
from ...hand.filling import Filling, any_filling
from ...hand.words.notes import draw_fields, hand_date, jot, print_title, scrawl
from ...patient import TestedEar
from ...sheet import Sheet
from ..around import any_date, draw_foot, draw_speech
from ..form import BOTH, Box, add_key, invent, new_sheet, of_ear, seat
from ..training import any_busyness, any_key_look, any_paper, titled
from .paper import any_wear, copied, folded, punched, worn

_TITLES = ("AUDIOGRAM", "Audiogram", "Hearing test", "Pure-tone audiogram", "Harbour Lane Clinic", "Audiometry record",
           "Tonaudiogramm", "HEARING RECORD", "Audiological assessment")  # fmt: skip
_WORDS = (
    "Good cooperation", "Cerumen removed R", "ringing both ears", "noise at work 20 y", "follow up 12 months",
    "insert phones", "see letter", "explained to patient", "no change since last", "hearing aid L ok",
    "retest 1 kHz ok", "masking narrow band", "referred to ENT", "worse than 2009?", "tired at the end",
)  # fmt: skip


def _look(rng: np.random.Generator, scale_size: float, mono: bool, filling: Filling, **scale: float) -> tuple:
    chosen = any_scale(rng, **scale)
    look = copied(rng, any_look(rng, chosen, size=scale_size, mono=mono))
    return chosen, replace(look, strokes=replace(look.strokes, one_ink=filling.one_pen))


def _one(
    rng: np.random.Generator,
    mono: bool,
    sheet: Sheet,
    box: Box,
    filling: Filling,
    *,
    size: float,
    notes: int,
    date: str,
    key: float = 0.25,
    ears: tuple[TestedEar, ...] = BOTH,
) -> Box:
    """Draw one chart with both ears, filled in, and give its frame."""
    scale, look = _look(rng, size, mono, filling, high=0.03)
    tones = invent(rng, scale, look, ears=ears, busy=any_busyness(rng), extras=0.2, unnamed=0.3)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat(box, scale, look, (float(rng.random()), float(rng.random()) * 0.5))
    chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    scrawl(sheet, rng, axes.frame, filling, taken, chart, notes)
    if rng.random() < key:
        printed = look if rng.random() < 0.3 else as_printed(look)
        at = (axes.frame[0], axes.frame[3] + size * 5)
        add_key(sheet, audiogram, chart, printed, at, any_key_look(rng, size * 0.95), all_glyphs=True)
    return axes.frame


def penned(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one large chart filled in by hand, mostly in red and blue."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.25, wear=any_wear(rng))
    face = pick(rng, ("Helvetica", "Times-Roman", "Courier"))
    top = print_title(pen, rng, (45, 24, pen.width - 45, 0), face, 10, _TITLES)
    top = draw_fields(sheet, rng, (45, top + 6, pen.width - 45, 0), face, float(rng.uniform(8, 11)), filling, date)
    bottom = pen.height * float(rng.uniform(0.6, 0.85))
    holes = rng.random() < 0.2
    box = (58 if holes else 40, top + 8, pen.width - 40, bottom)
    _one(rng, mono, sheet, box, filling, size=float(rng.uniform(7, 10)), notes=int(rng.poisson(1.2)), date=date)
    if rng.random() < 0.6:
        jot(sheet, rng, (50, bottom + 30, pen.width - 50, pen.height - 40), filling,
            [str(words) for words in rng.permutation(_WORDS)[:3]], float(rng.uniform(7, 12)))  # fmt: skip
    if holes:
        punched(pen, float(pick(rng, (0.1, 0.95))))
    if rng.random() < 0.15:
        folded(pen, rng, int(rng.integers(1, 3)))
    return sheet


def jotted(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a worn copy of a form filled in with one pen."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    wear = worn(float(rng.uniform(5, 60)), float(rng.exponential(3)))
    filling = any_filling(rng, mono=mono, one_pen=1.0, wear=wear, wrong=0.12)
    top = print_title(pen, rng, (45, 24, pen.width - 45, 0), "Courier", 9, _TITLES)
    if rng.random() < 0.7:
        top = draw_fields(sheet, rng, (45, top + 6, pen.width - 45, 0), "Courier", 9, filling, date)
    bottom = pen.height * float(rng.uniform(0.55, 0.9))
    box = (float(rng.uniform(30, 80)), top + 8, pen.width - float(rng.uniform(30, 80)), bottom)
    _one(rng, mono, sheet, box, filling, size=float(rng.uniform(6.5, 10)), notes=int(rng.poisson(2)), date=date)
    if rng.random() < 0.4:
        draw_foot(pen, rng, "Courier")
    if rng.random() < 0.2:
        folded(pen, rng, int(rng.integers(1, 3)))
    return sheet


def filled_in(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear, side by side or one above the other, filled in by hand."""
    stacked = rng.random() < 0.35
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(not stacked and rng.random() < 0.5))
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.5, wear=any_wear(rng))
    top = print_title(pen, rng, (40, 16, pen.width - 40, 0), "Helvetica", 8, _TITLES)
    top = draw_fields(sheet, rng, (40, top + 4, pen.width - 40, 0), "Helvetica", 8, filling, date) + 4
    size = float(rng.uniform(5.5, 8))
    scale, look = _look(rng, size, mono, filling, high=0.02)
    middle, half = pen.width / 2, (pen.height - 36 - top) / 2
    low = min(pen.height - 60, top + pen.width * 0.6)
    boxes = ((28, top, middle - 6, low), (middle + 6, top, pen.width - 28, low))
    if stacked:
        boxes = ((60, top, pen.width - 60, top + half - 8), (60, top + half + 8, pen.width - 60, pen.height - 30))
    tones = invent(rng, scale, look, alone=True, busy=any_busyness(rng), extras=0.2, unnamed=0.3)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    for ear, box, own in zip(BOTH, boxes, titled(rng, as_printed(look)), strict=True):
        axes = seat(box, scale, own)
        shown = of_ear(tones, ear)
        chart, taken = draw_hand_chart(sheet, audiogram, axes, own, filling, shown, rng, only=ear)
        scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.8)))
    return sheet


def pen_notes(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart full of writing, numbers and wrong marks struck out."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.3))
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.5, wear=any_wear(rng), wrong=0.5)
    top = draw_fields(sheet, rng, (45, 24, pen.width - 45, 0), "Helvetica", 9, filling, date)
    box = (35, top + 6, pen.width - 35, pen.height * float(rng.uniform(0.7, 0.95)))
    frame = _one(rng, mono, sheet, box, filling, size=float(rng.uniform(6.5, 10)), notes=int(rng.integers(3, 14)),
                 date=date, key=0.1)  # fmt: skip
    if frame[3] + 60 < pen.height:
        jot(sheet, rng, (50, frame[3] + 40, pen.width - 50, pen.height - 30), filling,
            [str(words) for words in rng.permutation(_WORDS)[:4]], float(rng.uniform(7, 12)))  # fmt: skip
    return sheet


def pen_card(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a small chart in a record of handwriting, with a table of speech results."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.5, wear=any_wear(rng))
    filling = replace(filling, mark_pt=float(rng.uniform(6.5, 12)))
    top = draw_fields(sheet, rng, (45, 28, pen.width - 45, 0), "Times-Roman", 10, filling, date)
    width = float(rng.uniform(190, 330))
    left = float(rng.uniform(35, pen.width - width - 35))
    upper = top + float(rng.uniform(10, 180))
    words = [str(line) for line in rng.permutation(_WORDS)]
    if upper - top > 60:
        jot(sheet, rng, (50, top, pen.width - 50, upper - 10), filling, words[:3], float(rng.uniform(8, 13)))
    box = (left, upper, left + width, upper + width * 1.1)
    frame = _one(rng, mono, sheet, box, filling, size=float(rng.uniform(5, 7.5)), notes=int(rng.poisson(0.6)),
                 date=date, key=0.0)  # fmt: skip
    below = frame[3] + 40
    if rng.random() < 0.5:
        below = draw_speech(pen, rng, (60, below), "Times-Roman", 8) + 10
    jot(sheet, rng, (50, below, pen.width - 50, pen.height - 30), filling, words[3:8], float(rng.uniform(8, 13)))
    return sheet


def pen_dates(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw two to four charts of different dates, each filled in by its own hand."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen = sheet.pen
    columns, rows = pick(rng, ((2, 1), (1, 2), (2, 2)))
    days = sorted(any_date(rng) for _ in range(columns * rows))
    top = print_title(pen, rng, (40, 16, pen.width - 40, 0), "Helvetica", 9, _TITLES) + 6
    width, height = (pen.width - 50) / columns, (pen.height - 40 - top) / rows
    height = min(height, width * 1.2)
    first = any_filling(rng, mono=mono, wear=any_wear(rng))
    scale, look = _look(rng, float(rng.uniform(5.5, 7)) if columns == 2 else 8.0, mono, first, high=0.0)
    for k, day in enumerate(days):
        filling = first if rng.random() < 0.5 else replace(any_filling(rng, mono=mono), wear=first.wear)
        own = replace(look, strokes=replace(look.strokes, one_ink=filling.one_pen))
        left, upper = 25 + width * (k % columns), top + height * (k // columns)
        tones = invent(rng, scale, own, busy=any_busyness(rng), extras=0.2, unnamed=0.3)
        audiogram = sheet.open_audiogram(own.symbol_set, day)
        axes = seat((left + 4, upper + 16, left + width - 4, upper + height - 8), scale, own)
        chart, taken = draw_hand_chart(sheet, audiogram, axes, own, filling, tones, rng)
        jot(sheet, rng, (left + 30, upper, left + width, upper + 16), filling, [hand_date(rng, day)], 9)
        scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.5)))
    return sheet
