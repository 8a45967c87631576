"""Charts of neighbouring trades that look like audiograms and are none, alone or below an audiogram.

Emissions, sound pressure, gain, ear protectors, shifts, norms, noise, rooms, reflexes, leaflets, empty forms: an
octave axis and decibels, circles and crosses, and no threshold in dB HL. Half of the pages hold an audiogram as well.
Kinds and figures are common practice, no single source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import log2
from pathlib import Path

import numpy as np
from cases import BONES, OCTAVES, Frame, OutsidePage, Wish, deal, drawn, hearing_test, pick
from drawn_by_strangers import audiogram
from stranger_looks import A4, PALETTES, Look
from stranger_pens import CairoPen, Pen, PillowPen

from octavo.interpret.record import Point

HALVES = (250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
PHONEMES = "z v j m d b n ng e l u p h g ch sh i a o r k f s th"
SOUNDS = ("leaves", "dog", "piano", "tap", "lawn mower", "aeroplane", "drill", "clock", "bird")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of chart: ``levels`` from the top of the plot to its foot; ``curves`` are their mean levels.

    ``marks`` are drawn in turn on the curves: o, x, s (square), d (dot), empty for a bare line.
    """

    title: str
    across: str
    down: str
    levels: tuple[int, int]
    step: int
    curves: tuple[float, ...]
    names: tuple[str, ...]
    marks: tuple[str, ...] = ("o", "x")
    ticks: tuple[int, ...] = OCTAVES
    slope: float = 0
    spread: float = 5
    words: str = ""


EARS = ("Right", "Left")
STYLES: dict[str, Kind] = {
    "emissions": Kind("Distortion product emissions", "f2 (Hz)", "dB SPL", (30, -20), 10, (8, 6, -12), (*EARS, "Noise"),
                      ("o", "x", ""), (1000, 1500, 2000, 3000, 4000, 6000, 8000)),
    "pressure": Kind("Thresholds at the eardrum", "Frequency (Hz)", "dB SPL", (120, 0), 10, (40, 45), EARS, slope=6),
    "gain": Kind("Insertion gain", "Frequency (Hz)", "Gain (dB)", (60, 0), 10, (20, 25), ("Target", "Aided"), ("", "o"),
                 HALVES, 4),
    "protector": Kind("Attenuation of the ear muff", "Octave band (Hz)", "Attenuation (dB)", (0, 60), 10, (18, 24),
                      ("Assumed", "Mean"), ("x", "o"), (125, *OCTAVES), 5),
    "shift": Kind("Temporary threshold shift", "Frequency (Hz)", "Shift (dB)", (0, 60), 10, (8, 15),
                  ("2 min", "20 min"), slope=3),
    "norms": Kind("Medians by age", "Frequency (Hz)", "Hearing threshold level (dB)", (-10, 100), 10, (2, 6, 14, 26),
                  ("30 y", "45 y", "60 y", "75 y"), ("",), slope=6, spread=1),
    "noise": Kind("Noise at the work place", "Octave band centre frequency (Hz)", "Sound pressure level (dB)",
                  (110, 50), 10, (85, 78), ("Press", "Lathe"), ("o", "s"), (63, 125, *OCTAVES)),
    "room": Kind("Sound insulation of the wall", "Frequency (Hz)", "R (dB)", (80, 0), 10, (45,), ("Wall",), ("d",),
                 (125, *OCTAVES), 5),
    "reflexes": Kind("Acoustic reflex thresholds", "Frequency (Hz)", "Reflex level (dB HL)", (70, 120), 10, (88, 95),
                     EARS, ("o", "x"), (500, 1000, 2000, 4000)),
    "phonemes": Kind("Speech sounds", "Frequency (Hz)", "dB HL", (0, 120), 10, (), (), ticks=OCTAVES, words=PHONEMES),
    "leaflet": Kind("How loud is that?", "Pitch (Hz)", "Loudness (dB)", (0, 120), 10, (), (), words="sounds",
                    ticks=(125, *OCTAVES)),
    "form": Kind("Pure-tone audiogram", "Frequency (Hz)", "Hearing level (dB HL)", (-10, 120), 10, (), (),
                 ticks=(125, *OCTAVES)),
    "masker": Kind("Masking level used", "Frequency (Hz)", "Effective masking (dB)", (0, 100), 10, (50, 60), EARS),
}  # fmt: skip


def page(seed: int, folder: Path, kind: str = "") -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`); ``kind`` overrules the lot, as with the strangers."""
    rng, style, chart = deal(10, seed, STYLES)
    way = kind or pick(rng, ("pdf", "150", "200", "cairo-150", "100"))
    path = folder / f"neighbours-{seed:04d}-{style}.{'pdf' if way == 'pdf' else 'png'}"
    face = pick(rng, ("DejaVu Sans", "DejaVu Serif"))
    pen: Pen
    if way == "pdf" or way.startswith("cairo"):
        dots = 0.0 if way == "pdf" else float(way.rpartition("-")[2])
        pen = CairoPen(A4, path, paper="#ffffff", face=face, dpi=dots)
    else:
        pen = PillowPen(A4, float(way), paper="#ffffff", face=face)
    look = replace(Look(boxes=((90, 120, 330, 270),)), colours=pick(rng, PALETTES))
    with_one = rng.random() < 0.5
    truth = hearing_test(rng, Wish(bone=pick(rng, BONES))) if with_one else ()
    frames = [Frame(A4, box, look.ticks, look.levels) for box in look.boxes if with_one]
    for frame in frames:
        audiogram(pen, frame, truth, ("right", "left"), look)
    place = (90, 480, 330, 240) if with_one else (90, 160, 400, 360)
    _plot(rng, pen, Frame(A4, place, chart.ticks, (0, 1), margin=float(rng.uniform(0.2, 0.5))), chart, look)
    pen.save(path)
    if not frames:
        return OutsidePage(path, (), 0, f"{style}, {way}", (), ())
    return drawn(path, truth, frames, f"{style}, {way}, with an audiogram", look.bone)


def _plot(rng: np.random.Generator, pen: Pen, frame: Frame, chart: Kind, look: Look) -> None:
    left, top, width, height = frame.box
    first, last = chart.levels

    def y(level: float) -> float:
        return top + height * (level - first) / (last - first)

    pen.text((left + width / 2, top - 40), chart.title, 13, "#000000")
    pen.text((left + width / 2, top + height + 28), chart.across, 9, "#000000")
    pen.text((left - 36, top + height / 2), chart.down, 9, "#000000", turned=90)
    for level in range(min(chart.levels), max(chart.levels) + 1, chart.step):
        pen.line([(left, y(level)), (left + width, y(level))], "#bbbbbb", 0.5)
        pen.text((left - 6, y(level)), str(level), 8, "#000000", "r")
    for hz in chart.ticks:
        pen.line([(frame.x(hz), top), (frame.x(hz), top + height)], "#bbbbbb", 0.5)
        pen.text((frame.x(hz), top + height + 10), str(hz), 8, "#000000")
    box = [(left, top), (left + width, top), (left + width, top + height), (left, top + height)]
    pen.shape(box, stroke="#000000", width=1)
    words = SOUNDS if chart.words == "sounds" else chart.words.split()
    for word in words:
        at = left + width * float(rng.uniform(0.06, 0.94)), top + height * float(rng.uniform(0.1, 0.9))
        pen.text(at, word, 9, pick(rng, ("#000000", "#666666")))
    inks = (*look.colours, "#444444", "#228822")
    for number, (mean, name) in enumerate(zip(chart.curves, chart.names, strict=True)):
        levels = [mean + chart.slope * log2(hz / 500) + float(rng.normal(0, chart.spread)) for hz in chart.ticks]
        low, high = sorted(chart.levels)
        points = [(frame.x(hz), y(min(high, max(low, level)))) for hz, level in zip(chart.ticks, levels, strict=True)]
        sign = chart.marks[number % len(chart.marks)]
        _curve(pen, points, sign, inks[number])
        if sign:
            _sign(pen, (left + width + 16, top + 12 + 14 * number), sign, inks[number])
        pen.text((left + width + 28, top + 12 + 14 * number), name, 8, "#000000", "l")


def _curve(pen: Pen, points: Sequence[Point], sign: str, ink: str) -> None:
    pen.line(points, ink, 1.2)
    for at in points if sign else ():
        _sign(pen, at, sign, ink)


def _sign(pen: Pen, at: Point, sign: str, ink: str) -> None:
    x, y, r = *at, 4.5
    if sign == "x":
        pen.line([(x - r, y - r), (x + r, y + r)], ink, 1.3)
        pen.line([(x - r, y + r), (x + r, y - r)], ink, 1.3)
    elif sign == "s":
        pen.shape([(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)], stroke=ink, width=1.3)
    else:
        pen.circle(at, r, fill=ink if sign == "d" else "", stroke=ink, width=1.3)
