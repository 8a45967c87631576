"""Ears and dates in cells that are merged over several rows: they stand at the middle of their rows, or between two."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from statistics import median

from ....page import Word
from ...cells.numbers import said_by
from ..lines import height
from ..titles import without_date
from ..vocabulary import Name, name_of

BETWEEN = 0.75
"""A heading stands a row away from the one before; a name that stands nearer to both of its rows, in distances of
rows, is of a merged cell."""
OFF_MIDDLE = 0.35
"""How far such a name may stand from the middle of its rows, in distances of rows."""
MOST_EARS, MOST_DATES = 4, 8

NEXT_ROW = 5.0
"""A row stands at most so many heights of a word below the one before."""

Printed = tuple[float, list[list[Word]], list[Word]]
"""A printed line of a table: its height on the page, the words of each cell, and those beside the cells."""


def merged_ears(lines: Sequence[Printed]) -> dict[int, Name] | None:
    """Find the ear of each row where ears stand in merged cells at the middle of their rows.

    Parameters
    ----------
    lines : sequence of tuple
        The table's printed lines, from the top down.

    Returns
    -------
    dict or None
        By the number of the line, also of those that hold such a name alone. None where no ear stands in a merged
        cell; empty where one does and it is not clear whose, or where there is but one: another may be lost.
    """
    rows = rows_of(lines)
    if len(rows) < 2:
        return None
    ears = [(i, ear) for i, line in enumerate(lines) if (ear := _outer_ear(line)) is not None and i < rows[-1]]
    if not 1 <= len(ears) <= MOST_EARS or len(ears) > len(rows) or ears[0][0] < rows[0]:
        return None  # a name over the first row is a heading, and so are the others, also with one row under each
    pitch = _pitch(lines, rows)
    if not any(_between(lines, rows, i, pitch) or (i in rows and _bare(lines[rows[0]][2])) for i, _ in ears):
        return None
    parts = _parts(lines, rows, [i for i, _ in ears], pitch)
    if parts is None or len(ears) == 1:
        return {}
    found = {row: Name(ear=ear.ear, known=1) for part, (_, ear) in zip(parts, ears, strict=True) for row in part}
    return found | {i: ear for i, ear in ears if i not in rows}


def merged_dates(lines: Sequence[Printed]) -> dict[int, str] | None:
    """Find the date of each row where dates stand in merged cells at the middle of their rows.

    The argument and the result are those of ``merged_ears``, with the dates as they are printed.
    """
    rows = rows_of(lines)
    last = max(rows, default=-1)
    dates = [(i, date) for i, line in enumerate(lines[: last + 1]) if (date := without_date(line[2])[1])]
    if len(rows) < 2 or not dates or dates[0][0] < rows[0]:
        return None
    pitch, of_rows = _pitch(lines, rows), [i for i, _ in dates if i in rows]
    if len(of_rows) == len(dates) and (of_rows[0] == rows[0] or of_rows == rows[rows.index(of_rows[0]) :]):
        return None  # at the top of their rows, or in every row from the first on
    if len(dates) > MOST_DATES or not all(i in rows or _between(lines, rows, i, pitch) for i, _ in dates):
        return {}
    parts = _parts(lines, rows, [i for i, _ in dates], pitch)
    if parts is None or len(dates) == 1:
        return {}
    return {row: date for part, (_, date) in zip(parts, dates, strict=True) for row in part}


def _pitch(lines: Sequence[Printed], rows: Sequence[int]) -> float:
    return median(lines[b][0] - lines[a][0] for a, b in pairwise(rows))


def _parts(lines: Sequence[Printed], rows: list[int], named: Sequence[int], pitch: float) -> list[list[int]] | None:
    """Share rows out among the lines that name them, each of which stands at the middle of its rows."""
    best, worst = None, OFF_MIDDLE * pitch
    for cuts in combinations(range(1, len(rows)), len(named) - 1):
        parts = [rows[a:b] for a, b in pairwise((0, *cuts, len(rows)))]
        off = max(abs((lines[part[0]][0] + lines[part[-1]][0]) / 2 - lines[i][0])
                  for part, i in zip(parts, named, strict=True))  # fmt: skip
        if off < worst:
            best, worst = parts, off
    return best


def rows_of(lines: Sequence[Printed]) -> list[int]:
    """Give the lines whose cells say what those of thresholds do, up to the table's end."""
    rows: list[int] = []
    for i, (y, cells, _) in enumerate(lines):
        high = max((height(w) for cell in cells for w in cell), default=0.0)
        if not says_something(cells):
            continue
        if rows and y - lines[rows[-1]][0] > NEXT_ROW * high:
            break
        rows.append(i)
    return rows


def _outer_ear(line: Printed) -> Name | None:
    """Give the ear that a line names before all else and with one word or two, without a conduction."""
    _, cells, beside = line
    names = [name_of([word]) for word in beside]
    outer = next((i for i, name in enumerate(names) if name.conduction or name.masked is not None), len(names))
    ear = name_of(beside[:outer])
    if ear.ear not in ("right", "left") or ear.unknown or ear.torn or (outer == len(names)) == any(cells):
        return None
    return ear


def _between(lines: Sequence[Printed], rows: Sequence[int], number: int, pitch: float) -> bool:
    """Say whether a name stands between two rows, half a row from each, and not a row below the one before."""
    off = [lines[row][0] - lines[number][0] for row in rows if row != number]
    return (
        number not in rows
        and any(0 < one < BETWEEN * pitch for one in off)
        and any(-BETWEEN * pitch < one < 0 for one in off)
    )


def _bare(beside: Sequence[Word]) -> bool:
    """Say whether a row names a conduction and no ear."""
    name = name_of(beside)
    return name.ear is None and name.conduction in ("air", "bone")


def says_something(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether any cell of a row says what cells of thresholds do."""
    return any(cell and said_by(" ".join(w.text for w in cell)).kind != "unclear" for cell in cells)
