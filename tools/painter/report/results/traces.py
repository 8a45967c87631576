"""The invented middle ears: each side's tympanogram in numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from .....interpret.record import Immittance, Side, Tympanogram
from ...chart.chance import pick
from ..scribe import Setting, around

SIDES: tuple[Side, Side] = ("right", "left")
_TYPES = ("A", "As", "Ad", "B", "C")
_ODDS = (0.55, 0.1, 0.08, 0.14, 0.13)
_RANGES: dict[str, tuple[tuple[float, float], tuple[float, float]]] = {
    "A": ((-70, 30), (0.4, 1.3)),
    "As": ((-70, 30), (0.12, 0.25)),
    "Ad": ((-70, 30), (1.9, 2.6)),
    "C": ((-330, -170), (0.35, 1.2)),
}
"""Peak pressure (daPa) and height (mmho) well inside the types as they are told apart (Jerger, Archives of
Otolaryngology 92(4), 1970, 311-324) [memory]."""


@dataclass(frozen=True, slots=True)
class Trace:
    """One ear's tympanogram: its numbers, printed with so many decimals of a millilitre."""

    ear: Side
    numbers: Tympanogram
    decimals: int = 2


def invent_traces(rng: np.random.Generator, *, with_width: bool = True) -> tuple[Trace, Trace]:
    """Invent the tympanograms of both ears; the numbers are those that would be printed."""
    found = []
    for ear in SIDES:
        kind = pick(rng, _TYPES, _ODDS)
        volume = round(float(rng.uniform(0.7, 1.9)), 2)
        if kind == "B":
            found.append(Trace(ear, Tympanogram(False, ear_canal_volume_ml=volume, printed_type=kind)))
            continue
        pressures, heights = _RANGES[kind]
        peak = float(5 * round(rng.uniform(*pressures) / 5))
        height = round(float(rng.uniform(*heights)), 2)
        width = float(5 * round(rng.uniform(50, 130) / 5)) if with_width else None
        found.append(Trace(ear, Tympanogram(True, peak, height, volume, width, printed_type=kind)))
    return found[0], found[1]


def joined(before: Sequence[Immittance], more: Sequence[Immittance]) -> tuple[Immittance, ...]:
    """Put the results of one ear together: its tympanogram and its reflexes."""
    ears = {one.ear: one for one in before}
    for one in more:
        old = ears.get(one.ear)
        boxes = [box for box in (old.box if old else None, one.box) if box]
        ears[one.ear] = replace(
            one,
            tympanogram=one.tympanogram or (old.tympanogram if old else None),
            reflexes=(*(old.reflexes if old else ()), *one.reflexes),
            standing=one.standing if old is None or one.tympanogram else old.standing,
            box=around(boxes) if boxes else None,
        )
    return tuple(ears.values())


def side_names(rng: np.random.Generator, setting: Setting) -> tuple[str, str]:
    """Choose the words for the right and the left ear."""
    which = int(rng.integers(4))
    return setting.language.words("right", "ears")[which], setting.language.words("left", "ears")[which]
