"""Whether the colour seen at a mark is its own, or that of another mark which lies on it."""

from __future__ import annotations

from collections.abc import Sequence

from ....interpret.record import Ear
from ....interpret.symbols import Glyph
from ...chart import Mark
from ..nearby import another, same_place

INK_REACH, INK_STRAYS = 0.8, 1.1
"""How near another mark's ink may be seen at a mark's centre, in sizes; and how near it may seldom be."""
PLAIN = 0.25
"""Share of ink without colour from which a mark has some of its own: of 70 coloured triangles by hand beneath other
marks 95% have at most 0.12 where colour was kept; black ones beneath coloured marks have 0.1 to 0.5."""
LITTLE_PLAIN, PARTLY_OFF, FEWEST_TELLING = 0.12, 0.4, 3
"""Beneath a red mark, or partly off one of any colour, a mark with so little ink without colour hardly is black. Where
so many of a shape are such, and none of its chart has no colour or some black ink, none is black: of 325 painted charts
in colour with coloured triangles beneath other marks 226 are such; of 54 with black ones none, but beneath blue marks
single black ones look like those (0.04 to 0.2)."""

CLEAR_INK, OWN_INK, FEWEST_INKED = 0.7, 0.5, 2
"""A mark in so much of the other ear's ink shows so much of its own, where so many of its like are in that: of 2,074
such values of painted scans and photos that stood as sure all but 7."""


def colour_differs(mark: Mark, ear: Ear, taken: tuple[Mark, ...]) -> bool:
    """Say whether the mark's ink names the other ear, unless a mark in that ink stands at the same place.

    Even there some of its own ink is seen, where its like have a colour: an arrow's head in a red circle is no cross.
    """
    red, blue = mark.sight.red, mark.sight.blue
    wrong, right = (blue, red) if ear == "right" else (red, blue) if ear == "left" else (0.0, 1.0)
    if wrong < 0.5 or right > wrong:
        return False
    if not any(another(other, mark) and same_place(mark, other, 0.5) for other in taken):
        return True
    alike = [o.sight for o in taken if o.sight.glyph == mark.sight.glyph and another(o, mark)]
    own = sum((o.red if ear == "right" else o.blue) >= CLEAR_INK for o in alike)
    return wrong >= CLEAR_INK and right < OWN_INK and own >= FEWEST_INKED


def ink_lent(mark: Mark, taken: tuple[Mark, ...], reach: float = INK_REACH) -> bool | None:
    """Say whether a mark's colour may be that of another mark which lies on it.

    Returns
    -------
    bool or None
        True or None where ink without colour is seen at it too. Else False where no mark of its ink lies on it, or
        where all its like that stand free have a colour; True where all those have none; None where they do not tell.
    """
    ink, plain = mark.sight.ink, mark.sight.plain
    if plain is not None and plain >= PLAIN:
        return True if any(o.sight.ink == ink for o in _upon(mark, taken, INK_STRAYS)) else None
    if not any(o.sight.ink == ink and o.sight.glyph != mark.sight.glyph for o in _upon(mark, taken, reach)):
        return False
    free = [o for o in taken if o.sight.glyph == mark.sight.glyph and not _upon(o, taken, reach)]
    black = sum(o.sight.ink == "neutral" for o in free)
    return None if not free or 0 < black < len(free) else black > 0


def coloured_shapes(taken: Sequence[Mark]) -> frozenset[Glyph]:
    """Give the shapes of a chart that show a colour of their own, though most of them lie beneath other marks.

    A form may print bone of no ear in black beside air in red and blue (BSA 2018 leaves it to the ink); such a triangle
    takes the colour of what lies on it, and black under blue looks like blue, so only what hides it in part tells.
    """
    shapes: dict[Glyph, None] = {m.sight.glyph: None for m in taken if m.sight.plain is not None}
    return frozenset(glyph for glyph in shapes if _of_own_colour([m for m in taken if m.sight.glyph == glyph], taken))


def _of_own_colour(row: list[Mark], taken: Sequence[Mark]) -> bool:
    if any(m.sight.ink == "neutral" or (m.sight.plain or 0.0) >= PLAIN for m in row):
        return False
    little = [m for m in row if m.sight.plain is not None and m.sight.plain <= LITTLE_PLAIN]
    return sum(m.sight.ink == "red" or _partly_off(m, taken) for m in little) >= FEWEST_TELLING


def _partly_off(mark: Mark, taken: Sequence[Mark]) -> bool:
    """Say whether no other shape that could lend a mark its colour hides all of it."""
    others = (o for o in taken if o.sight.glyph != mark.sight.glyph and o.sight.ink != "neutral")
    return not any(same_place(o, mark, PARTLY_OFF) for o in others)


def _upon(mark: Mark, taken: tuple[Mark, ...], reach: float) -> list[Mark]:
    return [o for o in taken if another(o, mark) and same_place(o, mark, reach)]
