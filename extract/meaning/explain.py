"""Explain the marks of one chart: each slot (ear, conduction, masking, measure, frequency) gets at most one value."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

import numpy as np

from ...interpret.record import Ear, Seen, Threshold
from ...interpret.symbols import Glyph, Meaning, ear_of
from ..chart import Mark, MeasuredChart
from ..sheet import Sheet
from ..sightings import MarkSight
from .certainty import certainty, evidence, probability
from .convention import Convention
from .frequencies import Placed, distance_beside, place

ACCEPT = 0.45
"""Least score of a mark that is taken for one; a weaker one is reported as possibly missing."""
DOUBTFUL = 0.16
BOTH_SCORE = 0.6
"""Two shapes that may be taken for one another at one place are both there from this score of the weaker."""
SURE_SCORE = 0.62
SURE_LEVEL_MISS_DB = 1.6
SURE_FREQUENCY_MISS = 0.075
STEP_DB = 5.0
MOST_BONE_HZ = 6000.0
"""Bone is not tested above this (ASHA 2005: octaves 250 to 4000 Hz, 3000 Hz as needed)."""
ALIKE: tuple[frozenset[Glyph], ...] = (
    frozenset({"circle", "circle-filled"}),
    frozenset({"cross", "cross-filled"}),
    frozenset({"triangle", "triangle-filled", "caret", "letter-a"}),
    frozenset({"square", "square-filled", "bracket-left", "bracket-right"}),
    frozenset({"caret", "vee"}),
    frozenset({"bracket-left", "half-bracket-left", "foot-right"}),
    frozenset({"bracket-right", "half-bracket-right", "foot-left"}),
    frozenset({"letter-m", "letter-u"}),
)
"""Shapes that may be taken for one another; two of one group at one place are one mark."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A mark with its meaning, place and doubts."""

    mark: Mark
    threshold: Threshold
    placed: Placed
    evidence: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Explained:
    """A chart's thresholds, and the marks too weak to be one."""

    thresholds: tuple[Threshold, ...]
    weak: tuple[Mark, ...]
    evidence: tuple[tuple[float, ...], ...]
    """What speaks for and against each threshold, in their order (see ``certainty``)."""


def explain(sheet: Sheet, chart: MeasuredChart, number: int, convention: Convention) -> Explained:
    """Turn one chart's marks into thresholds.

    Parameters
    ----------
    sheet : Sheet
        For positions on the page.
    chart : MeasuredChart
        The chart with its marks measured.
    number : int
        The chart's number in its audiogram.
    convention : Convention
        The page's symbol set.

    Returns
    -------
    Explained
        Thresholds with standing and reasons; of two marks in one slot the stronger stands, as ``ask``.
    """
    taken, weak = _chosen(chart.marks)
    beside = distance_beside(tuple(taken), chart.frequency)
    shift = _common_shift_db([m.level_db_hl for m in taken])
    only_ear = _only_ear(taken, convention)
    candidates = []
    for mark in taken:
        meaning = convention.symbol_set.meanings.get(mark.sight.glyph) or _borrowed(mark.sight.glyph)
        if meaning is None:
            weak.append(mark)
            continue
        outside = not chart.level.printed[0] - 3 <= mark.level_db_hl <= chart.level.printed[1] + 3
        if outside and mark.sight.glyph.startswith("letter"):
            continue  # words along the axis hold such letters
        for ink in _inks(mark, meaning, taken):
            seen = replace(mark, sight=ink)
            candidates.append(
                _candidate(sheet, chart, number, convention, seen, meaning, taken, beside, shift, only_ear)
            )
    kept = _one_a_slot(candidates)
    return Explained(tuple(c.threshold for c in kept), tuple(weak), tuple(c.evidence for c in kept))


def alike(one: Glyph, other: Glyph) -> bool:
    """Say whether two glyphs may be taken for one another."""
    return any(one in group and other in group for group in ALIKE)


def same_place(one: Mark, other: Mark, share: float = 0.3) -> bool:
    """Say whether two marks stand within a share of their size of one another."""
    reach = share * max(*one.sight.size, *other.sight.size)
    return abs(one.x - other.x) < reach and abs(one.y - other.y) < reach


def _another(one: Mark, other: Mark) -> bool:
    return (one.sight.glyph, one.sight.at) != (other.sight.glyph, other.sight.at)


def _chosen(marks: tuple[Mark, ...]) -> tuple[list[Mark], list[Mark]]:
    """Take the marks that are strong enough, the best of each group of alike shapes at one place."""
    taken: list[Mark] = []
    weak: list[Mark] = []
    for mark in sorted(marks, key=lambda m: -m.sight.score):
        rival = next((t for t in taken if same_place(t, mark) and alike(t.sight.glyph, mark.sight.glyph)), None)
        if rival is not None and mark.sight.score < BOTH_SCORE:
            continue
        if mark.sight.score >= ACCEPT:
            taken.append(mark)
        elif mark.sight.score >= DOUBTFUL:
            weak.append(mark)
    return taken, weak


def _common_shift_db(levels: list[float]) -> float:
    """Find by how much all marks stand off their 5-dB steps together (0 where they do not agree)."""
    if len(levels) < 5:
        return 0.0
    turns = np.exp(2j * np.pi * np.array(levels) / STEP_DB)
    mean = turns.mean()
    if abs(mean) < 0.8:
        return 0.0
    return float(np.angle(mean) / (2 * np.pi) * STEP_DB)


def _only_ear(marks: list[Mark], convention: Convention) -> Ear | None:
    ears = {m.ear for mark in marks if (m := convention.symbol_set.meanings.get(mark.sight.glyph))}
    if ("right" in ears) == ("left" in ears):
        return None
    return "right" if "right" in ears else "left"


def _borrowed(glyph: Glyph) -> Meaning | None:
    """Glyphs that a set leaves out but that say the same in every set that has them."""
    from ...interpret.symbols import SYMBOL_SETS

    said = {s.meanings[glyph] for s in SYMBOL_SETS.values() if glyph in s.meanings}
    return said.pop() if len(said) == 1 else None


def _inks(mark: Mark, meaning: Meaning, taken: list[Mark]) -> list[MarkSight]:
    """Give a mark once, or twice where only ink names the ear and both inks are seen with no other mark to own one."""
    sight = mark.sight
    both = min(sight.red, sight.blue) > 0.6
    alone = not any(_another(o, mark) and same_place(o, mark, 0.45) for o in taken)
    if meaning.ear == "by-colour" and both and alone:
        return [replace(sight, blue=0.0), replace(sight, red=0.0)]
    return [sight]


def _candidate(
    sheet: Sheet, chart: MeasuredChart, number: int, convention: Convention, mark: Mark, meaning: Meaning,
    taken: list[Mark], beside: float, shift: float, only_ear: Ear | None,
) -> Candidate:  # fmt: skip
    sight = mark.sight
    placed = place(mark, chart.frequency, beside)
    ear = ear_of(meaning, sight.ink)
    if ear == "unspecified" and meaning.ear == "by-colour" and only_ear is not None:
        ear = only_ear
    level = STEP_DB * round((mark.level_db_hl - shift) / STEP_DB)
    why: list[str] = list(chart.doubts)
    off_db = abs(mark.level_db_hl - shift - level)
    if off_db > SURE_LEVEL_MISS_DB or abs(shift) > 1.5:
        why.append("between-steps")
    if placed.miss_octaves > SURE_FREQUENCY_MISS or placed.margin < 0.72:
        why.append("frequency-uncertain")
    if any(score > 0.4 * sight.score and alike(glyph, sight.glyph) for glyph, score in sight.rivals):
        why.append("two-readings")
    if not chart.level.printed[0] - 3 <= mark.level_db_hl <= chart.level.printed[1] + 3:
        why.append("axis-uncertain")
    if meaning.conduction == "bone" and placed.frequency_hz > MOST_BONE_HZ:
        why.append("implausible")
    on_line = beside < 0.05 * chart.frequency.octave_px
    why += _doubtful_meaning(mark, meaning, ear, convention, on_line=on_line, drawn=sheet.taken_by == "drawn")
    if _colour_differs(mark, ear, taken):
        why.append("colour-and-shape-differ")
    response, certain = _response(mark, ear, taken)
    if not certain:
        why.append("arrow-uncertain")
    at = sheet.on_page(*sight.at)
    reasons = _evidence(mark, chart, ear, off_db, placed, taken)
    chance = probability(reasons)
    if chance < certainty().sure_from:
        why.append("marks-overlap" if reasons[3] else "faint" if sight.score < SURE_SCORE else "low-certainty")
    threshold = Threshold(
        ear, meaning.conduction, meaning.masked, placed.frequency_hz, float(level), meaning.aided, meaning.measure,
        response, "ask" if why else "sure", min(0.9999, chance), tuple(dict.fromkeys(why)),
        Seen(number, at, round(mark.frequency_hz, 1), round(mark.level_db_hl, 1)),
    )  # fmt: skip
    return Candidate(mark, threshold, placed, reasons)


def _doubtful_meaning(
    mark: Mark, meaning: Meaning, ear: Ear, convention: Convention, *, on_line: bool, drawn: bool
) -> list[str]:
    """Give the reasons why a glyph's meaning is open on this page."""
    sight = mark.sight
    why = []
    if sight.glyph in convention.open_glyphs or sight.glyph not in convention.symbol_set.meanings:
        why.append("symbol-set-unknown")
    if on_line and sight.glyph in convention.open_on_line:
        why.append("symbol-set-unknown")
    if meaning.ear == "by-colour":
        if sight.ink == "neutral" and ear == "unspecified" and not drawn:
            why.append("ear-uncertain")  # a grey scan of a coloured page looks the same
        if min(sight.red, sight.blue) > 0.25:
            why.append("ear-uncertain")
    return why


def _colour_differs(mark: Mark, ear: Ear, taken: list[Mark]) -> bool:
    """Say whether the mark's ink names the other ear, unless a mark in that ink stands at the same place."""
    red, blue = mark.sight.red, mark.sight.blue
    wrong, right = (blue, red) if ear == "right" else (red, blue) if ear == "left" else (0.0, 1.0)
    if wrong < 0.5 or right > wrong:
        return False
    return not any(_another(other, mark) and same_place(mark, other, 0.5) for other in taken)


def _response(mark: Mark, ear: Ear, taken: list[Mark]) -> tuple[bool, bool]:
    """Say whether the mark was heard (no arrow), and whether that is certain."""
    left, right, down = mark.sight.arrows
    near = [o for o in taken if _another(o, mark) and same_place(mark, o, 0.35)]
    strongest = max(left, right, down)
    if not near:
        # an arrow hangs from one mark; beside another that it could belong to as well, a person decides
        shared = any(max(o.sight.arrows) > 0.2 and same_place(mark, o, 1.0) for o in taken if _another(o, mark))
        return strongest < 0.5, not 0.2 < strongest < 0.7 and not (strongest > 0.2 and shared)
    own, others = (left, right) if ear == "right" else (right, left) if ear == "left" else (down, max(left, right))
    if strongest < 0.2:
        return True, True
    if left > 0.7 and right > 0.7:
        return False, True
    # one arrow at a place of two marks: its side tells whose it is
    if (own > 0.7 and others < 0.2) or (down > 0.7 and own < 0.2 and others < 0.2):
        return False, own > 0.7
    if others > 0.7 and own < 0.15 and down < 0.15:
        return True, True
    return own < 0.5, False


def _one_a_slot(candidates: list[Candidate]) -> list[Candidate]:
    """Keep one value a slot: the stronger mark, as ``ask`` with the reason where two stand there."""
    slots: dict[tuple[object, ...], list[Candidate]] = defaultdict(list)
    for candidate in candidates:
        t = candidate.threshold
        slots[(t.ear, t.conduction, t.masked, t.aided, t.measure, t.frequency_hz)].append(candidate)
    kept = []
    for rivals in slots.values():
        best = max(rivals, key=lambda c: c.mark.sight.score - c.placed.miss_octaves)
        threshold = best.threshold
        if any(c.threshold.level_db_hl != threshold.level_db_hl for c in rivals):
            why = (*threshold.why_ask, *(() if "two-readings" in threshold.why_ask else ("two-readings",)))
            threshold = replace(threshold, standing="ask", why_ask=why)
        kept.append(replace(best, threshold=threshold))
    return sorted(kept, key=lambda c: _order(c.threshold))


def _order(t: Threshold) -> tuple[object, ...]:
    return (t.ear, t.conduction, t.masked, t.measure, t.frequency_hz)


def _evidence(
    mark: Mark, chart: MeasuredChart, ear: Ear, off_db: float, placed: Placed, taken: list[Mark]
) -> tuple[float, ...]:
    sight = mark.sight
    others = [o for o in taken if _another(o, mark) and same_place(o, mark, 0.55)]
    strongest = max(sight.arrows)
    return evidence(
        score=sight.score,
        level_miss_db=off_db,
        frequency_miss=placed.miss_octaves,
        crowd=len(others),
        rival=max((score for glyph, score in sight.rivals if alike(glyph, sight.glyph)), default=0.0),
        arrow=min(strongest, 1 - strongest),
        off_colour=sight.blue if ear == "right" else sight.red if ear == "left" else 0.0,
        askew_px=chart.bend.rms_px,
    )
