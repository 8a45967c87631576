"""How a stranger's hand writes for `drawn_by_pens`: a pen tip that a spring pulls after what was meant.

Written apart from the painter's hand and by another model: what is meant is a line of corners, a point runs along it,
and the tip follows as a damped mass does. A stiff hand is neat; a slack one rounds corners and swings past them.
Lengths are shares of a mark's height, its middle near (0, 0), y downwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal

import numpy as np
import numpy.typing as npt
from cases import pick
from scipy.signal import lfilter

Numbers = npt.NDArray[np.float64]
Shape = Literal["circle", "cross", "triangle", "square", "angle", "bracket"]

PACE = 0.012
"""How far the point that is followed moves in one moment."""
LETTERS: dict[str, tuple[tuple[tuple[float, float], ...], ...]] = {
    "0": (((0, -0.5), (-0.3, -0.1), (-0.2, 0.45), (0.25, 0.35), (0.3, -0.2), (0, -0.5)),),
    "1": (((-0.15, -0.3), (0.05, -0.5), (0.0, 0.5)),),
    "2": (((-0.28, -0.3), (0, -0.5), (0.27, -0.25), (-0.3, 0.48), (0.32, 0.45)),),
    "3": (((-0.25, -0.42), (0.22, -0.4), (-0.05, -0.05), (0.28, 0.2), (0, 0.5), (-0.28, 0.38)),),
    "4": (((0.05, -0.5), (-0.3, 0.15), (0.32, 0.12)), ((0.15, -0.15), (0.1, 0.5))),
    "5": (((-0.2, -0.48), (-0.25, -0.05), (0.22, 0.0), (0.15, 0.45), (-0.28, 0.42)), ((-0.2, -0.48), (0.28, -0.5))),
    "6": (((0.2, -0.5), (-0.25, 0.1), (0, 0.5), (0.25, 0.2), (-0.2, 0.12)),),
    "7": (((-0.28, -0.46), (0.28, -0.48), (-0.05, 0.5)),),
    "8": (((0.2, -0.35), (-0.2, -0.4), (0.25, 0.3), (-0.25, 0.35), (0.22, -0.35)),),
    "9": (((0.25, -0.35), (-0.2, -0.4), (-0.15, 0.0), (0.25, -0.3), (0.2, 0.5)),),
    "A": (((-0.35, 0.5), (0, -0.5), (0.35, 0.5)), ((-0.2, 0.15), (0.22, 0.12))),
    "B": (((-0.25, -0.5), (-0.25, 0.5)), ((-0.25, -0.48), (0.25, -0.3), (-0.2, 0.0), (0.28, 0.28), (-0.25, 0.5))),
    "C": (((0.28, -0.35), (-0.1, -0.5), (-0.3, 0.1), (0.0, 0.5), (0.3, 0.35)),),
    "D": (((-0.25, -0.5), (-0.25, 0.5)), ((-0.27, -0.48), (0.3, -0.15), (0.25, 0.3), (-0.27, 0.5))),
    "E": (((0.25, -0.48), (-0.25, -0.46), (-0.25, 0.5), (0.28, 0.46)), ((-0.25, 0), (0.18, -0.02))),
    "H": (((-0.28, -0.5), (-0.28, 0.5)), ((0.28, -0.5), (0.28, 0.5)), ((-0.28, 0.02), (0.28, -0.02))),
    "I": (((0, -0.5), (0.02, 0.5)),),
    "K": (((-0.25, -0.5), (-0.25, 0.5)), ((0.28, -0.48), (-0.22, 0.05), (0.3, 0.5))),
    "L": (((-0.22, -0.5), (-0.22, 0.48), (0.28, 0.46)),),
    "M": (((-0.38, 0.5), (-0.32, -0.5), (0, 0.2), (0.34, -0.5), (0.38, 0.5)),),
    "N": (((-0.3, 0.5), (-0.28, -0.5), (0.28, 0.48), (0.3, -0.5)),),
    "O": ((*((-0.36 * sin(t / 2), -0.5 * cos(t / 2)) for t in range(14)),),),
    "R": (((-0.25, -0.5), (-0.25, 0.5)), ((-0.27, -0.46), (0.25, -0.3), (-0.2, 0.03), (0.3, 0.5))),
    "S": (((0.27, -0.38), (-0.1, -0.5), (-0.22, -0.18), (0.22, 0.15), (0.1, 0.5), (-0.28, 0.38)),),
    "T": (((-0.32, -0.48), (0.32, -0.5)), ((0, -0.48), (0.0, 0.5))),
    "U": (((-0.28, -0.5), (-0.25, 0.3), (0.1, 0.5), (0.28, 0.2), (0.3, -0.5)),),
    "V": (((-0.32, -0.5), (0.0, 0.5), (0.32, -0.5)),),
    "X": (((-0.32, -0.5), (0.32, 0.5)), ((0.32, -0.5), (-0.32, 0.5))),
    "-": (((-0.25, 0.05), (0.25, 0.0)),),
    "?": (((-0.25, -0.3), (0.05, -0.5), (0.25, -0.25), (0.0, 0.1), (0.0, 0.2)), ((0.0, 0.46), (0.01, 0.5))),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hand:
    """One person's habits.

    ``stiff`` is how hard the tip is pulled after the meant point (12 slack, 60 neat) and ``damped`` how little it
    swings (1: not at all); ``careless`` how far corners are missed, ``bias_db`` where its marks stand on the average.
    """

    stiff: float
    damped: float
    careless: float
    lean: float
    wide: float
    sizes: float
    trembles: float
    loop: Literal["closed", "open", "tail", "twice"]
    cross: Literal["straight", "bowed", "linked"]
    triangle: Literal["one", "roof", "round"]
    square: Literal["one", "hooks", "open"]
    bracket: Literal["straight", "short-foot", "arc", "wavy"]
    angle: Literal["straight", "bow", "long"]
    flick: Literal["bare", "hook", "barbs"]
    bias_db: float


def any_hand(rng: np.random.Generator) -> Hand:
    """Invent a person, from neat to careless."""
    wild = float(rng.beta(1.4, 1.6))
    return Hand(
        stiff=60 - 44 * wild * float(rng.uniform(0.6, 1.1)),
        damped=float(rng.uniform(0.5, 1.0)),
        careless=0.015 + 0.07 * wild,
        lean=float(rng.normal(0.06, 0.13)),
        wide=float(rng.uniform(0.8, 1.25)),
        sizes=0.04 + 0.09 * wild,
        trembles=float(pick(rng, (0.0, 0.0, 0.006, 0.015))),
        loop=pick(rng, ("closed", "closed", "open", "tail", "twice")),
        cross=pick(rng, ("straight", "straight", "straight", "bowed", "linked")),
        triangle=pick(rng, ("one", "roof", "round")),
        square=pick(rng, ("one", "hooks", "open")),
        bracket=pick(rng, ("straight", "straight", "straight", "short-foot", "arc", "wavy")),
        angle=pick(rng, ("straight", "straight", "straight", "bow", "long")),
        flick=pick(rng, ("bare", "hook", "barbs", "barbs")),
        bias_db=float(np.clip(rng.normal(0, 0.35), -0.7, 0.7)),
    )


def mark(shape: Shape, hand: Hand, rng: np.random.Generator, *, side: int = 1, filled: bool = False) -> list[Numbers]:
    """Give the strokes of one mark, its box's middle at (0, 0); ``side`` is 1 for shapes that open to the right."""
    meant = _meant(shape, hand, rng, side)
    if filled:
        meant.append(_hatch(shape, rng))
    turn = float(rng.normal(0, 0.03 + hand.careless))
    matrix = np.array([[hand.wide, -hand.lean], [0, 1]]) @ np.array([[cos(turn), -sin(turn)], [sin(turn), cos(turn)]])
    strokes = [followed(points, hand, rng) @ matrix.T for points in meant]
    every = np.vstack(strokes)
    middle = (every.min(axis=0) + every.max(axis=0)) / 2
    return [stroke - middle for stroke in strokes]


def _meant(shape: Shape, hand: Hand, rng: np.random.Generator, side: int) -> list[Numbers]:
    if shape == "circle":
        return _loop(hand, rng)
    e = hand.careless
    if shape == "cross":
        one, two = [(-0.48, -0.5), (0.48, 0.5)], [(0.48, -0.5), (-0.48, 0.5)]
        if hand.cross == "linked":
            return [_missed([*one, (0.6, 0.3), (0.6, -0.25), *two], e, rng)]
        bend = 0.14 if hand.cross == "bowed" else 0.0
        return [_missed([a, (bow, 0.0), b], e, rng) for (a, b), bow in ((one, bend), (two, -bend))]
    if shape == "triangle":
        left, top, right = (-0.52, 0.45), (0.0, -0.5), (0.52, 0.45)
        if hand.triangle == "roof":
            return [_missed([left, top, right], e, rng), _missed([(-0.6, 0.45), (0.58, 0.43)], e, rng)]
        return [_missed([top, left, right, (0.05, -0.48)], e * (1.5 if hand.triangle == "round" else 1), rng)]
    if shape == "square":
        a, b, c, d = (-0.46, -0.46), (0.46, -0.46), (0.46, 0.46), (-0.46, 0.46)
        if hand.square == "hooks":
            return [_missed([a, d, c], e, rng), _missed([a, b, c], e, rng)]
        end = (-0.3, -0.44) if hand.square == "open" else (-0.48, -0.47)
        return [_missed([a, d, c, b, end], e, rng)]
    points = _angle(hand, rng) if shape == "angle" else _bracket(hand, rng)
    return [_missed([(side * x, y) for x, y in points], e, rng)]


def _loop(hand: Hand, rng: np.random.Generator) -> list[Numbers]:
    start, way = float(rng.normal(-1.6, 0.5)), 1 if rng.random() < 0.25 else -1
    over = {"closed": 0.15, "open": -0.5, "tail": 0.1, "twice": 2.6}[hand.loop] + float(
        rng.normal(0, 3 * hand.careless)
    )
    turns = np.linspace(0, 2 * pi + over, 60)
    egg, phase = float(rng.normal(0, 1.2 * hand.careless)), float(rng.uniform(0, 6))
    radius = 0.5 * (1 + egg * np.cos(2 * turns + phase)) + float(rng.normal(0, hand.careless)) * turns / 6
    loop = np.stack([radius * np.cos(start + way * turns), radius * np.sin(start + way * turns)], axis=1)
    if hand.loop == "tail":  # comes in from above, as a 6 does
        loop = np.vstack([loop[:1] + np.array([0.12, -0.3]) * float(rng.uniform(0.4, 1)), loop])
    return [loop]


def _angle(hand: Hand, rng: np.random.Generator) -> list[tuple[float, float]]:
    deep = float(rng.uniform(0.24, 0.36))
    if hand.angle == "bow":
        return [(deep * (1 - 1.7 * (1 - t * t)), t / 2) for t in np.linspace(-1, 1, 9)]
    legs = 1.25 if hand.angle == "long" else 1.0
    return [(deep * legs, -0.5), (-deep, float(rng.normal(0, 0.05))), (deep * legs, 0.5)]


def _bracket(hand: Hand, rng: np.random.Generator) -> list[tuple[float, float]]:
    arm = float(rng.uniform(0.24, 0.4))
    if hand.bracket == "arc":
        return [(arm * (0.5 - (1 - t**4)), t / 2) for t in np.linspace(-1, 1, 11)]
    foot = 0.35 * arm if hand.bracket == "short-foot" else arm
    droop = 0.1 if hand.bracket == "wavy" else 0.0
    return [(arm / 2, -0.5 + droop), (-arm / 2, -0.5), (-arm / 2, 0.5), (-arm / 2 + foot, 0.5 - droop)]


def _missed(points: Sequence[tuple[float, float]], careless: float, rng: np.random.Generator) -> Numbers:
    return np.array(points, float) + rng.normal(0, careless, (len(points), 2))


def _hatch(shape: Shape, rng: np.random.Generator) -> Numbers:
    """Go to and fro inside a shape; of a cross through the wedges at its sides (BSA 2018)."""
    along = np.linspace(-0.4, 0.4, 9)
    half = {"circle": np.sqrt(0.25 - along**2), "cross": np.abs(along)}.get(shape, np.full(9, 0.4))
    points = np.array([(way * w, v) for v, w in zip(along, half, strict=True) for way in (-1, 1)])
    return (points[:, ::-1] if shape == "cross" else points) + rng.normal(0, 0.02, points.shape)


def followed(points: Numbers, hand: Hand, rng: np.random.Generator) -> Numbers:
    """Give the path of a tip that a spring pulls after a point running along a meant line, shape (n, 2)."""
    lengths = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0], np.cumsum(lengths)])
    steps = np.arange(0, along[-1] + PACE, PACE)
    aims = np.stack([np.interp(steps, along, points[:, i]) for i in (0, 1)], axis=1)
    aims = np.vstack([aims, np.repeat(aims[-1:], int(rng.uniform(0.5, 2.5) / hand.stiff / PACE) + 1, axis=0)])
    # a damped spring in small steps is a filter of two poles
    keeps, pull = 1 - 2 * hand.damped * hand.stiff * PACE, (hand.stiff * PACE) ** 2
    out = aims[0] + lfilter([0, pull], [1, pull - keeps - 1, keeps], aims - aims[0], axis=0)
    if hand.trembles:
        turns = np.linspace(0, 2 * pi * len(out) * PACE * 6, len(out))
        out = out + hand.trembles * np.stack([np.sin(turns + rng.uniform(0, 6)), np.cos(1.3 * turns)], axis=1)
    return out


def word(text: str, hand: Hand, rng: np.random.Generator) -> list[Numbers]:
    """Give the strokes of a word a height high that starts at (0, 0)."""
    out: list[Numbers] = []
    x = 0.0
    for letter in text:
        for points in LETTERS.get(letter, ()):
            drawn = followed(_missed(points, 0.5 * hand.careless, rng), hand, rng)
            out.append(drawn @ np.array([[0.9, 0], [-hand.lean, 1]]) + (x, float(rng.normal(0, 0.04))))
        x += 0.8 + float(rng.normal(0, 0.05))
    return out
