"""Marks that lie beneath others: what is left of them is told as possibly missing, never as a value."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from ...interpret.symbols import Glyph, Meaning
from ..chart import Mark
from ..sightings import MarkSight, alike
from .nearby import BOTH_SCORE, another, same_place
from .symbols.convention import Convention

GHOST_SCORE = 0.3
"""A weak peak below it is told only of a shape that the chart holds, where no mark stands."""
FEWEST_WEAK = 2
"""Weak peaks of one shape that are a row of its own."""
BENEATH_SCORE, SQUARE_BENEATH = 0.2, 0.15
"""Peaks from which a shape, and a square, in another mark may be one that the mark covers, if it belongs to a row: of
1,829 such on painted pages of the training families 436 were marks, of 130 squares 38."""
FEWEST_COVERED, COVERED_SCORE = 3, 0.16
"""So many weak peaks of one shape, each beneath another mark, are a row that the other covers whole; thick angles over
thin half brackets, a word's letters over air."""
COLUMN, COVER = 0.3, 0.45
"""How far aside, in sizes, a mark stands at most at the frequency of another; and how far from it what it covers."""


def ghost(mark: Mark, taken: tuple[Mark, ...], weak: list[Mark]) -> bool:
    """Say whether a weak peak is nothing to tell: strokes of a mark that was read there, or a shape of no row."""
    if mark.sight.score >= GHOST_SCORE:
        return False
    row = sum(o.sight.glyph == mark.sight.glyph for o in weak)
    strange = row < FEWEST_WEAK and all(o.sight.glyph != mark.sight.glyph for o in taken)
    return strange or any(same_place(o, mark) and o.sight.score >= BOTH_SCORE for o in taken)


def beneath(marks: Sequence[Mark], taken: Sequence[Mark], told: Sequence[Mark]) -> list[Mark]:
    """Give what other marks may cover.

    Parameters
    ----------
    marks : sequence of Mark
        All peaks of a chart.
    taken : sequence of Mark
        Those that are read.
    told : sequence of Mark
        Those that are told as possibly missing for what they are.

    Returns
    -------
    list of Mark
        What was seen in a mark that was read, too weak to be one itself, of a shape that the chart shows elsewhere and
        not at this frequency; or of one that is seen so at several frequencies, and read at none.
    """
    read: Counter[Glyph] = Counter(m.sight.glyph for m in taken)
    looks = [m for m in _looks(marks, taken) if not any(_in_column(m, t) for t in (*taken, *told))]
    least = {"square": SQUARE_BENEATH}
    rows = [m for m in looks if read[m.sight.glyph] and m.sight.score >= least.get(m.sight.glyph, BENEATH_SCORE)]
    unread = [m for m in looks if not read[m.sight.glyph] and m.sight.score >= COVERED_SCORE]
    unlike = [m for m in unread if not any(alike(m.sight.glyph, t.sight.glyph) and same_place(t, m) for t in taken)]
    return _one_a_column(rows + [m for m in unlike if len(_one_a_column(_like(m, unlike))) >= FEWEST_COVERED])


def _looks(marks: Sequence[Mark], taken: Sequence[Mark]) -> list[Mark]:
    """Give the peaks and looks of other shapes at marks that were read."""
    covers = [t for t in taken if not t.sight.apart]
    rivals = ((t, glyph, score) for t in covers for glyph, score in t.sight.rivals if score >= SQUARE_BENEATH)
    looks = [replace(t, sight=replace(t.sight, glyph=glyph, score=score)) for t, glyph, score in rivals]
    read = {(t.sight.glyph, t.sight.at) for t in taken}
    weak = (m for m in marks if m.sight.score >= SQUARE_BENEATH and (m.sight.glyph, m.sight.at) not in read)
    return looks + [m for m in weak if not m.sight.apart and any(same_place(t, m, COVER) for t in covers)]


def _in_column(one: Mark, other: Mark) -> bool:
    """Say whether two marks are of one shape and frequency."""
    return one.sight.glyph == other.sight.glyph and abs(one.x - other.x) < COLUMN * max(one.sight.size)


def _like(mark: Mark, others: list[Mark]) -> list[Mark]:
    return [o for o in others if o.sight.glyph == mark.sight.glyph]


def _one_a_column(marks: list[Mark]) -> list[Mark]:
    """Give the clearest of each shape at a frequency."""
    kept: list[Mark] = []
    for mark in sorted(marks, key=lambda m: -m.sight.score):
        if not any(_in_column(mark, k) for k in kept):
            kept.append(mark)
    return kept


def other_ears(mark: Mark, meaning: Meaning) -> list[Mark]:
    """Give the other ear's mark that may lie exactly beneath one whose ear only ink names, where both inks are seen."""
    red, blue = mark.sight.red, mark.sight.blue
    if meaning.ear != "by-colour" or not 0.25 < min(red, blue) <= 0.6:
        return []
    return [replace(mark, sight=replace(mark.sight, red=float(blue >= red), blue=float(red > blue)))]


def two_brackets(mark: Mark, convention: Convention) -> list[Mark]:
    """Give the brackets that a square may be, where the page's set may be one without squares."""
    if mark.sight.glyph != "square" or "square" not in convention.open_glyphs:
        return []
    sides: tuple[Glyph, ...] = ("bracket-left", "bracket-right")
    return [replace(mark, sight=replace(mark.sight, glyph=side)) for side in sides]


def in_each_ink(mark: Mark, meaning: Meaning, taken: tuple[Mark, ...]) -> list[MarkSight]:
    """Give a mark once, or twice where only ink names the ear and both inks are seen with no other mark to own one."""
    sight = mark.sight
    both = min(sight.red, sight.blue) > 0.6
    alone = not any(another(o, mark) and same_place(o, mark, 0.45) for o in taken)
    if meaning.ear == "by-colour" and both and alone:
        return [replace(sight, blue=0.0), replace(sight, red=0.0)]
    return [sight]
