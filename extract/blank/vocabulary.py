"""Which printed words and numbers can be left on a page without saying who somebody is."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from ..eyes.words.numbers import STANDARD_HZ

Kind = Literal["test", "plain", "number", "identifying", "unknown", "sign"]

_NUMBER = re.compile(r"[<>≤≥+\-−–]?\d{1,3}(?:[.,]\d{1,2})?(?:%|db|dB|hz|k|kHz)?")
_FREQUENCIES = frozenset(f"{hz:g}" for hz in STANDARD_HZ if hz >= 1000)
"""Audiometric frequencies of four digits and more."""
_EDGES = " \t.,:;()[]{}|*'\"’‘“”/\\_=~°"
_SIGN = re.compile(r"[^\w]{1,3}")


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words that are known, in small letters: of tests, harmless ones, and the labels of what identifies."""

    tests: frozenset[str]
    plain: frozenset[str]
    identifying: frozenset[str]

    def without(self, words: Iterable[str]) -> Vocabulary:
        """Leave words out that are parts of a name on these pages."""
        gone = frozenset(word.strip(_EDGES).casefold() for word in words)
        return Vocabulary(self.tests - gone, self.plain - gone, self.identifying)

    def kind(self, text: str) -> Kind:
        """Say what a printed word is.

        Returns
        -------
        {"test", "plain", "number", "identifying", "unknown", "sign"}
            ``number`` has up to three digits before the point, or is an audiometric frequency; ``sign`` is up to three
            characters without a letter or a digit; parts joined by a stroke or a hyphen count by the worst of them.
        """
        word = text.strip(_EDGES).casefold()
        if not word:
            return "sign"
        if _NUMBER.fullmatch(word) or word in _FREQUENCIES:
            return "number"
        if word in self.identifying:
            return "identifying"
        if word in self.tests:
            return "test"
        if word in self.plain:
            return "plain"
        if _SIGN.fullmatch(word):
            return "sign"
        parts = [part for part in re.split(r"[/\-–+&,()]", word) if part]
        if len(parts) > 1:
            kinds = {self.kind(part) for part in parts}
            for worst in ("unknown", "identifying"):
                if worst in kinds:
                    return worst
            # 04-19 and 12/03 are dates as likely as anything else
            return "unknown" if kinds == {"number"} else "test" if "test" in kinds else "plain"
        return "unknown"


@cache
def vocabulary() -> Vocabulary:
    """Give the words that ship with octavo."""
    told = json.loads(Path(__file__).with_name("harmless.json").read_text("utf-8"))
    return Vocabulary(*(frozenset(told[name]) for name in ("tests", "plain", "identifying")))
