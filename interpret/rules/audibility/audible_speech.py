"""How much of a conversation reaches an unaided ear: near and farther away, in quiet and in noise, and which sounds."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding, standing_of
from ...record import Ear
from ...settings import Case
from ..degree import EARS
from ..doubt import Row, asking, row_of
from .speech_index import OCTAVE, THIRD_OCTAVE, Bands, Index, at_centres, speech_index, table

RULE = "ANSI S3.5-1997, third octave"
NEEDED_HZ = (500.0, 1000.0, 2000.0, 4000.0)
DISTANCES_M = (1, 2, 4)
HEARD, PARTLY, NOT_HEARD = "heard", "partly heard", "not heard"
_HEARD_FROM, _NOT_HEARD_TO = 0.75, 0.25


@dataclass(frozen=True, slots=True)
class Region:
    """A part of speech by pitch: its third-octave bands, and the sounds that live there (common practice)."""

    code: str
    from_hz: float
    to_hz: float


REGIONS = (
    Region("speech-region-voice", 160, 630),
    Region("speech-region-vowels", 800, 1600),
    Region("speech-region-stops", 2000, 3150),
    Region("speech-region-hiss", 4000, 8000),
)
"""Where the sounds of speech lie is common practice: voice, vowels, m and n; vowels, l, r, p, h, g; ch, sh, k, t; f, s,
th. A region is heard from 75 % of its share on, not heard to 25 % (octavo's choice)."""


@dataclass(frozen=True, slots=True)
class Ways:
    """One result for the values as marked, and for the best and worst that they could be."""

    marked: Index
    best: Index
    worst: Index


def conclude(case: Case) -> Iterator[Finding]:
    """Give the audibility of normal speech for each ear.

    Yields
    ------
    Finding
        ``audibility-quiet`` at 1, 2 and 4 m (6 dB less for each doubling, as in the open; in a room it falls less);
        ``audibility-noise`` at 1 m in noise of the speech's own level and spectrum; one finding for each region of
        speech sounds. The number is the index, 0 to 1. Where something was not heard the index is at most this, and its
        range begins lower.
    """
    for ear in EARS:
        row = row_of(case.audiogram.thresholds, ear)
        if not row:
            continue
        missing = tuple(hz for hz in NEEDED_HZ if hz not in row)
        if missing:
            yield Finding("audibility-quiet", RULE, ear=ear, missing_hz=missing)
            continue
        yield from audibility(row, ear)


def audibility(row: Row, ear: Ear) -> Iterator[Finding]:
    """Give the findings of one ear; ``row`` holds 0.5, 1, 2 and 4 kHz at least."""
    normal = table(THIRD_OCTAVE).speech_db["normal"]
    thresholds = _thresholds(row, THIRD_OCTAVE)
    regions: tuple[Finding, ...] = ()
    for distance in DISTANCES_M:
        speech = tuple(level - 20 * math.log10(distance) for level in normal)
        ways = _ways(THIRD_OCTAVE, speech, None, thresholds)
        numbers = [("distance_m", float(distance))]
        if distance == 1:
            octave = _ways(OCTAVE, table(OCTAVE).speech_db["normal"], None, _thresholds(row, OCTAVE))
            numbers.append(("index_by_octaves", octave.marked.value))
            regions = tuple(_regions(ways, row, ear))
        yield _finding("audibility-quiet", ways, row, ear, tuple(numbers))
    ways = _ways(THIRD_OCTAVE, normal, normal, thresholds)
    yield _finding("audibility-noise", ways, row, ear, (("distance_m", 1.0), ("speech_to_noise_db", 0.0)))
    yield from regions


def _thresholds(row: Row, method: str) -> tuple[Bands, Bands, Bands]:
    """Give the thresholds at the bands' centres as marked, at best and at worst."""
    return (
        at_centres({hz: level.db_hl for hz, level in row.items()}, method),
        at_centres({hz: level.span.low for hz, level in row.items()}, method),
        at_centres({hz: level.span.high for hz, level in row.items()}, method),
    )


def _ways(method: str, speech: Bands, noise: Bands | None, thresholds: tuple[Bands, Bands, Bands]) -> Ways:
    marked, best, worst = thresholds
    found = speech_index(method, speech, noise, marked)
    return Ways(
        found,
        found if best == marked else speech_index(method, speech, noise, best),
        found if worst == marked else speech_index(method, speech, noise, worst),
    )


def _finding(code: str, ways: Ways, row: Row, ear: Ear, numbers: tuple[tuple[str, float], ...]) -> Finding:
    rests_on = asking(row)
    return Finding(
        code, RULE, ear=ear, number=ways.marked.value, unit="index", low=ways.worst.value, high=ways.best.value,
        numbers=numbers, standing=standing_of(rests_on), rests_on=rests_on,
        no_response_hz=tuple(hz for hz, level in row.items() if not level.response),
    )  # fmt: skip


def _regions(ways: Ways, row: Row, ear: Ear) -> Iterator[Finding]:
    rests_on = asking(row)
    for region in REGIONS:
        marked, best, worst = (_share(index, region) for index in (ways.marked, ways.best, ways.worst))
        could_be = tuple(
            word for word in (NOT_HEARD, PARTLY, HEARD)
            if _order(_word(worst)) <= _order(word) <= _order(_word(best))
        )  # fmt: skip
        yield Finding(
            region.code, RULE, ear=ear, word=_word(marked), could_be=could_be if rests_on and len(could_be) > 1 else (),
            number=marked, unit="share", low=worst, high=best,
            numbers=(("from_hz", region.from_hz), ("to_hz", region.to_hz)), standing=standing_of(rests_on),
            rests_on=rests_on, no_response_hz=tuple(hz for hz, level in row.items() if not level.response),
        )  # fmt: skip


def _share(index: Index, region: Region) -> float:
    """Give how much of a region's importance is audible, 0 to 1."""
    bands = table(THIRD_OCTAVE)
    here = [at for at, hz in enumerate(bands.centres_hz) if region.from_hz <= hz <= region.to_hz]
    whole = sum(bands.importance[at] for at in here)
    return sum(bands.importance[at] * index.audible[at] for at in here) / whole


def _word(share: float) -> str:
    if share >= _HEARD_FROM:
        return HEARD
    return NOT_HEARD if share <= _NOT_HEARD_TO else PARTLY


def _order(word: str) -> int:
    return (NOT_HEARD, PARTLY, HEARD).index(word)
