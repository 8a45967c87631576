"""Plots that have nothing to do with hearing: weather, sales, lungs, growth, hearts, depths, and empty graph paper."""

from __future__ import annotations

import numpy as np

from ..chart.chance import pick
from ..forms.form import A4, LETTER, new_sheet
from ..pen import BLACK, XY
from ..sheet import Sheet
from .plot import BLUE, GREEN, GREY, ORANGE, PAIR, PALE, RED, Box, Marker, Plot, Span, any_face, steps
from .words import flowing

_MONTHS = ("J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D")
_MARKERS: tuple[Marker, ...] = ("circle", "cross", "triangle", "square", "diamond", "plus", "dot")


def _page(rng: np.random.Generator, mono: bool) -> tuple[Sheet, Box]:
    """Begin a page and choose where its plot goes."""
    sheet = new_sheet(A4 if rng.random() < 0.6 else LETTER, landscape=bool(rng.random() < 0.3), mono=mono)
    pen = sheet.pen
    top = float(rng.uniform(80, 160))
    bottom = min(pen.height - 90, top + float(rng.uniform(230, 430)))
    return sheet, (float(rng.uniform(75, 120)), top, pen.width - float(rng.uniform(45, 110)), bottom)


def _walk(rng: np.random.Generator, count: int, low: float, high: float, rough: float) -> list[float]:
    """Draw values of a curve by chance within limits."""
    value, out = float(rng.uniform(low, high)), []
    for _ in range(count):
        value = float(np.clip(value + rng.normal(0, rough * (high - low)), low, high))
        out.append(value)
    return out


def _below(sheet: Sheet, rng: np.random.Generator, box: Box, face: str) -> None:
    if rng.random() < 0.6 and box[3] + 120 < sheet.pen.height:
        flowing(sheet.pen, rng, (60, box[3] + 70), sheet.pen.width - 120, face, 9.5, 3)


def weather(rng: np.random.Generator, mono: bool) -> Sheet:
    """Temperatures and rain of a year: two joined curves with markers over a grid."""
    sheet, box = _page(rng, mono)
    face = any_face(rng, "train")
    plot = Plot(sheet.pen, box, Span(0.5, 12.5), Span(35, -15), face, 8.5)
    plot.lines(steps(1, 12, 1), steps(-15, 35, 5), PALE, 0.6)
    plot.frame()
    plot.numbers(steps(1, 12, 1), steps(-10, 30, 10), names=_MONTHS)
    plot.captions("Month", "Temperature (°C)", "Weather at the harbour")
    season = [-np.cos((m - 1) / 6 * np.pi) * 9 for m in range(1, 13)]
    for base, (marker, colour), dash in zip((14, 6), PAIR, ((), (4, 3)), strict=True):
        points: list[XY] = [(m, float(base + s + rng.normal(0, 1.5))) for m, s in enumerate(season, 1)]
        plot.curve(points, colour, 1.0, dash)
        plot.markers(points, marker, colour, 4)
    _below(sheet, rng, box, face)
    return sheet


def sales(rng: np.random.Generator, mono: bool) -> Sheet:
    """Sales of several goods over the years as lines with markers and a legend."""
    sheet, box = _page(rng, mono)
    face, first = any_face(rng, "bench"), int(rng.integers(1998, 2016))
    count, top = int(rng.integers(6, 11)), float(pick(rng, (50, 100, 120, 500)))
    plot = Plot(sheet.pen, box, Span(first, first + count - 1), Span(top, 0), face, 9)
    plot.lines((), steps(0, top, top / 10), PALE, 0.5)
    plot.frame(open_=True)
    plot.numbers(steps(first, first + count - 1, 1), steps(0, top, top / 5))
    plot.captions("Year", "Sold (thousand)", pick(rng, ("Hearing aids sold", "Boats in the harbour", "Visitors")))
    for k, colour in enumerate((RED, BLUE, GREEN)[: int(rng.integers(1, 4))]):
        values = _walk(rng, count, 0.05 * top, 0.95 * top, 0.15)
        points: list[XY] = [(first + i, v) for i, v in enumerate(values)]
        plot.curve(points, colour, 1.2, () if k == 0 else (3 * k, 2))
        plot.markers(points, _MARKERS[k], colour, 3.5)
    return sheet


def bars(rng: np.random.Generator, mono: bool) -> Sheet:
    """Bar chart of percentages per week."""
    sheet, box = _page(rng, mono)
    face, count = any_face(rng, "train"), int(rng.integers(4, 13))
    plot = Plot(sheet.pen, box, Span(0, count), Span(100, 0), face, 9)
    plot.lines((), steps(0, 100, 10), PALE, 0.5)
    colour = pick(rng, (BLUE, ORANGE, GREEN, GREY))
    for k in range(count):
        height = float(rng.uniform(5, 98))
        (left, top), (right, bottom) = plot.at(k + 0.2, height), plot.at(k + 0.8, 0)
        sheet.pen.rect((left, top, right, bottom), BLACK, 0.6, fill=colour)
    plot.frame()
    plot.numbers([k + 0.5 for k in range(count)], steps(0, 100, 20), names=[str(k + 1) for k in range(count)])
    plot.captions("Week", "Patients (%)", "Appointments kept")
    _below(sheet, rng, box, face)
    return sheet


def scatter(rng: np.random.Generator, mono: bool) -> Sheet:
    """Scatter plot with O and X markers on numeric axes."""
    sheet, box = _page(rng, mono)
    face = any_face(rng, "train")
    top = float(pick(rng, (60, 100, 120)))
    plot = Plot(sheet.pen, box, Span(0, 10), Span(top, 0) if rng.random() < 0.6 else Span(0, top), face, 9)
    if rng.random() < 0.7:
        plot.lines(steps(0, 10, 1), steps(0, top, 10), pick(rng, (PALE, GREY)), 0.5)
    plot.frame()
    plot.numbers(steps(0, 10, 1), steps(0, top, 10))
    plot.captions("Dose (mg)", "Score", "Two groups")
    for marker, colour in PAIR:
        slope = rng.normal(0, 5)
        xs = rng.uniform(0.3, 9.7, int(rng.integers(6, 30)))
        ys = np.clip(top / 2 + slope * (xs - 5) + rng.normal(0, top / 8, len(xs)), 1, top - 1)
        plot.markers([(float(x), float(y)) for x, y in zip(xs, ys, strict=True)], marker, colour, 4)
    return sheet


def groups(rng: np.random.Generator, mono: bool) -> Sheet:
    """Two joined groups of O and X on a logarithmic axis of doses, the response rising."""
    sheet, box = _page(rng, mono)
    face = any_face(rng, "bench")
    plot = Plot(sheet.pen, box, Span(1, 1000, log=True), Span(100, 0), face, 9)
    decades = [m * 10.0**d for d in range(3) for m in range(1, 10)] + [1000.0]
    plot.lines(decades, steps(0, 100, 10), PALE, 0.5)
    plot.frame()
    plot.numbers((1, 10, 100, 1000), steps(0, 100, 20))
    plot.captions("Concentration (mg/l)", "Response (%)", "Dose and response")
    for (marker, colour), middle in zip(PAIR, (rng.uniform(10, 50), rng.uniform(50, 200)), strict=True):
        points: list[XY] = [
            (x, float(np.clip(100 / (1 + (middle / x) ** 1.5) + rng.normal(0, 3), 0, 100)))
            for x in (2, 5, 10, 20, 50, 100, 200, 500)
        ]
        plot.curve(points, colour, 1.0)
        plot.markers(points, marker, colour, 4)
    return sheet


def breath(rng: np.random.Generator, mono: bool) -> Sheet:
    """Spirometry: flow over volume, with a table of numbers."""
    sheet, box = _page(rng, mono)
    face, volume = any_face(rng, "bench"), float(rng.uniform(2.5, 5.8))
    plot = Plot(sheet.pen, box, Span(0, 8), Span(12, -8), face, 9)
    plot.lines(steps(0, 8, 1), steps(-8, 12, 2), (0.75, 0.85, 0.75), 0.5)
    plot.frame()
    plot.numbers(steps(0, 8, 1), steps(-8, 12, 2))
    plot.captions("Volume (l)", "Flow (l/s)", "Spirometry")
    xs = np.linspace(0, volume, 60)
    peak, dip = rng.uniform(5, 11), rng.uniform(0.6, 2.5)
    flow = peak * np.minimum(xs / (0.12 * volume), 1) * (1 - np.maximum(xs / volume - 0.12, 0) / 0.88) ** dip
    plot.curve([(float(x), float(y)) for x, y in zip(xs, flow, strict=True)], BLUE, 1.2)
    back = -rng.uniform(3, 6) * np.sin(xs / volume * np.pi)
    plot.curve([(float(x), float(y)) for x, y in zip(xs, back, strict=True)], BLUE, 1.2)
    plot.curve([(0.6, peak * 0.9), (volume * 0.95, 0.3)], GREY, 0.8, (3, 3))
    return sheet


def growth(rng: np.random.Generator, mono: bool) -> Sheet:
    """Growth of a child: percentile curves, and the child's own values as crosses."""
    sheet, box = _page(rng, mono)
    face = any_face(rng, "train")
    plot = Plot(sheet.pen, box, Span(0, 18), Span(200, 40), face, 8.5)
    plot.lines(steps(0, 18, 1), steps(40, 200, 10), (0.8, 0.85, 0.95), 0.5)
    plot.frame()
    plot.numbers(steps(0, 18, 2), steps(40, 200, 20))
    plot.captions("Age (years)", "Height (cm)", "Growth")
    ages = np.linspace(0, 18, 40)
    for share in (-1.9, -1.3, -0.7, 0.0, 0.7, 1.3, 1.9):
        heights = 50 + 125 * (1 - np.exp(-ages / 7.5)) / (1 - np.exp(-18 / 7.5)) + share * (2 + ages * 0.32)
        plot.curve([(float(a), float(h)) for a, h in zip(ages, heights, strict=True)], GREY, 0.7)
    own = np.sort(rng.uniform(0.5, 17.5, int(rng.integers(4, 9))))
    points = [(float(a), float(52 + 120 * (1 - np.exp(-a / 7.5)) / 0.91 + rng.normal(0, 2))) for a in own]
    plot.curve(points, BLUE, 0.9)
    plot.markers(points, pick(rng, ("cross", "circle", "dot")), BLUE, 3.5)
    return sheet


def heart(rng: np.random.Generator, mono: bool) -> Sheet:
    """Heart currents (ECG) on red or grey graph paper of 1 and 5 mm."""
    sheet = new_sheet(A4, landscape=True, mono=mono)
    pen, mm = sheet.pen, 72 / 25.4
    box = (40.0, 90.0, 40 + 5 * mm * 50, 90 + 5 * mm * 26)
    colour = pick(rng, ((0.95, 0.6, 0.6), (0.8, 0.8, 0.8), (0.6, 0.85, 0.6)))
    plot = Plot(pen, box, Span(0, 250), Span(0, 130), any_face(rng, "train"), 9)
    plot.lines(steps(0, 250, 1), steps(0, 130, 1), colour, 0.15)
    plot.lines(steps(0, 250, 5), steps(0, 130, 5), colour, 0.5)
    beat = float(rng.uniform(17, 27))
    for row, name in enumerate(("I", "II", "III", "V1")):
        xs = np.arange(5, 245, 0.4)
        phase = (xs % beat) / beat
        wave = 2 * np.exp(-(((phase - 0.2) / 0.03) ** 2)) + 3.5 * np.exp(-(((phase - 0.6) / 0.06) ** 2))
        wave += rng.uniform(7, 13) * np.exp(-(((phase - 0.32) / 0.008) ** 2)) - 3 * np.exp(
            -(((phase - 0.345) / 0.008) ** 2)
        )
        ys = 24 + 30 * row - wave + rng.normal(0, 0.12, len(xs))
        plot.curve([(float(x), float(y)) for x, y in zip(xs, ys, strict=True)], BLACK, 0.7)
        pen.text(plot.at(2, 20 + 30 * row), name, plot.face, 10)
    pen.text((40, 70), "25 mm/s   10 mm/mV", plot.face, 10)
    return sheet


def depths(rng: np.random.Generator, mono: bool) -> Sheet:
    """Soundings: depth downward over distance, two days as O and X joined."""
    sheet, box = _page(rng, mono)
    face = any_face(rng, "bench")
    low = int(pick(rng, (60, 100, 120)))
    plot = Plot(sheet.pen, box, Span(0, 8), Span(0, low), face, 9)
    plot.lines(steps(0, 8, 1), steps(0, low, 10), (0.75, 0.82, 0.9), 0.6)
    plot.frame()
    plot.numbers(steps(0, 8, 1), steps(0, low, 10), above=True)
    plot.captions("Distance (km)", "Depth (m)", "Soundings off the harbour", above=True)
    for (marker, colour), dash in zip(PAIR, ((), (4, 3)), strict=True):
        values = _walk(rng, 9, 5, low - 5, 0.12)
        points: list[XY] = [(float(k), v) for k, v in enumerate(values)]
        plot.curve(points, colour, 1.0, dash)
        plot.markers(points, marker, colour, 4)
    return sheet


def graph_paper(rng: np.random.Generator, mono: bool) -> Sheet:
    """Empty graph paper, evenly or logarithmically ruled."""
    sheet, box = _page(rng, mono)
    pen = sheet.pen
    box = (40, 40, pen.width - 40, pen.height - 40) if rng.random() < 0.6 else box
    colour = pick(rng, ((0.55, 0.7, 0.9), (0.9, 0.6, 0.5), GREY, (0.5, 0.8, 0.6)))
    if rng.random() < 0.5:
        pitch = float(pick(rng, (14.17, 11.34, 28.35)))
        across, down = int((box[2] - box[0]) // pitch), int((box[3] - box[1]) // pitch)
        box = (box[0], box[1], box[0] + across * pitch, box[1] + down * pitch)
        plot = Plot(pen, box, Span(0, across), Span(0, down), "Helvetica", 8)
        plot.lines(steps(0, across, 1), steps(0, down, 1), colour, float(rng.uniform(0.3, 0.8)))
    else:
        plot = Plot(pen, box, Span(1, 1000, log=True), Span(0, 10), "Helvetica", 8)
        plot.lines([m * 10.0**d for d in range(3) for m in range(1, 10)], steps(0, 10, 0.5), colour, 0.4)
        plot.lines((1, 10, 100, 1000), steps(0, 10, 1), colour, 0.9)
    plot.frame(colour=colour)
    return sheet
