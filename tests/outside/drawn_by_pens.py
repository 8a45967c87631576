"""Forms that strangers print and a stranger fills in with a pen: marks, joins, arrows, corrections and words.

The forms are blank charts of `drawn_by_strangers`, the strokes those of `hand_strokes`. Marks miss their levels by some
0.9 dB, at most 2, with the writer's own bias, and their lines by at most 3% of an octave, as the issue on pens has it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist, exp
from pathlib import Path
from typing import Literal

import numpy as np
import numpy.typing as npt
from cases import BONES, CLINIC, OCTAVES, Frame, OutsidePage, Wish, deal, drawn, hearing_test, panels, pick
from drawn_by_strangers import chart, key
from hand_ink import DPI, Nib, Sheet, three_pens
from hand_strokes import Hand, Shape, any_hand, followed, mark, word
from PIL import Image
from stranger_looks import STYLES as LOOKS
from stranger_looks import Look
from stranger_pens import PillowPen

from octavo.interpret.record import Point, Threshold

PT = DPI / 72
TOO_FINE = 2
"""The form is printed at so many times the resolution and reduced."""
WORDS = (
    *(
        "NR",
        "CNT",
        "DNT",
        "OK",
        "NO",
        "VT",
        "AC",
        "BC",
        "MASK",
        "60",
        "70",
        "NM 65",
        "RETEST",
        "VA",
        "MAX",
        "SNHL",
        "?",
    ),
    *("TIRED", "X2", "SAL", "HA", "UCL 95", "NOISE", "COLD", "LOSS", "OX", "12-3", "R", "L"),
)
SHAPES: dict[tuple[str, str, bool], tuple[Shape, int]] = {
    ("right", "air", False): ("circle", 1), ("left", "air", False): ("cross", 1),
    ("right", "air", True): ("triangle", 1), ("left", "air", True): ("square", 1),
    ("right", "bone", False): ("angle", 1), ("left", "bone", False): ("angle", -1),
    ("right", "bone", True): ("bracket", 1), ("left", "bone", True): ("bracket", -1),
}  # fmt: skip
Convention = Literal["asha", "bsa"]


@dataclass(frozen=True, slots=True)
class Form:
    """A printed form: its look, and what a stranger does to it as a rule."""

    look: Look
    words: float = 0.6
    struck: float = 0.0
    convention: Convention = "asha"


def _look(name: str, **changes: object) -> Look:
    return replace(LOOKS[name], **{"told": False, "rows": False, "limit": 0, "around": "", "joined": "none", **changes})


STYLES: dict[str, Form] = {
    "plain": Form(_look("tall", boxes=((110, 150, 380, 480),))),
    "fine": Form(_look("half-octaves", boxes=((70, 200, 450, 430),))),
    "pair": Form(_look("two-ears", ticks=OCTAVES, labelled=OCTAVES, equal=False)),
    "pair-equal": Form(_look("two-ears")),
    "left-first": Form(_look("left-first", key="")),
    "blue": Form(_look("blue-grid", boxes=((80, 220, 420, 420),), key="")),
    "pink": Form(_look("pink-grid")),
    "shaded": Form(_look("zones", boxes=((80, 220, 430, 420),), key="below")),
    "green": Form(_look("twenties", boxes=((90, 230, 400, 380),))),
    "black": Form(_look("all-black", boxes=((70, 220, 330, 400),), key="beside")),
    "corrected": Form(_look("all-sides", boxes=((90, 220, 410, 420),)), struck=0.2, words=2),
    "scribbled": Form(_look("thin", boxes=((80, 200, 440, 440),), grid_pen=0.35), words=5, struck=0.06),
    "british": Form(_look("wide", boxes=((80, 150, 680, 330),), key="", grid="#888888"), convention="bsa"),
    "british-pair": Form(_look("two-ears", equal=False, size=8), convention="bsa"),
    "dots": Form(_look("matrix", boxes=((80, 240, 420, 380),), face="DejaVu Sans", key="", dash=(1, 3))),
    "card": Form(_look("small", boxes=((90, 160, 270, 250),), size=6.5, radius=4, key="")),
}
PENS = ("two", "two", "two", "black", "blue", "pencil")


@dataclass(frozen=True, slots=True)
class Filling:
    """Who fills in one form, with which pens, how large, and in which convention."""

    hand: Hand
    pens: tuple[Nib, Nib, Nib]
    """For the right ear, the left, and for words."""
    high: float
    """A mark's height in dots."""
    beside: float
    convention: Convention

    def pen(self, ear: str) -> Nib:
        return self.pens[{"right": 0, "left": 1}.get(ear, 2)]


def page(seed: int, folder: Path) -> OutsidePage:
    """Print form number ``seed``, fill it in, and store it as a scan."""
    rng, style, form = deal(11, seed, STYLES)
    look = form.look
    frames = [Frame(look.page, box, look.ticks, look.levels, look.equal, look.margin) for box in look.boxes]
    frames = frames[::-1] if look.swapped else frames
    colour = pick(rng, PENS)
    octave_pt = abs(frames[0].x(2000) - frames[0].x(1000))
    step_pt = abs(frames[0].y(10) - frames[0].y(5))
    filling = Filling(
        any_hand(rng), three_pens(rng, colour),
        float(np.clip(rng.uniform(2.6, 4.6) / 25.4 * DPI, 0.9 * step_pt * PT, 2.2 * step_pt * PT)),
        float(rng.uniform(0.13, 0.2)), form.convention,
    )  # fmt: skip
    wish = Wish(look.tested if look.tested != CLINIC else CLINIC, look.levels[1] - 10, look.levels[0], pick(rng, BONES))
    truth = _told(hearing_test(rng, wish), filling, alone=len(frames) > 1, coloured=colour == "two")
    sheet = Sheet(_printed(look, frames, truth, rng), rng)
    places = _filled_in(sheet, frames, truth, filling, form, octave_pt, rng)
    path = folder / f"hand-{seed:04d}-{style}.jpg"
    sheet.save(path)
    made = drawn(path, truth, frames, f"{style}, {colour}", filling.beside)
    return replace(made, places=tuple((x / sheet.shown.shape[1], y / sheet.shown.shape[0]) for x, y in places))


def _told(truth: tuple[Threshold, ...], filling: Filling, *, alone: bool, coloured: bool) -> tuple[Threshold, ...]:
    """Leave out what the convention cannot show; British unmasked bone by one pen names no ear on a shared chart."""
    if filling.convention == "asha" or coloured or alone:
        return truth
    named = tuple(t for t in truth if not (t.conduction == "bone" and not t.masked and t.ear == "left"))
    return tuple(replace(t, ear="unspecified") if t.conduction == "bone" and not t.masked else t for t in named)


def _printed(
    look: Look, frames: Sequence[Frame], truth: Sequence[Threshold], rng: np.random.Generator
) -> npt.NDArray[np.uint8]:
    pen = PillowPen(look.page, DPI * TOO_FINE, paper=look.paper, face=look.face, smooth=False)
    pen.text((60, 40), pick(rng, ("Hearing test", "AUDIOGRAM", "Audiometry record")), 15, look.ink, "l")
    for number, name in enumerate(("Name", "Born", "Date", "Tester")):
        x, y = 60 + 250 * (number % 2), 70 + 22 * (number // 2)
        pen.text((x, y), name, 9, look.ink, "l")
        pen.line([(x + 40, y + 5), (x + 210, y + 5)], look.ink, 0.6)
    for frame, ears in panels(frames):
        chart(pen, frame, look, look.title if len(ears) > 1 else look.ears["left" in ears])
    key(pen, frames[0], truth, replace(look, colours=(look.ink, look.ink)))
    picture = pen.picture()
    size = (picture.width // TOO_FINE, picture.height // TOO_FINE)
    return np.asarray(picture.resize(size, Image.Resampling.BOX), np.uint8)


def _filled_in(
    sheet: Sheet, frames: Sequence[Frame], truth: Sequence[Threshold], filling: Filling, form: Form, octave_pt: float,
    rng: np.random.Generator,
) -> list[Point]:  # fmt: skip
    """Draw all marks with their arrows, then joins and words; give the places of the marks in dots."""
    where = {ear: frame for frame, ears in panels(frames) for ear in ears}
    places: list[Point] = []
    for one in truth:
        at = _place(where.get(one.ear, frames[0]), one, filling, octave_pt, places, rng)
        if form.struck and rng.random() < form.struck:
            _wrong_one(sheet, at, one, filling, abs(frames[0].y(10) - frames[0].y(0)) * PT, places, rng)
        _mark(sheet, at, one, filling, rng)
        if not one.response:
            _arrow(sheet, at, one, filling, rng)
        places.append(at)
    if rng.random() < 0.75:
        for ear in ("right", "left"):
            air = [
                p for t, p in zip(truth, places, strict=True) if (t.ear, t.conduction) == (ear, "air") and t.response
            ]
            _join(sheet, sorted(air), filling, filling.pen(ear), rng)
    _words(sheet, frames, filling, places, int(rng.poisson(form.words)), rng)
    return places


def _place(
    frame: Frame, one: Threshold, filling: Filling, octave_pt: float, taken: Sequence[Point], rng: np.random.Generator
) -> Point:
    off = float(np.clip(rng.normal(filling.hand.bias_db, 0.85), -2, 2))
    aside = float(np.clip(rng.normal(0, 0.012), -0.03, 0.03)) * octave_pt
    y = frame.y(one.level_db_hl + off) * PT
    shape, side = _shape(one, filling)
    if shape not in ("angle", "bracket"):
        return (frame.x(one.frequency_hz) + aside) * PT, y
    out = -side * max(filling.beside * octave_pt * PT, 0.5 * filling.high)
    x = (frame.x(one.frequency_hz) + aside) * PT
    if any(abs(px - x - out) < 0.5 * filling.high and abs(py - y) < 0.8 * filling.high for px, py in taken):
        out *= 1.6  # steps aside for what stands there
    return x + out, y


def _shape(one: Threshold, filling: Filling) -> tuple[Shape, int]:
    if filling.convention == "bsa" and not (one.conduction == "bone" and one.masked):
        return ("triangle", 1) if one.conduction == "bone" else ("circle" if one.ear == "right" else "cross", 1)
    return SHAPES[one.ear, one.conduction, one.masked]


def _mark(sheet: Sheet, at: Point, one: Threshold, filling: Filling, rng: np.random.Generator) -> None:
    shape, side = _shape(one, filling)
    filled = filling.convention == "bsa" and one.masked and one.conduction == "air"
    size = filling.high * exp(float(np.clip(rng.normal(0, filling.hand.sizes), -0.25, 0.25)))
    for stroke in mark(shape, filling.hand, rng, side=side, filled=filled):
        sheet.stroke(stroke * size + at, filling.pen(one.ear))


def _arrow(sheet: Sheet, at: Point, one: Threshold, filling: Filling, rng: np.random.Generator) -> None:
    """Flick an arrow down and outward: bare, with a hook at its end, or with barbs."""
    side = {"right": -1, "left": 1}.get(one.ear, 0)
    start = np.array([0.35 * side, 0.45])
    way = np.array([0.7 * side, 1.0]) / float(np.hypot(0.7 * side, 1))
    tip = start + way * float(rng.uniform(0.8, 1.5))
    aside = np.array([way[1], -way[0]])
    meant = [[start, tip]]
    if filling.hand.flick == "hook":
        meant = [[start, tip, tip - 0.32 * way + 0.25 * aside]]
    elif filling.hand.flick == "barbs":
        meant.append([tip - 0.35 * way - 0.25 * aside, tip, tip - 0.35 * way + 0.25 * aside])
    for points in meant:
        sheet.stroke(followed(np.array(points), filling.hand, rng) * filling.high + at, filling.pen(one.ear))


def _wrong_one(
    sheet: Sheet, at: Point, one: Threshold, filling: Filling, ten_db: float, places: Sequence[Point],
    rng: np.random.Generator,
) -> None:  # fmt: skip
    """Set the mark wrong first and strike it out: by a line, two lines or a scribble."""
    wrong = (at[0] + float(rng.normal(0, 2)), at[1] + ten_db * float(pick(rng, (-2, -1.5, -1, 1, 1.5, 2))))
    if any(dist(wrong, other) < 1.3 * filling.high for other in places):
        return
    _mark(sheet, wrong, one, filling, rng)
    lines: list[list[Point]] = [[(-0.8, 0.35), (0.8, -0.35)]]
    kind = pick(rng, ("line", "lines", "scribble"))
    if kind == "lines":
        lines = [[(-0.75, -0.12), (0.75, -0.16)], [(-0.7, 0.18), (0.8, 0.12)]]
    elif kind == "scribble":
        lines = [[((-1) ** k * float(rng.uniform(0.45, 0.7)), -0.5 + k / 9) for k in range(10)]]
    for points in lines:
        sheet.stroke(followed(np.array(points), filling.hand, rng) * filling.high + wrong, filling.pen(one.ear))


def _join(sheet: Sheet, air: Sequence[Point], filling: Filling, nib: Nib, rng: np.random.Generator) -> None:
    for a, b in pairwise(air):
        middle = (np.array(a) + b) / 2 + rng.normal(0, 0.02 * dist(a, b), 2)
        unit = max(dist(a, b), 1.0)
        path = followed(np.array([a, middle, b]) / unit, replace(filling.hand, trembles=0.0), rng) * unit
        sheet.stroke(path, replace(nib, width=0.8 * nib.width))


def _words(
    sheet: Sheet, frames: Sequence[Frame], filling: Filling, places: Sequence[Point], many: int,
    rng: np.random.Generator,
) -> None:  # fmt: skip
    """Write words and numbers over the grid, where no mark stands."""
    for _ in range(many):
        left, top, width, height = pick(rng, list(frames)).box
        text, high = pick(rng, WORDS), filling.high * float(rng.uniform(0.7, 1.2))
        x = (left + width * float(rng.uniform(0.03, 0.9))) * PT
        y = (top + height * float(rng.uniform(0.04, 0.96))) * PT
        end = x + 0.8 * high * len(text)
        if end > (left + width) * PT or any(
            x - 1.6 * high < px < end + high and abs(py - y) < 2 * high for px, py in places
        ):
            continue
        for stroke in word(text, filling.hand, rng):
            sheet.stroke(stroke * high + (x, y), filling.pens[2])
