"""Benchmark forms with printed tables of thresholds: each has its own fixed character."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ... import fonts
from ...chart.axes import Scale
from ...chart.chance import pick
from ...chart.draw import draw_chart
from ...chart.look import Lettering, Look, Rule, Ruling, Strokes
from ...sheet import Sheet
from ..around import any_date, date_words, draw_foot, draw_remarks
from ..form import A4, LETTER, invent, new_sheet, of_ear, seat
from .content import any_signs, any_test, keep, record, with_lost_mark, with_slip
from .printed import TableLook, draw_printed_table, rows_for
from .wording import TONGUES, Signs, notes

_EIGHT: tuple[float, ...] = (250, 500, 1000, 2000, 3000, 4000, 6000, 8000)


def _notes(sheet: Sheet, look: TableLook, at: tuple[float, float]) -> None:
    sheet.pen.text(at, "   ".join(notes(look.tongue, look.signs)), look.face, look.size * 0.9)


def manifest(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one ruled table, a row for each ear and conduction, English, on a page of its own."""
    sheet = new_sheet(A4, mono=mono)
    pen, day = sheet.pen, any_date(rng)
    face, bold = fonts.load("Lato-Regular"), fonts.load("Lato-Bold")
    pen.text((50, 60), "Harbour Lane Clinic", bold, 15)
    pen.text((50, 82), f"Hearing thresholds of {date_words(rng, day)}, dB HL", face, 10)
    tones = any_test(rng, _EIGHT, bone=0.8, field=0.2)
    look = TableLook(face, bold, 9.0, (47.0, 19.0), TONGUES["english"], "rows", 1, "hz",
                     any_signs(rng, arrows=False), "all", shade=(0.88, 0.92, 0.95), names_bold=True)  # fmt: skip
    rows = rows_for(tones, apart=look.signs.masked == "row")
    cells, (_, bottom) = draw_printed_table(pen, (50, 110), look, _EIGHT, rows, tones)
    record(sheet, day, cells, look.signs)
    _notes(sheet, look, (50, bottom + 16))
    draw_remarks(pen, rng, (50, bottom + 50, pen.width - 50, bottom + 170), face, 9)
    draw_foot(pen, rng, face)
    return sheet


def capstan(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a table with frequencies down and the ears over their columns, in the tester's language."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, day = sheet.pen, any_date(rng)
    face, bold = fonts.load("DejaVuSerif"), fonts.load("DejaVuSerif-Bold")
    tongue = TONGUES[pick(rng, ("english", "german", "spanish", "french"))]
    pen.text((pen.width / 2, 70), tongue.title[0], bold, 13, anchor=0.5)
    pen.text((60, 100), date_words(rng, day), face, 9)
    frequencies = (125, *_EIGHT)
    tones = any_test(rng, frequencies, bone=0.85)
    look = TableLook(face, bold, 8.5, (62.0, 17.0), tongue, "spanned", 2, "unit",
                     any_signs(rng, arrows=True), "rows", line=(0.5, 0.5, 0.5))  # fmt: skip
    rows = rows_for(tones, apart=look.signs.masked == "row")
    cells, (_, bottom) = draw_printed_table(pen, (60, 120), replace(look, cell=(430 / len(rows), 17.0)), frequencies,
                                            rows, tones)  # fmt: skip
    record(sheet, day, cells, look.signs)
    _notes(sheet, look, (60, bottom + 18))
    return sheet


def fender(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a small table for each ear, side by side, in kHz, black on white without lines between columns."""
    sheet = new_sheet(A4, mono=mono, landscape=True)
    pen, day = sheet.pen, any_date(rng)
    face, bold = fonts.load("Vera"), fonts.load("VeraBd")
    pen.text((40, 50), f"Pure-tone test, {date_words(rng, day)}", bold, 13)
    frequencies: tuple[float, ...] = (500, 1000, 2000, 3000, 4000, 6000, 8000)
    tones, signs, found = any_test(rng, frequencies, bone=0.7), any_signs(rng, arrows=False), []
    look = TableLook(face, bold, 8.0, (35.0, 20.0), TONGUES["english"], "rows", 1, "khz", signs, "rows",
                     named=(False, True))  # fmt: skip
    lowest = 0.0
    for k, ear in enumerate(("right", "left")):
        mine = of_ear(tones, ear)
        left = 40 + 390 * k
        pen.text((left, 90), look.tongue.right[0] if ear == "right" else look.tongue.left[0], bold, 11)
        rows = rows_for(mine, apart=signs.masked == "row", ears=(ear,))
        cells, (_, bottom) = draw_printed_table(pen, (left, 100), look, frequencies, rows, mine)
        found += cells
        lowest = max(lowest, bottom)
    record(sheet, day, found, signs)
    _notes(sheet, look, (40, lowest + 20))
    return sheet


_LINE = Rule(0.5, (0.5, 0.5, 0.55))
_SCALE = Scale((125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000), (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))


def _chart_look(face: str, size: float, mono: bool) -> Look:
    return Look(
        "asha-1990",
        Lettering(face, size, gap=4, inter_labelled=True, inter_size=0.8),
        Ruling(_LINE, Rule(0.45, (0.6, 0.6, 0.65), (2, 2)), _LINE, Rule(1.0)),
        Strokes(height_db=8.0, one_ink=mono, red=(0.8, 0.1, 0.1), blue=(0.1, 0.2, 0.7)),
    )


def rigging(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart of both ears with the printed table of its numbers below, ear by ear."""
    sheet = new_sheet(A4, mono=mono)
    pen, day = sheet.pen, any_date(rng)
    face, bold = fonts.load("RedHatDisplay-Regular"), fonts.load("RedHatDisplay-Bold")
    look = _chart_look(face, 7.5, mono)
    pen.text((50, 50), "Audiogram and thresholds", bold, 14)
    pen.text((pen.width - 50, 50), date_words(rng, day), face, 9, anchor=1)
    tones = invent(rng, _SCALE, look, busy=float(rng.uniform(0.3, 0.9)), extras=0.0)
    audiogram = sheet.open_audiogram(look.symbol_set, day)
    draw_chart(sheet, audiogram, seat((50, 70, pen.width - 50, 520), _SCALE, look), look,
               with_lost_mark(rng, tones, 0.05), rng)  # fmt: skip
    signs = replace(any_signs(rng, arrows=False), untested=pick(rng, ("", "-", "DNT")))
    table = TableLook(face, bold, 7.5, (37.0, 14.0), TONGUES["english"], "sections", 1, "hz", signs, "all")
    rows = rows_for(tones, apart=signs.masked == "row")
    cells, (_, bottom) = draw_printed_table(pen, (50, 560), table, _SCALE.printed, rows, with_slip(rng, tones, 0.08))
    keep(sheet, cells, signs)
    _notes(sheet, table, (50, bottom + 14))
    return sheet


def hawser(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one chart with a narrow printed table at its right, frequencies down, air conduction alone."""
    sheet = new_sheet(A4, mono=mono, landscape=True)
    pen, day = sheet.pen, any_date(rng)
    face, bold = fonts.load("Helvetica"), fonts.load("Helvetica-Bold")
    look = _chart_look(face, 8.0, mono)
    pen.text((45, 40), "Hearing test", bold, 14)
    pen.text((45, 58), f"Test of {date_words(rng, day)}", face, 9)
    tones = invent(rng, _SCALE, look, busy=float(rng.uniform(0.1, 0.8)), extras=0.0)
    audiogram = sheet.open_audiogram(look.symbol_set, day)
    draw_chart(sheet, audiogram, seat((45, 75, 610, 560), _SCALE, look), look, with_lost_mark(rng, tones, 0.05), rng)
    signs = Signs("row", pick(rng, ("+", ">")), "-")
    table = TableLook(face, bold, 8.5, (48.0, 18.0), TONGUES["english"], "columns", 3, "hz", signs, "head",
                      named=(True, False))  # fmt: skip
    heard = [t for t in tones if t.conduction == "air"]
    alone = [max((t for t in heard if (t.ear, t.frequency_hz) == key), key=lambda t: t.masked)
             for key in sorted({(t.ear, t.frequency_hz) for t in heard})]  # fmt: skip
    rows = [("right", "air", False, False), ("left", "air", False, False)]
    signs = replace(signs, masked="none")
    table = replace(table, signs=signs)
    pen.text((630, 130), "Air conduction", bold, 9)
    cells, (_, bottom) = draw_printed_table(pen, (630, 140), table, _SCALE.printed, rows, with_slip(rng, alone, 0.08))
    keep(sheet, cells, signs)
    _notes(sheet, table, (630, bottom + 16))
    return sheet
