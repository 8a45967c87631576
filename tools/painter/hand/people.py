"""The benchmark's writers: a few invented people whose hands nothing is trained on."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

import numpy as np

from ....interpret.symbols import Ink
from ..chart.chance import pick
from ..pen import Colour
from .filling import Filling, JoinHabit, Tool
from .nib import Nib
from .words.writing import Script
from .writer import Writer

PEOPLE: tuple[Writer, ...] = (
    # quick and round, leaning to the right
    Writer(0.07, 0.24, 0.05, 0.9, 0.04, 0.34, 0.05, 0.0, (-0.03, 0.14), -1.1, -1.0, (-0.35, 0.5), 0.07, 0.0, "hooked",
           "cap", "overrun", "round", "open", False, True, 0.0, 0.0),
    # neat and small, strokes apart
    Writer(0.04, 0.02, 0.03, 1.06, 0.025, 0.08, 0.02, 0.004, (-0.05, 0.04), -1.9, -1.0, (-0.15, 0.1), 0.04, 0.0, "two",
           "three", "four", "strokes", "tick", False, False, 0.0, 0.0, "halves"),
    # an old hand that trembles
    Writer(0.09, -0.1, 0.07, 1.0, 0.05, 0.2, 0.06, 0.024, (-0.06, 0.16), 2.6, 1.0, (-0.4, 0.6), 0.09, 0.08, "two",
           "three", "two", "hooked", "barb", False, True, 0.0, 0.0),
    # hasty, everything in one go
    Writer(0.11, 0.16, 0.09, 1.15, 0.07, 0.46, 0.08, 0.008, (-0.05, 0.22), -0.4, -1.0, (-0.6, 0.9), 0.1, 0.0, "loop",
           "base", "overrun", "parenthesis", "none", False, True, 0.0, 0.0),
    # upright and square
    Writer(0.05, -0.04, 0.04, 0.95, 0.03, 0.14, 0.03, 0.006, (-0.02, 0.18), 1.2, 1.0, (-0.1, 0.35), 0.05, 0.03, "two",
           "apex", "one", "hooked", "open", False, False, 0.0, 0.0, "halves"),
    # wide and bowed
    Writer(0.08, 0.1, 0.06, 1.22, 0.05, 0.38, 0.07, 0.01, (-0.04, 0.12), -2.8, -1.0, (-0.3, 0.4), 0.08, 0.0, "hooked",
           "base", "two", "round", "barb", False, True, 0.0, 0.0),
)  # fmt: skip
_NIBS: tuple[Nib, ...] = (
    Nib("ballpoint", 0.78, 0.22, 0.25, skips=0.08, fades=0.25),
    Nib("ballpoint", 0.95, 0.12, 0.1, fades=0.12),
    Nib("felt-tip", 1.55, 0.18, 0.05, blot=1.25, fades=0.05),
    Nib("fountain", 1.05, 0.25, 0.3, edge=0.55, edge_angle=-0.9),
    Nib("felt-tip", 2.05, 0.1, 0.05, blot=1.4, fades=0.0),
)
_RED: tuple[Colour, ...] = ((0.8, 0.1, 0.12), (0.87, 0.17, 0.2), (0.72, 0.06, 0.14))
_BLUE: tuple[Colour, ...] = ((0.1, 0.16, 0.55), (0.16, 0.24, 0.68), (0.13, 0.32, 0.66))
_DARK: tuple[Colour, ...] = ((0.09, 0.09, 0.11), (0.16, 0.16, 0.19))
Pens = Literal["two", "one"]


def _like(rng: np.random.Generator, person: Writer) -> Writer:
    """Give a person's hand on some day: much as ever."""
    day = rng.uniform(0.85, 1.18, 5)
    return replace(
        person,
        size=person.size * day[0],
        slant=person.slant + float(rng.normal(0, 0.03)),
        aspect=person.aspect * float(rng.uniform(0.95, 1.05)),
        sloppy=person.sloppy * day[1],
        haste=person.haste * day[2],
        bow=person.bow * day[3],
        tremor=person.tremor * day[4],
        bias_db=float(np.clip(rng.normal(0, 0.3), -0.6, 0.6)),
        bias_octaves=float(np.clip(rng.normal(0, 0.005), -0.01, 0.01)),
    )


def _tools(rng: np.random.Generator, pens: Pens, *, mono: bool) -> tuple[Tool, Tool, Tool]:
    nib = pick(rng, _NIBS, (0.35, 0.25, 0.18, 0.12, 0.1))
    plain = Tool(_NIBS[1], pick(rng, _DARK), "neutral")
    if pens == "two" and not mono:
        right, left = Tool(nib, pick(rng, _RED), "red"), Tool(nib, pick(rng, _BLUE), "blue")
        return right, left, pick(rng, (plain, left))
    how = pick(rng, ("black", "blue", "pencil"), (0.45, 0.35, 0.2))
    if how == "pencil":
        grey = float(rng.uniform(0.26, 0.42))
        only = Tool(Nib("pencil", float(rng.uniform(0.8, 1.2)), 0.25, 0.2, fades=0.4), (grey, grey, grey), "neutral")
    else:
        ink: Ink = "blue" if how == "blue" and not mono else "neutral"
        only = Tool(nib, pick(rng, _BLUE if ink == "blue" else _DARK), ink)
    return only, only, only


def a_filling(rng: np.random.Generator, pens: Pens, *, mono: bool) -> Filling:
    """Let one of the benchmark's people fill a form in.

    Marks miss their level by a normal deviation of 0.9 dB cut at 2 dB, and their frequency by at most 3 % of an octave.
    """
    number = int(rng.integers(len(PEOPLE)))
    right, left, dark = _tools(rng, pens, mono=mono)
    joins: tuple[tuple[JoinHabit, JoinHabit], ...] = (
        ("free", "free"), ("free", "dashed"), ("ruler", "ruler"), ("none", "none"),
    )  # fmt: skip
    return Filling(
        writer=_like(rng, PEOPLE[number]),
        script=Script(0.82 + 0.06 * number, 0.12 + 0.018 * number, 0.012 * (number - 2), number),
        right=right,
        left=left,
        dark=dark,
        one_pen=right is left,
        mark_pt=float(rng.uniform(10, 16)),
        beside=float(rng.uniform(0.14, 0.2)),
        joins=pick(rng, joins, (0.4, 0.2, 0.2, 0.2)),
        join_width=float(rng.uniform(0.65, 0.95)),
        joins_stop=bool(rng.random() < 0.2),
        join_miss=float(rng.uniform(0.02, 0.1)),
        wrong=0.08,
        scribbled=0.5,
    )
