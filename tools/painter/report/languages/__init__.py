"""The painter's words for reports: labels, months, titles, and the words that values are written in, by language."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

import numpy as np

from ...chart.chance import pick

Code = Literal["en", "de", "es", "fr"]
CODES: tuple[Code, ...] = ("en", "de", "es", "fr")
Split = Literal["train", "bench"]


@dataclass(frozen=True, slots=True, eq=False)
class Language:
    """One language's words; ``entries`` is its data file, reached through the methods alone."""

    code: Code
    entries: dict[str, Any]

    @property
    def comma(self) -> bool:
        """Decimals are set off by a comma."""
        return self.code != "en"

    def label(self, rng: np.random.Generator, what: str, split: Split) -> str:
        """Choose a label: a usual wording, or one that stands on pages of this split alone."""
        usual, train, bench = self.entries["labels"][what]
        own = train if split == "train" else bench
        return pick(rng, own if own and rng.random() < 0.15 else usual)

    def all_labels(self, what: str) -> tuple[str, ...]:
        """Give every wording of a label."""
        return tuple(word for group in self.entries["labels"][what] for word in group)

    def other_label(self, rng: np.random.Generator, what: str) -> str:
        """Choose a label of something that is no fact of the record."""
        return pick(rng, self.entries["others"][what])

    def words(self, what: str, within: str | None = None) -> tuple[str, ...]:
        """Give the wordings of a thing, in the file's order; ``within`` names the group that holds it."""
        found = self.entries[within][what] if within else self.entries[what]
        return (found,) if isinstance(found, str) else tuple(found)

    def word(self, rng: np.random.Generator, what: str, within: str | None = None) -> str:
        """Choose one wording of a thing."""
        return pick(rng, self.words(what, within))

    def sex_boxes(self, rng: np.random.Generator) -> tuple[str, ...]:
        """Choose the words of a row of tick boxes for sex."""
        return tuple(pick(rng, self.entries["boxed_sex"]))

    def sex_of(self, word: str) -> str:
        """Tell which sex a word names: ``female``, ``male`` or ``other``."""
        return next(sex for sex in ("female", "male", "other") if word in self.entries[sex])


@cache
def language(code: Code) -> Language:
    """Load a language."""
    text = (Path(__file__).parent / f"{code}.json").read_text(encoding="utf-8")
    return Language(code, json.loads(text))
