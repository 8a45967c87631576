"""Crosses drawn in one stroke, whose two ends a loop joins: the loop is no mark of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from ...interpret.symbols import Glyph
from ..chart import Mark
from .nearby import DOUBTFUL, chosen
from .symbols.likely import MOST_BONE_HZ

SIDES: dict[Glyph, int] = {"bracket-left": -1, "bracket-right": 1}
NEAREST, FARTHEST, OFF_LEVEL, WIDEST = 0.25, 0.6, 0.1, 0.7
"""How far aside of its cross a loop stands, how far off its level at most, and how wide it is, in the cross's sizes."""
ON_CROSS = 0.35
"""How far aside a circle stands on a cross, in the cross's sizes."""
FEWEST_JOINED, JOINED_SHARE = 4, 0.6
"""So many crosses of a chart, and such a share of them, have loops where a hand draws them in one stroke."""
CLEAR_CIRCLE = 0.77
"""Score of a circle on a cross, where crosses have loops, from which it is one all the same. Of 68 such charts by hand
21 circles with less are loops and 7 are circles; of 83 with more all are."""
FOOT: dict[Glyph, tuple[float, float, float]] = {
    "triangle": (0.05, 0.26, 0.77), "circle": (0.26, 0.5, 0.77),
    "angle-left": (0.12, 0.48, 0.7), "angle-right": (0.12, 0.48, 0.7),
}  # fmt: skip
"""As what a loop along the foot of a cross is seen: how far below it, in its sizes, and with what score at most. Of
4,400 pages of print 5 have a chart whose crosses seem to have such loops, of 1,200 by hand 42, where 98 of 103 such
marks are loops."""
OFF_FOOT, LEAST_OF_FOOT = 0.24, 0.12
"""How far aside of its cross such a loop stands, in the cross's sizes, and its least score."""
LEAST_BONE_HZ = 190.0
"""Below this bone is not tested, nor above ``MOST_BONE_HZ``: loops are on the crosses there too, brackets are not. Of
22 charts by hand with so many loops on their crosses, and one there, none had its brackets there; of 1,950 pages of
print one."""


def read_marks(marks: tuple[Mark, ...]) -> tuple[list[Mark], list[Mark]]:
    """Take the marks of a chart that are strong enough (see ``chosen``), without loops of crosses: these are weak."""
    taken, weak = chosen(marks)
    loops = _loops_among(marks, taken)
    return [m for m in taken if m not in loops], [*weak, *(m for m in taken if m in loops)]


def without_loops(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Leave out the loops of crosses: as brackets they would speak for a symbol set."""
    loops = _loops_among(marks, chosen(marks)[0])
    return tuple(m for m in marks if m not in loops)


def _loops_among(marks: tuple[Mark, ...], taken: list[Mark]) -> list[Mark]:
    """Give what looks like marks and joins the ends of crosses, where a hand draws these in one stroke."""
    crosses = [m for m in taken if m.sight.glyph == "cross"]
    found: list[Mark] = []
    for shape in SIDES:
        loops = [m for m in marks if m.sight.glyph == shape and m.sight.score >= DOUBTFUL]
        if _are_joined(crosses, loops, _loop_of):
            found += [m for m in loops if any(_loop_of(cross, m) for cross in crosses)]
    if _are_joined(crosses, marks, _foot_of):
        found += [m for m in marks if any(_foot_of(cross, m) for cross in crosses)]
    circles = [m for m in taken if found and m.sight.glyph == "circle" and m.sight.score < CLEAR_CIRCLE]
    return [*found, *(m for m in circles if any(_closed_by(cross, m) for cross in crosses))]


def _are_joined(crosses: list[Mark], marks: Iterable[Mark], joins: Callable[[Mark, Mark], bool]) -> bool:
    """Say whether most crosses of a chart have something that joins two of their ends, also where no bone is tested."""
    joined = [cross for cross in crosses if any(joins(cross, m) for m in marks)]
    far = any(not LEAST_BONE_HZ < cross.frequency_hz < MOST_BONE_HZ for cross in joined)
    return far and len(joined) >= max(FEWEST_JOINED, JOINED_SHARE * len(crosses))


def _foot_of(cross: Mark, mark: Mark) -> bool:
    """Say whether what looks like a mark stands where a loop joins the lower ends of a cross."""
    nearest, farthest, clear = FOOT.get(mark.sight.glyph, (0.0, 0.0, 0.0))
    if mark.sight.apart or not LEAST_OF_FOOT <= mark.sight.score < clear:
        return False
    size = max(cross.sight.size)
    off = abs(mark.x - cross.x) / size
    return off < OFF_FOOT and nearest <= (mark.y - cross.y) / size <= farthest and mark.sight.size[0] < size


def _closed_by(cross: Mark, circle: Mark) -> bool:
    """Say whether what looks like a circle stands where a loop and the ends that it joins close to one."""
    if circle.sight.apart:
        return False
    size = max(cross.sight.size)
    return abs(circle.x - cross.x) < ON_CROSS * size and abs(circle.y - cross.y) < 2 * OFF_LEVEL * size


def _loop_of(cross: Mark, loop: Mark) -> bool:
    """Say whether what looks like a bracket stands where a loop joins the ends of a cross."""
    if loop.sight.apart:
        return False
    size = max(cross.sight.size)
    aside, off = SIDES[loop.sight.glyph] * (loop.x - cross.x) / size, abs(loop.y - cross.y) / size
    return NEAREST < aside < FARTHEST and off < OFF_LEVEL and loop.sight.size[0] < WIDEST * cross.sight.size[0]
