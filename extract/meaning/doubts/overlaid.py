"""Whether a chart shows two tests, one laid over the other: an earlier one in grey, or both in one ink."""

from __future__ import annotations

from collections import Counter

from ...chart import Mark
from ..nearby import ACCEPT, another, same_place
from ..slots import Candidate, asking

FEWEST_GREY, FEWEST_COLOURED = 3, 4
"""So many marks without colour, and so many in colour, are two tests where both have the same shapes."""
NO_COLOUR = 0.3
"""Share of a mark's ink in red or in blue up to which it has no colour."""
FEWEST_TWICE = 3
"""So many values of an ear, in so many levels each, are no slips of a pen."""
CLEAR = 0.6
TWIN = 0.4
"""So near, in sizes, marks lie on one another that may be one shape."""
DIFFERENT_DB = 4.0
"""Two tests differ by a step of 5 dB or more; what differs by less is one mark seen twice."""


def grey_of_earlier(taken: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Give the marks without colour that an earlier test may have left on a chart that was filled in with colours.

    Where only some kinds of marks have a colour, as bone in black beside air in red and blue, none is of an earlier
    test: the same shape must stand in colour too.
    """
    free = [m for m in taken if not any(another(o, m) and same_place(o, m, 0.8) for o in taken)]
    grey = [m for m in free if _grey(m)]
    coloured = [m for m in free if m.sight.score >= ACCEPT and m.sight.ink != "neutral"]
    shapes = {m.sight.glyph for m in coloured}
    twice = sum(m.sight.glyph in shapes for m in grey)
    if twice < FEWEST_GREY or len(coloured) < FEWEST_COLOURED:
        return ()
    return tuple(m for m in taken if _grey(m))


def _grey(mark: Mark) -> bool:
    return max(mark.sight.red, mark.sight.blue) <= NO_COLOUR


def earlier_asked(candidates: list[Candidate], grey: tuple[Mark, ...]) -> list[Candidate]:
    """Ask of which day the values of grey marks are; where a mark in colour fills their slot they are left out."""
    places = {m.sight.at for m in grey}
    now = {c.slot for c in candidates if c.mark.sight.at not in places}
    return [
        asking(c, "test-date-uncertain") if c.mark.sight.at in places else c
        for c in candidates
        if c.mark.sight.at not in places or c.slot not in now
    ]


def two_tests(candidates: list[Candidate]) -> bool:
    """Say whether so many slots are filled twice, clearly and at two levels, that the chart holds two tests."""
    clear = [c for c in candidates if c.mark.sight.score >= CLEAR and c.threshold.ear != "unspecified"]
    levels: dict[tuple[object, ...], set[float]] = {}
    for c in clear:
        levels.setdefault(c.slot, set()).add(c.threshold.level_db_hl)
    rows = Counter(slot[:-1] for slot, found in levels.items() if max(found) - min(found) > DIFFERENT_DB)
    return max(rows.values(), default=0) >= FEWEST_TWICE


def both_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask of which of two tests every value is."""
    return [asking(c, "test-date-uncertain") for c in candidates]


def twins_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about masked air on which unmasked air of its ear lies that may be nothing.

    Both may be parts of other marks then: a cross on two triangles of bone looks like a cross in a square.
    """
    faint = [c for c in candidates if "faint" in c.threshold.why_ask]
    return [
        asking(c, "marks-overlap")
        if not c.mark.sight.apart and any(_are_twins(c, o) and same_place(c.mark, o.mark, TWIN) for o in faint)
        else c
        for c in candidates
    ]


def _are_twins(masked: Candidate, other: Candidate) -> bool:
    """Say whether two values of air are one but for the masking."""
    a, b = masked.threshold, other.threshold
    same = (a.ear, a.conduction, a.measure, a.aided, a.frequency_hz, a.level_db_hl)
    mine = (b.ear, b.conduction, b.measure, b.aided, b.frequency_hz, b.level_db_hl)
    return a.masked and not b.masked and a.conduction == "air" and same == mine
