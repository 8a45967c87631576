"""Invented hearing: what one ear hears at each frequency, as a clinic's test would find it, from a generator."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from ...interpret.record import Ear, Measure

TestedEar = Literal["right", "left"]


@dataclass(frozen=True, slots=True)
class Tone:
    """One result of the test, before any symbol stands for it."""

    ear: Ear
    conduction: Literal["air", "bone", "field"]
    masked: bool
    frequency_hz: float
    level_db_hl: float
    response: bool = True
    measure: Measure = "threshold"
    aided: bool = False
    forehead: bool = False


@dataclass(frozen=True, slots=True)
class TestPlan:
    """What a test covers: the frequencies that the form has, its level range, and what its symbol set can say.

    ``bone_by_ear`` is False where an unmasked bone mark names no ear (then one is drawn for both).
    """

    frequencies: tuple[float, ...]
    levels: tuple[float, float]
    masked_air: bool = True
    masked_bone: bool = True
    unmasked_bone: bool = True
    bone_by_ear: bool = True
    ears: tuple[TestedEar, ...] = ("right", "left")
    field: bool = False
    loudness: tuple[Measure, ...] = ()
    busy: float = 0.5
    """How much is tested, 0 to 1: inter-octaves, bone, masking."""


# [memory] common limits of clinical audiometers, dB HL; a form with a lower range cuts them further.
_AIR_LIMIT = {125: 80, 250: 105, 500: 115, 6000: 115, 8000: 105, 9000: 95, 10000: 95, 11200: 90, 12500: 85, 14000: 75}
_BONE_LIMIT = {250: 45, 500: 60, 750: 65, 6000: 60}
_BONE_TESTED = (250, 500, 1000, 2000, 4000)

SHAPES = ("normal", "mild", "sloping", "ski-slope", "rising", "notched", "flat", "trough", "corner", "profound", "dead")
_SHAPE_ODDS = (0.17, 0.12, 0.2, 0.1, 0.06, 0.1, 0.09, 0.05, 0.04, 0.04, 0.03)


def _air_limit(hz: float) -> float:
    return float(_AIR_LIMIT.get(int(hz), 60 if hz > 14000 else 120))


def _cochlea(rng: np.random.Generator, shape: str, octaves: np.ndarray) -> np.ndarray:
    """Hearing level of the inner ear at octaves from 1 kHz, dB, before rounding."""
    low = octaves.clip(None, 0)
    high = octaves.clip(0, None)
    if shape == "normal":
        return rng.uniform(-5, 14) + 0 * octaves + high * rng.uniform(-2, 3)
    if shape == "mild":
        return rng.uniform(15, 35) + high * rng.uniform(0, 8)
    if shape == "sloping":
        return rng.uniform(10, 45) + low * rng.uniform(2, 8) + high * rng.uniform(8, 20)
    if shape == "ski-slope":
        return rng.uniform(5, 25) + (octaves - rng.uniform(0, 1)).clip(0, 2) * rng.uniform(25, 40)
    if shape == "rising":
        return rng.uniform(35, 60) - (octaves + 2) * rng.uniform(6, 12)
    if shape == "notched":
        return rng.uniform(0, 20) + rng.uniform(25, 55) * np.exp(-((octaves - rng.uniform(1.6, 2.2)) ** 2) / 0.35)
    if shape == "flat":
        return rng.uniform(25, 85) + 0 * octaves
    if shape == "trough":
        return rng.uniform(5, 20) + rng.uniform(25, 50) * np.exp(-((octaves - rng.uniform(-0.3, 0.8)) ** 2) / 1.2)
    if shape == "corner":
        return rng.uniform(80, 95) + (octaves + 2) * rng.uniform(10, 18)
    if shape == "profound":
        return rng.uniform(88, 110) + (octaves + 2) * rng.uniform(0, 8)
    return np.full_like(octaves, 140.0)


def _tested(rng: np.random.Generator, test: TestPlan) -> tuple[float, ...]:
    odds = {125: 0.35, 750: 0.15 + 0.4 * test.busy, 1500: 0.25 + 0.4 * test.busy, 3000: 0.8, 6000: 0.7}
    kept = [hz for hz in test.frequencies if rng.random() < (0.985 if hz >= 9000 else odds.get(int(hz), 0.985))]
    return tuple(kept) if len(kept) > 2 else test.frequencies


def _five(values: np.ndarray) -> np.ndarray:
    return np.round(values / 5) * 5


@dataclass(frozen=True, slots=True)
class _Hearing:
    air: np.ndarray
    bone: np.ndarray


def _ears(rng: np.random.Generator, frequencies: tuple[float, ...]) -> dict[str, _Hearing]:
    octaves = np.log2(np.array(frequencies) / 1000)
    first = str(rng.choice(SHAPES, p=_SHAPE_ODDS))
    relation = rng.random()
    cochleas = [_cochlea(rng, first, octaves)]
    if relation < 0.5:
        cochleas.append(cochleas[0] + rng.normal(0, 2.0) + rng.normal(0, 1.5, len(octaves)))
    elif relation < 0.6:
        cochleas.append(cochleas[0].copy())
    elif relation < 0.75:
        cochleas.append(_cochlea(rng, "normal", octaves))
    else:
        cochleas.append(_cochlea(rng, str(rng.choice(SHAPES, p=_SHAPE_ODDS)), octaves))
    middle = rng.random()
    gaps = [np.zeros_like(octaves), np.zeros_like(octaves)]
    for ear in range(2):
        if middle < 0.22 or (middle < 0.42 and ear == int(middle * 100) % 2):
            gaps[ear] = (rng.uniform(15, 45) - octaves * rng.uniform(0, 5)).clip(10, 55)
    if rng.random() < 0.5:
        cochleas.reverse()
    noise = 2.0
    hearing = {}
    for name, cochlea, gap in zip(("right", "left"), cochleas, gaps, strict=True):
        bone = _five(cochlea + rng.normal(0, noise, len(octaves)))
        air = _five(cochlea + gap + rng.normal(0, noise, len(octaves)))
        hearing[name] = _Hearing(np.maximum(air, bone - 5), bone)
    return hearing


def _heard(tone: Tone, limit: float, test: TestPlan) -> Tone:
    """Cut a result to what the audiometer and the form can show: past the limit it is no response at the limit."""
    low, high = test.levels
    limit = min(limit, 5 * np.floor(high / 5))
    level = max(tone.level_db_hl, 5 * np.ceil(low / 5))
    if level > limit:
        return replace(tone, level_db_hl=float(limit), response=False)
    return replace(tone, level_db_hl=float(level))


def _air(rng: np.random.Generator, test: TestPlan, tested: tuple[float, ...], ears: dict[str, _Hearing]) -> list[Tone]:
    tones: list[Tone] = []
    skip_unheard = rng.random() < 0.15
    keep_shadow = rng.random() < 0.3
    # [memory] masking is called for where the other inner ear may answer, from 40 dB; some testers mask far earlier
    apart = 15 if rng.random() < 0.15 else 40
    for ear in test.ears:
        own, other = ears[ear], ears["left" if ear == "right" else "right"]
        for k, hz in enumerate(tested):
            across = own.air[k] - min(other.bone[k], other.air[k]) >= apart
            masked = bool(test.masked_air and across)
            tone = _heard(Tone(ear, "air", masked, hz, float(own.air[k])), _air_limit(hz), test)
            tones.append(tone)
            if masked and keep_shadow:
                shadow = float(_five(np.array([min(own.air[k], other.bone[k] + 50)]))[0])
                seen = _heard(Tone(ear, "air", False, hz, shadow), _air_limit(hz), test)
                tones.append(seen)
    heard = [tone for tone in tones if tone.response]
    return heard if skip_unheard and heard else tones


def _bone(rng: np.random.Generator, test: TestPlan, tested: tuple[float, ...], ears: dict[str, _Hearing]) -> list[Tone]:
    tones: list[Tone] = []
    skip_unheard = rng.random() < 0.4
    forehead = rng.random() < 0.12
    both_sides = rng.random() < 0.6
    extra = {3000: 0.4, 1500: 0.1, 750: 0.08, 6000: 0.05}
    chosen = [(k, hz) for k, hz in enumerate(tested) if hz in _BONE_TESTED or rng.random() < extra.get(int(hz), 0)]
    chosen = [pair for pair in chosen if rng.random() < 0.95]
    better = min(test.ears, key=lambda ear: float(ears[ear].air.mean()))
    for k, hz in chosen:
        best = min(ears[ear].bone[k] for ear in ("right", "left"))
        drawn_once = False
        for ear in test.ears:
            own = ears[ear]
            gap = own.air[k] - best >= 15 and test.masked_bone
            unmasked = test.unmasked_bone and (not gap or both_sides or not test.masked_bone)
            if not test.bone_by_ear:
                unmasked = unmasked and not drawn_once and ear == better
            found = []
            if unmasked:
                level = best if gap else own.bone[k]
                name: Ear = ear if test.bone_by_ear or len(test.ears) == 1 else "unspecified"
                found.append(Tone(name, "bone", False, hz, float(level), forehead=forehead and name == "unspecified"))
                drawn_once = True
            if gap:
                found.append(Tone(ear, "bone", True, hz, float(own.bone[k]), forehead=forehead))
            for tone in found:
                seen = _heard(tone, float(_BONE_LIMIT.get(int(hz), 70)), test)
                if seen.response or not skip_unheard:
                    tones.append(seen)
    return tones


def _others(
    rng: np.random.Generator, test: TestPlan, tested: tuple[float, ...], ears: dict[str, _Hearing]
) -> list[Tone]:
    tones: list[Tone] = []
    octaves = [(k, hz) for k, hz in enumerate(tested) if hz in (500, 1000, 2000, 4000)]
    if test.field:
        for aided in (False, True) if rng.random() < 0.6 else (True,):
            for k, hz in octaves:
                level = min(ears["right"].air[k], ears["left"].air[k]) - (20 + 5 * int(rng.integers(0, 4))) * aided
                seen = _heard(Tone("both", "field", False, hz, float(max(level, 0)), aided=aided), 90.0, test)
                if seen.response:
                    tones.append(seen)
    for measure in test.loudness:
        for ear in test.ears:
            for k, hz in octaves:
                lift = 0.5 if measure == "mcl" else 0.9
                level = 5 * round((ears[ear].air[k] + (120 - ears[ear].air[k]) * lift * rng.uniform(0.8, 1)) / 5)
                seen = _heard(Tone(ear, "air", False, hz, float(level), measure=measure), _air_limit(hz), test)
                if seen.response and level > ears[ear].air[k]:  # what is not heard is neither comfortable nor too loud
                    tones.append(seen)
    return tones


def hearing_test(rng: np.random.Generator, test: TestPlan) -> tuple[Tone, ...]:
    """Invent one whole test: levels on 5-dB steps, at most one result per ear, conduction, masking, kind and frequency.

    Parameters
    ----------
    rng : numpy.random.Generator
        All chance comes from it.
    test : TestPlan
        What is tested and what the form can show.

    Returns
    -------
    tuple of Tone
        Air, bone and other results; a result past the audiometer's limit stands at the limit with no response.
    """
    tested = _tested(rng, test)
    ears = _ears(rng, tested)
    tones = _air(rng, test, tested, ears)
    if rng.random() < 0.45 + 0.5 * test.busy:
        tones += _bone(rng, test, tested, ears)
    return tuple(tones + _others(rng, test, tested, ears))
