"""How probable it is that a fact is right: that its letters are, and that its label announces it."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from ...eyes.words.reader import CHARSET
from ...page import Word
from .draft import Draft

WORD_NAMES = ("recognised", "own", "agree", "agree-loosely", "only-one", "number", "short")
PAIR_NAMES = ("colon", "alone", "generic", "next-cell", "below", "slips", "strict", "lines", "no-label")
ONE_WITNESS = 0.9
"""No word is likelier to be right that only one of the two readings saw."""
SURE_WORD = 0.98
"""Words read with this chance may prove something about others."""


@dataclass(frozen=True, slots=True)
class Weights:
    """Logistic weights by name, and their constant."""

    weights: tuple[float, ...]
    constant: float

    def chance(self, evidence: Sequence[float]) -> float:
        """Give the chance that the evidence makes."""
        score = self.constant + sum(w * e for w, e in zip(self.weights, evidence, strict=True))
        return 1 / (1 + math.exp(-max(min(score, 30.0), -30.0)))


@dataclass(frozen=True, slots=True)
class Certainty:
    """The fitted data: of words that were read, of pairs of label and value, and the limits of sure."""

    words: Weights
    pairs: Weights
    sure_given: float
    sure_read: float


@lru_cache(maxsize=1)
def certainty() -> Certainty:
    """Load the fitted data."""
    told = json.loads(files("octavo.extract.report.facts").joinpath("certainty.json").read_text("utf-8"))

    def weights(part: str, names: Sequence[str]) -> Weights:
        return Weights(tuple(float(told[part]["weights"][name]) for name in names), float(told[part]["constant"]))

    limits = told["sure_from"]
    return Certainty(weights("words", WORD_NAMES), weights("pairs", PAIR_NAMES), limits["given"], limits["read"])


def sure_from(*, given: bool) -> float:
    """Give the chance from which a fact is sure."""
    return certainty().sure_given if given else certainty().sure_read


def word_evidence(word: Word) -> tuple[float, ...]:
    """Say what speaks for and against the letters of a word that was read, in the order of ``WORD_NAMES``."""
    own = word.others[0] if word.others else ("", 0.0)
    exact, loose = _agree(word.text, own[0])
    letters = sum(c.isalnum() for c in word.text)
    return (
        _logit(word.confidence), _logit(own[1]) if word.others else 0.0, float(exact), float(loose and not exact),
        float(not word.others), float(any(c.isdigit() for c in word.text)), float(letters <= 1),
    )  # fmt: skip


def _agree(text: str, own: str) -> tuple[bool, bool]:
    """Say whether two readings agree, and whether they do but for signs; the network has no capitals."""
    one = "".join(c if c in CHARSET else "?" for c in text.lower())
    exact = one == own.lower()
    plain = "".join(c for c in one if c.isalnum())
    return exact, bool(plain) and plain == "".join(c for c in own.lower() if c.isalnum())


def _logit(chance: float) -> float:
    chance = min(max(chance, 1e-3), 1 - 1e-4)
    return math.log(chance / (1 - chance))


def word_chance(word: Word) -> float:
    """Give the chance that all letters of a word that was read are right."""
    chance = certainty().words.chance(word_evidence(word))
    return chance if word.others else min(chance, ONE_WITNESS)


def words_sure(words: Sequence[Word], *, given: bool) -> bool:
    """Say whether words are certain enough to prove something about others."""
    return given or all(word_chance(word) >= SURE_WORD for word in words)


def pair_evidence(one: Draft) -> tuple[float, ...]:
    """Say what speaks for and against a value being what its label announces, in the order of ``PAIR_NAMES``."""
    label = one.label
    return (
        float(label is not None and label.colon), float(label is not None and label.alone),
        float(label is not None and "date" in label.names), float(one.place == "next-cell"),
        float(one.place == "below"), float(label.slips if label is not None else 0), float(one.strict),
        float(one.lines > 1), float(label is None),
    )  # fmt: skip


def chance_of(one: Draft, *, given: bool) -> float:
    """Give the chance that a fact is right."""
    pair = certainty().pairs.chance(pair_evidence(one))
    if given:
        return pair
    if one.strict and one.name in ("sex", "reliability", "transducer"):
        return pair * (0.999 if not one.slips else 0.97)
    letters = 1.0
    for word in one.words:
        letters *= word_chance(word)
    return pair * letters
