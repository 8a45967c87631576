"""Whose an arrow is at one place of several marks of an ear."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping

from ....interpret.reach import AIR_REACH_DB, LEAST_END_DB
from ....interpret.record import Conduction, Ear, Threshold
from ....interpret.symbols import Glyph, Meaning
from ...chart import Mark
from ..nearby import (
    ARROW_REACH,
    DOUBTFUL,
    ONE_PLACE,
    SHARED_ARROW,
    TIP_SURE,
    another,
    ear_by_shape,
    marks_below,
    same_place,
    tip,
)
from ..slots import Candidate, asking

HINT = 0.05
"""Peak from which bone at a vibrator's limit may have an arrow that marks below hide: of 9,100 bone values on painted
pages of the training families that stood as sure and heard four had one, all of them among the 134 such."""
BONE_LIMITS_DB = ((375.0, 40.0), (750.0, 55.0), (math.inf, 65.0))
"""Up to each frequency, in Hz, the level at which bone vibrators begin to end, in dB HL [common practice]."""
MOST_HZ = 8000.0
"""Up to so many Hz no audiometer ends below ``LEAST_END_DB``. Of 890 values on painted pages that stand lower and asked
for an arrow half seen one had one (bone, its symbol misread); of 1,778 that stand higher 216."""
LEVEL_HZ: dict[Conduction, tuple[float, float]] = {"air": (450.0, 6500.0), "bone": (700.0, 4500.0)}
LEAST_MIDDLE_DB = {"air": 65.0, "bone": 45.0}
ENDS_DIFFER_DB, FEWEST_LOUD = 10.0, 2
"""Within these Hz no audiometer ends below the second levels [common practice: 70 dB by air, 50 by bone], and its ends
differ by no more than so much: where so many marks were heard so much louder, it goes on above. Of 402 values on
painted pages that asked for a half-seen arrow beside such three had one, all with their symbol misread."""
CLEAR, NO_TRACE = 0.55, 0.1
"""Score from which a mark is clear, and peak of an arrow up to which it surely has none."""
STEP_DB, HALF_STEP_DB = 5.0, 2.5

TWO_MARKS, ANOTHER = 0.6, 0.3
"""So near, in sizes, another mark of the ear may own the arrow that is seen at both, if its tip is seen at one alone;
and peak of another shape beneath the mark that may. Of some 80 such values of painted pages that stood as sure and not
heard 6 on 5 pages were heard, of 6,400 others one; with a shape from 0.3 to 0.4 beneath, of 6 on other pages one."""
TIP_REACH = 1.0
"""So near, in sizes, the place from which such an arrow hangs is to a mark that seems to have it: some 90 values of
51 painted pages that stood as sure ask for it, all right; of the next such page two were wrong."""
ONE_TIP, ITS_OWN = 0.2, 0.15
"""Tips so near one another, in sizes, are of one arrow; and what lies so near a mark is the same mark. Of 30 values of
painted pages that stood as sure and not heard, and whose tip was seen better as another's, 3 were heard."""
NEAR_END_DB, FEWEST_UNHEARD, SIGN = 5.0, 2, 0.1
"""Where so many of a row within a step were not heard, the audiometer ends there: then so faint a sign of an arrow
asks. Of 54 such values of painted pages that stood as sure and heard 2 had one, which noise and thick marks hid. Where
so many of a row of bone were not heard at a mark's very level, it asks without a sign: of five such values of 814 drawn
pages two had an arrow that lay across others'."""
FEWEST_UNTOLD, FAINT_SIGN = 3, 0.05
"""So does a fainter one where of so many, and most, of the row within a step it is open whether they were heard: of 7
such values on 500 painted pages one was not. The edge of a photo had cut its row's arrows."""


def anothers_arrow(
    mark: Mark, taken: tuple[Mark, ...], marks: tuple[Mark, ...], meanings: Mapping[Glyph, Meaning]
) -> bool:
    """Say whether a mark's arrow may hang from another mark of its ear that lies on it or beneath it.

    Parameters
    ----------
    mark : Mark
        A mark with an arrow.
    taken : tuple of Mark
        The marks of the chart that are read.
    marks : tuple of Mark
        All peaks of the chart.
    meanings : mapping of str to Meaning
        What glyphs say on the page.
    """
    if mark.sight.apart:
        return False
    ear, way, own = (
        ear_by_shape(mark),
        max(range(3), key=lambda i: mark.sight.arrows[i]),
        meanings.get(mark.sight.glyph),
    )

    def may_own(other: Mark) -> bool:
        if same_place(other, mark, ONE_PLACE):
            said = meanings.get(other.sight.glyph)
            if own and said and _ends_later(said, own):
                return False
            if other not in taken:
                return other.sight.glyph != mark.sight.glyph and other.sight.striking >= ANOTHER
        near = other in taken and same_place(other, mark, TWO_MARKS)
        return near and other.sight.arrows[way] > SHARED_ARROW and tip(other, way) < TIP_SURE

    others = [o for o in marks if another(o, mark)]
    loudness = own is not None and own.measure != "threshold"
    if loudness and any(o in taken and same_place(o, mark, ONE_PLACE) for o in others):
        return True
    of_ear = [o for o in others if ear_by_shape(o) == ear]
    seen = _tip_of_another(mark, way, others, taken) or _tip_seen_better(mark, way, of_ear)
    return seen or any(may_own(o) for o in of_ear)


def _tip_of_another(mark: Mark, way: int, others: list[Mark], taken: tuple[Mark, ...]) -> bool:
    """Say whether the only tip near a mark is that of an arrow which seems to hang from another place close by.

    Among marks that lie on one another all along a row each looks as if it had the arrow of the one before.
    """
    if tip(mark, way) >= TIP_SURE or not any(o in taken and same_place(o, mark, ONE_PLACE) for o in others):
        return False
    tips = (t for o in others for t in o.sight.tips if t.way == way and t.score >= TIP_SURE)
    return any(math.dist(t.root, mark.sight.at) < TIP_REACH * max(mark.sight.size) for t in tips)


def _tip_seen_better(mark: Mark, way: int, of_ear: list[Mark]) -> bool:
    """Say whether all tips of a mark's arrow are seen again, and better, as those of another mark of its ear.

    One arrow hangs from one mark: from air that lies on masked air or beside bone each looks as if it were its own.
    """
    own = [t for t in mark.sight.tips if t.way == way and t.score >= TIP_SURE]
    reach, best = ONE_TIP * max(mark.sight.size), max((t.score for t in own), default=1.0)
    elsewhere = [o for o in of_ear if o.sight.score >= DOUBTFUL and not same_place(o, mark, ITS_OWN)]
    better = [t for o in elsewhere for t in o.sight.tips if t.way == way and t.score > best]
    return bool(own) and all(any(math.dist(t.at, o.at) < reach for o in better) for t in own)


def near_end_asked(candidates: list[Candidate]) -> list[Candidate]:
    """Ask about values with a sign of an arrow that stand as heard where most of their row, or audiometers, end."""
    return [asking(c, "arrow-uncertain") if c.threshold.response and _may_end(c, candidates) else c for c in candidates]


def _may_end(one: Candidate, candidates: list[Candidate]) -> bool:
    sign, level = _sign(one.mark), one.threshold.level_db_hl
    row = (c.threshold for c in candidates if c.slot[:-1] == one.slot[:-1])
    near = [t for t in row if abs(t.level_db_hl - level) <= NEAR_END_DB]
    if one.threshold.conduction == "bone" and _unheard(t for t in near if t.level_db_hl == level) >= FEWEST_UNHEARD:
        return True
    if sign <= FAINT_SIGN:
        return False
    unheard = _unheard(near)
    if sign > SIGN and (_at_reach(one.threshold) or unheard >= FEWEST_UNHEARD):
        return True
    untold = sum(not t.response or "arrow-uncertain" in t.why_ask for t in near)
    return untold >= FEWEST_UNTOLD and 2 * untold >= len(near) - 1


def _unheard(thresholds: Iterable[Threshold]) -> int:
    return sum(not t.response for t in thresholds)


def _at_reach(threshold: Threshold) -> bool:
    """Say whether an audiometer may end at a level by air, so that a sign of an arrow asks.

    Of 10 such values of painted pages that stood as sure one was not heard: a fax had lost its arrow.
    """
    reach = AIR_REACH_DB.get(threshold.frequency_hz, max(AIR_REACH_DB.values()))
    return threshold.conduction == "air" and threshold.measure == "threshold" and threshold.level_db_hl >= reach


def _sign(mark: Mark) -> float:
    return 0.0 if mark.sight.apart else max(*mark.sight.arrows, tip(mark))


def unheard_with_any(mark: Mark, ear: Ear, taken: tuple[Mark, ...], meanings: Mapping[Glyph, Meaning]) -> bool:
    """Say whether a mark has an arrow where any mark of its ear at its place has one.

    Noise in the other ear makes no threshold better, so where a value was not heard its masked one was not either; and
    bone vibrators end some 40 dB before earphones do [common practice], so where a chart's bone and air of an ear
    stand at one level and one of them was not heard, that is the bone.

    Parameters
    ----------
    mark : Mark
        The mark.
    ear : str
        Its ear.
    taken : tuple of Mark
        All marks of the chart.
    meanings : mapping of str to Meaning
        What glyphs say on the page.

    Returns
    -------
    bool
        False where one of the others has no meaning, or no ear by its shape.
    """
    own = meanings.get(mark.sight.glyph)
    if own is None or own.ear != ear or not _plain(own):
        return False
    others = [o for o in taken if another(o, mark) and same_place(o, mark, ONE_PLACE)]
    said = [meanings.get(o.sight.glyph) for o in others]
    return all(m is not None and (m.ear not in (ear, "by-colour") or _ends_later(m, own)) for m in said)


def loudest_heard(heard: Iterable[tuple[Conduction, float, float]]) -> dict[Conduction, float]:
    """Give up to which level an audiometer surely goes, by what was heard: conduction, Hz and dB HL of each."""
    levels: defaultdict[Conduction, list[float]] = defaultdict(list)
    for conduction, frequency_hz, level_db_hl in heard:
        low, high = LEVEL_HZ.get(conduction, (math.inf, 0.0))
        if low < frequency_hz < high:
            levels[conduction].append(level_db_hl)
    return {c: sorted(found)[-FEWEST_LOUD] for c, found in levels.items() if len(found) >= FEWEST_LOUD}


def loudest_of(taken: Iterable[Mark], meanings: Mapping[Glyph, Meaning]) -> dict[Conduction, float]:
    """Give up to which level an audiometer surely goes, by a chart's clear marks without a trace of an arrow."""
    clear = (m for m in taken if m.sight.score >= CLEAR and max(m.sight.arrows) < NO_TRACE and not m.sight.tips)
    told = ((m, meanings.get(m.sight.glyph)) for m in clear)
    return loudest_heard(
        (said.conduction, m.frequency_hz, m.level_db_hl) for m, said in told if said and said.measure == "threshold"
    )


def ends_above(
    conduction: Conduction,
    frequency_hz: float,
    level_db_hl: float,
    loudest: Mapping[Conduction, float],
    differ_db: float = ENDS_DIFFER_DB,
) -> bool:
    """Say whether the audiometer goes louder than a threshold's level, so that nothing is an arrow that hangs there.

    ``loudest`` is what was heard for sure, and ``differ_db`` how far an audiometer's ends may lie apart.
    """
    if frequency_hz <= MOST_HZ and level_db_hl < LEAST_END_DB.get(conduction, -math.inf):
        return True
    low, high = LEVEL_HZ.get(conduction, (math.inf, 0.0))
    sure = max(LEAST_MIDDLE_DB.get(conduction, -math.inf) - STEP_DB, loudest.get(conduction, -math.inf) - differ_db)
    return low < frequency_hz < high and level_db_hl <= sure


def told_by_level(
    mark: Mark, taken: tuple[Mark, ...], meanings: Mapping[Glyph, Meaning], loudest: Mapping[Conduction, float]
) -> bool | None:
    """Say whether an arrow that a mark shares with others close by is its own, where their levels tell.

    Bone vibrators end far below earphones [common practice]: beside air at a level where no audiometer ends, the arrow
    is the bone's.

    Returns
    -------
    bool or None
        None where the mark shares no arrow with one bone mark and air, or levels leave open whose it is.
    """

    def goes_on(one: Mark) -> bool:
        return ends_above(meanings[one.sight.glyph].conduction, one.frequency_hz, one.level_db_hl, loudest)

    def shares(one: Mark) -> bool:
        said = meanings.get(one.sight.glyph)
        return said is not None and _plain(said) and min(one.sight.arrows[way], one.sight.score) > SHARED_ARROW

    way = max(range(3), key=lambda i: mark.sight.arrows[i])
    sharing = [o for o in taken if another(o, mark) and same_place(o, mark, ARROW_REACH) and shares(o)]
    bone = [m for m in (mark, *sharing) if shares(m) and meanings[m.sight.glyph].conduction == "bone"]
    air = [m for m in (mark, *sharing) if shares(m) and meanings[m.sight.glyph].conduction == "air"]
    if len(bone) != 1 or not air or not shares(mark) or goes_on(bone[0]) or not all(map(goes_on, air)):
        return None
    return mark is bone[0]


def hidden_at_limit(mark: Mark, taken: tuple[Mark, ...]) -> bool:
    """Say whether a bone mark at a vibrator's limit may have an arrow that runs into marks below.

    Parameters
    ----------
    mark : Mark
        A bone mark.
    taken : tuple of Mark
        All marks of the chart.
    """
    limit = next(level for hz, level in BONE_LIMITS_DB if mark.frequency_hz < hz)
    if mark.sight.apart or mark.level_db_hl < limit - HALF_STEP_DB or max(mark.sight.arrows) <= HINT:
        return False
    return marks_below(mark, taken)


def _ends_later(other: Meaning, own: Meaning) -> bool:
    if not _plain(other) or other.ear == "by-colour":
        return False
    if (other.conduction, own.conduction) == ("air", "bone"):
        return True
    return other.conduction == own.conduction and own.masked and not other.masked


def _plain(meaning: Meaning) -> bool:
    return meaning.measure == "threshold" and not meaning.aided and meaning.conduction in ("air", "bone")
