"""Columns of several test dates: which is the page's own test, its words do not say."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...facts.values.dates import dates_in
from ..cells import cells_of
from ..context import Layout
from ..tokens import Row, Token

FEWEST_DATES = 2
ROWS_BELOW = 14
"""A table with a column for each date has at most so many lines."""
YEAR = re.compile(r"(?:19|20)\d\d")
LIKE_A_DATE = re.compile(r"(?=(?:\D*\d){4})\S*\d[./-]?\S*\d\S*|.*[^\W\d_]{3,}.*(?:19|20)\d\d.*")
"""What may be a date of which a letter was misread."""


def in_dated_column(layout: Layout, row: int, token: Token) -> bool:
    """Say whether a value stands in a table whose columns are headed by dates, two of them or more.

    Parameters
    ----------
    layout : Layout
        The page's lines.
    row, token : int, Token
        The value.
    """
    for number in range(row - 1, max(row - 1 - ROWS_BELOW, -1), -1):
        dates = _dates_alone(layout.rows[number])
        if dates:
            left, right = dates[0].box[0], dates[-1].box[2]
            margin = 2 * layout.rows[number].height
            return left - margin < token.middle < right + margin
        if layout.titles[number] and len(cells_of(layout.rows[number].tokens)) == 1:
            return False  # another table begins
    return False


def _dates_alone(row: Row) -> Sequence[Token]:
    """Give the words of a line that holds dates alone, behind one cell at the most; else nothing."""
    cells = cells_of(row.tokens)
    texts = [_text(cell) for cell in cells]
    first = 0 if texts and _is_date(texts[0]) else 1
    behind = texts[first:]
    told = sum(map(_is_date, behind))
    if len(behind) < FEWEST_DATES or not told or any(c.isdigit() for text in texts[:first] for c in text):
        return ()
    if not all(_is_date(text) or LIKE_A_DATE.fullmatch(text) for text in behind):
        return ()
    dated = [one for cell in cells[first:] for one in cell]
    return sorted(dated, key=lambda one: one.box[0])


def _text(cell: Sequence[Token]) -> str:
    text = ""
    for token in cell:
        text += ("" if token.glued or not text else " ") + token.text
    return text


def _is_date(text: str) -> bool:
    found = dates_in(text)
    whole = len(found) == 1 and len(text) - (found[0].end - found[0].start) <= 1
    return whole or YEAR.fullmatch(text) is not None
