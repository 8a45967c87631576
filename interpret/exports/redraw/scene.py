"""A drawing as data: lines, circles and words in points, which ``svg`` and ``pdf`` write alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Colour = tuple[float, float, float]
"""Red, green, blue, 0 to 1."""
At = tuple[float, float]
"""Points (1/72 inch) from the left and upper edge of the sheet, y down."""

BLACK: Colour = (0.1, 0.1, 0.1)


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn: width and the lengths of its dashes and gaps in points."""

    colour: Colour
    width: float
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A polyline, closed or open; without a stroke only its inside is filled."""

    points: tuple[At, ...]
    stroke: Stroke | None
    closed: bool = False
    fill: Colour | None = None


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; filled where a colour is named."""

    at: At
    radius: float
    stroke: Stroke | None
    fill: Colour | None = None


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of words: ``at`` is on its base line, at its start, middle or end; turned ones run upward."""

    at: At
    text: str
    size: float = 9
    colour: Colour = BLACK
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False
    turned: bool = False


Item = Line | Circle | Lettering


@dataclass(frozen=True, slots=True)
class Scene:
    """One sheet: its size in points, what stands on it from back to front, and its words for who cannot see it."""

    width: float
    height: float
    items: tuple[Item, ...]
    title: str
    description: str
    language: str = "en"


def tinted(colour: Colour, share: float) -> Colour:
    """Mix a colour with white: 0 leaves it, 1 is white."""
    red, green, blue = (part + (1 - part) * share for part in colour)
    return red, green, blue
