"""For the patient: words understood, and what guidance says a doctor should see."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..findings import Findings
from ..rules.degree import EARS
from ..rules.truth import MET

if TYPE_CHECKING:
    from .patient import Teller

_SEEN = (
    "refer-if-sudden", "refer-worsening", "refer-one-sided", "refer-asymmetry", "refer-word-scores", "refer-gap",
    "refer-child", "implant-evaluation",
)  # fmt: skip
_ALIKE = {"refer-asymmetry": "refer-one-sided", "refer-word-scores": "refer-asymmetry"}
"""Sentences that would say nearly the same as one before."""


def words_understood(found: Findings, teller: Teller) -> Iterator[str]:
    """Say how many words each ear got right, and whether the ears differ by more than chance."""
    for ear in EARS:
        for one in found.of("word-recognition", ear):
            percent = teller.language.number(one.number or 0, 0)
            yield teller.say("word-recognition", one, ear=teller.language.in_ears[ear], percent=percent)
    for one in found.of("word-recognition-between-ears"):
        if one.word == "different" and one.ear is not None:
            yield teller.say("word-recognition-differ", one, ear=teller.language.in_ears[one.ear])
        elif one.word == "not different":
            yield teller.say("word-recognition-alike", one)


def should_be_seen(found: Findings, teller: Teller) -> Iterator[str]:
    """Say what a doctor should look at: each matter once, met or possibly so."""
    told: set[str] = set()
    for code in _SEEN:
        for one in found.of(code):
            if code in told or _ALIKE.get(code) in told or (one.word != MET and MET not in one.could_be):
                continue
            told.add(code)
            ear = teller.language.in_ears[one.ear] if one.ear is not None else ""
            yield teller.say(code, one, ear=ear)
