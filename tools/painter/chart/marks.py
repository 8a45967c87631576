"""Marks put on paper: a glyph by strokes, as filled outlines, as a many-sided polygon or with a font; and its arrow."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from numpy.random import Generator

from ....interpret.symbols import Glyph
from .. import fonts
from ..pen import WHITE, XY, Colour, Pen
from ..truth import Arrow
from .glyphs import CHARACTERS, Part, parts_of, stroke_outline
from .look import Strokes

InkBox = tuple[float, float, float, float]
"""Left, top, right, bottom of the ink in points."""


def draw_glyph(
    pen: Pen, glyph: Glyph, at: XY, height: float, strokes: Strokes, colour: Colour, hand: Generator | None = None
) -> InkBox:
    """Draw one glyph so that the middle of its ink box is ``at``.

    Parameters
    ----------
    pen : Pen
        Draws on the page.
    glyph : Glyph
        Which shape.
    at : tuple
        Where, in points.
    height : float
        Height of the ink in points.
    strokes : Strokes
        How: process, width, proportions.
    colour : tuple
        The ink.
    hand : numpy.random.Generator, optional
        Where the look is shaky: how this one mark goes astray.

    Returns
    -------
    tuple
        The ink's box in points.
    """
    if strokes.process == "font":
        box = _by_font(pen, glyph, at, height, strokes, colour)
        if box is not None:
            return box
    width = min(strokes.width, height / 3)
    parts = [_scaled(part, max(height - width, 0.5)) for part in parts_of(glyph, strokes.shape)]
    polygon = strokes.process == "polygon"
    parts = [_as_polygon(part, strokes.shape.sides) if polygon and part.radius else part for part in parts]
    if strokes.shaky and hand is not None:
        parts = [_by_hand(part, strokes.shaky * height, hand) for part in parts]
    box = _extent(parts, width, strokes.round_corners and strokes.process != "outline")
    # the mitre of a slanting stroke sticks out on one side: the box's middle is put on the point, not the skeleton's
    shift = (at[0] - (box[0] + box[2]) / 2, at[1] - (box[1] + box[3]) / 2)
    parts = [_moved(part, shift) for part in parts]
    pen.corners(round_ends=strokes.round_corners, round_joins=strokes.round_corners)
    for part in parts:
        _draw_part(pen, part, shift, width, strokes, colour)
    return box[0] + shift[0], box[1] + shift[1], box[2] + shift[0], box[3] + shift[1]


def _scaled(part: Part, height: float) -> Part:
    points = tuple((x * height, y * height) for x, y in part.points)
    return Part(points, part.closed, part.radius * height, part.filled)


def _moved(part: Part, shift: XY) -> Part:
    return Part(tuple((x + shift[0], y + shift[1]) for x, y in part.points), part.closed, part.radius, part.filled)


def _as_polygon(part: Part, sides: int) -> Part:
    turns = [2 * math.pi * k / sides for k in range(sides)]
    points = tuple((part.radius * math.cos(t), part.radius * math.sin(t)) for t in turns)
    return Part(points, closed=True, filled=part.filled)


def _by_hand(part: Part, stray: float, hand: Generator) -> Part:
    """Draw a part the way a hand does: ends that miss, bowed lines, a round that does not quite close."""
    if part.radius:
        start, lobes = hand.uniform(0, 2 * math.pi), hand.normal(0, stray, 4)
        turns = np.linspace(start, start + 2 * math.pi + hand.uniform(-0.15, 0.5), 28)
        radius = part.radius + lobes[0] * np.cos(2 * turns + lobes[1]) + lobes[2] * np.cos(3 * turns + lobes[3])
        radius += stray * 0.8 * (turns - start) / (2 * math.pi)
        round_points = zip(radius * np.cos(turns), radius * np.sin(turns), strict=True)
        return Part(tuple((float(x), float(y)) for x, y in round_points), closed=part.filled, filled=part.filled)
    if len(part.points) > 6:  # a letter's curve is one sweep, not a chain of strokes
        stray *= 0.3
    corners = np.array(part.points) + hand.normal(0, stray, (len(part.points), 2))
    if part.closed:
        corners = np.vstack([corners, corners[:1] + hand.normal(0, stray, 2)])
    points = [corners[0]]
    for a, b in pairwise(corners):
        bow = hand.normal(0, stray) * np.array([a[1] - b[1], b[0] - a[0]]) / max(float(np.hypot(*(b - a))), 1e-6)
        points += [a + (b - a) * t + bow * 4 * t * (1 - t) for t in (0.25, 0.5, 0.75, 1.0)]
    return Part(tuple((float(x), float(y)) for x, y in points), closed=part.filled, filled=part.filled)


def _extent(parts: list[Part], width: float, round_corners: bool) -> InkBox:
    xs: list[float] = []
    ys: list[float] = []
    half = width / 2
    for part in parts:
        if part.radius:
            reach = part.radius + half
            xs += [-reach, reach]
            ys += [-reach, reach]
        elif round_corners:
            xs += [x + side for x, _ in part.points for side in (-half, half)]
            ys += [y + side for _, y in part.points for side in (-half, half)]
        else:
            edges = stroke_outline(part.points, half, closed=part.closed)
            xs += [x for edge in edges for x, _ in edge]
            ys += [y for edge in edges for _, y in edge]
    return min(xs), min(ys), max(xs), max(ys)


def _draw_part(pen: Pen, part: Part, centre: XY, width: float, strokes: Strokes, colour: Colour) -> None:
    inside = colour if part.filled else WHITE if strokes.white_inside else None
    if part.radius and strokes.process == "outline":
        sides = 40
        rings = []
        for reach in (part.radius + width / 2, part.radius - width / 2):
            ring = _as_polygon(Part(radius=reach), sides).points
            rings.append([(x + centre[0], y + centre[1]) for x, y in ring])
        if inside is not None:
            pen.path(rings[0], None, closed=True, fill=inside)
        pen.paths(rings, None, closed=True, fill=colour)
    elif part.radius:
        pen.ellipse(centre, part.radius, part.radius, colour, width, inside)
    elif strokes.process == "outline":
        if part.closed and inside is not None:
            pen.path(part.points, None, closed=True, fill=inside)
        pen.paths(stroke_outline(part.points, width / 2, closed=part.closed), None, closed=True, fill=colour)
    else:
        pen.path(part.points, colour, width, closed=part.closed, fill=inside if part.closed else None)


def _by_font(pen: Pen, glyph: Glyph, at: XY, height: float, strokes: Strokes, colour: Colour) -> InkBox | None:
    face = strokes.mark_face
    options = [char for char in CHARACTERS.get(glyph, "") if fonts.has(face, char)]
    # a font without the shape cannot write it: the caller draws it with strokes, as form programs do
    if not options or fonts.FACES[face].file is None:
        return None
    char = options[-1] if strokes.shape.half_filled else options[0]
    left, bottom, right, top = fonts.ink_box(face, char, 1.0)
    size = height / (top - bottom)
    origin = (at[0] - (left + right) / 2 * size, at[1] + (bottom + top) / 2 * size)
    pen.glyph_text(origin, char, face, size, colour)
    half = (right - left) * size / 2
    return at[0] - half, at[1] - height / 2, at[0] + half, at[1] + height / 2


def draw_arrow(pen: Pen, box: InkBox, arrow: Arrow, strokes: Strokes, colour: Colour) -> XY:
    """Draw the no-response arrow from the lower outer corner of a mark, and give its tip in points."""
    left, top, right, bottom = box
    length = strokes.arrow_length * (bottom - top)
    slant = {"down-left": -strokes.arrow_slant, "down-right": strokes.arrow_slant, "down": 0.0}[arrow]
    start = ({"down-left": left, "down-right": right, "down": (left + right) / 2}[arrow], bottom)
    norm = math.hypot(slant, 1.0)
    along = (slant / norm, 1.0 / norm)
    tip = (start[0] + along[0] * length, start[1] + along[1] * length)
    width = strokes.width * 0.9
    pen.corners(round_ends=strokes.round_corners, round_joins=strokes.round_corners)
    head = min(0.45 * length, 5.0)
    wings = []
    for turn in (-0.5, 0.5):
        cos, sin = math.cos(turn), math.sin(turn)
        back = (along[0] * cos - along[1] * sin, along[0] * sin + along[1] * cos)
        wings.append((tip[0] - back[0] * head, tip[1] - back[1] * head))
    if strokes.arrow_head == "filled":
        pen.line(start, (tip[0] - along[0] * head * 0.6, tip[1] - along[1] * head * 0.6), colour, width)
        pen.path((wings[0], tip, wings[1]), None, closed=True, fill=colour)
        return tip
    pen.line(start, tip, colour, width)
    pen.path((wings[0], tip) if strokes.arrow_head == "half" else (wings[0], tip, wings[1]), colour, width)
    return tip
