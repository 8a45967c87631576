"""Run the mark network on a chart's crop and turn its heat maps into marks."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ....interpret.symbols import GLYPHS, Glyph
from ...page import Pixels
from ...sightings import ArrowTip, MarkSight
from ..networks import in_blocks, said_by
from .crops import ChartCrop

BLOCK = 2
"""The networks take the picture in blocks of so many pixels each way."""
ARROWS = 3
"""Heat maps of arrows: down-left, down-right, straight down."""
TIPS = len(GLYPHS) + 2 * ARROWS
"""The first of the maps of arrows' tips, after glyphs, arrows and three inks."""
ROOT_REACH = 0.9
"""A root this far from a mark, in sizes, may be that mark."""
LONELY, LONELY_REACH, LONGEST = 0.4, 2.6, 4.0
"""A tip from this score on whose root is no mark may hang from any mark above it that is so near, in sizes; or, the
way that it points, from one a long arrow away."""
STEEPEST, FLATTEST = 0.4, 2.5
"""Right per down within which a slanting arrow points."""
SAME_ROOT = 0.25
"""Marks so near one another, in sizes, share the arrows of their place."""
LEAST = 0.12
"""Heat under which nothing is reported, not even as a rival."""
LEAST_ODDS = math.log(LEAST / (1 - LEAST))
TOP_REACH = 2
"""A peak is the top of so many pixels of a map to every side."""
SAME_PLACE_PX = 5.0
"""Peaks of one glyph closer than this in the crop are one mark; of several glyphs, they stand at one place."""

Maps = npt.NDArray[np.float32]
Places = npt.NDArray[np.intp]
_Peak = tuple[Glyph, float, float, float]
"""Glyph, heat, and x and y in crop pixels."""


def maps_of(crop: Pixels, *, by_hand: bool = False) -> Maps:
    """Run the network.

    Parameters
    ----------
    crop : ndarray, shape (height, width, 3), uint8, RGB
        Sides are multiples of 16.
    by_hand : bool
        Run the network that knows marks by hand best, rather than the one for all marks.

    Returns
    -------
    ndarray, shape (channels, height / 2, width / 2), float32
        Log odds of glyphs, and at a mark's centre of its arrow and its ink (red, blue, neutral); of the tips of arrows
        by their direction. Then the logarithms of a mark's width and height over 32 px, and, at an arrow's tip, the way
        to its mark's centre in x and y, over 32 px.
    """
    return said_by("marks/by-hand" if by_hand else "marks/marks", in_blocks(crop, BLOCK))[0]


def _heat(odds: Maps) -> Maps:
    """Turn log odds into chances from 0 to 1; of whole maps, 10 MB, that would take a tenth of the network's time."""
    return np.reciprocal(np.exp(np.negative(odds)) + 1)


def marks_in(crop: ChartCrop, area: int, *, by_hand: bool = False) -> tuple[MarkSight, ...]:
    """See the marks of one chart.

    Parameters
    ----------
    crop : ChartCrop
        The chart.
    area : int
        Its number on the sheet.
    by_hand : bool
        Whether its marks are drawn by hand.

    Returns
    -------
    tuple of MarkSight
        Every peak over 0.12 of a glyph's map, with the other glyphs at its place as rivals; positions on the sheet.
    """
    maps = maps_of(crop.pixels, by_hand=by_hand)
    peaks: list[_Peak] = [
        (glyph, score, x, y) for channel, glyph in enumerate(GLYPHS) for score, x, y in _peaks(maps[channel])
    ]
    peaks.sort(key=lambda p: -p[1])
    places = np.array([p[2:] for p in peaks]).reshape(-1, 2)
    beside = [np.flatnonzero(np.abs(places - at).sum(axis=1) < SAME_PLACE_PX).tolist() for at in places]
    kept: dict[int, None] = {}
    for i, peak in enumerate(peaks):
        if not any(peaks[k][0] == peak[0] for k in beside[i] if k in kept):
            kept[i] = None
    seen = [_sight(crop, maps, area, peaks[i], [peaks[k] for k in beside[i] if k in kept]) for i in kept]
    return with_tips(seen, _tips(crop, maps))


def _peaks(odds: Maps) -> list[tuple[float, float, float]]:
    """Find the tops of one map: heat, and x and y in crop pixels."""
    found = np.flatnonzero(odds >= LEAST_ODDS)  # of a map with rows and columns it takes four times as long
    if not len(found):  # as of most glyphs of a chart
        return []
    row, column = np.divmod(found, odds.shape[1])
    near = np.arange(-TOP_REACH, TOP_REACH + 1)
    rows, columns = ((at[:, None] + near).clip(0, side - 1) for at, side in zip((row, column), odds.shape, strict=True))
    top = odds[row, column] >= odds[rows[:, :, None], columns[:, None]].max(axis=(1, 2))
    row, column = row[top], column[top]
    x, y = _refined(odds, row, column, 1), _refined(odds, row, column, 0)
    return list(zip(_heat(odds[row, column]).tolist(), x.tolist(), y.tolist(), strict=True))


def _tips(crop: ChartCrop, maps: Maps) -> list[ArrowTip]:
    """See the tips of arrows, and where their marks are."""
    found = []
    for way in range(ARROWS):
        for score, x, y in _peaks(maps[TIPS + way]):
            column = min(max(round((x - 0.5) / 2), 0), maps.shape[2] - 1)
            row = min(max(round((y - 0.5) / 2), 0), maps.shape[1] - 1)
            dx, dy = (float(v) * 32 for v in maps[-2:, row, column])
            found.append(ArrowTip(way, crop.on_sheet(x, y), crop.on_sheet(x + dx, y + dy), score))
    return found


def with_tips(marks: list[MarkSight], tips: list[ArrowTip]) -> tuple[MarkSight, ...]:
    """Give each arrow's tip to the mark that its root is nearest to, and to all that stand at that mark's place.

    A clear tip without such a mark goes to all marks above it that it may hang from: an arrow may stand apart.
    """
    held: list[list[ArrowTip]] = [[] for _ in marks]
    if not marks:
        return ()
    places, sizes = np.array([m.at for m in marks]), np.array([max(m.size) for m in marks])
    for tip in tips:
        far = np.hypot(*(places - tip.root).T) / sizes
        nearest = int(far.argmin())
        if far[nearest] > ROOT_REACH:
            for i in _above(tip, places, sizes):
                held[i].append(tip)
            continue
        apart = np.hypot(*(places - places[nearest]).T)
        for i in np.flatnonzero(apart < SAME_ROOT * np.maximum(sizes, sizes[nearest])):
            held[i].append(tip)
    return tuple(replace(m, tips=tuple(own)) if own else m for m, own in zip(marks, held, strict=True))


def _above(tip: ArrowTip, places: npt.NDArray[np.float64], sizes: npt.NDArray[np.float64]) -> list[int]:
    """Give the numbers of the marks that a tip may hang from, though its root is none of them."""
    if tip.score < LONELY:
        return []
    off = np.array(tip.at) - places
    below, far = off[:, 1] > 0, np.hypot(*off.T)
    sideways = off[:, 0] * (-1, 1, 0)[tip.way] / np.maximum(off[:, 1], 1e-6)
    along = (sideways > STEEPEST) & (sideways < FLATTEST) if tip.way < 2 else np.abs(off[:, 0]) < STEEPEST * off[:, 1]
    near = below & ((far < LONELY_REACH * sizes) | (along & (far < LONGEST * sizes)))
    return [int(i) for i in np.flatnonzero(near)]


def _refined(odds: Maps, row: Places, column: Places, axis: int) -> npt.NDArray[np.float64]:
    """Place peaks between the pixels of an axis by a parabola through the logarithm of the heat, in crop pixels."""
    at, last = (row, column)[axis], odds.shape[axis] - 1
    inner = (at > 0) & (at < last)
    steps = np.where(inner, 1, 0)
    shifts = [(row, column + step) if axis else (row + step, column) for step in (-steps, 0, steps)]
    a, b, c = (np.log(np.maximum(_heat(odds[shift]), np.float32(1e-6))).astype(np.float64) for shift in shifts)
    curve = a - 2 * b + c
    bent = inner & (curve < -1e-6)
    offset = np.clip(0.5 * (a - c) / np.where(bent, curve, 1.0), -0.5, 0.5)
    return np.asarray(2 * (at + np.where(bent, offset, 0.0)) + 0.5, np.float64)


def _sight(crop: ChartCrop, maps: Maps, area: int, peak: _Peak, beside: list[_Peak]) -> MarkSight:
    glyph, score, x, y = peak
    column, row = round((x - 0.5) / 2), round((y - 0.5) / 2)
    column, row = min(max(column, 0), maps.shape[2] - 1), min(max(row, 0), maps.shape[1] - 1)
    spot = _heat(maps[:TIPS, max(row - 1, 0) : row + 2, max(column - 1, 0) : column + 2].max(axis=(1, 2)))
    arrows = spot[len(GLYPHS) : len(GLYPHS) + ARROWS]
    red, blue, plain = (float(v) for v in spot[len(GLYPHS) + ARROWS : len(GLYPHS) + ARROWS + 3])
    wide, high = np.exp(np.clip(maps[-4:-2, row, column], -3, 2)) * 32 / crop.scale
    rivals: tuple[tuple[Glyph, float], ...] = tuple((p[0], p[1]) for p in beside if p[0] != glyph)
    return MarkSight(
        area, glyph, crop.on_sheet(x, y), (float(wide), float(high)), score, rivals, red, blue,
        (float(arrows[0]), float(arrows[1]), float(arrows[2])), plain=plain,
    )  # fmt: skip
