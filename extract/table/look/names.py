"""Read the names of a table's rows and columns among the words that may name one, where free reading is in doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import product

import numpy as np

from ...likeness import Likeness
from ...page import Pixels, Word
from ..rows.lines import frequency_lines, height
from ..rows.titles import BARS
from ..rows.vocabulary import LONG, NAMING, kinds_of, parts_of, vocabulary
from .company import in_company
from .shaded import ABOVE, BESIDE, NEXT_ROW, number_blocks
from .weigh import Box, Logs, weigh

Kinds = tuple[frozenset[str], ...]

OTHERS = ("Hz", "kHz", "Frequency", "Frequenz", "Frecuencia", "Fréquence", "at", "of", "or", "and", "for", "no", "is")
"""Words that stand beside names and are none; besides these, whatever the networks read freely."""
LEAST_FIT = -4.0
"""A name that both networks together find so much less likely than what they read freely is not there."""
LEAST_CHANCE = 0.99
SLIP, SLIP_FIT, SLIP_LEAD = 0.8, -16.0, 10.0
"""A long name that differs from a reading in one letter fits worse; then no name of another meaning may come near."""
SHORT = 3
"""Names of so few letters that say the same in spite of different letters, do so by luck: "LI" and "Lt" for "LL"."""
LONGEST = 16
TORN, SAME_LINE = 0.5, 0.6
"""Halves of one name stand so near each other at most, and on one line, in heights of a word."""


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
        that both networks find likely, if there is one; both readings are then that name. Those that are left are read
        once more by the names beside them (``in_company``).
    """
    level = [w for w in words if not w.upright]
    high = usual_height(level)
    blocks = [*number_blocks(level, worded=True), *_below_heads(level, high)]
    near = [w for w in level if any(_names(w, block, high) for block in blocks)]
    doubtful = [w for w in near if _doubtful(w)]
    if not doubtful:
        return tuple(words)
    found = _read(grey, doubtful)
    halves = _halves([w for w in doubtful if id(w) not in found], high)
    mended = _read(grey, [whole for whole, _, _ in halves])
    rests = {id(after) for whole, _, after in halves if id(whole) in mended}
    found |= {id(first): mended[id(whole)] for whole, first, _ in halves if id(whole) in mended}
    near, doubtful = ([w for w in some if id(w) not in rests] for some in (near, doubtful))
    told = [found.get(id(w), w) for w in near if id(w) in found or not _doubtful(w)]
    left = [w for w in doubtful if id(w) not in found]
    found |= in_company(grey, left, [w for w in told if _is_name(w)], high)
    return tuple(found.get(id(word), word) for word in words if id(word) not in rests)


def _read(grey: Pixels, words: Sequence[Word]) -> dict[int, Word]:
    """Give, by a word's ``id``, those that say a known name."""
    weights = weigh(grey, [w.box for w in words], _known()[0])
    fits = weights.as_print + weights.as_label
    return {id(w): told for w, fit in zip(words, fits, strict=True) if (told := _told(w, fit)) is not None}


def _halves(words: Sequence[Word], high: float) -> list[tuple[Word, Word, Word]]:
    """Put words together of which the one may be the end of the other: a fax tears a long name in two."""
    found: list[tuple[Word, Word, Word]] = []
    for first, after in product(words, words):
        apart = abs(first.middle[1] - after.middle[1]) > SAME_LINE * high
        if first is after or apart or not -TORN * high < after.box[0] - first.box[2] < TORN * high:
            continue
        readings = [a + b for (a, _), (b, _) in zip(first.readings, after.readings, strict=False)]
        box = (first.box[0], min(first.box[1], after.box[1]), after.box[2], max(first.box[3], after.box[3]))
        others = tuple((text, min(first.confidence, after.confidence)) for text in readings[1:])
        found.append((replace(first, text=readings[0], box=box, others=others), first, after))
    return found


def _told(word: Word, fit: Logs) -> Word | None:
    """Give a word as the known name that both networks find likely; None where there is none."""
    texts, kinds = _known()
    best = int(fit.argmax())
    chance = np.exp(np.minimum(fit, 0.0))
    same = np.array([one == kinds[best] for one in kinds])
    share = float(chance[same].max() / (chance[same].max() + chance[~same].sum()))
    lone = len(texts[best]) == 1 and texts[best].casefold() not in (t.casefold() for t, _ in word.readings)
    lone |= texts[best] in BARS
    likely = fit[best] > LEAST_FIT or (
        fit[best] > SLIP_FIT and fit[best] - fit[~same].max() > SLIP_LEAD and _one_slip(word, texts[best])
    )
    if not likely or share <= LEAST_CHANCE or not any(kinds[best]) or lone:
        return None
    return replace(word, text=texts[best], confidence=share, others=((texts[best], share),))


def _one_slip(word: Word, name: str) -> bool:
    """Say whether a reading of a word differs from a long name in a letter."""
    like = Likeness((name.casefold(),), SLIP)
    return len(name) >= LONG and any(like.nearest(text.casefold()) is not None for text, _ in word.readings[:2])


def _doubtful(word: Word) -> bool:
    """Say whether the readings of a word of letters do not name one and the same."""
    if word.upright or len(word.text) > LONGEST or not any(c.isalpha() for text, _ in word.readings for c in text):
        return False
    said = [text.casefold() for text, _ in word.readings[:2]]
    if len(said) < 2 or not any(_kinds(said[0])) or _kinds(said[0]) != _kinds(said[1]):
        return True
    letters = ["".join(parts_of(text)) for text in said]
    return letters[0] != letters[1] and min(map(len, letters)) <= SHORT


def _below_heads(words: Sequence[Word], high: float) -> list[Box]:
    """Give the boxes of the frequencies of tables and the first numbers at them: a table may have one row alone."""
    found: list[Box] = []
    for line in frequency_lines(words):
        left, top = (min(w.box[k] for w in line.words) for k in (0, 1))
        right, bottom = (max(w.box[k] for w in line.words) for k in (2, 3))
        reach = NEXT_ROW * high
        found.append((left, top, right, bottom + reach) if line.along == 0 else (left, top, right + reach, bottom))
    return found


def _names(word: Word, block: Box, high: float) -> bool:
    """Say whether a word stands where the names of a block of numbers do: at its left, or over it."""
    (x, y), (left, top, right, bottom) = word.middle, block
    return left - BESIDE * high < x < right + high and top - ABOVE[0] * high < y < bottom + high


def _is_name(word: Word) -> bool:
    kinds = _kinds(word.text)
    return bool(kinds) and all(kinds) and any(kind & NAMING for kind in kinds)


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
