"""Which cell of a table belongs to which ear, conduction and frequency: from the names beside rows or over columns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from statistics import median
from typing import Literal

from ...page import Word
from ..cells.numbers import said_by
from .columns import column_names, columns_of
from .inherited.merged import Printed, merged_ears, says_something
from .inherited.wrapped import reach_of, unwrapped
from .lines import Line, middle, numbers_apart, speck, text_lines
from .titles import corner_of, date_of, lines_over, of_other_numbers, strange, title_of, without_date
from .vocabulary import Name, name_of

UNITS = frozenset({"hz", "khz"})
NAME_GAP = 12.0
"""Words of a row's name stand at most so many heights of a word apart."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row (or column) of cells: its name, where it stands across the line of frequencies, and its words by cell.

    ``doubtful`` is true where the name was not understood to its end, or where two things may be meant; slips of a
    letter are told by the name itself. ``heir`` is true where it names no ear and takes that of a heading or a title.
    """

    name: Name
    across: float
    cells: tuple[tuple[Word, ...], ...]
    doubtful: bool
    heir: bool
    date: str | None = None
    """A date that stands in its name, or in that of a row before."""


@dataclass(frozen=True, slots=True)
class Layout:
    """One table: its line of frequencies, its rows, and how many rows of numbers have no name that was understood."""

    line: Line
    rows: tuple[Row, ...]
    unnamed: int
    left_over: tuple[Word, ...] = ()
    """The words in the cells of rows that are not thresholds, or were not understood."""
    date: str | None = None
    """A date in the line over it."""


def layout_of(words: Sequence[Word], line: Line, others: Sequence[Line]) -> Layout | None:
    """Find the rows of a table.

    Parameters
    ----------
    words : sequence of Word
        The sheet's words, without those in charts.
    line : Line
        Its frequencies.
    others : sequence of Line
        The other lines of frequencies of the page, where other tables begin.

    Returns
    -------
    Layout or None
        None where its words name a test of another kind.
    """
    before = [o for o in others if o.along == 0 and abs(o.across - line.across) < 2 * line.height
              and o.at[-1] < line.at[0]] if line.along == 0 else []  # fmt: skip
    over = lines_over(words, line, max((o.edges[-1][1] for o in before), default=-math.inf))
    title = title_of(over, line)
    if title.other:
        return None
    corner = corner_of(words, line) if line.along == 0 else []
    inner = name_of(corner)
    if inner.told and _usable(inner):  # "Right" over the names of its rows
        title = inner.under(title)
    across = line.along == 0
    found = _across(words, line, others, before, title) if across else _down(words, line, others, title)
    if title.masked or of_other_numbers(over, corner, line):  # a title seldom says that all is masked: it may be a note
        found = replace(found, rows=tuple(replace(row, doubtful=True) for row in found.rows))
    return replace(found, date=date_of(over, line))


def by_date(layout: Layout) -> list[Layout]:
    """Give a table as one for each date that its rows name; rows of no date beside others that have one are doubtful.

    Each but the first leaves nothing to say of rows that were not understood.
    """
    dates = list(dict.fromkeys(row.date for row in layout.rows))
    if dates in ([], [None]):
        return [layout]
    found: list[Layout] = []
    for date in dates:
        rows = tuple(row if date else replace(row, doubtful=True) for row in layout.rows if row.date == date)
        apart = replace(layout, rows=rows, date=date)
        found.append(replace(apart, unnamed=0, left_over=()) if found else apart)
    return found


def _usable(name: Name) -> bool:
    return not name.torn and not name.other and (name.ear is not None or name.conduction == "field")


def _row(name: Name, title: Name, across: float, cells: list[list[Word]], *, heir: bool) -> Row:
    whole = name.under(title) if name.ear is None or name.conduction is None else name
    doubtful = bool(name.unknown or whole.conduction is None or whole.two)
    doubtful |= whole is not name and title.unknown > 0 and (whole.ear, whole.conduction) != (name.ear, name.conduction)
    # "Uncomfortable levels" or "Aided" over rows that do not say it: of all of them, or of some?
    doubtful |= title.measure not in (None, name.measure) or (title.aided is True and whole.aided is None)
    return Row(whole, across, tuple(tuple(cell) for cell in cells), doubtful, heir)


@dataclass(frozen=True, slots=True)
class _Heading:
    """What the rows of a table are under: the ear or conduction of a heading, a name in the column before, a date.

    ``lost`` is true below a heading that was not understood, ``strange`` below one that says nothing known at all.
    """

    name: Name = field(default_factory=Name)
    indent: tuple[float, float, Name] = field(default_factory=lambda: (0.0, 0.0, Name()))
    lost: bool = False
    strange: bool = False
    date: str | None = None


def _across(words: Sequence[Word], line: Line, others: Sequence[Line], before: Sequence[Line], title: Name) -> Layout:
    """Read the rows below a row of frequencies; ``before`` are the lines of others at its left, on the same height."""
    high = line.height
    texts = _lines_below(words, line, others, before)
    if before and not any(beside for _, _, beside in texts) and (title.ear or title.conduction):
        texts = _lines_below(words, line, others, before, named_before=True)  # the names stand before all of them
    merged, reach = merged_ears(texts), reach_of(texts, high)
    rows: list[Row] = []
    unnamed, last, under, left_over = 0, line.across, _Heading(), list[Word]()
    for number, (y, cells, beside) in enumerate(texts):
        if y - last > reach:
            break
        beside, date = without_date(beside)
        name, under = name_of(beside), replace(under, date=date or under.date)
        if not any(cells):
            if merged and number in merged:
                continue
            last, under = (y, _below_heading(name, under)) if _usable_section(name) else (last, under)
            if beside and not _usable_section(name):
                last = last if under.lost else y
                under = _Heading(lost=True, strange=strange(beside), date=under.date)
            continue
        if not says_something(cells) or (beside and not name.told and not name.other):
            # a row with a name and cells that say nothing is one that was not read, and the table goes on below it
            row_named = name.told and not name.other
            unnamed += _has_levels(cells) or row_named
            last = y if row_named or _has_levels(cells) else last
            left_over += [w for cell in cells for w in cell]
            continue
        if merged and number in merged:
            name = name.under(merged[number])
        row, under = _row_under(name, beside, title, under, y, cells, high)
        last = y
        if row is not None:
            rows.append(replace(row, doubtful=row.doubtful or merged == {}, date=under.date))
            continue
        unnamed += not name.other and _has_levels(cells)
        left_over += [w for cell in cells for w in cell]
    return Layout(line, tuple(rows), unnamed, tuple(left_over))


def _lines_below(
    words: Sequence[Word], line: Line, others: Sequence[Line], before: Sequence[Line], *, named_before: bool = False
) -> list[Printed]:
    """Give the printed lines below a row of frequencies: their heights, the words of their cells, those beside."""
    edges, high = line.edges, line.height
    bound = max((o.edges[-1][1] for o in before), default=-math.inf)
    names_end = min(o.edges[0][0] for o in before) if named_before else -math.inf
    below = [w for w in words if middle(w)[1] > line.across + 0.6 * high
             and (bound < middle(w)[0] < edges[-1][1] or middle(w)[0] < names_end)]  # fmt: skip
    stops = [o.across for o in others if o.along == 0 and o.across > line.across + high and _meet(o, line)]
    found: list[Printed] = []
    for text in text_lines((w for w in below if middle(w)[1] < min(stops, default=math.inf) - high), high):
        cells, beside = _split(text, edges, high)
        if any(cells) or not all(map(speck, beside)):
            found.append((median(middle(w)[1] for w in text), cells, beside))
    return unwrapped(found, high)


def _below_heading(name: Name, under: _Heading) -> _Heading:
    return _Heading(name if name.ear else replace(name, ear=under.name.ear), under.indent, date=under.date)


def _row_under(
    name: Name, beside: Sequence[Word], title: Name, under: _Heading, y: float, cells: list[list[Word]], high: float
) -> tuple[Row | None, _Heading]:
    """Give a row under what stands over it, None where its ear stays open; and what the rows below it are under."""
    own = name.ear
    if own is None and under.name.ear is None and beside and _indented(beside, under.indent, high):
        name = name.under(under.indent[2])
    elif name.ear is not None and name.conduction is not None and len(beside) > 1:
        second = next((w for w in beside[1:] if name_of([w]).conduction), beside[1])
        under = replace(under, indent=(beside[0].box[0], second.box[0], Name(ear=name.ear)))
    name = name.under(Name(ear=under.name.ear, conduction=under.name.conduction))
    if not _usable(name if name.ear or name.conduction == "field" else name.under(title)):
        return None, under
    # a name of one ear below a heading of the other: "CO" was read as "OD", an ear's name elsewhere;
    # an ear with its conduction is no heading but a row without values
    over = under.name if under.name.ear else title
    heading = over.ear if over.conduction is None else None
    denied = own is not None and heading not in (None, own)
    name = replace(name, ear=heading) if denied else name
    row = _row(name, title, y, cells, heir=own is None and name.conduction != "field")
    return replace(row, doubtful=row.doubtful or denied or under.strange or (under.lost and own is None)), under


def _has_levels(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether at least half of a row's cells hold levels, so that it may be one of thresholds."""
    levels = [said_by(" ".join(w.text for w in cell)).kind == "level" for cell in cells]
    return 2 * sum(levels) >= len(levels)


def _usable_section(name: Name) -> bool:
    return name.told and not name.other and (name.ear is not None or name.conduction is not None)


def _indented(beside: Sequence[Word], indent: tuple[float, float, Name], high: float) -> bool:
    """Say whether a name without an ear stands in the second column of names, under one that follows an ear."""
    return (
        indent[2].ear is not None
        and beside[0].box[0] > indent[0] + high
        and (abs(beside[0].box[0] - indent[1]) < 1.5 * high)
    )


def _meet(one: Line, other: Line) -> bool:
    return one.at[0] < other.at[-1] and one.at[-1] > other.at[0]


def _split(
    text: Sequence[Word], edges: Sequence[tuple[float, float]], high: float
) -> tuple[list[list[Word]], list[Word]]:
    """Split a printed line into the words of each cell and those beside them, which name the row."""
    cells: list[list[Word]] = [[] for _ in edges]
    beside: list[Word] = []
    first = edges[0][0] + 0.1 * (edges[0][1] - edges[0][0])
    for word in text:
        x = middle(word)[0]
        inside = [i for i, (low, high_edge) in enumerate(edges) if low < x <= high_edge]
        if inside and word.box[2] > first:
            cells[inside[0]].append(word)
        elif x < edges[0][1]:
            beside.append(word)
    near: list[Word] = []
    for word in reversed(beside):
        if near and near[0].box[0] - word.box[2] > NAME_GAP * high:
            break
        near.insert(0, word)
    return cells, near


def _down(words: Sequence[Word], line: Line, others: Sequence[Line], title: Name) -> Layout:
    """Read the columns beside a column of frequencies: at its right, and at its left where it stands in the middle."""
    high = line.height
    beside = [o for o in others if o.along == 1 and _meet(o, line)]
    end = min((o.sides[0] for o in beside if o.across > line.across + high), default=math.inf)
    rows, unnamed, left_over = _columns(words, line, (line.sides[1], end), title, 1)
    if not any(o.across < line.across - high for o in beside):
        mirrored, _, _ = _columns(words, line, (-math.inf, line.sides[0]), Name(), -1)
        rows = mirrored + rows
    return Layout(line, tuple(rows), unnamed, tuple(left_over))


def _columns(
    words: Sequence[Word], line: Line, between: tuple[float, float], title: Name, side: Literal[-1, 1]
) -> tuple[list[Row], int, list[Word]]:
    """Read the columns at one side of the frequencies; those at the left count only where they name an ear."""
    found: list[tuple[float, int, list[Word]]] = []
    for i, (low, edge) in enumerate(line.edges):
        inside = sorted((w for w in words if low < middle(w)[1] <= edge and between[0] < w.box[0]
                         and w.box[2 if side < 0 else 0] < between[1]
                         and w.text.casefold().strip(".") not in UNITS), key=lambda w: w.box[0])  # fmt: skip
        found += [((g[0].box[0] + max(w.box[2] for w in g)) / 2, i, g) for g in numbers_apart(inside, line.height)]
    columns = columns_of(found, line, side)
    rows: list[Row] = []
    unnamed, left_over = 0, list[Word]()
    for (x, cells), (name, doubtful, heir) in zip(
        columns, column_names(words, line, [x for x, _ in columns], side) if columns else (), strict=True
    ):
        if _usable(name if name.ear or name.conduction == "field" else name.under(title)):
            row = _row(name, title, x, cells, heir=heir and name.conduction != "field")
            rows.append(replace(row, doubtful=row.doubtful or doubtful))
        else:
            unnamed += not name.other and _has_levels(cells)
            left_over += [w for cell in cells for w in cell]
    return rows, unnamed, left_over
