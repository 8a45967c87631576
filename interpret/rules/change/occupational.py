"""Threshold shifts as the rules for noise at work count them: OSHA with and without age, recordable cases, NIOSH."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

from ...finding import Finding, standing_of
from ...record import Ear, Threshold
from ...settings import Sex
from ...tables import published
from ..degree import EARS
from ..doubt import Level, Row, Span, row_of
from ..truth import MET, NOT_MET, Spans, Truth, any_of, at_least, full_spans, judged, marked_spans, mean

SHIFT_HZ = (2000.0, 3000.0, 4000.0)
SHIFT_DB = 10
RECORDABLE_DB = 25
NIOSH_HZ = (500.0, 1000.0, 2000.0, 3000.0, 4000.0, 6000.0)
NIOSH_DB = 15
CORRECTED_HZ = (1000.0, 2000.0, 3000.0, 4000.0, 6000.0)

OSHA, OSHA_AGED = "29 CFR 1910.95", "29 CFR 1910.95, appendix F"
RECORDABLE, RECORDABLE_AGED = "29 CFR 1904.10", "29 CFR 1904.10, shift by appendix F"
NIOSH = "NIOSH 1998"


@dataclass(frozen=True, slots=True)
class Aged:
    """What the age correction of appendix F needs.

    Attributes
    ----------
    sex : {"female", "male"}
        Which of the two tables.
    old_years, new_years : float
        The ages at the baseline and at the latest test.
    """

    sex: Sex
    old_years: float
    new_years: float


def age_value(sex: Sex, age_years: float, hz: float) -> float:
    """Give the value of tables F-1 (male) and F-2 (female) of appendix F.

    Parameters
    ----------
    sex : {"female", "male"}
        Which table.
    age_years : float
        Age in whole years as lived (a fraction is dropped); below 20 the row of 20, above 60 the row of 60 counts.
    hz : float
        1000, 2000, 3000, 4000 or 6000.

    Returns
    -------
    float
        dB.

    Notes
    -----
    Men of 20 to 32 years were read on a page that reproduces the table; the other rows stand as remembered [memory].
    """
    return _table()[sex, min(max(math.floor(age_years), 20), 60), hz]


def age_correction(aged: Aged, hz: float) -> float:
    """Give what age alone adds between the two tests, dB, by which the latest threshold is lowered.

    Notes
    -----
    The steps stand in 49 CFR 227, appendix F, in the same words: the value at the age of the latest test less the value
    at the age of the baseline, subtracted from the latest threshold.
    """
    return age_value(aged.sex, aged.new_years, hz) - age_value(aged.sex, aged.old_years, hz)


def age_corrected(row: Row, aged: Aged) -> Row:
    """Give the latest thresholds with the age correction taken off, where the tables have one."""
    return {hz: _moved(level, -age_correction(aged, hz)) if hz in CORRECTED_HZ else level for hz, level in row.items()}


def shifts(old: tuple[Threshold, ...], new: tuple[Threshold, ...], aged: Aged | None) -> Iterator[Finding]:
    """Judge the shift of each ear from its baseline by every rule.

    Parameters
    ----------
    old, new : tuple of Threshold
        All values of the baseline and of the latest test.
    aged : Aged or None
        For the age correction; None where sex or an age is not known: then it is left out.

    Yields
    ------
    Finding
        ``standard-threshold-shift`` (a mean shift of 10 dB or more at 2, 3 and 4 kHz), with and without the correction;
        ``recordable-shift`` (such a shift, and a mean of 25 dB or more in the same ear, which is never corrected);
        ``significant-shift`` (NIOSH: 15 dB or more at any of 0.5 to 6 kHz, to be confirmed by an immediate retest).
    """
    for ear in EARS:
        before, after = row_of(old, ear), row_of(new, ear)
        if not before or not after:
            continue
        yield from _standard(before, after, after, ear, OSHA, RECORDABLE)
        if aged is not None:
            yield from _standard(before, age_corrected(after, aged), after, ear, OSHA_AGED, RECORDABLE_AGED)
        yield _significant(before, after, ear)


def _standard(before: Row, after: Row, uncorrected: Row, ear: Ear, rule: str, recordable: str) -> Iterator[Finding]:
    missing = tuple(hz for hz in SHIFT_HZ if hz not in before or hz not in after)
    if missing:
        yield Finding("standard-threshold-shift", rule, ear=ear, conduction="air", missing_hz=missing)
        yield Finding("recordable-shift", recordable, ear=ear, conduction="air", missing_hz=missing)
        return
    old, new, plain = ({hz: row[hz] for hz in SHIFT_HZ} for row in (before, after, uncorrected))

    def shifted(first: Spans, last: Spans) -> Truth:
        return at_least(_mean_shift(first, last), SHIFT_DB)

    def recorded(first: Spans, last: Spans, level: Spans) -> Truth:
        return shifted(first, last) & at_least(mean(level.values()), RECORDABLE_DB)

    rests_on = tuple(hz for hz in SHIFT_HZ if old[hz].ask or new[hz].ask)
    silent = tuple(hz for hz in SHIFT_HZ if not (old[hz].response and new[hz].response))
    shift, span = (_mean_shift(spans(old), spans(new)) for spans in (marked_spans, full_spans))
    level, level_span = (mean(spans(plain).values()) for spans in (marked_spans, full_spans))
    verdict = judged(shifted, old, new)
    common = Finding(
        "standard-threshold-shift", rule, ear=ear, conduction="air", word=verdict.word, could_be=verdict.could_be,
        number=shift.low, unit="dB", low=span.low, high=span.high,
        numbers=(("old_mean_db_hl", mean(marked_spans(old).values()).low),
                 ("new_mean_db_hl", mean(marked_spans(new).values()).low)),
        standing=standing_of(rests_on), rests_on=rests_on, no_response_hz=silent,
    )  # fmt: skip
    yield common
    verdict = judged(recorded, old, new, plain)
    yield replace(
        common, code="recordable-shift", rule=recordable, word=verdict.word, could_be=verdict.could_be,
        number=level.low, unit="dB HL", low=level_span.low, high=level_span.high, numbers=(("shift_db", shift.low),),
    )  # fmt: skip


def _significant(before: Row, after: Row, ear: Ear) -> Finding:
    here = [hz for hz in NIOSH_HZ if hz in before and hz in after]
    missing = tuple(hz for hz in NIOSH_HZ if hz not in here)
    if not here:
        return Finding("significant-shift", NIOSH, ear=ear, conduction="air", missing_hz=missing)
    old, new = {hz: before[hz] for hz in here}, {hz: after[hz] for hz in here}

    def shifted(first: Spans, last: Spans) -> Truth:
        return any_of(at_least(last[hz].minus(first[hz]), NIOSH_DB) for hz in first)

    verdict = judged(shifted, old, new)
    marked = {hz: new[hz].db_hl - old[hz].db_hl for hz in here}
    full = [new[hz].span.minus(old[hz].span) for hz in here]
    rests_on = tuple(hz for hz in here if old[hz].ask or new[hz].ask)
    reaching = tuple(hz for hz in here if marked[hz] >= NIOSH_DB)
    word = verdict.word
    return Finding(
        "significant-shift", NIOSH, ear=ear, conduction="air",
        # A frequency that one of the tests lacks could have reached it.
        word=None if word == NOT_MET and missing else word, could_be=verdict.could_be,
        number=max(marked.values()), unit="dB", low=max(s.low for s in full), high=max(s.high for s in full),
        numbers=tuple((f"shift_db_at_{hz:g}_hz", marked[hz]) for hz in reaching) if word == MET else (),
        standing=standing_of(rests_on), rests_on=rests_on, missing_hz=missing,
        no_response_hz=tuple(hz for hz in here if not (old[hz].response and new[hz].response)),
    )  # fmt: skip


def _mean_shift(first: Spans, last: Spans) -> Span:
    return mean(last[hz].minus(first[hz]) for hz in SHIFT_HZ)


def _moved(level: Level, by_db: float) -> Level:
    threshold = replace(level.threshold, level_db_hl=level.db_hl + by_db)
    return Level(threshold, Span(level.span.low + by_db, level.span.high + by_db), level.ask)


@cache
def _table() -> dict[tuple[str, int, float], float]:
    return {
        (row["sex"], int(row["age_key"]), float(column.removeprefix("hz"))): float(value)
        for row in published("osha_1910_95_appF_age_correction.csv")
        for column, value in row.items()
        if column.startswith("hz")
    }
