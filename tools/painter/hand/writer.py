"""One person's hand: the habits that all marks of a page share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..chart.chance import pick

CircleHabit = Literal["loop", "halves"]
CrossHabit = Literal["two", "loop", "loop-left", "foot", "eight", "upright", "hooked"]
TriangleHabit = Literal["apex", "base", "cap", "three"]
SquareHabit = Literal["one", "two", "four", "overrun"]
BracketHabit = Literal["square", "round", "parenthesis", "strokes", "hooked"]
ArrowHabit = Literal["none", "barb", "open", "tick"]


@dataclass(frozen=True, slots=True)
class Writer:
    """Habits of a hand; lengths are shares of a mark's height, angles in radians.

    Attributes
    ----------
    size : float
        How much the size of marks varies: standard deviation of its logarithm.
    slant, tilt, aspect : float
        How far the hand leans, by how much marks are turned (standard deviation), and how wide they are.
    sloppy : float
        How far corners miss their places.
    haste : float
        How early the hand turns at corners, 0 to 0.75: corners become curves.
    bow : float
        How far straight strokes bend.
    tremor : float
        How far the hand trembles.
    overshoot : tuple of float
        By how much strokes fall short (negative) or run on.
    loop_start, loop_way, loop_gap, loop_egg : float, float, tuple of float, float
        Where circles begin and which way they go (1 clockwise), between what angles they stay open (negative) or run
        on, and how far they are from round.
    twice : float
        The odds that a mark is gone over a second time.
    cross, triangle, square, bracket, arrow, circle : str
        The order and number of strokes. The last of each but the arrow's is left to the benchmark's writers.
    curved_angles : bool
        Angles are bows.
    hatched : bool
        Filled marks are hatched, not blackened.
    arrow_gap : float
        How far arrows begin from their mark's ink, at most.
    bias_db, bias_octaves : float
        Where the hand sets its marks, on the average, off their lines.
    """

    size: float
    slant: float
    tilt: float
    aspect: float
    sloppy: float
    haste: float
    bow: float
    tremor: float
    overshoot: tuple[float, float]
    loop_start: float
    loop_way: float
    loop_gap: tuple[float, float]
    loop_egg: float
    twice: float
    cross: CrossHabit
    triangle: TriangleHabit
    square: SquareHabit
    bracket: BracketHabit
    arrow: ArrowHabit
    curved_angles: bool
    hatched: bool
    bias_db: float
    bias_octaves: float
    circle: CircleHabit = "loop"
    arrow_gap: float = 0.0


def any_writer(rng: np.random.Generator) -> Writer:
    """Invent a writer, from neat to hasty."""
    wild = float(rng.uniform(0, 1)) ** 1.2
    brackets: tuple[BracketHabit, ...] = ("square", "round", "parenthesis", "strokes")
    crosses: tuple[CrossHabit, ...] = ("two", "foot", "eight", "loop", "loop-left", "upright")
    bracket = pick(rng, brackets, (0.45, 0.2, 0.2, 0.15))
    return Writer(
        size=0.05 + 0.1 * wild,
        slant=float(rng.normal(0.08, 0.14)),
        tilt=0.03 + 0.08 * wild,
        aspect=float(np.clip(rng.normal(1, 0.12), 0.72, 1.35)),
        sloppy=0.02 + 0.075 * wild,
        haste=float(np.clip(0.1 + 0.5 * wild * rng.uniform(0.4, 1.3), 0.05, 0.65)),
        bow=0.02 + 0.08 * wild * float(rng.uniform(0.4, 1)),
        tremor=float(rng.choice((0.0, 0.004, 0.012, 0.03), p=(0.3, 0.35, 0.25, 0.1))),
        overshoot=(-0.03 - 0.08 * wild, 0.05 + 0.22 * wild),
        loop_start=float(rng.choice((-1.6, -2.2, -0.8, 1.6, 3.0), p=(0.4, 0.2, 0.2, 0.1, 0.1))),
        loop_way=-1.0 if rng.random() < 0.7 else 1.0,
        loop_gap=(-0.1 - 0.6 * wild, 0.15 + 0.8 * wild),
        loop_egg=0.03 + 0.1 * wild,
        twice=float(rng.choice((0.0, 0.04, 0.2), p=(0.6, 0.3, 0.1))),
        cross=pick(rng, crosses, (0.74, 0.04, 0.03, 0.07, 0.05, 0.07)),
        triangle=pick(rng, ("apex", "base", "cap"), (0.45, 0.25, 0.3)),
        square=pick(rng, ("one", "two", "four"), (0.55, 0.3, 0.15)),
        bracket=bracket,
        arrow=pick(rng, ("none", "barb", "open", "tick"), (0.12, 0.2, 0.5, 0.18)),
        curved_angles=bool(rng.random() < 0.25) and bracket not in ("parenthesis", "round"),
        hatched=bool(rng.random() < 0.5),
        bias_db=float(np.clip(rng.normal(0, 0.35), -0.7, 0.7)),
        bias_octaves=float(np.clip(rng.normal(0, 0.006), -0.012, 0.012)),
        arrow_gap=max(0.0, 0.5 * wild - 0.15),
    )
