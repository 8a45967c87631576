"""Which thresholds may be the other ear's answer, and where the masking rules would have called for masking.

A report that lacks the masked mark is read as "masking not shown", never as an error of the tester.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding
from ...record import Ear, Threshold
from ..doubt import Level, Row, Span, row_of
from ..truth import MET, NOT_MET, Truth, above, as_read, at_least

OTHER: dict[Ear, Ear] = {"right": "left", "left": "right"}

ASHA = "ASHA 2005"
RULE_2_DB = 10
"""BSA rule 2 [memory]: unmasked bone this much better than the worse ear's air needs masking to be placed."""


@dataclass(frozen=True, slots=True)
class Attenuation:
    """What a tone loses on its way to the other ear: the least that practice reckons with, dB.

    Attributes
    ----------
    db : float
        40 dB for earphones on or around the ear, 55 dB for inserts.
    earphone : {"insert", "supra-aural"}
        The kind of earphone that it belongs to.
    assumed : bool
        The page does not say which earphone was used; the smaller attenuation is taken.
    """

    db: float
    earphone: str
    assumed: bool


def attenuation_of(transducer: str | None) -> Attenuation:
    """Give the interaural attenuation for the earphone that the page names.

    Notes
    -----
    Supra-aural 40 dB: a textbook chapter, and a blog of audiologists on the BSA rules. Inserts 55 dB: BSA [memory];
    other texts have 50 or 60 dB.
    """
    told = (transducer or "").casefold()
    if "insert" in told:
        return Attenuation(55, "insert", assumed=False)
    return Attenuation(40, "supra-aural", assumed=not told)


@dataclass(frozen=True, slots=True)
class Due:
    """One place where a masking rule calls for masking that the page does not show.

    Attributes
    ----------
    rule : str
        The rule by its published name.
    ear, conduction : str
        Whose threshold is concerned.
    frequency_hz, difference_db : float
        Where, and the difference that decided.
    truth, doubted : Truth
        As the values read, and with their doubts.
    ask : bool
        A value to look at decided.
    """

    rule: str
    ear: Ear
    conduction: str
    frequency_hz: float
    difference_db: float
    span: Span
    truth: Truth
    doubted: Truth
    ask: bool


def unmasked_bone(thresholds: tuple[Threshold, ...]) -> Row:
    """Give the best unmasked bone threshold of each frequency, whichever ear or none it is marked for.

    A level that could be better than the best within its doubt makes it one to look at.
    """
    rows = [row_of(thresholds, ear, "bone", masked=False) for ear in ("right", "left", "unspecified")]
    return {hz: _best([row[hz] for row in rows if hz in row]) for hz in sorted({hz for row in rows for hz in row})}


def _best(levels: list[Level]) -> Level:
    best = min(levels, key=lambda level: (level.db_hl, not level.response))
    if len(levels) == 1:
        return best
    span = Span(min(level.span.low for level in levels), min(level.span.high for level in levels))
    ask = best.ask or any(level.ask and level.span.low <= best.db_hl for level in levels)
    return Level(best.threshold, span, ask)


def masking_due(thresholds: tuple[Threshold, ...], attenuation: Attenuation) -> tuple[Due, ...]:
    """Find where the rules would have called for masking and no masked value is shown.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram.
    attenuation : Attenuation
        Of the earphone used.

    Returns
    -------
    tuple of Due
        Right ear first, air before bone, ascending frequencies; also places where only the doubt of a value could call
        for it.

    Notes
    -----
    BSA rule 1: unmasked air of the two ears differs by the interaural attenuation or more: the worse ear's may be
    the better ear's answer. BSA rule 3: the same against the other ear's bone (or bone that names no ear), where rule 1
    does not apply. BSA rule 2: unmasked bone better than the worse ear's air by 10 dB or more and no masked bone there.
    ASHA 2005, beside them: air that exceeds the other ear's bone by more than the attenuation; unmasked bone that
    leaves a gap of more than 10 dB in the test ear. [memory, all four; 40 dB and the order of BSA's rules 1 and 3 are
    from a blog of audiologists]
    """
    air = {ear: row_of(thresholds, ear) for ear in OTHER}
    masked = {ear: row_of(thresholds, ear, "bone", masked=True) for ear in OTHER}
    unmasked = unmasked_bone(thresholds)
    found: list[Due] = []
    for ear, other in OTHER.items():
        found += _air_due(air[ear], air[other], unmasked | masked[other], ear, attenuation)
        found += _bone_due(air[ear], air[other], unmasked, masked[ear], ear)
    return tuple(found)


def shadows(due: tuple[Due, ...], ear: Ear) -> dict[float, Due]:
    """Give the frequencies at which an ear's air threshold may be the other ear's answer."""
    found: dict[float, Due] = {}
    for one in due:
        if one.ear == ear and one.conduction == "air":
            known = found.get(one.frequency_hz)
            # Of two rules the one that asks for masking more surely counts.
            if known is None or _certainty(one) > _certainty(known):
                found[one.frequency_hz] = one
    return found


def _certainty(one: Due) -> tuple[bool, bool, bool]:
    return one.truth.surely, one.truth.possibly, one.doubted.possibly


def masking_findings(due: tuple[Due, ...], attenuation: Attenuation) -> Iterator[Finding]:
    """Give the findings of the places where masking is due."""
    for one in due:
        is_air = one.conduction == "air"
        limit = attenuation.db if is_air else RULE_2_DB
        yield Finding(
            "air-masking-not-shown" if is_air else "bone-masking-not-shown",
            one.rule,
            ear=one.ear,
            conduction="air" if is_air else "bone",
            frequency_hz=one.frequency_hz,
            word=MET if one.truth.surely else None if one.truth.possibly else NOT_MET,
            could_be=(NOT_MET, MET) if one.doubted != one.truth else (),
            number=one.difference_db,
            unit="dB",
            low=one.span.low,
            high=one.span.high,
            numbers=(("limit_db", float(limit)),),
            standing="ask" if one.ask else "sure",
            rests_on=(one.frequency_hz,) if one.ask else (),
        )


def _air_due(mine: Row, others: Row, bone: Row, ear: Ear, attenuation: Attenuation) -> Iterator[Due]:
    for hz, air in mine.items():
        if air.threshold.masked or not air.response:
            continue
        third = _against("BSA rule 3", air, bone.get(hz), attenuation.db, ear, "air")
        asha = _against(ASHA, air, bone.get(hz), attenuation.db, ear, "air", exceeded=True)
        if asha is not None and asha.doubted.possibly:
            yield asha
        first = _against("BSA rule 1", air, others.get(hz), attenuation.db, ear, "air")
        if first is not None and first.truth.surely:
            yield first
        elif third is not None and third.truth.surely:
            yield third
        else:
            yield from [one for one in (first, third) if one is not None and one.doubted.possibly][:1]


def _bone_due(mine: Row, others: Row, unmasked: Row, masked: Row, ear: Ear) -> Iterator[Due]:
    for hz, bone in unmasked.items():
        if hz not in mine or hz in masked:
            continue
        asha = _against(ASHA, mine[hz], bone, RULE_2_DB, ear, "bone", exceeded=True)
        if asha is not None and asha.doubted.possibly:
            yield asha
        is_worse = hz not in others or mine[hz].db_hl >= others[hz].db_hl
        due = _against("BSA rule 2", mine[hz], bone, RULE_2_DB, ear, "bone")
        if is_worse and due is not None and due.doubted.possibly:
            yield due


def _against(
    rule: str, air: Level, other: Level | None, limit: float, ear: Ear, conduction: str, *, exceeded: bool = False
) -> Due | None:
    """Compare a level with the one that could have answered in its place: by so much, or by more than that."""
    if other is None or not other.response:
        return None
    read, full = as_read(air).minus(as_read(other)), air.span.minus(other.span)
    difference = air.db_hl - other.db_hl
    asked, edge = air.ask or other.ask, above if exceeded else at_least
    return Due(
        rule, ear, conduction, air.threshold.frequency_hz, difference, full, edge(read, limit),
        edge(full, limit) if asked else edge(read, limit), asked,
    )  # fmt: skip
