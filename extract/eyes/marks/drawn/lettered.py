"""Marks that a drawn page sets as letters, such as `<`, `[` or `O`: the file itself says which shape stands where."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from .....interpret.symbols import Glyph
from ....page import DrawnPath, Word
from ....sightings import MarkSight
from .apart import Box, Figure

Outline = tuple[tuple[float, float], ...]

_ROUND: Outline = tuple(
    (0.5 + 0.5 * math.cos(2 * math.pi * k / 32), 0.5 + 0.5 * math.sin(2 * math.pi * k / 32)) for k in range(33)
)
_CROSS: tuple[Outline, ...] = (((0, 0), (1, 1)), ((0, 1), (1, 0)))
_POINT_UP: Outline = ((0, 1), (0.5, 0), (1, 1), (0, 1))
_BOX: Outline = ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))
_SWUNG: Outline = (
    (0.95, 0.22), (0.85, 0.07), (0.5, 0), (0.15, 0.07), (0.03, 0.25), (0.15, 0.4), (0.5, 0.48), (0.85, 0.57), (1, 0.74),
    (0.85, 0.93), (0.5, 1), (0.15, 0.94), (0, 0.76),
)  # fmt: skip
SHAPES: dict[str, tuple[Outline, ...]] = {
    **dict.fromkeys("<‹〈", (((1, 0), (0, 0.5), (1, 1)),)),
    **dict.fromkeys(">›〉", (((0, 0), (1, 0.5), (0, 1)),)),
    **dict.fromkeys("[⊏", (((1, 0), (0, 0), (0, 1), (1, 1)),)),
    **dict.fromkeys("]⊐", (((0, 0), (1, 0), (1, 1), (0, 1)),)),
    **dict.fromkeys("○◯⚪●⚫•", (_ROUND,)),
    **dict.fromkeys("×✕╳✖", _CROSS),
    **dict.fromkeys("△∆▲", (_POINT_UP,)),
    **dict.fromkeys("□☐◻■◼", (_BOX,)),
    "┐": (((0, 0), (1, 0), (1, 1)),),
    "┌": (((1, 0), (0, 0), (0, 1)),),
    "└": (((0, 0), (0, 1), (1, 1)),),
    "┘": (((1, 0), (1, 1), (0, 1)),),
    "↙": (((1, 0), (0, 1)), ((0, 0.55), (0, 1), (0.45, 1))),
    "↘": (((0, 0), (1, 1)), ((0.55, 1), (1, 1), (1, 0.55))),
    "↓": (((0.5, 0), (0.5, 1)), ((0.1, 0.65), (0.5, 1), (0.9, 0.65))),
}
"""Characters whose shape is a mark's or an arrow's (names of the Unicode standard), in a square from its upper left."""
LETTERS: dict[str, tuple[Outline, ...]] = {
    **dict.fromkeys("Oo", (_ROUND,)),
    **dict.fromkeys("Xx", _CROSS),
    "^": (((0, 1), (0.5, 0), (1, 1)),),
    "S": (_SWUNG,),
    "A": (((0, 1), (0.5, 0), (1, 1)), ((0.2, 0.62), (0.8, 0.62))),
    "M": (((0, 1), (0, 0), (0.5, 0.75), (1, 0), (1, 1)),),
    "m": (((0, 1), (0, 0), (0.3, 0), (0.5, 0.2), (0.5, 1), (0.5, 0.2), (0.7, 0), (0.85, 0), (1, 0.2), (1, 1)),),
    "U": (((0, 0), (0, 0.65), (0.15, 0.92), (0.5, 1), (0.85, 0.92), (1, 0.65), (1, 0)),),
}
"""Letters of words that are also marks; they count where more than one stands on a chart alone."""
READ: dict[str, Glyph] = {"S": "letter-s", "A": "letter-a", "M": "letter-m", "m": "letter-m", "U": "letter-u"}
"""Letters that are marks by what they say: whoever reads them needs not look at their shape."""
SURE = 0.87
"""What a letter that the file names counts: as much as a mark whose shape is clear."""
COLOUR = 40
"""By how much a red or a blue exceeds the other primary colours."""
FILLED = frozenset("●⚫•▲■◼")
FEWEST = 2
"""So many of one letter in one ink are marks."""
ALONE = 3.0
"""A word of a text stands within so many letter heights of the next, on one line."""
STROKE = 0.1
"""A letter's strokes are so wide, in letter heights."""
NARROWEST = 0.35
"""So wide is a shape drawn at least, in its heights: the brackets of many faces are narrower (0.16 to 0.3), and would
look like a stroke."""


@dataclass(frozen=True, slots=True, eq=False)
class Lettered:
    """A word that is a mark or an arrow, and paths that draw its shape in its place; their numbers are below 0."""

    word: Word
    paths: tuple[DrawnPath, ...]


def as_read(figure: Figure, letter: str, area: int) -> MarkSight:
    """Give the mark that a letter is, in the ink that the file gives it.

    Parameters
    ----------
    figure : Figure
        The letter's place on the sheet.
    letter : str
        One of ``READ``.
    area : int
        The chart's number on the sheet.

    Returns
    -------
    MarkSight
        Seen apart, without an arrow of its own.
    """
    left, top, right, bottom = figure.box
    return letter_sight(READ[letter], ((left + right) / 2, (top + bottom) / 2), figure.size, figure.ink, area)


def letter_sight(
    glyph: Glyph, at: tuple[float, float], size: tuple[float, float], ink: tuple[int, int, int] | None, area: int = -1
) -> MarkSight:
    """Give the mark at a place where the file says which letter stands there, and in which ink."""
    red, green, blue = ink or (0, 0, 0)
    is_red, is_blue = red - max(green, blue) > COLOUR, blue - max(red, green) > COLOUR
    return MarkSight(area, glyph, at, size, SURE, (), 0.9 * is_red, 0.9 * is_blue, (0.0, 0.0, 0.0), apart=True)


def lettered(words: tuple[Word, ...], box: Box) -> tuple[Lettered, ...]:
    """Find the letters on a chart that are marks, or arrows of marks.

    Parameters
    ----------
    words : tuple of Word
        The words that the file gives.
    box : tuple of float
        The chart's region (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    tuple of Lettered
        Only such as stand by themselves: not those of a text.
    """
    inside = [w for w in words if w.tight and w.upright == 0 and _within(w.box, box) and _stands_alone(w, words)]
    found: list[Lettered] = []
    for word in inside:
        alike = sum(w.text == word.text and w.ink == word.ink for w in inside)
        if word.text in SHAPES or alike >= FEWEST:
            found.append(Lettered(word, _drawn(word, -1 - len(found))))
    return tuple(found)


def _within(box: Box, region: Box) -> bool:
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return region[0] <= x <= region[2] and region[1] <= y <= region[3]


def _stands_alone(word: Word, words: tuple[Word, ...]) -> bool:
    """Say whether a word is of no text: a sign that is no letter stands alone beside a number, a label of the axis."""
    left, top, right, bottom = word.box
    room = ALONE * (bottom - top)
    return not any(
        len(other.text) > 1
        and not (word.text in SHAPES and other.text.lstrip("-−–").isdigit())
        and other.box[0] - right < room
        and left - other.box[2] < room
        and min(other.box[3], bottom) - max(other.box[1], top) > 0.3 * (bottom - top)
        for other in words
    )


def _drawn(word: Word, number: int) -> tuple[DrawnPath, ...]:
    """Draw a letter's shape in its place."""
    ink = word.ink or (0, 0, 0)
    left, top, right, bottom = word.box
    more = max(NARROWEST * (bottom - top) - (right - left), 0.0)
    left, right = left - more / 2, right + more / 2
    corner, size = np.array((left, top)), np.array((right - left, bottom - top))
    width = STROKE * max(size)
    stroke, fill = (None, ink) if word.text in FILLED else (ink, None)
    outlines = [np.array(outline, np.float64) for outline in SHAPES.get(word.text) or LETTERS[word.text]]
    placed = [corner + width / 2 + outline * np.maximum(size - width, 1.0) for outline in outlines]
    return tuple(
        DrawnPath(points, np.ones(len(points), bool), stroke, fill, float(width), False, number) for points in placed
    )
