"""What a printed number may mean on an axis: an audiometric frequency, or a level."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

STANDARD_HZ = (
    125.0, 187.5, 250.0, 375.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 5000.0, 6000.0, 8000.0, 9000.0,
    10000.0, 11200.0, 12000.0, 12500.0, 14000.0, 16000.0, 18000.0, 20000.0,
)  # fmt: skip
"""Frequencies at which pure-tone audiometry is done (ISO 389 series and clinical forms; common practice)."""
PRINTED_ALIKE = {187.0: 187.5, 188.0: 187.5, 11000.0: 11200.0, 11250.0: 11200.0}
INTER_OCTAVES = frozenset({187.5, 375.0, 750.0, 1500.0, 3000.0, 6000.0, 12000.0})
LEAST_WORTH = 1.6
"""Labels whose chances add up to less are no axis."""
SEED_CHANCE = 0.15
"""An axis is tried through any two labels that are this likely to say what it needs."""


@dataclass(frozen=True, slots=True)
class Number:
    place: int
    """Which word; a word that may say several things is several numbers of one place."""
    value: float
    x: float
    y: float
    height: float
    confidence: float
    in_khz: bool


@lru_cache(maxsize=65536)  # the same few texts stand at all axes, and each is asked about a dozen times
def frequency_values(text: str) -> tuple[tuple[float, bool], ...]:
    """Give the frequencies (Hz) that a label may mean, each with whether it was read as kHz.

    >>> frequency_values("0,5")
    ((500.0, True),)
    >>> frequency_values("1 000")
    ((1000.0, False),)
    """
    bare = re.sub(r"\s*(k?)hz\.?$", r"\1", text.strip().lower())
    kilo = bare.endswith("k")
    bare = bare.rstrip("k").strip()
    if re.fullmatch(r"[1-9]\d?[ .,]\d{3}", bare):
        whole = float(re.sub(r"[ .,]", "", bare))
        whole = PRINTED_ALIKE.get(whole, whole)
        return ((whole, False),) if whole in STANDARD_HZ and not kilo else ()
    if not re.fullmatch(r"\d*[.,]?\d+", bare):
        return ()
    number = float(bare.replace(",", "."))
    found = []
    for hz, khz in ((number, False), (number * 1000, True)):
        hz = PRINTED_ALIKE.get(hz, hz)
        if (khz or not kilo) and hz in STANDARD_HZ:
            found.append((hz, khz))
    return tuple(found)


def lost_point(text: str) -> float | None:
    """Give the frequency (Hz) of a label in kHz whose decimal point was lost: ".25" reads as "25", "0.5" as "05".

    >>> lost_point("25")
    250.0
    """
    said = re.fullmatch(r"0?(125|25|375|5|75)", text.strip())
    return 1000 * float(f"0.{said.group(1)}") if said else None


@lru_cache(maxsize=65536)
def level_value(text: str) -> float | None:
    """Give the level in dB that a label means; None where it means none (-20 to 140 in steps of 5)."""
    bare = re.sub(r"(?i)\s*dB(\s*HL)?$", "", text.strip().replace("\u2212", "-").replace("\u2013", "-"))
    if not re.fullmatch(r"0|-? ?[1-9]\d{0,2}", bare):
        return None
    value = float(bare.replace(" ", ""))
    return value if -20 <= value <= 140 and value % 5 == 0 else None


def worth(members: list[Number]) -> float:
    return sum(m.confidence for m in members)
