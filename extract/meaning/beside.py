"""How far beside their lines the marks of bone conduction stand on a chart."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from statistics import median

import numpy as np
import numpy.typing as npt

from ...interpret.symbols import Glyph
from ..chart import FrequencyScale, Mark
from .frequencies import COMMON, SURE_FREQUENCY_MISS, Placed, place, places_of, side_of

Floats = npt.NDArray[np.float64]

LEAST_ASIDE, MOST_ASIDE = 0.35, 1.4
LEAST_ASIDE_OCTAVES, MOST_ASIDE_OCTAVES = 0.08, 0.25
"""How far outside another mark one stands that steps aside for it, in its sizes and in octaves: farther out may be the
next frequency."""
FEWEST_IN_ROW, AGREE = 3, 0.04
"""So many marks of one shape have a distance of their own from their lines, if they miss it by no more octaves."""
STEPS_DIFFER = 0.07
"""How much steps aside differ on one chart, in octaves."""
NEAR, FAR = tuple(np.arange(-0.06, 0.38, 0.01)), tuple(np.arange(0.38, 0.6, 0.01))
"""How far beside their lines marks stand on usual forms, and on narrow charts with large marks, in octaves."""
ACROSS = tuple(np.arange(-0.6, -0.06, 0.01))
"""How far on the other side they stand where `>` is the right ear's, which points at its line from the left."""
FAR_FOR_SURE, FAR_PERHAPS = 1.5, 0.3
"""By how many marks on common frequencies more a far distance, or one across the line, must suit all marks, to be taken
for theirs and to leave their frequencies open."""


@dataclass(frozen=True, slots=True)
class Beside:
    """How far marks stand beside their lines, in chart pixels.

    ``usual`` is the distance of most, ``own`` that of shapes which all stand elsewhere, and ``aside`` that of marks, by
    their places, which step aside for another of their side. ``perhaps`` is how far all may stand else.
    """

    usual: float
    own: Mapping[Glyph, float] = field(default_factory=dict)
    aside: Mapping[tuple[float, float], float] = field(default_factory=dict)
    perhaps: float | None = None

    def of(self, mark: Mark) -> float:
        """Give how far outward a mark stands from its line."""
        return self.aside.get(mark.sight.at, self.own.get(mark.sight.glyph, self.usual))

    def placed(self, mark: Mark, scale: FrequencyScale) -> Placed:
        """Give a mark its frequency, with no margin where all may stand elsewhere and it had another then."""
        found = place(mark, scale, self.of(mark))
        if self.perhaps is None or not side_of(mark.sight.glyph):
            return found
        other = place(mark, scale, self.perhaps)
        differs = other.frequency_hz != found.frequency_hz and other.miss_octaves < SURE_FREQUENCY_MISS
        return replace(found, margin=0.5) if differs else found


def beside_lines(marks: tuple[Mark, ...], scale: FrequencyScale) -> Beside:
    """Find how far marks stand beside their lines.

    Where two marks would lie on one another a hand sets the second farther out, the masked bone of an ear outside its
    unmasked one. Such a mark belongs to the frequency of the other, if all of them step aside by about as much. A
    shape may also stand farther out throughout.

    Parameters
    ----------
    marks : tuple of Mark
        A chart's marks.
    scale : FrequencyScale
        Its frequency axis.

    Returns
    -------
    Beside
        What the marks support together.
    """
    outer = {m.sight.at: inner for m in marks if (inner := _steps_aside_for(m, marks, scale))}
    free = tuple(m for m in marks if m.sight.at not in outer)
    usual, perhaps = _distances_beside(free, scale)
    beside = Beside(usual, _own_distances(free, scale, usual), perhaps=perhaps)
    steps = {
        m.sight.at: abs(m.x - inner.x)
        for m in marks
        if (inner := outer.get(m.sight.at)) and place(inner, scale, beside.of(inner)).miss_octaves < SURE_FREQUENCY_MISS
    }
    if not steps:
        return beside
    step = median(steps.values())
    aside = {m.sight.at: beside.of(outer[m.sight.at]) + step for m in marks if m.sight.at in steps}
    alike = (
        m
        for m in marks
        if m.sight.at in steps
        and abs(steps[m.sight.at] - step) < STEPS_DIFFER * scale.octave_px
        and place(m, scale, aside[m.sight.at]).miss_octaves < place(m, scale, beside.of(m)).miss_octaves
    )
    return replace(beside, aside={m.sight.at: aside[m.sight.at] for m in alike})


def _steps_aside_for(mark: Mark, marks: tuple[Mark, ...], scale: FrequencyScale) -> Mark | None:
    """Give the mark of its side, at about its level, just outside of which a mark stands."""
    side, size = side_of(mark.sight.glyph), max(mark.sight.size)
    least = min(LEAST_ASIDE * size, LEAST_ASIDE_OCTAVES * scale.octave_px)
    most = min(MOST_ASIDE * size, MOST_ASIDE_OCTAVES * scale.octave_px)
    return min(
        (
            o
            for o in marks
            if side == side_of(o.sight.glyph) != 0 and abs(o.y - mark.y) < size and least < side * (mark.x - o.x) < most
        ),
        key=lambda o: abs(o.x - mark.x),
        default=None,
    )


def _own_distances(marks: tuple[Mark, ...], scale: FrequencyScale, usual: float) -> dict[Glyph, float]:
    """Give the distances of shapes that agree on one of their own, where the usual one does not suit them."""
    own: dict[Glyph, float] = {}
    glyphs: dict[Glyph, None] = {m.sight.glyph: None for m in marks if side_of(m.sight.glyph)}
    for glyph in glyphs:
        row = tuple(m for m in marks if m.sight.glyph == glyph)
        found = distance_beside(row, scale)
        if len(row) >= FEWEST_IN_ROW and _miss(row, scale, found) < AGREE < SURE_FREQUENCY_MISS < _miss(
            row, scale, usual
        ):
            own[glyph] = found
    return own


def _miss(row: tuple[Mark, ...], scale: FrequencyScale, beside_px: float) -> float:
    """Give by how much marks miss their frequencies in the middle, so far beside the lines, in octaves."""
    return median(place(m, scale, beside_px).miss_octaves for m in row)


def distance_beside(marks: tuple[Mark, ...], scale: FrequencyScale) -> float:
    """Find how far from their lines the marks beside it stand, in pixels (0: on the line; the same for both sides)."""
    return _distances_beside(marks, scale)[0]


def _distances_beside(marks: tuple[Mark, ...], scale: FrequencyScale) -> tuple[float, float | None]:
    """Find how far from their lines marks stand, and how far else they may stand where that is open.

    On a narrow chart large marks stand half an octave out, where those of inter-octaves would be; so do those of a form
    that sets right and left ear's the other way round.
    """
    beside = [m for m in marks if side_of(m.sight.glyph)]
    if not beside:
        return 0.0, None
    places, octave = places_of(scale), scale.octave_px
    xs = np.array([x for _, x in places]) / octave
    worth = np.array([1.0 if hz in COMMON else 0.6 if hz in (750.0, 1500.0, 3000.0) else 0.25 for hz, _ in places])
    suits = _suits(beside, octave, xs, worth, (*NEAR, *FAR, *ACROSS))
    near, far = (max(some, key=lambda one: one[0]) for some in (suits[: len(NEAR)], suits[len(NEAR) :]))
    more = far[0] - near[0]
    if more > FAR_FOR_SURE:
        return far[1] * octave, None
    return near[1] * octave, far[1] * octave if more > FAR_PERHAPS else None


def _suits(
    beside: list[Mark], octave: float, xs: Floats, worth: Floats, shares: tuple[float, ...]
) -> list[tuple[float, float]]:
    """Say how well marks suit the frequencies if all stand so far beside their lines, in octaves: for each distance."""
    total, distances = np.zeros(len(shares)), np.array(shares)
    for mark in beside:
        x = mark.x / octave - side_of(mark.sight.glyph) * distances
        total += (np.exp(-(((xs - x[:, None]) / 0.03) ** 2)) * worth).max(axis=1) * mark.sight.score
    # single marks fit several distances: prefer what forms do, beside the line by an eighth of an octave or on it
    return [
        (suits + 0.12 * math.exp(-(((share - 0.14) / 0.08) ** 2)) + 0.08 * math.exp(-((share / 0.03) ** 2)), share)
        for suits, share in zip(total.tolist(), shares, strict=True)
    ]
