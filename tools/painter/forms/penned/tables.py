"""Forms whose thresholds stand as digits by hand in a printed table, alone or beside a chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .....interpret.record import Audiogram, Seen
from ... import fonts
from ...chart.axes import Scale
from ...chart.chance import any_look, any_scale, grey, pick
from ...chart.convention import true_threshold
from ...chart.look import Lettering, Look, Rule, Ruling, Strokes
from ...hand.chart import draw_hand_chart
from ...hand.filling import Filling, any_filling
from ...hand.people import a_filling
from ...hand.words.notes import draw_fields, jot, print_title
from ...hand.words.tables import Row, TableLook, draw_value_table, rows_for, table_size
from ...patient import TestPlan, Tone, hearing_test
from ...pen import XY
from ...sheet import Sheet
from ..around import any_date
from ..form import A4, BOTH, LETTER, invent, new_sheet, seat
from ..training import any_busyness, any_paper
from .bench_words import fill_lines
from .paper import any_wear, copied

_TITLES = ("Hearing test", "Audiometric record", "AUDIOMETRY", "Thresholds in dB HL", "Hearing conservation record")
_FREQUENCIES: tuple[tuple[float, ...], ...] = (
    (250, 500, 1000, 2000, 3000, 4000, 6000, 8000),
    (500, 1000, 2000, 3000, 4000, 6000, 8000),
    (250, 500, 1000, 2000, 4000, 8000),
    (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
    (500, 1000, 2000, 3000, 4000, 6000),
)


def _tested(
    rng: np.random.Generator, frequencies: tuple[float, ...], *, bone: float, masking: bool = True
) -> list[Tone]:
    plan = TestPlan(frequencies, (-10, 120), masked_air=masking, ears=BOTH, busy=float(rng.uniform(0.2, 0.9)))
    tones = hearing_test(rng, plan)
    wanted = ("air", "bone") if rng.random() < bone else ("air",)
    return [tone for tone in tones if tone.conduction in wanted and tone.measure == "threshold"]


def _record(sheet: Sheet, date: str, found: Sequence[tuple[Tone, XY]]) -> None:
    """Add an audiogram that only a table states."""
    sheet.audiograms.append(Audiogram(tested_on=date))
    for tone, at in found:
        threshold = true_threshold(tone, tone.ear, Seen(None, sheet.fraction(at), None, None))
        sheet.add_threshold(len(sheet.audiograms) - 1, threshold)


def _any_table(rng: np.random.Generator, width: float, frequencies: int, *, rows: int) -> TableLook:
    size = float(rng.uniform(7, 10))
    down = bool(rng.random() < 0.3)
    wording = pick(rng, ("full", "trade"))
    room = width - size * (3.5 if down else 9.5 if wording == "full" else 4.5)
    cell = (min(room / (rows if down else frequencies), 70.0), float(rng.uniform(17, 32)))
    return TableLook(
        fonts.load(pick(rng, fonts.faces_for("train"))),
        size,
        "trade" if down else wording,
        cell,
        down,
        pick(rng, ("all", "rows", "head"), (0.7, 0.2, 0.1)),
        grey(rng, 0.82, 0.95) if rng.random() < 0.4 else None,
        grey(rng, 0.0, 0.6),
        float(rng.uniform(0.38, 0.7)),
        bool(rng.random() < 0.15),
    )


def _note(sheet: Sheet, at: XY, face: str, size: float) -> None:
    sheet.pen.text(at, "+ : no response at this level", face, size)


def pen_register(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw one or two tables of thresholds in handwritten digits, without a chart."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.25))
    pen = sheet.pen
    days = sorted(any_date(rng) for _ in range(int(rng.integers(1, 3))))
    filling = any_filling(rng, mono=mono, one_pen=0.7)
    top = print_title(pen, rng, (45, 24, pen.width - 45, 0), "Helvetica", 10, _TITLES)
    top = draw_fields(sheet, rng, (45, top + 6, pen.width - 45, 0), "Helvetica", 9, filling, days[-1]) + 20
    frequencies = pick(rng, _FREQUENCIES)
    for day in days:
        tones = _tested(rng, frequencies, bone=0.5)
        rows = rows_for(tones)
        look = _any_table(rng, pen.width - 90, len(frequencies), rows=len(rows))
        width, height = table_size(look, frequencies, rows)
        if top + height > pen.height - 40:
            break
        jot(sheet, rng, (60, top - 16, 260, top), filling, [day], 8)
        at = (45 + float(rng.uniform(0, 1)) * max(pen.width - 90 - width, 0.0), top + 6)
        _record(sheet, day, draw_value_table(pen, rng, at, look, filling, frequencies, rows, tones))
        _note(sheet, (at[0], at[1] + height + 12), "Helvetica", 7)
        top += height + 60
    return sheet


def pen_table(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart filled in by hand and, below it, the table of its numbers in the same hand."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    filling = any_filling(rng, mono=mono, one_pen=0.5, wear=any_wear(rng), wrong=0.04)
    top = draw_fields(sheet, rng, (45, 24, pen.width - 45, 0), "Helvetica", 9, filling, date)
    scale = any_scale(rng, high=0.0)
    look = copied(rng, any_look(rng, scale, size=float(rng.uniform(6.5, 9)), mono=mono))
    look = replace(look, strokes=replace(look.strokes, one_ink=filling.one_pen))
    tones = invent(rng, scale, look, busy=any_busyness(rng), extras=0.1)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((40, top + 6, pen.width - 40, pen.height * 0.66), scale, look, (float(rng.random()), 0.0))
    draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    _below(sheet, rng, axes.frame[3] + 60, filling, scale, tones)
    return sheet


def _below(
    sheet: Sheet, rng: np.random.Generator, top: float, filling: Filling, scale: Scale, tones: Sequence[Tone]
) -> None:
    """Put the table of a chart's numbers below it, where there is room."""
    frequencies = list(scale.printed)
    rows: list[Row] = rows_for(tones, bone=bool(rng.random() < 0.5))
    look = replace(
        _any_table(rng, sheet.pen.width - 90, len(frequencies), rows=len(rows)),
        cell=((sheet.pen.width - 190) / len(frequencies), float(rng.uniform(16, 22))),
        down=False,
    )
    if top + table_size(look, frequencies, rows)[1] < sheet.pen.height - 24:
        draw_value_table(sheet.pen, rng, (45, top), look, filling, frequencies, rows, tones)


def register(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a page with a table of air and bone thresholds in handwritten digits, without a chart."""
    sheet = new_sheet(LETTER, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("DejaVuSerif"), fonts.load("DejaVuSerif-Bold")
    filling = a_filling(rng, pick(rng, ("two", "one")), mono=mono)
    pen.text((60, 64), "Register of thresholds", bold, 15)
    fill_lines(sheet, rng, (60, 84, pen.width - 60, 140), face, 10, filling, date)
    frequencies: tuple[float, ...] = (250, 500, 1000, 2000, 3000, 4000, 6000, 8000)
    tones = _tested(rng, frequencies, bone=0.6)
    rows = rows_for(tones)
    look = TableLook(face, 8.5, "full", (49.0, 24.0), shade=(0.9, 0.9, 0.9), digits=0.5)
    _record(sheet, date, draw_value_table(pen, rng, (60, 170), look, filling, frequencies, rows, tones))
    _note(sheet, (60, 190 + 24 * (len(rows) + 1)), face, 8)
    return sheet


def tally(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a small card whose frequencies run down, both ears' numbers by hand beside them."""
    sheet = new_sheet((419.5, 595.3), mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Vera"), fonts.load("VeraBd")
    filling = a_filling(rng, "one", mono=mono)
    pen.text((40, 48), "Hearing check, works nurse", bold, 12)
    fill_lines(sheet, rng, (40, 60, pen.width - 40, 108), face, 8.5, filling, date)
    frequencies: tuple[float, ...] = (500, 1000, 2000, 3000, 4000, 6000, 8000)
    tones = _tested(rng, frequencies, bone=0.0, masking=False)
    rows = rows_for(tones)
    look = TableLook(face, 9.0, "trade", (80.0, 30.0), down=True, rules="rows", line=(0.3, 0.3, 0.3), digits=0.48)
    found = draw_value_table(pen, rng, (60, 140), look, filling, frequencies, rows, tones)
    _record(sheet, date, found)
    _note(sheet, (60, 400), face, 8)
    return sheet


def berth(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart filled in by hand with the table of its air numbers above it."""
    sheet = new_sheet(A4, mono=mono)
    pen, date = sheet.pen, any_date(rng)
    face, bold = fonts.load("Lato-Regular"), fonts.load("Lato-Bold")
    line = Rule(0.55, (0.35, 0.35, 0.4))
    look = Look(
        "asha-1990",
        Lettering(face, 8, gap=4, frequency_caption="Frequency, Hz", level_caption="dB HL", inter_labelled=True),
        Ruling(line, Rule(0.45, (0.5, 0.5, 0.55), (2, 2)), line, Rule(1.0)),
        Strokes(one_ink=True),
    )
    scale = Scale((250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    filling = a_filling(rng, pick(rng, ("two", "one")), mono=mono)
    filling = replace(filling, wrong=0.04)
    pen.text((60, 54), "Numbers and chart", bold, 14)
    fill_lines(sheet, rng, (60, 66, pen.width - 60, 112), face, 9, filling, date)
    tones = invent(rng, scale, look, busy=float(rng.uniform(0.2, 0.8)), extras=0.0)
    rows: list[Row] = [("right", "air", False), ("left", "air", False), ("right", "air", True), ("left", "air", True)]
    table = TableLook(face, 8.0, "trade", (48.0, 22.0), digits=0.52)
    draw_value_table(pen, rng, (60, 130), table, filling, list(scale.printed), rows, tones)
    audiogram = sheet.open_audiogram(look.symbol_set, date)
    axes = seat((60, 268, pen.width - 60, 780), scale, look)
    draw_hand_chart(sheet, audiogram, axes, look, filling, tones, rng)
    return sheet
