"""The marks: standard symbols (ASHA 1990), no-response arrows, and the sign of a value open to question."""

from __future__ import annotations

from collections.abc import Iterator

from ...record import Threshold
from ...rules.doubt import ASK_REACH_DB
from ...symbols import SYMBOL_SETS, Glyph
from .scene import BLACK, At, Circle, Colour, Item, Lettering, Line, Stroke, tinted

SET = SYMBOL_SETS["asha-1990"]
"""The symbol set that is drawn, whatever the page's own one was."""

RIGHT: Colour = (0.72, 0.06, 0.16)
LEFT: Colour = (0.06, 0.30, 0.66)
"""Alike in a grey copy, as both must be seen there; shape and line tell the ears."""

_BESIDE = 8.5
_REACH = 5.2
_WEIGHT = 1.6
_LETTERS: dict[Glyph, str] = {"letter-s": "S", "letter-a": "A", "letter-m": "M", "letter-u": "U"}


def colour_of(threshold: Threshold) -> Colour:
    """Give red for the right ear, blue for the left, black for a mark of no ear."""
    return {"right": RIGHT, "left": LEFT}.get(threshold.ear, BLACK)


def glyph_of(threshold: Threshold) -> Glyph:
    """Give the symbol of a value: the one of ``SET``; where it has none, a letter by common practice.

    Notes
    -----
    Aided values without a loudspeaker are an A and levels of comfort M and U, in the ear's colour. An air value that
    names no ear is a filled circle, which the set gives no meaning.
    """
    if threshold.measure != "threshold":
        return "letter-m" if threshold.measure == "mcl" else "letter-u"
    if threshold.aided or threshold.conduction == "field":
        return "letter-a" if threshold.aided else "letter-s"
    wanted = (threshold.ear, threshold.conduction, threshold.masked)
    for glyph, meaning in SET.meanings.items():
        if (meaning.ear, meaning.conduction, meaning.masked) == wanted and meaning.measure == "threshold":
            return glyph
    return "caret" if threshold.conduction == "bone" else "circle-filled"


def reach_of(scale: float) -> float:
    """Give how far a mark reaches from its centre, points; joining lines stop outside of it."""
    return (_REACH + 1.8) * scale


def mark(threshold: Threshold, at: At, octave: float, scale: float, fade: float = 0.0) -> Iterator[Item]:
    """Draw one value where it stands.

    Parameters
    ----------
    threshold : Threshold
        The value.
    at : tuple of float
        The crossing of its frequency and level, points.
    octave : float
        The width of an octave, which is the height of 20 dB, points.
    scale : float
        The size of the marks, 1 for a circle of 5 points radius.
    fade : float
        0 in full colour, up to 1 towards white, for tests that are not the latest.
    """
    glyph, colour = glyph_of(threshold), tinted(colour_of(threshold), fade)
    side = _side_of(threshold, glyph)
    centre = (at[0] + side * _BESIDE * scale, at[1])
    pen = Stroke(colour, _WEIGHT * scale)
    if threshold.standing == "ask":
        reach = ASK_REACH_DB * octave / 20
        yield from open_to_question(centre, scale, (reach, reach if threshold.response else 0), fade)
    yield from shape(glyph, centre, scale, pen)
    if not threshold.response:
        yield from _arrow(centre, side or {"right": -1, "left": 1}.get(threshold.ear, 0), scale, pen)


def shape(glyph: Glyph, at: At, scale: float, pen: Stroke) -> Iterator[Item]:
    """Draw a symbol's shape around a point."""
    x, y = at
    r = _REACH * scale

    def line(*points: At, closed: bool = False) -> Line:
        return Line(tuple((x + dx * r, y + dy * r) for dx, dy in points), pen, closed)

    if glyph in _LETTERS:
        size = 11 * scale
        yield Lettering((x, y + size * 0.36), _LETTERS[glyph], size, pen.colour, "middle", bold=True)
    elif glyph in ("circle", "circle-filled"):
        yield Circle(at, r, pen, pen.colour if glyph == "circle-filled" else None)
    elif glyph == "cross":
        yield line((-0.75, -0.75), (0.75, 0.75))
        yield line((-0.75, 0.75), (0.75, -0.75))
    elif glyph == "triangle":
        yield line((0, -1.1), (1.05, 0.8), (-1.05, 0.8), closed=True)
    elif glyph == "square":
        yield line((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9), closed=True)
    else:
        yield line(*_STROKES[glyph])


_STROKES: dict[Glyph, tuple[At, ...]] = {
    "angle-left": ((0.55, -0.95), (-0.55, 0), (0.55, 0.95)),
    "angle-right": ((-0.55, -0.95), (0.55, 0), (-0.55, 0.95)),
    "bracket-left": ((0.45, -0.95), (-0.35, -0.95), (-0.35, 0.95), (0.45, 0.95)),
    "bracket-right": ((-0.45, -0.95), (0.35, -0.95), (0.35, 0.95), (-0.45, 0.95)),
    "caret": ((-0.8, 0.7), (0, -0.8), (0.8, 0.7)),
}


def open_to_question(at: At, scale: float, reach: tuple[float, float], fade: float = 0.0) -> Iterator[Item]:
    """Draw the sign of a value that a person must look at, in no ear's colour.

    Parameters
    ----------
    at : tuple of float
        The mark's centre, points.
    scale : float
        The size of marks.
    reach : tuple of float
        How far the value may lie above and below its mark on the sheet, points: two whiskers with caps; 0 draws none.
    fade : float
        As of ``mark``.
    """
    x, y = at
    pen = Stroke(tinted(BLACK, max(fade, 0.15)), 1.1 * scale)
    cap = 4.5 * scale
    for way, length in zip((-1, 1), reach, strict=True):
        if length > 0:
            start, end = y + way * (_REACH + 2) * scale, y + way * length
            yield Line(((x, start), (x, end)), pen)
            yield Line(((x - cap, end), (x + cap, end)), pen)
    yield Lettering((x + 7 * scale, y - 7 * scale), "?", 11 * scale, pen.colour, bold=True)


def _side_of(threshold: Threshold, glyph: Glyph) -> int:
    """Give -1 for a mark left of its frequency line, 1 for one right of it, 0 for one on it."""
    if glyph not in SET.beside_line:
        return 0
    return -1 if threshold.ear == "right" else 1


def _arrow(at: At, side: int, scale: float, pen: Stroke) -> Iterator[Item]:
    """Draw the no-response arrow: from the lower outer corner down and outward, straight down where no ear is named."""
    start = (at[0] + side * 0.75 * _REACH * scale, at[1] + (0.75 if side else 1.2) * _REACH * scale)
    along = (side * 7.5 * scale, 9.5 * scale)
    tip = (start[0] + along[0], start[1] + along[1])
    length = (along[0] ** 2 + along[1] ** 2) ** 0.5
    ux, uy = along[0] / length, along[1] / length
    head = 4.2 * scale
    barbs = [
        (tip[0] - head * (ux * c - s * uy), tip[1] - head * (uy * c + s * ux)) for c, s in ((0.85, 0.5), (0.85, -0.5))
    ]
    yield Line((start, tip), pen)
    yield Line((barbs[0], tip, barbs[1]), pen)
