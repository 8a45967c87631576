"""The known word that a printed one is most like."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import lru_cache

import numpy as np

LONGEST = 100
"""What is longer is no word."""


class Likeness:
    """Known words, and which of them another word is most like: as ``difflib.get_close_matches`` has it, but quicker.

    Parameters
    ----------
    words : iterable of str
        The known words.
    least : float
        How like a known word must be, 0 to 1: twice the letters in common over all letters of both.
    """

    def __init__(self, words: Iterable[str], least: float) -> None:
        self._words = tuple(words)
        self._least = least
        letters = sorted({letter for word in self._words for letter in word})
        self._column = {letter: i for i, letter in enumerate(letters)}
        self._counts = np.zeros((len(self._words), len(letters)), np.int8)
        for row, word in zip(self._counts, self._words, strict=True):
            for letter in word:
                row[self._column[letter]] += 1
        self._lengths = np.array([len(word) for word in self._words])
        self.nearest = lru_cache(maxsize=4096)(self._nearest)  # pages say the same words again and again
        """Give the known word that a word is most like, None where none is like it."""

    def _nearest(self, word: str) -> str | None:
        if len(word) > LONGEST:
            return None
        own = np.zeros(self._counts.shape[1], np.int8)
        for letter in word:
            if letter in self._column:
                own[self._column[letter]] += 1
        # no word can be more like another than their letters are, in whatever order
        most = 2.0 * np.minimum(self._counts, own).sum(axis=1) / np.maximum(self._lengths + len(word), 1)
        matcher = SequenceMatcher()
        matcher.set_seq2(word)
        best: tuple[float, str] | None = None
        for i in np.flatnonzero(most >= self._least - 1e-9):
            matcher.set_seq1(self._words[i])
            ratio = matcher.ratio()
            if ratio >= self._least and (best is None or (ratio, self._words[i]) > best):
                best = ratio, self._words[i]
        return best[1] if best else None
