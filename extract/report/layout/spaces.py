"""Spaces that a picture lost or made: labels printed so close that they were read as one word, decimals read apart."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise

from ...page import Word
from ..lines import box_around
from ..trust import chance_of
from .vocabulary import bare, vocabulary

LEAST = 3
"""Parts of a label that was read as one word have so many letters, or are a capital letter alone."""
EARS = "RL"
"""Letters that stand for an ear, and that a lost space joins to the word behind them: "RContra"."""
APART = 0.7
"""The halves of one number stand at most so far apart, in heights of the letters."""
_LETTERS = re.compile(r"[^\W\d_]{5,}")
_CAPITAL = re.compile(r"(?<=[^\W\d_A-ZÄÖÜ])(?=[A-Z][a-z]?$)")
_WHOLE, _TENTHS = re.compile(r"(-?\d{1,3}\.|-?0,)"), re.compile(r"\d{1,2}(?!\d|[.,]\d)\S*")


def spaced(text: str) -> str:
    """Put the spaces back between the words of a label.

    >>> spaced("Speechrecognition"), spaced("TypeC:")
    ('Speech recognition', 'Type C:')
    """
    return _LETTERS.sub(lambda found: _spaced(found[0]), text)


@cache
def _spaced(run: str) -> str:
    low = bare(run)
    known = vocabulary().known
    if low in known or len(low) != len(run):
        return run
    whole = vocabulary().closed.get(low)
    lengths = [len(part) for part in whole] if whole else _lengths(low)
    if lengths:
        cuts = [sum(lengths[:k]) for k in range(len(lengths) + 1)]
        return " ".join(run[a:b] for a, b in pairwise(cuts))
    if run[0] in EARS and low[1:] in known and len(low) > LEAST + 1:
        return f"{run[0]} {run[1:]}"
    before, *capital = _CAPITAL.split(run)
    return f"{before} {capital[0]}" if capital and bare(before) in known and len(before) >= LEAST else run


def _lengths(low: str) -> list[int]:
    """Give the lengths of the known words that a text is made of, the longest first one first; none where it is not."""
    known = vocabulary().known
    for cut in range(len(low) - LEAST, LEAST - 1, -1):
        if low[:cut] in known:
            rest = [len(low) - cut] if low[cut:] in known else _lengths(low[cut:])
            if rest:
                return [cut, *rest]
    return []


def joined_decimals(words: Sequence[Word]) -> list[Word]:
    """Put decimals together that were read in two, as "0." and "6"; what follows a comma may be the next of a list."""
    joined: list[Word] = []
    for word in words:
        last = joined[-1] if joined else None
        if last is None or not _WHOLE.fullmatch(last.text) or not _TENTHS.fullmatch(word.text):
            joined.append(word)
            continue
        high = min(last.box[3] - last.box[1], word.box[3] - word.box[1])
        if word.box[0] - last.box[2] > APART * high:
            joined.append(word)
            continue
        others = tuple(
            (f"{one}{other}", min(sure, chance))
            for (one, sure), (other, chance) in zip(last.others, word.others, strict=False)
        )
        both = replace(last, text=last.text + word.text, box=box_around((last, word)), others=others)
        chance = chance_of(last) * chance_of(word)
        joined[-1] = replace(both, confidence=min(last.confidence, word.confidence), chance=chance)
    return joined
