"""The account of all ink: find ink of a mark's size that is neither line, mark, arrow, join, word nor shading."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass, replace
from statistics import median

import numpy as np
import numpy.typing as npt

from ..chart import Bend, FrequencyScale, LevelScale, Unexplained
from ..page import Pixels, Word
from ..sightings import ChartArea, MarkSight
from .plot import MARK_PX, Ink, Place, Plot, Region, as_ink, darkness, mean_ink, plot_of, window_sum, without_lines
from .tails import tails
from .told import explain_arrows, explain_joins, explain_labels, explain_marks, explain_words

FEWEST_MARKS = 3
"""So many clear marks show how large, dark and heavy marks are on a chart."""
CLEAR = 0.45
TOLD = 0.16
"""Score from which a peak explains the ink at its place: ``meaning`` speaks of it itself."""
JOINED = 0.3
"""Score from which a peak may be a mark that lines join to others: the head of an arrow looks a little like one too."""
LEAST_MASS = 0.3
"""Share of a typical mark's ink that has a mark's weight."""
STROKES_PX = 3.2 * MARK_PX
"""How long the strokes of a typical mark are together, and those of lines through it."""
LEAST_TAIL = 0.17
"""Share of a typical mark's ink that an arrow has: shorter strokes are pieces of joins and lines."""
WINDOW = round(1.2 * MARK_PX) | 1
THIN = 1.5
"""A standard deviation of ink across its long axis below this is a line's, not a mark's, in pixels."""
OCTAVES_BESIDE = 0.3
"""How far beyond the outermost printed frequencies a mark may stand."""
DB_BEYOND = 4.0
MOST = 8
GRAIN_PERCENTILE = 85
NO_MASS = 0.01
"""Ink of a place, of a mark's several hundred, that is none: sums that run along a picture leave as much behind."""
ABOVE_GRAIN = 2.5
"""How much heavier than most places of the chart ink must be: where grain is everywhere, a mark does not stand out."""
ABOVE_AROUND = 1.8
MOST_AROUND = 0.4
"""So many of the places around may be nearly as heavy: halftones and writing go on, a mark does not."""
MOST_PIECES = 13
"""A mark falls into fewer pieces where lines were taken out of it; a halftone falls into more."""
LEAST_ROOM = 0.3
"""Share of a place that is not accounted for, from which it tells of grain."""


@dataclass(frozen=True, slots=True)
class Axes:
    """A chart's axes and how its paper lies."""

    frequency: FrequencyScale
    level: LevelScale
    bend: Bend


def unexplained_ink(
    pixels: Pixels, words: tuple[Word, ...], sights: tuple[MarkSight, ...], area: ChartArea, axes: Axes
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
    area : ChartArea
        The chart's region and labels.
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
    plot = plot_of(pixels, area.box, axes.bend, MARK_PX / median(max(s.size) for s in clear))
    dark = darkness(plot.pixels)
    of_mark = _mark_darkness(dark, plot, clear)
    if of_mark < 8:
        return ()
    told = [s for s in sights if s.score >= TOLD]
    region = _region(plot, axes)
    ink = as_ink(dark, of_mark)
    explained = np.zeros(dark.shape, np.uint8)
    explain_marks(explained, plot, told, stroke_px=_typical_mass(ink, plot, clear) / STROKES_PX)
    ink = without_lines(ink, explained, region)
    explain_words(explained, plot, words, area)
    explain_labels(explained, plot, area)
    typical = _typical_mass(ink, plot, clear)
    if typical < MARK_PX:
        return ()
    free = explained == 0
    explain_joins(explained, ink, free, [plot.of_sheet(*s.at) for s in told if s.score >= JOINED])
    explain_arrows(explained, ink, plot, told)
    rest = np.where(explained > 0, np.float32(0), ink)
    mass = window_sum(rest, WINDOW)
    grain = _grain(mass, region)
    found = _heaviest(mass, explained == 0, region, typical, ABOVE_GRAIN * grain)
    seen = [_described(plot, axes, rest, at, mass) for at, mass in found]
    if ABOVE_GRAIN * grain < LEAST_MASS * typical:
        seen += [_tail(plot, axes, rest, sight, tip, typical) for sight, tip in tails(rest, plot, clear)]
    return tuple(s for s in seen if s is not None and s.mass >= (LEAST_TAIL if s.hangs_from else LEAST_MASS))


def _mark_darkness(dark: Pixels, plot: Plot, clear: list[MarkSight]) -> float:
    """Give how dark the strokes of a typical mark are."""
    parts: dict[tuple[int, ...], list[Pixels]] = defaultdict(list)
    for sight in clear:
        x, y = (round(v) for v in plot.of_sheet(*sight.at))
        part = dark[max(y - 11, 0) : max(y + 12, 1), max(x - 11, 0) : max(x + 12, 1)]
        if part.size:
            parts[part.shape].append(part)
    found = [one for alike in parts.values() for one in np.percentile(np.stack(alike), 88, axis=(1, 2)).tolist()]
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


def _grain(mass: Ink, region: Region) -> float:
    """Give how much ink a place of a mark's size has where there is none."""
    left, top, right, bottom = region
    inner = mass[top:bottom, left:right]
    if not inner.size or np.count_nonzero(inner > NO_MASS) <= (1 - GRAIN_PERCENTILE / 100) * (inner.size - 1):
        return 0.0  # as of most charts, and far quicker told than a percentile
    return float(np.percentile(inner, GRAIN_PERCENTILE))


def _heaviest(
    mass: Ink, free: npt.NDArray[np.bool_], region: Region, typical: float, above: float
) -> list[tuple[Place, float]]:
    """Find where what is left is as heavy as a mark and stands out, heaviest first: places with their mass."""
    import cv2

    left, top, right, bottom = region
    if left >= right or top >= bottom:
        return []
    room = window_sum(free.astype(np.float32), WINDOW)
    inner = mass[top:bottom, left:right]
    least = max(LEAST_MASS * typical, above)
    peak = (inner >= least) & (inner >= cv2.dilate(inner, np.ones((WINDOW, WINDOW), np.uint8)))
    found: list[tuple[Place, float]] = []
    for row, column in sorted(map(tuple, np.argwhere(peak)), key=lambda p: -inner[p])[: 4 * MOST]:
        at = (float(column + left), float(row + top))
        if any(math.dist(at, other) < WINDOW for other, _ in found):
            continue
        beside = [
            float(mass[y, x]) * WINDOW * WINDOW / float(room[y, x])
            for dx in (-WINDOW, 0, WINDOW)
            for dy in (-WINDOW, 0, WINDOW)
            if (dx or dy)
            and 0 <= (y := row + top + dy) < mass.shape[0]
            and 0 <= (x := column + left + dx) < mass.shape[1]
            and room[y, x] > LEAST_ROOM * WINDOW * WINDOW
        ]
        crowd = sum(ABOVE_AROUND * b > inner[row, column] for b in beside)
        if crowd < MOST_AROUND * max(len(beside), 4):
            found.append((at, float(inner[row, column]) / typical))
    return found[:MOST]


def _region(plot: Plot, axes: Axes) -> Region:
    """Give the part of the picture in which marks stand."""
    beside = OCTAVES_BESIDE * axes.frequency.octave_px
    beyond = DB_BEYOND * axes.level.px_per_db
    low, high = axes.level.printed
    y0, y1 = axes.level.zero_px + axes.level.px_per_db * low, axes.level.zero_px + axes.level.px_per_db * high
    x0, top = plot.of_chart(axes.frequency.anchors[0][1] - beside, y0 - beyond)
    x1, bottom = plot.of_chart(axes.frequency.anchors[-1][1] + beside, y1 + beyond)
    height, width = plot.pixels.shape[:2]
    return max(round(x0), 0), max(round(top), 0), min(round(x1), width), min(round(bottom), height)


def _described(plot: Plot, axes: Axes, rest: Ink, at: Place, mass: float) -> Unexplained | None:
    """Look at one place closely; None where its ink is a stroke or part of something larger."""
    import cv2

    half = WINDOW // 2
    x0, y0 = max(round(at[0]) - half, 0), max(round(at[1]) - half, 0)
    part = rest[y0 : y0 + WINDOW, x0 : x0 + WINDOW]
    ys, xs = np.nonzero(part)
    weight = part[ys, xs]
    if len(xs) < 5 or cv2.connectedComponents((part > 0).astype(np.uint8))[0] > MOST_PIECES:
        return None
    spread = np.cov(np.stack([xs, ys]), aweights=weight)
    thin = math.sqrt(max(float(np.linalg.eigvalsh(spread)[0]), 0.0))
    if thin < THIN:
        return None
    x, y = x0 + float(np.average(xs, weights=weight)), y0 + float(np.average(ys, weights=weight))
    wide, high = (float(np.percentile(v, 97) - np.percentile(v, 3)) + 1 for v in (xs, ys))
    if max(wide, high) < 0.4 * MARK_PX:
        return None
    left, top, right, bottom = _region(plot, axes)
    if not (left <= x <= right and top <= y <= bottom):
        return None
    size = wide / plot.scale, high / plot.scale
    return _placed(plot, axes, (x, y), size, mean_ink(plot.pixels[y0 : y0 + WINDOW, x0 : x0 + WINDOW], part), mass)


def _tail(plot: Plot, axes: Axes, rest: Ink, sight: MarkSight, tip: Place, typical: float) -> Unexplained:
    """Describe a stroke that hangs from a mark."""
    at = plot.of_sheet(*sight.at)
    left, right = sorted((round(at[0]), round(tip[0])))
    window = slice(max(round(at[1]), 0), max(round(tip[1]), 0) + 2), slice(max(left - 1, 0), max(right, 0) + 2)
    part = rest[window]
    size = (right - left + 1) / plot.scale, (tip[1] - at[1] + 1) / plot.scale
    tail = _placed(plot, axes, tip, size, mean_ink(plot.pixels[window], part), float(part.sum()) / typical)
    return replace(tail, hangs_from=sight.at)


def _placed(plot: Plot, axes: Axes, at: Place, size: Place, colours: tuple[float, float], mass: float) -> Unexplained:
    sheet = plot.on_sheet(*at)
    x, y = axes.bend.undone(*sheet)
    return Unexplained(sheet, size, axes.frequency.hz_at(x), axes.level.level_at(y), *colours, mass)
