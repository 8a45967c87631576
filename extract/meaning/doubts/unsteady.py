"""Whether a hand's bone marks are told so badly that others of them are asked about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from ..slots import Candidate, asking
from .shape import TWINS

FEWEST_UNTOLD = 3
"""So many angles or brackets with two readings tell of such a hand: on a form of a stranger's hand three asked, and a
fourth stood as sure with the wrong masking. Of 48 painted forms no value more asks; with two it were 22 of 1,270."""

MOST_OF_ROW = 3
"""Of so few bone marks of a row one is no better told than the others, none of which could be told: loops of
three crosses drawn in one stroke were such. Of 2,200 right values on 91 painted forms at most four ask for it."""
FEWEST_AIR = 3
"""So many air marks are a row. Of 480 right bone marks on 91 painted forms none asks for it, two invented ones do."""
UNTOLD = frozenset({"two-readings", "marks-overlap", "low-certainty", "faint"})


def last_of_few_asked(kept: Sequence[Candidate]) -> list[Candidate]:
    """Ask about a hand's bone mark where the one or two others of its row could not be told.

    Parameters
    ----------
    kept : sequence of Candidate
        The values of a chart that was filled in by hand.

    Returns
    -------
    list of Candidate
        The same, in their order.
    """
    rows: defaultdict[tuple[object, ...], list[Candidate]] = defaultdict(list)
    for one in kept:
        if one.threshold.conduction == "bone":
            rows[one.slot[:-1]].append(one)

    def alone(one: Candidate) -> bool:
        others = [c for c in rows[one.slot[:-1]] if c is not one]
        return 0 < len(others) < MOST_OF_ROW and not any(UNTOLD.isdisjoint(c.threshold.why_ask) for c in others)

    return [asking(c, "low-certainty") if c.threshold.conduction == "bone" and alone(c) else c for c in kept]


def without_air_asked(kept: Sequence[Candidate]) -> list[Candidate]:
    """Ask about a hand's bone mark at a frequency where its chart has no air mark, though it has a row of them.

    Bone is tested where air was (common practice), and strokes of other marks look like bone.

    Parameters
    ----------
    kept : sequence of Candidate
        The values of a chart that was filled in by hand.

    Returns
    -------
    list of Candidate
        The same, in their order.
    """
    air = {c.threshold.frequency_hz for c in kept if c.threshold.conduction == "air"}
    if len(air) < FEWEST_AIR:
        return list(kept)
    return [
        asking(c, "implausible") if c.threshold.conduction == "bone" and c.threshold.frequency_hz not in air else c
        for c in kept
    ]


def unsteady_asked(kept: Sequence[Candidate]) -> list[Candidate]:
    """Ask about every angle and bracket of a chart by hand on which several of them have two readings.

    Parameters
    ----------
    kept : sequence of Candidate
        The values of a chart that was filled in by hand.

    Returns
    -------
    list of Candidate
        The same, in their order; where a side has only angles or only brackets, its marks are told by that.
    """
    untold = sum(c.mark.sight.glyph in TWINS and "two-readings" in c.threshold.why_ask for c in kept)
    shapes = {c.mark.sight.glyph for c in kept}
    if untold < FEWEST_UNTOLD:
        return list(kept)
    return [asking(c, "two-readings") if TWINS.get(c.mark.sight.glyph) in shapes else c for c in kept]
