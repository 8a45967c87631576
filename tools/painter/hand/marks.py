"""One mark by hand, the arrow that hangs from it, and how a wrong one is struck out."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ....interpret.symbols import Glyph
from ..chart.chance import pick
from ..pen import XY, Colour, Pen
from ..truth import Arrow
from .motion import Intent, moved, shaken, travel
from .nib import Nib, draw_trail, extent, inked, shifted
from .shapes import intents
from .writer import Writer

InkBox = tuple[float, float, float, float]
"""Left, top, right, bottom of the ink in points."""


def draw_mark(
    pen: Pen, glyph: Glyph, at: XY, height: float, writer: Writer, nib: Nib, colour: Colour, rng: np.random.Generator
) -> InkBox:
    """Draw one mark by hand so that the middle of its ink box is ``at``.

    Parameters
    ----------
    pen : Pen
        The page.
    glyph : Glyph
        Which shape.
    at : tuple
        Where, in points.
    height : float
        About how high, in points.
    writer, nib, colour : Writer, Nib, Colour
        Who draws, with what.
    rng : numpy.random.Generator
        For what differs from mark to mark.

    Returns
    -------
    tuple
        The ink's box in points.
    """
    nib = held(nib, height)
    scale = height * math.exp(float(np.clip(rng.normal(0, writer.size), -2 * writer.size, 2 * writer.size)))
    turn = float(rng.normal(0, writer.tilt))
    cos, sin = math.cos(turn), math.sin(turn)
    matrix = np.array([[cos, -sin], [sin, cos]]) @ np.array([[writer.aspect, -writer.slant], [0.0, 1.0]]) * scale
    trails = []
    for intent in intents(glyph, writer, rng):
        path = shaken(moved(travel(intent), matrix, (0.0, 0.0)), writer.tremor * scale, rng)
        trails.append(inked(path, nib, rng))
    left, top, right, bottom = extent(trails)
    shift = (at[0] - (left + right) / 2, at[1] - (top + bottom) / 2)
    for trail in trails:
        draw_trail(pen, shifted(trail, shift), nib, colour, rng)
    return left + shift[0], top + shift[1], right + shift[0], bottom + shift[1]


def held(nib: Nib, height: float) -> Nib:
    """Hold a pen for marks of a height in points: small ones are drawn with the edge of a thick pen."""
    return replace(nib, width=min(nib.width, 0.15 * height))


def draw_stroke(
    pen: Pen, via: list[XY], rounding: float, nib: Nib, colour: Colour, rng: np.random.Generator, tremor: float = 0.0
) -> list[XY]:
    """Draw one stroke through points of the page and give the path that the pen took."""
    path = shaken(travel(Intent(np.array(via, float), rounding)), tremor, rng)
    draw_trail(pen, inked(path, nib, rng), nib, colour, rng)
    return [(float(x), float(y)) for x, y in path.points]


def draw_arrow(
    pen: Pen, box: InkBox, arrow: Arrow, writer: Writer, nib: Nib, colour: Colour, rng: np.random.Generator
) -> XY:
    """Flick a no-response arrow from the lower outer corner of a mark, and give its tip in points."""
    left, top, right, bottom = box
    high = bottom - top
    nib = held(nib, high)
    side = {"down-left": -1.0, "down-right": 1.0, "down": 0.0}[arrow]
    start = ((left + right) / 2 + side * (right - left) * float(rng.uniform(0.3, 0.55)),
             bottom - high * float(rng.uniform(-0.1, 0.15)) * abs(side))  # fmt: skip
    angle = side * float(rng.uniform(0.5, 0.95)) + float(rng.normal(0, 0.08))
    length = high * float(rng.uniform(0.65, 1.4))
    if writer.arrow_gap:
        gap = high * float(rng.uniform(0, writer.arrow_gap))
        start = (start[0] + gap * math.sin(angle), start[1] + gap * math.cos(angle))
    tip = (start[0] + length * math.sin(angle), start[1] + length * math.cos(angle))
    bow = float(rng.normal(0, 0.06)) * length
    middle = ((start[0] + tip[0]) / 2 + bow * math.cos(angle), (start[1] + tip[1]) / 2 - bow * math.sin(angle))
    draw_stroke(pen, [start, middle, tip], 0.4, nib, colour, rng)
    wings = []
    for turn in (-1.0, 1.0):
        spread = angle + turn * float(rng.uniform(0.35, 0.85))
        reach = length * float(rng.uniform(0.25, 0.5))
        wings.append((tip[0] - reach * math.sin(spread), tip[1] - reach * math.cos(spread)))
    if writer.arrow == "barb":
        draw_stroke(pen, [tip, wings[int(rng.integers(0, 2))]], 0.2, nib, colour, rng)
    elif writer.arrow == "open":
        draw_stroke(pen, [wings[0], tip, wings[1]], 0.15, nib, colour, rng)
    elif writer.arrow == "tick":
        for wing in wings:
            draw_stroke(pen, [wing, tip], 0.2, nib, colour, rng)
    return tip


def strike_out(
    pen: Pen, box: InkBox, nib: Nib, colour: Colour, rng: np.random.Generator, *, scribbled: float = 0.4
) -> InkBox:
    """Strike a wrong mark out, by strokes or a scribble, and give the box of what was drawn.

    A cross over a mark would be a mark itself: strokes run one way.
    """
    left, top, right, bottom = box
    wide, high = right - left, bottom - top
    if rng.random() < scribbled:
        count = int(rng.integers(5, 10))
        via = []
        for k in range(count):
            x = left - 0.1 * wide + 1.2 * wide * (k % 2) + float(rng.normal(0, 0.06)) * wide
            via.append((x, top + high * (0.02 + 0.96 * k / (count - 1)) + float(rng.normal(0, 0.04)) * high))
        drawn = draw_stroke(pen, via, 0.25, nib, colour, rng)
    else:
        slope = pick(rng, (-0.9, -0.5, 0.0, 0.0))
        drawn = []
        count = int(pick(rng, (1, 2, 3, 4), (0.3, 0.4, 0.2, 0.1)))
        for k in range(count):
            y = (top + bottom) / 2 + high * ((k + 0.5) / count - 0.5) * 0.7 + float(rng.normal(0, 0.04)) * high
            reach = wide * float(rng.uniform(0.65, 0.95))
            x = (left + right) / 2 + float(rng.normal(0, 0.05)) * wide
            rise = slope * reach + float(rng.normal(0, 0.05)) * high
            drawn += draw_stroke(pen, [(x - reach, y - rise), (x, y), (x + reach, y + rise)], 0.4, nib, colour, rng)
    xs, ys = [x for x, _ in drawn], [y for _, y in drawn]
    return min(left, *xs), min(top, *ys), max(right, *xs), max(bottom, *ys)
