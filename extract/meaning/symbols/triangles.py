"""What a triangle cannot be where it stands: masked air of the right ear, or bone."""

from __future__ import annotations

import math

from ....interpret.symbols import Meaning
from ...chart import Mark
from .likely import ANGLES, BESIDE_OCTAVES, BRACKETS, MASKED_BETTER_DB, MOST_BONE_HZ, air_at, only_air

MOST_BONE_DB = 82.0
"""Beyond what bone vibrators give [common practice]."""
BONE_WORSE_DB = 22.0
"""Unmasked bone is heard by the better ear, so it is not worse than the better air by more than test and retest of
both, 20 dB."""
TWICE_DB = 7.5
"""Marks of one glyph at one frequency are two values from so far apart."""
MASKED_WORSE_DB = 25.0
"""Air is masked where it is some 40 dB worse than the other ear (BSA 2018, rule 1); nearer, there is no reason to."""
ATTENUATION_DB = 40.0
"""How much better bone must be for headphones to be heard by the other cochlea (BSA 2018, rule 3 [memory])."""
EARLY_DB, FEWEST_NEEDLESS = 15.0, 4
"""Some testers mask from so little a difference on. A row of triangles none of which is so much worse than the left
ear's air is no masked air where the right ear's unmasked air stands beside so many of them: on 4,580 painted pages 652
charts with such a row have bone, and two masked air, which other marks of the page tell."""
FEWEST_OF_ROW = 3
"""So many triangles are a row of them."""
FEWEST_CIRCLES = 2
"""So many circles elsewhere on a chart show that the eye finds them there."""
HIDDEN = 2
"""Crosses without a circle and without a triangle, from which circles may be hidden beneath crosses elsewhere too."""


def denied_as(mark: Mark, meaning: Meaning, seen: list[Mark]) -> bool:
    """Say whether what stands around a triangle speaks against what a symbol set gives it.

    Parameters
    ----------
    mark : Mark
        The triangle.
    meaning : Meaning
        What a set says that it is: air, or bone.
    seen : list of Mark
        The page's clear marks.
    """
    air = air_at(mark, seen)
    only, of_ink = only_air(mark, seen), {"red": "circle", "blue": "cross"}.get(mark.sight.ink)
    if meaning.conduction == "air":
        if meaning.ear in ("right", "left") and _twice(mark, seen):
            return True
        louder = mark.level_db_hl >= air.get("cross", -math.inf) + MASKED_WORSE_DB
        reason = louder or _crosses_to_bone(mark, seen) or _beyond_bone(mark, seen)
        if only == "cross" and of_ink != "circle" and (not reason or _circles_apart(mark, seen)):
            return True
        return mark.level_db_hl < air.get("circle", -math.inf) - MASKED_BETTER_DB or _needless(mark, seen)
    if mark.frequency_hz > MOST_BONE_HZ or mark.level_db_hl > MOST_BONE_DB or (only and of_ink and only != of_ink):
        return True
    both_ears = sum(o.sight.glyph.startswith("circle") and o.sight.area == mark.sight.area for o in seen) >= 3
    lacks_air = both_ears and "cross" in air and "circle" not in air and not _circles_hidden(mark, seen)
    lacks_air = lacks_air or _in_place_of_circles(mark, seen)
    own = {of_ink: air.get(of_ink, math.inf)} if of_ink and _in_both_inks(mark, seen) else air
    return lacks_air or mark.level_db_hl > min(own.values(), default=math.inf) + BONE_WORSE_DB


def _in_both_inks(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether a chart has a row of triangles in each ear's ink: each is held against its own ear's air.

    Masked or not, the worse ear's bone may be worse than the better ear's air where a form tells no masking.
    """
    inks = [o.sight.ink for o in seen if o.sight.glyph == mark.sight.glyph and o.sight.area == mark.sight.area]
    return min(inks.count("red"), inks.count("blue")) >= FEWEST_OF_ROW


def _needless(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether no triangle of a mark's row has anything to mask, where unmasked air of both ears tells it."""
    row = [o for o in seen if _of_row(o, mark)]
    if len(row) < FEWEST_NEEDLESS:
        return False
    air = [(o, air_at(o, seen)) for o in row]
    told = sum({"circle", "cross"} <= levels.keys() for _, levels in air)
    return told >= FEWEST_NEEDLESS and not any(
        o.level_db_hl >= levels.get("cross", math.inf) + EARLY_DB or o.frequency_hz > MOST_BONE_HZ
        or o.level_db_hl > MOST_BONE_DB or _crosses_to_bone(o, seen)
        for o, levels in air
    )  # fmt: skip


def _of_row(other: Mark, mark: Mark) -> bool:
    """Say whether a mark is of another's shape, chart and ink."""
    one, two = other.sight, mark.sight
    return (one.glyph, one.area, one.ink) == (two.glyph, two.area, two.ink)


def _beyond_bone(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether a mark of a mark's shape and ink stands on its chart where no bone is tested: its row may be air."""
    return any(_of_row(o, mark) and o.frequency_hz > MOST_BONE_HZ for o in seen)


def _circles_apart(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether another chart of the page shows circles and no crosses: then a chart of crosses is the left ear's."""
    others = {o.sight.area: o for o in seen if o.sight.area != mark.sight.area}
    return any(only_air(other, seen) == "circle" for other in others.values())


def _in_place_of_circles(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether a right ear's chart has a row of triangles, none of them beside a circle: they are its air there.

    Nobody leaves out air where bone is tested. On 5,600 painted pages 52 such charts are masked air and none is bone,
    of which all 234 charts of an ear have circles beside it.
    """
    chart = [o for o in seen if o.sight.area == mark.sight.area]
    row = [o for o in chart if o.sight.glyph == mark.sight.glyph]
    shapes = [o.sight.glyph.split("-")[0] for o in chart]
    alone = shapes.count("circle") >= FEWEST_CIRCLES and "cross" not in shapes
    return alone and len(row) >= FEWEST_OF_ROW and not any("circle" in air_at(o, seen) for o in row)


def _circles_hidden(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether circles are missing on a mark's chart where no triangle is either: what was not seen is no sign."""
    crosses = [o for o in seen if o.sight.area == mark.sight.area and o.sight.glyph.startswith("cross")]
    triangles = [o for o in seen if o.sight.area == mark.sight.area and o.sight.glyph.startswith("triangle")]
    alone = (
        c
        for c in crosses
        if "circle" not in air_at(c, seen) and all(abs(t.x - c.x) > 0.7 * c.sight.size[0] for t in triangles)
    )
    return sum(1 for _ in alone) >= HIDDEN


def _twice(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether another of a mark's glyph and ink stands at its frequency: an ear has one threshold there."""
    return any(
        _of_row(o, mark)
        and abs(o.x - mark.x) < 0.5 * mark.sight.size[0]
        and abs(o.level_db_hl - mark.level_db_hl) >= TWICE_DB
        for o in seen
    )


def _crosses_to_bone(mark: Mark, seen: list[Mark]) -> bool:
    """Say whether bone is so much better at the mark that the other cochlea may have heard it."""
    return any(
        o.sight.glyph in ANGLES | BRACKETS
        and o.sight.area == mark.sight.area
        and abs(math.log2(o.frequency_hz / mark.frequency_hz)) < BESIDE_OCTAVES
        and mark.level_db_hl - o.level_db_hl >= ATTENUATION_DB
        for o in seen
    )
