"""Which symbol set a page is likelier to have where its marks do not settle it, and what air stands at a mark."""

from __future__ import annotations

import math

from ....interpret.symbols import Glyph
from ...chart import Mark
from ..grouping import only_of

ANGLES: frozenset[Glyph] = frozenset({"angle-left", "angle-right"})
BRACKETS: frozenset[Glyph] = frozenset({"bracket-left", "bracket-right"})
BESIDE_OCTAVES = 0.4
"""Bone marks stand beside their line, at most so far."""
MASKED_BETTER_DB = 12.0
"""Noise in the other ear makes no threshold better, but for test and retest, 10 dB."""
LEAST_BONE_HZ, MOST_BONE_HZ = 190.0, 5000.0
"""Beyond where bone is tested (ASHA 2005: 250 to 4000 Hz)."""
MANY_BRACKETS, MOST = 5, 0.4
"""So many brackets, and such a share of them that stand where nothing is to be masked, tell unmasked bone on a form in
a European language: who masks does so where the rules call for it. Of 196 painted pages that have so many brackets, no
other bone, and such a share of them, 4 are masked bone."""
FEWEST_WORSE = 3
"""Angle marks that are worse than their ear's air, and none when turned round, from which they are turned round."""
ARROW, OTHER_WAY = 0.6, 0.2
"""Peak from which a mark has an arrow, and up to which it has none the other way."""


def likely(seen: list[Mark], *, western: bool = False, turned: bool = False) -> str:
    """Name the set to take where several are equally possible; what they differ on is open all the same.

    Parameters
    ----------
    seen : list of Mark
        The page's clear marks.
    western : bool
        Whether the page is known to be printed in a European language, in which nobody teaches the Japanese set: then
        it takes many brackets, and two in five of them with nothing to mask.
    turned : bool
        Whether its angle marks rather are the German leaflet's where they do not tell themselves.

    Returns
    -------
    str
        The set's id.
    """
    triangles = [m for m in seen if m.sight.glyph == "triangle"]
    if triangles:
        beside_air = sum("circle" in air_at(m, seen) or only_air(m, seen) == "cross" for m in triangles)
        return "bsa-2018" if 2 * beside_air >= len(triangles) else "asha-1990"
    if _turned_round(seen, otherwise=turned):
        return "leaflet-de"
    brackets = [m for m in seen if m.sight.glyph in BRACKETS]
    slanted = sum(max(m.sight.arrows[:2]) > 0.5 for m in seen)
    straight = sum(m.sight.arrows[2] > 0.5 for m in seen)
    needless = sum(_needs_no_mask(m, seen) for m in brackets) / max(len(brackets), 1)
    if western:
        unmasked = len(brackets) >= MANY_BRACKETS and needless >= MOST
    else:
        unmasked = bool(brackets) and (straight > slanted or needless >= 0.5)
    return "jis-t-1201" if unmasked else "asha-1990"


def _turned_round(seen: list[Mark], *, otherwise: bool) -> bool:
    """Say whether angle marks rather are the leaflet's than ASHA's.

    So they are where their arrows point away from the ear that ASHA gives them (1990: the right ear's down-left), or
    where under ASHA bone would be worse than its ear's air, by more than test and retest, and not under the leaflet.
    Where neither tells, ``otherwise`` says it.
    """
    angles = [m for m in seen if m.sight.glyph in ANGLES]
    away = [
        (m.sight.glyph == "angle-left") != (m.sight.arrows[0] > m.sight.arrows[1])
        for m in angles
        if max(m.sight.arrows[:2]) > ARROW and min(m.sight.arrows[:2]) < OTHER_WAY
    ]
    if away:
        return 2 * sum(away) > len(away)
    asha, leaflet = _worse_bone(seen)
    return otherwise if asha == leaflet else asha > leaflet


def brackets_apart(seen: list[Mark]) -> bool:
    """Say whether brackets may be unmasked bone, though other charts of the page have angle marks.

    Those may be brackets with round corners, by another hand. The brackets have a chart without angle marks, and two in
    five of them have nothing to mask.
    """
    turned = {m.sight.area for m in seen if m.sight.glyph in ANGLES}
    brackets = [m for m in seen if m.sight.glyph in BRACKETS and m.sight.area not in turned]
    needless = sum(_needs_no_mask(m, seen) for m in brackets)
    return bool(turned) and len(brackets) >= MANY_BRACKETS and needless >= MOST * len(brackets)


def denied_by_bone(seen: list[Mark]) -> str | None:
    """Name the set of angle marks under which bone would be worse than its ear's air again and again; else None.

    No ear hears less by bone than by air, but for test and retest. On 5,600 painted pages some 70 of the leaflet's have
    three such marks under ASHA 1990 and none under the leaflet; of 1,663 of ASHA's none has one under ASHA 1990.
    """
    asha, leaflet = _worse_bone(seen)
    if min(asha, leaflet) or max(asha, leaflet) < FEWEST_WORSE:
        return None
    return "asha-1990" if asha else "leaflet-de"


def _worse_bone(seen: list[Mark]) -> tuple[int, int]:
    """Count the angle marks that are worse than their ear's air under ASHA 1990, and under the German leaflet."""
    angles = [m for m in seen if m.sight.glyph in ANGLES]
    asha, leaflet = (sum(_worse_than_air(m, seen, turned=turned) for m in angles) for turned in (False, True))
    return asha, leaflet


def _worse_than_air(mark: Mark, seen: list[Mark], *, turned: bool) -> bool:
    own = "circle" if (mark.sight.glyph == "angle-left") != turned else "cross"
    air = [o.level_db_hl for o in _near(mark, seen) if o.sight.glyph == own]
    return bool(air) and mark.level_db_hl - min(air) > MASKED_BETTER_DB


def _needs_no_mask(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether a bone mark's air is no worse than what any cochlea hears there, by more than test and retest.

    Then nothing is to be masked. A cochlea hears at least what its ear does by air.
    """
    own, others = ("circle", "cross") if mark.sight.glyph == "bracket-left" else ("cross", "circle")
    near = _near(mark, seen)
    air = [o.level_db_hl for o in near if o.sight.glyph == own]
    heard = [o.level_db_hl for o in near if o.sight.glyph in {*ANGLES, *BRACKETS, others}]
    return bool(air) and min(air) - min(heard) < MASKED_BETTER_DB


def _near(mark: Mark, seen: list[Mark]) -> list[Mark]:
    """Give the marks of a chart at a mark's frequency, those beside the line as well."""
    return [
        o
        for o in seen
        if o.sight.area == mark.sight.area and abs(math.log2(o.frequency_hz / mark.frequency_hz)) < BESIDE_OCTAVES
    ]


def only_air(mark: Mark, seen: list[Mark]) -> str | None:
    """Give the air mark of the only ear that the mark's chart shows, "circle" or "cross"; None on a chart of both."""
    shapes = [o.sight.glyph.split("-")[0] for o in seen if o.sight.area == mark.sight.area]
    circles, crosses = shapes.count("circle"), shapes.count("cross")
    if max(circles, crosses) < 3:
        return None
    return {"right": "circle", "left": "cross", None: None}[only_of(circles, crosses)]


def air_at(mark: Mark, seen: list[Mark]) -> dict[str, float]:
    """Give the best levels of circles and of crosses, filled or not, at the mark's frequency on its chart."""
    found: dict[str, float] = {}
    for other in seen:
        shape = other.sight.glyph.split("-")[0]
        near = other.sight.area == mark.sight.area and abs(other.x - mark.x) < 0.7 * mark.sight.size[0]
        if near and shape in ("circle", "cross"):
            found[shape] = min(other.level_db_hl, found.get(shape, math.inf))
    return found
