"""Training forms with printed tables of thresholds: the layout is the family's, the rest is left to chance."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ... import fonts
from ...chart.chance import any_look, any_scale, grey, pick
from ...chart.draw import draw_chart
from ...sheet import Sheet
from ..around import any_date, draw_foot, draw_head, draw_remarks
from ..form import invent, new_sheet, seat
from ..training import any_busyness, any_paper
from .content import any_signs, any_test, keep, record, with_lost_mark, with_slip
from .printed import TableLook, draw_printed_table, rows_for, table_size
from .wording import TONGUES, notes

_FREQUENCIES: tuple[tuple[float, ...], ...] = (
    (250, 500, 1000, 2000, 3000, 4000, 6000, 8000),
    (500, 1000, 2000, 3000, 4000, 6000, 8000),
    (250, 500, 1000, 2000, 4000, 8000),
    (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
    (500, 1000, 2000, 4000),
    (250, 500, 1000, 2000, 4000, 8000, 10000, 12500, 16000),
)


_LETTERS = "äöüéÓíó–"
"""What the words of the four languages and the signs need beyond plain letters; every viewer's own faces have it."""


def _any_face(rng: np.random.Generator) -> str:
    faces = [name for name in fonts.faces_for("train") if fonts.FACES[name].file is None or fonts.has(name, _LETTERS)]
    return fonts.load(pick(rng, faces))


def _look(rng: np.random.Generator, mono: bool, *, down: bool | None = None) -> TableLook:
    face = _any_face(rng)
    bold = fonts.load(fonts.FACES[face].bold)
    tongue = TONGUES[pick(rng, tuple(TONGUES), (0.55, 0.15, 0.15, 0.15))]
    down = bool(rng.random() < 0.4) if down is None else down
    layout = pick(rng, ("columns", "spanned")) if down else pick(rng, ("rows", "sections", "two-heads"))
    form = int(rng.integers(1 if down else 0, 4))
    return TableLook(
        face, bold, float(rng.uniform(7, 10.5)), (0.0, float(rng.uniform(13, 24))), tongue, layout, form,
        pick(rng, ("hz", "unit", "khz", "k"), (0.5, 0.15, 0.2, 0.15)),
        any_signs(rng, arrows=fonts.has(face, "↓")),
        pick(rng, ("all", "rows", "head", "none"), (0.55, 0.2, 0.15, 0.1)), grey(rng, 0.0, 0.6),
        grey(rng, 0.82, 0.95) if rng.random() < 0.4 else None, bool(rng.random() < 0.5),
        colours=((0.8, 0.1, 0.1), (0.1, 0.2, 0.75)) if not mono and rng.random() < 0.25 else None,
    )  # fmt: skip


def _fitted(look: TableLook, rng: np.random.Generator, width: float, columns: int, named: float) -> TableLook:
    """Give a look whose columns fit into a width; ``named`` is the width of its names in sizes."""
    most = (width - named * look.size) / columns
    wide = min(float(rng.uniform(3.6, 6)) * look.size, most)
    widest = "16000 Hz" if look.heads == "unit" else "(105 NR)" if look.signs.unheard == "NR" else ">105m"
    size = min(look.size, 0.88 * look.size * wide / fonts.width(look.bold, widest, look.size))
    return replace(look, size=size, cell=(wide, max(look.cell[1], size * 1.6)))


def _note(sheet: Sheet, look: TableLook, at: tuple[float, float]) -> float:
    y = at[1]
    for line in notes(look.tongue, look.signs):
        sheet.pen.text((at[0], y), line, look.face, look.size * 0.9)
        y += look.size * 1.5
    return y


def table_page(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a page with one or two printed tables of thresholds, a date each, without a chart."""
    sheet = new_sheet(any_paper(rng), mono=mono, landscape=bool(rng.random() < 0.25))
    pen = sheet.pen
    days = sorted(any_date(rng) for _ in range(int(rng.integers(1, 3))))
    frequencies, look = pick(rng, _FREQUENCIES), _look(rng, mono)
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), "Helvetica", days[-1]) + 24
    for day in days:
        tones = any_test(rng, frequencies, bone=0.6, field=0.15)
        rows = rows_for(tones, apart=look.signs.masked == "row")
        columns = len(rows) if look.layout in ("columns", "spanned") else len(frequencies)
        fitted = _fitted(look, rng, pen.width - 90, columns, 18 if look.layout != "two-heads" else 24)
        if top + table_size(fitted, frequencies, rows)[1] > pen.height - 70:
            break
        title = f"{pick(rng, look.tongue.title)}   {day}"
        pen.text((45, top), title, look.bold, look.size * 1.1)
        cells, (_, bottom) = draw_printed_table(pen, (45, top + 10), fitted, frequencies, rows, tones)
        record(sheet, day, cells, look.signs)
        top = _note(sheet, fitted, (45, bottom + 14)) + 30
    if not sheet.audiograms:
        return table_page(rng, mono)
    draw_foot(pen, rng, "Helvetica")
    return sheet


def table_pair(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a printed table for each ear, or for each conduction, under each other, without a chart."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, day = sheet.pen, any_date(rng)
    frequencies, look = pick(rng, _FREQUENCIES), replace(_look(rng, mono, down=False), layout="rows")
    tones = any_test(rng, frequencies, bone=0.8)
    by_ear = bool(rng.random() < 0.6)
    look = _fitted(replace(look, named=(not by_ear, by_ear)), rng, pen.width - 90, len(frequencies), 18)
    top = draw_head(sheet, rng, (45, 28, pen.width - 45, 0), "Times-Roman", day) + 30
    found = []
    for k in range(2):
        if by_ear:
            ear = ("right", "left")[k]
            mine, title = [t for t in tones if t.ear == ear], (look.tongue.right, look.tongue.left)[k]
            rows = rows_for(mine, apart=look.signs.masked == "row", ears=(ear,))
        else:
            way = ("air", "bone")[k]
            mine, title = [t for t in tones if t.conduction == way], (look.tongue.air, look.tongue.bone)[k]
            rows = [r for r in rows_for(mine, apart=look.signs.masked == "row") if r[1] == way]
        if not rows:
            continue
        pen.text((45, top), title[min(look.form, 1)], look.bold, look.size * 1.15)
        cells, (_, bottom) = draw_printed_table(pen, (45, top + 8), look, frequencies, rows, mine)
        found += cells
        top = bottom + 30
    record(sheet, day, found, look.signs)
    _note(sheet, look, (45, top))
    return sheet


def table_chart(rng: np.random.Generator, mono: bool) -> Sheet:
    """Draw a chart and, below or above it, the printed table of its numbers; at times a number is wrong."""
    sheet = new_sheet(any_paper(rng), mono=mono)
    pen, day = sheet.pen, any_date(rng)
    scale = any_scale(rng, high=0.0)
    look = any_look(rng, scale, size=float(rng.uniform(6.5, 9)), mono=mono)
    tones = invent(rng, scale, look, busy=any_busyness(rng), extras=0.0)
    table = replace(_look(rng, mono), size=float(rng.uniform(6.5, 8.5)))
    listed = [t for t in tones if t.ear in ("right", "left") and t.measure == "threshold"]
    listed = [t for t in listed if t.conduction == "air" or rng.random() < 0.9]
    frequencies = sorted({t.frequency_hz for t in tones})
    rows = rows_for(listed, apart=table.signs.masked == "row")
    columns = len(rows) if table.layout in ("columns", "spanned") else len(frequencies)
    table = replace(_fitted(table, rng, pen.width - 90, columns, 18), cell=table.cell)
    table = replace(table, cell=(_fitted(table, rng, pen.width - 90, columns, 18).cell[0], table.size * 1.65))
    top = draw_head(sheet, rng, (45, 24, pen.width - 45, 0), "Helvetica", day, size=8) + 14
    depth = table_size(table, frequencies, rows)[1]
    above = bool(rng.random() < 0.3)
    room = max(pen.height - top - depth - 90, 230.0)
    chart_top = top + depth + 40 if above else top
    audiogram = sheet.open_audiogram(look.symbol_set, day)
    axes = seat((45, chart_top, pen.width - 45, chart_top + room), scale, look, (float(rng.random()), 0.0))
    draw_chart(sheet, audiogram, axes, look, with_lost_mark(rng, tones, 0.05), rng)
    at = (45.0, top) if above else (45.0, axes.frame[3] + 50)
    cells, (_, bottom) = draw_printed_table(pen, at, table, frequencies, rows, with_slip(rng, listed, 0.12))
    keep(sheet, cells, table.signs)
    _note(sheet, table, (45, bottom + 12))
    if rng.random() < 0.2:
        draw_remarks(pen, rng, (45, bottom + 40, pen.width - 45, pen.height - 30), "Helvetica", 8)
    return sheet
