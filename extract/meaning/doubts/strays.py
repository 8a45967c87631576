"""What pens and stamps add to a chart that is no mark: rings around marks, and strays beside a mark half hidden."""

from __future__ import annotations

from statistics import median

from ....interpret.record import Ear
from ...chart import Mark
from ..nearby import ACCEPT, LEFT_SIDE, RIGHT_SIDE, another
from .arrow import HALF_STEP_DB

RING, RING_SCORE, FEWEST_CIRCLES = 1.4, 0.8, 2
"""A circle so many times as large as so many others of its chart, and less clear than this, may be a ring around a
mark: of 15,000 values that stood as sure, on painted pages and a stranger's forms, one was; three others ask."""
UNCLEAR, LIKE, COLUMN = 0.7, 0.25, 0.6
"""A mark less clear than this asks where a peak from ``LIKE`` of its own shape, too weak to be a mark, stands at its
frequency, so many sizes aside at most, and another step: a stamp's corner stood as sure where the frame hid the bone
mark itself. Of 15,000 values that stood as sure 4 others ask."""
LEVEL, NEAREST, FARTHEST = 0.4, 0.35, 1.6
"""Brackets around a mark stand so far off its level at most, and so far from its middle, in sizes. Of 15,000 values
that stood as sure 7 right ones ask; on a stranger's forms two that did so were a bracket and a mark taken back."""


def perhaps_stray(mark: Mark, taken: tuple[Mark, ...], weak: tuple[Mark, ...], ear: Ear | None) -> bool:
    """Say whether a mark may be a ring around another, a stray beside the weak one that is meant, or put in brackets.

    Parameters
    ----------
    mark : Mark
        The mark.
    taken, weak : tuple of Mark
        The marks of its chart, and the peaks too weak to be one.
    ear : str or None
        The one ear that the chart shows.
    """
    return ringed(mark, taken) or rather_there(mark, weak) or (ear is not None and bracketed(mark, taken))


def ringed(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a circle may be a ring that a pen drew around another mark."""
    if mark.sight.glyph != "circle" or mark.sight.apart or mark.sight.score >= RING_SCORE:
        return False
    others = [max(o.sight.size) for o in taken if o.sight.glyph == "circle" and another(o, mark)]
    return len(others) >= FEWEST_CIRCLES and max(mark.sight.size) > RING * median(others)


def rather_there(mark: Mark, weak: tuple[Mark, ...]) -> bool:
    """Say whether a mark that is not clear may be a stray, and a weak one of its shape and frequency the value."""
    if mark.sight.apart or mark.sight.score >= UNCLEAR:
        return False
    reach = COLUMN * max(mark.sight.size)
    like = (o for o in weak if o.sight.glyph == mark.sight.glyph and LIKE <= o.sight.score < ACCEPT)
    return any(abs(o.x - mark.x) < reach and abs(o.level_db_hl - mark.level_db_hl) > HALF_STEP_DB for o in like)


def bracketed(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a mark of a chart of one ear stands in round brackets, or may be one of them: they look like bone.

    Whoever puts a mark in brackets doubts it. Where both ears stand on a chart their bone does so beside air.
    """
    return any(_pair_around(o, taken, mark) for o in (mark, *_inside(mark, taken)))


def _inside(mark: Mark, taken: tuple[Mark, ...]) -> list[Mark]:
    """Give the marks beside which what looks like bone may be a bracket."""
    if mark.sight.glyph not in LEFT_SIDE | RIGHT_SIDE:
        return []
    way = 1 if mark.sight.glyph in LEFT_SIDE else -1
    return [o for o in taken if another(o, mark) and _beside(mark, o, -way)]


def _pair_around(inner: Mark, taken: tuple[Mark, ...], mark: Mark) -> bool:
    """Say whether marks that close toward each side stand on both sides of one, and a mark is it or one of them."""
    before = [o for o in taken if o.sight.glyph in LEFT_SIDE and _beside(o, inner, -1)]
    behind = [o for o in taken if o.sight.glyph in RIGHT_SIDE and _beside(o, inner, 1)]
    return bool(before and behind) and (mark is inner or mark in before or mark in behind)


def _beside(one: Mark, inner: Mark, way: int) -> bool:
    """Say whether a mark stands close to the left (-1) or right (1) of another on its level."""
    size = max(*inner.sight.size, *one.sight.size)
    off = way * (one.x - inner.x) / size
    return NEAREST < off < FARTHEST and abs(one.y - inner.y) < LEVEL * size
