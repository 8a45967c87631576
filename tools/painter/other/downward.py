"""Plots of anything over anything whose vertical axis grows downward, as an audiogram's does: O and X, joined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..chart.chance import pick
from ..forms.form import A4, LETTER, new_sheet
from ..pen import XY
from ..sheet import Sheet
from .plot import GREY, PAIR, PALE, Plot, Span, any_face, steps
from .words import flowing


@dataclass(frozen=True, slots=True)
class _Across:
    """A horizontal axis: what it is called, its span, and the numbers printed on it."""

    name: str
    span: Span
    numbers: Sequence[float]


_EVEN = (
    ("Distance (km)", 1.0), ("Time (s)", 1.0), ("Time (min)", 5.0), ("Week", 1.0), ("Dose (mg)", 10.0),
    ("Pace (m/s)", 0.5),
    ("Price (EUR)", 100.0), ("Hour", 2.0), ("Length (mm)", 250.0), ("Load (kg)", 500.0), ("Temperature (°C)", 5.0),
    ("Volume (ml)", 125.0), ("Year", 1.0), ("Speed (1/min)", 1000.0), ("Page", 2.0),
)  # fmt: skip
_LOG = (
    ("Time (s)", 1.0, 10.0), ("Dose (mg)", 0.1, 10.0), ("Speed (1/min)", 100.0, 10.0), ("Grain (µm)", 1.0, 2.0),
    ("Mesh (mm)", 0.125, 2.0), ("Dilution", 1.0, 2.0), ("Pressure (Pa)", 10.0, 10.0), ("Memory (MB)", 64.0, 2.0),
)  # fmt: skip
_DOWN = (
    ("Depth (m)", 0.0, (60.0, 100.0, 120.0)), ("Loss (%)", 0.0, (50.0, 100.0)), ("Rank", 0.0, (20.0, 40.0)),
    ("Level (cm)", -10.0, (50.0, 110.0)), ("Delay (min)", -10.0, (60.0, 120.0)), ("Height (mm)", -20.0, (80.0, 100.0)),
)  # fmt: skip


def downward(rng: np.random.Generator, mono: bool) -> Sheet:
    """Plot of any quantity downward over another, evenly or logarithmically: O and X as on an audiogram."""
    sheet = new_sheet(A4 if rng.random() < 0.6 else LETTER, landscape=bool(rng.random() < 0.2), mono=mono)
    pen, face = sheet.pen, any_face(rng, "train")
    across = _any_across(rng)
    name, top, lows = pick(rng, _DOWN)
    low = float(pick(rng, lows))
    box_top = float(rng.uniform(100, 170))
    box = (
        float(rng.uniform(75, 130)), box_top, pen.width - float(rng.uniform(45, 130)),
        min(pen.height - 90, box_top + float(rng.uniform(230, 400))),
    )  # fmt: skip
    plot = Plot(pen, box, across.span, Span(top, low), face, float(rng.uniform(7, 10)))
    by, above = (20.0 if low - top > 70 and rng.random() < 0.5 else 10.0), bool(rng.random() < 0.6)
    plot.lines(across.numbers, steps(top, low, 10), pick(rng, (PALE, GREY)), 0.6)
    plot.frame()
    plot.numbers(across.numbers, steps(top, low, by), above=above)
    plot.captions(across.name, name, "", above=above)
    shares = np.sort(rng.uniform(0.02, 0.98, int(rng.integers(6, 10))))
    if rng.random() < 0.5:
        places = [float(x) for x in across.numbers]
    else:
        places = [_value_at(across.span, float(share)) for share in shares]
    for (marker, colour), dash in zip(PAIR, ((), (4, 3)), strict=True):
        middle = rng.uniform(top + 5, low - 5)
        ys = np.clip(middle + np.cumsum(rng.normal(0, 0.1 * (low - top), len(places))), top + 2, low - 2)
        points: list[XY] = [(x, float(y)) for x, y in zip(places, ys, strict=True)]
        plot.curve(points, colour, 1.0, dash)
        plot.markers(points, marker, colour, 4)
    if rng.random() < 0.5 and box[3] + 120 < pen.height:
        flowing(pen, rng, (60, box[3] + 70), pen.width - 120, face, 9.5, 3)
    return sheet


def _value_at(span: Span, share: float) -> float:
    if span.log:
        return span.first * (span.last / span.first) ** share
    return span.first + share * (span.last - span.first)


def _any_across(rng: np.random.Generator) -> _Across:
    """Choose what is measured across: in even steps from 0 or another number, or in decades or doublings."""
    if rng.random() < 0.6:
        name, step = pick(rng, _EVEN)
        first = step * float(rng.integers(0, 3)) if name != "Year" else float(rng.integers(1998, 2016))
        last = first + step * float(rng.integers(5, 11))
        return _Across(name, Span(first, last), steps(first, last, step))
    name, first, factor = pick(rng, _LOG)
    if factor == 2.0:
        numbers = [first * 2**k for k in range(int(rng.integers(6, 9)))]
    else:
        decades = range(int(rng.integers(2, 4)))
        parts = (1.0,) if rng.random() < 0.2 else (1.0, 2.0, 5.0) if rng.random() < 0.7 else (1.0, 2.0, 4.0, 6.0, 8.0)
        numbers = [round(first * part * 10**d, 6) for d in decades for part in parts] + [first * 10 ** len(decades)]
    return _Across(name, Span(numbers[0], numbers[-1], log=True), numbers)
