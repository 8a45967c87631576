"""Marks too weak to stand alone that stand just where a row of their kind leaves one out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from ...interpret.record import Threshold
from ..chart import Mark
from .nearby import one_stroke, same_place
from .slots import Candidate, asking

FREE_SCORE, RIVALLED_SCORE = 0.35, 0.45
"""Least score of such a mark, and where a shape like it was taken at its place. On 2,796 painted pages 151 of 209 of
the first kind and 100 of 127 of the second are the mark that is missing there; of those down to 0.3 every second is."""
FEWEST = 3
"""Values of the same ear, conduction and masking that make a row."""
OFF_DB = 10.0
"""How far outside the levels of its neighbours such a mark may stand: farther out one in three is a mark."""


def in_gaps(weak: Sequence[Candidate], kept: Sequence[Candidate], taken: Sequence[Mark]) -> list[Candidate]:
    """Give the weak marks that fill a gap in a row; each asks whether a mark stands there.

    Parameters
    ----------
    weak : sequence of Candidate
        What marks too weak to be taken would say.
    kept : sequence of Candidate
        The chart's values, one a slot.
    taken : sequence of Mark
        The marks that were strong enough.

    Returns
    -------
    list of Candidate
        Those whose slot is empty, of a row with enough values, about as high as their neighbours. Where no shape like
        it was taken at its place, its frequency must be one that its ear's row lacks, masked and unmasked together:
        between its first and last, or one that the other ear's row has.
    """
    slots = {c.slot for c in kept}
    rows: defaultdict[tuple[object, ...], int] = defaultdict(int)
    levels: defaultdict[tuple[object, ...], dict[float, float]] = defaultdict(dict)
    for c in kept:
        rows[c.slot[:-1]] += 1
        levels[_line(c.threshold)][c.threshold.frequency_hz] = c.threshold.level_db_hl
    found = []
    for c in weak:
        t, own = c.threshold, levels[_line(c.threshold)]
        rivalled = any(one_stroke(o.sight.glyph, c.mark.sight.glyph) and same_place(o, c.mark) for o in taken)
        if c.slot in slots or rows[c.slot[:-1]] < FEWEST or _off_db(t, own) > OFF_DB:
            continue
        lacked = t.frequency_hz not in own and (
            min(own) < t.frequency_hz < max(own) or t.frequency_hz in levels[_line(t, other=True)]
        )
        if c.mark.sight.score >= (RIVALLED_SCORE if rivalled else FREE_SCORE) and (rivalled or lacked):
            found.append(asking(c, "faint"))
    return found


def _line(t: Threshold, *, other: bool = False) -> tuple[object, ...]:
    """Name what is tested at the same frequencies throughout, masked or not; ``other``: of the other ear."""
    ear = {"right": "left", "left": "right"}.get(t.ear, t.ear) if other else t.ear
    return (ear, t.conduction, t.aided, t.measure)


def _off_db(t: Threshold, own: dict[float, float]) -> float:
    """Give how far a level lies outside those of the nearest frequencies on both sides."""
    below, above = [hz for hz in own if hz < t.frequency_hz], [hz for hz in own if hz > t.frequency_hz]
    near = [own[max(below)]] if below else []
    near += [own[min(above)]] if above else []
    return max(0.0, t.level_db_hl - max(near), min(near) - t.level_db_hl)
