"""Sightings: what kind of ink was seen where on a sheet; evidence with scores, no values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..interpret.symbols import Glyph, Ink
from .page import Word

ALIKE: tuple[frozenset[Glyph], ...] = (
    frozenset({"circle", "circle-filled"}),
    frozenset({"cross", "cross-filled"}),
    frozenset({"triangle", "triangle-filled", "caret", "letter-a"}),
    frozenset({"square", "square-filled", "bracket-left", "bracket-right"}),
    frozenset({"caret", "vee"}),
    frozenset({"bracket-left", "half-bracket-left", "foot-right"}),
    frozenset({"bracket-right", "half-bracket-right", "foot-left"}),
    frozenset({"letter-m", "letter-u"}),
    frozenset({"letter-s", "letter-a"}),
)
"""Shapes that may be taken for one another; two of one group at one place are one mark."""


def alike(one: Glyph, other: Glyph) -> bool:
    """Say whether two glyphs may be taken for one another."""
    return any(one in group and other in group for group in ALIKE)


@dataclass(frozen=True, slots=True)
class LabelRun:
    """Printed numbers that stand in a row or a column like the labels of an axis.

    ``along`` is the direction in which the numbers change; ``values`` are Hz or dB, ``at`` their positions along it
    and ``across`` the run's mean position across it, all in sheet pixels. ``scale`` is how they are spaced.
    """

    kind: Literal["frequency", "level"]
    along: Literal["x", "y"]
    scale: Literal["log", "equal", "linear"]
    values: tuple[float, ...]
    at: tuple[float, ...]
    across: float
    confidences: tuple[float, ...]
    text_height: float
    strays: int
    """Words that stand in the run's place but do not say what the run would have them say."""
    lean: float = 0.0
    """How far the labels step aside (right for a column, down for a row) for each pixel along; 0 where not told."""


@dataclass(frozen=True, slots=True)
class ChartArea:
    """A place that looks like a chart: its labels, and the region in which marks may stand (sheet pixels)."""

    frequency: LabelRun
    level: LabelRun
    more: tuple[LabelRun, ...]
    """Further label runs of the same chart, on its other sides."""
    box: tuple[float, float, float, float]
    goes_on: bool = False
    """Lines as high as the chart go on beyond the region, to labels that were not read."""
    cut_off: bool = False
    """Its lines go on beyond its labels to the edge of the sheet: a part of it is not on the sheet."""


@dataclass(frozen=True, slots=True)
class ArrowTip:
    """The tip of a no-response arrow: ``way`` is 0 for down-left, 1 for down-right, 2 for straight down.

    ``at`` is the tip and ``root`` where the mark is that it seems to hang from, in sheet pixels; ``score`` is the
    network's peak.
    """

    way: int
    at: tuple[float, float]
    root: tuple[float, float]
    score: float


@dataclass(frozen=True, slots=True)
class MarkSight:
    """Something that looks like a mark.

    ``at`` is the centre of the glyph's own box and ``size`` its width and height, in sheet pixels. ``score`` is the
    network's peak for the glyph, ``rivals`` other glyphs seen at the same place with their scores. ``red`` and
    ``blue`` are the shares of its ink in those colours, ``plain`` that of ink without colour, None where only the paths
    say what colour it has.
    """

    area: int
    glyph: Glyph
    at: tuple[float, float]
    size: tuple[float, float]
    score: float
    rivals: tuple[tuple[Glyph, float], ...]
    red: float
    blue: float
    arrows: tuple[float, float, float]
    """How well an arrow down-left, down-right and straight down is seen that hangs from this mark, 0 to 1."""
    tips: tuple[ArrowTip, ...] = ()
    """The tips of arrows whose root is nearer to this mark than to any that stands elsewhere."""
    apart: bool = False
    """Whether it was seen alone, as its own paths drew it: nothing else is in what was seen."""
    plain: float | None = None
    at_first: float | None = None
    """What the look at the whole chart gave its glyph, where a close look lowered or raised that to ``score``."""

    @property
    def striking(self) -> float:
        """How much something seems to be there, whatever it is: a close look that sees no mark leaves the ink."""
        return max(self.score, self.at_first or 0.0)

    @property
    def ink(self) -> Ink:
        """The colour that most of the mark's ink has."""
        if max(self.red, self.blue) < 0.5:
            return "neutral"
        return "red" if self.red > self.blue else "blue"


@dataclass(frozen=True, slots=True)
class KeyLine:
    """A specimen of a mark in the page's printed key, the words on its line, and its middle in sheet pixels."""

    glyph: Glyph
    ink: Ink
    text: str
    score: float
    at: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Sightings:
    """All that was seen on one sheet."""

    words: tuple[Word, ...]
    areas: tuple[ChartArea, ...]
    marks: tuple[MarkSight, ...]
    key: tuple[KeyLine, ...]
    chart_like: bool
    """Whether something on the sheet looks like a chart that is not among the areas."""
