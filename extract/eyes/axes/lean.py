"""How far the line on which labels stand leans: what an uneven sheet does to its rows and columns."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from statistics import median

FEWEST = 4
"""So many labels tell a lean from the jitter of their boxes."""
MOST_JITTER = 0.16
"""Labels that stray from their line by more than this share of their height stand in steps, not on a line."""


def lean_of(along: Sequence[float], across: Sequence[float], height: float) -> float:
    """Give how far a line of labels steps aside for each pixel along it (the median of all pairs' slopes).

    Parameters
    ----------
    along, across : sequence of float
        The labels' middles along and across the run, in sheet pixels.
    height : float
        The labels' height in pixels.

    Returns
    -------
    float
        0 where fewer than four labels, or labels on no line, tell nothing.
    """
    if len(along) < FEWEST:
        return 0.0
    places = list(zip(along, across, strict=True))
    slopes = [(d - b) / (c - a) for (a, b), (c, d) in combinations(places, 2) if abs(c - a) > height]
    if not slopes:
        return 0.0
    slope = median(slopes)
    start = median(b - slope * a for a, b in places)
    jitter = median(abs(b - start - slope * a) for a, b in places)
    return slope if jitter <= MOST_JITTER * height else 0.0
