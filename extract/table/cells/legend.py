"""What the notes of a page say of the signs in its table's cells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from statistics import median

from ...page import Word
from ..rows.lines import height, text_lines
from ..rows.vocabulary import kinds_of

_SIGNS = {
    "*": re.compile(r"(?<![\d\])])\*\s*[=:–-]?\s*([^\W\d_]{2,})"),
    "m": re.compile(r"(?<![^\W_])m\s*[=:–-]\s*([^\W\d_]{2,})"),
    "[]": re.compile(r"\[\s*\]\s*[=:–-]?\s*([^\W\d_]{2,})"),
    "()": re.compile(r"\(\s*\)\s*[=:–-]?\s*([^\W\d_]{2,})"),
}
_READ_AS = {
    "()": re.compile(r"[(o0c][)o]?|[(][^\w\s]?[)]?"),
    "[]": re.compile(r"[\[][\]1ij)|l]?|[\[1il|][\]]|[\[]\W?[\]]"),
}
"""What an empty pair of brackets is read as: too small a figure for readers of words."""
PLAIN_SIGNS = frozenset({"m", "[]"})
"""Signs that say masking without a note (common practice: the letter, and the brackets of the masked bone mark)."""


def masking_by_notes(words: Sequence[Word]) -> dict[str, bool]:
    """Say which signs the page's notes explain as masking (true) or as something else (false).

    Parameters
    ----------
    words : sequence of Word
        The sheet's words.

    Returns
    -------
    dict
        Only the signs that a note explains: ``*``, ``m``, ``[]``, ``()``.
    """
    if not words:
        return {}
    said: dict[str, bool] = {}
    for line in text_lines(words, median(height(w) for w in words)):
        text = " ".join(w.text for w in line).casefold()
        for sign, pattern in _SIGNS.items():
            for found in pattern.finditer(text):
                masks = "masked" in kinds_of(found[1])[0]
                said[sign] = said.get(sign, True) and masks
        for sign in _likely(line):
            said.setdefault(sign, True)
    return said


def _likely(line: Sequence[Word]) -> list[str]:
    """Give the sign that a note of masking alone begins with, in spite of a slip in its brackets."""
    first, *rest = line
    said = [w for w in rest if any(c.isalpha() for c in w.text)]
    if len(said) != 1 or len(rest) > 2 or "masked" not in kinds_of(said[0].text.casefold())[0]:
        return []
    texts = [text.casefold().rstrip("=:-– ") for text, _ in first.readings]
    return [sign for sign, like in _READ_AS.items() if any(like.fullmatch(text) for text in texts)]
