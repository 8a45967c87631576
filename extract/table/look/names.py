"""Read the names of a table's rows and columns among the words that may name one, where free reading is in doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import product

import numpy as np

from ...page import Pixels, Word
from ..rows.lines import height
from ..rows.vocabulary import kinds_of, parts_of, vocabulary
from .shaded import ABOVE, BESIDE, number_blocks
from .weigh import Box, weigh

Kinds = tuple[frozenset[str], ...]

OTHERS = ("Hz", "kHz", "Frequency", "Frequenz", "Frecuencia", "Fréquence", "at", "of", "or", "and", "for", "no", "is")
"""Words that stand beside names and are none; besides these, whatever the networks read freely."""
LEAST_FIT = -4.0
"""A name that both networks together find so much less likely than what they read freely is not there."""
LEAST_CHANCE = 0.99
LONGEST = 16


def with_names(grey: Pixels, words: Sequence[Word]) -> tuple[Word, ...]:
    """Give the words of a page with those that name rows or columns of its tables read among known names.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    words : sequence of Word
        Its words, read from the picture.

    Returns
    -------
    tuple of Word
        A word beside or over numbers whose two readings do not name the same, or name nothing, says the known name
        that both networks find likely, if there is one; both readings are then that name.
    """
    level = [w for w in words if not w.upright]
    high, blocks = usual_height(level), number_blocks(level)
    doubtful = [w for w in words if _doubtful(w) and any(_names(w, block, high) for block in blocks)]
    if not doubtful:
        return tuple(words)
    texts, kinds = _known()
    weights = weigh(grey, [w.box for w in doubtful], texts)
    fits = weights.as_print + weights.as_label
    found: dict[int, Word] = {}
    for word, fit in zip(doubtful, fits, strict=True):
        best = int(fit.argmax())
        chance = np.exp(np.minimum(fit, 0.0))
        same = np.array([one == kinds[best] for one in kinds])
        share = float(chance[same].max() / (chance[same].max() + chance[~same].sum()))
        lone = len(texts[best]) == 1 and texts[best].casefold() not in (t.casefold() for t, _ in word.readings)
        if fit[best] > LEAST_FIT and share > LEAST_CHANCE and any(kinds[best]) and not lone:
            found[id(word)] = replace(word, text=texts[best], confidence=share, others=((texts[best], share),))
    return tuple(found.get(id(word), word) for word in words)


def _doubtful(word: Word) -> bool:
    """Say whether the readings of a word of letters do not name one and the same."""
    if word.upright or len(word.text) > LONGEST or not any(c.isalpha() for text, _ in word.readings for c in text):
        return False
    said = [text.casefold() for text, _ in word.readings[:2]]
    return len(said) < 2 or not any(_kinds(said[0])) or _kinds(said[0]) != _kinds(said[1])


def _names(word: Word, block: Box, high: float) -> bool:
    """Say whether a word stands where the names of a block of numbers do: at its left, or over it."""
    (x, y), (left, top, right, bottom) = word.middle, block
    return left - BESIDE * high < x < right + high and top - ABOVE[0] * high < y < bottom + high


def _kinds(text: str) -> Kinds:
    return tuple(kinds_of(part)[0] for part in parts_of(text))


@lru_cache(maxsize=1)
def _known() -> tuple[tuple[str, ...], tuple[Kinds, ...]]:
    """List the texts that may stand there, in the cases in which they are printed, and what each names."""
    known = vocabulary()
    singles = {w for words in known.values() for w in words}
    texts = {form for w in singles for form in (w, w.title(), w.upper())} | set(OTHERS)
    ears = [w for w in known["right"] | known["left"] if len(w) <= 2]
    ways = [w.upper() for w in (known["air"] | known["bone"]) - {"os"} if len(w) == 2]
    for ear, way, space, masked in product(ears, ways, ("", " "), ("", "m", " m", "M")):
        texts |= {f"{form}{space}{way}{masked}" for form in (ear, ear.upper(), ear.title())}
    ordered = tuple(sorted(texts))
    return ordered, tuple(_kinds(text) for text in ordered)


def usual_height(words: Sequence[Word]) -> float:
    """Give the median height of some words; 0 where there are none."""
    return float(np.median([height(w) for w in words] or [0.0]))
