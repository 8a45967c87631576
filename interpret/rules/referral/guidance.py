"""Patterns that published guidance says should be seen by a doctor; advice to be looked at, never a diagnosis."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ...finding import Finding, standing_of
from ...record import Ear
from ...settings import Case
from ..averages import average
from ..degree import EARS
from ..doubt import Row, row_of
from ..gap.air_bone_gap import gaps
from ..gap.masking import attenuation_of, masking_due
from ..shape.symmetry import SYMMETRY_RULES, symmetry
from ..speech.critical_difference import critically_different
from ..speech.recognition import best_score
from ..truth import MET, NOT_MET, Spans, Truth, Verdict, any_of, at_least, judged

SUDDEN_RULE = "AAO-HNSF guideline 2019: 30 dB or more at three consecutive frequencies"
SUDDEN_DB = 30.0
ONSET_RULE = "NICE NG98, 1.1.2: sudden, as the listener says"
AT_ONCE, SOON = "within 24 hours", "within 2 weeks"
_RECENT_DAYS = 30.0
_TESTED_HZ = (250.0, 500.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)

ASYMMETRY_RULE = "NICE NG98, 1.3.2"
_ASYMMETRY_RULES = tuple(rule for rule in SYMMETRY_RULES if rule.name == ASYMMETRY_RULE)

ONE_SIDED_RULE = "better ear below 20 dB, worse ear 35 dB or more, as WHO 2021 names a loss of one ear"
_ONE_SIDED_BETTER, _ONE_SIDED_WORSE = 20.0, 35.0

GAP_RULE = "21 CFR 801.422: gap of 15 dB or more at 500, 1000 and 2000 Hz"
_GAP_DB, _GAP_HZ = 15.0, (500.0, 1000.0, 2000.0)

CHILD_RULE = "21 CFR 801.422: under 18 years"
_ADULT_YEARS = 18

SCORES_RULE = "a difference of 15 % or more that is beyond chance, as quoted with MRI guidance"
_SCORES_PERCENT = 15.0


def conclude(case: Case) -> Iterator[Finding]:
    """Give every pattern that is met or could be; one that is surely not met is not told."""
    days = case.settings.sudden_days_ago
    if days is not None:
        yield Finding(
            "refer-sudden", ONSET_RULE, ear="both", word=AT_ONCE if days <= _RECENT_DAYS else SOON, number=days,
            unit="days", low=days, high=days,
        )  # fmt: skip
    rows = {ear: row_of(case.audiogram.thresholds, ear) for ear in EARS}
    yield from _sudden_size("right", rows["right"], rows["left"])
    yield from _sudden_size("left", rows["left"], rows["right"])
    yield from _asymmetry(rows["right"], rows["left"])
    yield from _one_sided(case)
    yield from _gap(case)
    if case.age_years is not None and case.age_years < _ADULT_YEARS:
        yield Finding(
            "refer-child", CHILD_RULE, ear="both", word=MET, number=case.age_years, unit="years",
            low=case.age_years, high=case.age_years,
        )  # fmt: skip
    yield from _scores(case)


def consecutive(worse: Spans) -> Truth:
    """Judge whether a difference reaches 30 dB at three consecutive frequencies, of those tested in both ears."""
    tested = [at_least(worse[hz], SUDDEN_DB) for hz in sorted(worse)]
    return any_of(first & second & third for (first, second), (_, third) in pairwise(pairwise(tested)))


def _sudden_size(ear: Ear, mine: Row, others: Row) -> Iterator[Finding]:
    here = [hz for hz in _TESTED_HZ if hz in mine and hz in others]
    ours, theirs = {hz: mine[hz] for hz in here}, {hz: others[hz] for hz in here}

    def test(worse: Spans, better: Spans) -> Truth:
        return consecutive({hz: worse[hz].minus(better[hz]) for hz in worse})

    verdict = judged(test, ours, theirs)
    yield from told("refer-if-sudden", SUDDEN_RULE, ear, verdict, (ours, theirs))


def _asymmetry(right: Row, left: Row) -> Iterator[Finding]:
    if not right or not left:
        return
    for one in symmetry(right, left, _ASYMMETRY_RULES):
        if one.word == MET or one.could_be:
            yield Finding(
                "refer-asymmetry", ASYMMETRY_RULE, ear=one.ear, word=one.word or NOT_MET, could_be=one.could_be,
                number=one.number, unit=one.unit, low=one.low, high=one.high, standing=one.standing,
                rests_on=one.rests_on, missing_hz=one.missing_hz, no_response_hz=one.no_response_hz,
            )  # fmt: skip


def _one_sided(case: Case) -> Iterator[Finding]:
    values = case.audiogram.thresholds
    means = {ear: average(values, "0.5-1-2-4", ear) for ear in EARS}
    for worse, better in ((means["right"], means["left"]), (means["left"], means["right"])):
        if worse.db_hl is None or better.db_hl is None or worse.span is None or better.span is None:
            continue
        read = worse.db_hl >= _ONE_SIDED_WORSE and better.db_hl < _ONE_SIDED_BETTER and not better.at_least
        possibly = worse.span.high >= _ONE_SIDED_WORSE and better.span.low < _ONE_SIDED_BETTER
        surely = worse.span.low >= _ONE_SIDED_WORSE and better.span.high < _ONE_SIDED_BETTER
        rests_on = tuple(sorted({*worse.ask_hz, *better.ask_hz}))
        if read or (rests_on and possibly):
            yield Finding(
                "refer-one-sided", ONE_SIDED_RULE, ear=worse.ear, word=MET if read else NOT_MET,
                could_be=(NOT_MET, MET) if rests_on and not surely else (),
                numbers=(("average_db_hl", worse.db_hl), ("other_average_db_hl", better.db_hl)),
                standing=standing_of(rests_on), rests_on=rests_on, no_response_hz=worse.no_response_hz,
            )  # fmt: skip


def _gap(case: Case) -> Iterator[Finding]:
    values = case.audiogram.thresholds
    due = masking_due(values, attenuation_of(case.report.transducer))
    for ear in EARS:
        here = [gap for gap in gaps(values, ear, due) if gap.frequency_hz in _GAP_HZ and gap.bone is not None]
        if len(here) < len(_GAP_HZ):
            continue
        read, full = (
            [at_least(air.minus(bone), _GAP_DB) for air, bone in spans]
            for spans in (
                [(gap.air_read, gap.bone_read) for gap in here],
                [(gap.air_full, gap.bone_full) for gap in here],
            )
        )
        rests_on = tuple(gap.frequency_hz for gap in here if gap.ask)
        met = all(one.surely for one in read)
        if met or (rests_on and all(one.possibly for one in full)):
            yield Finding(
                "refer-gap", GAP_RULE, ear=ear, word=MET if met else NOT_MET,
                could_be=(NOT_MET, MET) if rests_on and not all(one.surely for one in full) else (),
                standing=standing_of(rests_on), rests_on=rests_on,
            )  # fmt: skip


def _scores(case: Case) -> Iterator[Finding]:
    right, left = best_score(case.audiogram, "right"), best_score(case.audiogram, "left")
    if right is None or left is None or right.score_percent is None or left.score_percent is None:
        return
    apart = abs(right.score_percent - left.score_percent)
    if apart < _SCORES_PERCENT or right.words is None or left.words is None:
        return
    if critically_different(right.score_percent, right.words, left.score_percent, left.words):
        asks = right.standing == "ask" or left.standing == "ask"
        worse = right if right.score_percent < left.score_percent else left
        yield Finding(
            "refer-word-scores", SCORES_RULE, ear=worse.ear, word=MET, could_be=(NOT_MET, MET) if asks else (),
            number=apart, unit="%", low=0 if asks else apart, high=100 if asks else apart,
            standing="ask" if asks else "sure",
        )  # fmt: skip


def told(code: str, rule: str, ear: Ear, verdict: Verdict, rows: tuple[Row, ...]) -> Iterator[Finding]:
    """Give the finding of a criterion that is met or could be."""
    if verdict.word != MET and not verdict.could_be:
        return
    rests_on = tuple(sorted({hz for row in rows for hz, level in row.items() if level.ask}))
    silent = tuple(sorted({hz for row in rows for hz, level in row.items() if not level.response}))
    yield Finding(
        code, rule, ear=ear, word=verdict.word or NOT_MET, could_be=verdict.could_be, standing=standing_of(rests_on),
        rests_on=rests_on, no_response_hz=silent,
    )  # fmt: skip
