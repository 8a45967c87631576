"""What a value that a person has not looked at yet may truly be: the one place that says how far it can be off."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..record import Conduction, Ear, Threshold

ASK_REACH_DB = 10.0
"""How far a value that stands as ``ask`` may lie from its reading, dB either way (common practice): 5 dB is the
repeatability of a threshold, and a mark taken for the next step is off by another 5 dB. A value on a wrong ear or of a
wrong kind is outside of any such range: that is why it is asked about."""

ARROW_CODE = "arrow-uncertain"
"""Why a value is asked about that may have been no response, or one (``reasons``)."""

NO_LIMIT = math.inf
"""The upper end of a range that a no response leaves open."""


@dataclass(frozen=True, slots=True)
class Span:
    """From the least to the most that a number may be, dB; ``high`` is infinite where nothing was heard."""

    low: float
    high: float

    @property
    def is_exact(self) -> bool:
        """Nothing is open: the number is one."""
        return self.low == self.high

    def joined(self, other: Span) -> Span:
        """Give the smallest span that holds both."""
        return Span(min(self.low, other.low), max(self.high, other.high))

    def minus(self, other: Span) -> Span:
        """Give the span of the difference; a bound is infinite where either number is open."""
        return Span(self.low - other.high, self.high - other.low)


@dataclass(frozen=True, slots=True)
class Level:
    """What stands for one frequency of one ear and conduction.

    Attributes
    ----------
    threshold : Threshold
        The value taken.
    span : Span
        What the threshold may truly be, dB HL.
    ask : bool
        A person must look first: the value stands as ``ask``, or several values lay claim to the place.
    """

    threshold: Threshold
    span: Span
    ask: bool

    @property
    def db_hl(self) -> float:
        """The level as it stands in the record, dB HL; without a response it is the one that was not heard."""
        return self.threshold.level_db_hl

    @property
    def response(self) -> bool:
        """Whether anything was heard."""
        return self.threshold.response


Row = dict[float, Level]
"""The levels of one ear and conduction by frequency in Hz, ascending."""


def span_of(threshold: Threshold) -> Span:
    """Give the range that one value may truly have, dB HL.

    Notes
    -----
    ``sure``: the level itself; ``ask``: ``ASK_REACH_DB`` either way. Without a response the threshold lies at the level
    that was not heard or above, without an upper end; so it may where the arrow itself is asked about.
    """
    if threshold.standing == "sure":
        return Span(threshold.level_db_hl, threshold.level_db_hl if threshold.response else NO_LIMIT)
    is_open = not threshold.response or ARROW_CODE in threshold.why_ask
    high = NO_LIMIT if is_open else threshold.level_db_hl + ASK_REACH_DB
    return Span(threshold.level_db_hl - ASK_REACH_DB, high)


def row_of(
    thresholds: tuple[Threshold, ...], ear: Ear, conduction: Conduction = "air", *, masked: bool | None = None
) -> Row:
    """Give the unaided thresholds of one ear and conduction, one for each frequency.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram; aided ones and comfortable or uncomfortable levels are left aside.
    ear, conduction : str
        Whose row.
    masked : bool, optional
        Take masked values alone, or unmasked ones alone; both by default.

    Notes
    -----
    Where a masked and an unmasked value stand at the same frequency, the masked one is taken (common practice): the
    unmasked one may be the other ear's answer, which is why the other ear was masked. Where two different values of
    the same masking stand there, the likelier is taken, the frequency counts as one to look at, and its range holds
    both.
    """
    places: dict[float, list[Threshold]] = {}
    for t in thresholds:
        if t.ear != ear or t.conduction != conduction or t.measure != "threshold" or t.aided:
            continue
        if masked is None or t.masked == masked:
            places.setdefault(t.frequency_hz, []).append(t)
    return {hz: _level(here) for hz, here in sorted(places.items())}


def asking(row: Row) -> tuple[float, ...]:
    """Give the frequencies of a row that a person must look at first, Hz, ascending."""
    return tuple(hz for hz, level in row.items() if level.ask)


def _level(here: list[Threshold]) -> Level:
    if len(here) == 1:
        return Level(here[0], span_of(here[0]), here[0].standing == "ask")
    claims = [t for t in here if t.masked] or here
    # The order of the values decides nothing: of equally likely ones the higher level is taken, and it is asked about.
    best = max(claims, key=lambda t: (t.probability, t.level_db_hl, not t.response))
    contested = any((t.level_db_hl, t.response) != (best.level_db_hl, best.response) for t in claims)
    span = span_of(best)
    for claim in claims:
        span = span.joined(span_of(claim))
    return Level(best, span, contested or best.standing == "ask")
