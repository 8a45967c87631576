"""How a chart's lines lean by its labels alone, before any line is found."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median

import numpy as np

from ..sightings import LabelRun
from .lattice import Box, Leaning

FEWEST_SHARED = 3
"""So many labels that stand on both sides of a chart tell how its lines run."""
LEAST_APART = 8.0
"""The two sides of a chart are at least so many heights of its labels apart."""
MOST_SLOPE = 0.15
MOST_GROWTH = 0.15
MOST_OFF = 0.8
"""Rows that step aside more, are wider by more than this share, or whose labels lie otherwise by more than this share
of their height, are no two sides of one chart: a table's head is as like a row of frequencies."""


@dataclass(frozen=True, slots=True)
class Slopes:
    """How far level lines go down for each pixel to the right, and upright ones to the right for each pixel down."""

    level: float
    upright: float


def slopes_of(levels: tuple[LabelRun, ...], frequencies: tuple[LabelRun, ...]) -> Slopes:
    """Say how a chart's lines run by its label runs, those first that the axes are fitted to."""
    return Slopes(_slope(levels, frequencies[0]), _slope(frequencies, levels[0]))


def leaning_of(slopes: Slopes, levels: tuple[LabelRun, ...], frequency: LabelRun, box: Box) -> Leaning:
    """Say how the lines of a chart lie by those slopes: not off at their labels, and more the farther from them.

    Parameters
    ----------
    slopes : Slopes
        How the lines run.
    levels, frequency : tuple of LabelRun, LabelRun
        The labels that the axes are fitted to.
    box : tuple of float
        The chart's region, over which the coefficients run from -1 to 1.
    """
    half_wide, half_high = (box[2] - box[0]) / 2, (box[3] - box[1]) / 2
    right = (box[0] + box[2]) / 2 - middle_of(levels)
    under = (box[1] + box[3]) / 2 - frequency.across
    across = (slopes.upright * under, 0.0, slopes.upright * half_high, 0.0, 0.0, 0.0)
    down = (slopes.level * right, slopes.level * half_wide, 0.0, 0.0, 0.0, 0.0)
    return across, down


def middle_of(levels: tuple[LabelRun, ...]) -> float:
    """Give where the labels stand that tell the levels, on the mean, in sheet pixels from the left."""
    return sum(run.across for run in levels) / len(levels)


def _slope(sides: tuple[LabelRun, ...], other: LabelRun) -> float:
    """Give the slope of one axis' lines: by the same labels on both sides, else by how the other axis' labels lean."""
    for run in sides[1:]:
        shared = [
            (a, b)
            for value, a in zip(sides[0].values, sides[0].at, strict=True)
            for same, b in zip(run.values, run.at, strict=True)
            if value == same
        ]
        apart = run.across - sides[0].across
        if len(shared) < FEWEST_SHARED or abs(apart) < LEAST_APART * run.text_height:
            continue
        slope = median(b - a for a, b in shared) / apart
        here, there = np.array(shared).T
        growth, start = np.polyfit(here, there, 1)
        off = max(abs(b - growth * a - start) for a, b in shared)
        if abs(slope) < MOST_SLOPE and abs(growth - 1) < MOST_GROWTH and off < MOST_OFF * run.text_height:
            return slope
    return other.lean
