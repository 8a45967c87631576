"""Whether a hand parts angles from brackets so badly that all of them are asked about."""

from __future__ import annotations

from collections.abc import Sequence

from ..slots import Candidate, asking
from .shape import TWINS

FEWEST_UNTOLD = 3
"""So many angles or brackets with two readings tell of such a hand: on a form of a stranger's hand three asked, and a
fourth stood as sure with the wrong masking. Of 48 painted forms no value more asks; with two it were 22 of 1,270."""


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
