"""Charts misread on purpose, to measure how much of that a check finds: silent errors alone are too few to count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...interpret.record import Audiogram, Conduction, Ear, Threshold

KINDS = {
    "missed": 41, "wrong-masking": 14, "invented": 7, "wrong-response": 6, "wrong-symbol": 5, "wrong-ear": 4,
    "wrong-frequency": 2, "wrong-level": 1,
}  # fmt: skip
"""How often each kind was among 83 silent errors of 2,192 painted pages of training families
(``tools.train.kept.replay``, all in print); three of a wrong test date are left out."""
OFF_DB = (-10.0, -5.0, 5.0, 10.0)
TONES_HZ = (250, 500, 1000, 2000, 3000, 4000, 6000, 8000)
OTHER_EAR: dict[Ear, Ear] = {"right": "left", "left": "right"}
OTHER_WAY: dict[Conduction, Conduction] = {"air": "bone", "bone": "air"}
Key = tuple[object, ...]


def trusted(audiograms: tuple[Audiogram, ...]) -> tuple[Audiogram, ...]:
    """Give the audiograms with every value standing as sure, as a reader without doubts would."""
    return tuple(
        replace(one, thresholds=tuple(replace(t, standing="sure", why_ask=()) for t in one.thresholds))
        for one in audiograms
    )


def misread(audiograms: tuple[Audiogram, ...], share: float, seed: int) -> tuple[Audiogram, ...]:
    """Give the audiograms with about this share of their values misread, and all of them standing as sure."""
    rng = np.random.default_rng(seed)
    return tuple(replace(one, thresholds=tuple(_values(one.thresholds, share, rng))) for one in trusted(audiograms))


def _values(values: tuple[Threshold, ...], share: float, rng: np.random.Generator) -> Iterator[Threshold]:
    taken = {_key(t) for t in values}
    kinds, odds = list(KINDS), np.array(list(KINDS.values()), np.float64)
    for value in values:
        if rng.random() >= share:
            yield value
            continue
        kind = kinds[int(rng.choice(len(kinds), p=odds / odds.sum()))]
        other = _other(value, kind, rng)
        free = other is not None and (_key(other) == _key(value) or _key(other) not in taken)
        if kind == "missed":
            continue
        if other is not None and free:
            taken.add(_key(other))
        yield from ((value,) if kind == "invented" or not free else ())
        yield from ((other,) if other is not None and free else ())


def _other(value: Threshold, kind: str, rng: np.random.Generator) -> Threshold | None:
    """Give a value as it may be misread; None where it cannot be so."""
    if kind == "wrong-masking":
        return replace(value, masked=not value.masked)
    if kind == "wrong-response":
        return replace(value, response=not value.response)
    if kind == "wrong-level":
        return replace(value, level_db_hl=value.level_db_hl + float(rng.choice(OFF_DB)))
    if kind == "wrong-ear" and value.ear in OTHER_EAR:
        return replace(value, ear=OTHER_EAR[value.ear])
    if kind == "wrong-symbol" and value.conduction in OTHER_WAY:
        return replace(value, conduction=OTHER_WAY[value.conduction])
    if kind in ("wrong-frequency", "invented"):
        near = [hz for hz in TONES_HZ if 0.4 < hz / value.frequency_hz < 2.5 and hz != value.frequency_hz]
        moved = replace(value, frequency_hz=float(rng.choice(near))) if near else None
        return replace(moved, seen=None) if moved is not None and kind == "invented" else moved
    return None


def _key(t: Threshold) -> Key:
    return t.ear, t.conduction, t.masked, t.aided, t.measure, round(t.frequency_hz)
