"""Pens and pencils, and the ink that they leave along a hand's path."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
import numpy.typing as npt

from ....interpret.symbols import Ink
from ..chart.chance import pick
from ..pen import XY, Colour, Pen
from .motion import Path, Points, shares

NibKind = Literal["ballpoint", "felt-tip", "pencil", "fountain"]
Piece = tuple[Sequence[XY], Colour, float, Sequence[float]]
"""A poly-line, its colour, width and dashes."""
_STEP = 0.14
"""Widths of a line are drawn in steps of this much of their logarithm."""
_NO_INK = -99


@dataclass(frozen=True, slots=True)
class Nib:
    """What one pen does to paper.

    Attributes
    ----------
    kind : str
        Ballpoint, felt-tip, pencil or fountain pen.
    width : float
        Mean width of its line in points.
    yields : float
        How much wider a slow line is than a fast one.
    taper : float
        How much thinner strokes end than they are.
    skips : float
        The odds that the ink fails for a moment, per stroke.
    blot : float
        Width of the blot at the end of a stroke, as a share of the line's width; 0 for none.
    edge : float
        How much wider a fountain pen's line is across its edge.
    edge_angle : float
        Direction of that edge in radians.
    fades : float
        How much paler thin lines are, 0 to 1.
    """

    kind: NibKind
    width: float
    yields: float = 0.2
    taper: float = 0.2
    skips: float = 0.0
    blot: float = 0.0
    edge: float = 0.0
    edge_angle: float = -0.8
    fades: float = 0.1


@dataclass(frozen=True, slots=True, eq=False)
class Trail:
    """Ink along a path: points, shape (n, 2), the line's width at each, and where ink was left."""

    points: Points
    widths: npt.NDArray[np.float64]
    inked: npt.NDArray[np.bool_]
    filled: bool = False


def any_nib(rng: np.random.Generator, kind: NibKind | None = None) -> Nib:
    """Choose a pen: mostly a ballpoint."""
    kinds: tuple[NibKind, ...] = ("ballpoint", "felt-tip", "pencil", "fountain")
    kind = kind or pick(rng, kinds, (0.5, 0.2, 0.16, 0.14))
    if kind == "ballpoint":
        worn = float(rng.random())
        return Nib(
            kind,
            float(rng.uniform(0.55, 1.2)),
            float(rng.uniform(0.05, 0.35)),
            float(rng.uniform(0.05, 0.4)),
            skips=0.3 * max(worn - 0.4, 0.0),
            fades=float(rng.uniform(0.05, 0.4)),
        )
    if kind == "felt-tip":
        blot = float(rng.uniform(1.1, 1.6))
        return Nib(kind, float(rng.uniform(1.3, 2.9)), float(rng.uniform(0.05, 0.3)), 0.05, blot=blot, fades=0.05)
    if kind == "pencil":
        return Nib(kind, float(rng.uniform(0.6, 1.5)), float(rng.uniform(0.1, 0.4)), 0.3, fades=0.5)
    return Nib(
        kind,
        float(rng.uniform(0.8, 1.7)),
        float(rng.uniform(0.1, 0.4)),
        float(rng.uniform(0.1, 0.5)),
        edge=float(rng.uniform(0.2, 0.9)),
        edge_angle=float(rng.uniform(-1.2, -0.4)),
    )


_INKS: dict[str, tuple[Colour, ...]] = {
    "red": ((0.85, 0.12, 0.15), (0.75, 0.08, 0.12), (0.9, 0.2, 0.25), (0.8, 0.15, 0.3), (0.7, 0.1, 0.08)),
    "blue": ((0.12, 0.18, 0.6), (0.1, 0.15, 0.5), (0.2, 0.3, 0.75), (0.15, 0.35, 0.7), (0.25, 0.25, 0.65)),
    "neutral": ((0.1, 0.1, 0.12), (0.15, 0.15, 0.18), (0.05, 0.05, 0.08), (0.2, 0.2, 0.22)),
}


def any_colour(rng: np.random.Generator, ink: Ink, nib: Nib) -> Colour:
    """Choose the colour of a red, blue or dark pen; a coloured pencil is paler, a plain one grey."""
    red, green, blue = pick(rng, _INKS[ink])
    pale = 0.0
    if nib.kind == "pencil":
        pale = float(rng.uniform(0.2, 0.45) if ink == "neutral" else rng.uniform(0.0, 0.3))
    off = rng.uniform(-0.04, 0.04, 3)
    r, g, b = (float(np.clip(v + pale * (1 - v) + d, 0, 1)) for v, d in zip((red, green, blue), off, strict=True))
    return (r, r, r) if ink == "neutral" and nib.kind == "pencil" else (r, g, b)


def inked(path: Path, nib: Nib, rng: np.random.Generator) -> Trail:
    """Leave the ink of a pen along a path whose points are in points of the page."""
    count = len(path.points)
    along = shares(count)
    widths = np.exp(-nib.yields * np.minimum(path.speed - 1, 2))
    if nib.edge:
        steps = np.gradient(path.points, axis=0)
        turn = np.arctan2(steps[:, 1], steps[:, 0]) - nib.edge_angle
        widths *= 1 - nib.edge / 2 + nib.edge * np.abs(np.sin(turn))
    start, end = rng.uniform(0, nib.taper, 2)
    widths *= 1 - start * np.maximum(1 - along / 0.15, 0) - end * np.maximum((along - 0.75) / 0.25, 0)
    left = np.ones(count, bool)
    if nib.skips and rng.random() < nib.skips:
        from_, reach = rng.uniform(0.05, 0.85), rng.uniform(0.04, 0.16)
        left = (along < from_) | (along > from_ + reach)
    return Trail(path.points, np.maximum(nib.width * widths, 0.25), left, path.filled)


def extent(trails: Sequence[Trail]) -> tuple[float, float, float, float]:
    """Give left, top, right and bottom of the ink of some trails."""
    points = np.concatenate([t.points[t.inked] for t in trails])
    half = np.concatenate([t.widths[t.inked] for t in trails])[:, None] / 2
    low, high = (points - half).min(axis=0), (points + half).max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def shifted(trail: Trail, by: tuple[float, float]) -> Trail:
    """Move a trail."""
    return Trail(trail.points + np.array(by), trail.widths, trail.inked, trail.filled)


def draw_trail(pen: Pen, trail: Trail, nib: Nib, colour: Colour, rng: np.random.Generator) -> None:
    """Draw a trail on the page, as round-ended pieces of equal width."""
    if trail.filled:
        pen.path([(float(x), float(y)) for x, y in trail.points], None, closed=True, fill=colour)
        return
    levels = np.round(np.log(trail.widths / nib.width) / _STEP).astype(int)
    levels[~trail.inked] = _NO_INK
    bounds = [0, *(np.flatnonzero(np.diff(levels)) + 1).tolist(), len(levels)]
    points: list[XY] = trail.points.tolist()
    pieces: list[Piece] = []
    for first, last in pairwise(bounds):
        level = int(levels[first])
        run = points[first : last + 1]
        if level != _NO_INK and len(run) > 1:
            tone = _paler(colour, nib.fades * min(max(-level * _STEP, 0.0), 1.0))
            pieces.append((run, tone, nib.width * math.exp(level * _STEP), ()))
    if nib.kind == "pencil":
        pieces = [grain for piece in pieces for grain in _grains(piece, rng)]
    if pieces:
        pen.runs(pieces)
    if nib.blot:
        x, y = points[-1] if rng.random() < 0.7 else points[0]
        pen.runs([([(x, y), (x + 0.01, y)], colour, nib.width * nib.blot, ())])


def _grains(piece: Piece, rng: np.random.Generator) -> list[Piece]:
    """Make a line one of graphite: a pale band, and darker grains where it caught the paper."""
    run, colour, width, _ = piece
    pieces: list[Piece] = [(run, _paler(colour, 0.35), width, ())]
    for dash in rng.uniform(0.3, 1.6, (2, 6)).tolist():
        dx, dy = rng.normal(0, 0.22 * width, 2).tolist()
        tone = _paler(colour, float(rng.uniform(-0.1, 0.15)))
        pieces.append(([(x + dx, y + dy) for x, y in run], tone, width * 0.45, dash))
    return pieces


def _paler(colour: Colour, share: float) -> Colour:
    red, green, blue = colour
    # not below black: a darker grain has a negative share
    return max(red + share * (1 - red), 0.0), max(green + share * (1 - green), 0.0), max(blue + share * (1 - blue), 0.0)
