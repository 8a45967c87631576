"""Symbol sets under which two rows of marks would say the same, where another set tells them apart."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from itertools import combinations

from ....interpret.symbols import SYMBOL_SETS, Glyph, Meaning
from ...chart import Mark
from ...sightings import alike

ROW = 3
"""So many marks of a shape are a row."""
SAME_OCTAVES = 0.1


def without_doubles(possible: list[str], seen: Iterable[Mark]) -> list[str]:
    """Leave out the sets that would have a page show one thing by two signs.

    Nobody draws unmasked bone by brackets and by carets, nor uncomfortable loudness by M and by U: where a set knows
    but one of two rows and another set gives the two different meanings, it is that one.

    Parameters
    ----------
    possible : list of str
        The sets that nothing else speaks against.
    seen : iterable of Mark
        The page's clear marks.

    Returns
    -------
    list of str
        Those that are left, in their order; all where none would be. On 4,580 painted pages 26 that asked for their
        set have such rows, all of the set that tells them apart.
    """
    rows: defaultdict[Glyph, list[Mark]] = defaultdict(list)
    for mark in seen:
        rows[mark.sight.glyph].append(mark)
    long: list[Glyph] = [glyph for glyph, row in rows.items() if len(row) >= ROW]
    pairs: list[tuple[Glyph, Glyph]]
    pairs = [(a, b) for a, b in combinations(long, 2) if not alike(a, b) or _together(rows[a], rows[b])]
    left = [
        name
        for name in possible
        if not any(_same(name, *pair) and any(_apart(other, *pair) for other in possible) for pair in pairs)
    ]
    return left or possible


def _together(one: list[Mark], other: list[Mark]) -> bool:
    """Say whether two rows stand at so many frequencies together that neither is the other misread."""
    return sum(any(_at_one_frequency(a, b) for b in other) for a in one) >= ROW


def _at_one_frequency(one: Mark, other: Mark) -> bool:
    near = abs(math.log2(one.frequency_hz / other.frequency_hz)) < SAME_OCTAVES
    return near and one.sight.area == other.sight.area


def _same(name: str, one: Glyph, other: Glyph) -> bool:
    """Say whether under a set that lacks one of two glyphs both say the same."""
    meanings = SYMBOL_SETS[name].meanings
    if (one in meanings) == (other in meanings):
        return False
    kinds = [_kind(meanings[glyph]) if glyph in meanings else _borrowed(glyph) for glyph in (one, other)]
    return kinds[0] is not None and kinds[0] == kinds[1]


def _apart(name: str, one: Glyph, other: Glyph) -> bool:
    meanings = SYMBOL_SETS[name].meanings
    return one in meanings and other in meanings and _kind(meanings[one]) != _kind(meanings[other])


def _borrowed(glyph: Glyph) -> tuple[object, ...] | None:
    """Give what a glyph says wherever it is known, if that is one thing."""
    said = {_kind(known.meanings[glyph]) for known in SYMBOL_SETS.values() if glyph in known.meanings}
    return said.pop() if len(said) == 1 else None


def _kind(meaning: Meaning) -> tuple[object, ...]:
    """Give what a meaning says but for the ear."""
    return meaning.conduction, meaning.masked, meaning.aided, meaning.measure
