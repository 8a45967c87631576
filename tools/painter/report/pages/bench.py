"""Benchmark pages with all their facts: layouts, faces and some wordings that no training page has."""

from __future__ import annotations

import numpy as np

from ...chart.axes import Scale
from ...chart.chance import pick
from ...chart.look import Lettering, Look, Rule, Ruling, Shape, Strokes
from ...forms.form import A4, LETTER
from ...sheet import Sheet
from .page import ReportPage, begin

_FULL = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
_SCALES = (
    Scale(_FULL, (-10, 120), margin=(0.5, 0.5, 0.0, 0.0)),
    Scale(_FULL[1:], (-10, 110), margin=(0.4, 0.4, 5, 5)),
    Scale((250, 500, 1000, 2000, 3000, 4000, 6000, 8000), (-10, 120), margin=(0.5, 0.5, 0.0, 0.0)),
)
_LINES = ((0.5, 0.5, 0.5), (0.6, 0.65, 0.75), (0.75, 0.7, 0.65))


def _look(page: ReportPage, which: int, size: float) -> Look:
    """Give one of three plain looks, in the page's own face."""
    rng, line = page.rng, Rule(0.5, _LINES[which])
    lettering = Lettering(
        page.setting.face,
        size,
        gap=4,
        inter_labelled=which != 1,
        inter_size=0.8,
        frequency_caption=("Frequency (Hz)", "Hz", "Frequency in Hz")[which],
        level_caption=("Hearing level (dB HL)", "dB HL", "dB HL")[which],
        frequency_side=("above", "below", "above")[which],
        title_face=page.setting.bold,
    )
    strokes = Strokes(
        height_db=float(rng.uniform(7, 9)),
        width=float(rng.uniform(0.9, 1.3)),
        one_ink=page.sheet.pen.mono,
        beside=0.18,
        shape=Shape(angle=0.55),
        join=(Rule(0.9), Rule(0.9, dash=(4, 3))),
        arrow_head="filled",
    )
    inter = Rule(0.4, _LINES[which], (2, 2)) if which != 1 else Rule(0.0)
    return Look("asha-1990", lettering, Ruling(line, inter, line, Rule(1.0)), strokes)


def draw_bench_chart(
    page: ReportPage, height: float, which: int, *, right: float | None = None, apart: bool = False
) -> None:
    """Draw the chart of a benchmark page, in one of three plain looks (0 to 2)."""
    box = (page.left, page.y + 6, page.right if right is None else right, page.y + height)
    look = _look(page, which, 6.0 if apart else 7.5)
    page.chart(_SCALES[which], look, box, busy=float(page.rng.uniform(0.2, 0.9)), apart=apart)


def logbook(rng: np.random.Generator, mono: bool) -> Sheet:
    """Values in line in two columns under a letterhead, one chart, averages and speech below."""
    page = begin(rng, mono, "bench", A4, size=9)
    page.head(letterhead=True, title=True)
    page.cells("aligned", columns=2)
    draw_bench_chart(page, 320, 0)
    page.y += 334
    page.averages()
    if page.has_room(90):
        page.speech()
    return page.finish()


def beacon(rng: np.random.Generator, mono: bool) -> Sheet:
    """Values on lines to write on, on Letter paper in English, one chart, speech."""
    page = begin(rng, mono, "bench", LETTER, code="en", size=9.5)
    page.head(letterhead=False, title=True, centred=True)
    page.cells("ruled", columns=2)
    draw_bench_chart(page, 300, 1)
    page.y += 314
    if page.has_room(100):
        page.speech()
    return page.finish()


def wharf(rng: np.random.Generator, mono: bool) -> Sheet:
    """German or French: dotted lines to the values, the chart at the left and speech below."""
    page = begin(rng, mono, "bench", A4, code=pick(rng, ("de", "fr")), size=9)
    page.head(letterhead=True, title=False)
    page.cells("dotted", columns=2)
    top = page.y
    draw_bench_chart(page, 280, 2, right=page.right - 150)
    page.y = top + 40
    page.averages(left=page.right - 140, width=140)
    page.y = top + 294
    if page.has_room(90):
        page.speech()
    return page.finish()


def sextant(rng: np.random.Generator, mono: bool) -> Sheet:
    """Chart for each ear at the top, the facts as a wide table under them."""
    page = begin(rng, mono, "bench", A4, size=8.5)
    page.head(letterhead=True, title=True)
    page.cells("running", only=page.told.cells[:3])
    draw_bench_chart(page, 262, 1, apart=True)
    page.y += 276
    page.cells("table", columns=2, only=page.told.cells[3:])
    page.averages()
    if page.has_room(100):
        page.speech()
    return page.finish()


def jetty(rng: np.random.Generator, mono: bool) -> Sheet:
    """Patient in ruled boxes, a chart, and the test's own facts in lines below it."""
    page = begin(rng, mono, "bench", LETTER, size=8.5)
    page.head(letterhead=False, title=True)
    page.cells("boxed", columns=4, only=page.told.cells[:4])
    draw_bench_chart(page, 290, 0)
    page.y += 304
    page.cells("aligned", columns=2, only=page.told.cells[4:])
    if page.has_room(60):
        page.averages()
    if page.has_room(100):
        page.speech()
    return page.finish()


def sluice(rng: np.random.Generator, mono: bool) -> Sheet:
    """Middle-ear page: numbers, curves and reflexes."""
    page = begin(rng, mono, "bench", A4, size=9)
    page.head(letterhead=True, title=False, centred=True)
    page.cells("dotted", columns=1)
    page.open()
    page.tympanometry(pick(rng, ("none", "beside", "only"), (0.25, 0.6, 0.15)))
    if page.has_room(170):
        page.reflexes()
    return page.finish()


def bollard(rng: np.random.Generator, mono: bool) -> Sheet:
    """Emissions page under a ruled head."""
    page = begin(rng, mono, "bench", A4, size=9)
    page.head(letterhead=False, title=True)
    page.cells("ruled", columns=3)
    page.open()
    page.emissions()
    return page.finish()


def haven(rng: np.random.Generator, mono: bool) -> Sheet:
    """Page of words without a chart: facts in one column, speech, tympanometry."""
    page = begin(rng, mono, "bench", A4, size=10.5, busy=0.85)
    page.head(letterhead=True, title=True)
    page.cells("aligned", columns=1)
    page.open()
    page.speech()
    if page.has_room(150):
        page.tympanometry("none")
    if page.has_room(160):
        page.reflexes()
    return page.finish()


def compass(rng: np.random.Generator, mono: bool) -> Sheet:
    """Landscape page: facts in a narrow column above speech, a chart below at full width."""
    page = begin(rng, mono, "bench", A4, size=8.5, landscape=True, busy=0.6)
    page.head(letterhead=True, title=True)
    page.cells("columns", columns=4)
    top = page.y
    edge = page.right - 260
    draw_bench_chart(page, min(330.0, page.sheet.pen.height - page.y - 40), 2, right=edge)
    page.y = top + 20
    page.averages(left=edge + 20, width=240)
    page.speech(left=edge + 20, width=240)
    return page.finish()
