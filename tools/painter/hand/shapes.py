"""The marks as a writer means them: strokes in units of the mark's height, centre near (0, 0), y down."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from ....interpret.symbols import Glyph
from ..pen import XY
from .motion import Intent
from .words.letters import strokes_of
from .writer import Writer

Rng = np.random.Generator


def intents(glyph: Glyph, writer: Writer, rng: Rng) -> list[Intent]:
    """Give the strokes of one mark as this writer draws it this time."""
    if glyph.startswith("letter-"):
        return [_letter(points, writer, rng) for points in strokes_of(glyph[-1].upper())]
    strokes = _DRAWN[glyph](writer, rng)
    if rng.random() < writer.twice:
        strokes = [*strokes, *_DRAWN[glyph](writer, rng)]
    return strokes


def _letter(points: Sequence[XY], writer: Writer, rng: Rng) -> Intent:
    via = np.array(points) * (1, -1)
    return Intent(via + rng.normal(0, writer.sloppy * 0.4, via.shape), max(writer.haste, 0.35))


def _stroke(writer: Writer, rng: Rng, *points: XY, closed: bool = False, haste: float | None = None) -> Intent:
    """Mean a stroke through corners: they miss, the ends fall short or run on, what is straight bends."""
    via = np.array(points, float)
    via = via + rng.normal(0, writer.sloppy, via.shape)
    if closed:
        miss = rng.normal(0, 1.2 * writer.sloppy, 2)
        via = np.vstack([via, via[:1] + miss])
    for end, before in ((0, 1), (-1, -2)):
        along = via[end] - via[before]
        length = max(float(np.hypot(*along)), 1e-6)
        via[end] += along / length * max(float(rng.uniform(*writer.overshoot)), -0.25 * length)
    corners = [via[0]]
    for a, b in pairwise(via):
        bow = float(rng.normal(0, writer.bow))
        corners += [(a + b) / 2 + bow * np.array([a[1] - b[1], b[0] - a[0]]), b]
    rounding = writer.haste if haste is None else haste
    # a bent stroke is one movement: its middle point must not become a corner
    return Intent(np.array(corners), max(rounding, 0.3)) if rounding > 0.15 else Intent(via, rounding)


def _loop(writer: Writer, rng: Rng) -> list[Intent]:
    if writer.circle == "halves":
        return [_half_round(writer, rng, side) for side in (-1.0, 1.0)]
    start = writer.loop_start + float(rng.normal(0, 0.3))
    sweep = 2 * math.pi + float(rng.uniform(*writer.loop_gap))
    turns = start + writer.loop_way * np.linspace(0, sweep, 14)
    lobes = rng.normal(0, writer.loop_egg / 2, 4)
    radius = 0.5 + lobes[0] * np.cos(2 * turns + 3 * lobes[1]) + lobes[2] * np.cos(3 * turns + 9 * lobes[3])
    radius += float(rng.normal(0, writer.sloppy)) * np.linspace(0, 1, 14)
    squeeze = math.exp(float(rng.normal(0, writer.loop_egg)))
    via = np.stack([radius * np.cos(turns) * squeeze, radius * np.sin(turns) / squeeze], axis=1)
    return [Intent(via, 0.55)]


def _half_round(writer: Writer, rng: Rng, side: float) -> Intent:
    """Mean one half of a circle that is put together from two."""
    turns = np.linspace(-1.75, 1.75, 8) + float(rng.normal(0, 0.12))
    squeeze = math.exp(float(rng.normal(0, writer.loop_egg)))
    via = np.stack([side * 0.5 * np.cos(turns) * squeeze, 0.5 * np.sin(turns) / squeeze], axis=1)
    return Intent(via + rng.normal(0, 0.6 * writer.sloppy, (1, 2)), 0.5)


_IN_ONE_GO: dict[str, tuple[XY, ...]] = {
    "loop": ((-0.45, -0.5), (0.0, 0.0), (0.45, 0.5), (0.62, 0.1), (0.45, -0.5), (0.0, 0.0), (-0.45, 0.5)),
    "loop-left": ((0.45, -0.5), (0.0, 0.0), (-0.45, 0.5), (-0.62, 0.1), (-0.45, -0.5), (0.0, 0.0), (0.45, 0.5)),
    "foot": ((-0.45, -0.5), (0.0, 0.0), (0.45, 0.45), (0.0, 0.58), (-0.45, 0.45), (0.0, 0.0), (0.45, -0.5)),
    "eight": ((-0.45, -0.45), (0.0, 0.0), (0.45, 0.45), (0.6, 0.0), (0.45, -0.45), (0.0, 0.0), (-0.45, 0.45),
              (-0.6, 0.05), (-0.5, -0.3)),
}  # fmt: skip
"""Crosses drawn without lifting the pen: what joins the two strokes makes a loop at a side, at the foot or at both
sides."""


def _cross(writer: Writer, rng: Rng) -> list[Intent]:
    c = 0.45
    if writer.cross == "hooked":
        hook = float(rng.uniform(0.05, 0.16))
        return [
            _stroke(writer, rng, (-c - hook, -0.42), (-c, -0.5), (c, 0.5), (c + hook, 0.42), haste=0.4),
            _stroke(writer, rng, (c, -0.5), (-c, 0.5)),
        ]
    if writer.cross in _IN_ONE_GO:
        via = np.array(_IN_ONE_GO[writer.cross])
        return [Intent(via + rng.normal(0, writer.sloppy, via.shape), max(writer.haste, 0.4))]
    if writer.cross == "upright":
        # a cross that leans so far that one stroke nearly stands
        return [
            _stroke(writer, rng, (-0.48, -0.3), (0.48, 0.3)),
            _stroke(writer, rng, (0.28, -0.5), (-0.28, 0.5)),
        ]
    first = _stroke(writer, rng, (-c, -0.5), (c, 0.5))
    second = _stroke(writer, rng, (c, -0.5), (-c, 0.5))
    return [first, second] if rng.random() < 0.85 else [second, first]


def _triangle(writer: Writer, rng: Rng) -> list[Intent]:
    left, top, right = (-0.52, 0.5), (float(rng.normal(0, 0.06)), -0.5), (0.52, 0.5)
    if writer.triangle == "three":
        return [_stroke(writer, rng, *pair) for pair in ((top, left), (top, right), (left, right))]
    if writer.triangle == "cap":
        return [_stroke(writer, rng, left, top, right), _stroke(writer, rng, left, right)]
    order = (top, left, right) if writer.triangle == "apex" else (left, top, right)
    return [_stroke(writer, rng, *order, closed=True)]


def _square(writer: Writer, rng: Rng) -> list[Intent]:
    s = 0.47
    a, b, c, d = (-s, -s), (s, -s), (s, s), (-s, s)
    if writer.square == "overrun":
        return [_stroke(writer, rng, b, a, d, c, b, (0.05, -s))]
    if writer.square == "two":
        return [_stroke(writer, rng, a, d, c), _stroke(writer, rng, a, b, c)]
    if writer.square == "four":
        return [_stroke(writer, rng, *pair) for pair in ((a, d), (a, b), (b, c), (d, c))]
    return [_stroke(writer, rng, a, d, c, b, closed=True)]


def _angle(side: float) -> Callable[[Writer, Rng], list[Intent]]:
    def draw(writer: Writer, rng: Rng) -> list[Intent]:
        open_ = float(rng.uniform(0.22, 0.36))
        points = ((side * open_, -0.5), (-side * open_, float(rng.normal(0, 0.06))), (side * open_, 0.5))
        haste = max(writer.haste, 0.6) if writer.curved_angles else min(writer.haste, 0.4)
        return [_stroke(writer, rng, *points, haste=haste)]

    return draw


def _bracket(side: float) -> Callable[[Writer, Rng], list[Intent]]:
    def draw(writer: Writer, rng: Rng) -> list[Intent]:
        arm = float(rng.uniform(0.26, 0.42)) * side
        lower = arm * float(rng.uniform(0.7, 1.25))
        x = -arm / 2
        corners = ((x + arm, -0.5), (x, -0.5), (x, 0.5), (x + lower, 0.5))
        if writer.bracket == "parenthesis":
            # smooth throughout, or nobody could tell it from an angle
            bulge = side * float(rng.uniform(0.2, 0.3))
            turns = np.linspace(-0.5, 0.5, 9)
            lean = float(rng.normal(0, writer.sloppy))
            via = np.stack([-bulge * (1 - 4 * turns**2) + lean * turns, turns], axis=1)
            return [Intent(via, 0.6)]
        if writer.bracket == "hooked":
            hook = 0.55 * arm
            return [_stroke(writer, rng, (x + arm, -0.42), (x + hook, -0.5), (x, -0.4), (x, 0.4), (x + hook, 0.5),
                            (x + arm, 0.4), haste=0.35)]  # fmt: skip
        if writer.bracket == "strokes":
            # arms that run over the upright would make it look to both sides
            arms = replace(writer, overshoot=(-0.03, 0.05))
            return [_stroke(writer, rng, *corners[1:3]), _stroke(arms, rng, *corners[1::-1]),
                    _stroke(arms, rng, *corners[2:])]  # fmt: skip
        haste = max(writer.haste, 0.5) if writer.bracket == "round" else min(writer.haste, 0.35)
        return [_stroke(writer, rng, *corners, haste=haste)]

    return draw


def _line(*points: XY) -> Callable[[Writer, Rng], list[Intent]]:
    def draw(writer: Writer, rng: Rng) -> list[Intent]:
        return [_stroke(writer, rng, *points, haste=min(writer.haste, 0.45))]

    return draw


def _blackened(shape: Callable[[Writer, Rng], list[Intent]]) -> Callable[[Writer, Rng], list[Intent]]:
    """Fill a shape: blacken it, or hatch it to and fro."""

    def draw(writer: Writer, rng: Rng) -> list[Intent]:
        # the inside is that of a shape drawn in one go, whatever the outline's strokes
        outline = shape(replace(writer, triangle="apex", square="one"), rng)
        ring = outline[0].via
        if not writer.hatched:
            return [Intent(ring, outline[0].rounding, filled=True), *outline]
        return [*outline, _hatch(ring * 0.86, rng)]

    return draw


def _hatch(ring: np.ndarray, rng: Rng) -> Intent:
    """Go to and fro inside an outline, shape (n, 2), from its top to its bottom."""
    closed = np.vstack([ring, ring[:1]])
    low, high = float(ring[:, 1].min()), float(ring[:, 1].max())
    via: list[XY] = []
    for number, y in enumerate(np.linspace(low + 0.05, high - 0.05, 8)):
        above = closed[:, 1] > y
        crossing = np.flatnonzero(above[1:] != above[:-1])
        a, b = closed[crossing], closed[crossing + 1]
        xs = np.sort(a[:, 0] + (y - a[:, 1]) / (b[:, 1] - a[:, 1]) * (b[:, 0] - a[:, 0]))
        if len(xs) >= 2:
            ends = (float(xs[0]), float(xs[-1]))
            via.append((ends[number % 2] + float(rng.normal(0, 0.03)), float(y)))
    return Intent(np.array(via if len(via) > 1 else [(-0.2, 0.0), (0.2, 0.0)]), 0.3)


def _bow_tie(writer: Writer, rng: Rng) -> list[Intent]:
    # what a stroke along the foot closes would be blackened too
    strokes = _cross(replace(writer, cross="two") if writer.cross == "foot" else writer, rng)[:2]
    for side in (-0.45, 0.45):
        wedge = np.array([(side, -0.48), (0.0, 0.0), (side, 0.48)]) + rng.normal(0, writer.sloppy, (3, 2))
        strokes.append(Intent(wedge, 0.0, filled=True) if not writer.hatched else _hatch(wedge * 0.9, rng))
        strokes.append(Intent(wedge[[0, 2]], 0.0))
    return strokes


_DRAWN: dict[Glyph, Callable[[Writer, Rng], list[Intent]]] = {
    "circle": _loop,
    "cross": _cross,
    "triangle": _triangle,
    "square": _square,
    "circle-filled": _blackened(_loop),
    "cross-filled": _bow_tie,
    "triangle-filled": _blackened(_triangle),
    "square-filled": _blackened(_square),
    "angle-left": _angle(1.0),
    "angle-right": _angle(-1.0),
    "bracket-left": _bracket(1.0),
    "bracket-right": _bracket(-1.0),
    "caret": _line((-0.4, 0.5), (0.0, -0.5), (0.4, 0.5)),
    "vee": _line((-0.4, -0.5), (0.0, 0.5), (0.4, -0.5)),
    "half-bracket-right": _line((-0.28, -0.5), (0.28, -0.5), (0.28, 0.5)),
    "half-bracket-left": _line((0.28, -0.5), (-0.28, -0.5), (-0.28, 0.5)),
    "foot-right": _line((-0.28, -0.5), (-0.28, 0.5), (0.28, 0.5)),
    "foot-left": _line((0.28, -0.5), (0.28, 0.5), (-0.28, 0.5)),
}
