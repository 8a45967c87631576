"""Hearing handicap as percentages and classes: legal conventions, no measures of difficulty."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding, standing_of
from ...record import Threshold
from ...settings import Case
from ..averages import Average, average
from ..degree import EARS, SCHEMES, grade, grades_within
from ..doubt import Span

_PERCENT_A_DB, _LOW_FENCE_DB, _MOST_DB = 1.5, 25, 92
_BETTER_WEIGHT = 5
_BIAP_BETTER, _BIAP_WORSE = 7, 3


@dataclass(frozen=True, slots=True)
class HandicapRule:
    """One formula: its published name and the average that it takes."""

    name: str
    average: str


HANDICAP_RULES = (
    HandicapRule("AAO/AMA 1979", "0.5-1-2-3"),
    HandicapRule("AMA 1959, with the low fence of 25 dB HL", "0.5-1-2"),
)
"""AAO/AMA 1979: abstract of a compensation textbook; Dobie 2001. AMA 1959: the same without 3 kHz."""


def monaural_percent(mean_db: float) -> float:
    """Give the handicap of one ear: 1.5 % for every dB of the average over 25, 0 below, 100 from 92 dB on."""
    if mean_db >= _MOST_DB:
        return 100.0
    return min(max(_PERCENT_A_DB * (mean_db - _LOW_FENCE_DB), 0.0), 100.0)


def binaural_percent(one: float, other: float) -> float:
    """Give the handicap of both ears: the better one counts five times."""
    better, worse = sorted((one, other))
    return (_BETTER_WEIGHT * better + worse) / (_BETTER_WEIGHT + 1)


def biap_mean(one_db: float, other_db: float) -> float:
    """Give BIAP's average for unlike ears, dB: the better one counts 7 parts of 10, the worse one 3."""
    better, worse = sorted((one_db, other_db))
    return (_BIAP_BETTER * better + _BIAP_WORSE * worse) / (_BIAP_BETTER + _BIAP_WORSE)


def handicaps(thresholds: tuple[Threshold, ...]) -> Iterator[Finding]:
    """Give the percentages of each ear and of both, and BIAP's class for unlike ears.

    Yields
    ------
    Finding
        ``handicap``, percent, of each ear and of both; ``handicap-biap``, the grade of BIAP's weighted average. Without
        a number, and with the missing frequencies, where an average is missing.
    """
    for rule in HANDICAP_RULES:
        ears = [average(thresholds, rule.average, ear) for ear in EARS]
        for mean in ears:
            if mean.db_hl is not None or len(mean.missing_hz) == 1:
                yield _of_ear(rule, mean)
        right, left = ears
        if right.db_hl is not None and left.db_hl is not None and right.span is not None and left.span is not None:
            percent = [monaural_percent(mean.db_hl) for mean in ears if mean.db_hl is not None]
            low, high = (
                binaural_percent(monaural_percent(a), monaural_percent(b))
                for a, b in ((right.span.low, left.span.low), (right.span.high, left.span.high))
            )
            yield _finding(rule, ears, "both", binaural_percent(*percent), Span(low, high))
    yield from _biap(thresholds)


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on handicap."""
    yield from handicaps(case.audiogram.thresholds)


def _of_ear(rule: HandicapRule, mean: Average) -> Finding:
    if mean.db_hl is None or mean.span is None:
        return Finding("handicap", rule.name, ear=mean.ear, conduction="air", missing_hz=mean.missing_hz)
    span = Span(monaural_percent(mean.span.low), monaural_percent(mean.span.high))
    return _finding(rule, [mean], mean.ear, monaural_percent(mean.db_hl), span)


def _finding(rule: HandicapRule, means: list[Average], ear: str, percent: float, span: Span) -> Finding:
    rests_on = tuple(sorted({hz for mean in means for hz in mean.ask_hz}))
    numbers = tuple((f"{mean.ear}_mean_db_hl", mean.db_hl) for mean in means if mean.db_hl is not None)
    return Finding(
        "handicap", rule.name, ear="both" if ear == "both" else means[0].ear, conduction="air", number=percent,
        unit="%", low=span.low, high=span.high, numbers=numbers,
        at_least=percent < 100 and any(mean.at_least for mean in means), standing=standing_of(rests_on),
        rests_on=rests_on, no_response_hz=tuple(sorted({hz for mean in means for hz in mean.no_response_hz})),
    )  # fmt: skip


def _biap(thresholds: tuple[Threshold, ...]) -> Iterator[Finding]:
    scheme = SCHEMES["biap-02-1"]
    right, left = (average(thresholds, scheme.average, ear, no_response_db=scheme.no_response_db) for ear in EARS)
    if right.db_hl is None or left.db_hl is None or right.span is None or left.span is None:
        return
    mean = biap_mean(right.db_hl, left.db_hl)
    low, high = biap_mean(right.span.low, left.span.low), biap_mean(right.span.high, left.span.high)
    rests_on = tuple(sorted({*right.ask_hz, *left.ask_hz}))
    yield Finding(
        "handicap-biap", f"{scheme.name}, better ear 7 parts, worse ear 3", ear="both", conduction="air",
        word=grade(scheme.id, mean), could_be=grades_within(scheme.id, Span(low, high)) if rests_on else (),
        number=mean, unit="dB HL",
        low=low, high=high, numbers=(("right_mean_db_hl", right.db_hl), ("left_mean_db_hl", left.db_hl)),
        standing=standing_of(rests_on), rests_on=rests_on,
        no_response_hz=tuple(sorted({*right.no_response_hz, *left.no_response_hz})),
    )  # fmt: skip
