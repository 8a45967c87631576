"""Marks drawn by hand: notice them, and look at them with the network that knows them, at two scales."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace
from statistics import fmean, median

import numpy as np

from ...page import Pixels
from ...sightings import ChartArea, LabelRun, MarkSight
from .closely import usual_size
from .crops import chart_crop, crop_scale
from .network import LEAST, SAME_PLACE_PX, marks_in

CLEAR = 0.45
"""Score from which a mark counts."""
FEWEST = 5
ALIKE = 3
"""So many marks of one shape show how much their sizes differ."""
STEP_DB = 5.0
SIZES_DIFFER = 0.06
MISS_DB = 0.3
"""By so much a hand's sizes differ (logarithm) and marks miss their steps, were either the only sign: of 1,108 painted
scans of charts by hand 98% pass the two together, of 211 of printed ones 14%, half of which are drawn with a wobble."""
UNKNOWN_SPREAD = 0.03
"""Between the usual spread of printed sizes and that of a hand."""
LOOKS_PX = (24.0, 30.0)
"""How large a usual mark is in the two looks, in pixels: on 24 scanned forms by hand the mean of both found as many
marks as the better one alone, with a third fewer false ones."""
USUAL_PX = 22.0
"""How large a usual mark is in a chart's crop, where too few were seen to tell."""


def by_hand(marks: tuple[MarkSight, ...], level: LabelRun) -> bool:
    """Say whether the marks of a chart look drawn by hand: their sizes differ, and they miss their 5-dB steps.

    Parameters
    ----------
    marks : tuple of MarkSight
        What the network for all marks saw.
    level : LabelRun
        The chart's labels of levels, for the height of a step.
    """
    clear = [m for m in marks if m.score >= CLEAR]
    if len(clear) < FEWEST:
        return False
    return _size_spread(clear) / SIZES_DIFFER + _misses_db(clear, level) / MISS_DB > 1


def _size_spread(clear: list[MarkSight]) -> float:
    """Give by how much the sizes of marks of one shape differ, as a logarithm."""
    sizes: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for mark in clear:
        sizes[mark.glyph].append((math.log(mark.size[0]), math.log(mark.size[1])))
    apart = [
        abs(size - usual)
        for found in sizes.values()
        if len(found) >= ALIKE
        for side in zip(*found, strict=True)
        for usual in (median(side),)
        for size in side
    ]
    return median(apart) if apart else UNKNOWN_SPREAD


def _misses_db(clear: list[MarkSight], level: LabelRun) -> float:
    """Give by how much marks miss the 5-dB steps that suit them best together, in the middle."""
    axis = 0 if level.along == "x" else 1
    step = abs(float(np.polyfit(level.values, level.at, 1)[0])) * STEP_DB
    turns = np.array([m.at[axis] for m in clear]) / step
    shift = np.angle(np.exp(2j * np.pi * turns).mean()) / (2 * np.pi)
    return STEP_DB * float(np.median(np.abs((turns - shift + 0.5) % 1 - 0.5)))


def seen_by_hand(pixels: Pixels, number: int, area: ChartArea, first: tuple[MarkSight, ...]) -> tuple[MarkSight, ...]:
    """Look at marks by hand once more, with the network that knows them, at two scales.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    number : int
        The chart's number on the sheet.
    area : ChartArea
        The chart.
    first : tuple of MarkSight
        What the network for all marks saw, for the marks' size.
    """
    size = usual_size(first, CLEAR) or USUAL_PX / crop_scale(area.box)
    crops = [chart_crop(pixels, area.box, scale=wanted / size) for wanted in LOOKS_PX]
    one, other = (marks_in(crop, number, by_hand=True) for crop in crops)
    return agreed(one, other, SAME_PLACE_PX / min(crop.scale for crop in crops))


def agreed(one: tuple[MarkSight, ...], other: tuple[MarkSight, ...], reach: float) -> tuple[MarkSight, ...]:
    """Give what two looks at one chart saw together.

    Parameters
    ----------
    one, other : tuple of MarkSight
        The looks.
    reach : float
        How near two peaks of a glyph are one, in sheet pixels (sum of both directions).

    Returns
    -------
    tuple of MarkSight
        Every peak of either look, with the mean of both; a look that has no such peak counts half the least heat.
    """
    left = list(other)
    marks: list[MarkSight] = []
    for mark in one:
        partner = min((m for m in left if m.glyph == mark.glyph), key=lambda m: _far(m, mark), default=None)
        if partner is None or _far(partner, mark) > reach:
            marks.append(_alone(mark))
            continue
        left.remove(partner)
        marks.append(_mean(mark, partner))
    marks += [_alone(mark) for mark in left]
    marks = [mark for mark in marks if mark.score >= LEAST]
    return tuple(
        replace(m, rivals=tuple((o.glyph, o.score) for o in marks if o.glyph != m.glyph and _far(o, m) < reach))
        for m in sorted(marks, key=lambda m: -m.score)
    )


def _far(one: MarkSight, other: MarkSight) -> float:
    return abs(one.at[0] - other.at[0]) + abs(one.at[1] - other.at[1])


def _alone(mark: MarkSight) -> MarkSight:
    return replace(mark, score=(mark.score + LEAST / 2) / 2)


def _mean(one: MarkSight, other: MarkSight) -> MarkSight:
    left, right, down = (fmean(pair) for pair in zip(one.arrows, other.arrows, strict=True))
    return replace(
        one,
        at=(fmean((one.at[0], other.at[0])), fmean((one.at[1], other.at[1]))),
        size=(fmean((one.size[0], other.size[0])), fmean((one.size[1], other.size[1]))),
        score=fmean((one.score, other.score)),
        red=fmean((one.red, other.red)),
        blue=fmean((one.blue, other.blue)),
        plain=fmean((one.plain or 0.0, other.plain or 0.0)),
        arrows=(left, right, down),
        tips=(*one.tips, *other.tips),
    )
