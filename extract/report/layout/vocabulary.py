"""The words of the tests beside the thresholds, from the label files of all languages."""

from __future__ import annotations

import functools
import re
import tomllib
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from ...likeness import Likeness

LABELS = Path(__file__).parent.parent / "labels"
FILES = "tests-*.toml"
LONG = 6
"""A word of so many letters is known though one of them was misread."""
ALIKE = 0.83
ATOM = re.compile(r"\d+(?:[.,]\d{1,3}(?!\d))?|[^\W\d_]+|\S")
"""Letters, a number, or a sign: no number has four decimals, "500,1000" are two that a space parted."""
PASSED_OVER = frozenset(".-'\u2019\u00b4`_\u2010\u2011")
"""Signs within a phrase that may be printed or not."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """One way to print a meaning: its parts without accents, in small letters, and as written where case matters."""

    meaning: str
    parts: tuple[str, ...]
    written: tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All phrases by their first part, the longest first."""

    phrases: dict[str, tuple[Phrase, ...]]
    long_words: Likeness
    known: frozenset[str] = field(default_factory=frozenset)
    closed: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """The parts of phrases of several words, by their letters without spaces."""
    of_language: dict[tuple[str, ...], str] = field(default_factory=dict)
    """The language of each phrase that is one in a single language, by its bare parts."""

    def match(self, parts: Sequence[str], *, told: bool = False) -> tuple[int, frozenset[str]]:
        """Find the longest phrase with which some printed parts begin.

        Parameters
        ----------
        parts : sequence of str
            Words, numbers and signs as printed.
        told : bool
            The file itself gave them: no first letter was misread, "asking" is no "masking".

        Returns
        -------
        int
            How many of the parts it takes; 0 for none.
        frozenset of str
            Everything that it may mean.
        """
        if not parts:
            return 0, frozenset()
        first = self._meant(bare(parts[0]), told=told)
        found: dict[int, set[str]] = {}
        for phrase in self.phrases.get(first, ()):
            taken = self._taken(phrase, parts, told=told)
            if taken:
                found.setdefault(taken, set()).add(phrase.meaning)
        longest = max(found, default=0)
        return longest, frozenset(found.get(longest, ()))

    def _taken(self, phrase: Phrase, parts: Sequence[str], *, told: bool) -> int:
        at = number = 0
        while number < len(phrase.parts):
            while at < len(parts) and number and parts[at] in PASSED_OVER:
                at += 1
            count = self._glued(phrase, number, parts[at], told=told) if at < len(parts) else 0
            if not count:
                return 0
            number += count
            at += 1
        return at

    def _glued(self, phrase: Phrase, number: int, part: str, *, told: bool) -> int:
        """Give how many of a phrase's words a printed one is: a scan loses spaces, as in "No. ofwords"; 0 for none."""
        said = self._meant(bare(part), told=told)
        for count in range(1, len(phrase.parts) - number + 1):
            wanted = "".join(phrase.parts[number : number + count])
            if said == wanted or (len(wanted) >= LONG and said == f"{wanted}s"):
                written = phrase.written
                return count if written is None or plain(part) == "".join(written[number : number + count]) else 0
        return 0

    def _meant(self, part: str, *, told: bool) -> str:
        """Give the known word that a printed one is, but for a slip of the recognition."""
        if len(part) < LONG or part in self.known:
            return part
        near = self.long_words.nearest(part)
        if near is None or abs(len(near) - len(part)) > 1 or (told and near[0] != part[0]):
            return part
        return near


def plain(text: str) -> str:
    """Leave out accents; the case stays."""
    text = text.replace("\u00df", "ss").replace("\u0153", "oe")
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


def bare(text: str) -> str:
    """Leave out accents and case."""
    return plain(text).casefold()


def parts_of(text: str) -> list[str]:
    """Take a phrase apart into words, numbers and signs, but for the signs that may be left out."""
    return [part for part in ATOM.findall(text) if part not in PASSED_OVER]


@functools.cache
def vocabulary() -> Vocabulary:
    """Load the words of every language from the label files."""
    phrases: dict[str, list[Phrase]] = {}
    languages: dict[tuple[str, ...], set[str]] = {}
    for file in sorted(LABELS.glob(FILES)):
        for meanings in tomllib.loads(file.read_text("utf-8")).values():
            for meaning, texts in meanings.items():
                for text in texts:
                    made = _phrase(meaning, text)
                    phrases.setdefault(made.parts[0], []).append(made)
                    languages.setdefault(made.parts, set()).add(file.stem.removeprefix("tests-"))
    words = frozenset(part for of_one in phrases.values() for phrase in of_one for part in phrase.parts)
    return Vocabulary(
        {first: tuple(sorted(of_one, key=lambda p: -len(p.parts))) for first, of_one in phrases.items()},
        Likeness(sorted(word for word in words if len(word) >= LONG), ALIKE),
        words,
        {
            "".join(phrase.parts): phrase.parts
            for of_one in phrases.values() for phrase in of_one
            if len(phrase.parts) > 1 and all(part.isalpha() for part in phrase.parts)
        },
        {parts: next(iter(of_one)) for parts, of_one in languages.items() if len(of_one) == 1},
    )  # fmt: skip


def _phrase(meaning: str, text: str) -> Phrase:
    parts = parts_of(plain(text))
    as_written = any(c.isupper() for c in text) or len(text) == 1
    return Phrase(meaning, tuple(part.casefold() for part in parts), tuple(parts) if as_written else None)
