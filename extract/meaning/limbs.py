"""Crosses drawn in one stroke, whose two ends a loop joins: the loop is no bracket of the other ear's bone."""

from __future__ import annotations

from ...interpret.symbols import Glyph
from ..chart import Mark
from .nearby import DOUBTFUL, chosen
from .symbols.likely import LEAST_BONE_HZ, MOST_BONE_HZ

SIDES: dict[Glyph, int] = {"bracket-left": -1, "bracket-right": 1}
NEAREST, FARTHEST, OFF_LEVEL, WIDEST = 0.25, 0.6, 0.1, 0.7
"""How far aside of its cross a loop stands, how far off its level at most, and how wide it is, in the cross's sizes."""
FEWEST_JOINED, JOINED_SHARE = 4, 0.6
"""So many crosses of a chart, and such a share of them, have loops where a hand draws them in one stroke, and one of
them stands where bone is not tested: there brackets are not. Of 22 charts by hand with so many loops on their crosses,
and one there, none had its brackets there; of 1,950 pages of print one."""


def read_marks(marks: tuple[Mark, ...]) -> tuple[list[Mark], list[Mark]]:
    """Take the marks of a chart that are strong enough (see ``chosen``), without loops of crosses: these are weak."""
    taken, weak = chosen(marks)
    crosses = [m for m in taken if m.sight.glyph == "cross"]
    for shape in SIDES:
        loops = [m for m in marks if m.sight.glyph == shape and m.sight.score >= DOUBTFUL]
        joined = [cross for cross in crosses if any(_loop_of(cross, loop) for loop in loops)]
        far = any(not LEAST_BONE_HZ < cross.frequency_hz < MOST_BONE_HZ for cross in joined)
        if far and len(joined) >= max(FEWEST_JOINED, JOINED_SHARE * len(crosses)):
            limbs = [m for m in taken if m in loops and any(_loop_of(cross, m) for cross in crosses)]
            taken, weak = [m for m in taken if m not in limbs], [*weak, *limbs]
    return taken, weak


def _loop_of(cross: Mark, loop: Mark) -> bool:
    """Say whether what looks like a bracket stands where a loop joins the ends of a cross."""
    if loop.sight.apart:
        return False
    size = max(cross.sight.size)
    aside, off = SIDES[loop.sight.glyph] * (loop.x - cross.x) / size, abs(loop.y - cross.y) / size
    return NEAREST < aside < FARTHEST and off < OFF_LEVEL and loop.sight.size[0] < WIDEST * cross.sight.size[0]
