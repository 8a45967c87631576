"""From a result of the test to the glyph that a symbol set gives it, and what a set can say at all."""

from __future__ import annotations

from collections.abc import Sequence

from ....interpret.record import Ear, Measure, Seen, Threshold
from ....interpret.symbols import SYMBOL_SETS, Glyph, Ink, Meaning, ear_of
from ..patient import TestedEar, TestPlan, Tone
from ..truth import Arrow

LEFT_OF_LINE: frozenset[Glyph] = frozenset({"angle-left", "bracket-left", "half-bracket-right"})
"""Glyphs that stand left of the frequency line where they stand beside it; the other side's stand right of it."""
_FOREHEAD: frozenset[Glyph] = frozenset({"vee", "half-bracket-right", "half-bracket-left"})


def _fits(meaning: Meaning, tone: Tone) -> bool:
    return meaning.ear in (tone.ear, "by-colour") and (
        meaning.conduction,
        meaning.masked,
        meaning.aided,
        meaning.measure,
    ) == (tone.conduction, tone.masked, tone.aided, tone.measure)


def glyph_for(tone: Tone, symbol_set: str) -> Glyph | None:
    """Give the glyph of a result under a symbol set, or None where the set has none."""
    found: list[Glyph] = [glyph for glyph, meaning in SYMBOL_SETS[symbol_set].meanings.items() if _fits(meaning, tone)]
    wanted: list[Glyph] = [glyph for glyph in found if (glyph in _FOREHEAD) == tone.forehead]
    return (wanted or found)[0] if found else None


def names_ear_by_colour(symbol_set: str, *, measure: Measure = "threshold") -> bool:
    """Tell whether some mark of this kind has its ear only from the ink."""
    return any(m.ear == "by-colour" and m.measure == measure for m in SYMBOL_SETS[symbol_set].meanings.values())


def plan_test(
    symbol_set: str,
    frequencies: tuple[float, ...],
    levels: tuple[float, float],
    *,
    ears: tuple[TestedEar, ...],
    coloured: bool,
    field: bool = False,
    loudness: Sequence[Measure] = (),
    busy: float = 0.5,
) -> TestPlan:
    """Plan a test that the symbol set can show, each mark with one meaning.

    Where only the ink names the ear and both ears share one ink, unmasked bone is drawn once, for no ear, and
    loudness levels are left out.
    """
    meanings = SYMBOL_SETS[symbol_set].meanings.values()
    told_apart = coloured or len(ears) == 1
    spoken: tuple[Measure, ...] = tuple(
        measure
        for measure in loudness
        if any(m.measure == measure for m in meanings)
        and (told_apart or not names_ear_by_colour(symbol_set, measure=measure))
    )
    return TestPlan(
        frequencies=frequencies,
        levels=levels,
        masked_air=any(m.conduction == "air" and m.masked for m in meanings),
        masked_bone=any(m.conduction == "bone" and m.masked for m in meanings),
        bone_by_ear=told_apart or not names_ear_by_colour(symbol_set),
        ears=ears,
        field=field and any(m.conduction == "field" for m in meanings),
        loudness=spoken,
        busy=busy,
    )


def true_ear(glyph: Glyph, symbol_set: str, ink: Ink, only: TestedEar | None) -> Ear:
    """Say which ear a perfect reader names: by shape, else by ink, else the only ear of the chart, else none."""
    ear = ear_of(SYMBOL_SETS[symbol_set].meanings[glyph], ink)
    return only if ear == "unspecified" and only is not None else ear


def true_threshold(tone: Tone, ear: Ear, seen: Seen) -> Threshold:
    """Give the truth of a result that a page shows: of which ear it names, and where it stands."""
    return Threshold(
        ear=ear,
        conduction=tone.conduction,
        masked=tone.masked,
        frequency_hz=tone.frequency_hz,
        level_db_hl=tone.level_db_hl,
        aided=tone.aided,
        measure=tone.measure,
        response=tone.response,
        standing="sure",
        probability=1.0,
        seen=seen,
    )


def arrow_for(tone: Tone, symbol_set: str) -> Arrow | None:
    """Give the direction of a no-response arrow: outward for an ear, straight down in Japan or for no ear."""
    if tone.response:
        return None
    if symbol_set == "jis-t-1201" or tone.ear not in ("right", "left"):
        return "down"
    return "down-left" if tone.ear == "right" else "down-right"
