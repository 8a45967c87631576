"""The speech intelligibility index of ANSI S3.5-1997, by third-octave and by octave bands."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import pairwise
from typing import Literal

from ...tables import published
from ..doubt import NO_LIMIT

Effort = Literal["normal", "raised", "loud", "shout"]
Bands = tuple[float, ...]
"""One number for each band, lowest first."""

THIRD_OCTAVE, OCTAVE = "sii_s3_5_1997_third_octave.csv", "sii_s3_5_1997_octave.csv"
QUIET_DB = -50.0
"""Spectrum level of "no noise", as the standard takes it, dB."""
TWO_EARS_DB = 1.7
"""Hearing with two ears alike is better than with one by this, dB."""


@dataclass(frozen=True, slots=True)
class Table:
    """One of the standard's tables: band centres in Hz, importances that sum to 1, spectrum levels in dB."""

    centres_hz: Bands
    importance: Bands
    internal_noise_db: Bands
    speech_db: Mapping[str, Bands]


@dataclass(frozen=True, slots=True)
class Index:
    """The index, 0 to 1, and the audible share of each band, 0 to 1."""

    value: float
    audible: Bands


@cache
def table(name: str) -> Table:
    """Give one of the standard's tables by its file."""
    rows = published(name)

    def column(key: str) -> Bands:
        return tuple(float(row[key]) for row in rows)

    efforts = ("normal", "raised", "loud", "shout")
    return Table(
        column("centre_hz"), column("importance_average_speech"), column("ref_internal_noise_db"),
        {effort: column(f"speech_{effort}_db") for effort in efforts},
    )  # fmt: skip


def speech_index(
    method: str, speech_db: Sequence[float], noise_db: Sequence[float] | None, threshold_db_hl: Sequence[float]
) -> Index:
    """Compute the index.

    Parameters
    ----------
    method : str
        ``THIRD_OCTAVE`` (18 bands) or ``OCTAVE`` (6 bands).
    speech_db, noise_db : sequence of float
        Equivalent spectrum levels in each band, dB; None for quiet.
    threshold_db_hl : sequence of float
        Equivalent hearing threshold levels in each band, dB HL; infinite where nothing is heard. For two ears alike
        they are lowered by ``TWO_EARS_DB`` before.

    Returns
    -------
    Index
        The value and, for each band, the audible share with the loss by over-loud speech taken off.

    Notes
    -----
    Clauses 4 and 5 of the standard; by octaves there is no spread of masking. Checked against its example C.1.
    """
    bands = table(method)
    noise = tuple(noise_db) if noise_db is not None else (QUIET_DB,) * len(bands.centres_hz)
    speech = tuple(speech_db)
    masking = _masking(speech, noise) if method == THIRD_OCTAVE else noise
    audible: list[float] = []
    for at, level in enumerate(speech):
        disturbance = max(masking[at], bands.internal_noise_db[at] + threshold_db_hl[at])
        share = 0.0 if disturbance == NO_LIMIT else min(max((level - disturbance + 15) / 30, 0.0), 1.0)
        too_loud = min(1 - (level - bands.speech_db["normal"][at] - 10) / 160, 1.0)
        audible.append(share * too_loud)
    value = sum(weight * share for weight, share in zip(bands.importance, audible, strict=True))
    return Index(value, tuple(audible))


def at_centres(levels_db_hl: Mapping[float, float], method: str = THIRD_OCTAVE) -> Bands:
    """Give thresholds at the centres of the bands.

    Parameters
    ----------
    levels_db_hl : mapping of float to float
        dB HL by Hz, at least one; may be infinite.
    method : str
        Whose bands.

    Returns
    -------
    tuple of float
        Linear in the logarithm of frequency between neighbours, held beyond the ends (octavo's choice).
    """
    known = sorted(levels_db_hl.items())
    return tuple(_interpolated(known, hz) for hz in table(method).centres_hz)


def _interpolated(known: list[tuple[float, float]], hz: float) -> float:
    if hz <= known[0][0]:
        return known[0][1]
    for (low_hz, low), (high_hz, high) in pairwise(known):
        if hz <= high_hz:
            if hz == high_hz or low == high:
                return high
            if math.isinf(low) or math.isinf(high):
                return NO_LIMIT
            return low + (high - low) * math.log(hz / low_hz) / math.log(high_hz / low_hz)
    return known[-1][1]


@lru_cache(maxsize=64)
def _masking(speech: Bands, noise: Bands) -> Bands:
    """Give the equivalent masking spectrum level of each third-octave band, dB: what lower bands spread upward."""
    centres = table(THIRD_OCTAVE).centres_hz
    sources = [max(n, e - 24) for n, e in zip(noise, speech, strict=True)]
    slopes = [-80 + 0.6 * (b + 10 * math.log10(f) - 6.353) for b, f in zip(sources, centres, strict=True)]
    found = [sources[0]]
    for at in range(1, len(centres)):
        power = 10 ** (0.1 * noise[at])
        for below in range(at):
            reach = 3.32 * slopes[below] * math.log10(0.89 * centres[at] / centres[below])
            power += 10 ** (0.1 * (sources[below] + reach))
        found.append(10 * math.log10(power))
    return tuple(found)
