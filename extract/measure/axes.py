"""Fit the two axes of a chart to their labels."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ..chart import FrequencyScale, LevelScale
from ..eyes.words.numbers import INTER_OCTAVES
from ..sightings import LabelRun
from .leaning import middle_of

_Array = npt.NDArray[np.float64]

OUT_OF_LINE_DB, IN_LINE_DB, FEWEST_IN_LINE = 1.0, 0.35, 7
"""A number in a column of levels that misses their line by more, and their steps, where so many others all keep so near
to it, is none of them: a mark beside the axis may look like one."""
WELL_READ = 0.5
"""Chance from which a label says by itself what it is."""


def fit_level(runs: tuple[LabelRun, ...], falls: float = 0.0) -> LevelScale:
    """Fit a line through all level labels of a chart.

    Parameters
    ----------
    runs : tuple of LabelRun
        The level runs, one or more.
    falls : float
        How far the chart's level lines go down for each pixel to the right; the scale holds at the runs' middle.

    Returns
    -------
    LevelScale
        By least absolute deviations in effect: three rounds of reweighted least squares.
    """
    level = np.array([v for run in runs for v in run.values])
    middle = middle_of(runs)
    y = np.array([at - falls * (run.across - middle) for run in runs for at in run.at])
    zero, slope, miss = _line(level, y)
    others = miss < miss.max()
    if miss.max() > OUT_OF_LINE_DB and others.sum() >= FEWEST_IN_LINE and _out_of_step(level, others):
        without = _line(level[others], y[others])
        if without[2].max() < IN_LINE_DB:
            (zero, slope, miss), level = without, level[others]
    printed = float(level.min()), float(level.max())
    return LevelScale(zero, slope, printed, len(level), float(miss.max()), len(np.unique(level)))


def _out_of_step(level: _Array, others: npt.NDArray[np.bool_]) -> bool:
    """Say whether the other labels have steps that the remaining one does not keep."""
    step = np.diff(np.unique(level[others])).min()
    off = (level - level[others][0]) % step
    return bool((off[others] == 0).all() and (off[~others] != 0).all())


def _line(level: _Array, y: _Array) -> tuple[float, float, _Array]:
    """Give the place of 0 dB, pixels per dB, and how far each label misses the line, dB."""
    weight = np.ones(len(level))
    slope, zero = 1.0, 0.0
    miss = np.zeros(len(level))
    for _ in range(4):
        slope, zero = np.polyfit(level, y, 1, w=np.sqrt(weight))
        miss = np.abs(y - zero - slope * level) / abs(slope)
        weight = 1 / np.maximum(miss, 0.2)
    return float(zero), float(slope), miss


def fit_frequency(run: LabelRun, more: tuple[LabelRun, ...] = ()) -> FrequencyScale:
    """Turn the labels of a frequency run into a scale.

    Parameters
    ----------
    run : LabelRun
        The frequency run.
    more : tuple of LabelRun
        The chart's other frequency runs, which may say more surely what the labels are.

    Returns
    -------
    FrequencyScale
        On a logarithmic axis the octaves are fitted by a line, and inter-octaves keep the place of their labels (many
        forms print them half way). On an equally spaced axis every label keeps its place.
    """
    every = ((hz, sure) for r in (run, *more) for hz, sure in zip(r.values, r.confidences, strict=True))
    well_read = frozenset(hz for hz, sure in every if sure >= WELL_READ)
    if run.scale == "equal":
        anchors = tuple(zip(run.values, run.at, strict=True))
        return FrequencyScale("equal", anchors, len(run.at), _unequal(run), well_read)
    octaves = [(math.log2(hz), at) for hz, at in zip(run.values, run.at, strict=True) if hz not in INTER_OCTAVES]
    if len(octaves) < 2:
        octaves = [(math.log2(hz), at) for hz, at in zip(run.values, run.at, strict=True)]
    f, x = np.array([o[0] for o in octaves]), np.array([o[1] for o in octaves])
    slope, start = np.polyfit(f, x, 1)
    miss = float(np.abs(x - start - slope * f).max() / slope)
    anchors = tuple(
        (hz, float(at) if hz in INTER_OCTAVES else float(start + slope * math.log2(hz)))
        for hz, at in zip(run.values, run.at, strict=True)
    )
    return FrequencyScale("log", anchors, len(run.values), miss, well_read)


def _unequal(run: LabelRun) -> float:
    """How far labels stand from equal steps, in octaves; 0 for a form that leaves out labels of some steps."""
    x = np.array(run.at)
    steps = np.diff(x)
    if steps.max() > 1.25 * steps.min():
        return 0.0
    step, start = np.polyfit(np.arange(len(x)), x, 1)
    narrowest = min(math.log2(b / a) for a, b in pairwise(run.values))
    return float(np.abs(x - start - step * np.arange(len(x))).max() / abs(step)) * narrowest
