"""What stands at or near a mark: alike shapes, overlapping places, and whose an arrow or an ink there is."""

from __future__ import annotations

from ...interpret.record import Ear
from ...interpret.symbols import Glyph
from ..chart import Mark

ALIKE: tuple[frozenset[Glyph], ...] = (
    frozenset({"circle", "circle-filled"}),
    frozenset({"cross", "cross-filled"}),
    frozenset({"triangle", "triangle-filled", "caret", "letter-a"}),
    frozenset({"square", "square-filled", "bracket-left", "bracket-right"}),
    frozenset({"caret", "vee"}),
    frozenset({"bracket-left", "half-bracket-left", "foot-right"}),
    frozenset({"bracket-right", "half-bracket-right", "foot-left"}),
    frozenset({"letter-m", "letter-u"}),
)
"""Shapes that may be taken for one another; two of one group at one place are one mark."""


ARROW_SURE = 0.6
"""Peak from which an arrow hangs from a mark that shares its place with no other: of some 3,000 painted marks on drawn,
scanned and faxed pages of the training families none that was heard had such a peak."""


def alike(one: Glyph, other: Glyph) -> bool:
    """Say whether two glyphs may be taken for one another."""
    return any(one in group and other in group for group in ALIKE)


def same_place(one: Mark, other: Mark, share: float = 0.3) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.sight.size, *other.sight.size)
    return abs(one.x - other.x) < reach and abs(one.y - other.y) < reach


def another(one: Mark, other: Mark) -> bool:
    """Say whether two marks are not the same sight."""
    return (one.sight.glyph, one.sight.at) != (other.sight.glyph, other.sight.at)


def colour_differs(mark: Mark, ear: Ear, taken: tuple[Mark, ...]) -> bool:
    """Say whether the mark's ink names the other ear, unless a mark in that ink stands at the same place."""
    red, blue = mark.sight.red, mark.sight.blue
    wrong, right = (blue, red) if ear == "right" else (red, blue) if ear == "left" else (0.0, 1.0)
    if wrong < 0.5 or right > wrong:
        return False
    return not any(another(other, mark) and same_place(mark, other, 0.5) for other in taken)


def heard(mark: Mark, ear: Ear, taken: tuple[Mark, ...]) -> tuple[bool, bool]:
    """Say whether the mark was heard (no arrow), and whether that is certain."""
    left, right, down = mark.sight.arrows
    near = [o for o in taken if another(o, mark) and same_place(mark, o, 0.35)]
    strongest = max(left, right, down)
    if not near:
        return strongest < 0.5, not 0.2 < strongest < ARROW_SURE
    own, others = (left, right) if ear == "right" else (right, left) if ear == "left" else (down, max(left, right))
    if strongest < 0.2:
        return True, True
    if left > 0.7 and right > 0.7:
        return False, True
    # one arrow at a place of two marks: its side tells whose it is
    if (own > 0.7 and others < 0.2) or (down > 0.7 and own < 0.2 and others < 0.2):
        return False, own > 0.7
    if others > 0.7 and own < 0.15 and down < 0.15:
        return True, True
    return own < 0.5, False
