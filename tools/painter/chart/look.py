"""How a painted chart looks: lettering, ruling and strokes, as plain data that a form fills in."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..pen import BLACK, Colour

Dash = tuple[float, ...]
LabelForm = Literal["plain", "khz", "khz-bare", "khz-comma", "k", "K", "space", "comma"]
Process = Literal["stroke", "outline", "font", "polygon"]
ArrowHead = Literal["open", "filled", "half"]


@dataclass(frozen=True, slots=True)
class Lettering:
    """Words along the axes; sizes and gaps in points."""

    face: str
    size: float
    colour: Colour = BLACK
    label_form: LabelForm = "plain"
    frequency_side: Literal["above", "below", "both"] = "above"
    level_side: Literal["left", "right", "both"] = "left"
    gap: float = 4.0
    inter_labelled: bool = False
    inter_size: float = 0.8
    inter_row: bool = False
    """Inter-octave labels stand in a second row, further out."""
    level_every: int = 10
    frequency_caption: str | None = "Frequency (Hz)"
    level_caption: str | None = "Hearing level (dB HL)"
    caption_size: float = 8.0
    level_caption_turned: bool = True
    title: str | None = None
    title_face: str | None = None
    title_size: float = 10.0
    title_colour: Colour = BLACK


@dataclass(frozen=True, slots=True)
class Rule:
    """One kind of line; no line where its width is 0."""

    width: float
    colour: Colour = BLACK
    dash: Dash = ()


@dataclass(frozen=True, slots=True)
class Ruling:
    """The lines of a chart and what is shaded behind them; ``tick`` is the length of the ticks in points (0: none)."""

    octave: Rule
    inter: Rule
    level: Rule
    frame: Rule
    frame_sides: Literal["box", "axes", "none"] = "box"
    level_every: int = 10
    minor: Rule = Rule(0.0)
    zero: Rule = Rule(0.0)
    tick: float = 0.0
    ticks_inward: bool = False
    overhang: float = 0.0
    """How far the lines run past the frame, in points."""
    bands: tuple[tuple[float, float, Colour, str], ...] = ()
    """Shaded level bands: from, to, colour, and words written inside (or none)."""
    speech: Colour | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """Proportions of the glyphs, as shares of their height."""

    angle: float = 0.5
    bracket: float = 0.35
    cross: float = 0.95
    triangle: float = 1.05
    square: float = 0.92
    foot: float = 0.55
    half_filled: bool = False
    wedges_upright: bool = False
    sides: int = 24
    """Sides of a circle drawn as a polygon."""


@dataclass(frozen=True, slots=True)
class Strokes:
    """Marks and joining lines; ``height_db`` is a mark's height in dB of its own chart."""

    height_db: float = 8.0
    width: float = 1.0
    process: Process = "stroke"
    mark_face: str = "DejaVuSans"
    round_corners: bool = False
    white_inside: bool = False
    red: Colour = (0.85, 0.1, 0.1)
    blue: Colour = (0.1, 0.2, 0.8)
    neutral: Colour = BLACK
    one_ink: bool = False
    """Both ears in the neutral ink."""
    beside: float = 0.17
    """Distance of the centre of a bracket from its line, in octaves; 0 puts it on the line."""
    shape: Shape = field(default_factory=Shape)
    wobble_db: float = 0.0
    """Standard deviation of the misplacement of a mark drawn by hand."""
    shaky: float = 0.0
    """How far a hand strays within a mark, as a share of its height; 0 draws with a machine."""
    arrow_head: ArrowHead = "open"
    arrow_length: float = 1.0
    """Length of the arrow as a share of the mark's height."""
    arrow_slant: float = 1.0
    join: tuple[Rule | None, Rule | None] = (Rule(0.8), Rule(0.8, dash=(4.0, 3.0)))
    """Joining line of air marks of the right and the left ear; its colour is that of the ear."""
    bone_join: tuple[Rule | None, Rule | None] = (None, None)
    join_stops: bool = False
    """The joining line stops at the edge of a mark instead of running through."""
    join_over: bool = False
    """The joining line is drawn after the marks."""


@dataclass(frozen=True, slots=True)
class Look:
    """Everything about how one chart is drawn."""

    symbol_set: str
    lettering: Lettering
    ruling: Ruling
    strokes: Strokes
