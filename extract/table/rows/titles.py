"""What stands over a table: its title, its date, and whether it is one of another test."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...page import Word
from .lines import Line, groups, middle, text_lines
from .vocabulary import Name, name_of

DATE = re.compile(r"(?<!\d)(\d{4}[-./]\d{1,2}[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./](?:\d{4}|\d{2}))(?!\d)")
TITLE_WITHIN = (5.0, 8.0)
"""How far over a table its title may stand, in heights of a word: over a row, and over a column of frequencies."""
LOOKED_AT = 14.0
"""So far over it, the words may name another test."""
SIDE = 12.0
"""How far before its frequencies a title may begin, in heights of a word."""
OTHER_ROW = 3
"""A line with so many numbers is a row of another table, and the lines over it belong to that."""


def lines_over(words: Sequence[Word], line: Line) -> list[list[Word]]:
    """Give the printed lines over a table, the nearest first, up to another table's rows."""
    high = line.height
    left, right = min(w.box[0] for w in line.words), max(w.box[2] for w in line.words)
    top = min(w.box[1] for w in line.words)
    right += 3 * SIDE * high if line.along == 1 else 0.0
    near = [
        w
        for w in words
        if left - 2 * SIDE * high < w.box[2] and w.box[0] < right and top - LOOKED_AT * high < middle(w)[1] < top
    ]
    found: list[list[Word]] = []
    for text in text_lines(near, high)[::-1]:
        if sum(w.text.strip("<>+*()[]").isdigit() for w in text) >= OTHER_ROW:
            break
        found.append(text)
    return found


def title_of(over: Sequence[Sequence[Word]], line: Line) -> Name:
    """Give what the lines over a table name, the nearest first; ``other`` where any names a test of another kind."""
    found = Name()
    for text in over:
        name = name_of(text)
        if name.other:
            return name
        # over a column of frequencies, a line in several parts is the heads of its columns
        title = _within(text, line) and (line.along == 0 or len(groups(text, 1.5 * line.height)) == 1)
        if title and name.told and (name.ear or name.conduction) and found.ear is None and found.conduction is None:
            found = name
    return found


def date_of(over: Sequence[Sequence[Word]], line: Line) -> str | None:
    """Give the date nearest over a table, as it is printed."""
    for text in over:
        said = DATE.search(" ".join(w.text for w in text))
        if said and _within(text, line):
            return said.group()
    return None


def _within(text: Sequence[Word], line: Line) -> bool:
    top = min(w.box[1] for w in line.words)
    return top - middle(text[0])[1] < TITLE_WITHIN[line.along] * line.height
