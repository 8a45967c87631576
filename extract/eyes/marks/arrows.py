"""Arrows that the paths of a drawn page show by themselves, and the marks that they hang from."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from ....interpret.symbols import Glyph
from ...sightings import MarkSight
from .apart import Figure

ARROW = 0.5
"""Peak from which an arrow is seen."""
CERTAIN = 0.9
"""What the arrow of a mark counts that owns it beyond doubt."""
REACH = 0.75
"""An arrow begins this near its mark's box, in sizes of the mark."""
CLEARLY_NEARER = 0.3
"""By so many sizes the second mark must be farther than the first for an arrow to be the first's."""
WING = 0.06
"""What lies farther off a shaft than this is an arrow's head, in lengths of the shaft."""
HEAD_FROM = 0.6
"""The middle of the head lies beyond this share of the shaft."""
WIDEST_HEAD = 0.6
SLANT = 0.3
"""An arrow that runs to a side by less than this share of its length points straight down."""
ARROW_LIKE: frozenset[Glyph] = frozenset({"vee"})
"""What an arrow straight down looks like without its mark."""


@dataclass(frozen=True, slots=True, eq=False)
class Alone:
    """A piece of a drawing that is a mark, and what was seen of it."""

    piece: Figure
    sight: MarkSight


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow: ``way`` is 0 for down-left, 1 for down-right, 2 for straight down; its tail in sheet pixels."""

    way: int
    tail: tuple[float, float]


def near(one: MarkSight, other: MarkSight, share: float) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.size, *other.size)
    return abs(one.at[0] - other.at[0]) < reach and abs(one.at[1] - other.at[1]) < reach


def arrow_of(figure: Figure) -> Arrow | None:
    """Say whether a figure is an arrow that points down: one shaft, and a head at its lower end.

    Parameters
    ----------
    figure : Figure
        The figure.

    Returns
    -------
    Arrow or None
        None for anything else.
    """
    pieces = [(o[:-1], np.diff(o, axis=0)) for o in figure.outlines if len(o) > 1]
    starts, steps = (np.concatenate(part) for part in zip(*pieces, strict=True))
    lengths = np.hypot(*steps.T)
    longest = int(lengths.argmax())
    shaft, length = steps[longest], float(lengths[longest])
    points: npt.NDArray[np.float64] = np.concatenate(figure.outlines) - starts[longest]
    along = points @ shaft / length**2
    off = np.abs(points @ np.array([-shaft[1], shaft[0]])) / length**2
    wings = off > WING
    if not wings.any() or off.max() > WIDEST_HEAD or along.min() < -0.15 or along.max() > 1.15:
        return None
    head = float(along[wings].mean())
    if 1 - HEAD_FROM < head < HEAD_FROM:
        return None
    tail = starts[longest] if head > HEAD_FROM else starts[longest] + shaft
    way = shaft if head > HEAD_FROM else -shaft
    if way[1] < 0.4 * length:
        return None
    sideways = float(way[0]) / length
    return Arrow(2 if abs(sideways) < SLANT else int(sideways > 0), (float(tail[0]), float(tail[1])))


def with_hung(found: list[Alone], arrows: list[Figure]) -> list[Alone]:
    """Give marks the arrows that were drawn apart from them; an arrow alone may look like a mark itself.

    Parameters
    ----------
    found : list of Alone
        The marks.
    arrows : list of Figure
        Figures that are arrows (``arrow_of``).

    Returns
    -------
    list of Alone
        The marks; where two may own an arrow, theirs are half seen.
    """
    shown = [(arrow_of(figure), figure) for figure in arrows]
    for mark in [f for f in found if f.sight.glyph in ARROW_LIKE]:
        arrow = arrow_of(mark.piece)
        if arrow is not None and _owners(arrow, mark.piece, found):
            shown.append((arrow, mark.piece))
            found = [f for f in found if f is not mark]
    hung: dict[int, tuple[float, int]] = {}
    for arrow, figure in shown:
        owners = [] if arrow is None else _owners(arrow, figure, found)
        for owner in owners:
            hung[id(owner)] = max(hung.get(id(owner), (0.0, 0)), (CERTAIN if len(owners) == 1 else ARROW, arrow.way))
    return [_hung(f, *hung[id(f)]) if id(f) in hung and max(f.sight.arrows) < ARROW else f for f in found]


def _hung(mark: Alone, score: float, way: int) -> Alone:
    left, right, down = (score if i == way else a for i, a in enumerate(mark.sight.arrows))
    return Alone(mark.piece, replace(mark.sight, arrows=(left, right, down)))


def _owners(arrow: Arrow, figure: Figure, found: list[Alone]) -> list[Alone]:
    """Give the marks of an arrow's ink that it may hang from: one, or those that are equally near.

    What was drawn just before the arrow owns it, if that is near.
    """
    options: list[tuple[float, Alone]] = []
    for mark in found:
        if mark.piece is figure or not mark.piece.like_ink(figure) or mark.sight.at[1] > figure.box[3]:
            continue
        half = (mark.sight.size[0] / 2, mark.sight.size[1] / 2)
        beside = [max(0.0, abs(t - c) - h) for t, c, h in zip(arrow.tail, mark.sight.at, half, strict=True)]
        far = math.hypot(*beside) / max(mark.sight.size)
        if far > REACH:
            continue
        if mark.piece.paths[-1].number + 1 == figure.paths[0].number:
            return [mark]
        options.append((far, mark))
    nearest = min((far for far, _ in options), default=0.0)
    return [mark for far, mark in options if far < nearest + CLEARLY_NEARER]
