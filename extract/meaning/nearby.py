"""Which peaks are marks, and what stands near one: alike shapes, overlaps, and whose an arrow or an ink there is."""

from __future__ import annotations

from collections import Counter

from ...interpret.record import Ear
from ...interpret.symbols import Glyph
from ..chart import Mark
from ..sightings import alike

ACCEPT = 0.45
"""Least score of a mark that is taken for one; a weaker one is reported as possibly missing."""
DOUBTFUL = 0.16
BOTH_SCORE = 0.6
"""Two shapes that may be taken for one another at one place are both there from this score of the weaker."""
BENEATH_SCORE = 0.33
BESIDE_SCORE = 0.25
ONE_PEAK = 0.08
"""A shape at the place of a stronger one that it is like may be a mark beneath it: from ``BENEATH_SCORE``,
or from ``BESIDE_SCORE`` where it stands more than ``ONE_PEAK`` sizes off. Of 658 such shapes on 160 scans of the
training families 53 are marks; of the 65 from 0.4 19, of the 48 off it from ``BESIDE_SCORE`` 12."""
ONE_PLACE = 0.35
"""Marks within so many sizes of one another share the arrows of their place."""
ARROW_SURE = 0.6
"""Peak from which an arrow is certain where its owner is: of some 3,000 painted marks of the training families, drawn,
scanned and faxed, that share their place with no other, none that was heard had such a peak; nor had any of some 100
with such peaks on both sides. One that was heard had it over a bracket, which looked like an arrow without a tip."""

DEEP_DB, END_DB = 12.5, 2.5
"""How near the last printed level a weaker peak of an arrow is a doubt already, where marks share their place and where
one stands alone: of 240 values of painted pages that stand alone above the end and asked for a peak below 0.2, or below
0.3 with no arrow near, none had an arrow."""
LEFT_SIDE: frozenset[Glyph] = frozenset({"angle-left", "bracket-left", "half-bracket-right"})
RIGHT_SIDE: frozenset[Glyph] = frozenset({"angle-right", "bracket-right", "half-bracket-left"})


def same_place(one: Mark, other: Mark, share: float = 0.3) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.sight.size, *other.sight.size)
    return abs(one.x - other.x) < reach and abs(one.y - other.y) < reach


def another(one: Mark, other: Mark) -> bool:
    """Say whether two marks are not the same sight."""
    return (one.sight.glyph, one.sight.at) != (other.sight.glyph, other.sight.at)


def one_stroke(one: Glyph, other: Glyph) -> bool:
    """Say whether one drawing may be either glyph: alike ones, and a hand's `>` with a round back and its `]`."""
    return alike(one, other) or any({one, other} <= side for side in (LEFT_SIDE, RIGHT_SIDE))


def chosen(marks: tuple[Mark, ...]) -> tuple[list[Mark], list[Mark]]:
    """Take the marks that are strong enough, the best of each group of alike shapes at one place."""
    taken: list[Mark] = []
    weak: list[Mark] = []
    for mark in sorted(marks, key=lambda m: -m.sight.score):
        rival = next((t for t in taken if same_place(t, mark) and one_stroke(t.sight.glyph, mark.sight.glyph)), None)
        if rival is not None and mark.sight.score < BOTH_SCORE:
            if mark.sight.score >= (BENEATH_SCORE if same_place(rival, mark, ONE_PEAK) else BESIDE_SCORE):
                weak.append(mark)
            continue
        if mark.sight.score >= ACCEPT:
            taken.append(mark)
        elif mark.sight.score >= DOUBTFUL:
            weak.append(mark)
    return taken, weak


NO_ARROW_APART = 0.3
"""Peak up to which a mark seen apart has no arrow: of 3,103 marks without one on drawn pages of the painter's training
families 4 had more, none over 0.35; of 318 with an arrow all but one had 0.54 or more."""
TIP_SURE = 0.5
"""Peak from which an arrow's tip is certain."""
FAINT_TIP = 0.3
"""Peak up to which a tip may be any crossing of strokes."""
FAINT_ARROW, FAINTER_TIP = 0.12, 0.2
"""Peaks from which an arrow and its tip, both too faint to tell alone, tell together: of 130 values of painted pages
that stood as sure and heard 3 had an arrow, of 93,000 others 5."""
LEAST_ARROW = 0.3
HIDDEN_ARROW = 0.2
LEAST_ARROW_DEEP = 0.1
ARROW_HIDDEN, BELOW = 2.0, 0.2
"""Peak up to which a mark has no arrow; the same with a mark so many sizes off and so many lower, and an arrow as near;
and at the last printed level. Of the arrows on 110 painted scans two had less than 0.4; of marks without one 2% have
more than 0.2."""
HALF_SEEN, CLEAR_ARROW, FEWEST_HALF_SEEN = 0.3, 0.75, 3
STRANGE_ARROW = 0.08
"""Where so many arrows of a chart have such peaks and none a clear one, marks up to the last peak have none: heads
without a shaft, as some programs hang them below a mark, have 0.08 to 0.6, and known arrows 0.8 and more."""
BOTH_ARROWS = 0.8
"""Two arrows at one place of two marks are one of each from this score on."""
RIGHT_SHAPES = LEFT_SIDE | {"circle", "circle-filled", "triangle"}
LEFT_SHAPES = RIGHT_SIDE | {"cross", "cross-filled", "square"}
DOWN, DOWN_TIP, DOWN_CLEAR = 2, 0.55, 0.85
"""An arrow straight down is certain from such a tip or peak on: a line of the grid below a bracket looks like one.
Of 54 such values of 600 painted pages that stood as sure all have tips of 0.6; on a stranger's fax dashes had 0.5."""
ARROW_REACH = 1.6
"""Marks closer than so many sizes, and their arrows, run into one another."""
SHARED_ARROW = 0.4


def heard(
    mark: Mark,
    ear: Ear,
    taken: tuple[Mark, ...],
    *,
    deepest_db: float,
    earless: frozenset[Glyph] = frozenset(),
    with_any: bool = False,
    louder: bool = True,
) -> tuple[bool, bool]:
    """Say whether the mark was heard (no arrow), and whether that is certain.

    An arrow is seen twice: at its mark's centre, and at its tip, which says where its mark is. ``deepest_db`` is the
    last printed level: near it most marks have arrows, whose tips may be cut off. ``earless`` are shapes that do not
    name the ear which most symbol sets give them, on this page. ``with_any`` says that the mark was not heard where any
    other of its ear at its place was not, ``louder`` that louder tones of its kind were heard, or may have been.
    """
    strongest = max(mark.sight.arrows)
    if mark.sight.apart:
        return strongest < 0.5, strongest <= NO_ARROW_APART or strongest >= ARROW_SURE
    others = [o for o in taken if another(o, mark)]
    near = [o for o in others if same_place(mark, o, ONE_PLACE)]
    room_db = deepest_db - mark.level_db_hl
    below = marks_below(mark, taken)
    if near:
        least = HIDDEN_ARROW if below else LEAST_ARROW
        least = STRANGE_ARROW if strange_arrows(taken) else LEAST_ARROW_DEEP if room_db < DEEP_DB else least
        one_ear = not with_any and any(ear_by_shape(o) == ear_by_shape(mark) for o in near)
        one_ear = one_ear or any(o.sight.glyph in earless for o in near)
        return _heard_among(mark, ear, one_ear=one_ear, least=least)
    way = mark.sight.arrows.index(strongest)
    if strongest >= ARROW_SURE:
        shared = (below and (louder or _astray(way, ear))) or _points_elsewhere(mark, way)
        shared = shared or _arrow_shared(mark, ear, taken)
        dangling = way == DOWN and strongest < DOWN_CLEAR and tip(mark, way) < DOWN_TIP
        return False, (tip(mark, way) >= TIP_SURE or not shared) and not dangling
    if strongest <= _least_alone(mark, taken, below=below, room_db=room_db):
        return True, tip(mark) < (TIP_SURE if strongest <= FAINT_ARROW else FAINTER_TIP)
    return strongest < 0.5, False


def _least_alone(mark: Mark, taken: tuple[Mark, ...], *, below: bool, room_db: float) -> float:
    """Give the peak up to which a mark that shares its place with no other has no arrow.

    A mark below may hide the better part of one, and so may the chart's end; but where no arrow is seen near, so faint
    a peak is none of another's either. ``room_db`` is how far the last printed level is.
    """
    if strange_arrows(taken):
        return STRANGE_ARROW
    if room_db < END_DB:
        return LEAST_ARROW_DEEP
    near = (o for o in taken if another(o, mark) and same_place(mark, o, ARROW_HIDDEN))
    hidden = below or room_db < DEEP_DB
    return HIDDEN_ARROW if hidden and any(max(o.sight.arrows) >= LEAST_ARROW for o in near) else LEAST_ARROW


def marks_below(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether marks stand so close below a mark that they may hide its arrow."""
    near = (o for o in taken if another(o, mark) and same_place(mark, o, ARROW_HIDDEN))
    return any(o.y - mark.y > BELOW * max(mark.sight.size) for o in near)


def strange_arrows(taken: tuple[Mark, ...]) -> bool:
    """Say whether the arrows of a chart are of a shape that is hardly known: some are half seen, and none is clear."""
    strongest = [max(m.sight.arrows) for m in taken if not m.sight.apart]
    return sum(peak >= HALF_SEEN for peak in strongest) >= FEWEST_HALF_SEEN and max(strongest) < CLEAR_ARROW


def tip(mark: Mark, *ways: int) -> float:
    """Give the strongest tip of an arrow that hangs from a mark, of some ways or of any, 0 to 1."""
    return max((t.score for t in mark.sight.tips if not ways or t.way in ways), default=0.0)


def _points_elsewhere(mark: Mark, way: int) -> bool:
    """Say whether the tip of a slanting arrow lies on the other side: then it may hang from a mark over there."""
    return way < 2 and tip(mark, way) < FAINT_TIP and tip(mark, 1 - way) >= TIP_SURE


def _heard_among(mark: Mark, ear: Ear, *, one_ear: bool, least: float) -> tuple[bool, bool]:
    """Say whether a mark was heard that stands at one place with others: the side of an arrow tells whose it is.

    ``one_ear`` says that one of the others may be of the same ear; up to the peak ``least`` there is no arrow.
    """
    left, right, down = mark.sight.arrows
    strongest = max(left, right, down)
    own, others = (left, right) if ear == "right" else (right, left) if ear == "left" else (down, max(left, right))
    if strongest <= least:
        return True, tip(mark) < (FAINT_TIP if strongest <= FAINT_ARROW else FAINTER_TIP)
    if one_ear:
        return own < 0.5, False  # the arrow may be either's
    if min(left, right) > BOTH_ARROWS:
        return False, True
    if ear in ("right", "left"):
        way = 0 if ear == "right" else 1
        if own >= ARROW_SURE and tip(mark, way) >= TIP_SURE:
            return False, True
        only_others = max(own, down) < LEAST_ARROW and tip(mark, way, 2) < FAINT_TIP
        if others >= ARROW_SURE and only_others and tip(mark, 1 - way) >= TIP_SURE:
            return True, True
    # one arrow at a place of two marks
    if (own > 0.7 and others < 0.2) or (down > 0.7 and own < 0.2 and others < 0.2):
        return False, own > 0.7
    if others > 0.7 and own < 0.15 and down < 0.15:
        return True, True
    return own < 0.5, False


def ear_by_shape(mark: Mark) -> str:
    """Name the ear that most symbol sets give a shape; its own name where they give none."""
    glyph = mark.sight.glyph
    if glyph in RIGHT_SHAPES:
        return "right"
    return "left" if glyph in LEFT_SHAPES else glyph


def _arrow_shared(mark: Mark, ear: Ear, taken: tuple[Mark, ...]) -> bool:
    """Say whether a mark's arrow may hang from another mark close by.

    So it may where the other shows an arrow of the same direction, or where it points away from the mark's own ear
    (an arrow of the right ear points left on the page, one of the left ear right; ASHA 1990).
    """
    way = max(range(3), key=lambda i: mark.sight.arrows[i])
    astray = _astray(way, ear)
    close = [o for o in taken if another(o, mark) and same_place(o, mark, ARROW_REACH)]
    return any(o.sight.arrows[way] > SHARED_ARROW or astray for o in close)


def _astray(way: int, ear: Ear) -> bool:
    return (way, ear) in {(0, "left"), (1, "right")}


def flanked(mark: Mark, marks: tuple[Mark, ...]) -> float:
    """Say how strongly shapes open toward a mark are seen on both its sides, within its own outline.

    ``[`` or ``<`` and ``>`` or ``]`` at one level close to a circle or a square: of the painted circles with both at
    0.4 or more one in six was no circle.

    Returns
    -------
    float
        The weaker of the two sides' strongest scores, 0 to 1.
    """
    size = max(mark.sight.size)

    def side(glyphs: frozenset[Glyph], way: int) -> float:
        there = (o for o in marks if o.sight.glyph in glyphs and abs(o.y - mark.y) < 0.25 * size)
        return max((o.sight.score for o in there if -0.1 < way * (o.x - mark.x) / size < 0.65), default=0.0)

    return min(side(LEFT_SIDE, -1), side(RIGHT_SIDE, 1))


def side_of_square(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a bracket may be a side of a square that stands at its level, as the square may be two brackets."""
    if mark.sight.glyph not in ("bracket-left", "bracket-right"):
        return False
    squares = (o for o in taken if o.sight.glyph == "square" and abs(o.y - mark.y) < 0.2 * mark.sight.size[1])
    return any(abs(o.x - mark.x) < 0.8 * o.sight.size[0] for o in squares)


ROW = 3
"""So many marks of a shape are a row, to which a single one like it may belong."""
LONE_CLEAR = 0.8
"""Score from which a machine's only angle or bracket is none of a row of the other shape: of 79 such values of as many
painted pages that asked all were right; of those less clear, or by hand, every third was none or another."""


def stray_shape(mark: Mark, taken: tuple[Mark, ...], *, by_machine: bool) -> bool:
    """Say whether a mark may be one of a row of a shape like it.

    A hand's `>` with a round back is such a one, or what strokes of another mark at its place closed. ``by_machine``
    says that no hand drew the marks.
    """
    shapes: Counter[Glyph] = Counter(m.sight.glyph for m in taken)
    if mark.sight.apart or shapes[mark.sight.glyph] > 1:
        return False
    rows: list[Glyph] = [o for o, n in shapes.items() if n >= ROW and o != mark.sight.glyph]
    clear = by_machine and mark.sight.score >= LONE_CLEAR
    if not clear and any(one_stroke(o, mark.sight.glyph) and not alike(o, mark.sight.glyph) for o in rows):
        return True
    row = any(alike(o, mark.sight.glyph) for o in rows)
    return row and any(another(o, mark) and same_place(o, mark, 0.55) for o in taken)
