"""Whether a chart shows two tests, one laid over the other: an earlier one in grey, or both in one ink."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

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
FEWEST_MASKED, PARTNERED = 3, 2 / 3
"""So many masked values make a row that tells: where a smaller share of them has an unmasked one at its frequency, they
stand instead of unmasked ones. On 5,600 painted pages 80 that lie on one another all the same are right, and on pages
of a stranger an angle in a triangle was seen as a circle in it."""
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


def overlaid_asked(kept: list[Candidate], candidates: list[Candidate]) -> list[Candidate]:
    """Ask about what may be made by marks that lie on one another: two tests, pairs, and marks that are half hidden.

    Parameters
    ----------
    kept : list of Candidate
        The chart's values with their marks, one a slot.
    candidates : list of Candidate
        All that was found, several a slot.
    """
    return both_asked(kept) if two_tests(candidates) else covered_asked(twins_asked(kept))


def both_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask of which of two tests every value is."""
    return [asking(c, "test-date-uncertain") for c in candidates]


def twins_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about masked and unmasked values of an ear that lie on one another, where one of them may be nothing.

    Masked air asks where the unmasked is faint: both may be parts of other marks, as a cross on two triangles of bone
    looks like a cross in a square. And both ask where the others of their row do not stand in pairs.
    """
    doubtful: set[int] = set()
    for masked, other in _twins(candidates):
        faint = "faint" in other.threshold.why_ask and masked.threshold.conduction == "air"
        doubtful |= {id(masked)} if faint and same_place(masked.mark, other.mark, TWIN) else set()
        doubtful |= set() if _in_pairs(masked, candidates) else {id(masked), id(other)}
    return [asking(c, "marks-overlap") if id(c) in doubtful else c for c in candidates]


def covered_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about an ear's masked air that stands only on the other ear's marks, and beside none of its own.

    A circle that hides the middle of a cross leaves four corners, as a square would. Of values of painted pages that
    stood as sure ten on 2 of 5,600 pages are such, and right.
    """
    air = [c for c in candidates if c.threshold.conduction == "air" and not c.mark.sight.apart]
    asked: set[int] = set()
    for ear in ("right", "left"):
        masked = [c for c in air if c.threshold.ear == ear and c.threshold.masked]
        others = [c.mark for c in air if c.threshold.ear not in (ear, "unspecified") and not c.threshold.masked]
        own = {c.threshold.frequency_hz for c in air if c.threshold.ear == ear and not c.threshold.masked}
        alone = own and not own & {c.threshold.frequency_hz for c in masked}
        if alone and all(any(same_place(c.mark, o, TWIN) for o in others) for c in masked):
            asked |= {id(c) for c in masked}
    return [asking(c, "marks-overlap") if id(c) in asked else c for c in candidates]


def _twins(candidates: list[Candidate]) -> Iterator[tuple[Candidate, Candidate]]:
    """Give the pairs of a masked and an unmasked value that are one but for the masking, as a picture shows them."""
    seen = [c for c in candidates if not c.mark.sight.apart]
    for masked in (c for c in seen if c.threshold.masked):
        alike = (c for c in seen if c.threshold.frequency_hz == masked.threshold.frequency_hz)
        for other in _unmasked(masked, alike):
            if other.threshold.level_db_hl == masked.threshold.level_db_hl:
                yield masked, other


def _unmasked(masked: Candidate, candidates: Iterable[Candidate]) -> list[Candidate]:
    return [c for c in candidates if not c.threshold.masked and _row(c) == _row(masked)]


def _in_pairs(masked: Candidate, candidates: list[Candidate]) -> bool:
    """Say whether the masked values of a row have unmasked ones at their frequencies, or are too few to tell."""
    row = {c.threshold.frequency_hz for c in candidates if c.threshold.masked and _row(c) == _row(masked)}
    partners = row & {c.threshold.frequency_hz for c in _unmasked(masked, candidates)}
    return len(row) < FEWEST_MASKED or len(partners) >= PARTNERED * len(row)


def _row(candidate: Candidate) -> tuple[object, ...]:
    t = candidate.threshold
    return t.ear, t.conduction, t.measure, t.aided
