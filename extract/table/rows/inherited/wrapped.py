"""Names of rows that are wrapped over several printed lines, of which one holds the numbers."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from .merged import Printed, rows_of

WITHIN = 0.4
"""A line of a name stands at most so far from its row, in distances of rows; a name over two rows, half of one."""
AFTER, NEARER = 0.6, 0.8
"""Where the numbers stand beside the first line, the next one is so near at most, and nearer than the next row is."""
ALONE = 2.5
"""The distance of rows where there is but one, in heights of a word."""


def unwrapped(lines: Sequence[Printed], high: float) -> list[Printed]:
    """Join the lines of wrapped names with those of their numbers; headings stay lines of their own.

    Parameters
    ----------
    lines : sequence of tuple
        A table's printed lines, from the top down.
    high : float
        The height of a word.
    """
    rows = rows_of(lines)
    if not rows:
        return list(lines)
    pitch = median(lines[b][0] - lines[a][0] for a, b in pairwise(rows)) if len(rows) > 1 else ALONE * high
    parts: dict[int, list[int]] = {row: [row] for row in rows}
    for i, (y, cells, beside) in enumerate(lines):
        if any(cells) or not beside:
            continue
        before = max((row for row in rows if row < i), default=None)
        after = min((row for row in rows if row > i), default=None)
        up = y - lines[before][0] if before is not None else float("inf")
        down = lines[after][0] - y if after is not None else float("inf")
        if min(up, down) < WITHIN * pitch or (up < AFTER * pitch and up < NEARER * down):
            row = before if up <= down else after
            assert row is not None
            parts[row].append(i)
    taken = {i for row, some in parts.items() for i in some if i != row}
    return [
        (y, cells, [w for part in sorted(parts.get(i, [i])) for w in lines[part][2]])
        for i, (y, cells, _) in enumerate(lines)
        if i not in taken
    ]
