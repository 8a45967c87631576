"""Hearing that worsened between two tests in days to months: guidance says when it should be seen."""

from __future__ import annotations

from collections.abc import Iterator

from ...finding import Finding
from ...record import Audiogram
from ...settings import day
from ..doubt import Row, row_of
from ..speech.agreement import SIDES
from ..truth import Spans, Truth, above, at_least_n, judged, mean
from .guidance import SUDDEN_RULE, consecutive, told

WORSENING_RULE = (
    "NICE NG98, 1.1.2: worse within 90 days; by over 15 dB at two frequencies or over 10 dB on the mean of 0.5, 1, 2, "
    "4 kHz (J Med Genet)"
)
MOST_DAYS, SUDDEN_DAYS = 90, 3
_AT_TWO_DB, _ON_MEAN_DB = 15.0, 10.0
_MEAN_HZ = (500.0, 1000.0, 2000.0, 4000.0)
_USUAL_HZ = (250.0, 500.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)


def worsening(old: Audiogram, new: Audiogram) -> Iterator[Finding]:
    """Tell where an ear worsened between two dated tests, an ear each.

    Yields
    ------
    Finding
        ``refer-worsening`` where the tests lie at most 90 days apart; ``refer-if-sudden`` where they lie at most 3 days
        apart and the change has the size of a sudden loss. Nothing where a date is missing: a change alone does not
        say how fast it came.
    """
    before, after = day(old.tested_on), day(new.tested_on)
    if before is None or after is None or not 0 <= (after - before).days <= MOST_DAYS:
        return
    for ear in SIDES:
        rows = _common(row_of(old.thresholds, ear), row_of(new.thresholds, ear))
        verdict = judged(_worsened, *rows)
        yield from told("refer-worsening", WORSENING_RULE, ear, verdict, rows)
        if (after - before).days <= SUDDEN_DAYS:
            verdict = judged(lambda early, late: consecutive(_worse(early, late)), *rows)
            yield from told("refer-if-sudden", f"{SUDDEN_RULE}, against the earlier test", ear, verdict, rows)


def _common(old: Row, new: Row) -> tuple[Row, Row]:
    here = [hz for hz in _USUAL_HZ if hz in old and hz in new]
    return {hz: old[hz] for hz in here}, {hz: new[hz] for hz in here}


def _worse(old: Spans, new: Spans) -> Spans:
    return {hz: new[hz].minus(old[hz]) for hz in new}


def _worsened(old: Spans, new: Spans) -> Truth:
    worse = _worse(old, new)
    found = at_least_n((above(span, _AT_TWO_DB) for span in worse.values()), 2)
    if all(hz in worse for hz in _MEAN_HZ):
        found |= above(mean(worse[hz] for hz in _MEAN_HZ), _ON_MEAN_DB)
    return found
