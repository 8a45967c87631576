"""A plain plot for pages that hold no audiogram: two axes, their lines and numbers, curves and markers."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from .. import fonts
from ..pen import BLACK, XY, Colour, Pen

Split = Literal["train", "bench"]
Marker = Literal["circle", "cross", "triangle", "square", "diamond", "plus", "dot", "angle"]
Box = tuple[float, float, float, float]

RED: Colour = (0.82, 0.12, 0.12)
BLUE: Colour = (0.12, 0.22, 0.78)
GREEN: Colour = (0.1, 0.5, 0.2)
ORANGE: Colour = (0.9, 0.5, 0.1)
GREY: Colour = (0.55, 0.55, 0.55)
PALE: Colour = (0.82, 0.82, 0.82)
PAIR: tuple[tuple[Marker, Colour], tuple[Marker, Colour]] = (("circle", RED), ("cross", BLUE))
"""The two markers that a reader may take for ears."""


def any_face(rng: np.random.Generator, split: Split) -> str:
    """Choose a face of the split, ready to write with."""
    faces = fonts.faces_for(split)
    return fonts.load(faces[int(rng.integers(len(faces)))])


@dataclass(frozen=True, slots=True)
class Span:
    """One axis: the values at its two ends (left and right, or top and bottom), evenly or logarithmically between."""

    first: float
    last: float
    log: bool = False

    def share(self, value: float) -> float:
        """Give the place of a value, 0 at the first end, 1 at the last."""
        if self.log:
            return math.log(value / self.first) / math.log(self.last / self.first)
        return (value - self.first) / (self.last - self.first)


@dataclass(frozen=True, slots=True)
class Plot:
    """A plot in its place; ``box`` is the frame (left, top, right, bottom in points)."""

    pen: Pen
    box: Box
    across: Span
    down: Span
    face: str
    size: float

    def at(self, x: float, y: float) -> XY:
        """Give the point of two values."""
        left, top, right, bottom = self.box
        return left + self.across.share(x) * (right - left), top + self.down.share(y) * (bottom - top)

    def lines(
        self, xs: Sequence[float], ys: Sequence[float], colour: Colour, width: float, dash: Sequence[float] = ()
    ) -> None:
        """Draw the lines of a grid."""
        left, top, right, bottom = self.box
        for x in xs:
            self.pen.line(
                (self.at(x, self.down.first)[0], top), (self.at(x, self.down.first)[0], bottom), colour, width, dash
            )
        for y in ys:
            self.pen.line(
                (left, self.at(self.across.first, y)[1]), (right, self.at(self.across.first, y)[1]), colour, width, dash
            )

    def frame(self, width: float = 0.8, *, open_: bool = False, colour: Colour = BLACK) -> None:
        """Draw the frame, or its left and lower side alone."""
        left, top, right, bottom = self.box
        if open_:
            self.pen.path(((left, top), (left, bottom), (right, bottom)), colour, width)
        else:
            self.pen.rect(self.box, colour, width)

    def numbers(
        self, xs: Sequence[float], ys: Sequence[float], *, above: bool = False,
        say: Callable[[float], str] = "{:g}".format, names: Sequence[str] | None = None,
    ) -> None:  # fmt: skip
        """Write the numbers (or ``names``, along the horizontal axis) with small ticks."""
        left, top, _, bottom = self.box
        for k, x in enumerate(xs):
            place = self.at(x, self.down.first)[0]
            edge = top if above else bottom
            self.pen.line((place, edge), (place, edge + (-3 if above else 3)), BLACK, 0.5)
            text = names[k] if names is not None else say(x)
            self.pen.text(
                (place, edge - 5 if above else edge + 5 + 0.72 * self.size), text, self.face, self.size, anchor=0.5
            )
        for y in ys:
            place = self.at(self.across.first, y)[1]
            self.pen.line((left, place), (left - 3, place), BLACK, 0.5)
            self.pen.text((left - 5, place + 0.36 * self.size), f"{y:g}", self.face, self.size, anchor=1.0)

    def captions(self, across: str, down: str, title: str = "", *, above: bool = False) -> None:
        """Write what the axes are, and a title."""
        left, top, right, bottom = self.box
        middle = (left + right) / 2
        y = top - 8 - self.size if above else bottom + 8 + 2.1 * self.size
        self.pen.text((middle, y), across, self.face, self.size, anchor=0.5)
        self.pen.text(
            (left - 10 - 2.6 * self.size, (top + bottom) / 2), down, self.face, self.size, anchor=0.5, turn=90
        )
        if title:
            rise = 12 + 1.4 * self.size if above else 6
            bold = fonts.load(fonts.FACES[self.face].bold)
            self.pen.text((middle, top - rise), title, bold, self.size * 1.3, anchor=0.5)

    def curve(self, points: Sequence[XY], colour: Colour, width: float = 1.0, dash: Sequence[float] = ()) -> None:
        """Join points given as values; what leaves the frame is held at its edge."""
        left, top, right, bottom = self.box
        placed = [self.at(x, y) for x, y in points]
        held = [(min(max(x, left), right), min(max(y, top), bottom)) for x, y in placed]
        self.pen.corners(round_ends=False, round_joins=True)
        self.pen.path(held, colour, width, dash)

    def markers(self, points: Sequence[XY], marker: Marker, colour: Colour, radius: float, width: float = 1.0) -> None:
        """Mark points given as values."""
        for x, y in points:
            draw_marker(self.pen, self.at(x, y), marker, colour, radius, width)


def draw_marker(pen: Pen, at: XY, marker: Marker, colour: Colour, radius: float, width: float) -> None:
    """Draw one marker at a point of the page."""
    x, y = at
    r = radius
    if marker == "circle":
        pen.ellipse(at, r, r, colour, width, None)
    elif marker == "dot":
        pen.ellipse(at, r * 0.6, r * 0.6, colour, width, colour)
    elif marker in ("cross", "plus"):
        ends = ((0.85, 0.85), (0.85, -0.85)) if marker == "cross" else ((1, 0), (0, 1))
        pen.paths([((x - r * u, y - r * v), (x + r * u, y + r * v)) for u, v in ends], colour, width)
    elif marker == "angle":
        pen.path(((x + r * 0.5, y - r), (x - r * 0.5, y), (x + r * 0.5, y + r)), colour, width)
    else:
        shapes = {
            "triangle": ((0, -1), (0.95, 0.7), (-0.95, 0.7)),
            "square": ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
            "diamond": ((0, -1.1), (0.8, 0), (0, 1.1), (-0.8, 0)),
        }
        pen.path([(x + r * u, y + r * v) for u, v in shapes[marker]], colour, width, closed=True)


def steps(first: float, last: float, step: float) -> list[float]:
    """Give the values from ``first`` to ``last`` in steps, both ends among them."""
    return [round(first + k * step, 6) for k in range(round((last - first) / step) + 1)]
