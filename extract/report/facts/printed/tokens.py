"""The words of a line in parts: letters, digits and signs, each with what either reading says and where it stands."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ....page import Word
from ...lines import Line
from ...trust import chance_of
from .vocabulary import bare

DOUBTED = 0.98
"""From this chance on, what else a word may say is not looked at."""
_LETTERS = r"(?:[^\W_]|(?<=[^\W\d_])\ufffd|\ufffd(?=[^\W\d_]))+"
_ABBREVIATED = r"(?:['’`][^\W\d_]+|\.(?=[^\W\d_]{1,2}\b)[^\W\d_]+)*"
_PART = re.compile(rf"{_LETTERS}[°º]?{_ABBREVIATED}(?:\([^\W\d_]{{1,3}}\))?|[^\w\s]")
"""Letters and digits, with what belongs to them: "d.o.b", "n°", "né(e)". A letter without a name stands beside one that
has; alone it is a bullet."""


@dataclass(frozen=True, slots=True)
class Token:
    """One part of a word.

    ``word`` counts in the line, ``cell`` its cells; ``start`` and ``end`` are places in the word's text. ``readings``
    are its bare texts, the likelier first; empty ones for a sign, which ``sign`` then holds. ``told`` where the file
    itself gave the word, in which no letter can have been misread.
    """

    word: int
    cell: int
    start: int
    end: int
    readings: tuple[str, ...]
    sign: str
    left: float
    right: float
    told: bool = False
    small: bool = False
    """It begins with a small letter."""

    @property
    def said(self) -> str:
        """The likeliest bare text."""
        return self.readings[0] if self.readings else ""


def tokens_of(line: Line) -> tuple[Token, ...]:
    """Cut the words of a line into parts, from left to right."""
    tokens: list[Token] = []
    number = 0
    for place, cell in enumerate(line.cells):
        for word in cell.words:
            tokens += _tokens(word, number, place)
            number += 1
    return tuple(tokens)


def _tokens(word: Word, number: int, cell: int) -> list[Token]:
    matches = list(_PART.finditer(word.text))
    doubted = word.others if chance_of(word) < DOUBTED else ()
    others = [list(_PART.finditer(text)) for text, _ in doubted]
    told = word.confidence >= 1.0 and not word.others
    wide = (word.box[2] - word.box[0]) / max(len(word.text), 1)
    tokens: list[Token] = []
    for k, match in enumerate(matches):
        texts = [match[0], *(other[k][0] for other in others if len(other) == len(matches))]
        if len(matches) == 1 or (bare(match[0]) and sum(bool(bare(one[0])) for one in matches) == 1):
            texts += [text for text, _ in doubted]
        readings = tuple(dict.fromkeys(text for text in map(bare, texts) if text))
        sign = "" if bare(match[0]) else match[0]
        small = match[0][:1].islower()
        left, right = word.box[0] + wide * match.start(), word.box[0] + wide * match.end()
        tokens.append(
            Token(number, cell, match.start(), match.end(), () if sign else readings, sign, left, right, told, small)
        )
    return tokens
