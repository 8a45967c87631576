"""Notice a page that can hold no table, and a table of which too little could be read to take it for one."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

from ..page import Word
from .cells.arrows import with_arrow
from .cells.numbers import said_by
from .rows.lines import frequency_lines, height, text_lines
from .rows.vocabulary import kinds_of, parts_of

LEVELS_IN_LINE = 5
"""So many levels in one printed line look like a row of thresholds."""
MOSTLY = 0.6
"""Share of the line's words that are levels, unlike in a sentence with many numbers."""
FEWEST_WORDS, MOST_AGREED = 6, 0.3
NUMBERS_IN_LINE, NUMBER_LINES = 4, 3
"""On a page of so many words, of which no more were read alike, so many lines of so many numbers may be a table."""
AT_EDGE, CUT_LINES = 0.3, 3
"""Words that begin so near the picture's side, in heights, are cut off where so many lines have them."""
TELLING = frozenset({"right", "left", "air", "bone"})
LEAST_LETTERS = 3
"""Shorter words name an ear by chance."""


def may_hold_table(words: Sequence[Word], fewest: int) -> bool:
    """Say whether so many words of a page may be levels, besides its frequencies: most charts stand without a table.

    Parameters
    ----------
    words : sequence of Word
        The sheet's words but the levels of axes, before names and arrows are looked for among them.
    fewest : int
        How many levels make a table.
    """
    levels = [w for w in words if any(_may_be_level(text) for text, _ in w.readings)]
    if len(levels) < fewest:
        return False
    heads = {id(w) for line in frequency_lines(words) for w in line.words}
    return sum(id(w) not in heads for w in levels) >= fewest


def _may_be_level(text: str) -> bool:
    return any(said_by(one).kind == "level" for one in (text, with_arrow(text)))


def too_poor_to_tell(words: Sequence[Word]) -> bool:
    """Say whether lines of numbers stand on a page of which hardly a word was read alike by two readers.

    Parameters
    ----------
    words : sequence of Word
        The sheet's words, read by two readers.
    """
    lettered = [w for w in words if sum(c.isalpha() for c in w.text) >= LEAST_LETTERS]
    agreed = sum(w.text.casefold() in (text.casefold() for text, _ in w.others) for w in lettered)
    if len(lettered) < FEWEST_WORDS or agreed >= MOST_AGREED * len(lettered):
        return False
    numbers = [w for w in words if any(c.isdigit() for text, _ in w.readings for c in text)]
    lines = text_lines(numbers, median(height(w) for w in words))
    return sum(len(line) >= NUMBERS_IN_LINE for line in lines) >= NUMBER_LINES


def looks_like_table(words: Sequence[Word]) -> bool:
    """Say whether a printed line holds many levels on a page that names an ear, a conduction or hertz.

    Parameters
    ----------
    words : sequence of Word
        The sheet's words, with all that they may say.

    Notes
    -----
    Where the picture's left side cuts words off, the frequencies and names of a table may be lost with them: a few
    lines with two levels are enough then.
    """
    telling = any(_telling(w) for w in words)
    if not telling and not any("hl" in parts_of(w.text) for w in words):
        return False
    high = median(height(w) for w in words)
    lines = text_lines(words, high)
    counts = [(sum(_level(w) for w in line), len(line)) for line in lines]
    cut = sum(line[0].box[0] < AT_EDGE * high for line in lines) >= CUT_LINES
    if cut and sum(levels >= 2 and levels > MOSTLY * count for levels, count in counts) >= CUT_LINES:
        return True
    return telling and any(levels >= LEVELS_IN_LINE and levels > MOSTLY * count for levels, count in counts)


def _telling(word: Word) -> bool:
    parts = [part for text, _ in word.readings for part in parts_of(text)]
    return any(p in ("hz", "khz") or (len(p) >= LEAST_LETTERS and kinds_of(p)[0] & TELLING) for p in parts)


def _level(word: Word) -> bool:
    return any(said_by(text).kind == "level" for text, _ in word.readings)
