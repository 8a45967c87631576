"""Benchmark forms of several charts with ordinary axes: one per ear, or one per date."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .. import fonts
from ..chart.axes import Scale
from ..chart.chance import pick
from ..chart.draw import draw_chart
from ..chart.look import Lettering, Look, Rule, Ruling, Shape, Strokes
from ..pen import BLACK, WHITE
from ..sheet import Sheet
from .around import (
    any_date,
    date_words,
    draw_remarks,
    draw_speech,
    draw_table,
    draw_tympanogram,
)
from .form import A4, LETTER, draw_pair, invent, new_sheet, seat

_FULL = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
_NO_RULE = Rule(0.0)


def quay(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear, side by side, with a speech table and tympanograms below."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Vera"), fonts.load("VeraBd")
    scale = Scale(_FULL[1:], (-10, 110), margin=(0.3, 0.3, 5, 5))
    line = Rule(0.4, (0.6, 0.65, 0.75))
    strokes = Strokes(
        height_db=float(rng.uniform(7.5, 9)),
        width=1.1,
        one_ink=mono,
        red=(0.9, 0.0, 0.1),
        blue=(0.0, 0.25, 0.9),
        process="polygon",
        shape=Shape(sides=20, angle=0.6, bracket=0.3),
        beside=0.2,
        join=(Rule(1.1), Rule(1.1)),
        bone_join=pick(rng, ((None, None), (Rule(0.7, dash=(2, 2)), Rule(0.7, dash=(2, 2))))),
    )
    words = Lettering(
        face, 6.2, label_form="K", inter_labelled=False, gap=4, frequency_caption=None, level_caption="dB HL"
    )
    look = Look("asha-1990", words, Ruling(line, _NO_RULE, line, Rule(0.9, (0.3, 0.35, 0.5)), tick=2.5), strokes)
    looks = tuple(
        replace(
            look,
            lettering=replace(words, title=name, title_face=bold, title_size=9, title_colour=BLACK if mono else ink),
        )
        for name, ink in (("Right", strokes.red), ("Left", strokes.blue))
    )
    pen.text((pen.width / 2, 55), "Hearing report", bold, 14, anchor=0.5)
    pen.text((40, 80), f"Date of test {date_words(rng, date)}", face, 8)
    tones = invent(rng, scale, look, alone=True, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    boxes = ((30, 100, 303, 400), (309, 100, 582, 400))
    draw_pair(sheet, audiogram, boxes, scale, (looks[0], looks[1]), tones, rng)
    draw_speech(pen, rng, (40, 430), face, 8)
    for k, title in enumerate(("Right tympanogram", "Left tympanogram")):
        draw_tympanogram(pen, rng, (330 + 135 * k, 430, 450 + 135 * k, 520), face, 6, title)
    draw_remarks(pen, rng, (40, 560, 570, 720), face, 9)
    return sheet


def ledger(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw three small charts of three dates in one row, with their remarks below."""
    sheet = new_sheet(A4, mono=mono, landscape=True)
    pen = sheet.pen
    face, bold = fonts.load("RedHatDisplay-Regular"), fonts.load("RedHatDisplay-Bold")
    scale = Scale((125, 250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (-10, 120), margin=(0.4, 0.4, 0.0, 0.0))
    line = Rule(0.35, (0.7, 0.7, 0.7))
    look = Look(
        "asha-1990",
        Lettering(
            face, 5.6, label_form="k", gap=3, frequency_caption=None, level_caption=None, title_face=bold, title_size=8
        ),
        Ruling(line, line, line, Rule(0.6, (0.3, 0.3, 0.3)), zero=Rule(0.8)),
        Strokes(
            height_db=float(rng.uniform(8, 10)),
            width=0.9,
            one_ink=mono,
            red=(0.85, 0.15, 0.2),
            blue=(0.1, 0.35, 0.75),
            process="outline",
            beside=0.2,
            join=(Rule(0.7), Rule(0.7, dash=(1, 1.5))),
            join_over=True,
        ),
    )
    pen.text((40, 50), "Course of hearing", bold, 14)
    days = sorted(any_date(rng) for _ in range(3))
    for k, day in enumerate(days):
        left = 30 + k * 262
        dated = replace(look, lettering=replace(look.lettering, title=day))
        audiogram = sheet.open_audiogram(look.symbol_set, day)
        axes = seat((left, 80, left + 256, 380), scale, dated)
        draw_chart(sheet, audiogram, axes, dated, invent(rng, scale, look, busy=float(rng.uniform(0.1, 0.8))), rng)
        rows = [
            ("", "R", "L"),
            ("PTA", "see", "chart"),
            ("SRT", str(5 * int(rng.integers(1, 12))), str(5 * int(rng.integers(1, 12)))),
        ]
        draw_table(pen, (left + 60, 400), rows, face, 7, (40, 40, 40))
    return sheet


def pier(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear, one above the other, with shaded degrees and their words inside."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Caladea-Regular"), fonts.load("Caladea-Bold")
    scale = Scale(_FULL[1:], (0, 120), margin=(0.4, 0.9, 0.0, 0.0))
    shades = (
        (0, 20, 0.98, "normal"),
        (20, 35, 0.95, "mild"),
        (35, 50, 0.92, "moderate"),
        (50, 65, 0.89, "mod. severe"),
        (65, 80, 0.86, "severe"),
        (80, 120, 0.83, "profound"),
    )
    bands = tuple((float(a), float(b), (v, v, min(v + 0.03, 1.0)), words) for a, b, v, words in shades)
    look = Look(
        "asha-1990",
        Lettering(
            face,
            7.5,
            frequency_side="below",
            inter_labelled=True,
            inter_size=0.75,
            frequency_caption="Hz",
            level_caption="dB HL",
            level_caption_turned=False,
        ),
        Ruling(Rule(0.5, WHITE), _NO_RULE, Rule(0.5, WHITE), Rule(0.8, (0.4, 0.4, 0.4)), bands=bands),
        Strokes(
            height_db=float(rng.uniform(8, 10)),
            width=float(rng.uniform(1.2, 1.7)),
            one_ink=mono,
            red=(0.75, 0.1, 0.2),
            blue=(0.1, 0.3, 0.6),
            beside=0.22,
            join=(Rule(1.0), Rule(1.0)),
            arrow_head="filled",
            arrow_length=1.2,
        ),
    )
    pen.text((50, 45), "Right and left ear", bold, 13)
    pen.text((pen.width - 50, 45), date_words(rng, date), face, 10, anchor=1)
    looks = tuple(
        replace(look, lettering=replace(look.lettering, title=name, title_face=bold))
        for name in ("Right ear", "Left ear")
    )
    tones = invent(rng, scale, look, alone=True, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    boxes = ((80, 60, pen.width - 80, 410), (80, 420, pen.width - 80, 770))
    draw_pair(sheet, audiogram, boxes, scale, (looks[0], looks[1]), tones, rng)
    return sheet
