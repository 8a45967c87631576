"""Whether so many marks of a page could not be told that those told with ease are not to be trusted either."""

from __future__ import annotations

from dataclasses import replace

from ....interpret.record import Audiogram

UNTOLD = frozenset({"marks-overlap", "low-certainty"})
FEWEST_UNTOLD = 3
UNTOLD_SHARE = 0.2
"""So many values, and such a share of the page's, whose marks could not be told. On 2,972 painted pages of the training
families 23 are such: of the 259 values that stood as sure on them 17 were wrong, on two of them."""


def in_bad_company(audiograms: tuple[Audiogram, ...]) -> tuple[Audiogram, ...]:
    """Ask about all values of a page on which too many marks could not be told.

    What is drawn there is unlike what the networks know, or too poor a picture of it.

    Parameters
    ----------
    audiograms : tuple of Audiogram
        All of the page.
    """
    every = [t for audiogram in audiograms for t in audiogram.thresholds]
    untold = sum(not UNTOLD.isdisjoint(t.why_ask) for t in every)
    if untold < FEWEST_UNTOLD or untold < UNTOLD_SHARE * len(every):
        return audiograms
    return tuple(
        replace(
            audiogram,
            thresholds=tuple(
                replace(t, standing="ask", why_ask=("low-certainty",)) if t.standing == "sure" else t
                for t in audiogram.thresholds
            ),
        )
        for audiogram in audiograms
    )
