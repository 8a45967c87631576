"""One freely drawn mark: strokes or a character, with the exact box of its ink; and its arrow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ....interpret.symbols import Glyph
from .. import fonts
from ..chart.chance import pick
from ..chart.glyphs import Part, parts_of
from ..pen import BLACK, WHITE, XY, Colour, Pen
from ..truth import Arrow
from .style import MarkStyle

InkBox = tuple[float, float, float, float]
_SIDES = 36
_WIDEST = 1.5
"""A mark is at most this many times as wide as its style is high: an open angle gets lower instead."""
# a PDF viewer cuts a mitre off where it is more than ten times as long as the stroke is wide: 1 + cos below this
_SHARPEST = 0.02


def _points(part: Part) -> tuple[XY, ...]:
    if not part.radius:
        return part.points
    turns = [2 * math.pi * k / _SIDES for k in range(_SIDES)]
    return tuple((part.radius * math.cos(t), part.radius * math.sin(t)) for t in turns)


def _parts(glyph: Glyph, style: MarkStyle) -> list[Part]:
    """Give the parts in points round (0, 0), circles as polygons."""
    tall = max(style.height - style.stroke * style.height, 0.4)
    skeleton = parts_of(glyph, style.shape)
    widest = 2 * style.aspect * max(abs(x) for part in skeleton for x, _ in _points(part))
    tall /= max(1.0, widest / _WIDEST)
    parts = []
    for part in skeleton:
        points = tuple((x * tall * style.aspect, y * tall) for x, y in _points(part))
        closed = part.closed or bool(part.radius) or style.closed
        parts.append(Part(points, closed=closed, filled=part.filled or (style.closed and style.filled)))
    return parts


def _unit(a: XY, b: XY) -> XY:
    length = math.hypot(b[0] - a[0], b[1] - a[1]) or 1e-9
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _reach(points: Sequence[XY], half: float, *, closed: bool, cap: int, join: int) -> list[XY]:
    """Give points whose box is that of the stroke of width ``2 * half`` along a poly-line."""
    out: list[XY] = []
    count = len(points)
    for k, (x, y) in enumerate(points):
        end = not closed and k in (0, count - 1)
        if join == 1 if not end else cap == 1:
            out += [(x - half, y - half), (x + half, y + half)]
            continue
        before = _unit(points[k - 1], points[k]) if closed or k > 0 else None
        after = _unit(points[k], points[(k + 1) % count]) if closed or k < count - 1 else None
        for along in (before, after):
            if along is not None:
                out += [(x - along[1] * half, y + along[0] * half), (x + along[1] * half, y - along[0] * half)]
        if end and cap == 2:
            sign, along = (-1.0, after) if before is None else (1.0, before)
            assert along is not None
            tip = (x + sign * along[0] * half, y + sign * along[1] * half)
            out += [(tip[0] - along[1] * half, tip[1] + along[0] * half)]
            out += [(tip[0] + along[1] * half, tip[1] - along[0] * half)]
        if before is not None and after is not None:
            bend = 1 + before[0] * after[0] + before[1] * after[1]
            if bend > _SHARPEST:
                across = (-(before[1] + after[1]) * half / bend, (before[0] + after[0]) * half / bend)
                out += [(x + across[0], y + across[1]), (x - across[0], y - across[1])]
    return out


def _box(points: Sequence[XY]) -> InkBox:
    return min(x for x, _ in points), min(y for _, y in points), max(x for x, _ in points), max(y for _, y in points)


def draw_mark(pen: Pen, glyph: Glyph, at: XY, style: MarkStyle, colour: Colour, *, bare: bool = False) -> InkBox:
    """Draw one mark and give the box of its ink in points; ``bare`` leaves out whatever hides what lies beneath."""
    if style.shadow and not bare:
        _draw(pen, glyph, (at[0] + style.shadow, at[1] + style.shadow), style, (0.82, 0.82, 0.82), 0.0, bare=True)
    if style.halo and not bare:
        _draw(pen, glyph, at, style, WHITE, style.halo, bare=True)
    if style.opacity < 1:
        pen.opacity(style.opacity)
    box = _draw(pen, glyph, at, style, colour, 0.0, bare=bare)
    if style.opacity < 1:
        pen.opacity(1.0)
    return box


def _draw(pen: Pen, glyph: Glyph, at: XY, style: MarkStyle, colour: Colour, more: float, *, bare: bool) -> InkBox:
    if style.char:
        return _write(pen, at, style, colour, more)
    parts, width = _parts(glyph, style), style.stroke * style.height
    edge: list[XY] = []
    for part in parts:
        edge += _reach(part.points, width / 2, closed=part.closed, cap=style.cap, join=style.join)
    left, top, right, bottom = _box(edge)
    middle = ((left + right) / 2, (top + bottom) / 2)
    if style.careless:
        every = [point for part in parts for point in part.points]
        middle = (sum(x for x, _ in every) / len(every), sum(y for _, y in every) / len(every))
    dx, dy = at[0] - middle[0], at[1] - middle[1]
    pen.turns(style.cap, style.join)
    for part in parts:
        inside = colour if part.filled else WHITE if style.white_inside and part.closed and not bare else None
        moved = [(x + dx, y + dy) for x, y in part.points]
        pen.path(moved, colour, width + 2 * more, closed=part.closed, fill=inside)
    return left + dx, top + dy, right + dx, bottom + dy


def _write(pen: Pen, at: XY, style: MarkStyle, colour: Colour, more: float) -> InkBox:
    left, bottom, right, top = fonts.ink_box(style.face, style.char, 1.0)
    fits = min(1 / (top - bottom), _WIDEST / (right - left) / style.aspect, 3.2)
    size = style.height * (min(1 / 0.72, _WIDEST / (right - left) / style.aspect) if style.careless else fits)
    half = style.bold * style.height / 2
    wide = style.aspect
    origin = (at[0] - (left + right) / 2 * size * wide, at[1] + (bottom + top) / 2 * size)
    if style.careless:
        # [memory] drawing programs centre a text by its advance and put its middle near 0.35 em over the base line
        origin = (at[0] - fonts.width(style.face, style.char, size) / 2 * wide, at[1] + 0.35 * size)
    pen.glyph_text(origin, style.char, style.face, size, colour, stretch=wide, bold=2 * (half + more))
    return (
        origin[0] + (left * size - half) * wide,
        origin[1] - top * size - half,
        origin[0] + (right * size + half) * wide,
        origin[1] - bottom * size + half,
    )


@dataclass(frozen=True, slots=True)
class ArrowStyle:
    """A no-response arrow; lengths in points, ``angle`` in radians from straight down, ``spread`` of its head.

    An arrow ``under`` its mark is a character of its own below it, or ``shift`` points nearer to the line of its
    frequency than a mark that stands beside that line.
    """

    length: float
    width: float
    angle: float
    head: float
    spread: float
    kind: str
    start: str
    shift: float
    gap: float
    black: bool


def any_arrow(rng: np.random.Generator, height: float) -> ArrowStyle:
    """Invent the arrow that goes with marks of a height in points."""
    length = height * float(rng.uniform(0.5, 2.6))
    # programs that write arrows as characters set them apart from the mark
    gap = float(pick(rng, (0.0, rng.uniform(0.5, 4), rng.uniform(0.1, 0.7) * height), (0.7, 0.17, 0.13)))
    return ArrowStyle(
        length=length,
        width=float(rng.uniform(0.3, min(2.2, 0.3 * height))),
        angle=math.radians(float(rng.uniform(20, 70))),
        head=length * float(rng.uniform(0.2, 0.55)),
        spread=math.radians(float(rng.uniform(15, 45))),
        kind=pick(rng, ("open", "filled", "half", "notched"), (0.4, 0.35, 0.1, 0.15)),
        start=pick(rng, ("corner", "centre", "side", "below", "under"), (0.38, 0.13, 0.13, 0.2, 0.16)),
        shift=float(rng.uniform(0, 0.6)) * height if rng.random() < 0.4 else 0.0,
        gap=gap,
        black=bool(rng.random() < 0.15),
    )


def draw_arrow(pen: Pen, box: InkBox, arrow: Arrow, style: ArrowStyle, colour: Colour) -> XY:
    """Draw an arrow from a mark's box and give its tip in points."""
    left, top, right, bottom = box
    side = {"down-left": -1.0, "down-right": 1.0, "down": 0.0}[arrow]
    along = (math.sin(style.angle) * side, math.cos(style.angle if side else 0.0))
    middle = ((left + right) / 2, (top + bottom) / 2)
    corner = (middle[0] + side * (right - left) / 2, bottom)
    start = {
        "corner": corner,
        "centre": middle,
        "side": (corner[0], middle[1] if side else bottom),
        "below": (middle[0], bottom),
        "under": (middle[0], bottom),
    }[style.start]
    start = (start[0] + along[0] * style.gap, start[1] + along[1] * style.gap)
    # an arrow from the middle must still come out of the mark
    length = style.length + (0.7 * (bottom - top) if style.start == "centre" else 0.0)
    if style.start == "under":
        length = min(length, 1.3 * (bottom - top))
        start = (middle[0] - along[0] * length / 2 - side * style.shift, bottom + max(style.gap, 0.1 * (bottom - top)))
    tip = (start[0] + along[0] * length, start[1] + along[1] * length)
    ink = BLACK if style.black else colour
    pen.turns(0, 0)
    wings = []
    for turn in (-style.spread, style.spread):
        back = (
            along[0] * math.cos(turn) - along[1] * math.sin(turn),
            along[0] * math.sin(turn) + along[1] * math.cos(turn),
        )
        wings.append((tip[0] - back[0] * style.head, tip[1] - back[1] * style.head))
    if style.kind in ("filled", "notched"):
        neck = 0.6 * style.head
        waist = (tip[0] - along[0] * neck, tip[1] - along[1] * neck)
        pen.line(start, waist, ink, style.width)
        outline = (wings[0], tip, wings[1], waist) if style.kind == "notched" else (wings[0], tip, wings[1])
        pen.path(outline, None, closed=True, fill=ink)
        return tip
    pen.line(start, tip, ink, style.width)
    pen.path((wings[0], tip) if style.kind == "half" else (wings[0], tip, wings[1]), ink, style.width)
    return tip
