"""Words and numbers written by hand."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ...pen import XY, Colour, Pen
from ...truth import PaintedWord
from ..motion import Intent, moved, shaken, travel
from ..nib import Nib, draw_trail, extent, inked
from ..writer import Writer
from .letters import ALPHABET, strokes_of

InkBox = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Script:
    """How a writer's letters stand: width and gap as shares of a capital's height, and which ways digits are drawn."""

    wide: float
    gap: float
    drift: float
    way: int


def any_script(rng: np.random.Generator) -> Script:
    """Invent a script."""
    return Script(
        wide=float(rng.uniform(0.75, 1.2)),
        gap=float(rng.uniform(0.1, 0.24)),
        drift=float(rng.normal(0, 0.02)),
        way=int(rng.integers(0, 6)),
    )


def write(
    pen: Pen,
    at: XY,
    text: str,
    height: float,
    hand: tuple[Writer, Script],
    nib: Nib,
    colour: Colour,
    rng: np.random.Generator,
    *,
    chart: int | None = None,
    anchor: float = 0.0,
) -> InkBox | None:
    """Write a line by hand and remember its words.

    Parameters
    ----------
    pen : Pen
        The page.
    at : tuple
        Where the base line begins, in points, or the point at the share ``anchor`` of its width.
    text : str
        Characters that the alphabet lacks are left out.
    height : float
        Height of a capital in points.
    hand : tuple of Writer and Script
        Who writes.
    nib, colour : Nib, Colour
        With what.
    rng : numpy.random.Generator
        For what differs from letter to letter.
    chart : int, optional
        The chart that is written over, by its number on the page.
    anchor : float
        0 for the start of the line, 0.5 its middle, 1 its end.

    Returns
    -------
    tuple or None
        The box of the ink in points; None where nothing was written.
    """
    writer, script = hand
    # people write small with the edge of a thick pen
    nib = replace(nib, width=min(nib.width, 0.16 * height), blot=0.0)
    words: list[tuple[str, InkBox]] = []
    x = at[0] - anchor * _width(text, script) * height
    for word in text.split(" "):
        spelled = "".join(char for char in word if char in ALPHABET)
        boxes = []
        for char in spelled:
            spot = (x, at[1] + script.drift * (x - at[0]))
            box, x = _letter(pen, spot, char, height, (writer, script), nib, colour, rng)
            boxes.append(box)
        if boxes:
            words.append((spelled, _around(boxes)))
        x += height * 0.45
    for spelled, (left, top, right, bottom) in words:
        place = (left / pen.width, top / pen.height, right / pen.width, bottom / pen.height)
        pen.words.append(PaintedWord(spelled, place, 0, "other", chart))
    return _around([box for _, box in words]) if words else None


def _around(boxes: list[InkBox]) -> InkBox:
    return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)


def _width(text: str, script: Script) -> float:
    shares = [_breadth(char) * script.wide + script.gap for char in text if char in ALPHABET and char != " "]
    return sum(shares) + 0.45 * text.count(" ")


def _breadth(char: str) -> float:
    return max(x for stroke in strokes_of(char) for x, _ in stroke)


def _letter(
    pen: Pen,
    at: XY,
    char: str,
    height: float,
    hand: tuple[Writer, Script],
    nib: Nib,
    colour: Colour,
    rng: np.random.Generator,
) -> tuple[InkBox, float]:
    """Write one letter at the start of the base line; give its box and where the next one starts."""
    writer, script = hand
    scale = height * float(np.exp(rng.normal(0, 0.5 * writer.size)))
    slant = writer.slant + float(rng.normal(0, 0.03))
    matrix = np.array([[scale * script.wide, slant * scale], [0.0, -scale]])
    rise = float(rng.normal(0, 0.03)) * height
    trails = []
    for stroke in strokes_of(char, script.way):
        via = np.array(stroke)
        via = via + rng.normal(0, 0.3 * writer.sloppy, via.shape)
        path = moved(travel(Intent(via, min(0.35 + 0.4 * writer.haste, 0.6)), places=4), matrix, (at[0], at[1] + rise))
        trails.append(inked(shaken(path, writer.tremor * height, rng), nib, rng))
    for trail in trails:
        draw_trail(pen, trail, nib, colour, rng)
    right = at[0] + (_breadth(char) * script.wide + script.gap * float(rng.uniform(0.7, 1.4))) * height
    return extent(trails), right
