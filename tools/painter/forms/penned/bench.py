"""Benchmark forms that people fill in: printed layouts and hands of their own, in two pens or in one."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ... import fonts
from ...chart.axes import Scale
from ...chart.chance import pick
from ...chart.key import KeyLook
from ...chart.look import Lettering, Look, Rule, Ruling, Shape, Strokes
from ...hand.chart import draw_hand_chart
from ...hand.people import Pens, a_filling
from ...hand.words.notes import scrawl
from ...pen import Colour
from ...sheet import Sheet
from ..around import any_date
from ..form import A4, BOTH, LETTER, add_key, invent, new_sheet, of_ear, seat
from .bench_words import OVER_THE_GRID, fill_lines, fill_table
from .paper import folded, punched, worn

Form = Callable[[np.random.Generator, bool, Pens], Sheet]
_FULL = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
_GREY: Colour = (0.4, 0.4, 0.42)
_SPECIMEN = Strokes(one_ink=True, width=0.9, shape=Shape(angle=0.55, bracket=0.36))


def jetty(rng: np.random.Generator, mono: bool, pens: Pens) -> Sheet:
    """Draw one large chart of the American kind on a ruled form, a key printed below."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("DejaVuSerif"), fonts.load("DejaVuSerif-Bold")
    line = Rule(0.6, _GREY)
    look = Look(
        "asha-1990",
        Lettering(face, 8, gap=5, inter_labelled=True, inter_size=0.75, frequency_caption="Frequency in hertz",
                  level_caption="Hearing level in dB HL"),
        Ruling(line, Rule(0.5, _GREY, (3, 2)), line, Rule(1.1)),
        _SPECIMEN,
    )  # fmt: skip
    scale = Scale(_FULL, (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    filling = a_filling(rng, pens, mono=mono)
    pen.text((70, 50), "Record of pure-tone audiometry", bold, 14)
    fill_lines(sheet, rng, (70, 64, pen.width - 50, 112), face, 9, filling, date)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((70, 130, pen.width - 45, 600), scale, look)
    chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.9)), sayings=OVER_THE_GRID)
    add_key(sheet, audiogram, chart, look, (90, 632), KeyLook("trade", columns=True, size=7.5), all_glyphs=True)
    if rng.random() < 0.5:
        punched(pen, float(pick(rng, (0.15, 0.9))))
    return sheet


def wharf(rng: np.random.Generator, mono: bool, pens: Pens) -> Sheet:
    """Draw a chart per ear, side by side on a wide sheet, the grid in a pale tint."""
    sheet = new_sheet(A4, mono=mono, landscape=True)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Lato-Regular"), fonts.load("Lato-Bold")
    line = Rule(0.7, (0.55, 0.65, 0.75))
    scale = Scale((250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (-10, 110), margin=(0.5, 0.5, 5.0, 5.0))
    filling = a_filling(rng, pens, mono=mono)
    pen.text((50, 46), "Hearing test: right and left", bold, 14, (0.1, 0.2, 0.35))
    fill_lines(sheet, rng, (50, 56, pen.width - 50, 100), face, 9, filling, date)
    looks = [
        Look(
            "asha-1990",
            Lettering(face, 8, gap=4, frequency_caption="Hz", level_caption="dB HL", level_caption_turned=False,
                      title=title, title_face=bold, frequency_side="below"),
            Ruling(line, Rule(0.5, line.colour), line, Rule(0.9, (0.2, 0.3, 0.45)), zero=Rule(1.4, line.colour)),
            _SPECIMEN,
        )
        for title in ("RIGHT EAR", "LEFT EAR")
    ]  # fmt: skip
    tones = invent(rng, scale, looks[0], alone=True, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram("asha-1990", date)
    half = pen.width / 2
    for ear, look, left in zip(BOTH, looks, (46.0, half + 8), strict=True):
        axes = seat((left, 120, left + half - 54, pen.height - 50), scale, look)
        shown = of_ear(tones, ear)
        chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, shown, rng, only=ear)
        scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.5)), sayings=OVER_THE_GRID)
    return sheet


def beacon(rng: np.random.Generator, mono: bool, pens: Pens) -> Sheet:
    """Draw one chart of the British kind, copied till its lines broke, with a key at its foot."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("RedHatDisplay-Regular"), fonts.load("RedHatDisplay-Bold")
    broken = tuple(float(v) for v in rng.exponential(1.0, 10) * np.tile((40, 1.6), 5) + 0.4)
    line = Rule(0.5, (0.3, 0.3, 0.3), broken)
    look = Look(
        "bsa-2018",
        Lettering(face, 8.5, gap=5, frequency_caption="Frequency (Hz)", level_caption="Hearing level (dB)",
                  level_side="both"),
        Ruling(line, Rule(0.4, (0.45, 0.45, 0.45), (1, 2.5)), line, Rule(0.9, (0.2, 0.2, 0.2))),
        _SPECIMEN,
    )  # fmt: skip
    scale = Scale(_FULL, (-20, 120), halfway=True, margin=(0.5, 0.5, 0.0, 0.0))
    filling = a_filling(rng, pens, mono=mono)
    pen.text((pen.width / 2, 52), "AUDIOGRAM", bold, 17, anchor=0.5)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.4, 0.95)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((60, 76, pen.width - 60, 560), scale, look)
    worn(22, 1.5)(pen, axes.frame, rng)
    chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.8)), sayings=OVER_THE_GRID)
    add_key(sheet, audiogram, chart, look, (80, 585), KeyLook("trade", head=None, size=8, frame=False), all_glyphs=True)
    fill_lines(sheet, rng, (300, 590, pen.width - 50, 690), face, 10, filling, date)
    if rng.random() < 0.4:
        folded(pen, rng, 1)
    return sheet


def gangway(rng: np.random.Generator, mono: bool, pens: Pens) -> Sheet:
    """Draw a chart with fine 5-dB lines, a table of speech results beside it that is filled in by hand."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Vera"), fonts.load("VeraBd")
    line = Rule(0.55, (0.25, 0.25, 0.25))
    look = Look(
        "asha-1990",
        Lettering(face, 7, gap=4, label_form="comma", frequency_caption=None, level_caption="dB HL",
                  inter_labelled=True, inter_size=0.8, inter_row=True),
        Ruling(line, Rule(0.4, (0.4, 0.4, 0.4)), line, Rule(1.3), minor=Rule(0.25, (0.65, 0.65, 0.65))),
        _SPECIMEN,
    )  # fmt: skip
    scale = Scale(_FULL, (-10, 110), margin=(0.25, 0.25, 0.0, 0.0))
    filling = a_filling(rng, pens, mono=mono)
    pen.rect((40, 32, pen.width - 40, 60), (0.1, 0.1, 0.1), 0.8, fill=(0.92, 0.92, 0.92))
    pen.text((50, 51), "HARBOUR LANE  /  AUDIOLOGY SHEET", bold, 12)
    fill_lines(sheet, rng, (44, 66, pen.width - 44, 108), face, 8.5, filling, date)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.3, 0.9)))
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((44, 122, pen.width - 190, 560), scale, look, (0, 0))
    chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.7)), sayings=OVER_THE_GRID)
    fill_table(sheet, rng, (pen.width - 172, 150), face, 8, filling)
    add_key(sheet, audiogram, chart, look, (pen.width - 172, 270), KeyLook("short", size=7.5, head="Key"),
            all_glyphs=True)  # fmt: skip
    return sheet


def slip(rng: np.random.Generator, mono: bool, pens: Pens) -> Sheet:
    """Draw a half-sheet form with a small faint chart."""
    sheet = new_sheet((419.5, 595.3), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Caladea-Regular"), fonts.load("Caladea-Bold")
    line = Rule(0.5, (0.6, 0.72, 0.62))
    look = Look(
        "asha-1990",
        Lettering(face, 7.5, gap=3, label_form="k", frequency_caption=None, level_caption=None),
        Ruling(line, Rule(0.4, (0.7, 0.8, 0.72)), line, Rule(0.8, (0.3, 0.45, 0.35))),
        _SPECIMEN,
    )
    scale = Scale((125, 250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (0, 120), margin=(0.4, 0.4, 10.0, 0.0))
    filling = a_filling(rng, pens, mono=mono)
    pen.text((36, 40), "Audiometry slip", bold, 13, (0.15, 0.35, 0.25))
    fill_lines(sheet, rng, (36, 50, pen.width - 30, 92), face, 8.5, filling, date)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.2, 0.75)), extras=0.03)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((36, 108, pen.width - 30, 460), scale, look)
    chart, taken = draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    scrawl(sheet, rng, axes.frame, filling, taken, chart, int(rng.poisson(0.5)), sayings=OVER_THE_GRID)
    return sheet


def _in(pens: Pens, form: Form) -> Callable[[np.random.Generator, bool], Sheet]:
    def draw(rng: np.random.Generator, mono: bool) -> Sheet:
        return form(rng, mono, pens)

    draw.__doc__ = form.__doc__
    return draw


_FORMS: dict[str, Form] = {"jetty": jetty, "wharf": wharf, "beacon": beacon, "gangway": gangway, "slip": slip}
PENNED_BENCH: dict[str, tuple[Callable[[np.random.Generator, bool], Sheet], str]] = {
    **{f"{name}-two": (_in("two", form), "two-pens") for name, form in _FORMS.items()},
    **{f"{name}-one": (_in("one", form), "one-pen") for name, form in _FORMS.items()},
}
"""The forms, each in two pens and in one, with the tag that says so."""
