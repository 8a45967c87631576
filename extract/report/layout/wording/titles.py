"""Whether a page's own title says that an audiogram is on it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from statistics import median

from ....page import Word

AUDIOGRAM = re.compile(r"(?i)^\W*(?:pure-?tone|(?:rein)?ton\w*)?audiogramm?[aes]?\W*$")
"""What a sheet with the chart of a test of pure tones is called (English, German, Spanish, French)."""
SPEECH = re.compile(r"(?i)^\W*(?:speech|sprach\w*|vocale?|verbal|logo\w*)\W*$")
"""What makes it the chart of another test."""
READ, LARGER = 0.8, 1.4
"""A title is read so surely, and printed so much larger than a usual word of the page; in a text the word may speak of
another sheet."""
NEAR = 6.0
"""Words of one title stand so many heights apart at most."""


def titled_audiogram(words: Sequence[Word]) -> bool:
    """Say whether a page is titled as an audiogram.

    Parameters
    ----------
    words : sequence of Word
        The page's words.
    """
    level = [w for w in words if not w.upright]
    if not level:
        return False
    usual = median(_height(w) for w in level)
    titles = [w for w in level if AUDIOGRAM.match(w.text) and w.confidence >= READ and _height(w) >= LARGER * usual]
    speech = [w for w in level if SPEECH.match(w.text)]
    return any(not any(_together(w, other) for other in speech) for w in titles)


def _height(word: Word) -> float:
    return word.box[3] - word.box[1]


def _together(one: Word, other: Word) -> bool:
    apart = max(one.box[0] - other.box[2], other.box[0] - one.box[2])
    return apart < NEAR * _height(one) and abs(one.middle[1] - other.middle[1]) < _height(one)
