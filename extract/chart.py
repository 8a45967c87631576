"""Charts: what the geometry says, in Hz and dB HL, still without meaning."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from .sightings import MarkSight

OneEar = Literal["right", "left"]


@dataclass(frozen=True, slots=True)
class FrequencyScale:
    """Where each frequency stands along the chart's frequency axis.

    ``anchors`` are (Hz, position) of the printed frequencies in chart coordinates (sheet pixels after the bend is
    undone), ascending; ``worst_misfit`` is the largest miss of a label from the scale, in octaves. ``well_read`` are
    the frequencies whose labels were read by themselves; the others are told by their place among these.
    """

    scale: Literal["log", "equal"]
    anchors: tuple[tuple[float, float], ...]
    labels_read: int
    worst_misfit: float
    well_read: frozenset[float]

    def hz_at(self, x: float) -> float:
        """Give the frequency at a position; between and beyond anchors logarithmically."""
        for (f0, x0), (f1, x1) in pairwise(self.anchors):
            if x <= x1 or (f1, x1) == self.anchors[-1]:
                return f0 * (f1 / f0) ** ((x - x0) / (x1 - x0))
        raise ValueError("a frequency scale has at least two anchors")

    def x_of(self, hz: float) -> float:
        """Give the position of a frequency."""
        for (f0, x0), (f1, x1) in pairwise(self.anchors):
            if hz <= f1 or (f1, x1) == self.anchors[-1]:
                return x0 + (x1 - x0) * math.log2(hz / f0) / math.log2(f1 / f0)
        raise ValueError("a frequency scale has at least two anchors")

    @property
    def octave_px(self) -> float:
        """The mean width of an octave in pixels."""
        (f0, x0), (f1, x1) = self.anchors[0], self.anchors[-1]
        return (x1 - x0) / math.log2(f1 / f0)


@dataclass(frozen=True, slots=True)
class LevelScale:
    """The level axis: ``level = (y - zero_px) / px_per_db``; ``worst_misfit`` in dB.

    Levels printed on both sides of a chart are two ``labels_read`` each, and one of ``levels_read``.
    """

    zero_px: float
    px_per_db: float
    printed: tuple[float, float]
    labels_read: int
    worst_misfit: float
    levels_read: int

    @property
    def printed_step_db(self) -> float:
        """The mean step between the printed levels."""
        return (self.printed[1] - self.printed[0]) / max(self.levels_read - 1, 1)

    def level_at(self, y: float) -> float:
        """Give the level in dB HL at a position."""
        return (y - self.zero_px) / self.px_per_db


def bent_by(terms: tuple[float, ...], box: tuple[float, float, float, float], x: float, y: float) -> float:
    """Give the value at a sheet position of a polynomial with the terms of a ``Bend``."""
    u = (2 * x - box[0] - box[2]) / (box[2] - box[0])
    v = (2 * y - box[1] - box[3]) / (box[3] - box[1])
    # written out, since a page asks for some thousand places
    return terms[0] + terms[1] * u + terms[2] * v + terms[3] * u * v + terms[4] * u * u + terms[5] * v * v


@dataclass(frozen=True, slots=True)
class Bend:
    """How the printed lattice leaves the straight one: smooth polynomials of the place, in sheet pixels.

    ``across`` and ``down`` are coefficients of (1, x, y, xy, x², y²) with x and y from -1 to 1 over ``box``; they give
    how far the printed line lies right of and below the place that the labels alone would give it.
    """

    box: tuple[float, float, float, float]
    across: tuple[float, ...]
    down: tuple[float, ...]
    lines_found: int
    """Stretches of printed lines that agree with the bend."""
    rms_px: float
    cover: float = 0.0
    """The share of the level lines' stretches that do."""

    def undone(self, x: float, y: float) -> tuple[float, float]:
        """Give the place of a sheet position on the straight lattice."""
        dx, dy = self.off(x, y)
        return x - dx, y - dy

    def off(self, x: float, y: float) -> tuple[float, float]:
        """Give how far right of and below its straight place the lattice lies at a position."""
        return bent_by(self.across, self.box, x, y), bent_by(self.down, self.box, x, y)


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark with its place in Hz and dB HL before rounding; ``x`` in chart coordinates."""

    sight: MarkSight
    x: float
    y: float
    frequency_hz: float
    level_db_hl: float


@dataclass(frozen=True, slots=True)
class Unexplained:
    """Ink about as large and heavy as a mark that nothing seen on the chart accounts for.

    ``at`` is its middle and ``size`` its width and height in sheet pixels; ``frequency_hz`` and ``level_db_hl`` are its
    place before rounding. ``red`` and ``blue`` are the shares of its ink in those colours, ``mass`` is its ink over
    that of the chart's typical mark. ``hangs_from`` is the place of the mark from which it hangs as an arrow would,
    ``at`` the end of the stroke then.
    """

    at: tuple[float, float]
    size: tuple[float, float]
    frequency_hz: float
    level_db_hl: float
    red: float
    blue: float
    mass: float
    hangs_from: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class MeasuredChart:
    """One chart with its axes and marks; ``area`` is its number among the sightings."""

    area: int
    box: tuple[float, float, float, float]
    frequency: FrequencyScale
    level: LevelScale
    bend: Bend
    marks: tuple[Mark, ...]
    doubts: tuple[str, ...]
    """Remark codes on the axes as a whole."""
    unexplained: tuple[Unexplained, ...] = ()
    """Ink that may be marks or arrows that were missed."""
    beyond: tuple[Mark, ...] = ()
    """Clear marks beside the chart's frequencies: a label there may have been lost."""
    row_db: float | None = None
    """The level at whose height the row of frequencies stands: the plot reaches to it, whatever labels were read."""
    goes_on: bool = False
    """Its lines go on beyond the region that was looked at."""
    cut_off: bool = False
    """A part of it is not on the sheet."""
    titled: OneEar | None = None
    """The one ear that its title names."""
