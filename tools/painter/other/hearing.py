"""Hearing pages without an audiogram's thresholds: middle ear, emissions, speech, hearing-aid curves, empty forms."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..chart.axes import OCTAVES, Scale
from ..chart.chance import any_look, any_scale, pick
from ..chart.draw import draw_chart
from ..chart.look import Lettering, Look, Rule, Ruling, Strokes
from ..chart.ruling import draw_ruling
from ..forms.around import any_date, draw_foot, draw_head, draw_speech, draw_table, draw_tympanogram
from ..forms.form import A4, LETTER, new_sheet, seat
from ..pen import XY
from ..sheet import Sheet
from .plot import BLUE, GREEN, GREY, PAIR, PALE, RED, Plot, Span, any_face, steps


def _headed(rng: np.random.Generator, face: str, mono: bool) -> tuple[Sheet, float]:
    sheet = new_sheet(A4 if rng.random() < 0.6 else LETTER, mono=mono)
    return sheet, draw_head(sheet, rng, (45, 30, sheet.pen.width - 45, 0), face, any_date(rng)) + 25


def tympanogram(rng: np.random.Generator, mono: bool) -> Sheet:
    """Tympanograms of both ears: admittance over pressure in daPa."""
    face = any_face(rng, "train")
    sheet, top = _headed(rng, face, mono)
    pen, half = sheet.pen, sheet.pen.width / 2
    for k, (title, colour) in enumerate((("Right", RED), ("Left", BLUE))):
        box = (70 + k * (half - 20), top + 20, half - 10 + k * (half - 25), top + 220)
        plot = Plot(pen, box, Span(-400, 200), Span(2, 0), face, 8)
        plot.lines(steps(-400, 200, 100), steps(0, 2, 0.5), PALE, 0.5)
        plot.frame()
        plot.numbers(steps(-400, 200, 100), steps(0, 2, 0.5))
        plot.captions("Pressure (daPa)", "Admittance (mmho)", title)
        peak, height, width = rng.uniform(-250, 40), rng.uniform(0.05, 1.6), rng.uniform(40, 110)
        pressures = np.linspace(-400, 200, 70)
        curve = 0.1 + height / (1 + ((pressures - peak) / width) ** 2)
        plot.curve([(float(x), float(y)) for x, y in zip(pressures, curve, strict=True)], colour, 1.2)
    rows = [
        ("", "Right", "Left"),
        *((n, f"{rng.uniform(0.1, 2):.1f}", f"{rng.uniform(0.1, 2):.1f}") for n in ("ECV", "Peak", "Width")),
    ]
    draw_table(pen, (70, top + 280), rows, face, 9, (90, 70, 70))
    return sheet


def reflexes(rng: np.random.Generator, mono: bool) -> Sheet:
    """Acoustic reflexes as a table of levels per frequency, with small tympanograms."""
    face = any_face(rng, "bench")
    sheet, top = _headed(rng, face, mono)
    pen = sheet.pen
    rows: list[tuple[str, ...]] = [("dB HL", "500 Hz", "1000 Hz", "2000 Hz", "4000 Hz")]
    rows += [
        (name, *(str(5 * int(rng.integers(15, 22))) if rng.random() < 0.85 else "NR" for _ in range(4)))
        for name in ("Right ipsi", "Right contra", "Left ipsi", "Left contra")
    ]
    y = draw_table(pen, (60, top), rows, face, 10, (110, 85, 85, 85, 85), ruled=bool(rng.random() < 0.8))
    for k, title in enumerate(("Right ear", "Left ear")):
        draw_tympanogram(pen, rng, (70 + 250 * k, y + 40, 270 + 250 * k, y + 160), face, 8, title)
    draw_speech(pen, rng, (60, y + 210), face, 8)
    pen.line((60, top - 8), (pen.width - 60, top - 8), GREEN, 0.8)
    return sheet


def emissions(rng: np.random.Generator, mono: bool) -> Sheet:
    """Otoacoustic emissions: levels in dB SPL rising upward over frequency, O and X joined, over a noise floor."""
    face = any_face(rng, "train")
    sheet, top = _headed(rng, face, mono)
    hz = (1000, 1500, 2000, 3000, 4000, 6000, 8000)
    plot = Plot(
        sheet.pen, (100, top, sheet.pen.width - 80, top + 280), Span(800, 10000, log=True), Span(30, -30), face, 9
    )
    floor = [(float(f), float(rng.normal(-16, 3))) for f in hz]
    edge = [plot.at(x, y) for x, y in floor]
    base = plot.box[3]
    sheet.pen.path([(edge[0][0], base), *edge, (edge[-1][0], base)], None, closed=True, fill=(0.85, 0.85, 0.85))
    plot.lines(hz, steps(-30, 30, 10), PALE if rng.random() < 0.5 else GREY, 0.5)
    plot.frame()
    plot.numbers(hz, steps(-30, 30, 10))
    plot.captions("f2 (Hz)", "Level (dB SPL)", "Distortion product emissions")
    for marker, colour in PAIR:
        points: list[XY] = [(f, float(np.clip(rng.normal(4, 7), -25, 25))) for f in hz]
        plot.curve(points, colour, 1.0)
        plot.markers(points, marker, colour, 4.5)
    draw_foot(sheet.pen, rng, face)
    return sheet


def screening(rng: np.random.Generator, mono: bool) -> Sheet:
    """Emission screening: bars per band with pass or refer."""
    face = any_face(rng, "bench")
    sheet, top = _headed(rng, face, mono)
    for k, (title, colour) in enumerate((("Right ear", RED), ("Left ear", BLUE))):
        box = (80 + 250 * k, top + 20, 270 + 250 * k, top + 200)
        plot = Plot(sheet.pen, box, Span(0, 4), Span(25, -15), face, 8)
        plot.lines((), steps(-15, 25, 5), PALE, 0.5)
        plot.frame()
        plot.numbers((0.5, 1.5, 2.5, 3.5), steps(-10, 20, 10), names=("1.5k", "2k", "3k", "4k"))
        plot.captions("Frequency (Hz)", "dB SPL", title)
        for band in range(4):
            (left, upper), (right, lower) = plot.at(band + 0.2, rng.uniform(-5, 22)), plot.at(band + 0.8, -15)
            sheet.pen.rect((left, upper, right, lower), None, fill=colour)
        verdict = "PASS" if rng.random() < 0.6 else "REFER"
        sheet.pen.text((box[0], box[3] + 48), verdict, face, 13)
    return sheet


def speech_curve(rng: np.random.Generator, mono: bool) -> Sheet:
    """Speech audiometry: words understood in per cent over level, O and X joined, no thresholds of tones."""
    face = any_face(rng, "train")
    sheet, top = _headed(rng, face, mono)
    upside_down = rng.random() < 0.4
    side = float(rng.uniform(260, 360))
    down = Span(0, 100) if upside_down else Span(100, 0)
    plot = Plot(sheet.pen, (100, top + 20, 100 + side, top + 20 + side), Span(0, 120), down, face, 9)
    plot.lines(steps(0, 120, 10), steps(0, 100, 10), pick(rng, (PALE, GREY)), 0.5)
    plot.frame()
    plot.numbers(steps(0, 120, 20), steps(0, 100, 20), above=upside_down)
    plot.captions("Speech level (dB)", "Words understood (%)", "Speech audiogram", above=upside_down)
    for marker, colour in PAIR:
        middle, best = rng.uniform(20, 70), rng.uniform(60, 100)
        levels = steps(round(middle / 10) * 10 - 10, min(120, round(middle / 10) * 10 + 40), 10)
        points = [(v, round(float(best / (1 + np.exp(-(v - middle) / 6))) / 5) * 5.0) for v in levels]
        plot.curve(points, colour, 1.0)
        plot.markers(points, marker, colour, 4.5)
    return sheet


def aid_output(rng: np.random.Generator, mono: bool) -> Sheet:
    """Output of a hearing aid in dB SPL, rising upward over frequency: smooth curves, no marks."""
    face = any_face(rng, "train")
    sheet, top = _headed(rng, face, mono)
    hz = (125, 250, 500, 1000, 2000, 4000, 8000)
    plot = Plot(
        sheet.pen, (90, top, sheet.pen.width - 70, top + 290), Span(100, 10000, log=True), Span(140, 40), face, 9
    )
    plot.lines(hz, steps(40, 140, 10), PALE, 0.5)
    plot.frame()
    plot.numbers(hz, steps(40, 140, 10))
    plot.captions("Frequency (Hz)", "Output (dB SPL)", "Output in the coupler")
    grid = np.geomspace(110, 9000, 120)
    for level, colour in zip((90, 65, 50), (RED, GREEN, BLUE), strict=True):
        gain = 30 * np.exp(-((np.log2(grid / rng.uniform(1500, 3000)) / rng.uniform(1.2, 2.2)) ** 2))
        output = level + gain - 12 * np.exp(-np.log2(grid / 110)) + rng.normal(0, 0.4, len(grid)).cumsum() * 0.3
        plot.curve([(float(x), float(y)) for x, y in zip(grid, output, strict=True)], colour, 1.1)
    return sheet


def room_noise(rng: np.random.Generator, mono: bool) -> Sheet:
    """Noise in the test room: octave bands of 63 to 8000 Hz in dB, measured levels joined beside the limit."""
    face = any_face(rng, "bench")
    sheet, top = _headed(rng, face, mono)
    hz = (63, 125, 250, 500, 1000, 2000, 4000, 8000)
    plot = Plot(sheet.pen, (100, top, sheet.pen.width - 80, top + 270), Span(63, 8000, log=True), Span(80, 0), face, 9)
    plot.lines(hz, steps(0, 80, 10), GREY, 0.4)
    plot.frame()
    plot.numbers(hz, steps(0, 80, 10))
    plot.captions("Octave band (Hz)", "Sound pressure level (dB)", "Noise in booth 2")
    limit: list[XY] = [(f, 62 - 7 * k + 0.5 * k * k) for k, f in enumerate(hz)]
    plot.curve(limit, RED, 1.2, (5, 3))
    points: list[XY] = [(f, float(np.clip(y - rng.uniform(-3, 15), 2, 78))) for f, y in limit]
    plot.curve(points, BLUE, 1.0)
    plot.markers(points, "dot", BLUE, 3)
    return sheet


def blank_form(rng: np.random.Generator, mono: bool) -> Sheet:
    """Empty audiogram form: axes, grid and labels, no marks."""
    sheet, top = _headed(rng, "Helvetica", mono)
    scale = any_scale(rng)
    look = any_look(rng, scale, size=float(rng.uniform(6.5, 9)), mono=mono)
    audiogram = sheet.open_audiogram(look.symbol_set, None)
    box = (45, top, sheet.pen.width - 45, sheet.pen.height * float(rng.uniform(0.65, 0.85)))
    draw_chart(sheet, audiogram, seat(box, scale, look), look, (), rng)
    return sheet


def blank_pair(rng: np.random.Generator, mono: bool) -> Sheet:
    """Two empty audiogram charts side by side, an ear each."""
    face = any_face(rng, "bench")
    sheet, top = _headed(rng, face, mono)
    inter = pick(rng, ((), (750, 1500, 3000, 6000)))
    scale = Scale(tuple(sorted((*OCTAVES, *inter))), (-10, 120), margin=(0.3, 0.3, 0.0, 0.0))
    line = pick(rng, (GREY, PALE, (0.3, 0.5, 0.6)))
    ruling = Ruling(Rule(0.5, line), Rule(0.4, line, (2, 2)), Rule(0.5, line), Rule(0.9))
    look = Look("asha-1990", Lettering(face, 6.5, caption_size=6.5), ruling, Strokes())
    audiogram = sheet.open_audiogram("asha-1990", None)
    half = sheet.pen.width / 2
    for title, box in (
        ("Right", (25, top, half - 5, top + 330)),
        ("Left", (half + 5, top, sheet.pen.width - 25, top + 330)),
    ):
        named = replace(look, lettering=replace(look.lettering, title=title))
        draw_chart(sheet, audiogram, seat(box, scale, named), named, (), rng)
    return sheet


def bare_grid(rng: np.random.Generator, mono: bool) -> Sheet:
    """Grid like an audiogram's, without any label, with a few O and X that mean nothing."""
    sheet, top = _headed(rng, "Times-Roman", mono)
    scale = any_scale(rng)
    look = any_look(rng, scale, size=8, mono=mono)
    axes = seat((60, top, sheet.pen.width - 60, sheet.pen.height * 0.75), scale, look)
    draw_ruling(sheet.pen, axes, replace(look.ruling, bands=()))
    left, upper, right, lower = axes.frame
    if rng.random() < 0.6:
        plot = Plot(sheet.pen, axes.frame, Span(left, right), Span(upper, lower), "Times-Roman", 8)
        for marker, colour in PAIR:
            places = rng.uniform((left, upper), (right, lower), (int(rng.integers(1, 6)), 2))
            plot.markers([(float(x), float(y)) for x, y in places], marker, colour, 4)
    return sheet
