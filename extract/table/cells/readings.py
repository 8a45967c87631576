"""The two readings of a word: which one a table goes by, and whether the other agrees."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...eyes.words.numbers import frequency_values
from ...page import Word
from ..certainty import Way
from ..rows.vocabulary import kinds_of, parts_of
from .numbers import said_by

SPECKS = ".,:;'`‘’“”|_~^\"() "
"""What stands at the ends of a printed frequency without belonging to it."""
NOTHING = ("", 0.0)
"""The second reading of a word that only one reader saw."""


def prepared(words: Sequence[Word], way: Way) -> list[Word]:
    """Give the upright words with their second reading as the only one of ``others``, or none where there was none.

    Where a table can do nothing with a word's text but with its second reading, that one is put first.
    """
    level = [w for w in words if not w.upright]
    if way == "given":  # the file's own words have no specks
        return [replace(w, others=()) for w in level]
    level = [_without_specks(w) for w in level]
    if way != "two-readings":
        return [replace(w, others=()) for w in level]
    return [_better_first(replace(w, others=(w.others or (NOTHING,))[:1])) for w in level]


def _without_specks(word: Word) -> Word:
    """Take off what a rule or a shaded head leaves beside a frequency, in every reading; not the sign of a level."""
    readings = [(_bare(text), chance) for text, chance in word.readings]
    plain = frequency_values(word.text) or not any(c.isdigit() for c in word.text)
    if plain or said_by(word.text).sign or not frequency_values(readings[0][0]):
        return word
    return replace(word, text=readings[0][0], others=tuple(readings[1:]))


def _bare(text: str) -> str:
    """Take off specks; a minus only before what can be no level, which are in steps of 5 dB."""
    bare = text.strip(SPECKS)
    unsigned = bare.lstrip("-").strip(SPECKS)
    return unsigned if said_by(bare).kind != "level" else bare


def _better_first(word: Word) -> Word:
    text, chance = word.others[0]
    if text and not serves(word.text) and serves(text):
        return replace(word, text=text, confidence=chance, others=((word.text, word.confidence),))
    return word


def serves(text: str) -> bool:
    """Say whether a text is a frequency, a cell or a name."""
    if said_by(text).kind not in ("unclear", "untested") or frequency_values(text):
        return True
    return any(kinds_of(part)[0] for part in parts_of(text))
