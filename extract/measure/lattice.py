"""Find how the printed grid lines lie, stretch by stretch, and fit a smooth bend to them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ..chart import Bend, FrequencyScale, LevelScale, bent_by
from ..page import Pixels
from ..shades import darkest_of, plain_of
from .framed import as_terms, framed
from .keystone import keystone
from .profiles import STRETCHES, Found, Profile, beside_more, pieces_of, stretches_of

REACH_DB = 2.3
"""How far from its labels' place a level line is looked for; forms with lines every 5 dB allow no more."""

MOST_SPREAD = 0.12
"""Places that spread more than this share of the reach around their fit are no lines but marks, text and noise."""
CAP = 90
"""Ink darker than this, where paper is at 0 and black at 255, counts no more."""
PAPER_PX = 8
"""Paper is the brightest of the squares of so many pixels within two of them."""

PULL = 0.09
"""How strongly a fit is drawn toward no bend, in places of lines."""
AGAIN_DB = 1.0
"""Lines more than so many decibels from where they were looked for are looked for once more, where they were found."""

Box = tuple[float, float, float, float]
Leaning = tuple[tuple[float, ...], tuple[float, ...]]
"""The coefficients ``across`` and ``down`` of a bend that the labels alone tell."""
UPRIGHT: Leaning = ((0.0,) * 6, (0.0,) * 6)

WELL_COVERED = 0.5
"""Where fewer of the level lines' pieces are found, the sheet may lie in perspective."""
LEAST_COVER = 0.3
"""Where a lean that the ink suggests makes fewer pieces of lines agree, it is chance."""
MOST_AT_LABELS_DB = 1.2
MOST_AT_LABELS_OCTAVES = 0.06
"""So is one after which the lines lie farther from their labels: it fits the lines between them, or sides of marks."""
LEAST_NEAR = 0.3
"""The share of that which is allowed of hardly any lines: labels themselves stand some 0.3 dB beside them."""


def fit_bend(
    pixels: Pixels,
    box: Box,
    frequency: FrequencyScale,
    level: LevelScale,
    leaning: Leaning = UPRIGHT,
    held_at: tuple[float, float] | None = None,
    *,
    may_turn: bool = True,
) -> Bend:
    """Fit the bend of a chart's lattice.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8
        The sheet.
    box : tuple of float
        Region of the chart in sheet pixels (left, top, right, bottom).
    frequency, level : FrequencyScale, LevelScale
        The axes as fitted to the labels.
    leaning : Leaning
        How the lines lean by the labels alone: that is where they are looked for first.
    held_at : tuple of float, optional
        Where the level labels stand across and the frequencies' down the sheet: there lines are at their labels.
    may_turn : bool
        Whether the sheet may lie in perspective; a drawn page does not.

    Returns
    -------
    Bend
        Where too few lines are found (a chart without a grid), what the labels tell.
    """
    import cv2

    # only the chart's own region: the lines are looked for along and across it
    x0, y0, x1, y1 = (int(v) for v in box)
    frame = (max(x0 - 8, 0), max(y0 - 8, 0))
    plain = plain_of(pixels)
    ink = _ink((pixels if plain is None else plain)[frame[1] : y1 + 9, frame[0] : x1 + 9])
    low, high = level.printed
    rows = [level.zero_px + level.px_per_db * v for v in np.arange(np.ceil(low / 10) * 10, high + 1, 10)]
    columns = [x for _, x in frequency.anchors]
    span = columns[0], columns[-1]
    fall = level.zero_px + level.px_per_db * low, level.zero_px + level.px_per_db * high
    held = held_at or (span[0], fall[0])
    reach = REACH_DB * level.px_per_db
    gap = min((b - a for a, b in pairwise(columns)), default=4 * reach)
    near = MOST_AT_LABELS_DB * level.px_per_db, MOST_AT_LABELS_OCTAVES * frequency.octave_px
    levels = _Lines(
        pieces_of(ink, span, frame), rows, frame[1], reach, held[0], box, near[0], upright=False, may_turn=may_turn
    )
    pieces = pieces_of(np.asarray(cv2.transpose(ink), np.uint8), fall, (frame[1], frame[0]))
    reach = min(reach, 0.3 * gap)
    uprights = _Lines(pieces, columns, frame[0], reach, held[1], box, min(near), upright=True, may_turn=may_turn)
    down, across = levels.bent(leaning[1], level.px_per_db), uprights.bent(leaning[0], level.px_per_db)
    return Bend(box, across.terms, down.terms, down.count + across.count, down.rms, down.cover)


@dataclass(frozen=True, slots=True)
class _Fit:
    """The terms of a bend in one direction, and the pieces of lines that agree with it."""

    terms: tuple[float, ...]
    count: int
    rms: float
    cover: float


@dataclass(frozen=True, slots=True)
class _Lines:
    """The level lines of a chart, or its upright ones, with the chart turned on its side."""

    pieces: list[tuple[float, Profile]]
    """Where a piece of the chart is along the lines, and how dark it is across them."""
    rows: list[float]
    """Where the lines are by their labels."""
    corner: float
    """Where the profiles begin."""
    reach: float
    held: float
    """Where the labels stand along the lines."""
    box: Box
    near_labels: float
    """How far from their labels lines may lie of which few are found."""
    upright: bool
    may_turn: bool
    """Whether the sheet may lie in perspective."""

    def bent(self, leaning: tuple[float, ...], decibel: float) -> _Fit:
        """Fit the bend, from where the labels have the lines or from where most of their ink is."""
        found = self._fit(leaning)
        if found.cover < WELL_COVERED and self.may_turn:
            turned = self._turned(leaning, decibel)
            other = self._fit(turned) if turned != leaning else found
            close = self._at_labels(other) < MOST_AT_LABELS_DB * decibel
            found = other if close and other.cover > max(found.cover, LEAST_COVER) else found
        # lines that lie far from where they were looked for lie farther still where the sheet goes on
        far = max(abs(a - b) for a, b in zip(found.terms, leaning, strict=True)) > AGAIN_DB * decibel
        found = self._fit(found.terms) if found.cover > LEAST_COVER and far else found
        # the frame may stand so close beside the outermost lines that it is taken for them
        frame = self._frame(found)
        found = self._fit(leaning, frame) if frame else found
        # where a chart has no such lines, the sides of its marks look like a few, all as far off: the fewer, the nearer
        near = self.near_labels * max(found.cover / LEAST_COVER, LEAST_NEAR)
        astray = found.cover < LEAST_COVER and self._from_labels(found) > near
        few = astray or found.count == 0
        as_framed = few and self.may_turn and not self.upright
        return _Fit(self._as_framed(leaning) if as_framed else leaning, 0, 0.0, found.cover) if few else found

    def _as_framed(self, leaning: tuple[float, ...]) -> tuple[float, ...]:
        """Bend level lines as the frame does, where one is found."""
        if not self.pieces:
            return leaning
        at = np.array([place for place, _ in self.pieces])
        expected = np.array([[r + self._off(leaning, a, r) for r in self.rows] for a in at])
        profiles = np.stack([beside_more(profile) for _, profile in self.pieces])
        course = framed(profiles, at - self.held, expected - self.corner)
        return leaning if course is None else as_terms(course, self.box, self.held, self.corner)

    def _at_labels(self, found: _Fit) -> float:
        """Give how far the lines lie from their labels, on the mean, in pixels."""
        return abs(sum(self._off(found.terms, self.held, row) for row in self.rows)) / len(self.rows)

    def _from_labels(self, found: _Fit) -> float:
        """Give how far each line lies from its label, on the mean: a frame's sides may lie beyond both ends."""
        return sum(abs(self._off(found.terms, self.held, row)) for row in self.rows) / len(self.rows)

    def _frame(self, found: _Fit) -> list[float]:
        """Give the upright lines that lie too far out from their labels: the first, or the last."""
        if not self.upright:
            return []
        outward = ((self.rows[0], -1), (self.rows[-1], 1))
        return [row for row, way in outward if way * self._off(found.terms, self.held, row) > self.near_labels]

    def _off(self, terms: tuple[float, ...], along: float, row: float) -> float:
        return bent_by(terms, self.box, *((row, along) if self.upright else (along, row)))

    def _fit(self, first: tuple[float, ...], without: Sequence[float] = ()) -> _Fit:
        """Look for the lines where a bend has them, and fit anew."""
        rows = [row for row in self.rows if row not in without]
        found = stretches_of(self.pieces, rows, self.reach, self.corner, lambda x, row: self._off(first, x, row))
        places = [(row, x, off) for x, row, off in found] if self.upright else found
        terms, count, rms = _fit(places, self.box, len(self.rows), self.reach)
        bent = tuple(a + b for a, b in zip(first, terms, strict=True))
        return _Fit(bent, count, rms, count / (len(self.rows) * STRETCHES))

    def _turned(self, first: tuple[float, ...], decibel: float) -> tuple[float, ...]:
        """Turn a bend farther, as most of the ink that runs along the lines says."""
        if not self.pieces:
            return first
        profiles = np.stack([beside_more(profile) for _, profile in self.pieces])
        at, rows = np.array([x for x, _ in self.pieces]), np.array(self.rows)
        expected = np.array([[row + self._off(first, x, row) - self.corner for row in self.rows] for x in at])
        slopes = keystone(profiles, at, rows, expected, self.held, decibel)
        if slopes == (0.0, 0.0):
            return first
        left, top, right, bottom = self.box
        middles, halves = ((left + right) / 2, (top + bottom) / 2), ((right - left) / 2, (bottom - top) / 2)
        (x, row), (wide, high) = (middles[::-1], halves[::-1]) if self.upright else (middles, halves)
        growth = (slopes[1] - slopes[0]) / (rows[-1] - rows[0])
        slope, away = slopes[0] + growth * (row - rows[0]), x - self.held
        along, over, both = wide * slope, away * growth * high, wide * growth * high
        more = (away * slope, over, along, both) if self.upright else (away * slope, along, over, both)
        return tuple(float(a + b) for a, b in zip(first, (*more, 0.0, 0.0), strict=True))


def _ink(pixels: Pixels) -> Pixels:
    """How much darker than the paper around it a pixel is, in its darkest channel or its one, (height, width), uint8.

    It is capped: strong, short ink (marks, joins) must not outweigh a faint line through the piece. It is a share of
    the paper's own brightness: all of a photo in warm or little light is darker than that.
    """
    import cv2

    darkest = darkest_of(pixels)
    height, width = darkest.shape
    small = cv2.resize(darkest, (max(width // PAPER_PX, 1), max(height // PAPER_PX, 1)), interpolation=cv2.INTER_AREA)
    paper = cv2.blur(cv2.dilate(small, np.ones((5, 5), np.uint8)), (3, 3))
    paper = cv2.resize(np.maximum(paper, 1), (width, height), interpolation=cv2.INTER_LINEAR)
    lit = cv2.divide(darkest, paper, scale=255)
    return np.asarray(np.minimum(cv2.bitwise_not(lit, dst=lit), CAP), np.uint8)


def _fit(found: Found, box: Box, lines: int, reach: float) -> tuple[tuple[float, ...], int, float]:
    """Fit a polynomial of the place to the misses, robustly; few stretches allow fewer terms."""
    zero = (0.0,) * 6
    if len(found) < 6:
        return zero, 0, 0.0
    x, y, miss = (np.array(v) for v in zip(*found, strict=True))
    u = (2 * x - box[0] - box[2]) / (box[2] - box[0])
    v = (2 * y - box[1] - box[3]) / (box[3] - box[1])
    terms = np.stack([np.ones_like(u), u, v, u * v, u * u, v * v], axis=1)
    count = 1 if len(found) < 12 or lines < 3 else 4 if len(found) < 30 else 6
    terms = terms[:, :count]
    weight = np.ones(len(miss))
    fit, rest, scale = np.zeros(count), np.abs(miss), 1.0
    for _ in range(12):
        weighed = terms.T * weight
        # a slight pull toward no bend keeps stretches from being thrown about by a handful of strays
        fit = np.linalg.solve(weighed @ terms + PULL * np.eye(count), weighed @ miss)
        rest = np.abs(miss - terms @ fit)
        scale = max(0.5, 1.5 * float(np.median(rest)))
        weight = 1 / (1 + (rest / scale) ** 2) ** 2
    inside = rest < 3 * scale
    if inside.sum() < 0.5 * len(found):
        return zero, 0, 0.0
    rms = float(np.sqrt(np.mean(rest[inside] ** 2)))
    if rms > max(0.7, MOST_SPREAD * reach):
        return zero, 0, 0.0
    return tuple(float(f) for f in fit) + (0.0,) * (6 - count), int(inside.sum()), rms
