"""Benchmark forms with ordinary axes: each has its own fixed character, and little is left to chance."""

from __future__ import annotations

import numpy as np

from .. import fonts
from ..chart.axes import Scale
from ..chart.chance import pick
from ..chart.draw import draw_chart
from ..chart.key import KeyLook
from ..chart.look import Lettering, Look, Rule, Ruling, Shape, Strokes
from ..sheet import Sheet
from .around import (
    any_date,
    date_words,
    draw_foot,
    draw_numbers,
    draw_remarks,
)
from .form import A4, LETTER, add_key, invent, new_sheet, seat

_FULL = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
_NO_RULE = Rule(0.0)


def harbour(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one large chart with a key at its right, both ears in colour."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("DejaVuSerif"), fonts.load("DejaVuSerif-Bold")
    scale = Scale(_FULL, (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            7.5,
            gap=5,
            inter_labelled=True,
            inter_size=0.8,
            frequency_caption="Frequency in hertz",
            level_caption="Hearing level in dB HL",
            title="Pure tone thresholds",
            title_face=bold,
        ),
        Ruling(
            Rule(0.6, (0.45, 0.45, 0.45)),
            Rule(0.5, (0.55, 0.55, 0.55), (2.5, 2)),
            Rule(0.6, (0.45, 0.45, 0.45)),
            Rule(1.2),
            zero=Rule(1.6),
        ),
        Strokes(
            height_db=float(rng.uniform(7, 9)),
            width=float(rng.uniform(1.0, 1.4)),
            one_ink=mono,
            red=(0.78, 0.08, 0.12),
            blue=(0.08, 0.15, 0.65),
            round_corners=True,
            beside=0.15,
            join=(Rule(0.9), Rule(0.9, dash=(5, 3))),
            join_stops=True,
            arrow_head="filled",
        ),
    )
    pen.text((50, 60), "Harbour Lane Clinic", bold, 15, (0.1, 0.25, 0.3))
    pen.line((50, 68), (pen.width - 50, 68), (0.1, 0.25, 0.3), 1.5)
    pen.text((50, 90), f"Tested on {date_words(rng, date)}   Tester: L. F.   Insert phones", face, 8)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((45, 110, pen.width - 150, 560), scale, look), look, tones, rng)
    add_key(
        sheet,
        audiogram,
        chart,
        look,
        (pen.width - 152, 180),
        KeyLook("trade", size=7, head="What the marks mean"),
        all_glyphs=True,
    )
    draw_remarks(pen, rng, (50, 600, pen.width - 50, 760), face, 9)
    draw_foot(pen, rng, face)
    return sheet


def lantern(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart in the British way with a key in two columns below it."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Lato-Regular"), fonts.load("Lato-Bold")
    scale = Scale(_FULL, (-20, 120), halfway=True, margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.5, (0.35, 0.35, 0.35))
    look = Look(
        "bsa-2018",
        Lettering(
            face,
            8.5,
            gap=5,
            frequency_caption="Frequency (Hz)",
            level_caption="Hearing level (dB HL)",
            level_side="both",
        ),
        Ruling(line, Rule(0.5, (0.35, 0.35, 0.35), (1, 2)), line, Rule(0.5, (0.35, 0.35, 0.35))),
        Strokes(
            height_db=float(rng.uniform(7, 8.5)),
            width=float(rng.uniform(0.9, 1.3)),
            one_ink=mono or bool(rng.random() < 0.2),
            red=(0.8, 0.1, 0.1),
            blue=(0.15, 0.2, 0.7),
            white_inside=True,
            beside=float(pick(rng, (0.0, 0.14))),
            shape=Shape(half_filled=bool(rng.random() < 0.3), wedges_upright=bool(rng.random() < 0.5), bracket=0.4),
            join=(Rule(0.9), Rule(0.9)),
            arrow_length=1.3,
        ),
    )
    pen.text((60, 60), "Audiology", bold, 16)
    pen.text((pen.width - 60, 60), date_words(rng, date), face, 10, anchor=1)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.4, 0.95)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((70, 80, pen.width - 70, 510), scale, look), look, tones, rng)
    key = KeyLook("trade", columns=True, frame=False, head=None, size=8.5, arrow_row=True)
    add_key(sheet, audiogram, chart, look, (90, 540), key, all_glyphs=True)
    draw_remarks(pen, rng, (330, 545, pen.width - 60, 700), face, 9)
    return sheet


def mole(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one typed form in black ink alone, both ears on one chart."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face = fonts.load("Courier")
    scale = Scale(_FULL, (-10, 110), margin=(0.5, 0.5, 0.0, 0.0))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            9,
            inter_labelled=True,
            inter_size=0.75,
            inter_row=True,
            frequency_caption="FREQUENCY IN HZ",
            level_caption="HEARING LEVEL IN DB",
            level_side="left",
            gap=6,
        ),
        Ruling(Rule(0.7), Rule(0.7, dash=(3, 3)), Rule(0.7), Rule(0.7), overhang=3),
        Strokes(
            height_db=float(rng.uniform(6.5, 8.5)),
            width=float(rng.uniform(0.8, 1.2)),
            one_ink=True,
            round_corners=True,
            shape=Shape(angle=0.65, bracket=0.3, cross=0.85),
            beside=0.19,
            arrow_head="half",
            join=(Rule(0.7), Rule(0.7, dash=(2, 2))),
        ),
    )
    pen.text((pen.width / 2, 50), "HARBOUR LANE CLINIC", face, 12, anchor=0.5)
    for k, words in enumerate((f"DATE OF TEST  {date}", "AGE  --", f"TESTER  {pick(rng, ('OM', 'KL', 'RW'))}")):
        pen.text((60, 80 + 14 * k), words, face, 9)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.95)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((60, 125, pen.width - 60, 540), scale, look), look, tones, rng)
    if rng.random() < 0.5:
        key = KeyLook("trade", columns=True, size=8, head="LEGEND")
        add_key(sheet, audiogram, chart, look, (70, 560), key, all_glyphs=True)
    return sheet


def buoy(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart after the German leaflet: bone by angles the other way, on the line, with a German key."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Helvetica"), fonts.load("Helvetica-Bold")
    scale = Scale(_FULL, (-10, 110), margin=(0.3, 0.3, 0.0, 0.0))
    line = Rule(0.5, (0.5, 0.6, 0.5))
    look = Look(
        "leaflet-de",
        Lettering(
            face,
            8,
            label_form="khz-comma",
            inter_labelled=True,
            inter_size=0.8,
            frequency_caption="Frequenz in kHz",
            level_caption="Hörverlust in dB",
            title="Tonaudiogramm",
            title_face=bold,
        ),
        Ruling(line, Rule(0.35, (0.5, 0.6, 0.5)), line, Rule(1.0, (0.3, 0.4, 0.3))),
        Strokes(
            height_db=float(rng.uniform(6.5, 8)),
            width=1.2,
            one_ink=mono,
            red=(0.85, 0.1, 0.1),
            blue=(0.1, 0.2, 0.75),
            beside=float(pick(rng, (0.0, 0.12))),
            shape=Shape(angle=0.6),
            join=(Rule(1.2), Rule(1.2)),
            bone_join=(Rule(0.7, dash=(3, 2)), Rule(0.7, dash=(3, 2))),
        ),
    )
    pen.text((60, 60), "Untersuchung vom " + date_words(rng, date), face, 10)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((60, 90, pen.width - 60, 560), scale, look), look, tones, rng)
    add_key(sheet, audiogram, chart, look, (80, 590), KeyLook("german", head="Zeichen", size=9), all_glyphs=True)
    return sheet


def cove(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a small chart with the printed numbers of its air conduction beside it."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Times-Roman"), fonts.load("Times-Bold")
    scale = Scale((250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.5, (0.75, 0.75, 0.75))
    look = Look(
        "asha-1990",
        Lettering(face, 7, label_form="comma", gap=3, frequency_caption="Hz", level_caption="dB"),
        Ruling(line, line, line, Rule(0.7), minor=Rule(0.3, (0.85, 0.85, 0.85))),
        Strokes(
            height_db=9,
            width=1.0,
            one_ink=mono or bool(rng.random() < 0.3),
            red=(0.9, 0.2, 0.2),
            blue=(0.2, 0.2, 0.9),
            join=pick(rng, ((Rule(0.8), Rule(0.8, dash=(3, 2))), (None, None))),
            beside=0.16,
        ),
    )
    pen.text((60, 70), "Letter to the referring doctor", bold, 13)
    draw_remarks(pen, rng, (60, 95, pen.width - 60, 190), face, 10.5)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.2, 0.8)), extras=0.03)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    draw_chart(sheet, audiogram, seat((60, 210, 320, 470), scale, look, (0, 0)), look, tones, rng)
    draw_numbers(pen, tones, (60, 500), face, 8, pen.width - 120)
    pen.text((60, 600), "With kind regards", face, 11)
    return sheet


def ferry(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw marks by hand in two pens on a printed form, joined with a ruler."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Caladea-Regular"), fonts.load("Caladea-Bold")
    scale = Scale(_FULL, (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.5, (0.4, 0.5, 0.6))
    words = Lettering(
        face,
        9,
        gap=5,
        frequency_side="both",
        inter_labelled=True,
        inter_size=0.7,
        frequency_caption="Frequency (Hz)",
        level_caption="Hearing level in dB",
    )
    strokes = Strokes(
        height_db=float(rng.uniform(7, 9.5)),
        width=float(rng.uniform(1.0, 1.6)),
        one_ink=mono or bool(rng.random() < 0.3),
        red=(0.8, 0.12, 0.15),
        blue=(0.1, 0.15, 0.55),
        neutral=(0.12, 0.12, 0.2),
        round_corners=True,
        shape=Shape(angle=0.6, bracket=0.35),
        beside=0.2,
        wobble_db=0.6,
        shaky=0.04,
        join=(Rule(0.9), Rule(0.9, dash=(5, 4))),
    )
    look = Look("asha-1990", words, Ruling(line, Rule(0.4, line.colour, (2, 2)), line, Rule(1.0, line.colour)), strokes)
    pen.text((60, 60), "Audiogram form", bold, 15)
    pen.text((60, 84), f"Date {date_words(rng, date)}    Age ____    Tested by ________", face, 10)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((50, 105, pen.width - 50, 580), scale, look), look, tones, rng)
    add_key(sheet, audiogram, chart, look, (70, 600), KeyLook("trade", columns=True, size=8), all_glyphs=True)
    return sheet
