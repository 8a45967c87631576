"""What does not fit together on a page: remarks for a person, which lower no value's standing.

The rules that lower a standing are those of ``plausibility``; here they are told as findings, too, so that typed and
imported values have them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from ..finding import Finding, standing_of
from ..record import PrintedAverage, Side
from ..settings import Case
from .averages import average
from .doubt import Row, Span, row_of
from .plausibility import implausible
from .speech.agreement import SIDES, average_for, srt_of
from .truth import MET, NOT_MET, Spans, Truth, any_of, at_least, at_most, judged, mean

SHADOW_RULE = "a curve 40 to 60 dB below the other ear's at 4 frequencies or more, unmasked, common practice"
_SHADOW_DB, _SHADOW_SPREAD_DB, _SHADOW_COUNT = (40.0, 60.0), 15.0, 4

LOW_BONE_RULE = "no response by bone at 250 or 500 Hz beside a heard air value, common practice"
WORSE_THAN_AIR, AT_THE_LIMIT = "not heard where air was", "at the vibrator's limit"
_LOW_HZ = (250.0, 500.0)

PRINTED_RULE = "the printed average is off by 1 dB or more"
_PRINTED_DB = 1.0
"""A printed average is rounded to whole dB, or cut: it lies less than this from the true one."""

SWAPPED_AVERAGES = "printed averages fit the other ear each"
SWAPPED_SRT = "each SRT within 10 dB of the other ear's average, and not of its own"
_SRT_DB = 10.0


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on plausibility."""
    yield from _implausible(case)
    rows = {ear: row_of(case.audiogram.thresholds, ear) for ear in SIDES}
    yield from _shadow("right", rows["right"], rows["left"])
    yield from _shadow("left", rows["left"], rows["right"])
    for ear in SIDES:
        yield from _low_bone(ear, rows[ear], row_of(case.audiogram.thresholds, ear, "bone"))
    yield from _printed(case)
    yield from _swapped(case)


def _implausible(case: Case) -> Iterator[Finding]:
    values = case.audiogram.thresholds
    for doubt in implausible(values):
        t = values[doubt.index]
        rests_on = (t.frequency_hz,) if t.standing == "ask" else ()
        yield Finding(
            "implausible-value", doubt.rule, ear=t.ear, conduction=t.conduction, frequency_hz=t.frequency_hz,
            numbers=(("level_db_hl", t.level_db_hl),), standing=standing_of(rests_on), rests_on=rests_on,
        )  # fmt: skip


def _shadow(ear: Side, mine: Row, others: Row) -> Iterator[Finding]:
    """Tell a whole curve that follows the other ear's, as one does that hears across the head."""
    here = [hz for hz in mine if hz in others and not mine[hz].threshold.masked and mine[hz].response]
    if len(here) < _SHADOW_COUNT or len(here) < len(mine):
        return

    def test(worse: Spans, better: Spans) -> Truth:
        apart = [worse[hz].minus(better[hz]) for hz in here]
        least = max(s.low for s in apart) - min(s.high for s in apart)
        alike = Span(max(0, least), max(one.high - other.low for one, other in permutations(apart, 2)))
        found = at_most(alike, _SHADOW_SPREAD_DB)
        for span in apart:
            found &= at_least(span, _SHADOW_DB[0]) & at_most(span, _SHADOW_DB[1])
        return found

    verdict = judged(test, mine, others)
    if verdict.word == MET or verdict.could_be:
        rests_on = tuple(hz for hz in here if mine[hz].ask or others[hz].ask)
        yield Finding(
            "shadow-curve", SHADOW_RULE, ear=ear, conduction="air", word=verdict.word or NOT_MET,
            could_be=verdict.could_be, standing=standing_of(rests_on), rests_on=rests_on,
        )  # fmt: skip


def _low_bone(ear: Side, air: Row, bone: Row) -> Iterator[Finding]:
    for hz in _LOW_HZ:
        if hz not in air or hz not in bone or bone[hz].response or not air[hz].response:
            continue
        asks = air[hz].ask or bone[hz].ask
        word = WORSE_THAN_AIR if air[hz].db_hl <= bone[hz].db_hl else AT_THE_LIMIT
        could = {
            WORSE_THAN_AIR: air[hz].span.low <= bone[hz].db_hl + (bone[hz].db_hl - bone[hz].span.low),
            AT_THE_LIMIT: air[hz].span.high > bone[hz].span.low,
        }
        yield Finding(
            "low-bone-not-heard", LOW_BONE_RULE, ear=ear, conduction="bone", frequency_hz=hz, word=word,
            could_be=tuple(could) if asks and all(could.values()) else (),
            numbers=(("air_db_hl", air[hz].db_hl), ("bone_db_hl", bone[hz].db_hl)),
            standing="ask" if asks else "sure", rests_on=(hz,) if asks else (), no_response_hz=(hz,),
        )  # fmt: skip


def _off(one: PrintedAverage, row: Row) -> tuple[Truth, Truth, float] | None:
    """Judge whether a printed average is off, as the values read and with their doubts, and by how much; or None."""
    if not one.frequencies_hz or any(hz not in row or not row[hz].response for hz in one.frequencies_hz):
        return None
    read = mean(Span(row[hz].db_hl, row[hz].db_hl) for hz in one.frequencies_hz)
    full = mean(row[hz].span for hz in one.frequencies_hz)
    printed = Span(one.level_db_hl, one.level_db_hl)

    def off(span: Span) -> Truth:
        return any_of((at_least(span.minus(printed), _PRINTED_DB), at_least(printed.minus(span), _PRINTED_DB)))

    return off(read), off(full), one.level_db_hl - read.low


def _printed(case: Case) -> Iterator[Finding]:
    for one in case.audiogram.printed_averages:
        row = row_of(case.audiogram.thresholds, one.ear, one.conduction)
        judgement = _off(one, row)
        if judgement is None:
            continue
        read, full, apart = judgement
        rests_on = tuple(hz for hz in one.frequencies_hz if row[hz].ask)
        asks = bool(rests_on) or one.standing == "ask"
        if not read.surely and not (asks and full.possibly):
            continue
        settled = full.surely and one.standing == "sure"
        yield Finding(
            "printed-average-differs", PRINTED_RULE, ear=one.ear, conduction=one.conduction,
            word=MET if read.surely else NOT_MET, could_be=() if not asks or settled else (NOT_MET, MET),
            numbers=(("printed_db_hl", one.level_db_hl), ("read_db_hl", one.level_db_hl - apart)),
            standing="ask" if asks else "sure", rests_on=rests_on,
        )  # fmt: skip


def _swapped(case: Case) -> Iterator[Finding]:
    """Tell whether what is printed of each ear fits the other ear's values: the ears may be swapped."""
    rows = {ear: row_of(case.audiogram.thresholds, ear) for ear in SIDES}
    printed = {one.ear: one for one in case.audiogram.printed_averages if one.conduction == "air"}
    right, left = printed.get("right"), printed.get("left")
    if right is not None and left is not None:
        straight = [_off(right, rows["right"]), _off(left, rows["left"])]
        crossed = [_off(right, rows["left"]), _off(left, rows["right"])]
        told = [one[0] for one in (*straight, *crossed) if one is not None]
        if len(told) == 4 and all(one.surely for one in told[:2]) and not any(one.possibly for one in told[2:]):
            yield _swap(case, SWAPPED_AVERAGES, asks=right.standing == "ask" or left.standing == "ask")
    srt = {ear: srt_of(case.audiogram.speech, ear) for ear in SIDES}
    means = {ear: average_for(case, ear) for ear in SIDES}
    levels = [one.level_db_hl for one in srt.values() if one is not None and one.level_db_hl is not None]
    tones = [one.db_hl for one in means.values() if one.db_hl is not None and not one.at_least]
    if len(levels) == 2 and len(tones) == 2:
        apart = [abs(level - tone) for level, tone in zip(levels, tones, strict=True)]
        across = [abs(level - tone) for level, tone in zip(levels, tones[::-1], strict=True)]
        if min(apart) > _SRT_DB and max(across) <= _SRT_DB:
            yield _swap(case, SWAPPED_SRT, asks=any(one is not None and one.standing == "ask" for one in srt.values()))


def _swap(case: Case, rule: str, *, asks: bool) -> Finding:
    means = [average(case.audiogram.thresholds, "0.5-1-2", ear) for ear in SIDES]
    rests_on = tuple(sorted({hz for one in means for hz in one.ask_hz}))
    unsure = asks or bool(rests_on)
    return Finding(
        "ears-may-be-swapped", rule, ear="both", word=MET, could_be=(NOT_MET, MET) if unsure else (),
        standing="ask" if unsure else "sure", rests_on=rests_on,
    )  # fmt: skip
