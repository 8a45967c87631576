"""The shapes of the glyphs in units of their height: parts to stroke or fill, centre at (0, 0), y down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ....interpret.symbols import Glyph
from ..pen import XY
from .look import Shape


@dataclass(frozen=True, slots=True)
class Part:
    """One stroke of a glyph: a poly-line or polygon, or, where ``radius`` is set, an ellipse round the centre."""

    points: tuple[XY, ...] = ()
    closed: bool = False
    radius: float = 0.0
    filled: bool = False


def _lines(*parts: tuple[XY, ...], closed: bool = False, filled: bool = False) -> tuple[Part, ...]:
    return tuple(Part(points, closed=closed, filled=filled) for points in parts)


def _letter_u() -> tuple[XY, ...]:
    arc = [(0.35 * math.cos(t), 0.15 + 0.35 * math.sin(t)) for t in (math.pi * k / 10 for k in range(10, -1, -1))]
    return ((-0.35, -0.5), *arc, (0.35, -0.5))


def _letter_s() -> tuple[XY, ...]:
    def bow(centre_y: float, start: float, end: float) -> list[XY]:
        turns = [start + (end - start) * k / 9 for k in range(10)]
        return [(0.3 * math.cos(math.radians(t)), centre_y - 0.25 * math.sin(math.radians(t))) for t in turns]

    return tuple(bow(-0.25, 30, 270) + bow(0.25, 90, -150))


@lru_cache(maxsize=512)
def parts_of(glyph: Glyph, shape: Shape) -> tuple[Part, ...]:
    """Give the parts of a glyph; its strokes' centre lines fill a box of height 1.

    Parameters
    ----------
    glyph : Glyph
        Which shape.
    shape : Shape
        The proportions that a form or pen gives it.

    Returns
    -------
    tuple of Part
        In the order in which they are drawn.
    """
    a, b, c = shape.angle / 2, shape.bracket / 2, shape.cross / 2
    t, s, f = shape.triangle / 2, shape.square / 2, shape.foot / 2
    triangle: tuple[XY, ...] = ((-t, 0.5), (0.0, -0.5), (t, 0.5))
    square: tuple[XY, ...] = ((-s, -0.5), (s, -0.5), (s, 0.5), (-s, 0.5))
    cross: tuple[tuple[XY, ...], ...] = (((-c, -0.5), (c, 0.5)), ((-c, 0.5), (c, -0.5)))
    if glyph == "circle-filled":
        ring = Part(radius=0.5)
        half = tuple((0.5 * math.cos(u), 0.5 * math.sin(u)) for u in (math.pi * (0.5 + k / 12) for k in range(13)))
        return (ring, Part(half, closed=True, filled=True)) if shape.half_filled else (Part(radius=0.5, filled=True),)
    if glyph == "cross-filled":
        wedges: tuple[tuple[XY, ...], ...] = (((-c, -0.5), (0, 0), (-c, 0.5)), ((c, -0.5), (0, 0), (c, 0.5)))
        if shape.wedges_upright:
            wedges = (((-c, -0.5), (0, 0), (c, -0.5)), ((-c, 0.5), (0, 0), (c, 0.5)))
        return _lines(*wedges, closed=True, filled=True) + _lines(*cross)
    table: dict[Glyph, tuple[Part, ...]] = {
        "circle": (Part(radius=0.5),),
        "cross": _lines(*cross),
        "triangle": _lines(triangle, closed=True),
        "triangle-filled": _lines(triangle, closed=True, filled=True),
        "square": _lines(square, closed=True),
        "square-filled": _lines(square, closed=True, filled=True),
        "angle-left": _lines(((a, -0.5), (-a, 0.0), (a, 0.5))),
        "angle-right": _lines(((-a, -0.5), (a, 0.0), (-a, 0.5))),
        "bracket-left": _lines(((b, -0.5), (-b, -0.5), (-b, 0.5), (b, 0.5))),
        "bracket-right": _lines(((-b, -0.5), (b, -0.5), (b, 0.5), (-b, 0.5))),
        "caret": _lines(((-a * 1.5, 0.5), (0.0, -0.5), (a * 1.5, 0.5))),
        "vee": _lines(((-a * 1.5, -0.5), (0.0, 0.5), (a * 1.5, -0.5))),
        "half-bracket-right": _lines(((-f, -0.5), (f, -0.5), (f, 0.5))),
        "half-bracket-left": _lines(((f, -0.5), (-f, -0.5), (-f, 0.5))),
        "foot-right": _lines(((-f, -0.5), (-f, 0.5), (f, 0.5))),
        "foot-left": _lines(((f, -0.5), (f, 0.5), (-f, 0.5))),
        "letter-s": _lines(_letter_s()),
        "letter-a": _lines(((-0.4, 0.5), (0.0, -0.5), (0.4, 0.5)), ((-0.26, 0.15), (0.26, 0.15))),
        "letter-m": _lines(((-0.42, 0.5), (-0.42, -0.5), (0.0, 0.25), (0.42, -0.5), (0.42, 0.5))),
        "letter-u": _lines(_letter_u()),
    }
    return table[glyph]


CHARACTERS: dict[Glyph, str] = {
    "circle": "\u25cbO",
    "cross": "\u00d7X",
    "triangle": "\u25b3",
    "square": "\u25a1",
    "circle-filled": "\u25cf",
    "triangle-filled": "\u25b2",
    "square-filled": "\u25a0",
    "angle-left": "<",
    "angle-right": ">",
    "bracket-left": "[",
    "bracket-right": "]",
    "letter-s": "S",
    "letter-a": "A",
    "letter-m": "M",
    "letter-u": "U",
}
"""Characters that serve as a glyph where a form writes its marks with a font; the later one is the plainer."""


def _normals(points: Sequence[XY], closed: bool) -> list[XY]:
    count = len(points)
    normals: list[XY] = []
    for k in range(count if closed else count - 1):
        (x0, y0), (x1, y1) = points[k], points[(k + 1) % count]
        length = math.hypot(x1 - x0, y1 - y0) or 1e-9
        normals.append(((y1 - y0) / length, (x0 - x1) / length))
    return normals


def offset(points: Sequence[XY], half: float, *, closed: bool) -> list[XY]:
    """Move a poly-line sideways by ``half``, its corners mitred: one edge of its stroke."""
    normals = _normals(points, closed)
    moved: list[XY] = []
    for k, (x, y) in enumerate(points):
        before = normals[k - 1] if closed or k > 0 else normals[0]
        after = normals[k] if k < len(normals) else normals[-1]
        scale = half / max(1 + before[0] * after[0] + before[1] * after[1], 0.15)
        moved.append((x + (before[0] + after[0]) * scale, y + (before[1] + after[1]) * scale))
    return moved


def stroke_outline(points: Sequence[XY], half: float, *, closed: bool) -> list[list[XY]]:
    """Give the outline of a mitred stroke of width ``2 * half``: one polygon, two where it is closed."""
    one, other = offset(points, half, closed=closed), offset(points, -half, closed=closed)
    return [one, other] if closed else [one + other[::-1]]
