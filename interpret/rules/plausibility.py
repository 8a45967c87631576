"""Values that hardly can be so: shown to a person, never repaired. A doubt lowers certainty, no more."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from ..reach import AIR_REACH_DB, BONE_REACH_DB, LEAST_END_DB
from ..record import Audiogram, PageRecord, Threshold
from .gap.masking import OTHER, attenuation_of

CODE = "implausible"

BONE_WORSE_DB = 10
"""Bone may be worse than air by test-retest alone; from here on it is more than that (common practice)."""

MASKED_BETTER_DB = 15
"""Noise in the other ear makes no threshold better (BSA 2018); test and retest of the two differ by 10 dB at most."""

MASK_DUE_DB = attenuation_of("insert").db
"""The other ear may hear a tone that is so much louder than its threshold, through the head from whatever earphone:
then it is masked."""

OCTAVE_JUMP_DB = 50
"""Neighbouring octaves this far apart are suspect (common practice)."""

# many devices reach further than they must, so a level is suspect only past the allowance
_AIR_ALLOWANCE_DB, _LOW_AIR_ALLOWANCE_DB = 10, 20
_BONE_ALLOWANCE_DB = 5
_STEP_DB = 5

_CLEAR = 0.99
"""Chance from which values of a chart were seen so well that a jump says nothing against them: of some 550 that nothing
else speaks against, on 180 painted pages of all kinds, none was wrong. Nor are jumps just short of the rule a sign: of
14,700 values 30 to 45 dB from the next octave 3 were wrong, a smaller share than of those that go on level."""

_FEWEST_ODD = 3
"""So many implausible values, and half of their row, doubt all of it: of 17,000 values on painted pages five that were
right ask for it; on a page with an earlier test in grey, none of its masked values worse, the one left was of it."""

_LEAST_END_DB = {**LEAST_END_DB, "field": -math.inf}
"""A joining line that ends at a mark looks like its arrow at any level. Where a loudspeaker ends is not known."""

_END_ALLOWANCE_DB = 10
"""Audiometers end no lower at one frequency than at another where they must reach as far, but for this (common
practice); an arrow of bone that lies hidden on an air mark looks like that mark's own. Where the ear's bone was not
heard at other frequencies, and is missing at this one, a step is enough to doubt."""

WORSE_RULE = f"bone worse than air by {BONE_WORSE_DB:g} dB or more, common practice"
MASKED_RULE = f"masked better than unmasked by {MASKED_BETTER_DB:g} dB or more, common practice"
UNMASKED_RULE = f"not masked between masked values, the other ear {MASK_DUE_DB:g} dB or more better, common practice"
JUMP_RULE = f"neighbouring octaves {OCTAVE_JUMP_DB:g} dB or more apart, common practice"
REACH_RULE = "beyond the device's reach, IEC 60645-1 and ANSI S3.6"
END_RULE = "no response means the device's end, which is one level for both ears at a frequency, common practice"


@dataclass(frozen=True, slots=True)
class Doubt:
    """One suspicious value: its place in the tuple that was looked at, the code, why for a person, and the rule."""

    index: int
    code: str
    text: str
    rule: str


def implausible(thresholds: tuple[Threshold, ...]) -> tuple[Doubt, ...]:
    """Find the values of one audiogram that hardly can be so.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram.

    Returns
    -------
    tuple of Doubt
        In the order of the values; a value may have several.

    Notes
    -----
    Bone worse than air by 10 dB or more; a masked level better than the unmasked one by 15 dB or more, and neighbouring
    octaves of one row 50 dB or more apart (both values are doubted); a level beyond the bone vibrator's or the
    audiometer's reach; air not masked between two frequencies at which it is, where the other ear hears the tone; no
    response below a level that was given at the same frequency and conduction (by a loudspeaker with hearing aids or
    without), or where no audiometer ends, or well below one given at a frequency where audiometers end sooner; and a
    level heard where another value shows the device's end: one of the two may have an arrow too many or too few. A bone
    mark without response counts as one step worse than the level that was not heard; an air mark without response can
    be worse than any bone mark and raises no doubt.
    """
    found = [
        *_bone_worse_than_air(thresholds), *_masked_better(thresholds), *_unmasked_among_masked(thresholds),
        *_octave_jumps(thresholds), *_beyond_reach(thresholds), *_against_the_end(thresholds),
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda doubt: doubt.index))


def with_doubts(record: PageRecord) -> PageRecord:
    """Give the same record with every implausible value standing as ``ask``, and the page with it.

    Values, probabilities and what already asked stay as they are. A jump of hearing that falls steeply is none to ask
    about where its whole row was seen clearly on a chart and nothing else speaks against any of it.
    """
    audiograms = tuple(_doubted(audiogram) for audiogram in record.audiograms)
    asks = any(t.standing == "ask" for audiogram in audiograms for t in audiogram.thresholds)
    return replace(record, audiograms=audiograms, standing="ask" if asks else record.standing)


def _doubted(audiogram: Audiogram) -> Audiogram:
    doubts = implausible(audiogram.thresholds)
    jumps = {doubt.index for doubt in doubts if doubt.rule == JUMP_RULE}
    doubted = {doubt.index for doubt in doubts if doubt.rule != JUMP_RULE}
    unclear = {
        _row_of(t)
        for index, t in enumerate(audiogram.thresholds)
        if index in doubted or t.standing == "ask" or t.probability < _CLEAR or t.seen is None or t.seen.chart is None
    }
    odd = _of_odd_rows(audiogram.thresholds, doubted)
    doubted |= odd | {index for index in jumps if _row_of(audiogram.thresholds[index]) in unclear}
    values = (_asking(t) if index in doubted else t for index, t in enumerate(audiogram.thresholds))
    return replace(audiogram, thresholds=tuple(values))


def _of_odd_rows(thresholds: tuple[Threshold, ...], doubted: set[int]) -> set[int]:
    """Give the values of rows of which most hardly can be so: such a row is of another day, or means something else."""
    rows: dict[tuple[object, ...], list[int]] = {}
    for index, t in enumerate(thresholds):
        rows.setdefault((t.ear, t.conduction, t.masked, t.aided, t.measure), []).append(index)
    found: set[int] = set()
    for row in rows.values():
        odd = len(doubted & {*row})
        if odd >= _FEWEST_ODD and 2 * odd >= len(row):
            found |= {*row}
    return found


def _asking(threshold: Threshold) -> Threshold:
    codes = threshold.why_ask if CODE in threshold.why_ask else (*threshold.why_ask, CODE)
    return replace(threshold, standing="ask", why_ask=codes)


def _bone_worse_than_air(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    air = {
        (t.ear, t.frequency_hz, t.masked): t
        for t in thresholds
        if _is_hearing(t) and t.conduction == "air" and t.response
    }
    for index, bone in enumerate(thresholds):
        if bone.conduction != "bone" or not _is_hearing(bone):
            continue
        beside = air.get((bone.ear, bone.frequency_hz, True)) or air.get((bone.ear, bone.frequency_hz, False))
        level = bone.level_db_hl if bone.response else bone.level_db_hl + _STEP_DB
        if beside is not None and level - beside.level_db_hl >= BONE_WORSE_DB:
            worse = f"bone is worse than air by {level - beside.level_db_hl:g} dB{'' if bone.response else ' or more'}"
            yield Doubt(index, CODE, worse, WORSE_RULE)


def _masked_better(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    heard = {
        (t.ear, t.conduction, t.frequency_hz, t.masked): (index, t)
        for index, t in enumerate(thresholds)
        if _is_hearing(t) and t.response
    }
    for (ear, conduction, hz, masked), (index, worse) in heard.items():
        other, better = heard.get((ear, conduction, hz, True), (index, worse))
        better_by = worse.level_db_hl - better.level_db_hl
        if not masked and better_by >= MASKED_BETTER_DB:
            text = f"masked is better than unmasked by {better_by:g} dB at {worse.frequency_hz:g} Hz"
            yield from (Doubt(one, CODE, text, MASKED_RULE) for one in (index, other))


def _unmasked_among_masked(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    air = [t for t in thresholds if _is_hearing(t) and t.conduction == "air"]
    best: dict[tuple[str, float], float] = {}
    for t in air:
        best[t.ear, t.frequency_hz] = min(best.get((t.ear, t.frequency_hz), math.inf), t.level_db_hl)
    for index, t in enumerate(thresholds):
        other = best.get((OTHER.get(t.ear, ""), t.frequency_hz), math.inf)
        if t.conduction != "air" or t.masked or not _is_hearing(t) or t.level_db_hl - other < MASK_DUE_DB:
            continue
        masked = {o.frequency_hz: o.masked for o in sorted(air, key=lambda o: o.masked) if o.ear == t.ear}
        below = max((hz for hz in masked if hz < t.frequency_hz), default=None)
        above = min((hz for hz in masked if hz > t.frequency_hz), default=None)
        if not masked[t.frequency_hz] and masked.get(below or 0, False) and masked.get(above or 0, False):
            text = (
                f"not masked at {t.frequency_hz:g} Hz, where the other ear hears it, but at {below:g} and {above:g} Hz"
            )
            yield Doubt(index, CODE, text, UNMASKED_RULE)


def _octave_jumps(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    def row(item: tuple[int, Threshold]) -> tuple[str, str, str, bool, bool]:
        return _row_of(item[1])

    for _, items in groupby(sorted(enumerate(thresholds), key=row), key=row):
        by_frequency = {t.frequency_hz: (index, t) for index, t in items}
        for hz, (index, low) in by_frequency.items():
            if hz * 2 not in by_frequency:
                continue
            other, high = by_frequency[hz * 2]
            apart = abs(high.level_db_hl - low.level_db_hl)
            if apart >= OCTAVE_JUMP_DB:
                text = f"{hz:g} and {hz * 2:g} Hz, an octave apart, differ by {apart:g} dB"
                yield from (Doubt(one, CODE, text, JUMP_RULE) for one in (index, other))


def _row_of(t: Threshold) -> tuple[str, str, str, bool, bool]:
    return t.ear, t.conduction, t.measure, t.aided, t.masked


def _beyond_reach(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    for index, t in enumerate(thresholds):
        if t.level_db_hl > _most_db(t):
            what = "a bone vibrator" if t.conduction == "bone" else "an audiometer"
            beyond = f"{t.level_db_hl:g} dB HL at {t.frequency_hz:g} Hz is more than {what} gives"
            yield Doubt(index, CODE, beyond, REACH_RULE)


def _most_db(threshold: Threshold) -> float:
    """Give the highest level that a value's device hardly goes beyond, where it is known."""
    if threshold.conduction == "bone":
        reach, allowance = BONE_REACH_DB.get(threshold.frequency_hz, max(BONE_REACH_DB.values())), _BONE_ALLOWANCE_DB
    elif threshold.conduction == "air":
        reach = AIR_REACH_DB.get(threshold.frequency_hz)
        allowance = _LOW_AIR_ALLOWANCE_DB if threshold.frequency_hz <= 250 else _AIR_ALLOWANCE_DB
    else:
        return math.inf
    return math.inf if reach is None else reach + allowance


def _against_the_end(thresholds: tuple[Threshold, ...]) -> Iterator[Doubt]:
    # one loudspeaker gives the levels with hearing aids and without
    tested = [
        (i, t)
        for i, t in enumerate(thresholds)
        if t.conduction in _LEAST_END_DB and t.measure == "threshold" and (t.conduction == "field" or not t.aided)
    ]
    given: dict[tuple[str, float], float] = {}  # heard or not: the device goes as far
    unheard: dict[tuple[str, float], float] = {}
    for _, t in tested:
        place = (t.conduction, t.frequency_hz)
        if t.level_db_hl <= _most_db(t):  # beyond that a mark is misread, and tells of no device
            given[place] = max(given.get(place, -math.inf), t.level_db_hl)
        if not t.response:
            unheard[place] = min(unheard.get(place, math.inf), t.level_db_hl)
    ends = {(t.ear, t.masked) for _, t in tested if t.conduction == "bone" and not t.response}
    bone = {(t.ear, t.masked, t.frequency_hz) for _, t in tested if t.conduction == "bone"}
    for index, t in tested:
        place = (t.conduction, t.frequency_hz)
        hidden = (t.ear, t.masked) in ends and (t.ear, t.masked, t.frequency_hz) not in bone
        allowance = _STEP_DB if hidden else _END_ALLOWANCE_DB
        if t.response and t.level_db_hl >= unheard.get(place, math.inf):
            text = f"{t.level_db_hl:g} dB HL was heard, where another value at {t.frequency_hz:g} Hz was not"
        elif not t.response and t.level_db_hl < given.get(place, -math.inf):
            text = f"no response at {t.level_db_hl:g} dB HL, but {given[place]:g} dB HL was given at this frequency"
        elif not t.response and t.level_db_hl < _LEAST_END_DB[t.conduction]:
            text = f"no response at {t.level_db_hl:g} dB HL, where no audiometer ends"
        elif not t.response and t.level_db_hl + allowance <= (louder := _least_end_by_others(t, given)):
            text = (
                f"no response at {t.level_db_hl:g} dB HL, but {louder:g} dB HL was given where audiometers end sooner"
            )
        else:
            continue
        yield Doubt(index, CODE, text, END_RULE)


def _least_end_by_others(threshold: Threshold, given: dict[tuple[str, float], float]) -> float:
    """Give the highest level given at frequencies at which an audiometer need not reach farther than at this one."""
    if threshold.conduction == "field":
        return -math.inf
    reach = AIR_REACH_DB if threshold.conduction == "air" else BONE_REACH_DB
    here = reach.get(threshold.frequency_hz, 0.0)
    levels = (
        level
        for (conduction, hz), level in given.items()
        if conduction == threshold.conduction and reach.get(hz, math.inf) <= here
    )
    return max(levels, default=-math.inf)


def _is_hearing(threshold: Threshold) -> bool:
    return threshold.measure == "threshold" and not threshold.aided
