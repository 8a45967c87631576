"""A writer's hand: how one person draws the strokes of marks, from page to page different, on one page alike."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from numpy.random import Generator

from ..pen import XY
from .glyphs import Part
from .look import Writer


def any_writer(rng: Generator) -> Writer:
    """Invent a writer, from tidy to hasty."""
    haste = float(rng.uniform(0, 1)) ** 1.3
    return Writer(
        sloppy=0.02 + 0.09 * haste,
        bow=0.02 + 0.07 * haste * float(rng.uniform(0.5, 1)),
        round_corners=float(rng.uniform(0, 0.7)) * haste + 0.1,
        gap=(-0.15 - 0.5 * haste, 0.15 + 0.6 * haste),
        overshoot=(-0.04 - 0.06 * haste, 0.08 + 0.22 * haste),
        slant=float(rng.normal(0, 0.12)),
        aspect=float(np.clip(rng.normal(1, 0.1), 0.75, 1.3)),
        start=float(rng.uniform(-2.6, -0.8)),
        size=0.04 + 0.1 * haste,
        tremor=float(rng.uniform(0, 0.012)),
        pressure=float(rng.uniform(0, 0.35)),
    )


def hand_drawn(parts: list[Part], height: float, writer: Writer, rng: Generator) -> list[Part]:
    """Draw the parts of one mark by hand; points in the unit of ``parts``, round (0, 0)."""
    scale = float(np.exp(rng.normal(0, writer.size)))
    rounded = rng.random() < writer.round_corners
    turn = float(rng.normal(0, 0.05 + writer.sloppy))
    cos, sin = math.cos(turn), math.sin(turn)
    matrix = np.array([[cos, -sin], [sin, cos]]) @ np.array([[writer.aspect, -writer.slant], [0.0, 1.0]]) * scale
    drawn = []
    for part in parts:
        points = _loop(part, height, writer, rng) if part.radius else _strokes(part, height, writer, rng, rounded)
        points = points @ matrix.T + rng.normal(0, writer.tremor * height, points.shape)
        drawn.append(Part(tuple((float(x), float(y)) for x, y in points), closed=part.filled, filled=part.filled))
    return drawn


def _loop(part: Part, height: float, writer: Writer, rng: Generator) -> np.ndarray:
    """Draw a round: it begins where the writer begins, and rarely ends there."""
    start = writer.start + float(rng.normal(0, 0.25))
    way = 1.0 if rng.random() < 0.3 else -1.0
    sweep = 2 * math.pi + float(rng.uniform(*writer.gap))
    turns = np.linspace(0, 1, 30)
    angle = start + way * sweep * turns
    lobes = rng.normal(0, writer.sloppy * height * 0.5, 4)
    radius = part.radius + lobes[0] * np.cos(2 * angle + lobes[1]) + lobes[2] * np.cos(3 * angle + lobes[3])
    radius += float(rng.normal(0, writer.sloppy * height)) * turns
    squeeze = float(np.exp(rng.normal(0, writer.sloppy * 1.2)))
    return np.stack([radius * np.cos(angle) * squeeze, radius * np.sin(angle) / squeeze], axis=1)


def _strokes(part: Part, height: float, writer: Writer, rng: Generator, rounded: bool) -> np.ndarray:
    """Draw a poly-line: corners miss, ends run over or fall short, straight strokes bend."""
    corners = np.array(part.points, float)
    letter = len(corners) > 6  # a letter's curve is one sweep, not a chain of strokes
    stray = writer.sloppy * height * (0.35 if letter else 1.0)
    corners = corners + rng.normal(0, stray, corners.shape)
    if part.closed:
        corners = np.vstack([corners, corners[:1] + rng.normal(0, 1.5 * stray, 2)])
    if not letter:
        for end, before in ((0, 1), (-1, -2)):
            along = corners[end] - corners[before]
            length = max(float(np.hypot(*along)), 1e-6)
            more = float(rng.uniform(*writer.overshoot)) * height
            corners[end] = corners[end] + along / length * max(more, -0.3 * length)
    if rounded and len(corners) > 2 and not letter:
        corners = _cut(_cut(corners))
    points = [corners[0]]
    for a, b in pairwise(corners):
        bow = 0.0 if letter or rounded else float(rng.normal(0, writer.bow)) * 0.5
        across = np.array([a[1] - b[1], b[0] - a[0]])
        points += [a + (b - a) * t + across * bow * 4 * t * (1 - t) for t in (0.25, 0.5, 0.75, 1.0)]
    return np.array(points)


def _cut(corners: np.ndarray) -> np.ndarray:
    """Cut every corner off (Chaikin's scheme), the ends stay."""
    inner = [p for a, b in pairwise(corners) for p in (0.75 * a + 0.25 * b, 0.25 * a + 0.75 * b)]
    return np.vstack([corners[:1], *[p[None] for p in inner], corners[-1:]])


def widths(count: int, width: float, writer: Writer, rng: Generator) -> np.ndarray:
    """Give the width of a line at ``count`` points along it: pressure falls and rises, and lifts at the end."""
    phase, waves = rng.uniform(0, 2 * math.pi), rng.uniform(0.5, 1.5)
    along = np.linspace(0, 1, count)
    swing = 1 + writer.pressure * np.sin(phase + 2 * math.pi * waves * along)
    lift = 1 - writer.pressure * np.clip((along - 0.8) / 0.2, 0, 1)
    return width * swing * lift


def joined(line: list[XY], writer: Writer, unit: float, rng: Generator) -> list[XY]:
    """Draw a joining line by hand: each stretch bends a little, and misses its marks' centres; ``unit`` in points."""
    points = [np.array(p) + rng.normal(0, writer.sloppy * unit * 1.5, 2) for p in line]
    out = [points[0]]
    for a, b in pairwise(points):
        across = np.array([a[1] - b[1], b[0] - a[0]])
        bow = float(np.clip(rng.normal(0, 0.015 + 0.25 * writer.bow), -0.06, 0.06))
        out += [a + (b - a) * t + across * bow * 4 * t * (1 - t) for t in (0.2, 0.4, 0.6, 0.8, 1.0)]
    return [(float(x), float(y)) for x, y in out]
