"""Paint charts, let the mark network see them, and cut out what it saw, with what truly stands there."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from ....extract.eyes.marks.closely import SIDE, size_of, windows
from ....extract.eyes.marks.crops import chart_crop
from ....extract.eyes.marks.network import marks_in
from ....extract.sightings import MarkSight
from ....interpret.symbols import GLYPHS
from ..marks.crops import ARROWS, Spoiled, spoiled_charts

ROOM = 4
"""Pictures are larger by so many pixels, of which training cuts a random part."""
MOST = 72
"""Of a chart with more places so many are taken at random."""
HERE, ELSEWHERE = 0.22, 0.42
"""A mark nearer than this, in usual sizes, has its middle here; from one between the two nobody need tell."""
SAME_PLACE = 0.1
"""Marks seen as near as this, in usual sizes, are looked at in one picture."""
TARGETS = len(GLYPHS) + len(ARROWS)

Places = npt.NDArray[np.float64]


def pictures(family: str, seed: int) -> list[tuple[npt.NDArray[np.uint8], npt.NDArray[np.float32]]]:
    """Paint one page and give pictures around what the mark network sees on its charts.

    Parameters
    ----------
    family : str
        One of ``marks.crops.training_families()``.
    seed : int
        The same seed gives the same pictures.

    Returns
    -------
    list of tuple
        Pixels, shape (84, 84, 3), uint8, RGB; and truth, shape (1, 50), float32: for each glyph and arrow 1 where it is
        there, 0 where not, NaN where nobody need tell; and what the mark network gave each.
    """
    rng = np.random.default_rng([4243, seed])
    out = []
    for chart in spoiled_charts(family, seed):
        high, wide = chart.pixels.shape[:2]
        box = (0.0, 0.0, float(wide - 1), float(high - 1))
        seen = marks_in(chart_crop(chart.pixels, box), 0)
        if not seen:
            continue
        size = size_of(seen) * math.exp(rng.normal(0, 0.08))
        places = _places(seen, chart, size)
        if len(places) > MOST:
            places = places[rng.permutation(len(places))[:MOST]]
        cut = windows(chart.pixels, box, places, size, side=SIDE + ROOM)
        out += [(p, _truth(at, chart, seen, size)[None]) for p, at in zip(cut, places, strict=True)]
    return out


def _places(seen: tuple[MarkSight, ...], chart: Spoiled, size: float) -> Places:
    """Give the places of all that was seen, each once, and of the marks that were not seen."""
    kept: list[tuple[float, float]] = []
    missed = [(float(m[0]), float(m[1])) for m in chart.marks]
    for reach, places in ((SAME_PLACE, [m.at for m in seen]), (HERE, missed)):
        for at in places:
            if all(math.dist(at, other) > reach * size for other in kept):
                kept.append(at)
    return np.array(kept)


def _truth(at: Places, chart: Spoiled, seen: tuple[MarkSight, ...], size: float) -> npt.NDArray[np.float32]:
    truth = np.zeros(2 * TARGETS, np.float32)
    far = np.hypot(*(chart.marks[:, :2] - at).T) / size
    for near, mark in sorted(zip(far, chart.marks, strict=True), key=lambda pair: -pair[0]):
        if near < ELSEWHERE:
            told = 1.0 if near < HERE else math.nan
            truth[int(mark[2])] = told
            if mark[3] >= 0:
                truth[len(GLYPHS) + int(mark[3])] = told
    for mark in seen:
        if math.dist(mark.at, at) <= HERE * size:
            held = truth[TARGETS:]
            held[GLYPHS.index(mark.glyph)] = max(held[GLYPHS.index(mark.glyph)], mark.score)
            held[len(GLYPHS) :] = np.maximum(held[len(GLYPHS) :], mark.arrows)
    return truth
