"""Names of rows that are wrapped over several lines, or beside which a hand wrote the numbers higher or lower."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from ...cells.legend import masking_by_notes
from .merged import NEXT_ROW, Printed, rows_of

WITHIN = 0.4
"""A line of a name stands at most so far from its row, in distances of rows; a name over two rows, half of one."""
AFTER, NEARER = 0.6, 0.8
"""Where the numbers stand beside the first line, the next one is so near at most, and nearer than the next row is."""
ROWS_APART, WIDEST_ROW = 1.3, 8.0
"""Rows for numbers by hand are high: up to so many heights of a printed word, and not quite even."""
FEWEST_NAMES = 2
ALONE = 2.5
"""The distance of rows where there is but one, in heights of a word."""


def unwrapped(lines: Sequence[Printed], high: float) -> list[Printed]:
    """Join the lines of names with those of their numbers; headings stay lines of their own.

    Parameters
    ----------
    lines : sequence of tuple
        A table's printed lines, from the top down.
    high : float
        The height of a word.
    """
    lines = _with_numbers(lines)
    rows = rows_of(lines)
    if not rows:
        return lines
    pitch = median(lines[b][0] - lines[a][0] for a, b in pairwise(rows)) if len(rows) > 1 else ALONE * high
    parts: dict[int, list[int]] = {row: [row] for row in rows}
    for i, (y, cells, beside) in enumerate(lines):
        if any(cells) or not beside or masking_by_notes(beside):
            continue  # a note under the last row is no part of its name
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


def _with_numbers(lines: Sequence[Printed]) -> list[Printed]:
    """Join lines of numbers without a name with the name that they stand near; a hand writes them up and down."""
    named = [i for i, (_, _, beside) in enumerate(lines) if beside]
    if len(named) < FEWEST_NAMES:
        return list(lines)
    pitch = median(lines[b][0] - lines[a][0] for a, b in pairwise(named))
    joined: dict[int, list[int]] = {i: [i] for i in named}
    for i, (y, _, beside) in enumerate(lines):
        if not beside:
            nearest = min(named, key=lambda name: abs(lines[name][0] - y))
            joined.setdefault(nearest if abs(lines[nearest][0] - y) < WITHIN * pitch else i, []).append(i)
    found: list[Printed] = []
    for name, parts in sorted(joined.items()):
        y, _, beside = lines[name]
        cells = [
            sorted((w for part in parts for w in lines[part][1][k]), key=lambda w: w.box[0])
            for k in range(len(lines[name][1]))
        ]
        found.append((y, cells, beside))
    return found


def reach_of(texts: Sequence[Printed], high: float) -> float:
    """Give how far below one row the next may stand: where its first rows stand wide apart, a little further."""
    rows = [y for y, cells, _ in texts if any(cells)][:3]
    wide = max((b - a for a, b in pairwise(rows)), default=0.0)
    return max(NEXT_ROW * high, ROWS_APART * wide if wide < WIDEST_ROW * high else 0.0)
