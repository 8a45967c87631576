"""The type of a loss from air-bone gaps, by named rules: at each frequency, and of the ear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding, standing_of
from ...record import Ear, Threshold
from ...settings import Case
from ..degree import EARS, NORMAL_LIMITS
from ..doubt import Span
from ..truth import mean
from .air_bone_gap import Gap, gaps
from .masking import attenuation_of, masking_due, masking_findings

NORMAL, CONDUCTIVE, SENSORINEURAL, MIXED = "within normal limits", "conductive", "sensorineural", "mixed"
KINDS = (NORMAL, CONDUCTIVE, SENSORINEURAL, MIXED)
UNTOLD = "cannot tell"
NO_BONE, NO_MASKING, AT_LIMIT = f"{UNTOLD} without bone", f"{UNTOLD}, masking not shown", f"{UNTOLD}, not heard"
_UNTOLD = {"no-bone": NO_BONE, "masking": NO_MASKING, "limit": AT_LIMIT}

_THREE = (500.0, 1000.0, 2000.0)


@dataclass(frozen=True, slots=True)
class GapRule:
    """When a gap is one, and when bone is normal.

    Attributes
    ----------
    id, name : str
        For the computer and for people.
    gap_db : float
        The edge of a gap.
    edge_is_gap : bool
        A gap of exactly that size counts.
    bone_normal_db : float or None
        Up to which level bone is normal; None: the limit of normal that is used for air.
    """

    id: str
    name: str
    gap_db: float
    edge_is_gap: bool
    bone_normal_db: float | None


# gap-10: a textbook chapter on audiologic evaluation (over 10 dB; some say 10 or more). gap-15: the European genetics
# working group of 1996 (GENDEAF) [memory]; its text leaves bone of exactly 20 dB and conductive gaps of exactly 15 dB
# undefined, here both belong to the conductive side.
GAP_RULES: dict[str, GapRule] = {
    rule.id: rule
    for rule in (
        GapRule("gap-10", "gap over 10 dB", 10, edge_is_gap=False, bone_normal_db=None),
        GapRule("gap-15", "gap of 15 dB or more, bone by 20 dB (GENDEAF)", 15, edge_is_gap=True, bone_normal_db=20),
    )
}
"""The rules by id."""


@dataclass(frozen=True, slots=True)
class LossType:
    """The type of one ear.

    Attributes
    ----------
    rule : GapRule
        By which rule.
    word : str
        One of ``KINDS``, or why it cannot be told.
    could_be : tuple of str
        Every type within the doubt of values to look at; empty where there is none.
    frequencies_hz : tuple of float
        Over which frequencies air and bone were averaged.
    air_db, bone_db : float or None
        The averages as the marks stand, dB HL.
    ask_hz : tuple of float
        The frequencies of values to look at.
    """

    rule: GapRule
    word: str
    could_be: tuple[str, ...]
    frequencies_hz: tuple[float, ...]
    air_db: float | None
    bone_db: float | None
    ask_hz: tuple[float, ...]


def kinds(air: Span, bone: Span, rule: GapRule, normal_db: float) -> tuple[str, ...]:
    """Give every type that air and bone within these ranges may have.

    Parameters
    ----------
    air, bone : Span
        dB HL.
    rule : GapRule
        When a gap is one.
    normal_db : float
        The worst level within normal limits, dB HL.
    """
    bone_normal = normal_db if rule.bone_normal_db is None else rule.bone_normal_db

    def gap_possible(bone_db: float) -> bool:
        gap = air.high - bone_db
        return gap >= rule.gap_db if rule.edge_is_gap else gap > rule.gap_db

    found: list[str] = []
    if air.low <= normal_db:
        found.append(NORMAL)
    if air.high <= normal_db:
        return tuple(found)
    if bone.low <= bone_normal and gap_possible(bone.low):
        found.append(CONDUCTIVE)
    least_gap = max(air.low, normal_db) - bone.high
    if least_gap < rule.gap_db or (least_gap == rule.gap_db and not rule.edge_is_gap):
        found.append(SENSORINEURAL)
    if bone.high > bone_normal and gap_possible(max(bone.low, bone_normal)):
        found.append(MIXED)
    return tuple(found)


def type_at(gap: Gap, rule: GapRule, normal_db: float) -> tuple[str, tuple[str, ...]]:
    """Give the type at one frequency, and every type within the doubt of values to look at."""
    read = kinds(gap.air_read, gap.bone_read, rule, normal_db)
    word = read[0] if len(read) == 1 else _UNTOLD[_reason(gap.reasons)]
    full = kinds(gap.air_full, gap.bone_full, rule, normal_db)
    return word, full if gap.ask and len(full) > 1 else ()


def loss_type(found: tuple[Gap, ...], rule: GapRule, normal_db: float) -> LossType | None:
    """Give the type of an ear.

    Parameters
    ----------
    found : tuple of Gap
        Of one ear.
    rule : GapRule
        By which rule.
    normal_db : float
        The worst level within normal limits, dB HL.

    Returns
    -------
    LossType or None
        None where the ear has no air threshold.

    Notes
    -----
    Over the averages of 0.5, 1 and 2 kHz where air is beyond normal there on average and bone is known at all three;
    else over the frequencies that have bone and where air is beyond normal (octavo's choice: a loss that begins at 4
    kHz has a type, too).
    """
    if not found:
        return None
    here = _over(found, normal_db)
    ask_hz = tuple(gap.frequency_hz for gap in (here if _is_settled(here, normal_db) else found) if gap.ask)
    if not here:
        beyond = any(gap.air_read.high > normal_db for gap in found)
        could = _possible(found, (), rule, normal_db) if ask_hz else ()
        return LossType(rule, NO_BONE if beyond else NORMAL, could, (), None, None, ask_hz)
    air, bone = mean(gap.air_read for gap in here), mean(gap.bone_read for gap in here)
    read = [word for word in kinds(air, bone, rule, normal_db) if word != NORMAL]
    reasons = tuple(reason for gap in here for reason in gap.reasons)
    return LossType(
        rule,
        read[0] if len(read) == 1 else _UNTOLD[_reason(reasons)],
        _possible(found, here, rule, normal_db) if ask_hz else (),
        tuple(gap.frequency_hz for gap in here),
        sum(gap.air.db_hl for gap in here) / len(here),
        sum(gap.bone.db_hl for gap in here if gap.bone) / len(here),
        ask_hz,
    )


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on masking, gaps and type, ear by ear."""
    values = case.audiogram.thresholds
    attenuation = attenuation_of(case.report.transducer)
    due = masking_due(values, attenuation)
    normal_db = NORMAL_LIMITS[case.normal].db_hl
    asked = GAP_RULES[case.settings.gap_rule]
    for ear in EARS:
        of_ear = gaps(values, ear, due)
        yield from _gap_findings(of_ear, ear, asked, normal_db)
        for rule in (asked, *(rule for rule in GAP_RULES.values() if rule is not asked)):
            whole = loss_type(of_ear, rule, normal_db)
            if whole is not None:
                yield _type_finding(whole, ear)
    yield from masking_findings(due, attenuation)


def _over(found: tuple[Gap, ...], normal_db: float) -> tuple[Gap, ...]:
    three = [gap for gap in found if gap.frequency_hz in _THREE and gap.bone is not None]
    if len(three) == len(_THREE) and mean(gap.air_read for gap in three).high > normal_db:
        return tuple(three)
    return tuple(gap for gap in found if gap.bone is not None and gap.air_read.high > normal_db)


def _is_settled(here: tuple[Gap, ...], normal_db: float) -> bool:
    """Tell whether the three are what is averaged, whatever the doubt of values to look at."""
    return tuple(gap.frequency_hz for gap in here) == _THREE and mean(gap.air_full for gap in here).low > normal_db


def _possible(found: tuple[Gap, ...], here: tuple[Gap, ...], rule: GapRule, normal_db: float) -> tuple[str, ...]:
    """Give every type that the ear may have: of the averages, and of each frequency that may be beyond normal."""
    could: set[str] = set()
    if here:
        could |= set(kinds(mean(g.air_full for g in here), mean(g.bone_full for g in here), rule, normal_db)) - {NORMAL}
    for gap in () if _is_settled(here, normal_db) else found:
        if gap.bone is not None and gap.air_full.high > normal_db:
            could |= set(kinds(gap.air_full, gap.bone_full, rule, normal_db)) - {NORMAL}
    if all(gap.air_full.low <= normal_db for gap in found):
        could.add(NORMAL)
    ordered = tuple(kind for kind in KINDS if kind in could)
    return ordered if len(ordered) > 1 else ()


def _reason(reasons: tuple[str, ...]) -> str:
    return next((reason for reason in ("no-bone", "masking") if reason in reasons), "limit")


def _gap_findings(of_ear: tuple[Gap, ...], ear: Ear, rule: GapRule, normal_db: float) -> Iterator[Finding]:
    for gap in of_ear:
        if gap.bone is None or gap.db is None:
            continue
        word, could_be = type_at(gap, rule, normal_db)
        span = gap.air_full.minus(gap.bone_full)
        rests_on = (gap.frequency_hz,) if gap.ask else ()
        silent = not (gap.air.response and gap.bone.response)
        yield Finding(
            "air-bone-gap", rule.name, ear=ear, frequency_hz=gap.frequency_hz, word=word, could_be=could_be,
            number=gap.db, unit="dB", low=span.low, high=span.high,
            numbers=(("air_db_hl", gap.air.db_hl), ("bone_db_hl", gap.bone.db_hl)),
            standing=standing_of(rests_on), rests_on=rests_on,
            no_response_hz=(gap.frequency_hz,) if silent else (),
        )  # fmt: skip
        if gap.may_be_felt and gap.db > rule.gap_db:
            yield Finding(
                "bone-may-be-felt", "ISO 8253-1:2010, 8.4", ear=ear, conduction="bone", frequency_hz=gap.frequency_hz,
                number=gap.bone.db_hl, unit="dB HL", low=gap.bone.span.low, high=gap.bone.span.high,
                standing=standing_of(rests_on), rests_on=rests_on,
            )  # fmt: skip


def _type_finding(whole: LossType, ear: Ear) -> Finding:
    if whole.air_db is None or whole.bone_db is None:
        return Finding(
            "loss-type", whole.rule.name, ear=ear, word=whole.word, could_be=whole.could_be,
            standing=standing_of(whole.ask_hz), rests_on=whole.ask_hz,
        )  # fmt: skip
    over = ", ".join(f"{hz:g}" for hz in whole.frequencies_hz)
    return Finding(
        "loss-type", f"{whole.rule.name}; over {over} Hz", ear=ear, word=whole.word, could_be=whole.could_be,
        numbers=(
            ("gap_db", whole.air_db - whole.bone_db), ("air_db_hl", whole.air_db), ("bone_db_hl", whole.bone_db),
        ),
        standing=standing_of(whole.ask_hz), rests_on=whole.ask_hz,
    )  # fmt: skip


def types(thresholds: tuple[Threshold, ...], ear: Ear, rule: str, normal_db: float) -> LossType | None:
    """Give the type of one ear by a rule's id, with supra-aural earphones assumed; for rules that build on it."""
    return loss_type(gaps(thresholds, ear, masking_due(thresholds, attenuation_of(None))), GAP_RULES[rule], normal_db)
