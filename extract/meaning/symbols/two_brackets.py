"""Whether squares may be `[` and `]` at one level: then they say nothing of a page's symbol set."""

from __future__ import annotations

from collections.abc import Sequence

from ...chart import Mark
from ..nearby import flanked, same_place
from .likely import BRACKETS, MOST_BONE_HZ, air_at

TWO_BRACKETS, CLEAR_SQUARE = 0.15, 0.75
"""Score of both brackets at a square's sides from which it may be they, and that of a square which is one all the same.
Of 257 squares of painted pages of the training families 13% have such sides, of 11 that are none 8, of up to 0.71."""
FEWEST_BRACKETS = 3
"""Brackets that stand by themselves, from which those of a square may be missed elsewhere."""
SIDE, COLUMN = 0.7, 0.75
"""How near a square, in its sizes, a bracket may be its side; and how far aside one of its frequency stands at most."""


def may_be_two(mark: Mark, marks: tuple[Mark, ...]) -> bool:
    """Say whether a square may be `[` and `]` at one level: then it speaks against no set without squares."""
    around = tuple(m for m in marks if m.sight.area == mark.sight.area)
    unclear = mark.sight.glyph == "square" and mark.sight.score < CLEAR_SQUARE and not mark.sight.apart
    return unclear and flanked(mark, around) >= TWO_BRACKETS


def all_may_be_two(seen: Sequence[Mark]) -> bool:
    """Say whether all of a page's squares may be `[` and `]`, however clear, also as figures of a drawing.

    So they may where they stand at frequencies of bone that have no other bracket, most of them with a cross, in whose
    place masked air is marked more often than beside it: of 57 painted pages whose squares are squares and alone speak
    against a set of brackets for unmasked bone one is such a page.
    """
    squares = [m for m in seen if m.sight.glyph == "square"]
    brackets = [m for m in seen if m.sight.glyph in BRACKETS]
    free = [b for b in brackets if not any(_one_chart(b, s) and same_place(b, s, SIDE) for s in squares)]
    beside = (
        _one_chart(b, s) and abs(b.x - s.x) < COLUMN * max(s.sight.size) and not same_place(b, s, SIDE)
        for s in squares
        for b in brackets
    )
    crossed = sum("cross" in air_at(s, list(seen)) for s in squares)
    of_bone = all(s.frequency_hz <= MOST_BONE_HZ for s in squares)
    return of_bone and len(free) >= FEWEST_BRACKETS and 2 * crossed > len(squares) and not any(beside)


def _one_chart(one: Mark, other: Mark) -> bool:
    return one.sight.area == other.sight.area
