"""Whether what could not be told of marks leaves those told with ease open too: of a page, or of two neighbours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import replace

from ....interpret.record import Audiogram, Point, Threshold
from ..frequencies import STEP_DB
from ..slots import asked

UNTOLD = frozenset({"marks-overlap", "low-certainty"})
FEWEST_UNTOLD = 3
UNTOLD_SHARE = 0.2
"""So many values, and such a share of the page's, whose marks could not be told. On 2,972 painted pages of the training
families 23 are such: of the 259 values that stood as sure on them 17 were wrong, on two of them."""


def unheard_between(thresholds: Sequence[Threshold], apart: Collection[Point]) -> list[Threshold]:
    """Ask about values that stand as heard between two of their row that were not, or may not have been.

    An audiometer ends for a whole row, and a printer draws all arrows in one way: what is seen of two of them may be
    hidden at the third. Of 17,000 values of painted pages that stood as sure seven ask for it, one of them wrong; on
    pages of another drawer, whose arrows are unlike those the network knows, three of four had an arrow.

    Parameters
    ----------
    thresholds : sequence of Threshold
        Those of one chart.
    apart : collection of tuple
        The places, in page fractions, of marks whose own paths show whether an arrow is theirs.
    """
    rows: defaultdict[tuple[object, ...], list[Threshold]] = defaultdict(list)
    for value in sorted(thresholds, key=lambda t: t.frequency_hz):
        rows[(value.ear, value.conduction, value.measure, value.aided)].append(value)
    between = {
        id(value)
        for row in rows.values()
        for before, value, after in zip(row, row[1:], row[2:], strict=False)
        if value.response
        and _perhaps_unheard(before)
        and _perhaps_unheard(after)
        and value.level_db_hl >= min(before.level_db_hl, after.level_db_hl) - STEP_DB
        and value.seen is not None
        and value.seen.at not in apart
    }
    return [asked(t, "arrow-uncertain") if id(t) in between else t for t in thresholds]


def _perhaps_unheard(value: Threshold) -> bool:
    return not value.response or "arrow-uncertain" in value.why_ask


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
