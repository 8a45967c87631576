"""Audiograms as the programs and forms of many clinics print them, each page by another look and drawing tool.

A style is a tool (``clinic_tools.py``), everything else is drawn by lot (``clinic_looks.py``). Pillow's hard edges are
at hand everywhere; the other tools are fpdf2, skia-python and PySide6-Essentials from PyPI.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

import numpy as np
from cases import BONES, Frame, OutsidePage, Wish, aside, deal, drawn, hearing_test, known, of, panels, pick
from clinic_looks import AXES, INTER, Look, by_lot
from clinic_tools import BLACK, TOOLS, Stroke, Tool, width_of

from octavo.interpret.record import Conduction, Ear, Point, Threshold

__all__ = ["STYLES", "draw", "page"]

STYLES = TOOLS
EDGES = (-20, 20, 35, 50, 65, 80, 130)
SHADES = ((250, 250, 250), (240, 248, 240), (255, 248, 225), (255, 238, 220), (255, 228, 225), (240, 225, 230))
GREY = (130, 130, 130)
WHITE_GAP = 1.5
"""Between two labels so many points of paper are left at least."""
DASH = (3.0, 2.0)


def page(seed: int, folder: Path) -> OutsidePage:
    """Draw one page; its number decides on all of it."""
    rng, style, _ = deal(12, seed, STYLES)
    look = by_lot(rng)
    return draw(f"clinics-{seed}", folder, _test(rng, look), look, style, rng)


def draw(
    stem: str, folder: Path, truth: tuple[Threshold, ...], look: Look, style: str, rng: np.random.Generator
) -> OutsidePage:
    """Draw a test by a tool; chance decides on the sheet, the chart's size on it and its titles."""
    size = {"screen": (660, 480), "letter": (595, 842), "program": pick(rng, ((612, 792), (842, 595)))}[look.kind]
    frames = _frames(look, size, rng)
    look = _fitted(look, frames[0])
    canvas = STYLES[style](size, look.face, look.dpi)
    _surround(canvas, look)
    for frame, ears in panels(frames):
        _chart(canvas, look, frame, ears, rng)
        _marks(canvas, look, frame, ears, truth)
    if look.key != "none":
        _key(canvas, look, truth, frames)
    note = f"{style}, {look.kind} {look.symbols} {look.axis} {look.charts} key {look.key} mark {look.mark:.1f}"
    return drawn(canvas.save(folder / stem), truth, frames, note, look.beside * look.mark / _unit(frames[0]))


def _test(rng: np.random.Generator, look: Look) -> tuple[Threshold, ...]:
    tested = tuple(hz for hz in look.ticks if hz <= 8000)
    wish = Wish(tested, look.levels[1], look.levels[0] + 5, bone=pick(rng, BONES), masked_air=bool(rng.random() < 0.6))
    out: list[Threshold] = []
    for one in hearing_test(rng, wish):
        if look.symbols != "british" or one.conduction == "air" or one.masked:
            out.append(one)
        elif look.charts == "one" and one.ear == "right":
            out.append(replace(one, ear="unspecified"))  # the British triangle names no ear
    loud = [hz for hz in (500, 1000, 2000, 4000) if hz in tested]
    if look.more == "loud":
        louds = [known(ear, "air", hz, pick(rng, (95, 100))) for ear in ("right", "left") for hz in loud]
        out += [replace(one, measure="ucl") for one in louds]
    if look.more == "field":
        out += [known("both", "field", hz, pick(rng, (25, 30, 35, 40))) for hz in loud]
    return tuple(out)


def _frames(look: Look, size: tuple[float, float], rng: np.random.Generator) -> list[Frame]:
    """Place one or two charts: small in a letter, as large as they can be in a program's print."""
    wide, high = size
    across, down = (2 if look.charts == "beside" else 1), (2 if look.charts == "stacked" else 1)
    left, top = 65.0, 50.0 if look.kind == "screen" else 150.0
    beside, below = (150 if look.key == "right" else 0), (110 if look.key == "below" else 0)
    width = (wide - left - 50 - beside) / across - 45 * (across - 1)
    height = (high - top - 30 - below) / down - 65
    if look.kind == "letter":
        width = min(width, float(rng.uniform(170, 330)))
    height = min(height, width * float(rng.uniform(0.7, 1.3)))
    equal, levels = AXES[look.axis][1], look.levels
    corners = [(left + i * (width + 90), top + 40 + j * (height + 75)) for j in range(down) for i in range(across)]
    return [Frame(size, (x, y, width, height), look.ticks, levels, equal, look.margin) for x, y in corners]


def _unit(frame: Frame) -> float:
    """Give how wide an octave, or a step of an equal axis, is in points."""
    return frame.box[2] / (frame.along(frame.ticks[-1]) - frame.along(frame.ticks[0]) + 2 * frame.margin)


def _fitted(look: Look, frame: Frame) -> Look:
    """Make type and marks so small that labels do not run into one another; every second level is left out first."""
    height = frame.box[3] / (look.levels[1] - look.levels[0])
    size = look.type_size
    while size > 4 and (_crowded(look, frame, size) or look.label_step * height < size):
        size -= 0.5
    step = 20 if look.label_step * height < size else look.label_step
    return replace(look, type_size=size, label_step=step, mark=min(look.mark, max(1.8, frame.box[2] / 50)))


def _crowded(look: Look, frame: Frame, size: float) -> bool:
    half = [(frame.x(hz), width_of(look.face, _label(look, hz), size) / 2) for hz in _on_line(look)]
    return any(b - a < m + n + WHITE_GAP for (a, m), (b, n) in pairwise(half))


def _on_line(look: Look) -> tuple[int, ...]:
    """Give the frequencies whose labels stand on the first line: inter-octaves have a second, unless all are equal."""
    return tuple(hz for hz in look.ticks if AXES[look.axis][1] or hz not in INTER)


def _label(look: Look, hz: int) -> str:
    if look.thousands == "kHz":
        return f"{hz / 1000:g}"
    if hz < 1000 or look.thousands == "1000":
        return str(hz)
    return f"{hz / 1000:g}k" if look.thousands == "1k" else f"{hz // 1000} {hz % 1000:03d}"


def _surround(canvas: Tool, look: Look) -> None:
    """Print the letterhead of the invented clinic, or the bar of a program's window."""
    if look.kind == "screen":
        canvas.box((0, 0), (canvas.width, 16), None, fill=(60, 90, 140))
        canvas.text((6, 8), f"Harbour Lane - {look.words.title}", 8, (255, 255, 255))
        return
    canvas.oval((60, 48), (12, 12), (0, 90, 120), 2)
    canvas.text((84, 44), "Harbour Lane Hearing Clinic", 13, (0, 90, 120), bold=True)
    canvas.line((48, 70), (canvas.width - 48, 70), (0, 90, 120))
    canvas.text((canvas.width / 2, 92), look.words.title, 13, anchor="centre", bold=True)
    canvas.text((48, 115), "Ada Marlow   06.09.1942   17.11.2022", 9.5)


def _chart(canvas: Tool, look: Look, frame: Frame, ears: tuple[Ear, ...], rng: np.random.Generator) -> None:
    left, top, wide, high = frame.box
    right, bottom = left + wide, top + high
    for (above, below), shade, word in zip(pairwise(EDGES), SHADES, look.words.degrees, strict=True):
        first, last = max(above, look.levels[0]), min(below, look.levels[1])
        if look.zones in ("shades", "both"):
            canvas.box((left, frame.y(first)), (right, frame.y(last)), None, fill=shade)
        if look.zones in ("words", "both"):
            canvas.text((right - 4, frame.y((first + last) / 2)), word, look.type_size, GREY, "right")
    _lines(canvas, look, frame)
    canvas.box((left, top), (right, bottom), BLACK, look.frame_width)
    gap, size = 0.7 * look.type_size, look.type_size
    for level in range(look.levels[0], look.levels[1] + 1, look.label_step):
        for side, x, anchor in (("left", left - gap, "right"), ("right", right + gap, "left")):
            if look.label_side in (side, "both"):
                canvas.text((x, frame.y(level)), str(level), size, anchor=anchor)
    for hz in look.ticks:
        small, lower = (size, 0.0) if hz in _on_line(look) else (0.85 * size, 1.2 * size)
        for side, y in (("above", top - 1.3 * gap - lower), ("below", bottom + 1.3 * gap + lower)):
            if look.frequencies_at in (side, "both"):
                canvas.text((frame.x(hz), y), _label(look, hz), small, anchor="centre")
    unit = pick(rng, look.words.frequency)
    unit = unit.replace("Hz", "kHz").replace("Hertz", "kHz") if look.thousands == "kHz" else unit
    canvas.text((left + wide / 2, bottom + 4.2 * size), unit, size, anchor="centre")
    aside = right + 4.2 * size if look.label_side == "right" else left - 4.2 * size
    canvas.text((aside, top + high / 2), pick(rng, look.words.level), size, anchor="centre", upward=True)
    if len(ears) == 1:
        name = pick(rng, look.words.right if ears[0] == "right" else look.words.left)
        canvas.text((left + wide / 2, top - 4.6 * size), name, 1.3 * size, look.inks[ears[0]], "centre", bold=True)


def _lines(canvas: Tool, look: Look, frame: Frame) -> None:
    left, top, wide, high = frame.box
    dash = (2.0, 2.0) if look.grid == "dashed" else None
    if look.grid == "none":
        return
    for level in range(look.levels[0], look.levels[1] + 1, 5 if look.grid == "minor" else 10):
        thin = look.grid_width * (1 if level % 10 == 0 else 0.5)
        canvas.line((left, frame.y(level)), (left + wide, frame.y(level)), look.grid_ink, thin, dash)
    for hz in look.ticks if look.grid != "level" else ():
        between = (1.5, 1.5) if hz in INTER and hz not in _on_line(look) else dash
        canvas.line((frame.x(hz), top), (frame.x(hz), top + high), look.grid_ink, look.grid_width, between)


def _marks(canvas: Tool, look: Look, frame: Frame, ears: tuple[Ear, ...], truth: Sequence[Threshold]) -> None:
    beside = look.beside * look.mark / _unit(frame)

    def at(one: Threshold) -> Point:
        return frame.x(one.frequency_hz, aside(one, beside)), frame.y(one.level_db_hl)

    for ear in ears:
        kinds: tuple[tuple[Conduction, str], ...] = ("air", look.joins[ear == "left"]), ("bone", look.joins[2])
        for conduction, how in kinds:
            row = [one for one in of(truth, ear, conduction) if one.measure == "threshold"]
            for one, other in pairwise(row) if how != "none" else ():
                if one.response and other.response:
                    dash = DASH if how == "dashed" else None
                    canvas.line(at(one), at(other), look.inks[ear], look.join_width, dash)
    for one in truth:
        if one.ear in ears or (one.ear not in ("right", "left") and "right" in ears):
            draw = _Pen(canvas, look, look.inks.get(one.ear, BLACK))
            draw.mark(one, *at(one))
            if not one.response:
                draw.arrow(one.ear, *at(one))


@dataclass(frozen=True, slots=True)
class _Pen:
    """Draws one mark in its ink."""

    canvas: Tool
    look: Look
    ink: tuple[int, int, int]

    def shape(self, x: float, y: float, points: Iterable[Point], *, close: bool = False, solid: bool = False) -> None:
        """Draw a line through points in marks about a place."""
        placed = [(x + dx * self.look.mark, y + dy * self.look.mark) for dx, dy in points]
        fill = self.ink if solid else None
        self.canvas.stroke(Stroke(placed, self.ink, self.look.stroke, fill=fill, close=close))

    def mark(self, one: Threshold, x: float, y: float) -> None:
        """Draw the mark of a value."""
        size, side = self.look.mark, {"right": -1, "left": 1}.get(one.ear, 0)
        if one.measure == "ucl" or one.conduction == "field":
            letter = "U" if one.measure == "ucl" else "S"
            self.canvas.text((x, y), letter, 2.3 * size, self.ink, "centre", bold=self.look.stroke > 1)
        elif one.conduction == "air":
            self._air(one, x, y)
        elif side == 0:
            self.shape(x, y, ((0, -1.1), (1, 0.8), (-1, 0.8)), close=True)
        elif one.masked:
            self.shape(x, y, ((-0.45 * side, -1.1), (0.35 * side, -1.1), (0.35 * side, 1.1), (-0.45 * side, 1.1)))
        else:
            side = -side if self.look.symbols == "turned" else side
            self.shape(x, y, ((-0.5 * side, -1), (0.5 * side, 0), (-0.5 * side, 1)))

    def _air(self, one: Threshold, x: float, y: float) -> None:
        size, british = self.look.mark, self.look.symbols == "british"
        if one.ear == "right" and (british or not one.masked):
            fill = self.ink if one.masked else None
            self.canvas.oval((x, y), (size, size), self.ink, self.look.stroke, fill)
        elif one.ear == "right":
            self.shape(x, y, ((0, -1.1), (1.05, 0.85), (-1.05, 0.85)), close=True)
        elif one.masked and british:
            for side in (-1, 1):
                self.shape(x, y, ((0, 0), (side, -1), (side, 1)), close=True, solid=True)
        elif one.masked:
            self.shape(x, y, ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)), close=True)
        else:
            self.shape(x, y, ((-1, -1), (1, 1)))
            self.shape(x, y, ((-1, 1), (1, -1)))

    def arrow(self, ear: Ear, x: float, y: float) -> None:
        """Hang the arrow of no response from a mark: outward and down, or straight down."""
        long, solid, straight = self.look.arrow
        side = 0 if straight else {"right": -1, "left": 1}.get(ear, 0)
        turn = math.radians(45 if side else 90)
        dx, dy = (side or 1) * math.cos(turn), math.sin(turn)
        tip = dx * (1.25 + long), dy * (1.25 + long)
        self.shape(x, y, ((1.25 * dx, 1.25 * dy), tip))
        way = math.atan2(dy, dx)
        one, other = ((tip[0] - 0.9 * math.cos(way + t), tip[1] - 0.9 * math.sin(way + t)) for t in (0.5, -0.5))
        self.shape(x, y, (one, tip, other), close=solid, solid=solid)


def _key(canvas: Tool, look: Look, truth: Sequence[Threshold], frames: Sequence[Frame]) -> None:
    """Print the key: a column for each ear, and the words behind."""
    words, size = look.words, look.type_size
    left, bottom = frames[0].box[0], max(f.box[1] + f.box[3] for f in frames)
    x, y = (left, bottom + 6.5 * size) if look.key == "below" else (canvas.width - 165, frames[0].box[1])
    names: tuple[tuple[Ear, str], ...] = (("right", words.right[0]), ("left", words.left[0]))
    columns: dict[Ear, float] = {}
    for ear, name in names:
        wide = width_of(look.face, name, size, bold=True)
        columns[ear] = x + wide / 2
        canvas.text((x + wide / 2, y), name, size, anchor="centre", bold=True)
        x += wide + 14
    rows: dict[str, dict[Ear, Threshold]] = {}
    for one in truth:
        rows.setdefault(_words_of(look, one), {})[one.ear] = one
    for number, (text, specimens) in enumerate(rows.items(), start=1):
        height = y + number * max(1.8 * size, 2.9 * look.mark)
        for ear, one in specimens.items():
            middle = columns.get(ear, sum(columns.values()) / 2)
            _Pen(canvas, look, look.inks.get(ear, BLACK)).mark(one, middle, height)
        canvas.text((x, height), text, size)


def _words_of(look: Look, one: Threshold) -> str:
    words = look.words
    if one.measure == "ucl" or one.conduction == "field":
        return words.loud if one.measure == "ucl" else words.field
    return f"{words.air if one.conduction == 'air' else words.bone} {words.masked if one.masked else words.unmasked}"
