"""The account of all ink: find ink of a mark's size that is neither line, mark, arrow, join, word nor shading."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median

import numpy as np
import numpy.typing as npt

from ..chart import Bend, FrequencyScale, LevelScale, Unexplained
from ..page import Pixels, Word
from ..sightings import MarkSight
from .plot import MARK_PX, Box, Ink, Place, Plot, as_ink, darkness, mean_ink, plot_of, window_sum, without_lines

FEWEST_MARKS = 3
"""So many clear marks show how large, dark and heavy marks are on a chart."""
CLEAR = 0.45
TOLD = 0.16
"""Score from which a peak explains the ink at its place: ``meaning`` speaks of it itself."""
ARROW = 0.3
ARROW_SLOPES = (
    tuple((-x, 1.0) for x in (0.4, 0.6, 0.8, 1.0, 1.25, 1.6)), tuple((x, 1.0) for x in (0.4, 0.6, 0.8, 1.0, 1.25, 1.6)),
    ((-0.2, 1.0), (0.0, 1.0), (0.2, 1.0)),
)  # fmt: skip
"""Ways in which an arrow down-left, down-right or straight down may point: right and down."""
ARROW_REACH = 2.6
"""How far from its mark's centre an arrow may end, in marks."""
ARROW_GAP = 0.35
"""The longest break within an arrow, and between it and its mark's box, in marks."""
LEAST_MASS = 0.4
"""Share of a typical mark's ink that has a mark's weight."""
WINDOW = round(1.2 * MARK_PX) | 1
THIN = 0.09 * MARK_PX
"""A standard deviation of ink across its long axis below this is a stroke's, not a mark's, in pixels."""
JOIN_COVER = 0.55
JOIN_BESIDE = 0.4
"""Share of the way between two marks that must have ink for a join, and that may have ink beside it."""
BESIDE_PX = 6.0
JOIN_PX = 5
OCTAVES_BESIDE = 0.3
"""How far beyond the outermost printed frequencies a mark may stand."""
DB_BEYOND = 4.0
MOST = 8


@dataclass(frozen=True, slots=True)
class Axes:
    """A chart's axes and how its paper lies."""

    frequency: FrequencyScale
    level: LevelScale
    bend: Bend


def unexplained_ink(
    pixels: Pixels, words: tuple[Word, ...], sights: tuple[MarkSight, ...], box: Box, axes: Axes
) -> tuple[Unexplained, ...]:
    """Account for the ink of one chart.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    words : tuple of Word
        All words of the sheet.
    sights : tuple of MarkSight
        What was seen on this chart, weak peaks included.
    box : tuple of float
        The chart's region in sheet pixels.
    axes : Axes
        Its axes.

    Returns
    -------
    tuple of Unexplained
        Ink about as large and as heavy as a mark. Empty where fewer than three marks show what a mark weighs here, or
        where the chart is so full of specks that a mark would not stand out.
    """
    clear = [s for s in sights if s.score >= CLEAR]
    if len(clear) < FEWEST_MARKS:
        return ()
    plot = plot_of(pixels, box, axes.bend, MARK_PX / median(max(s.size) for s in clear))
    dark = darkness(plot.pixels)
    of_mark = _mark_darkness(dark, plot, clear)
    if of_mark < 8:
        return ()
    told = [s for s in sights if s.score >= TOLD]
    explained = np.zeros(dark.shape, np.uint8)
    _explain_marks(explained, plot, told)
    _explain_words(explained, plot, words)
    ink = without_lines(as_ink(dark, of_mark), explained)
    typical = _typical_mass(ink, plot, clear)
    if typical < MARK_PX:
        return ()
    free = explained == 0
    _explain_joins(explained, ink, free, [plot.of_sheet(*s.at) for s in told])
    _explain_arrows(explained, ink, plot, told)
    rest = np.where(explained > 0, np.float32(0), ink)
    return _found(plot, rest, axes, typical)


def _mark_darkness(dark: Pixels, plot: Plot, clear: list[MarkSight]) -> float:
    """Give how dark the strokes of a typical mark are."""
    found = []
    for sight in clear:
        x, y = (round(v) for v in plot.of_sheet(*sight.at))
        part = dark[max(y - 11, 0) : max(y + 12, 1), max(x - 11, 0) : max(x + 12, 1)]
        if part.size:
            found.append(float(np.percentile(part, 88)))
    return median(found) if found else 0.0


def _typical_mass(ink: Ink, plot: Plot, clear: list[MarkSight]) -> float:
    """Give how much ink a mark has in its box; marks that overlap others have more and are the heavier ones."""
    found = []
    for sight in clear:
        x, y = plot.of_sheet(*sight.at)
        wide, high = (0.5 * side * plot.scale + 1 for side in sight.size)
        part = ink[max(round(y - high), 0) : round(y + high) + 1, max(round(x - wide), 0) : round(x + wide) + 1]
        found.append(float(part.sum()))
    return float(np.percentile(found, 40))


def _explain_marks(explained: Pixels, plot: Plot, told: list[MarkSight]) -> None:
    """Mark off the boxes of what was seen, and the sectors in which arrows hang from it."""
    import cv2

    for sight in told:
        x, y = plot.of_sheet(*sight.at)
        wide, high = (0.5 * 1.15 * side * plot.scale + 1.5 for side in sight.size)
        corners = (round(x - wide), round(y - high)), (round(x + wide), round(y + high))
        cv2.rectangle(explained, *corners, 255, -1)


def _explain_arrows(explained: Pixels, ink: Ink, plot: Plot, told: list[MarkSight]) -> None:
    """Mark off the arrows that were seen: the way of most ink from the mark on, as far as the ink goes."""
    import cv2

    thick = cv2.dilate(ink, np.ones((3, 3), np.uint8)) > 0
    for sight in told:
        at = np.array(plot.of_sheet(*sight.at))
        size = max(sight.size) * plot.scale
        out = np.arange(0.5 * size, ARROW_REACH * size)
        for score, slopes in zip(sight.arrows, ARROW_SLOPES, strict=True):
            if score <= ARROW:
                continue
            best, tip, way = 0.0, 0.0, np.zeros(2)
            for slope in slopes:
                unit = np.array(slope) / math.hypot(*slope)
                there = thick[_inside(at[1] + out * unit[1], thick.shape[0]), _inside(at[0] + out * unit[0], thick.shape[1])]
                inked = out[there]
                if not len(inked) or inked[0] > (0.75 + ARROW_GAP) * size:
                    continue
                breaks = np.flatnonzero(np.diff(inked) > ARROW_GAP * size)
                end = float(inked[breaks[0]] if len(breaks) else inked[-1])
                filled = float((inked <= end).sum())
                if filled > best:
                    best, tip, way = filled, end, unit
            if best:
                start, end = (tuple(int(v) for v in np.rint(at + d * way)) for d in (0.4 * size, tip))
                cv2.line(explained, start, end, (255,), 7)
                cv2.circle(explained, end, round(0.35 * size), (255,), -1)


def _inside(values: npt.NDArray[np.float64], length: int) -> npt.NDArray[np.intp]:
    """Round positions to pixels, those outside to the nearest."""
    return np.rint(values).astype(np.intp).clip(0, length - 1)


def _explain_words(explained: Pixels, plot: Plot, words: tuple[Word, ...]) -> None:
    """Mark off words; a single sign may be a mark taken for a letter."""
    import cv2

    for word in words:
        if len(word.text.strip()) < 2:
            continue
        (x0, y0), (x1, y1) = plot.of_sheet(*word.box[:2]), plot.of_sheet(*word.box[2:])
        cv2.rectangle(explained, (round(x0) - 2, round(y0) - 2), (round(x1) + 2, round(y1) + 2), 255, -1)


def _explain_joins(explained: Pixels, ink: Ink, free: npt.NDArray[np.bool_], places: list[Place]) -> None:
    """Mark off the straight strips between marks along which most of the way, and little beside it, has ink."""
    import cv2

    if len(places) < 2:
        return
    at = np.array(places)
    thick = cv2.dilate(ink, np.ones((3, 3), np.uint8)) > 0
    first, second = np.triu_indices(len(at), 1)
    start, way = at[first], at[second] - at[first]
    long = np.hypot(way[:, 0], way[:, 1])
    fits = (long > MARK_PX) & (np.abs(way[:, 0]) > 0.4 * MARK_PX) & (np.abs(way[:, 0]) < 0.45 * ink.shape[1])
    start, way, long = start[fits], way[fits], long[fits]
    covers = []
    normal = np.stack([-way[:, 1], way[:, 0]], axis=1) / long[:, None]
    part = np.linspace(0, 1, 41)
    for beside in (0.0, -BESIDE_PX, BESIDE_PX):
        x = _inside(start[:, :1] + beside * normal[:, :1] + way[:, :1] * part, ink.shape[1])
        y = _inside(start[:, 1:] + beside * normal[:, 1:] + way[:, 1:] * part, ink.shape[0])
        known = free[y, x]
        covers.append((thick[y, x] & known).sum(axis=1) / np.maximum(known.sum(axis=1), 4))
    line = (covers[0] >= JOIN_COVER) & (np.maximum(covers[1], covers[2]) < JOIN_BESIDE)
    for i in np.flatnonzero(line):
        a, b = (tuple(int(v) for v in np.rint(p)) for p in (start[i], start[i] + way[i]))
        cv2.line(explained, a, b, (255,), JOIN_PX)


def _found(plot: Plot, rest: Ink, axes: Axes, typical: float) -> tuple[Unexplained, ...]:
    """Find the heaviest places of what is left."""
    import cv2

    left, right, top, bottom = _region(plot, axes)
    mass = window_sum(rest, WINDOW)
    inner = mass[top:bottom, left:right]
    if not inner.size:
        return ()
    limit = max(LEAST_MASS, 3 * float(np.percentile(inner, 75)) / typical)
    if limit > 1:
        return ()
    peak = (inner >= limit * typical) & (inner >= cv2.dilate(inner, np.ones((WINDOW, WINDOW), np.uint8)))
    found: list[tuple[float, Place, Ink]] = []
    for row, column in sorted(map(tuple, np.argwhere(peak)), key=lambda p: -inner[p]):
        at = (float(column + left), float(row + top))
        if all(math.dist(at, other) > WINDOW for _, other, _ in found):
            found.append((float(inner[row, column]) / typical, at, rest))
    seen = [_described(plot, axes, rest, at, m) for m, at, _ in found[:MOST]]
    return tuple(s for s in seen if s is not None)


def _region(plot: Plot, axes: Axes) -> tuple[int, int, int, int]:
    """Give the part of the picture in which marks stand: left, right, top, bottom."""
    beside = OCTAVES_BESIDE * axes.frequency.octave_px
    beyond = DB_BEYOND * axes.level.px_per_db
    low, high = axes.level.printed
    y0, y1 = axes.level.zero_px + axes.level.px_per_db * low, axes.level.zero_px + axes.level.px_per_db * high
    x0, top = plot.of_chart(axes.frequency.anchors[0][1] - beside, y0 - beyond)
    x1, bottom = plot.of_chart(axes.frequency.anchors[-1][1] + beside, y1 + beyond)
    height, width = plot.pixels.shape[:2]
    return max(round(x0), 0), min(round(x1), width), max(round(top), 0), min(round(bottom), height)


def _described(plot: Plot, axes: Axes, rest: Ink, at: Place, mass: float) -> Unexplained | None:
    """Look at one place closely; None where its ink is a stroke or part of something larger."""
    half = WINDOW // 2
    x0, y0 = max(round(at[0]) - half, 0), max(round(at[1]) - half, 0)
    part = rest[y0 : y0 + WINDOW, x0 : x0 + WINDOW]
    ys, xs = np.nonzero(part)
    weight = part[ys, xs]
    if len(xs) < 5:
        return None
    spread = np.cov(np.stack([xs, ys]), aweights=weight)
    thin = math.sqrt(max(float(np.linalg.eigvalsh(spread)[0]), 0.0))
    if thin < THIN:
        return None
    x, y = x0 + float(np.average(xs, weights=weight)), y0 + float(np.average(ys, weights=weight))
    wide, high = (float(np.percentile(v, 97) - np.percentile(v, 3)) + 1 for v in (xs, ys))
    if max(wide, high) < 0.4 * MARK_PX:
        return None
    red, blue = mean_ink(plot.pixels[y0 : y0 + WINDOW, x0 : x0 + WINDOW], part)
    left, right, top, bottom = _region(plot, axes)
    if not (left <= x <= right and top <= y <= bottom):
        return None
    sheet = plot.on_sheet(x, y)
    chart_x, chart_y = axes.bend.undone(*sheet)
    return Unexplained(
        sheet, (wide / plot.scale, high / plot.scale), axes.frequency.hz_at(chart_x), axes.level.level_at(chart_y),
        red, blue, mass,
    )  # fmt: skip
