"""What pens and stamps add to a chart that is no mark: rings around marks, and strays beside a mark half hidden."""

from __future__ import annotations

from statistics import median

from ...chart import Mark
from ..nearby import ACCEPT, another

RING, RING_SCORE, FEWEST_CIRCLES = 1.4, 0.8, 2
"""A circle so many times as large as so many others of its chart, and less clear than this, may be a ring around a
mark: of 11,000 values that stood as sure, on painted pages and a stranger's forms, one was, and two others ask."""
UNCLEAR, LIKE, COLUMN, STEP_DB = 0.75, 0.25, 0.6, 2.5
"""A mark less clear than this asks where a peak from ``LIKE`` of its own shape, too weak to be a mark, stands at its
frequency, so many sizes aside at most, and another step: a stamp's corner stood as sure where the frame hid the bone
mark itself. Of 11,000 values that stood as sure 7 others ask."""


def perhaps_stray(mark: Mark, taken: tuple[Mark, ...], weak: tuple[Mark, ...]) -> bool:
    """Say whether a mark may be a ring around another, or a stray beside the weak one that is meant.

    Parameters
    ----------
    mark : Mark
        The mark.
    taken, weak : tuple of Mark
        The marks of its chart, and the peaks too weak to be one.
    """
    return ringed(mark, taken) or rather_there(mark, weak)


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
    return any(abs(o.x - mark.x) < reach and abs(o.level_db_hl - mark.level_db_hl) > STEP_DB for o in like)
