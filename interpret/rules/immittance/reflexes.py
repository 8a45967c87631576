"""Acoustic reflexes: each present, elevated or absent, and what their pattern usually means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from ...finding import Finding
from ...record import Reflex, Side
from ...settings import Case

PRESENT, ELEVATED, ABSENT = "present", "elevated", "absent"
ELEVATED_ABOVE_DB = 100.0
"""Reflexes of normal ears stand at 70 to 100 dB HL (texts) [memory]."""
REFLEX_RULE = f"present to {ELEVATED_ABOVE_DB:g} dB HL, common practice"
PATTERN_RULE = "by stimulated and measured ear, textbook chapter"
DECAY_RULE = "half of its height within 10 s, textbook chapter"
DECAY_PERCENT = 50.0

_PATTERN_HZ = (500.0, 1000.0, 2000.0)
_DECAY_HZ = (500.0, 1000.0)

Path = tuple[Side, Side]
"""The ear that is stimulated, and the ear that is measured."""
PATHS: tuple[Path, ...] = (("right", "right"), ("right", "left"), ("left", "right"), ("left", "left"))
Sign = Literal["normal", "not normal", "some of each"]

# Which paths are normal under each pattern. The first five are in a textbook chapter; that crossed reflexes which are
# absent alone point to the brain stem is common teaching [memory].
_N: Sign = "normal"
_X: Sign = "not normal"
PATTERNS: dict[str, tuple[Sign, Sign, Sign, Sign]] = {
    "all present": (_N, _N, _N, _N),
    "whenever the right ear is stimulated": (_X, _X, _N, _N),
    "whenever the left ear is stimulated": (_N, _N, _X, _X),
    "whenever measured in the right ear": (_X, _N, _X, _N),
    "whenever measured in the left ear": (_N, _X, _N, _X),
    "the crossed ones alone": (_N, _X, _X, _N),
    "all absent or elevated": (_X, _X, _X, _X),
}
NO_PATTERN = "no pattern of these"


@dataclass(frozen=True, slots=True)
class Measured:
    """One reflex with the ear that it was measured in."""

    probe: Side
    reflex: Reflex
    ask: bool

    @property
    def word(self) -> str:
        """Present, elevated or absent, as it reads."""
        if not self.reflex.response:
            return ABSENT
        level = self.reflex.level_db_hl
        return ELEVATED if level is not None and level > ELEVATED_ABOVE_DB else PRESENT


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on acoustic reflexes."""
    found = [
        Measured(one.ear, reflex, one.standing == "ask" or reflex.standing == "ask")
        for one in case.audiogram.immittance
        for reflex in one.reflexes
    ]
    for one in found:
        yield _reflex(one)
        yield from _decay(one)
    yield from _pattern(found)


def _reflex(one: Measured) -> Finding:
    reflex, level = one.reflex, one.reflex.level_db_hl
    side = "ipsilateral" if reflex.stimulus_ear == one.probe else "contralateral"
    return Finding(
        f"reflex-{side}", REFLEX_RULE, ear=reflex.stimulus_ear, frequency_hz=reflex.frequency_hz, word=one.word,
        could_be=(PRESENT, ELEVATED, ABSENT) if one.ask else (), number=level,
        unit=None if level is None else "dB HL", low=None if one.ask else level,
        high=None if one.ask or not reflex.response else level, at_least=not reflex.response and level is not None,
        standing="ask" if one.ask else "sure",
    )  # fmt: skip


def _decay(one: Measured) -> Iterator[Finding]:
    percent, hz = one.reflex.decay_percent, one.reflex.frequency_hz
    if percent is None or hz not in _DECAY_HZ:
        return
    yield Finding(
        "reflex-decay", DECAY_RULE, ear=one.reflex.stimulus_ear, frequency_hz=hz,
        word="positive" if percent >= DECAY_PERCENT else "negative",
        could_be=("negative", "positive") if one.ask else (), number=percent, unit="%",
        low=0 if one.ask else percent, high=100 if one.ask else percent, standing="ask" if one.ask else "sure",
    )  # fmt: skip


def _pattern(found: list[Measured]) -> Iterator[Finding]:
    by_path = {path: _of_path(found, path) for path in PATHS}
    if sum(1 for here in by_path.values() if here) < 2:
        return
    read: list[Sign | None] = [_sign(here) for here in by_path.values()]
    asked = [any(one.ask for one in here) for here in by_path.values()]
    known: list[Sign | None] = [None if ask else sign for ask, sign in zip(asked, read, strict=True)]
    asks = any(asked)
    words, could = _matching(read), _matching(known)
    if asks and NO_PATTERN not in could:
        could = (*could, NO_PATTERN)
    yield Finding(
        "reflex-pattern", PATTERN_RULE, ear="both", word=words[0] if len(words) == 1 else None,
        could_be=could if len(could) > 1 else (), standing="ask" if asks else "sure",
    )  # fmt: skip


def _of_path(found: list[Measured], path: Path) -> list[Measured]:
    here = [one for one in found if (one.reflex.stimulus_ear, one.probe) == path]
    return [one for one in here if one.reflex.frequency_hz in _PATTERN_HZ]


def _sign(here: list[Measured]) -> Sign | None:
    words = {one.word == PRESENT for one in here}
    if not words:
        return None
    return "some of each" if len(words) == 2 else "normal" if words == {True} else "not normal"


def _matching(signs: Sequence[Sign | None]) -> tuple[str, ...]:
    """Give every pattern that the known paths allow; a path that is normal at some frequencies alone fits none."""
    fitting = tuple(
        word
        for word, pattern in PATTERNS.items()
        if all(sign in (None, expected) for sign, expected in zip(signs, pattern, strict=True))
    )
    return fitting or (NO_PATTERN,)
