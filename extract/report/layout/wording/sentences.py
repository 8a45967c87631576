"""Sentences of a text, and which ear one gives to its values."""

from __future__ import annotations

from collections.abc import Sequence

from ..tokens import Token
from .phrases import ear_behind

ABBREVIATED = 3
"""Behind a word of so few letters a full stop ends no sentence: "Feb. 2028"."""
EARS = frozenset({"right", "left"})


def sentence_around(part: Sequence[Token], at: int) -> range:
    """Give the places of the sentence that a token stands in."""
    start = next((number + 1 for number in range(at - 1, 0, -1) if _ends(part, number)), 0)
    stop = next((number for number in range(max(at, 1), len(part)) if _ends(part, number)), len(part))
    return range(start, stop)


def _ends(part: Sequence[Token], at: int) -> bool:
    if part[at].text != "." or at + 1 >= len(part):
        return False
    before, behind = part[at - 1], part[at + 1]
    return behind.text[:1].isupper() and (before.kind in ("number", "unit") or len(before.text) > ABBREVIATED)


def each_names_its_ear(cell: Sequence[Token], at: int) -> bool:
    """Say whether a sentence gives every value its ear behind it: "25 dB on the right and 40 dB on the left".

    An ear has nothing to belong to but the value before it where none is named before the first value, and none of
    the values stands behind the last ear, if no word was misread. Masking is done on the other ear: with it nothing is
    clear.
    """
    places = sentence_around(cell, at)
    numbers = [n for n in places if cell[n].kind == "number" and cell[n].unit not in (None, "Hz", "kHz")]
    ears = [n for n in places if cell[n].kind == "label" and cell[n].meanings & EARS]
    said = {meaning for n in places for meaning in cell[n].meanings}
    if (
        not all(cell[n].well_read for n in places)
        or len(ears) != 2
        or not numbers
        or cell[ears[0]].meanings == cell[ears[1]].meanings
    ):
        return False
    if said & {"masking", "masked", "both"} or any(cell[n].text in "()" for n in range(numbers[0], ears[1])):
        return False
    behind = {ear_behind(cell, n) for n in numbers}
    return numbers[0] < ears[0] < numbers[-1] < ears[1] and set(ears) <= behind
