"""How one kind of mark is drawn on a freely drawn chart: size, stroke, proportions, or a character of some font."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ....interpret.symbols import Glyph
from .. import fonts
from ..chart.chance import pick
from ..chart.look import Shape

FACES = (
    "DejaVuSans",
    "DejaVuSans-Bold",
    "DejaVuSans-Oblique",
    "DejaVuSansMono",
    "STIXGeneral",
    "STIXGeneralBol",
    "Roboto-Regular",
    "Roboto-Medium",
    "Roboto-Light",
    "SourceSansPro-Regular",
    "SourceSansPro-Semibold",
    "SourceSerifPro-Regular",
    "SourceSerifPro-Bold",
    "Manrope-Regular",
    "Manrope-Bold",
    "FjallaOne-Regular",
    "FredokaOne-Regular",
    "Intuitive",
    "AmaticSC-Bold",
)
"""Embedded training faces; the Computer Modern ones are left out, whose ``<`` is another sign."""
CHARACTERS: dict[Glyph, str] = {
    "circle": "Oo\u25cb\u25efO",
    "cross": "Xx\u00d7\u2715\u2716",
    "triangle": "\u0394\u25b3\u2206",
    "square": "\u25a1\u25fb\u25a1",
    "circle-filled": "\u25cf\u2022\u2b24\u25d0",
    "triangle-filled": "\u25b2",
    "square-filled": "\u25a0",
    "angle-left": "<<<\u25c0\u25c4\u25c1",
    "angle-right": ">>>\u25b6\u25ba\u25b7",
    "bracket-left": "[",
    "bracket-right": "]",
    "caret": "^\u2227\u039b",
    "vee": "\u2228Vv",
    "half-bracket-right": "\u2510\u00ac",
    "half-bracket-left": "\u0393\u2310",
    "letter-s": "SSs",
    "letter-a": "A",
    "letter-m": "MMm",
    "letter-u": "UUu",
    "foot-right": "L",
    "foot-left": "\u2143\u2518",
}
"""Characters that any program might write for a glyph."""
SOLID: frozenset[Glyph] = frozenset({"circle-filled", "triangle-filled", "square-filled"})
SOLID_CHARACTERS = frozenset("\u25cf\u2022\u2b24\u25d0\u25b2\u25a0\u25c0\u25c4\u25b6\u25ba")


@dataclass(frozen=True, slots=True)
class MarkStyle:
    """One kind of mark; ``height`` in points, ``stroke`` and ``bold`` as shares of it.

    ``char`` is empty where the mark is drawn with strokes. ``closed`` makes an angle a triangle, ``filled`` fills it.
    ``careless`` puts the middle of the character's line box, or a drawn shape's centre of mass, on the point.
    """

    height: float
    stroke: float
    shape: Shape
    aspect: float
    char: str
    face: str
    bold: float
    careless: bool
    closed: bool
    filled: bool
    cap: int
    join: int
    halo: float
    shadow: float
    opacity: float
    white_inside: bool

    @property
    def solid(self) -> bool:
        """Whether it hides what lies beneath it."""
        return (self.filled or self.char in SOLID_CHARACTERS) and self.opacity > 0.55


def _angle_width(rng: np.random.Generator, glyph: Glyph) -> float:
    """Invent the ``angle`` of a shape so that it opens by 32 to 120 degrees (below, a mitre runs far out)."""
    half = math.radians(float(rng.uniform(32, 120))) / 2
    return math.tan(half) / 0.75 if glyph in ("caret", "vee") else 0.5 / math.tan(half)


def _shape(rng: np.random.Generator, glyph: Glyph) -> Shape:
    return Shape(
        angle=_angle_width(rng, glyph),
        bracket=float(rng.uniform(0.14, 0.7)),
        cross=float(rng.uniform(0.55, 1.6) if rng.random() < 0.4 else rng.uniform(0.85, 1.1)),
        triangle=float(rng.uniform(0.65, 1.6)),
        square=float(rng.uniform(0.6, 1.5) if rng.random() < 0.4 else rng.uniform(0.85, 1.05)),
        foot=float(rng.uniform(0.3, 1.1)),
        half_filled=bool(rng.random() < 0.3),
        wedges_upright=bool(rng.random() < 0.5),
    )


def _character(rng: np.random.Generator, glyph: Glyph) -> tuple[str, str]:
    face = pick(rng, FACES)
    fonts.load(face)
    options = [char for char in CHARACTERS.get(glyph, "") if fonts.has(face, char)]
    return (pick(rng, options), face) if options else ("", face)


def any_style(rng: np.random.Generator, glyph: Glyph, height: float, stroke: float, *, letters: float) -> MarkStyle:
    """Invent the style of one kind of mark.

    Parameters
    ----------
    rng : numpy.random.Generator
        All chance comes from it.
    glyph : Glyph
        Which shape.
    height : float
        In points.
    stroke : float
        Stroke width as a share of the height, at most a third.
    letters : float
        The odds that the mark is a character of some font.

    Returns
    -------
    MarkStyle
    """
    char, face = _character(rng, glyph) if rng.random() < letters else ("", "")
    angle = glyph in ("angle-left", "angle-right")
    closed = angle and rng.random() < 0.3
    return MarkStyle(
        height=height,
        stroke=stroke,
        shape=_shape(rng, glyph),
        aspect=float(rng.uniform(0.62, 1.6)) if rng.random() < 0.35 else 1.0,
        char=char,
        face=face,
        bold=float(rng.uniform(0.02, 0.12)) if rng.random() < 0.35 else 0.0,
        careless=bool(rng.random() < 0.35),
        closed=closed,
        filled=glyph in SOLID or (closed and rng.random() < 0.6),
        cap=int(pick(rng, (0, 1, 2))),
        join=int(pick(rng, (0, 1))),
        halo=float(rng.uniform(0.5, 1.5)) if rng.random() < 0.1 else 0.0,
        shadow=float(rng.uniform(0.5, 1.6)) if rng.random() < 0.05 else 0.0,
        opacity=float(rng.uniform(0.5, 0.9)) if rng.random() < 0.12 else 1.0,
        white_inside=bool(rng.random() < 0.2),
    )
