"""The axes of a painted chart: where on the page, in points, every frequency and level lies."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

OCTAVES: tuple[float, ...] = (125, 250, 500, 1000, 2000, 4000, 8000)
INTER_OCTAVES: tuple[float, ...] = (750, 1500, 3000, 6000)
HIGH: tuple[float, ...] = (9000, 10000, 11200, 12500, 14000, 16000, 18000, 20000)


@dataclass(frozen=True, slots=True)
class Scale:
    """What a form prints along its two axes, before it has a place on a page.

    ``printed`` are all frequencies with a line, tick or label of their own, ascending; ``halfway`` puts 750, 1500,
    3000 and 6000 Hz half way between their octaves (common forms) rather than at 0.585 (true); ``ratio`` is the height
    of 20 dB over the width of an octave (of a step on an ``equal`` axis), 1 on a conforming form. ``margin`` is the
    room inside the frame beyond the outermost frequencies, in octaves, and levels, in dB: left, right, above, below.
    """

    printed: tuple[float, ...]
    levels: tuple[float, float]
    spacing: Literal["log", "equal"] = "log"
    halfway: bool = False
    ratio: float = 1.0
    margin: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)

    def along(self, hz: float) -> float:
        """Give the place of a frequency in octaves (or steps) from the first printed one."""
        if self.spacing == "equal":
            return float(np.interp(math.log2(hz), [math.log2(f) for f in self.printed], range(len(self.printed))))
        if self.halfway and hz in INTER_OCTAVES:
            return math.log2(hz / 1.5) + 0.5 - math.log2(self.printed[0])
        return math.log2(hz / self.printed[0])

    @property
    def steps(self) -> float:
        """The length of the axis from its first to its last printed frequency, in octaves or steps."""
        return self.along(self.printed[-1])

    def size(self, step_pt: float) -> tuple[float, float]:
        """Give the width and height of the frame in points for a width of one octave or step."""
        left, right, above, below = self.margin
        low, high = self.levels
        return (self.steps + left + right) * step_pt, (high - low + above + below) * step_pt * self.ratio / 20


@dataclass(frozen=True, slots=True)
class Axes:
    """A scale in its place: the frame's top left corner in points, and the width of an octave or step."""

    scale: Scale
    frame_left: float
    frame_top: float
    step_pt: float
    knots: tuple[tuple[float, float], ...] = field(default=())
    """(log2 Hz, steps) of every frequency on the axis, for reading a place back."""

    @property
    def db_pt(self) -> float:
        """Height of one dB in points."""
        return self.step_pt * self.scale.ratio / 20

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the plot area in points."""
        width, height = self.scale.size(self.step_pt)
        return self.frame_left, self.frame_top, self.frame_left + width, self.frame_top + height

    def x(self, hz: float) -> float:
        """Give the place of a frequency in points."""
        return self.frame_left + (self.scale.margin[0] + self.scale.along(hz)) * self.step_pt

    def y(self, level_db_hl: float) -> float:
        """Give the place of a level in points."""
        return self.frame_top + (self.scale.margin[2] + level_db_hl - self.scale.levels[0]) * self.db_pt

    def hz_at(self, x: float) -> float:
        """Read a frequency off the axis: evenly in log2 Hz between its knots, past its ends as in the last gap."""
        steps = (x - self.frame_left) / self.step_pt - self.scale.margin[0]
        logs = [knot[0] for knot in self.knots]
        places = [knot[1] for knot in self.knots]
        if steps < places[0]:
            return 2 ** (logs[0] + (steps - places[0]) * (logs[1] - logs[0]) / (places[1] - places[0]))
        if steps > places[-1]:
            return 2 ** (logs[-1] + (steps - places[-1]) * (logs[-1] - logs[-2]) / (places[-1] - places[-2]))
        return float(2 ** np.interp(steps, places, logs))

    def level_at(self, y: float) -> float:
        """Read a level off the axis."""
        return (y - self.frame_top) / self.db_pt - self.scale.margin[2] + self.scale.levels[0]


def place(scale: Scale, box: tuple[float, float, float, float], *, anchor: tuple[float, float] = (0.5, 0.0)) -> Axes:
    """Put a scale as large as it fits into a box (left, top, right, bottom in points).

    ``anchor`` says where the frame lies in the room that is left over: 0 left or top, 1 right or bottom.
    """
    left, top, right, bottom = box
    unit_width, unit_height = scale.size(1.0)
    step = min((right - left) / unit_width, (bottom - top) / unit_height)
    spare = (right - left - unit_width * step, bottom - top - unit_height * step)
    known = {hz: scale.along(hz) for hz in scale.printed}
    if scale.spacing == "log":
        known |= {hz: scale.along(hz) for hz in INTER_OCTAVES if scale.printed[0] < hz < scale.printed[-1]}
    knots = tuple((math.log2(hz), known[hz]) for hz in sorted(known))
    return Axes(scale, left + anchor[0] * spare[0], top + anchor[1] * spare[1], step, knots)
