"""What the words around a printed value speak against it: that it is of another day, a norm, or of another matter."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..cells import box_of, cells_of
from ..context import Found, Layout
from ..tokens import Token
from .dated import in_dated_column
from .phrases import begins, ends, says, spoken, words_of
from .sentences import sentence_around

MOST_HEAD_WORDS = 9
"""A cell with more words is a text and heads nothing."""
FEWEST_WORDS = 3
"""A sentence has so many words before its value that are no labels."""
YEAR = re.compile(r"(?:19|20)\d\d")
LEAST_LETTERS = 2
"""A word of fewer letters may be a speck, or a list's name."""


def doubts_of(layout: Layout, row: int, token: Token, label: Found | None) -> tuple[str, ...]:
    """Give the reason codes for which the words around a value speak against it.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    row, token : int, Token
        The value.
    label : Found or None
        Its label.

    Returns
    -------
    tuple of str
        ``test-date-uncertain`` where its sentence, its line or its head speaks of another day; ``label-uncertain``
        where they speak of norms, or words of another matter stand between it and its label.
    """
    sentence, heads = _sentence(layout, row, token), list(_heads(layout, row, token))
    earlier = says(sentence, "earlier") or _dated(layout, row, token) or any(says(head, "earlier") for head in heads)
    norm = says(sentence, "norm") or any(begins(head, "norm") for head in heads)
    earlier = earlier or in_dated_column(layout, row, token)
    plain = _plainly_named(layout, row, token, label)
    return (*(("test-date-uncertain",) if earlier else ()), *(("label-uncertain",) if norm or not plain else ()))


def sign_in_words(cell: Sequence[Token], token: Token) -> str:
    """Give the sign that words right before a value stand for: ">" for "more than", "~" for "about"; else nothing."""
    before = spoken(cell[: cell.index(token)])
    return "~" if ends(before, "about") else ">" if ends(before, "beyond") else ""


def _sentence(layout: Layout, row: int, token: Token) -> list[str]:
    """Give the words before a value in its part of the line, from where its sentence begins."""
    part = layout.segment(row, token)
    at = part.index(token)
    return spoken(part[sentence_around(part, at).start : at])


def _dated(layout: Layout, row: int, token: Token) -> bool:
    """Say whether the sentence names a day or a year before its value: it may tell of another test."""
    cell = layout.rows[row].cell(token.cell)
    at = cell.index(token)
    before = [cell[number] for number in range(sentence_around(cell, at).start, at)]
    if sum(one.kind == "word" and one.text.isalpha() for one in before) < FEWEST_WORDS:
        return False  # no sentence, but the title of a part: "SRT, 6 May 2030: 25 dB"
    return any(one.kind == "word" and YEAR.fullmatch(one.text) for one in before)


def _heads(layout: Layout, row: int, token: Token) -> Iterator[list[str]]:
    """Give the words of the cells over a value, as far up as the lines belong together."""
    for number in layout.upward(row, token):
        for cell in cells_of(layout.rows[number].tokens):
            over = box_of(cell)
            is_head = len(cell) <= MOST_HEAD_WORDS and not any(one.text == ":" for one in cell[:-1])
            if is_head and min(over[2], token.box[2]) > max(over[0], token.box[0]):
                yield spoken(cell)


def _plainly_named(layout: Layout, row: int, token: Token, label: Found | None) -> bool:
    """Say whether no word of another matter stands between a label and its value, or before it in a cell of its own."""
    if label is not None and "list" in label.token.meanings:  # lists have names
        return True
    cell = layout.rows[row].cell(token.cell)
    at = cell.index(token)
    first = cell.index(label.token) + 1 if label is not None and label.row == row and label.token in cell[:at] else 0
    words = [word for one in cell[first:at] if one.kind == "word" for word in spoken([one])]
    return all(len(word) < LEAST_LETTERS or word in words_of("link") for word in words)
