"""What the notes of a page say of the signs in its table's cells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from statistics import median

from ...page import Word
from ..rows.lines import height, text_lines
from ..rows.vocabulary import kinds_of, parts_of, title_words

_SIGNS = {
    "*": re.compile(r"(?<![\w\])↓+])\*\s*[=:–-]?\s*([^\W\d_]{2,}[^*=:;,]*)"),
    "m": re.compile(r"(?<![^\W_])m\s*[=:–-]\s*([^\W\d_]{2,}[^*=:;,]*)"),
    "[]": re.compile(r"\[\s*\]\s*[=:–-]?\s*([^\W\d_]{2,}[^*=:;,\[]*)"),
    "()": re.compile(r"\(\s*\)\s*[=:–-]?\s*([^\W\d_]{2,}[^*=:;,(]*)"),
}
"""Each sign, and what a note says of it up to the next."""
_READ_AS = {
    "()": re.compile(r"[(o0c][)o]?|[(][^\w\s]?[)]?"),
    "[]": re.compile(r"[\[][\]1ij)|l]?|[\[1il|][\]]|[\[]\W?[\]]"),
}
"""What an empty pair of brackets is read as: too small a figure for readers of words."""
_WHOLE = {"()": re.compile(r"\(\W?\)"), "[]": re.compile(r"\[\W?\]"), "m": re.compile("m"), "*": re.compile(r"\*")}
"""Signs as they are; behind them the "=" may be lost."""
STYLE = "style"
"""Stands for a colour, bold face, underlining or shade, which no reader of words sees."""
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
        Only the signs that a note explains: ``*``, ``m``, ``[]``, ``()``; ``STYLE`` where it names a colour or a face.
    """
    if not words:
        return {}
    said: dict[str, bool] = {}
    for line in text_lines(words, median(height(w) for w in words)):
        text = " ".join(w.text for w in line).casefold()
        for sign, pattern in _SIGNS.items():
            for found in pattern.finditer(text):
                said[sign] = said.get(sign, True) and _masks(parts_of(found[1]))
        for sign in _likely(line):
            said.setdefault(sign, True)
        if _of_style(line):
            said[STYLE] = True
    return said


def _masks(parts: Sequence[str]) -> bool:
    """Say whether the words behind a sign say that the other ear was masked, and not how loud the noise was."""
    told = next((i for i, part in enumerate(parts) if _of_masking(part)), None)
    if told is None or any(kinds_of(part)[0] & {"not", "unmasked"} for part in parts[: told + 1]):
        return False
    noun = "masked" not in kinds_of(parts[told])[0]
    return not (noun and any(title_words("noise").nearest(part) == part for part in parts))


def _of_masking(part: str) -> bool:
    told = "masked" in kinds_of(part)[0] or title_words("to mask").nearest(part) is not None
    return len(part) > 1 and told


def _of_style(line: Sequence[Word]) -> bool:
    """Say whether a note says how masked levels look, of no ear alone: that would be a chart's key."""
    parts = [part for word in line for part in parts_of(word.text)]
    kinds = {kind for part in parts for kind in kinds_of(part)[0]}
    told = any(map(_of_masking, parts)) and any(title_words("styles").nearest(part) == part for part in parts)
    return told and not kinds & {"right", "left"}


def _likely(line: Sequence[Word]) -> list[str]:
    """Give the sign that a note of masking begins with, in spite of a slip in its brackets.

    One bracket is enough for a note that says nothing else, since a circle may be the mark of a chart's key.
    """
    first, *rest = line
    said = [w for w in rest if any(c.isalpha() for c in w.text)]
    if not said or "masked" not in kinds_of(said[0].text.casefold())[0]:
        return []
    texts = [_without_equals(text.casefold()) for text, _ in first.readings]
    alone = len(said) == 1 and len(rest) <= 2
    likes = _WHOLE | _READ_AS if alone else _WHOLE
    return [sign for sign, like in likes.items() if any(like.fullmatch(text) for text in texts)]


def _without_equals(text: str) -> str:
    """Take the "=" off a sign, and what a small one is read as behind brackets: ``()*`` and ``()"``."""
    bare = text.rstrip("=:-– ")
    return bare.rstrip("*\"'~ ") if bare[:1] in ("(", "[") else bare
