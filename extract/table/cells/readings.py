"""The two readings of a word: which one a table goes by, and whether the other agrees."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from itertools import accumulate, pairwise
from statistics import median

from ...eyes.words.numbers import frequency_values
from ...page import Word
from ..certainty import Way
from ..rows.lines import height
from ..rows.vocabulary import kinds_of, parts_of
from .numbers import said_by

SPECKS = ".,:;'`‘’“”|_~^\"() "
"""What stands at the ends of a printed frequency without belonging to it."""
THOUSAND, SPACE = "000", 0.7
"""What stands behind a space in "1 000", and how wide that is at most, in heights."""
NOTHING = ("", 0.0)
"""The second reading of a word that only one reader saw."""

DEBRIS_HIGH, DEBRIS_LIKE, DEBRIS_CHANCE = 0.7, 0.7, 0.65
"""Pieces of a rule that a fax broke are lower than words, in heights of a usual one, and no two readers see the same in
them, nor is one certain."""


def without_debris(words: Sequence[Word]) -> tuple[Word, ...]:
    """Leave out the words that were read into pieces of broken rules: between rows they would be names and numbers.

    Parameters
    ----------
    words : sequence of Word
        The words of a sheet, read by two readers.
    """
    usual = median(height(w) for w in words if not w.upright) if any(not w.upright for w in words) else 0.0
    return tuple(w for w in words if w.upright or not _debris(w, usual))


def _debris(word: Word, usual: float) -> bool:
    if height(word) > DEBRIS_HIGH * usual or not any(c.isalnum() for text, _ in word.readings for c in text):
        return False
    text = (word.others or (NOTHING,))[0][0]
    like = SequenceMatcher(None, word.text.casefold(), text.casefold()).ratio()
    return like <= DEBRIS_LIKE and max(chance for said, chance in word.readings[:2] if said) < DEBRIS_CHANCE


def prepared(words: Sequence[Word], way: Way) -> list[Word]:
    """Give the upright words with their second reading as the only one of ``others``, or none where there was none.

    Where a table can do nothing with a word's text but with its second reading, that one is put first.
    """
    level = [w for w in words if not w.upright]
    if way == "given":  # the file's own words have no specks
        return _joined_thousands([replace(part, others=()) for w in level for part in _unglued(w)])
    level = [_without_specks(w) for w in level]
    if way != "two-readings":
        return [replace(w, others=()) for w in level]
    return [_better_first(replace(w, others=(w.others or (NOTHING,))[:1])) for w in level]


def _unglued(word: Word) -> list[Word]:
    """Part what stands in two cells that touch, as in "[120][115": one bracket closes and the next opens."""
    parts = re.split(r"(?<=[\])])(?=[\[(])", word.text)
    left, top, right, bottom = word.box
    ends = [0, *accumulate(len(part) for part in parts)]
    places = [left + (right - left) * end / max(ends[-1], 1) for end in ends]
    return [
        replace(word, text=part, box=(a, top, b, bottom)) for part, (a, b) in zip(parts, pairwise(places), strict=True)
    ]


def _joined_thousands(words: Sequence[Word]) -> list[Word]:
    """Put "1" and "000" together, which a space parts in some languages."""
    ends = {id(w): w for w in words if w.text == THOUSAND}
    found: list[Word] = []
    for word in words:
        after = next((e for e in ends.values() if _right_behind(e, word)), None) if word.text.isdigit() else None
        if after is None:
            found.append(word)
        else:
            box = (word.box[0], min(word.box[1], after.box[1]), after.box[2], max(word.box[3], after.box[3]))
            found.append(replace(word, text=word.text + THOUSAND, box=box))
            del ends[id(after)]
    return [w for w in found if w.text != THOUSAND or id(w) in ends]


def _right_behind(one: Word, other: Word) -> bool:
    high = height(other)
    return 0 <= one.box[0] - other.box[2] < SPACE * high and abs(one.box[1] - other.box[1]) < 0.5 * high


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
