"""Dates among a line's numbers: none of their numbers is a value."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ...facts.values.dates import dates_in
from ..tokens import Row, Token
from ..wording.phrases import words_of

YEAR = re.compile(r"(?<!\d)(?:18|19|20)\d\d(?!\d)")
"""Only dates with a whole year are looked for: "10/12/20" may be three levels."""


def without_dates(row: Row) -> Row:
    """Make words of the numbers and labels that are parts of dates, and of years behind "in" or "since"."""
    if not any(YEAR.search(token.text) for token in row.tokens):
        return row
    tokens = [one for cell in dict.fromkeys(t.cell for t in row.tokens) for one in _of_cell(row.cell(cell))]
    return replace(row, tokens=tuple(tokens))


def _of_cell(tokens: Sequence[Token]) -> list[Token]:
    text, spans = "", []
    for token in tokens:
        text += "" if token.glued or not text else " "
        spans.append((len(text), len(text) + len(token.text)))
        text += token.text
    dates = [one for one in dates_in(text) if not one.short_year]
    part = [any(one.start < end and start < one.end for one in dates) for start, end in spans]
    since = [False, *(last.text.casefold() in words_of("since") and _is_year(one) for last, one in pairwise(tokens))]
    return [
        replace(token, kind="word", meanings=frozenset(), value=None, unit=None)
        if token.kind in ("number", "label") and (dated or year)
        else token
        for token, dated, year in zip(tokens, part, since, strict=True)
    ]


def _is_year(token: Token) -> bool:
    return token.unit is None and YEAR.fullmatch(token.text) is not None
