"""Draw what stands over, across and beside a word on a chart: grid lines, frames, marks, joining lines, other words."""

from __future__ import annotations

from collections.abc import Callable

import cv2
import numpy as np
import numpy.typing as npt

Grey = npt.NDArray[np.uint8]
Box = npt.NDArray[np.float64]
Draw = Callable[[Grey, tuple[float, float], float, int, int], None]

SHIFT = 3
"""cv2 takes positions as whole numbers: these are eighths of a pixel."""


def _at(x: float, y: float) -> tuple[int, int]:
    return round(x * 2**SHIFT), round(y * 2**SHIFT)


def stroke(plane: Grey, a: tuple[float, float], b: tuple[float, float], tone: int, width: int) -> None:
    """Draw a straight line with soft edges."""
    cv2.line(plane, _at(*a), _at(*b), tone, width, cv2.LINE_AA, SHIFT)


def tone_between(rng: np.random.Generator, paper: int, ink: int, least: float) -> int:
    """Choose a grey at least so far from the paper towards the ink; often the ink itself."""
    part = 1.0 if rng.random() < 0.5 else rng.uniform(least, 1.0)
    return int(paper + (ink - paper) * part)


def _pen(rng: np.random.Generator, height: float) -> int:
    """Choose how wide a line is: most often a hair's breadth, at times as wide as a bold stroke."""
    return max(1, round(height * 0.025 * 8 ** rng.random()))


def line_across(plane: Grey, box: Box, paper: int, ink: int, rng: np.random.Generator, *, near: bool) -> None:
    """Draw a grid line, an axis or a frame: solid, dashed or dotted, through the word or close beside it."""
    high, wide = plane.shape
    height = box[3] - box[1]
    tone, width = tone_between(rng, paper, ink, 0.25), _pen(rng, height)
    upright = rng.random() < 0.55
    first, last = (box[0], box[2]) if upright else (box[1], box[3])
    if near:
        gap = rng.uniform(0.08, 0.7) * height
        places = [first - gap if rng.random() < 0.5 else last + gap]
    else:
        places = [rng.uniform(first - 0.1 * height, last + 0.1 * height)]
    if rng.random() < 0.15:  # a close grid, or a double line
        step = rng.uniform(0.15, 1.2) * height
        places += [places[0] + step, places[0] - step]
    pattern = _pattern(rng, height)
    length = high if upright else wide
    start = rng.uniform(0, length) if rng.random() < 0.15 else 0.0
    for at in places:
        for a, b in pattern(start, length):
            ends = ((at, a), (at, b)) if upright else ((a, at), (b, at))
            stroke(plane, *ends, tone, width)


def _pattern(rng: np.random.Generator, height: float) -> Callable[[float, float], list[tuple[float, float]]]:
    """Choose between a solid, a dashed and a dotted line: gives the pieces between two ends."""
    form = rng.random()
    if form < 0.6:
        return lambda start, end: [(start, end)]
    on = rng.uniform(0.2, 0.6) * height if form < 0.85 else 0.5
    off = rng.uniform(0.12, 0.4) * height
    return lambda start, end: [(float(a), float(a + on)) for a in np.arange(start, end, on + off)]


def _circle(plane: Grey, at: tuple[float, float], r: float, tone: int, width: int) -> None:
    cv2.circle(plane, _at(*at), round(r * 2**SHIFT), tone, width, cv2.LINE_AA, SHIFT)


def _cross(plane: Grey, at: tuple[float, float], r: float, tone: int, width: int) -> None:
    x, y = at
    stroke(plane, (x - r, y - r), (x + r, y + r), tone, width)
    stroke(plane, (x - r, y + r), (x + r, y - r), tone, width)


def _polygon(points: tuple[tuple[float, float], ...], *, closed: bool = True) -> Draw:
    def draw(plane: Grey, at: tuple[float, float], r: float, tone: int, width: int) -> None:
        corners = np.array([_at(at[0] + px * r, at[1] + py * r) for px, py in points], np.int32)
        cv2.polylines(plane, [corners], closed, tone, width, cv2.LINE_AA, SHIFT)

    return draw


def _arrow(plane: Grey, at: tuple[float, float], r: float, tone: int, width: int) -> None:
    x, y = at
    side = 1 if int(x) % 2 else -1
    tip = (x + side * 1.3 * r, y + 1.3 * r)
    stroke(plane, at, tip, tone, width)
    stroke(plane, tip, (tip[0] - side * 0.7 * r, tip[1]), tone, width)
    stroke(plane, tip, (tip[0], tip[1] - 0.7 * r), tone, width)


MARKS: tuple[Draw, ...] = (
    _circle, _circle, _cross, _cross, _arrow,
    _polygon(((-1, -1), (1, -1), (1, 1), (-1, 1))),
    _polygon(((0, -1), (1, 0.9), (-1, 0.9))),
    _polygon(((0, -1.1), (1.1, 0), (0, 1.1), (-1.1, 0))),
    _polygon(((0.4, -1), (-0.4, -1), (-0.4, 1), (0.4, 1)), closed=False),
    _polygon(((-0.4, -1), (0.4, -1), (0.4, 1), (-0.4, 1)), closed=False),
    _polygon(((0.7, -1), (-0.7, 0), (0.7, 1)), closed=False),
    _polygon(((-0.7, -1), (0.7, 0), (-0.7, 1)), closed=False),
)  # fmt: skip
"""Outlines of audiometric marks (trade practice, any of the usual symbol sets)."""
CIRCLES = 2
"""So many of them, the first, are circles."""


def mark_across(plane: Grey, box: Box, paper: int, ink: int, rng: np.random.Generator) -> None:
    """Draw a mark over the word or touching it; now and then a full spot, but a small one."""
    height = box[3] - box[1]
    at = (rng.uniform(box[0] - 0.5 * height, box[2] + 0.5 * height),
          rng.uniform(box[1] - 0.5 * height, box[3] + 0.5 * height))  # fmt: skip
    tone = tone_between(rng, paper, ink, 0.4)
    if rng.random() < 0.06:
        _circle(plane, at, rng.uniform(0.1, 0.28) * height, tone, -1)
        return
    mark = MARKS[int(rng.integers(len(MARKS)))]
    mark(plane, at, rng.uniform(0.35, 0.95) * height, tone, _pen(rng, 1.4 * height))


def join_across(plane: Grey, box: Box, paper: int, ink: int, rng: np.random.Generator) -> None:
    """Draw a line such as joins two marks, through or past the word."""
    x, y = rng.uniform(box[0], box[2]), rng.uniform(box[1], box[3])
    turn = rng.uniform(-1.3, 1.3)
    dx, dy = 400 * np.cos(turn), 400 * np.sin(turn)
    tone, height = tone_between(rng, paper, ink, 0.35), box[3] - box[1]
    if rng.random() < 0.75:
        stroke(plane, (x - dx, y - dy), (x + dx, y + dy), tone, _pen(rng, height))
        return
    for k in np.arange(-0.5, 0.5, 0.03):
        a, b = k, k + 0.018
        stroke(plane, (x + a * dx, y + a * dy), (x + b * dx, y + b * dy), tone, _pen(rng, height))


def cross_out(plane: Grey, box: Box, paper: int, ink: int, rng: np.random.Generator) -> None:
    """Draw one or two things over a word."""
    for _ in range(1 if rng.random() < 0.75 else 2):
        kind = rng.random()
        if kind < 0.45:
            line_across(plane, box, paper, ink, rng, near=False)
        elif kind < 0.85:
            mark_across(plane, box, paper, ink, rng)
        else:
            join_across(plane, box, paper, ink, rng)


def surround(plane: Grey, box: Box, paper: int, ink: int, rng: np.random.Generator) -> None:
    """Draw what stands near a word: ticks, the frame, grid lines."""
    height = box[3] - box[1]
    if rng.random() < 0.3:
        line_across(plane, box, paper, ink, rng, near=True)
    if rng.random() < 0.12:
        gap, length = rng.uniform(0.12, 0.6) * height, rng.uniform(0.2, 1.0) * height
        width = int(rng.integers(1, 4))
        if rng.random() < 0.5:
            y, sign = (box[1] + box[3]) / 2, 1 if rng.random() < 0.5 else -1
            x = box[2] + gap if sign > 0 else box[0] - gap
            stroke(plane, (x, y), (x + sign * length, y), ink, width)
        else:
            x, sign = (box[0] + box[2]) / 2, 1 if rng.random() < 0.5 else -1
            y = box[3] + gap if sign > 0 else box[1] - gap
            stroke(plane, (x, y), (x, y + sign * length), ink, width)
