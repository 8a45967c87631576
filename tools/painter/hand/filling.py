"""Who fills a form in, with which pens, and how well marks hit their place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ....interpret.record import Ear
from ....interpret.symbols import Ink
from ..chart.axes import Axes
from ..chart.chance import pick
from ..pen import Colour, Pen
from .nib import Nib, any_colour, any_nib
from .words.writing import Script, any_script
from .writer import Writer, any_writer

JoinHabit = Literal["none", "free", "ruler", "dashed"]
Wear = Callable[[Pen, tuple[float, float, float, float], np.random.Generator], None]
"""Wears the printed form out, inside a box in points."""


@dataclass(frozen=True, slots=True)
class Tool:
    """A pen in hand: its nib, its colour, and what that colour is to a reader."""

    nib: Nib
    colour: Colour
    ink: Ink


@dataclass(frozen=True, slots=True)
class Filling:
    """How one form is filled in.

    Attributes
    ----------
    writer, script : Writer, Script
        Whose hand.
    right, left, dark : Tool
        The pens for the right ear, the left ear, and for all else; one and the same where ``one_pen``.
    one_pen : bool
        The colour names no ear.
    mark_pt : float
        Height of a mark in points; on a small chart it is at most 11 dB.
    sd_db, cut_db : float
        Standard deviation of the level's error, and the most that it may be with the writer's bias.
    sd_octaves, cut_octaves : float
        The same along the frequencies.
    beside : float
        Distance of bone marks from their line, in octaves.
    joins : tuple of str
        How the right and the left ear's marks are joined.
    join_width : float
        Width of the joining lines as a share of that of the marks.
    joins_stop, joins_first : bool
        Joining lines end at the marks, and are drawn before them.
    join_miss : float
        How far joining lines miss the marks' middles, as a share of a mark's height.
    wrong : float
        How often marks were set wrong and struck out: up to four, each with these odds.
    scribbled : float
        The odds that a wrong mark is scribbled over rather than struck through.
    wear : callable or None
        What wear has done to the printed form.
    """

    writer: Writer
    script: Script
    right: Tool
    left: Tool
    dark: Tool
    one_pen: bool
    mark_pt: float
    sd_db: float = 0.9
    cut_db: float = 2.0
    sd_octaves: float = 0.013
    cut_octaves: float = 0.03
    beside: float = 0.17
    joins: tuple[JoinHabit, JoinHabit] = ("free", "free")
    join_width: float = 0.8
    joins_stop: bool = False
    joins_first: bool = False
    join_miss: float = 0.06
    wrong: float = 0.0
    scribbled: float = 0.4
    wear: Wear | None = None

    def tool(self, ear: Ear) -> Tool:
        """Give the pen for an ear's marks."""
        return {"right": self.right, "left": self.left}.get(ear, self.dark)

    def height(self, axes: Axes) -> float:
        """Give the height of a mark on a chart, in points."""
        return min(max(self.mark_pt, 4.5 * axes.db_pt), 11 * axes.db_pt)

    def aim(self, rng: np.random.Generator) -> tuple[float, float]:
        """Give how far one mark goes astray: dB and octaves."""
        return (
            _within(rng, self.writer.bias_db, self.sd_db, self.cut_db),
            _within(rng, self.writer.bias_octaves, self.sd_octaves, self.cut_octaves),
        )


def _within(rng: np.random.Generator, bias: float, spread: float, cut: float) -> float:
    """Draw from a normal distribution until the value is within the cut."""
    while True:
        value = bias + float(rng.normal(0, spread))
        if abs(value) <= cut:
            return value


def any_tools(rng: np.random.Generator, *, one_pen: bool, mono: bool) -> tuple[Tool, Tool, Tool]:
    """Choose the pens for the right ear, the left ear and all else."""
    nib = any_nib(rng)
    if mono or one_pen:
        ink: Ink = "neutral" if mono else pick(rng, ("neutral", "blue", "red"), (0.62, 0.35, 0.03))
        tool = Tool(nib, any_colour(rng, ink, nib), ink)
        return tool, tool, tool
    other = nib if rng.random() < 0.7 else any_nib(rng)
    right, left = Tool(nib, any_colour(rng, "red", nib), "red"), Tool(other, any_colour(rng, "blue", other), "blue")
    plain = any_nib(rng, "ballpoint")
    dark = pick(rng, (Tool(plain, any_colour(rng, "neutral", plain), "neutral"), left, right), (0.5, 0.4, 0.1))
    return right, left, dark


def any_filling(
    rng: np.random.Generator, *, mono: bool, one_pen: float = 0.4, wear: Wear | None = None, wrong: float = 0.1
) -> Filling:
    """Invent how a training form is filled in; ``one_pen`` gives the odds that one pen did it all."""
    single = mono or bool(rng.random() < one_pen)
    right, left, dark = any_tools(rng, one_pen=single, mono=mono)
    habits: tuple[JoinHabit, ...] = ("none", "free", "ruler", "dashed")
    habit = pick(rng, habits, (0.2, 0.45, 0.2, 0.15))
    other = habit if rng.random() < 0.6 or habit == "none" else pick(rng, ("free", "dashed", "ruler"))
    return Filling(
        writer=any_writer(rng),
        script=any_script(rng),
        right=right,
        left=left,
        dark=dark,
        one_pen=single,
        mark_pt=float(rng.uniform(8, 19)),
        sd_db=float(rng.uniform(0, 1.3)),
        sd_octaves=float(rng.uniform(0.0, 0.03)),
        cut_octaves=0.05,
        beside=float(rng.uniform(0.1, 0.24)),
        joins=(habit, other),
        join_width=float(rng.uniform(0.55, 1.1)),
        joins_stop=bool(rng.random() < 0.25),
        joins_first=bool(rng.random() < 0.2),
        join_miss=float(rng.uniform(0, 0.16)),
        wrong=wrong,
        scribbled=float(rng.uniform(0, 1)),
        wear=wear,
    )
