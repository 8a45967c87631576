"""Tympanograms as drawn curves."""

from __future__ import annotations

import numpy as np

from .....interpret.record import Box, Tympanogram
from ... import fonts
from ...chart.chance import pick
from ...pen import BLACK, XY, Colour
from ...sheet import Sheet
from ..scribe import Setting, fractions
from .traces import Trace, side_names


def draw_curves(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    width: float,
    traces: tuple[Trace, Trace],
) -> tuple[list[Box], float]:
    """Draw both curves side by side; give their frames in page fractions and the y below them in points."""
    (left, top), boxes = at, []
    names = side_names(rng, setting)
    low, high = pick(rng, ((-400, 200), (-600, 400), (-300, 200)))
    if min((t.numbers.peak_pressure_dapa or 0.0) for t in traces) < low + 40:
        low = -600
    tallest = max((t.numbers.peak_admittance_mmho or 0.0) for t in traces)
    most = 3.0 if tallest > 1.8 else 2.0 if tallest > 1.2 else 1.5
    coloured = rng.random() < 0.6
    wide, tall = min((width - 20) / 2, 210.0), float(rng.uniform(80, 120))
    for k, trace in enumerate(traces):
        start = left + k * (wide + 20)
        box = (start + setting.size * 2.4, top + setting.size * 1.6, start + wide, top + setting.size * 1.6 + tall)
        colour = ((0.8, 0.1, 0.1), (0.1, 0.2, 0.75))[k] if coloured else BLACK
        _draw_plot(sheet, setting, box, (low, high), most, colour, names[k])
        _draw_trace(sheet, rng, box, (low, high), most, colour, trace.numbers)
        boxes.append(fractions(sheet, box))
    return boxes, top + tall + setting.size * 5.2


def _draw_plot(
    sheet: Sheet, setting: Setting, box: Box, pressures: tuple[int, int], most: float, colour: Colour, name: str
) -> None:
    pen, (left, top, right, bottom), size = sheet.pen, box, setting.size * 0.8
    pen.text(((left + right) / 2, top - size * 0.6), name, setting.bold, size * 1.1, colour, anchor=0.5)
    for pressure in range(pressures[0], pressures[1] + 1, 100 if pressures[1] - pressures[0] <= 600 else 200):
        x = left + (pressure - pressures[0]) / (pressures[1] - pressures[0]) * (right - left)
        pen.line((x, top), (x, bottom), (0.82, 0.82, 0.82), 0.4)
        pen.text((x, bottom + size * 1.2), str(pressure), setting.face, size * 0.9, anchor=0.5)
    for k in range(int(most / 0.5) + 1):
        y = bottom - k * 0.5 / most * (bottom - top)
        pen.line((left, y), (right, y), (0.82, 0.82, 0.82), 0.4)
        pen.text((left - 3, y + size * 0.35), setting.number(k * 0.5, 1), setting.face, size * 0.9, anchor=1)
    pen.rect(box, (0.3, 0.3, 0.3), 0.6)
    pen.text(((left + right) / 2, bottom + size * 2.5), "daPa", setting.face, size, anchor=0.5)
    pen.text((left - fonts.width(setting.face, "ml", size), top - size * 0.6), "ml", setting.face, size, anchor=0.5)


def _draw_trace(
    sheet: Sheet,
    rng: np.random.Generator,
    box: Box,
    pressures: tuple[int, int],
    most: float,
    colour: Colour,
    numbers: Tympanogram,
) -> None:
    left, top, right, bottom = box
    across = np.linspace(pressures[0], pressures[1], 90)
    if numbers.has_peak:
        assert numbers.peak_pressure_dapa is not None
        assert numbers.peak_admittance_mmho is not None
        half = (numbers.width_dapa or 90.0) / 2
        # half the height at half the width on either side, as the width is defined; the tails fall to the canal's zero
        curve = numbers.peak_admittance_mmho * 2.0 ** (-((np.abs(across - numbers.peak_pressure_dapa) / half) ** 1.5))
    else:
        curve = np.full_like(across, float(rng.uniform(0.02, 0.06))) + 0.02 * (across - pressures[0]) / 1000
    points = [
        (
            left + float(p - pressures[0]) / (pressures[1] - pressures[0]) * (right - left),
            bottom - float(c) / most * (bottom - top),
        )
        for p, c in zip(across, curve, strict=True)
    ]
    sheet.pen.corners(round_ends=False, round_joins=True)
    sheet.pen.path(points, colour, 1.1)
