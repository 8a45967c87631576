"""One value a slot: which of the marks that would fill it stands, and what hardly can be so beside the others."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...interpret.record import Ear, Threshold
from ..chart import FrequencyScale, Mark
from .frequencies import Placed
from .nearby import same_place
from .symbols.likely import MASKED_BETTER_DB
from .symbols.triangles import ATTENUATION_DB

APART = 0.3
"""Two marks so many sizes from one another are two, though their frequency reads as the same."""
CLEAR, WEAKER, AWAY = 0.85, 0.2, 1.0
"""A mark so clear, and so much clearer than all others that would fill its slot, so many sizes off, is its value: of
150 such values of some 120 painted pages that asked for the other, a letter or strokes that cross, all were right."""
EXACT, ASTRAY = 0.05, 0.2
"""A mark within so many octaves of a label that was read has the label's frequency, where the other stands so far off
on a logarithmic axis and is of a frequency that the form does not name: of 93 such values of 60 painted pages all were
right. On an axis of equal columns a label may have been misread."""
BONE_WORSE_DB = 15.0
"""Bone worse than the same ear's air by more than test and retest (10 dB) is looked at."""
RETEST_DB = 10.0
"""Test and retest differ by no more [common practice]."""
NO_MARK = frozenset({"implausible", "faint"})
"""What says that something may be no mark at all. Of 15,000 values that stood as sure on painted pages and a stranger's
forms 6 have only such beside them in their row, and one more was a mark that somebody had crossed out."""
BEST_COCHLEA_DB = -10.0
"""The best that a cochlea hears that was not tested [common practice: no form goes lower but for some at -20]."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A mark with its meaning, place and doubts."""

    mark: Mark
    threshold: Threshold
    placed: Placed
    evidence: tuple[float, ...]

    @property
    def slot(self) -> tuple[object, ...]:
        """What it is the value of: ear, conduction, masking, aiding, measure, and last the frequency."""
        t = self.threshold
        return (t.ear, t.conduction, t.masked, t.aided, t.measure, t.frequency_hz)


def one_a_slot(candidates: list[Candidate], scale: FrequencyScale) -> tuple[list[Candidate], list[Mark]]:
    """Keep one value a slot: the stronger mark, as ``ask`` where another may be it; give the others.

    Where no ear is named two may stand in a slot, one of each ear. ``scale`` is the chart's frequency axis.
    """
    slots: dict[tuple[object, ...], list[Candidate]] = defaultdict(list)
    for candidate in candidates:
        slots[candidate.slot].append(candidate)
    kept: list[Candidate] = []
    dropped: list[Mark] = []
    for slot, rivals in slots.items():
        if slot[0] == "unspecified":  # each ear's mark stands there, and no colour says which is whose
            pair = _two_ears(rivals)
            kept += pair
            dropped += [c.mark for c in rivals if c not in pair]
            continue
        best = max(rivals, key=lambda c: c.mark.sight.score - c.placed.miss_octaves)
        differing = [c for c in rivals if _says_otherwise(c, best)]
        kept.append(asking(best, "two-readings") if any(_may_be_it(c, best, scale) for c in differing) else best)
        dropped += [c.mark for c in differing]
    return sorted(kept, key=lambda c: _order(c.threshold)), dropped


def _says_otherwise(one: Candidate, other: Candidate) -> bool:
    """Say whether two marks of one slot give it two levels, or stand so far apart that one must be another's."""
    apart = abs(one.mark.x - other.mark.x) > APART * max(*one.mark.sight.size, *other.mark.sight.size)
    return apart or one.threshold.level_db_hl != other.threshold.level_db_hl


def _may_be_it(one: Candidate, best: Candidate, scale: FrequencyScale) -> bool:
    """Say whether the mark of a slot that is not taken may be its value after all."""
    x, y = one.mark.x - best.mark.x, one.mark.y - best.mark.y
    away = max(abs(x), abs(y)) >= AWAY * max(*best.mark.sight.size)
    outdone = best.mark.sight.score >= max(CLEAR, one.mark.sight.score + WEAKER) and away
    named = scale.scale == "log" and best.threshold.frequency_hz in scale.well_read
    elsewhere = named and best.placed.miss_octaves <= EXACT and one.placed.miss_octaves >= ASTRAY
    return not (outdone or elsewhere)


def _two_ears(rivals: list[Candidate]) -> list[Candidate]:
    """Take the strongest mark of no named ear, and with it the next at another place; two ask whose they are."""
    ranked = sorted(rivals, key=lambda c: c.placed.miss_octaves - c.mark.sight.score)
    others = [c for c in ranked if not same_place(c.mark, ranked[0].mark, 0.2)]
    return [asking(c, "ear-uncertain") for c in (ranked[0], others[0])] if others else ranked[:1]


def ears_were_told(thresholds: Sequence[Threshold]) -> bool:
    """Say whether marks of no named ear must have had one: two of a kind stand at one frequency somewhere."""
    counts = Counter(_unnamed_slot(t) for t in thresholds if t.ear == "unspecified")
    return any(count > 1 for count in counts.values())


def with_ears_asked(thresholds: tuple[Threshold, ...]) -> tuple[Threshold, ...]:
    """Ask whose the marks of no named ear are."""
    return tuple(asked(t, "ear-uncertain") if t.ear == "unspecified" else t for t in thresholds)


def with_bone_asked(thresholds: tuple[Threshold, ...]) -> tuple[Threshold, ...]:
    """Ask whose the unmasked bone is that names an ear."""
    return tuple(
        asked(t, "ear-uncertain") if t.conduction == "bone" and not t.masked and t.ear in ("right", "left") else t
        for t in thresholds
    )


def _unnamed_slot(t: Threshold) -> tuple[object, ...]:
    return (t.conduction, t.masked, t.aided, t.measure, t.frequency_hz)


def doubted(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about what hardly can be so beside the others of its chart."""
    for asked in (bone_against_air, masked_against_unmasked, heard_across, loudness_against_air, lone):
        candidates = asked(candidates)
    return candidates


def _air_levels(candidates: list[Candidate]) -> defaultdict[tuple[Ear, float], list[float]]:
    """Give the levels at which each ear hears by air, masked or not, by ear and frequency."""
    levels: defaultdict[tuple[Ear, float], list[float]] = defaultdict(list)
    for t in (c.threshold for c in candidates):
        if t.conduction == "air" and t.measure == "threshold":
            levels[t.ear, t.frequency_hz].append(t.level_db_hl)
    return levels


def bone_against_air(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about bone that is worse than all air of its ear at its frequency."""
    air = _air_levels(candidates)
    return [
        asking(c, "implausible")
        if (t := c.threshold).conduction == "bone"
        and t.level_db_hl >= max(air[t.ear, t.frequency_hz], default=math.inf) + BONE_WORSE_DB
        else c
        for c in candidates
    ]


def masked_against_unmasked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about masked values that are better than the same ear's unmasked ones: noise makes no threshold better."""
    unmasked = {
        (t.ear, t.conduction, t.measure, t.frequency_hz): t.level_db_hl
        for t in (c.threshold for c in candidates)
        if not t.masked
    }
    return [
        asking(c, "implausible")
        if (t := c.threshold).masked
        and t.level_db_hl
        < unmasked.get((t.ear, t.conduction, t.measure, t.frequency_hz), t.level_db_hl) - MASKED_BETTER_DB
        else c
        for c in candidates
    ]


def heard_across(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about air of one ear that is far better than its masked air, and better than the other cochlea could hear.

    The other ear hears what is not masked, 40 dB better than it is presented (BSA 2018); it cannot hear more.
    """
    air = [c.threshold for c in candidates if c.threshold.conduction == "air" and c.threshold.measure == "threshold"]
    masked = {(t.ear, t.frequency_hz): t.level_db_hl for t in air if t.masked}
    odd = {
        (t.ear, t.frequency_hz)
        for t in air
        if not t.masked
        and masked.get((t.ear, t.frequency_hz), t.level_db_hl) - t.level_db_hl > 2 * RETEST_DB
        and t.level_db_hl < _other_cochlea_db(candidates, t) + ATTENUATION_DB - RETEST_DB
    }
    return [
        asking(c, "implausible") if (t := c.threshold) in air and (t.ear, t.frequency_hz) in odd else c
        for c in candidates
    ]


def _other_cochlea_db(candidates: list[Candidate], tested: Threshold) -> float:
    """Give the level from which the other cochlea hears at a value's frequency, as far as bone tells."""
    bone = (
        t.level_db_hl
        for t in (c.threshold for c in candidates)
        if t.conduction == "bone" and t.frequency_hz == tested.frequency_hz and not (t.masked and t.ear == tested.ear)
    )
    return min(bone, default=BEST_COCHLEA_DB)


def loudness_against_air(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about loudness below what its ear hears at its frequency: a level that is not heard is not loud."""
    air = _air_levels(candidates)
    return [
        asking(c, "implausible")
        if (t := c.threshold).measure != "threshold"
        and t.level_db_hl <= min(air[t.ear, t.frequency_hz], default=-math.inf) - RETEST_DB
        else c
        for c in candidates
    ]


def lone(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about what is alone in its row, but for air: a scribble or a letter of a remark may look like one.

    What may itself be no mark is no company.
    """
    rows = Counter(_row(c.threshold) for c in candidates if _a_mark(c.threshold))
    return [
        asking(c, "implausible")
        if rows[_row(t := c.threshold)] == _a_mark(t) and (t.conduction != "air" or t.measure != "threshold")
        else c
        for c in candidates
    ]


def _a_mark(t: Threshold) -> bool:
    return NO_MARK.isdisjoint(t.why_ask)


def _row(t: Threshold) -> tuple[object, ...]:
    return (t.ear, t.conduction, t.measure)


def asking(candidate: Candidate, code: str) -> Candidate:
    """Let a candidate's value ask, for one more reason."""
    return replace(candidate, threshold=asked(candidate.threshold, code))


def asked(threshold: Threshold, code: str) -> Threshold:
    """Let a value ask, for one more reason."""
    return replace(threshold, standing="ask", why_ask=tuple(dict.fromkeys((*threshold.why_ask, code))))


def _order(t: Threshold) -> tuple[object, ...]:
    return (t.ear, t.conduction, t.masked, t.measure, t.frequency_hz)
