"""Which mark an arrow hangs from that a drawn page's paths drew by itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ...sightings import MarkSight
from .apart import Figure, dense, merged

ARROW = 0.5
"""Peak from which an arrow is seen."""
REACH = 1.0
"""An arrow begins this near its mark's lines, in sizes of the mark."""
CLEARLY_NEARER = 1.6
"""By so much the second mark must be farther than the first for an arrow to be the first's."""
DENSE = 0.08


@dataclass(frozen=True, slots=True, eq=False)
class Alone:
    """A piece of a drawing that is a mark, and what was seen of it."""

    piece: Figure
    sight: MarkSight


def near(one: MarkSight, other: MarkSight, share: float) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.size, *other.size)
    return abs(one.at[0] - other.at[0]) < reach and abs(one.at[1] - other.at[1]) < reach


def with_hung(
    found: list[Alone], loose: list[Figure], look: Callable[[list[Figure]], list[list[MarkSight]]]
) -> list[Alone]:
    """Give marks the arrows that were drawn apart from them.

    Parameters
    ----------
    found : list of Alone
        The marks.
    loose : list of Figure
        Figures that are no mark.
    look : callable
        Gives what is seen in each of several pieces alone.

    Returns
    -------
    list of Alone
        The same marks; where two may own an arrow, theirs are half seen.
    """
    options = [(figure, owner, far) for figure in loose for owner, far in _owners(figure, found)]
    if not options:
        return found
    seen = look([merged(owner.piece, figure) for figure, owner, _ in options])
    arrows: dict[int, tuple[float, float, float]] = {}
    for figure in loose:
        hung = [
            (far, owner, sight.arrows)
            for (other, owner, far), sights in zip(options, seen, strict=True)
            if other is figure
            for sight in sights[:1]
            if max(sight.arrows) >= ARROW
        ]
        if hung and not any(far < CLEARLY_NEARER * hung[0][0] for far, _, _ in hung[1:]):
            arrows[id(hung[0][1])] = hung[0][2]
        else:
            for _, rival, (left, right, down) in hung:
                arrows.setdefault(id(rival), (min(left, ARROW), min(right, ARROW), min(down, ARROW)))
    return [_hung(f, arrows[id(f)]) if id(f) in arrows and max(f.sight.arrows) < ARROW else f for f in found]


def _hung(mark: Alone, arrows: tuple[float, float, float]) -> Alone:
    return Alone(mark.piece, replace(mark.sight, arrows=arrows))


def _owners(figure: Figure, found: list[Alone]) -> list[tuple[Alone, float]]:
    """Give the marks that may own an arrow, the likeliest first, with their distances in sheet pixels.

    They are of its ink. What was drawn just before it owns it, if that is near; else the two nearest may.
    """
    options = []
    for mark in found:
        size = max(mark.sight.size)
        if not mark.piece.like_ink(figure) or mark.sight.at[1] > figure.box[3]:
            continue
        a, b = (np.concatenate([dense(o, DENSE * size) for o in f.outlines]) for f in (figure, mark.piece))
        far = max(float(np.sqrt(((a[:, None] - b[None]) ** 2).sum(axis=2).min())), DENSE * size)
        if far <= REACH * size:
            if mark.piece.paths[-1].number + 1 == figure.paths[0].number:
                return [(mark, far)]
            options.append((mark, far))
    return sorted(options, key=lambda option: option[1])[:2]
