"""The training form whose marks a hand draws."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..chart.chance import any_look, any_scale, pick
from ..chart.draw import draw_chart
from ..chart.writer import any_writer
from ..pen import Colour
from ..sheet import Sheet
from .around import any_date, draw_head, draw_scribble
from .form import invent, new_sheet, seat
from .training import any_busyness, any_paper


def any_pen(rng: np.random.Generator) -> tuple[float, tuple[Colour, ...]]:
    """Choose a ballpoint, a felt-tip, a pencil or a fountain pen: the width of its line in points, and its inks."""
    dark: tuple[Colour, ...] = ((0.1, 0.1, 0.15), (0.1, 0.15, 0.5), (0.25, 0.25, 0.25))
    kind = pick(rng, ("ballpoint", "felt-tip", "pencil", "fountain"), (0.5, 0.2, 0.15, 0.15))
    if kind == "pencil":
        shade = float(rng.uniform(0.3, 0.55))
        return float(rng.uniform(0.6, 1.4)), ((shade, shade, shade + 0.02),)
    low, high = {"ballpoint": (0.6, 1.4), "felt-tip": (1.5, 2.8), "fountain": (0.9, 1.9)}[kind]
    return float(rng.uniform(low, high)), dark


def penned(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw marks by hand, with one or two pens, on a printed form."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    scale = any_scale(rng, high=0.03)
    look = any_look(rng, scale, size=float(rng.uniform(7, 10)), mono=mono)
    width, inks = any_pen(rng)
    black_or_blue = pick(rng, inks)
    strokes = replace(
        look.strokes,
        width=width,
        process="stroke",
        round_corners=True,
        white_inside=False,
        wobble_db=float(rng.uniform(0.3, 1.0)),
        writer=any_writer(rng),
        neutral=black_or_blue,
    )
    look = replace(look, strokes=strokes)
    top = draw_head(sheet, rng, (45, 30, pen.width - 45, 0), "Helvetica", date)
    tones = invent(rng, scale, look, busy=any_busyness(rng), extras=0.2, unnamed=0.3)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((45, top + 14, pen.width - 45, pen.height * float(rng.uniform(0.6, 0.8))), scale, look)
    chart = draw_chart(sheet, audiogram, axes, look, tones, rng)
    if rng.random() < 0.25:
        draw_scribble(pen, rng, axes.frame, chart)
    return sheet
