"""Strokes that hang from a mark where no arrow was seen: each may be a no-response arrow that was missed."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ..sightings import MarkSight
from .plot import Ink, Place, Plot
from .told import ARROW, ARROW_SLOPES, inside

STARTS = 0.3
"""Longest gap between a mark's box and an arrow that hangs from it, in marks."""
REACH = 2.0
"""How far from its mark's centre an arrow may end, in marks."""
LONG = 0.5
"""How much of an arrow must show, in marks."""
BREAK = 0.2
"""Longest break within it, where a printed line was taken out, in marks."""
HALF = 0.5
"""Ink from which a pixel belongs to a stroke."""
UPRIGHT = 0.25
"""Right or left per down, below which a stroke is upright."""
HEAD = 0.18
HEAVIER = 1.25
"""Half the width of an arrow's head in marks, and how much more ink it has than its shaft."""
FILLED = 0.6
"""Share of an arrow's way from its mark's box to its tip that shows."""
BESIDE_PX = 6.0
MOST_BESIDE = 0.4
"""Share of its length that may have ink so far beside it: a stroke is alone."""


def tails(rest: Ink, plot: Plot, marks: list[MarkSight]) -> tuple[tuple[MarkSight, Place], ...]:
    """Find marks from which a stroke hangs that nothing explains.

    Parameters
    ----------
    rest : ndarray, shape (height, width), float32
        The ink of the plot that nothing seen explains.
    plot : Plot
        The chart laid flat.
    marks : list of MarkSight
        The marks; those of which an arrow was seen are passed over.

    Returns
    -------
    tuple of (MarkSight, (float, float))
        The mark and where its stroke ends, on the plot.
    """
    import cv2

    thick = np.asarray(cv2.dilate(rest, np.ones((3, 3), np.uint8)) > HALF, np.bool_)
    found = []
    for sight in marks:
        if max(sight.arrows) > ARROW:
            continue
        tip = _longest(thick, rest, plot, sight)
        if tip is not None:
            found.append((sight, tip))
    return tuple(found)


def _longest(thick: npt.NDArray[np.bool_], rest: Ink, plot: Plot, sight: MarkSight) -> Place | None:
    """Follow the ink from a mark's box on in every way of an arrow; give where the longest stroke ends."""
    at, size = plot.of_sheet(*sight.at), max(sight.size) * plot.scale
    far, x0, y0 = round(REACH * size), round(at[0]), round(at[1])
    if not thick[max(y0, 0) : max(y0 + far, 0), max(x0 - far, 0) : max(x0 + far, 0)].sum() > 2 * LONG * size:
        return None
    longest, tip = LONG * size, None
    for right, down in (slope for slopes in ARROW_SLOPES for slope in slopes):
        x, y = (v / math.hypot(right, down) for v in (right, down))
        edge = 0.5 * plot.scale * min(sight.size[0] / max(abs(x), 0.01), sight.size[1] / y)
        out = np.arange(edge, REACH * size)
        there = _along(thick, at, out, (x, y))
        inked = out[there]
        if not len(inked) or inked[0] > edge + STARTS * size:
            continue
        breaks = np.flatnonzero(np.diff(inked) > BREAK * size)
        end = float(inked[breaks[0]] if len(breaks) else inked[-1])
        run = out <= end
        long = float(there[run].sum())
        if long <= max(longest, FILLED * (end - edge)):
            continue
        if any(_along(thick, at, out, (x, y), beside)[run].mean() >= MOST_BESIDE for beside in (BESIDE_PX, -BESIDE_PX)):
            continue
        here = at[0] + end * x, at[1] + end * y
        # what runs straight down may be a piece of a printed line: only its head makes it an arrow
        if abs(x) > UPRIGHT * y or _head(rest, at, here, size):
            longest, tip = long, here
    return tip


def _along(
    thick: npt.NDArray[np.bool_], at: Place, out: npt.NDArray[np.float64], way: Place, beside: float = 0.0
) -> npt.NDArray[np.bool_]:
    """Say where there is ink so far out from a place along a way, or so far beside that."""
    (x, y), (height, width) = way, thick.shape
    return thick[inside(at[1] + out * y - beside * x, height), inside(at[0] + out * x + beside * y, width)]


def _head(rest: Ink, at: Place, tip: Place, size: float) -> bool:
    """Say whether there is more ink at the end of a stroke than on its way: a join or a line has no head."""
    half, long = round(HEAD * size), math.dist(at, tip)

    def ink(back: float) -> float:
        x, y = (round(t - (t - a) * back * size / long) for a, t in zip(at, tip, strict=True))
        return float(rest[max(y - half, 0) : y + half + 1, max(x - half, 0) : x + half + 1].sum())

    return ink(0.5 * HEAD) > HEAVIER * ink(2.5 * HEAD)
