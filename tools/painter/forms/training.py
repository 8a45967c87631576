"""Training forms: the layout is the family's, nearly all else is left to chance."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..chart.axes import Scale
from ..chart.chance import any_look, any_scale, pick
from ..chart.draw import draw_chart
from ..chart.key import KeyLook
from ..chart.look import Look
from ..patient import TestedEar
from ..sheet import Sheet
from .around import (
    any_date,
    draw_foot,
    draw_head,
    draw_numbers,
    draw_remarks,
    draw_scribble,
    draw_speech,
    draw_stamp,
    draw_tympanogram,
)
from .form import A4, BOTH, LETTER, Box, add_key, draw_pair, invent, new_sheet, seat

_RIGHT_TITLES = ("Right ear", "RIGHT", "Right", "R", "Rechtes Ohr", "Right Ear (red)")
_LEFT_TITLES = ("Left ear", "LEFT", "Left", "L", "Linkes Ohr", "Left Ear (blue)")


def any_paper(rng: np.random.Generator) -> tuple[float, float]:
    """Choose A4 or Letter."""
    return A4 if rng.random() < 0.65 else LETTER


def any_key_look(rng: np.random.Generator, size: float) -> KeyLook:
    """Invent how a key is set."""
    return KeyLook(
        wording=pick(rng, ("full", "short", "trade", "german"), (0.4, 0.2, 0.25, 0.15)),
        columns=bool(rng.random() < 0.4),
        frame=bool(rng.random() < 0.6),
        head=pick(rng, ("Symbols", "Key", "Legend", "Zeichen", None)),
        size=size,
        arrow_row=bool(rng.random() < 0.3),
    )


def titled(rng: np.random.Generator, look: Look) -> tuple[Look, Look]:
    """Give the looks of the right and the left ear's chart, each with its title."""
    which = int(rng.integers(0, len(_RIGHT_TITLES)))
    coloured = not look.strokes.one_ink and rng.random() < 0.5
    looks = []
    for titles, ink in ((_RIGHT_TITLES, look.strokes.red), (_LEFT_TITLES, look.strokes.blue)):
        colour = ink if coloured else look.lettering.colour
        looks.append(replace(look, lettering=replace(look.lettering, title=titles[which], title_colour=colour)))
    return looks[0], looks[1]


def any_busyness(rng: np.random.Generator) -> float:
    """Choose how much is tested, 0 to 1."""
    return float(rng.uniform(0.1, 0.95))


def _one(
    rng: np.random.Generator,
    mono: bool,
    sheet: Sheet,
    box: Box,
    scale: Scale,
    size: float,
    *,
    key: bool = False,
    key_at: str = "below",
    date: str | None = None,
    ears: tuple[TestedEar, ...] = BOTH,
) -> None:
    look = any_look(rng, scale, size=size, mono=mono)
    tones = invent(rng, scale, look, ears=ears, busy=any_busyness(rng), extras=0.14, unnamed=0.1)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat(box, scale, look, (float(rng.random()), float(rng.random()) * 0.5))
    chart = draw_chart(sheet, audiogram, axes, look, tones, rng)
    if rng.random() < 0.1:
        draw_scribble(sheet.pen, rng, axes.frame, chart)
    if key:
        frame = axes.frame
        at = (frame[2] + 22, frame[1] + 10) if key_at == "side" else (frame[0], frame[3] + size * 5)
        if key_at == "inside":
            at = (frame[0] + 5, frame[3] - size * float(rng.uniform(8, 14)))
        add_key(
            sheet,
            audiogram,
            chart,
            look,
            at,
            any_key_look(rng, size * 0.95),
            all_glyphs=bool(key_at != "inside" and rng.random() < 0.6),
        )


def single(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one large chart under a letterhead."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng)
    look_size = float(rng.uniform(7, 11))
    top = draw_head(sheet, rng, (45, 30, pen.width - 45, 0), "Helvetica", date)
    bottom = pen.height * float(rng.uniform(0.6, 0.8))
    _one(rng, mono, sheet, (45, top + 14, pen.width - 45, bottom), scale, look_size, date=date)
    if rng.random() < 0.5:
        draw_remarks(pen, rng, (50, bottom + 20, pen.width - 50, pen.height - 60), "Helvetica", 9, by_hand=True)
    if rng.random() < 0.6:
        draw_foot(pen, rng, "Helvetica")
    return sheet


def keyed(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart with a printed key at its side or below."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng)
    size = float(rng.uniform(6.5, 9))
    side = rng.random() < 0.5
    top = draw_head(sheet, rng, (45, 30, pen.width - 45, 0), "Times-Roman", date)
    box = (40, top + 14, pen.width - (175 if side else 40), pen.height * (0.72 if side else 0.6))
    inside = rng.random() < 0.15
    key_at = "inside" if inside else "side" if side else "below"
    _one(rng, mono, sheet, box, scale, size, key=True, key_at=key_at, date=date)
    return sheet


def beside(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear, side by side."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.4))
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng, equal=0.25)
    look = any_look(rng, scale, size=float(rng.uniform(5.5, 8)), mono=mono)
    top = draw_head(sheet, rng, (40, 25, pen.width - 40, 0), "Helvetica", date)
    bottom = min(pen.height - 120, top + pen.width * 0.55)
    middle = pen.width / 2
    boxes = ((28, top + 16, middle - 6, bottom), (middle + 6, top + 16, pen.width - 28, bottom))
    tones = invent(rng, scale, look, alone=True, busy=any_busyness(rng), extras=0.14, unnamed=0.1)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart, _ = draw_pair(sheet, audiogram, boxes, scale, titled(rng, look), tones, rng)
    if rng.random() < 0.4:
        at = (float(rng.uniform(40, 200)), bottom + 12)
        add_key(sheet, audiogram, chart, look, at, any_key_look(rng, 7.5), all_glyphs=True)
    return sheet


def stacked(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear, one above the other."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng)
    look = any_look(rng, scale, size=float(rng.uniform(6, 8.5)), mono=mono)
    top = draw_head(sheet, rng, (50, 20, pen.width - 50, 0), "Helvetica", date, size=8) + 8
    half = (pen.height - 40 - top) / 2
    side = float(rng.uniform(30, 110))
    boxes = ((side, top, pen.width - side, top + half - 8), (side, top + half + 8, pen.width - side, pen.height - 36))
    tones = invent(rng, scale, look, alone=True, busy=any_busyness(rng), extras=0.14, unnamed=0.1)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    draw_pair(sheet, audiogram, boxes, scale, titled(rng, look), tones, rng)
    return sheet


def dates(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw two to four charts of different dates on one page."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen = sheet.pen
    scale = any_scale(rng, high=0.0)
    columns, rows = pick(rng, ((2, 1), (1, 2), (2, 2)))
    look = any_look(rng, scale, size=float(rng.uniform(5.5, 7)) if columns == 2 else 8.0, mono=mono)
    days = sorted(any_date(rng) for _ in range(columns * rows))
    top = draw_head(sheet, rng, (40, 20, pen.width - 40, 0), "Helvetica", days[-1], size=8) + 10
    width, height = (pen.width - 50) / columns, (pen.height - 40 - top) / rows
    height = min(height, width * 1.15)
    for k, day in enumerate(days):
        left, upper = 25 + width * (k % columns), top + height * (k // columns)
        dated = replace(look, lettering=replace(look.lettering, title=day))
        tones = invent(rng, scale, look, busy=any_busyness(rng), extras=0.14, unnamed=0.1)
        audiogram = sheet.open_audiogram(look.symbol_set, day)
        axes = seat((left + 4, upper, left + width - 4, upper + height - 8), scale, dated)
        draw_chart(sheet, audiogram, axes, dated, tones, rng)
    return sheet


def report(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart among the other parts of a report: speech table, tympanograms, remarks."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face = pick(rng, ("Helvetica", "Times-Roman", "Courier"))
    scale = any_scale(rng)
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), face, date) + 10
    height = float(rng.uniform(300, 380))
    on_left = rng.random() < 0.6
    box = (40, top, pen.width - 190, top + height) if on_left else (190, top, pen.width - 40, top + height)
    _one(rng, mono, sheet, box, scale, float(rng.uniform(6, 8.5)), date=date)
    x = pen.width - 170 if on_left else 40
    draw_speech(pen, rng, (x, top + 20), face, 6)
    draw_remarks(pen, rng, (x, top + 90, x + 130, top + 220), face, 8, by_hand=True)
    if rng.random() < 0.7:
        for k, title in enumerate(("Right ear", "Left ear")):
            left = 60 + 250 * k
            draw_tympanogram(pen, rng, (left, top + height + 40, left + 200, top + height + 150), face, 7, title)
    if rng.random() < 0.5:
        draw_stamp(pen, rng, (pen.width - 160, pen.height - 60))
    draw_foot(pen, rng, face)
    return sheet


def small(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a small chart somewhere on a page of words."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng, high=0.0)
    width = float(rng.uniform(190, 270))
    left = float(rng.uniform(35, pen.width - width - 35))
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), "Times-Roman", date) + 12
    draw_remarks(pen, rng, (50, top, pen.width - 50, top + 90), "Times-Roman", 10, by_hand=True)
    upper = top + float(rng.uniform(100, 240))
    _one(rng, mono, sheet, (left, upper, left + width, upper + width * 1.1), scale, float(rng.uniform(5, 7)), date=date)
    return sheet


def wide(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a landscape page with one chart and a key."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=True)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng, high=0.2, equal=0.3)
    top = draw_head(sheet, rng, (45, 22, pen.width - 45, 0), "Helvetica", date, size=8) + 6
    box = (35, top, pen.width - 190, pen.height - 30)
    _one(
        rng, mono, sheet, box, scale, float(rng.uniform(7, 10)), key=bool(rng.random() < 0.7), key_at="side", date=date
    )
    return sheet


def uneven(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart whose axes are out of the ordinary: equal steps, to 16 kHz, kHz labels, free aspect."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.3))
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng, equal=0.6, high=0.5, free=0.7)
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), "Helvetica", date) + 14
    _one(rng, mono, sheet, (40, top, pen.width - 40, pen.height - 60), scale, float(rng.uniform(6, 10)), date=date)
    return sheet


def one_ear(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart on which only one ear was tested, with a table of its numbers below."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    ear: TestedEar = pick(rng, ("right", "left"))
    scale = any_scale(rng)
    look = any_look(rng, scale, size=float(rng.uniform(6.5, 9)), mono=mono)
    look = titled(rng, look)[0 if ear == "right" else 1]
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), "Helvetica", date) + 14
    tones = invent(rng, scale, look, ears=(ear,), alone=True, busy=any_busyness(rng), extras=0.14, unnamed=0.1)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((60, top, pen.width - 60, pen.height * 0.68), scale, look)
    draw_chart(sheet, audiogram, axes, look, tones, rng, only=ear)
    if rng.random() < 0.25:
        draw_numbers(pen, tones, (60, pen.height * 0.75), "Helvetica", 8, pen.width - 120)
    return sheet


def strip(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw two charts with both ears each, side by side over half a page: air conduction before and after."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen = sheet.pen
    scale = any_scale(rng, high=0.0)
    look = any_look(rng, scale, size=float(rng.uniform(5.2, 7)), mono=mono)
    days = sorted((any_date(rng), any_date(rng)))
    top = draw_head(sheet, rng, (40, 28, pen.width - 40, 0), "Helvetica", days[1]) + 12
    for k, day in enumerate(days):
        left = 24 + k * (pen.width - 48) / 2
        dated = replace(look, lettering=replace(look.lettering, title=day))
        axes = seat((left + 3, top, left + (pen.width - 48) / 2 - 3, top + 300), scale, dated)
        audiogram = sheet.open_audiogram(look.symbol_set, day)
        draw_chart(
            sheet,
            audiogram,
            axes,
            dated,
            invent(rng, scale, look, busy=any_busyness(rng), extras=0.14, unnamed=0.1),
            rng,
        )
    draw_remarks(pen, rng, (50, top + 340, pen.width - 50, pen.height - 100), "Helvetica", 9, by_hand=True)
    return sheet
