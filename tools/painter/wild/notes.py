"""What stands inside freely drawn charts besides marks, and is none: words, numbers, lines, areas, pictures."""

from __future__ import annotations

import math

import numpy as np

from .. import fonts
from ..chart.axes import Axes
from ..chart.chance import grey, pick
from ..pen import BLACK, WHITE, XY, Colour, Pen

_NOTES = (
    "NO RESPONSE", "0 dB", "OK", "MAX OUTPUT", "X-ray done", "VT on both sides", "OVERMASKED", "100 % at 60 dB",
    "retest 10/08", "vol. 70", "AC = BC", "VIBROTACTILE", "not tested", "O.K.", "see 500", "fits: SOUND", "COX 06",
    "PTA 45", "1000 x 2", "A. M.", "limit of the audiometer", "{ 20-30 }", "tired",
)  # fmt: skip
_PHONEMES = (("j", 280, 35), ("z", 300, 25), ("v", 260, 28), ("n", 400, 40), ("b", 450, 45), ("i", 350, 48),
             ("e", 700, 45), ("l", 600, 50), ("r", 1100, 40), ("p", 1600, 32), ("h", 1500, 42), ("g", 1400, 30),
             ("k", 2600, 28), ("t", 3600, 30), ("f", 4600, 22), ("th", 5200, 20), ("sh", 2300, 45),
             ("ch", 2000, 38))  # fmt: skip


def any_colour(rng: np.random.Generator) -> Colour:
    """Choose the colour of a note."""
    return pick(rng, (BLACK, grey(rng, 0.2, 0.6), (0.1, 0.1, 0.6), (0.7, 0.1, 0.1), (0.1, 0.4, 0.2)))


def draw_words_inside(pen: Pen, rng: np.random.Generator, axes: Axes, face: str, chart: int) -> None:
    """Write a note or two anywhere in the plot."""
    left, top, right, bottom = axes.frame
    for _ in range(int(rng.integers(1, 4))):
        size = float(rng.uniform(0.02, 0.05)) * min(right - left, bottom - top)
        written = fonts.load(pick(rng, (face, face, "Intuitive", "AmaticSC-Bold")))
        words = pick(rng, _NOTES)
        if rng.random() < 0.3:
            words = f"{int(rng.integers(0, 21)) * 5}"
        room = max(right - left - fonts.width(written, words, size), 1.0)
        at = (left + float(rng.uniform(0, room)), float(rng.uniform(top + size, bottom)))
        pen.text(at, words, written, size, any_colour(rng), chart=chart)


def draw_phonemes(pen: Pen, rng: np.random.Generator, axes: Axes, face: str, chart: int) -> None:
    """Write the sounds of speech where they lie, in small letters."""
    size, colour = axes.db_pt * float(rng.uniform(4, 8)), grey(rng, 0.3, 0.7)
    for letter, hz, level in _PHONEMES:
        if axes.scale.printed[0] <= hz <= axes.scale.printed[-1] and rng.random() < 0.85:
            at = (axes.frame_left + (axes.scale.margin[0] + axes.scale.along(hz)) * axes.step_pt, axes.y(level))
            pen.text(at, letter, face, size, colour, anchor=0.5, chart=chart)


def draw_hatching(pen: Pen, rng: np.random.Generator, axes: Axes) -> None:
    """Hatch or dot the part of the chart that is not tested: its foot, or a corner."""
    left, top, right, bottom = axes.frame
    y0 = top + (bottom - top) * float(rng.uniform(0.75, 0.92))
    x0 = left if rng.random() < 0.5 else left + (right - left) * float(rng.uniform(0.5, 0.85))
    x1 = right if x0 > left or rng.random() < 0.5 else left + (right - left) * float(rng.uniform(0.15, 0.5))
    colour, gap, width = grey(rng, 0.3, 0.75), float(rng.uniform(3, 8)), float(rng.uniform(0.2, 0.7))
    dots = rng.random() < 0.3
    lines, high = [], bottom - y0
    for k in range(int((x1 - x0 + high) / gap) + 1):
        start = x0 + k * gap
        a, b = max(start - high, x0), min(start, x1)
        if a < b:
            lines.append([(a, y0 + (start - a)), (b, y0 + (start - b))])
    if lines:
        pen.turns(0, 0)
        pen.paths(lines, colour, width * 2 if dots else width, (width * 2, gap) if dots else ())


def draw_cursor(pen: Pen, rng: np.random.Generator, axes: Axes, face: str, chart: int) -> None:
    """Draw the cross hair of a screen with its value."""
    left, top, right, bottom = axes.frame
    x, y = float(rng.uniform(left, right)), float(rng.uniform(top, bottom))
    colour, dash = any_colour(rng), pick(rng, ((), (2, 2), (4, 2)))
    pen.turns(0, 0)
    pen.line((left, y), (right, y), colour, 0.6, dash)
    pen.line((x, top), (x, bottom), colour, 0.6, dash)
    if rng.random() < 0.6:
        size = axes.db_pt * 5
        pen.text(
            (min(x + 2, right - 5 * size), y - 2), f"{round(axes.level_at(y))} dB", face, size, colour, chart=chart
        )


def draw_ticks_of_approval(pen: Pen, rng: np.random.Generator, axes: Axes) -> None:
    """Draw one or two check marks."""
    left, top, right, bottom = axes.frame
    pen.turns(1, 1)
    for _ in range(int(rng.integers(1, 3))):
        x, y = float(rng.uniform(left, right)), float(rng.uniform(top, bottom))
        size = axes.db_pt * float(rng.uniform(5, 12))
        points: list[XY] = [(x - size * 0.35, y - size * 0.05), (x, y + size * 0.35), (x + size * 0.7, y - size * 0.7)]
        pen.path(points, any_colour(rng), size * float(rng.uniform(0.05, 0.2)))


def draw_picture(pen: Pen, rng: np.random.Generator, axes: Axes) -> None:
    """Draw a small picture of something that makes a sound: a bell, a tap, a lorry, a leaf, notes."""
    left, top, right, bottom = axes.frame
    size = axes.db_pt * float(rng.uniform(8, 18))
    colour, fill = grey(rng, 0.4, 0.75), pick(rng, (None, (0.93, 0.93, 0.88), (0.85, 0.9, 0.8)))
    pen.turns(1, 1)
    for _ in range(int(rng.integers(1, 5))):
        x, y = float(rng.uniform(left + size, right - size)), float(rng.uniform(top + size, bottom - size))
        kind = int(rng.integers(0, 4))
        if kind == 0:
            bell = [(math.sin(t) * 0.2 + 0.3 * t / 3, -0.5 + t / 3) for t in (0.0, 0.7, 1.5, 2.2, 3.0)]
            outline = [(x - u * size, y + v * size) for u, v in bell] + [
                (x + u * size, y + v * size) for u, v in bell[::-1]
            ]
            pen.path(outline, colour, size * 0.04, closed=True, fill=fill)
        elif kind == 1:
            pen.rect((x - size * 0.6, y - size * 0.3, x + size * 0.2, y + size * 0.25), colour, size * 0.04, fill=fill)
            pen.rect((x + size * 0.2, y - size * 0.1, x + size * 0.55, y + size * 0.25), colour, size * 0.04, fill=fill)
            for shift in (-0.35, 0.3):
                pen.ellipse((x + shift * size, y + size * 0.3), size * 0.1, size * 0.1, colour, size * 0.04, colour)
        elif kind == 2:
            leaf = [
                (0.3 * math.sin(t) * size, -0.6 * math.cos(t) * abs(math.cos(t)) * size)
                for t in np.linspace(0, 6.2, 18)
            ]
            pen.path([(x + float(u), y + float(v)) for u, v in leaf], colour, size * 0.04, closed=True, fill=fill)
            pen.line((x, y - size * 0.5), (x, y + size * 0.8), colour, size * 0.04)
        else:
            pen.ellipse((x, y), size * 0.16, size * 0.11, colour, 0.2, colour)
            pen.path(
                [(x + size * 0.15, y), (x + size * 0.15, y - size * 0.7), (x + size * 0.4, y - size * 0.5)],
                colour,
                size * 0.05,
            )


def any_paper_colour(rng: np.random.Generator) -> Colour:
    """Choose a ground for a plot, white or tinted."""
    if rng.random() < 0.6:
        return WHITE
    red, green, blue = (float(v) for v in rng.uniform(0.82, 1.0, 3))
    return red, green, blue
