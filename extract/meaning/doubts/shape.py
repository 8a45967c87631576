"""Whether a mark's shape may be another, or made by strokes of others."""

from __future__ import annotations

from ...chart import Mark, MeasuredChart
from ...sightings import MarkSight, alike
from ..nearby import BOTH_SCORE, another, flanked, one_stroke, same_place, side_of_square
from ..symbols.convention import FILLED, Convention

OUTSHONE_SCORE = 0.64
"""A mark with a stronger glyph at its place is sure only from this score: crossing strokes make shapes of their own."""
CROWDED_SCORE, ONE_PLACE = 0.7, 0.2
"""The same where two other marks stand at its place, within so many sizes: of 66 such values of painted pages by hand 2
were none."""
RIVAL, RIVAL_FILLED = 0.5, 0.25
"""Shares of a mark's score from which a shape like it may be what stands there; lines and other marks over a filled
circle or cross hide that it is filled. Of 275 values of painted pages with a rival from 0.4 to 0.5, 2 were wrong."""
ONE_STROKE = 0.45
"""The same of a bone mark that a hand draws alike, as `>` and `]`, unless both are there: of 54 values of painted pages
by hand with such a rival, 6 had the wrong masking."""
FLANKED, CLEAR_ROUND = 0.4, 0.7
"""A circle or square is asked about where shapes on both sides of it, that together look like one, are so strong; by
hand only where it is not seen so clearly: of 133 such circles of painted pages by hand no clear one was wrong."""


def two_readings(sight: MarkSight, convention: Convention) -> bool:
    """Say whether a shape that a mark may be taken for is seen there as well; less of a filled one will do."""
    one = max((score for glyph, score in sight.rivals if one_stroke(glyph, sight.glyph)), default=0.0)
    if ONE_STROKE * sight.score < one < BOTH_SCORE and not sight.apart:
        return True
    told = ((glyph, score) for glyph, score in sight.rivals if alike(glyph, sight.glyph))
    filled = FILLED & convention.symbol_set.meanings.keys()
    return any(score > (RIVAL_FILLED if glyph in filled else RIVAL) * sight.score for glyph, score in told)


def outshone(mark: Mark, chart: MeasuredChart, taken: tuple[Mark, ...], *, by_hand: bool) -> bool:
    """Say whether what stands at the mark's place may be other marks that look like it together."""
    sight = mark.sight
    if sight.apart:
        return False
    stronger = any(score > sight.score for _, score in sight.rivals)
    if sight.score < CROWDED_SCORE and sum(another(o, mark) and same_place(o, mark, ONE_PLACE) for o in taken) > 1:
        return True
    closed = sight.glyph in ("circle", "square") and not (by_hand and sight.score >= CLEAR_ROUND)
    made_of_two = closed and flanked(mark, chart.marks) > FLANKED
    weak = sight.score < OUTSHONE_SCORE
    return made_of_two or (stronger and weak) or side_of_square(mark, taken)
