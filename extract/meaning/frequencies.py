"""Give each mark its audiometric frequency: those on the line by nearness, those beside it by their common distance."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...interpret.symbols import Glyph
from ..chart import FrequencyScale, Mark
from ..eyes.words.numbers import STANDARD_HZ

LEFT_OF_LINE: frozenset[Glyph] = frozenset({"angle-left", "bracket-left", "half-bracket-right"})
RIGHT_OF_LINE: frozenset[Glyph] = frozenset({"angle-right", "bracket-right", "half-bracket-left"})
HALF_WAY = {187.5: (125, 250), 375.0: (250, 500), 750.0: (500, 1000), 1500.0: (1000, 2000), 3000.0: (2000, 4000),
            6000.0: (4000, 8000), 12000.0: (8000, 16000)}  # fmt: skip
COMMON = frozenset({250.0, 500.0, 1000.0, 2000.0, 4000.0})
SELDOM = frozenset(
    {187.5, 375.0, 5000.0, 9000.0, 10000.0, 11200.0, 12000.0, 12500.0, 14000.0, 16000.0, 18000.0, 20000.0}
)
"""Frequencies that count only where the chart prints them: marks there are rare, and near neighbours mislead."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A mark's frequency, how far it stands from that frequency's place in octaves, and how near the next one is.

    ``margin`` is the distance to the second-best frequency over the distance to the best and second together, 0.5
    where both are equally near and 1 where the mark stands exactly.
    """

    frequency_hz: float
    miss_octaves: float
    margin: float


def places_of(scale: FrequencyScale) -> list[tuple[float, float]]:
    """List every frequency with each place where it may stand, in chart pixels; some have two (true and half way)."""
    printed = dict(scale.anchors)
    low, high = min(printed), max(printed)
    places = [(hz, x) for hz, x in scale.anchors]
    for hz in STANDARD_HZ:
        if hz in printed or hz in SELDOM:
            continue
        if low / 2.1 <= hz <= high * 2.1:
            places.append((hz, scale.x_of(hz)))
        neighbours = HALF_WAY.get(hz)
        if neighbours and all(n in printed for n in neighbours):
            places.append((hz, (printed[neighbours[0]] + printed[neighbours[1]]) / 2))
    return sorted(places, key=lambda place: place[1])


def side_of(glyph: Glyph) -> int:
    """Give -1 for a glyph that may stand left of its line, 1 for one right of it, else 0."""
    return -1 if glyph in LEFT_OF_LINE else 1 if glyph in RIGHT_OF_LINE else 0


def distance_beside(marks: tuple[Mark, ...], scale: FrequencyScale) -> float:
    """Find how far from their lines the marks beside it stand, in pixels (0: on the line; the same for both sides)."""
    beside = [m for m in marks if side_of(m.sight.glyph)]
    if not beside:
        return 0.0
    places = places_of(scale)
    xs = np.array([x for _, x in places])
    worth = np.array([1.0 if hz in COMMON else 0.6 if hz in (750.0, 1500.0, 3000.0) else 0.25 for hz, _ in places])
    octave = scale.octave_px
    best, best_worth = 0.0, -1.0
    for share in np.arange(-0.06, 0.38, 0.01):
        total = 0.0
        for mark in beside:
            x = mark.x - side_of(mark.sight.glyph) * share * octave
            near = np.exp(-(((xs - x) / (0.03 * octave)) ** 2)) * worth
            total += float(near.max()) * mark.sight.score
        # single marks fit several distances: prefer what forms do, beside the line by an eighth of an octave or on it
        prior = 0.12 * math.exp(-(((share - 0.14) / 0.08) ** 2)) + 0.08 * math.exp(-((share / 0.03) ** 2))
        if total + prior > best_worth:
            best, best_worth = share * octave, total + prior
    return best


def place(mark: Mark, scale: FrequencyScale, beside_px: float) -> Placed:
    """Give a mark the nearest frequency."""
    x = mark.x - side_of(mark.sight.glyph) * beside_px
    nearest: dict[float, float] = {}
    for hz, at in places_of(scale):
        nearest[hz] = min(nearest.get(hz, math.inf), abs(x - at))
    ranked = sorted(nearest.items(), key=lambda item: item[1])
    (hz, miss), (_, second) = ranked[0], ranked[1]
    return Placed(hz, miss / scale.octave_px, second / max(miss + second, 1e-9))
