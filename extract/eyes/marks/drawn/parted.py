"""Part a figure into the marks and arrows that explain it best."""

from __future__ import annotations

import math
from dataclasses import replace

from .....interpret.symbols import Glyph
from ....sightings import MarkSight
from .apart import Box, Figure
from .arrows import ARROW, CLEAR, near
from .heads import bare_head

SEEN = 0.45
"""Peak from which a figure alone is a mark."""
STRAY = 2.0
"""What a path costs that belongs to no mark, as a negative logarithm of a chance."""
AS_CLEAR = 0.85
"""Share of a peak from which another counts as clear as it."""
BESIDES = 0.3
"""Peak from which something else in a piece speaks against its being one mark."""
AHEAD = 0.7
"""What a piece costs whose mark needs not its first paths: arrows are drawn after their marks, rarely before."""
BEHIND, OUTSIDE = 0.7, 0.25
"""What a piece costs whose mark needs not its last paths, where they are no arrow and reach so many of its sizes
beyond it: they begin the next mark."""
ALONE = 0.5
"""What an arrow costs that is a piece of its own."""
MARK_GAIN = 0.25
"""What speaks for each clear mark: `>` and `<` that touch are two marks rather than a cross."""
NO_PART: frozenset[Glyph] = frozenset({"circle", "cross", "square", "bracket-left", "bracket-right"})
"""What no part of an arrow looks like: its head may look like a caret, an angle or a filled triangle."""
ARROW_GAIN = 0.3
"""What speaks for a piece with a mark and its arrow against one whose arrow hangs from another."""

Place = tuple[int, int]
"""A run of a figure's paths, from the first up to the end."""


def parted(
    count: int, seen: dict[Place, list[MarkSight]], arrows: set[Place], boxes: dict[Place, Box]
) -> tuple[Place, ...]:
    """Part a figure of ``count`` paths into the marks and arrows that explain it best.

    Parameters
    ----------
    count : int
        How many paths the figure has, in drawing order.
    seen : dict
        What was seen in each run of its paths, from the first up to the end, the clearest mark first.
    arrows : set
        The runs that are arrows by themselves.
    boxes : dict
        Where each run stands.

    Returns
    -------
    tuple of tuple of int
        The runs taken, in order. A path that is of none costs ``STRAY``.
    """
    best: list[tuple[float, tuple[Place, ...]]] = [(0.0, ())]
    for end in range(1, count + 1):
        options = [(best[end - 1][0] - STRAY, best[end - 1][1])]
        for first in range(end):
            marks = seen.get((first, end), [])
            if (
                _is_mark(marks)
                and (first, end) not in arrows
                and not any(_doubles(marks[0], seen[place]) for place in best[first][1])
                and not _hides_arrow(marks[0], (first, end), seen, arrows)
            ):
                ahead = any(_same(marks[0], seen.get((later, end), [])) for later in range(first + 1, end))
                behind = _begins_next(marks[0], (first, end), seen, boxes)
                cost = _cost(marks) + AHEAD * ahead + BEHIND * behind
            elif (first, end) in arrows:
                cost = ALONE
            else:
                continue
            options.append((best[first][0] - cost, (*best[first][1], (first, end))))
        best.append(max(options, key=lambda option: option[0]))
    return best[count][1]


def believed(piece: Figure, seen: list[MarkSight]) -> list[MarkSight]:
    """Leave out what a filled area cannot be, as half of a filled cross looks like an angle, and what a hollow cannot.

    A thick line makes a small circle look filled.
    """
    if not seen:
        return seen
    if piece.solid:
        return [m for m in seen if m.glyph.endswith("-filled")]
    if not any(glyph.endswith("-filled") for m in seen for glyph, _ in ((m.glyph, m.score), *m.rivals)):
        return seen
    if not piece.hollow:
        return seen
    open_ones = (m for m in seen if not m.glyph.endswith("-filled"))
    return [replace(m, rivals=tuple(r for r in m.rivals if not r[0].endswith("-filled"))) for m in open_ones]


def may_be_arrow(piece: Figure, seen: list[MarkSight]) -> bool:
    """Say whether a piece shows no mark, or one that the head of an arrow looks like; no mark is a slanting head."""
    return not _is_mark(seen) or seen[0].glyph == "vee" or bare_head(piece) is not None


def begins_with_mark(place: Place, seen: dict[Place, list[MarkSight]]) -> bool:
    """Say whether the first paths of a run are a clear mark: with its arrow, a bracket looks like a longer arrow."""
    first, end = place
    parts = [seen.get((first, early), []) for early in range(first + 1, end)]
    return any(part and part[0].score >= CLEAR and part[0].glyph in NO_PART for part in parts)


def as_marks(seen: list[MarkSight]) -> tuple[MarkSight, ...]:
    """Give the marks that a piece which was taken shows, the clearest first."""
    more = tuple(m for m in _besides(seen) if m.score >= SEEN)
    if not more:
        return (seen[0],)
    return tuple(replace(m, apart=False) for m in (seen[0], *more))


def one_shape(one: MarkSight, other: MarkSight) -> bool:
    """Say whether two marks are of one shape, filled or not."""
    return one.glyph.removesuffix("-filled") == other.glyph.removesuffix("-filled")


def _is_mark(seen: list[MarkSight]) -> bool:
    return bool(seen) and seen[0].score >= SEEN


def _same(mark: MarkSight, seen: list[MarkSight]) -> bool:
    """Say whether another piece shows the same mark as clearly.

    Half a cross and its arrow look a little like one too, and so does the filled half of a circle without its outline.
    """
    least = max(CLEAR, AS_CLEAR * mark.score)
    return bool(seen) and seen[0].score >= least and seen[0].glyph == mark.glyph and near(seen[0], mark, 0.2)


def _begins_next(mark: MarkSight, place: Place, seen: dict[Place, list[MarkSight]], boxes: dict[Place, Box]) -> bool:
    """Say whether the last paths of a run add nothing to the mark of its first ones, and reach well beyond it."""
    first, end = place
    parts = [(first, early) for early in range(first + 1, end) if _same(mark, seen.get((first, early), []))]
    return max(mark.arrows) < ARROW and any(_beyond(boxes[place], boxes[p]) > OUTSIDE * max(mark.size) for p in parts)


def _beyond(outer: Box, inner: Box) -> float:
    """Give how far a box reaches beyond one that lies within it."""
    return max(inner[0] - outer[0], inner[1] - outer[1], outer[2] - inner[2], outer[3] - inner[3])


def _hides_arrow(mark: MarkSight, place: Place, seen: dict[Place, list[MarkSight]], arrows: set[Place]) -> bool:
    """Say whether the last paths of a run are an arrow that was not seen beside the mark of its first ones."""
    first, end = place
    parts = (seen.get((first, early), []) for early in range(first + 1, end) if (early, end) in arrows)
    return max(mark.arrows) < ARROW and any(_same(mark, part) for part in parts)


def _doubles(mark: MarkSight, seen: list[MarkSight]) -> bool:
    """Say whether a piece is the filling or the outline of another: one shape at one place."""
    return _is_mark(seen) and one_shape(seen[0], mark) and near(seen[0], mark, 0.2)


def _besides(seen: list[MarkSight]) -> list[MarkSight]:
    """Give what is seen in a piece besides its clearest mark."""
    return [m for m in seen[1:] if not (one_shape(m, seen[0]) and near(m, seen[0], 0.5))]


def _cost(seen: list[MarkSight]) -> float:
    """Give what it costs to take a piece for one mark: little where it and its arrow are clear, and alone."""
    besides = max((m.score for m in _besides(seen) if m.score >= BESIDES), default=0.0)
    arrow = max(seen[0].arrows)
    parts = (min(seen[0].score, 0.98), max(1 - besides, 0.02), max(arrow, 1 - arrow))
    gain = MARK_GAIN * (seen[0].score >= CLEAR) + ARROW_GAIN * (arrow >= ARROW)
    return -sum(map(math.log, parts)) - gain
