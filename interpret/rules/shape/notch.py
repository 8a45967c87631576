"""A notch of the higher frequencies by several named criteria, side by side: no one of them is the only one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ...finding import Finding, standing_of
from ...record import Ear
from ..doubt import Row, Span, asking
from ..truth import NO, Spans, Truth, above, any_of, at_least, at_most, full_spans, judged, marked_spans, mean, worst

NOTCH_HZ = (3000.0, 4000.0, 6000.0)


@dataclass(frozen=True, slots=True)
class NotchRule:
    """One published criterion.

    Attributes
    ----------
    name, source : str
        Its published name, and where it stands.
    needs : tuple of float
        The frequencies without which it cannot be applied, Hz.
    test : callable
        From the ranges of the needed (and any other) frequencies to whether it holds.
    depth : callable or None
        The number that decides, as a range; None: the deepest point against its shallower side.
    checked : bool
        Its numbers were read in a public text.
    """

    name: str
    needs: tuple[float, ...]
    test: Callable[[Spans], Truth]
    depth: Callable[[Spans], Span] | None = None
    checked: bool = True


def _wilson(at: Spans) -> Truth:
    deep = (hz for hz in NOTCH_HZ if hz in at)
    return any_of(at_least(at[hz].minus(at[2000]), 10) & at_least(at[hz].minus(at[8000]), 10) for hz in deep)


def _index(at: Spans) -> Span:
    return mean((at[2000], at[3000], at[4000])).minus(mean((at[1000], at[8000])))


def _index_with_6(at: Spans) -> Span:
    return mean((at[2000], at[3000], at[4000], at[6000])).minus(mean((at[1000], at[8000])))


def _coles(at: Spans) -> Truth:
    low = [at[hz] for hz in (1000.0, 2000.0) if hz in at]
    found = NO
    for hz in NOTCH_HZ:
        high = [at[end] for end in (6000.0, 8000.0) if end in at and end > hz]
        if hz in at:
            below = any_of(at_least(at[hz].minus(one), 10) for one in low)
            found |= below & any_of(at_least(at[hz].minus(one), 10) for one in high)
    return found


def _niskar(at: Spans) -> Truth:
    low, deep = worst((at[500], at[1000])), worst(at[hz] for hz in NOTCH_HZ)
    return at_most(low, 15) & at_least(deep.minus(low), 15) & at_least(deep.minus(at[8000]), 10)


def _hoffman(at: Spans) -> Truth:
    deep = worst(at[hz] for hz in NOTCH_HZ)
    return at_least(deep.minus(mean((at[500], at[1000]))), 15) & at_least(deep.minus(at[8000]), 5)


NOTCH_RULES: tuple[NotchRule, ...] = (
    NotchRule("Wilson and McArdle 2013", (2000, 8000), _wilson),
    NotchRule("notch index, Rabinowitz and Dobie 2003", (1000, 2000, 3000, 4000, 8000),
              lambda at: above(_index(at), 0), _index),
    NotchRule("notch index with 6 kHz", (1000, 2000, 3000, 4000, 6000, 8000),
              lambda at: above(_index_with_6(at), 0), _index_with_6),
    NotchRule("Coles, Lutman and Buffin 2000", (1000, 2000, 6000, 8000), _coles, checked=False),
    NotchRule("Niskar 2001", (500, 1000, *NOTCH_HZ, 8000), _niskar, checked=False),
    NotchRule("Hoffman 2017", (500, 1000, *NOTCH_HZ, 8000), _hoffman, checked=False),
)  # fmt: skip
"""Wilson and McArdle: JRRD 50, 111-132. Notch index: abstract by NIOSH authors (that a positive index is a notch is
common practice). Coles, Niskar and Hoffman stand as they are commonly quoted [memory]; Coles takes 3, 4 or 6 kHz
against 1 or 2 kHz below and 6 or 8 kHz above."""


def notches(row: Row, ear: Ear) -> Iterator[Finding]:
    """Judge every criterion over the air thresholds of one ear.

    Parameters
    ----------
    row : Row
        Its levels by frequency.
    ear : {"right", "left"}
        Whose.

    Yields
    ------
    Finding
        ``notch``, one for each criterion: met, not met, or no word with the frequencies that are missing.
    """
    for rule in NOTCH_RULES:
        missing = tuple(hz for hz in rule.needs if hz not in row)
        if missing or not any(hz in row for hz in NOTCH_HZ):
            yield Finding("notch", rule.name, ear=ear, missing_hz=missing or NOTCH_HZ)
            continue
        used = {hz: level for hz, level in row.items() if hz in rule.needs or hz in NOTCH_HZ}
        verdict = judged(rule.test, used)
        depth = rule.depth or _depth
        marked, full = depth(marked_spans(used)), depth(full_spans(used))
        rests_on = asking(used)
        yield Finding(
            "notch", rule.name, ear=ear, word=verdict.word, could_be=verdict.could_be, number=marked.low, unit="dB",
            low=full.low, high=full.high, standing=standing_of(rests_on), rests_on=rests_on,
            no_response_hz=tuple(hz for hz, level in used.items() if not level.response),
        )  # fmt: skip


def _depth(at: Spans) -> Span:
    """Give how much the worst of 3, 4 and 6 kHz lies below 8 kHz."""
    return worst(at[hz] for hz in NOTCH_HZ if hz in at).minus(at[8000])
