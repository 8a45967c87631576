"""Look at each mark of a chart once more, closely: a small picture around it alone, at one size for all marks."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files
from statistics import median

import numpy as np
import numpy.typing as npt

from ....interpret.symbols import GLYPHS, Glyph
from ...page import Pixels
from ...shades import bare
from ...sightings import MarkSight
from ..networks import said_by
from .crops import chart_crop, planes
from .network import LEAST

SIDE = 80
"""Pixels a side of the picture around a mark."""
USUAL_PX = 24.0
"""How large a usual mark of the chart is in it."""
CLEAR = 0.4
"""Score from which a mark tells how large marks are."""
FEWEST = 3
"""So many marks tell it."""
AT_ONCE = 32
"""Pictures looked at together: a page of a thousand specks must not fill the memory."""
SAME_PLACE = 0.1
"""Marks as near as this, in usual sizes, are looked at in one picture."""
UNSEEN = LEAST / 2
"""What a glyph counts that the look at the whole chart did not see at a place."""
BOUND = 8.0
"""Log odds of the close look are bounded to this either way: beyond it they differ by the paint alone."""

Windows = npt.NDArray[np.uint8]
Odds = npt.NDArray[np.float32]


def looked_closely(
    pixels: Pixels, box: tuple[float, float, float, float], marks: tuple[MarkSight, ...]
) -> tuple[MarkSight, ...]:
    """Weigh what was seen of a chart as a whole together with a close look at each place.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    box : tuple of float
        The chart's region (left, top, right, bottom) in sheet pixels.
    marks : tuple of MarkSight
        What was seen of it as a whole.

    Returns
    -------
    tuple of MarkSight
        The same marks, the clearest first, without those that hardly are any. Scores of glyphs and arrows are those
        that the whole look alone would have given where a mark is as likely; a glyph that only the close look sees is
        a rival.
    """
    if not marks:
        return marks
    size = size_of(marks)
    place_of, places = _places(marks, SAME_PLACE * size)
    odds = close_odds(windows(pixels, box, places, size))
    seen = [_weighed(mark, odds[number]) for mark, number in zip(marks, place_of, strict=True)]
    return tuple(sorted((m for m in seen if m.score >= LEAST), key=lambda m: -m.score))


def _places(marks: tuple[MarkSight, ...], reach: float) -> tuple[list[int], npt.NDArray[np.float64]]:
    """Give each mark the number of its place, and the places."""
    kept: list[tuple[float, float]] = []
    numbers = []
    for mark in marks:
        near = [i for i, at in enumerate(kept) if math.dist(at, mark.at) <= reach]
        numbers.append(near[0] if near else len(kept))
        if not near:
            kept.append(mark.at)
    return numbers, np.array(kept)


def _weighed(mark: MarkSight, odds: Odds) -> MarkSight:
    glyphs, arrows = trust().glyph, trust().arrow
    close = dict(zip(GLYPHS, map(float, odds[: len(GLYPHS)]), strict=True))
    rivals: dict[Glyph, float] = {g: glyphs.together(s, close[g]) for g, s in mark.rivals}
    fresh = {g: glyphs.together(UNSEEN, o) for g, o in close.items() if o > 0 and g != mark.glyph and g not in rivals}
    left, right, down = (
        arrows.together(seen, float(o)) for seen, o in zip(mark.arrows, odds[len(GLYPHS) :], strict=True)
    )
    return replace(
        mark,
        score=glyphs.together(mark.score, close[mark.glyph]),
        rivals=tuple((rivals | fresh).items()),
        arrows=(left, right, down),
        at_first=mark.score,
    )


@dataclass(frozen=True, slots=True)
class Trust:
    """How much the log odds of either look count, on the scale of the look at the whole chart."""

    whole: float
    close: float
    constant: float

    def together(self, score: float, odds: float) -> float:
        """Give the score that the whole look alone would have given where a mark is as likely.

        Parameters
        ----------
        score : float
            What the whole look gave, 0 to 1.
        odds : float
            What the close look gave, log odds.
        """
        score = min(max(score, 0.02), 0.98)
        bounded = max(-BOUND, min(BOUND, odds))
        total = self.whole * math.log(score / (1 - score)) + self.close * bounded + self.constant
        return 1 / (1 + math.exp(-total))


@dataclass(frozen=True, slots=True)
class Trusts:
    """How the two looks are weighed, for glyphs and for arrows."""

    glyph: Trust
    arrow: Trust


@lru_cache(maxsize=1)
def trust() -> Trusts:
    """Load the fitted weights; ``closely.json`` says from what they come."""
    data = json.loads(files("octavo.extract.eyes.marks").joinpath("closely.json").read_text())
    return Trusts(*(Trust(d["whole"], d["close"], d["constant"]) for d in (data["glyph"], data["arrow"])))


def usual_size(marks: tuple[MarkSight, ...], clear: float = CLEAR) -> float | None:
    """Give the size of a usual mark in sheet pixels, by those with a score from ``clear``; None where too few have."""
    sizes = [max(m.size) for m in marks if m.score >= clear]
    return median(sizes) if len(sizes) >= FEWEST else None


def size_of(marks: tuple[MarkSight, ...]) -> float:
    """Give the size of a usual mark, by whatever was seen where little is clear; there is at least one mark."""
    return usual_size(marks) or median(max(m.size) for m in marks)


def windows(
    pixels: Pixels,
    box: tuple[float, float, float, float],
    places: npt.NDArray[np.float64],
    size: float,
    *,
    side: int = SIDE,
) -> Windows:
    """Cut a picture around each place of a chart.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    box : tuple of float
        The chart's region (left, top, right, bottom) in sheet pixels.
    places : ndarray, shape (n, 2)
        Their middles, x and y in sheet pixels.
    size : float
        How large a usual mark is there, in sheet pixels.
    side : int
        Pixels a side of each picture.

    Returns
    -------
    ndarray, shape (n, side, side, 3), uint8, RGB
        White beyond the region and some room around it.
    """
    import cv2

    room = side / 2 / USUAL_PX * size
    wide = (box[0] - room, box[1] - room, box[2] + room, box[3] + room)
    crop = chart_crop(pixels, wide, scale=USUAL_PX / size)
    at = (places - np.array(crop.corner) + 0.5) * crop.scale - 0.5
    part = bare(crop.pixels)
    cut = np.stack([cv2.getRectSubPix(part, (side, side), (float(x), float(y))) for x, y in at])
    return np.asarray(cut if cut.ndim == 4 else np.broadcast_to(cut[..., None], (*cut.shape, 3)), np.uint8)


def close_odds(pictures: Windows) -> Odds:
    """Run the network that looks closely.

    Parameters
    ----------
    pictures : ndarray, shape (n, 80, 80, 3), uint8, RGB
        Pictures around marks.

    Returns
    -------
    ndarray, shape (n, 25), float32
        For each the log odds that a mark of each glyph has its middle there, and that an arrow down-left, down-right,
        straight down hangs from a mark there.
    """
    found = np.zeros((len(pictures), len(GLYPHS) + 3), np.float32)
    for start in range(0, len(pictures), AT_ONCE):
        found[start : start + AT_ONCE] = said_by("marks/closely", planes(pictures[start : start + AT_ONCE]))
    return found
