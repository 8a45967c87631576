"""Benchmark forms whose axes are out of the ordinary, or that are drawn as plotting programs draw."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .. import fonts
from ..chart.axes import Scale
from ..chart.chance import pick
from ..chart.draw import draw_chart
from ..chart.key import KeyLook
from ..chart.look import Lettering, Look, Rule, Ruling, Shape, Strokes
from ..sheet import Sheet
from .around import any_date, date_words, draw_remarks
from .form import A4, LETTER, add_key, draw_pair, invent, new_sheet, seat

_NO_RULE = Rule(0.0)


def tide(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart with all frequencies at equal steps, kHz labels below, levels every 20 dB."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face = fonts.load("Lato-Regular")
    printed = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    scale = Scale(printed, (-20, 110), spacing="equal", ratio=1.6, margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.5, (0.5, 0.5, 0.5))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            8,
            label_form="khz",
            frequency_side="below",
            inter_labelled=True,
            inter_size=1.0,
            level_every=20,
            frequency_caption="kHz",
            level_caption="dB HL",
        ),
        Ruling(line, line, line, Rule(1.0), level_every=20),
        Strokes(
            height_db=float(rng.uniform(6.5, 8)),
            width=1.2,
            one_ink=mono,
            red=(0.8, 0.0, 0.1),
            blue=(0.0, 0.1, 0.7),
            beside=0.25,
            join=(Rule(1.0), Rule(1.0, dash=(4, 2))),
            round_corners=True,
        ),
    )
    pen.text((60, 70), f"Thresholds, {date_words(rng, date)}", fonts.load("Lato-Bold"), 13)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    draw_chart(sheet, audiogram, seat((60, 100, pen.width - 60, 600), scale, look), look, tones, rng)
    return sheet


def reef(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart to 16 kHz with ticks and no grid."""
    sheet = new_sheet(LETTER, mono=mono, landscape=True)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("RedHatDisplay-Regular"), fonts.load("RedHatDisplay-Bold")
    printed = (125, 250, 500, 1000, 2000, 4000, 8000, 10000, 12500, 16000)
    scale = Scale(printed, (-20, 120), ratio=0.9, margin=(0.4, 0.4, 0.0, 0.0))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            8.5,
            label_form="k",
            frequency_side="below",
            inter_labelled=True,
            inter_size=0.8,
            frequency_caption="Frequency",
            level_caption="Level (dB HL)",
            title="High-frequency audiogram",
            title_face=bold,
        ),
        Ruling(
            _NO_RULE, _NO_RULE, _NO_RULE, Rule(0.9, (0.2, 0.2, 0.2)), frame_sides=pick(rng, ("axes", "box")), tick=4
        ),
        Strokes(
            height_db=float(rng.uniform(6, 8)),
            width=1.3,
            one_ink=mono,
            red=(0.85, 0.2, 0.15),
            blue=(0.15, 0.35, 0.75),
            process="outline",
            beside=0.18,
            join=(Rule(1.2), Rule(1.2)),
            white_inside=True,
        ),
    )
    pen.text((50, 50), "Harbour Lane", bold, 14)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.2, 0.6)), extras=0.02)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    draw_chart(sheet, audiogram, seat((60, 70, pen.width - 200, pen.height - 40), scale, look), look, tones, rng)
    draw_remarks(pen, rng, (pen.width - 185, 150, pen.width - 40, 300), face, 8)
    return sheet


def kelp(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart in the Japanese way: square brackets for bone, arrows straight down, a key below."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face = fonts.load("Vera")
    scale = Scale((125, 250, 500, 1000, 2000, 4000, 8000), (-20, 120), ratio=1.25, margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.6, (0.3, 0.55, 0.4)) if not mono else Rule(0.6, (0.4, 0.4, 0.4))
    look = Look(
        "jis-t-1201",
        Lettering(
            face,
            8,
            frequency_side="above",
            frequency_caption="Frequency (Hz)",
            level_caption="Hearing level (dB)",
            level_caption_turned=True,
        ),
        Ruling(line, _NO_RULE, line, replace(line, width=1.4)),
        Strokes(
            height_db=float(rng.uniform(7, 8.5)),
            width=1.1,
            one_ink=mono,
            red=(0.85, 0.1, 0.15),
            blue=(0.1, 0.2, 0.7),
            shape=Shape(bracket=0.35),
            beside=0.16,
            join=(Rule(1.0), Rule(1.0, dash=(4, 3))),
            arrow_length=1.1,
        ),
    )
    pen.text((60, 60), f"Examined {date}", face, 10)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    chart = draw_chart(sheet, audiogram, seat((70, 80, pen.width - 70, 620), scale, look), look, tones, rng)
    add_key(
        sheet,
        audiogram,
        chart,
        look,
        (90, 650),
        KeyLook("full", columns=True, size=8.5, arrow_row=True),
        all_glyphs=True,
    )
    return sheet


def spar(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart with labels below and at the right, to 130 dB, of a free aspect."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Caladea-Regular"), fonts.load("Caladea-Bold")
    scale = Scale(
        (250, 500, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
        (-20, 130),
        ratio=0.75,
        halfway=True,
        margin=(0.2, 0.2, 0.0, 0.0),
    )
    line = Rule(0.4, (0.7, 0.55, 0.5)) if not mono else Rule(0.4, (0.6, 0.6, 0.6))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            9,
            label_form="space",
            frequency_side="below",
            level_side="right",
            inter_labelled=True,
            inter_size=0.75,
            inter_row=True,
            frequency_caption="Hz",
            level_caption="dB HL",
        ),
        Ruling(line, replace(line, dash=(2, 1.5)), line, Rule(0.8, (0.5, 0.35, 0.3)), minor=replace(line, width=0.2)),
        Strokes(
            height_db=float(rng.uniform(8, 10)),
            width=float(rng.uniform(0.8, 1.4)),
            one_ink=mono,
            red=(0.9, 0.1, 0.1),
            blue=(0.1, 0.1, 0.5),
            beside=0.13,
            process=pick(rng, ("stroke", "outline")),
            join=(Rule(0.8), Rule(0.8)),
            join_stops=True,
        ),
    )
    pen.text((pen.width - 60, 60), f"Seen {date_words(rng, date)}", bold, 11, anchor=1)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    draw_chart(sheet, audiogram, seat((60, 90, pen.width - 60, 560), scale, look), look, tones, rng)
    return sheet


def plotted(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart as a plotting program would: light grid, outward ticks, many-sided circles, a legend inside."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face = fonts.load("cmr10")
    scale = Scale((125, 250, 500, 1000, 2000, 4000, 8000), (-10, 120), ratio=1.0, margin=(0.6, 0.6, 5, 5))
    line = Rule(0.5, (0.8, 0.8, 0.8))
    look = Look(
        "asha-1990",
        Lettering(
            face,
            9,
            frequency_side="below",
            frequency_caption="frequency / Hz",
            level_caption="hearing level / dB HL",
            title="subject 7, both ears",
            title_size=11,
        ),
        Ruling(line, _NO_RULE, line, Rule(0.8), tick=3.5),
        Strokes(
            height_db=float(rng.uniform(6, 8)),
            width=1.0,
            one_ink=mono,
            red=(0.84, 0.15, 0.16),
            blue=(0.12, 0.47, 0.71),
            process="polygon",
            shape=Shape(sides=32, cross=1.0, triangle=1.0, square=1.0),
            white_inside=True,
            join=(Rule(1.5), Rule(1.5)),
            beside=0.2,
        ),
    )
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.1, 0.6)), extras=0.02)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((90, 120, pen.width - 90, 520), scale, look)
    chart = draw_chart(sheet, audiogram, axes, look, tones, rng)
    frame = axes.frame
    corner = (frame[2] + 4, frame[1])
    add_key(sheet, audiogram, chart, look, corner, KeyLook("short", size=6.5, head=None), all_glyphs=False)
    for k, words in enumerate(("Fig. 3. Thresholds of one listener.", "Lines join air conduction.")):
        pen.text((90, 560 + 14 * k), words, face, 10)
    return sheet


def twin(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart per ear at equal steps, landscape, triangles for bone and a small key for both."""
    sheet = new_sheet(A4, mono=mono, landscape=True)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("DejaVuSerif"), fonts.load("DejaVuSerif-Bold")
    scale = Scale(
        (250, 500, 1000, 2000, 3000, 4000, 6000, 8000),
        (-10, 120),
        spacing="equal",
        ratio=1.3,
        margin=(0.5, 0.5, 0.0, 0.0),
    )
    line = Rule(0.4, (0.55, 0.55, 0.55), (1, 1.5))
    look = Look(
        "triangle-bone",
        Lettering(
            face,
            7,
            label_form="khz-bare",
            inter_labelled=True,
            inter_size=1.0,
            frequency_caption="kHz",
            level_caption="dB",
        ),
        Ruling(line, line, line, Rule(0.8), zero=Rule(1.2)),
        Strokes(
            height_db=float(rng.uniform(7, 9)),
            width=1.1,
            one_ink=mono,
            red=(0.8, 0.1, 0.3),
            blue=(0.0, 0.3, 0.7),
            shape=Shape(triangle=1.1),
            join=(Rule(1.1), Rule(1.1)),
            bone_join=(Rule(0.8, dash=(3, 2)), Rule(0.8, dash=(3, 2))),
        ),
    )
    looks = tuple(replace(look, lettering=replace(look.lettering, title=name, title_face=bold)) for name in ("R", "L"))
    pen.text((40, 45), f"Hearing on {date_words(rng, date)}", bold, 12)
    tones = invent(rng, scale, look, alone=True, busy=float(rng.uniform(0.4, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    boxes = ((35, 60, 415, 500), (427, 60, 807, 500))
    chart, _ = draw_pair(sheet, audiogram, boxes, scale, (looks[0], looks[1]), tones, rng)
    add_key(
        sheet, audiogram, chart, look, (60, 512), KeyLook("trade", columns=True, size=7, head=None), all_glyphs=True
    )
    return sheet
