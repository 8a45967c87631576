"""How probable it is that a fact is right: that its letters are, and that its label announces it."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from ...page import Word
from ..trust import UNSEEN
from .draft import Draft

PAIR_NAMES = ("colon", "alone", "generic", "next-cell", "below", "slips", "strict", "lines", "no-label")
STOPS, STOP = frozenset(".,:;"), 0.998
"""How probable it is that a stop within a text is right: a comma looks like it, and words are judged by letters."""
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
    """The fitted data: of pairs of label and value, and the limits of sure."""

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
    return Certainty(weights("pairs", PAIR_NAMES), limits["given"], limits["read"])


def sure_from(*, given: bool) -> float:
    """Give the chance from which a fact is sure."""
    return certainty().sure_given if given else certainty().sure_read


def _right(word: Word) -> float:
    """Give the chance that a word that was read is right; little where no readers were held against each other."""
    return word.chance if word.chance is not None else min(UNSEEN, word.confidence)


def words_sure(words: Sequence[Word], *, given: bool) -> bool:
    """Say whether words are certain enough to prove something about others."""
    return given or all(_right(word) >= SURE_WORD for word in words)


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
    letters = math.prod(_right(word) for word in one.words)
    stops = sum(word.text[-1:] in STOPS for word in one.words[:-1])
    return pair * letters * STOP**stops
