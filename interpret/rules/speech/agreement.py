"""Whether the speech recognition threshold agrees with the pure tones: the usual check of a test's reliability."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...finding import Finding, standing_of
from ...record import Side, Speech
from ...settings import Case
from ..averages import Average, average
from ..doubt import ASK_REACH_DB, NO_LIMIT, Span

SIDES: tuple[Side, ...] = ("right", "left")

_USUAL, _SLOPING = "0.5-1-2", "two-best-of-0.5-1-2"
_THREE = (500.0, 1000.0, 2000.0)
SLOPE_DB = 20.0
"""Where 0.5, 1 and 2 kHz differ by more than this, the best two stand for the ear (common practice)."""
BETTER_DB = 12.0
"""An SRT that is better than the average by more than this is suspect (texts say 10 to 12 dB) [memory]."""


@dataclass(frozen=True, slots=True)
class AgreementRule:
    """A published way to grade the agreement: words with the largest difference that each allows, dB."""

    name: str
    edges: tuple[tuple[str, float], ...]


AGREEMENT_RULES = (
    AgreementRule("Brandy 2002: to 6 dB good, to 12 dB fair", (("good", 6), ("fair", 12), ("poor", NO_LIMIT))),
    AgreementRule("within 10 dB, common practice", (("agrees", 10), ("differs", NO_LIMIT))),
)
"""Both [memory]."""


def conclude(case: Case) -> Iterator[Finding]:
    """Give the agreement of each ear's SRT with its pure-tone average, by every rule."""
    for ear in SIDES:
        srt = srt_of(case.audiogram.speech, ear)
        mean = average_for(case, ear)
        if srt is None or srt.level_db_hl is None or mean.db_hl is None or mean.span is None:
            continue
        yield from _agreement(srt, srt.level_db_hl, mean, mean.db_hl, mean.span)


def srt_of(speech: tuple[Speech, ...], ear: Side) -> Speech | None:
    """Give an ear's speech recognition threshold: unaided, by earphone, in quiet, reached; masked before unmasked."""
    found = [
        one
        for one in speech
        if (one.ear, one.measure, one.conduction, one.aided, one.snr_db) == (ear, "srt", "air", False, None)
        and one.response
        and one.level_db_hl is not None
    ]
    return max(found, key=lambda one: (one.masked, one.standing == "sure", one.level_db_hl), default=None)


def average_for(case: Case, ear: Side) -> Average:
    """Give the average that an SRT is held against: 0.5, 1 and 2 kHz, or the best two of them where they slope."""
    values = case.audiogram.thresholds
    mean = average(values, _USUAL, ear)
    levels = [
        t.level_db_hl
        for t in values
        if (t.ear, t.conduction, t.measure, t.aided) == (ear, "air", "threshold", False) and t.frequency_hz in _THREE
    ]
    sloping = mean.db_hl is not None and max(levels) - min(levels) > SLOPE_DB
    return average(values, _SLOPING, ear) if sloping else mean


def _agreement(srt: Speech, level: float, mean: Average, mean_db: float, mean_span: Span) -> Iterator[Finding]:
    reach = ASK_REACH_DB if srt.standing == "ask" else 0.0
    read = Span(level, level).minus(Span(mean_db, NO_LIMIT if mean.at_least else mean_db))
    full = Span(level - reach, level + reach).minus(mean_span)
    asks = srt.standing == "ask" or bool(mean.ask_hz)
    shared = {
        "ear": srt.ear, "number": level - mean_db, "unit": "dB", "low": full.low, "high": full.high,
        "numbers": (("srt_db_hl", level), ("average_db_hl", mean_db)), "at_least": mean.at_least,
        "standing": "ask" if asks else standing_of(mean.ask_hz), "rests_on": mean.ask_hz,
        "no_response_hz": mean.no_response_hz,
    }  # fmt: skip
    against = f"against {mean.rule} kHz"
    for rule in AGREEMENT_RULES:
        words, could = _words(read, rule), _words(full, rule)
        yield Finding(
            "srt-agreement", f"{rule.name}; {against}", word=words[0] if len(words) == 1 else None,
            could_be=could if asks and len(could) > 1 else (), **shared,
        )  # fmt: skip
    surely, possibly = read.high < -BETTER_DB, full.low < -BETTER_DB
    if surely or (asks and possibly):
        could_be = ("not met", "met") if asks and full.high >= -BETTER_DB else ()
        rule = f"better by more than {BETTER_DB:g} dB, common practice; {against}"
        word = "met" if surely else "not met"
        yield Finding("srt-better-than-average", rule, word=word, could_be=could_be, **shared)


def _words(difference: Span, rule: AgreementRule) -> tuple[str, ...]:
    """Give every word that a difference within this range may get."""
    most = max(abs(difference.low), abs(difference.high))
    least = 0.0 if difference.low <= 0 <= difference.high else min(abs(difference.low), abs(difference.high))
    found: list[str] = []
    below = -1.0
    for word, edge in rule.edges:
        if least <= edge and most > below:
            found.append(word)
        below = edge
    return tuple(found)
