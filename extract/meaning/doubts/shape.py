"""Whether a mark's shape may be another, or made by strokes of others."""

from __future__ import annotations

import math

from ....interpret.symbols import Glyph
from ...chart import Mark, MeasuredChart
from ...sightings import MarkSight, alike
from ..nearby import (
    BOTH_SCORE,
    LEFT_SIDE,
    RIGHT_SIDE,
    another,
    flanked,
    one_stroke,
    same_place,
    side_of_square,
    stray_shape,
)
from ..symbols.convention import FILLED, Convention
from ..symbols.likely import ANGLES
from .one_size import DrawnBy

OUTSHONE_SCORE = 0.64
"""A mark with a stronger glyph at its place is sure only from this score: crossing strokes make shapes of their own."""
CROWDED_SCORE, ONE_PLACE = 0.7, 0.2
"""The same where two other marks stand at its place, within so many sizes: of 66 such values of painted pages by hand 2
were none. Strokes of others make no cross: of 99 such of painted pages that nothing else spoke against all were one."""
CLOSED_BY_CROSS: frozenset[Glyph] = frozenset({"circle", "letter-s"})
ON_CROSS_SCORE, ON_CROSS = 0.7, 0.3
"""Below this score a circle or an S may be what strokes of a cross in its ink close, within so many sizes: of 26 such
values of painted pages by hand that stood as sure 3 were, of at most 13 on pages of print one."""
RIVAL, RIVAL_FILLED = 0.5, 0.25
"""Shares of a mark's score from which a shape like it may be what stands there; lines and other marks over a filled
circle or cross hide that it is filled. Of 275 values of painted pages with a rival from 0.4 to 0.5, 2 were wrong."""
ONE_STROKE = 0.45
"""The same of a bone mark that a hand draws alike, as `>` and `]`, unless both are there: of 54 values of painted pages
by hand with such a rival, 6 had the wrong masking. Of 126 angles that looked somewhat like a bracket none had."""
HATCHED = 0.75
"""Share of the score of a mark that a hand filled, up to which it may be seen as a hollow one too: of some 250 such on
painted pages, that nothing else spoke against, none was hollow."""
FLANKED, FLANKED_WEAK, WEAK_ROUND, CLEAR_ROUND = 0.4, 0.25, 0.7, 0.75
"""A circle or square is asked about where shapes on both sides of it, that together look like one, are so strong, and
where it is itself weak, half as strong; a circle only where it is not seen so clearly: of some 600 clearer ones on
painted pages that nothing else spoke against none was wrong."""
CARETS, CARET = 2, 0.05
"""On a chart with so many carets a triangle that looks so much like one may be one, closed by a line or a mark below:
of 18 such that stood as sure on printed training pages 3 were."""
LONE_CARET = 0.12
"""The same of the only triangle of a chart: of 4 such that stood as sure on painted pages 2 were carets."""
LETTER_OR_CARET: dict[Glyph, Glyph] = {"caret": "letter-a", "letter-a": "caret"}
LETTER_LIKE = 0.2
"""Share of the score of a caret from which it may be an A of the chart, and of an A from which it may be a caret: of 29
such that stood as sure on painted pages 2 were, on 2 of 20 pages."""
FEWEST_FILLED, ON_FILLED = 2, 0.35
"""So many filled marks of its shape, on a chart where a hollow one lies so near, in sizes, on a filled one: of 7,000
painted pages two values that stood as sure were such, one of them wrong."""
POINTS_SCORE, POINTS_REACH = 0.8, 0.75
"""A cross less clear than this is asked about between bone marks that turn their points to it, within so many sizes: of
5 such that stood as sure on painted pages one was none; of 28 clearer ones all were."""
WHOLE_SCORE, FEWEST_APART = 0.75, 2
"""Where a drawing has so many figures of a mark's shape, one that no figure shows is asked about below this score:
joining lines that cross look like a cross. Of 430 such values of drawn training pages the one wrong is below it."""
CLOSED = frozenset({"circle", "triangle", "square"})
EDGE_DOWN, EDGE_ACROSS = 0.25, 0.65
"""How near a closed shape's middle, in its sizes, what looks like a bone mark may be its edge."""
OFTEN_BONE_HZ = 4900.0
"""Bone is seldom tested above 4000 Hz (ASHA 2005); half-way to 6000 Hz, for it stands beside its line. Of 9 values
above it that stood as sure on painted pages one was on an edge, and was none; so was one on a stranger's form."""
TWINS: dict[Glyph, Glyph] = {
    "angle-left": "bracket-left", "bracket-left": "angle-left",
    "angle-right": "bracket-right", "bracket-right": "angle-right",
}  # fmt: skip
MIXED = 0.15
"""Share of the score of a hand's angle or bracket from which it may be the other one, where more marks of its side are:
of 20,000 sure values of painted pages by hand some 30 ask; on a stranger's forms three of five that were wrong did."""
BOTH_LOOKS, FEWEST_BOTH = 0.65, 2
"""So many marks that look like both, the weaker by such a share of the other, tell of a hand that parts them badly."""
ARMS = (0.2, 0.8)
"""How far from a cross, in its sizes, its arms may look like an angle: of 78,000 values of painted pages 23 that stood
as sure ask, all right; on a drawn page in a loose hand such an angle stood as sure and was none."""
BOTH_CLEAR, ONE_CLEAR, BOTH_PLACE = 0.65, 0.83, 0.25
"""A hand that rounds corners draws triangles that look like circles as well. Both stand at one place, within so many
sizes, where the weaker is so strong and the other clear: of 700 such pairs on painted pages by hand 7 weaker ones were
one mark with an invented other, of some 90 that stood as sure. Of 19 pairs that stood as sure on other painted pages
with neither clear 4 were one mark, and none of 760 with a clear one; round corners let the two middles part. Of 110
that were the clear one of a pair with a weak other, on some 80 pages, all were right."""


def shape_open(
    mark: Mark, taken: tuple[Mark, ...], convention: Convention, *, drawn_by: DrawnBy, black: frozenset[Glyph]
) -> bool:
    """Say whether what stands at a mark may be another shape.

    Parameters
    ----------
    mark : Mark
        The mark.
    taken : tuple of Mark
        The marks of its chart.
    convention : Convention
        The page's symbol set.
    drawn_by : str
        Whether a hand drew the marks, or a machine.
    black : frozenset of Glyph
        Shapes that a pen without colour drew.
    """
    return (
        two_readings(mark.sight, convention, by_hand=drawn_by == "hand")
        or stray_shape(mark, taken, by_machine=drawn_by == "machine")
        or closed_caret(mark, taken)
        or letter_or_caret(mark, taken)
        or made_of_points(mark, taken)
        or hollow_on_filled(mark, taken)
        or round_cornered(mark, taken, black)
        or (drawn_by == "hand" and (mixed_row(mark, taken) or between_crosses(mark, taken)))
    )


def two_readings(sight: MarkSight, convention: Convention, *, by_hand: bool) -> bool:
    """Say whether a shape that a mark may be taken for is seen there as well; less of a filled one will do.

    A hand fills marks by hatching, which shows as a hollow one too, and draws no bracket that looks more like an angle.
    """
    rivals = sight.rivals
    if by_hand and sight.glyph in FILLED:
        hollow = sight.glyph.removesuffix("-filled")
        rivals = tuple(r for r in rivals if r[0] != hollow or r[1] > HATCHED * sight.score)
    one = max((score for glyph, score in rivals if one_stroke(glyph, sight.glyph)), default=0.0)
    if ONE_STROKE * sight.score < one < BOTH_SCORE and not sight.apart and sight.glyph not in ANGLES:
        return True
    told = ((glyph, score) for glyph, score in rivals if alike(glyph, sight.glyph))
    filled = FILLED & convention.symbol_set.meanings.keys()
    return any(score > (RIVAL_FILLED if glyph in filled else RIVAL) * sight.score for glyph, score in told)


def mixed_row(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a hand's angle may be one of its brackets, or a bracket one of its angles.

    So it may where most of its side are and it looks like them, or where the hand draws others that look like both.
    """
    twin = TWINS.get(mark.sight.glyph)
    twins = sum(o.sight.glyph == twin for o in taken)
    if not twins or mark.sight.apart:
        return False
    own = sum(o.sight.glyph == mark.sight.glyph for o in taken if another(o, mark))
    both = sum(_twin_score(o) > BOTH_LOOKS * o.sight.score for o in taken)
    return (_twin_score(mark) > MIXED * mark.sight.score and twins > own) or both >= FEWEST_BOTH


def between_crosses(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a hand's angle may be the arms of two crosses that meet at it."""
    if mark.sight.glyph not in ANGLES or mark.sight.apart:
        return False
    crosses = (o.sight for o in taken if o.sight.glyph == "cross")
    far = (math.dist(c.at, mark.sight.at) / max(c.size) for c in crosses)
    return sum(ARMS[0] < d < ARMS[1] for d in far) > 1


def _twin_score(mark: Mark) -> float:
    """Give how strongly a bone mark looks like the other one that a hand draws alike."""
    twin = TWINS.get(mark.sight.glyph)
    return max((score for glyph, score in mark.sight.rivals if glyph == twin), default=0.0)


def round_cornered(mark: Mark, taken: tuple[Mark, ...], without_colour: frozenset[Glyph]) -> bool:
    """Say whether a mark of a circle and a triangle at one place may be the other one, drawn with round corners.

    Where one is clear, that one is there, whether or not the other is. The two are not one drawing where one is seen
    in colour and the other is of a shape that a pen ``without_colour`` drew.
    """
    shapes = {"circle", "triangle"}
    if mark.sight.apart or mark.sight.glyph not in shapes:
        return False
    other = (o for o in taken if {o.sight.glyph, mark.sight.glyph} == shapes and same_place(o, mark, BOTH_PLACE))
    one = mark.sight.score
    return any(
        max(one, o.sight.score) < ONE_CLEAR or one < min(BOTH_CLEAR, o.sight.score)
        for o in other
        if not _by_two_pens(o.sight, mark.sight, without_colour)
    )


def closed_caret(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a triangle may be a caret whose open side another mark or a line closes.

    So it may on a chart of carets, or where it is the only triangle and looks somewhat like one.
    """
    if mark.sight.glyph != "triangle" or mark.sight.apart:
        return False
    like = max((score for glyph, score in mark.sight.rivals if glyph == "caret"), default=0.0)
    carets, triangles = (sum(o.sight.glyph == shape for o in taken) for shape in ("caret", "triangle"))
    return (like > CARET and carets >= CARETS) or (like > LONE_CARET and triangles == 1)


def letter_or_caret(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a caret may be one of the chart's letters A whose bar or feet are lost, or the other way round."""
    other = LETTER_OR_CARET.get(mark.sight.glyph)
    like = max((score for glyph, score in mark.sight.rivals if glyph == other), default=0.0)
    shown = any(o.sight.glyph == other for o in taken)
    return shown and like > LETTER_LIKE * mark.sight.score and not mark.sight.apart


def hollow_on_filled(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a hollow mark that lies on a filled one may be filled too, on a chart that fills its like."""
    if mark.sight.glyph not in ("circle", "cross") or mark.sight.apart:
        return False
    filled = sum(o.sight.glyph == f"{mark.sight.glyph}-filled" for o in taken)
    beneath = (o for o in taken if o.sight.glyph in FILLED and another(o, mark) and same_place(o, mark, ON_FILLED))
    return filled >= FEWEST_FILLED and any(beneath)


def made_of_points(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a cross may be the points of `>` and `<` that meet at one level."""
    sight = mark.sight
    if sight.glyph != "cross" or sight.apart or sight.score >= POINTS_SCORE:
        return False
    size = max(sight.size)
    level = [o for o in taken if abs(o.y - mark.y) < EDGE_DOWN * size]
    beside = {
        way: any(o.sight.glyph in side and 0.1 < way * (o.x - mark.x) / size < POINTS_REACH for o in level)
        for way, side in ((-1, RIGHT_SIDE), (1, LEFT_SIDE))
    }
    return all(beside.values())


def _by_two_pens(one: MarkSight, other: MarkSight, without_colour: frozenset[Glyph]) -> bool:
    plain, coloured = sorted((one, other), key=lambda s: s.glyph not in without_colour)
    return plain.glyph in without_colour and coloured.glyph not in without_colour and coloured.ink != "neutral"


def edge_of_another(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether an angle or bracket, alone of its shape on the chart or above 4000 Hz, may be a closed shape's edge.

    Loops that begin twice and sides that do not meet show such edges: of 31 such on painted pages by hand 27 were none,
    of 44 on printed ones 26.
    """
    sight = mark.sight
    if sight.glyph not in LEFT_SIDE | RIGHT_SIDE or sight.apart or sight.score >= CROWDED_SCORE:
        return False
    if mark.frequency_hz < OFTEN_BONE_HZ and sum(o.sight.glyph == sight.glyph for o in taken) > 1:
        return False
    closed = (o for o in taken if o.sight.glyph in CLOSED)
    return any(
        abs(o.y - mark.y) < EDGE_DOWN * max(o.sight.size) and abs(o.x - mark.x) < EDGE_ACROSS * max(o.sight.size)
        for o in closed
    )


def _figure_like(one: Mark, mark: Mark) -> bool:
    return one.sight.apart and one.sight.glyph == mark.sight.glyph


def outshone(mark: Mark, chart: MeasuredChart, taken: tuple[Mark, ...]) -> bool:
    """Say whether what stands at the mark's place may be other marks that look like it together."""
    sight = mark.sight
    if sight.apart:
        return False
    if sight.score < WHOLE_SCORE and sum(_figure_like(o, mark) for o in taken) >= FEWEST_APART:
        return True
    stronger = any(score > sight.score for _, score in sight.rivals)
    clear = sight.glyph == "cross" or sight.score >= CROWDED_SCORE
    if not clear and sum(another(o, mark) and same_place(o, mark, ONE_PLACE) for o in taken) > 1:
        return True
    if sight.glyph in CLOSED_BY_CROSS and sight.score < ON_CROSS_SCORE:
        crosses = (o for o in taken if o.sight.glyph == "cross" and o.sight.ink == sight.ink)
        if any(same_place(o, mark, ON_CROSS) for o in crosses):
            return True
    closed = sight.glyph == "square" or (sight.glyph == "circle" and sight.score < CLEAR_ROUND)
    made_of_two = closed and flanked(mark, chart.marks) > (FLANKED if sight.score >= WEAK_ROUND else FLANKED_WEAK)
    weak = sight.score < OUTSHONE_SCORE
    return made_of_two or (stronger and weak) or side_of_square(mark, taken) or edge_of_another(mark, taken)
