"""Notice that a frequency of a table was not read, and with it a column or row of values."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ...page import Word
from ..cells.numbers import said_by
from ..rows.row import Layout

WIDE = 1.5
"""A step so many times as wide as the least one may hold a frequency that was not read."""
ON_ROW = 0.6
"""How near the height of a row a word stands that belongs to it, in heights of a word."""


def lost_heads(layout: Layout, words: Sequence[Word]) -> bool:
    """Say whether the frequencies of a table leave a gap, or a level stands in its rows just before or after them."""
    line = layout.line
    steps = [b - a for a, b in pairwise(line.at)]
    if max(steps) > WIDE * min(steps):
        return True
    along, across = line.along, 1 - line.along
    (first, _), (_, last) = line.edges[0], line.edges[-1]
    for word in words:
        at = word.middle
        beyond = last < at[along] < last + line.step or first - line.step < at[along] < first
        near = any(abs(at[across] - row.across) < ON_ROW * line.height for row in layout.rows)
        if beyond and near and said_by(word.text).kind == "level":
            return True
    return False
