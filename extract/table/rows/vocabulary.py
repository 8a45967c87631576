"""What the words of a table name: ears, conductions, masking, and tests of other kinds; the words are data."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Literal

from ....interpret.record import Conduction, Ear, Measure
from ...likeness import Likeness
from ...page import Word

LONG = 5
"""Words of so many letters may hold a slip of a letter and still be known."""
LIKE = 0.84
SURE_LENGTH = 4
"""A word of so many letters is not read by chance: one reading of it is enough where the other says nothing known."""
SHORT = 2
"""Abbreviations of so many letters stand without a space at times."""
WHOLE = frozenset({"os"})
"""Short words that are no abbreviations: "LOS" is an article."""
NAMING = frozenset({"right", "left", "both", "air", "bone", "field"})
CELL_KINDS = frozenset({"untested", "unheard"})
"""What cells and notes say, and names of rows do not."""
TitleKind = Literal["linking", "title", "derived", "not so", "numbers", "to mask", "noise", "styles"]
TITLE_KINDS = frozenset({"linking", "title", "stems", "derived", "not so", "numbers", "to mask", "noise", "styles"})
"""What titles and notes say, and names of rows do not."""
PAIRS = "pairs"


_RIGHT = re.compile(r"\b[Dd]er\.(?=\W*$)")
"""The right ear's abbreviation in Spanish; without its stop it is an article in German."""


@dataclass(frozen=True, slots=True)
class Name:
    """What the name of a row or column says; None for what it does not say.

    ``unknown`` counts the words that say nothing known, ``known`` those that do; ``torn`` is true where it names two
    ears or two conductions; ``other`` where it names a test that is no threshold of tones; ``slips`` where a word was
    known in spite of a wrong letter, or a second reading of it says something else; ``two`` where that is another ear
    or conduction, or no masking.
    """

    ear: Ear | None = None
    conduction: Conduction | None = None
    masked: bool | None = None
    aided: bool | None = None
    measure: Measure | None = None
    known: int = 0
    unknown: int = 0
    torn: bool = False
    other: bool = False
    slips: bool = False
    two: bool = False

    @property
    def told(self) -> bool:
        """Most of its words are such as name a row of thresholds."""
        return self.known > 0 and self.unknown <= self.known and not self.torn

    def under(self, outer: Name) -> Name:
        """Give the name with what a heading over it says where it says nothing itself.

        A loudspeaker's row names no ear by its heading: it has none.
        """
        return Name(
            self.ear or (None if self.conduction == "field" else outer.ear), self.conduction or outer.conduction,
            outer.masked if self.masked is None else self.masked, outer.aided if self.aided is None else self.aided,
            self.measure or outer.measure, self.known + outer.known, self.unknown, self.torn or outer.torn,
            self.other or outer.other, self.slips or outer.slips, self.two or outer.two,
        )  # fmt: skip


@lru_cache(maxsize=1)
def _data() -> dict[str, frozenset[str]]:
    data = json.loads(files("octavo.extract.table.rows").joinpath("words.json").read_text("utf-8"))
    return {kind: frozenset(words) for kind, words in data.items() if kind != "about"}


@lru_cache(maxsize=1)
def vocabulary() -> dict[str, frozenset[str]]:
    """Load the words of names and cells by what they name."""
    return {kind: words for kind, words in _data().items() if kind not in TITLE_KINDS and kind != PAIRS}


@lru_cache(maxsize=1)
def partners() -> dict[str, frozenset[str]]:
    """Load the names that stand beside each name in tables of its language and style: "li" beside "re"."""
    found: dict[str, set[str]] = {}
    for pair in _data()[PAIRS]:
        one, other = pair.split()
        found.setdefault(one, set()).add(other)
        found.setdefault(other, set()).add(one)
    return {name: frozenset(others) for name, others in found.items()}


@cache
def title_words(kind: TitleKind) -> Likeness:
    """Load words of titles and notes; short ones are known only where they are written right."""
    return Likeness(_data()[kind], LIKE)


def parts_of(text: str) -> list[str]:
    """Split a text into its runs of letters, in lower case; also where a capital shows that a space was lost.

    >>> parts_of("RightAir, dB")
    ['right', 'air', 'db']
    >>> parts_of("RAC"), parts_of("liKL")
    (['r', 'ac'], ['li', 'kl'])
    """
    apart = re.sub(r"(?<=[a-zß-ÿ]{3})(?=[A-ZÀ-Þ][a-zß-ÿ])", " ", text)
    apart = _RIGHT.sub("derecho", apart)
    apart = _run_together().sub(r"\1 \2 \3", apart)
    return re.findall(r"[^\W\d_]+", apart.casefold())


@lru_cache(maxsize=1)
def _run_together() -> re.Pattern[str]:
    """Match an ear and a conduction, each of one or two letters, that stand without a space between, as in "RAC"."""
    known = vocabulary()
    ears = {
        e for word in known["right"] | known["left"] if len(word) <= SHORT for e in (word, word.upper(), word.title())
    }
    ways = {word.upper() for word in (known["air"] | known["bone"]) - WHOLE if len(word) == SHORT}
    masked = {m for word in known["masked"] if len(word) == 1 for m in (word, word.upper())}
    return re.compile(rf"(?<!\w)({_any(ears)})({_any(ways)})({_any(masked)})?(?!\w)")


def _any(words: set[str]) -> str:
    return "|".join(sorted(words, key=lambda word: (-len(word), word)))


@lru_cache(maxsize=4096)  # pages say the same words again and again
def kinds_of(part: str) -> tuple[frozenset[str], bool]:
    """Give what a word names (``words.json``), and whether a slip had to be forgiven."""
    known = vocabulary()
    exact = frozenset(kind for kind, words in known.items() if part in words)
    if exact or len(part) < LONG:
        return exact, False
    near = [kind for kind, words in _long_words().items() if words.nearest(part) is not None]
    return frozenset(near), bool(near)


@cache
def _long_words() -> dict[str, Likeness]:
    return {kind: Likeness((w for w in words if len(w) >= LONG), LIKE) for kind, words in vocabulary().items()}


def _agreed(word: Word) -> bool:
    """Say whether a second reading names the same, or the first is a word so long that no slip gives it by chance."""
    parts = parts_of(word.text)
    mine = [kinds_of(part)[0] for part in parts]
    others = [kinds_of(part)[0] for part in parts_of(word.others[0][0])]
    return mine == others or (not any(others) and all(len(part) >= SURE_LENGTH for part in parts))


def _contradicted(word: Word) -> bool:
    """Say whether a second reading of a word names another ear or conduction, or does not see its letter of masking."""
    mine, other = (
        {kind for part in parts_of(text) for kind in kinds_of(part)[0]} for text in (word.text, word.others[0][0])
    )
    short = all(len(part) < SURE_LENGTH for part in parts_of(word.text))
    if short and "masked" in mine and "masked" not in other:
        return True
    return bool(mine & NAMING and other & NAMING) and mine & NAMING != other & NAMING


def title_stems() -> frozenset[str]:
    """Give the beginnings and middles of long words of titles."""
    return _data()["stems"]


def name_of(words: Sequence[Word]) -> Name:
    """Say what words beside a row or over a column name."""
    said: set[str] = set()
    known = unknown = 0
    slips = two = False
    for word in words:
        two |= bool(word.others) and _contradicted(word)
        slips |= bool(word.others) and not _agreed(word)
        for part in parts_of(word.text):
            kinds, slip = kinds_of(part)
            kinds -= CELL_KINDS
            slips |= slip
            known, unknown = known + bool(kinds), unknown + (not kinds)
            said |= kinds
    ears = said & {"right", "left", "both"}
    ways = said & {"air", "bone", "field"}
    ear: Ear | None = "right" if ears == {"right"} else "left" if ears == {"left"} else "both" if ears else None
    way: Conduction | None = "air" if ways == {"air"} else "bone" if ways == {"bone"} else "field" if ways else None
    negated = "not" in said
    return Name(
        ear, way,
        False if "unmasked" in said or ("masked" in said and negated) else True if "masked" in said else None,
        False if "unaided" in said or ("aided" in said and negated) else True if "aided" in said else None,
        "mcl" if "mcl" in said else "ucl" if "ucl" in said else None,
        known, unknown, len(ears) > 1 or len(ways) > 1, "other tests" in said, slips, two,
    )  # fmt: skip
