"""The words of facts in every language: labels, months and choices, from the label files."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from dataclasses import dataclass
from functools import cached_property, lru_cache
from importlib.resources import files
from typing import Literal

Order = Literal["day-first", "month-first"]
CHOICES = ("sex", "reliability", "transducer")
"""Facts whose value is one of a few, by the names of the label files' sections."""


@dataclass(frozen=True)  # without slots, for what is computed once
class Phrase:
    """One wording: its parts as ``bare`` gives them, and what it means."""

    parts: tuple[str, ...]
    meaning: str
    language: str

    @cached_property
    def letters(self) -> str:
        """Its parts without spaces."""
        return "".join(self.parts)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All languages together.

    Attributes
    ----------
    labels : dict of str to tuple of Phrase
        By the first letter of the first part, longest first.
    months : dict of str to int
        Month names and abbreviations, bare, to 1 to 12.
    choices : dict of str to tuple of Phrase
        For each fact of :data:`CHOICES`, the wordings of its values, longest first.
    orders : dict of str to tuple of str
        How each language may order the numbers of a date.
    recognised : dict of str to str
        The name of Tesseract's data for each language.
    pages, of : frozenset of str
        The bare words of "page 2 of 3".
    own, others : frozenset of str
        Bare words before a label that leave it the patient's, and such that make it somebody else's or another day's.
    """

    labels: tuple[Phrase, ...]
    months: dict[str, int]
    choices: dict[str, tuple[Phrase, ...]]
    orders: dict[str, tuple[Order, ...]]
    recognised: dict[str, str]
    pages: frozenset[str]
    of: frozenset[str]
    own: frozenset[str]
    others: frozenset[str]


def bare(text: str) -> str:
    """Take case, accents and all but letters and digits off a text.

    >>> bare("Né(e)")
    'nee'
    """
    flat = unicodedata.normalize("NFKD", text.casefold().replace("°", "o").replace("º", "o"))
    return "".join(c for c in flat if c.isalnum())


def parts_of(text: str) -> tuple[str, ...]:
    """Cut a wording into bare parts: at spaces, hyphens, slashes and commas.

    >>> parts_of("Geb.-Datum")
    ('geb', 'datum')
    """
    return tuple(part for part in (bare(piece) for piece in re.split(r"[\s\-/,‐–]+|(?<=\w)\.(?=\w\w)", text)) if part)


@lru_cache(maxsize=1)
def vocabulary() -> Vocabulary:
    """Load the label files of all languages."""
    labels: list[Phrase] = []
    months: dict[str, int] = {}
    choices: dict[str, list[Phrase]] = {name: [] for name in CHOICES}
    orders: dict[str, tuple[Order, ...]] = {}
    recognised: dict[str, str] = {}
    numbering: dict[str, set[str]] = {"page": set(), "of": set()}
    qualified: dict[str, set[str]] = {"own": set(), "others": set()}
    folder = files("octavo.extract.report.labels")
    for file in sorted(folder.iterdir(), key=lambda one: one.name):
        if not (file.name.startswith("facts-") and file.name.endswith(".toml")):
            continue
        told = tomllib.loads(file.read_text("utf-8"))
        language = told["language"]
        orders[language] = tuple(told["date-orders"])
        recognised[language] = told["tesseract"]
        for section, parts in (("numbering", numbering), ("qualified", qualified)):
            for part, known in parts.items():
                known |= {bare(word) for word in told[section][part]}
        labels += [Phrase(parts_of(w), name, language) for name, words in told["labels"].items() for w in words]
        months |= {bare(word): int(number) for number, words in told["months"].items() for word in words}
        for name in CHOICES:
            choices[name] += [
                Phrase(parts_of(w), value, language) for value, words in told[name].items() for w in words
            ]
    return Vocabulary(
        tuple(sorted(labels, key=lambda phrase: -len(phrase.parts))),
        months,
        {name: tuple(sorted(found, key=lambda phrase: -len(phrase.parts))) for name, found in choices.items()},
        orders,
        recognised,
        frozenset(numbering["page"]),
        frozenset(numbering["of"]),
        frozenset(qualified["own"]),
        frozenset(qualified["others"]),
    )
