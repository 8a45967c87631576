"""Which cell of a table belongs to which ear, conduction and frequency: from the names beside rows or over columns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from statistics import median

from ...page import Word
from ..cells.numbers import said_by
from .lines import Line, groups, height, middle, numbers_apart, speck, text_lines
from .titles import date_of, lines_over, title_of
from .vocabulary import Name, name_of

NEXT_ROW = 5.0
"""A row stands at most so many heights of a word below the one before."""
HEAD_WITHIN = 3.2
"""A line of a table's head stands at most so many heights of a word over the next."""
UNITS = frozenset({"hz", "khz"})
NAME_GAP = 12.0
"""Words of a row's name stand at most so many heights of a word apart."""
COLUMN_GAP = 40.0
ASIDE = 0.3
"""How far numbers of one column may stand aside of one another, in distances of columns: a hand does not aim well."""
OFF_MIDDLE = 0.35
"""How far a heading may stand from the middle of the columns that it is over, in columns."""


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


@dataclass(frozen=True, slots=True)
class Layout:
    """One table: its line of frequencies, its rows, and how many rows of numbers have no name that was understood."""

    line: Line
    rows: tuple[Row, ...]
    unnamed: int
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
    over = lines_over(words, line)
    title = title_of(over, line)
    if title.other:
        return None
    found = _across(words, line, others, title) if line.along == 0 else _down(words, line, others, title)
    return replace(found, date=date_of(over, line))


def _usable(name: Name) -> bool:
    return not name.torn and not name.other and (name.ear is not None or name.conduction == "field")


def _row(name: Name, title: Name, across: float, cells: list[list[Word]], *, heir: bool) -> Row:
    whole = name.under(title) if name.ear is None or name.conduction is None else name
    doubtful = bool(name.unknown or whole.conduction is None or whole.two)
    doubtful |= whole is not name and title.unknown > 0 and (whole.ear, whole.conduction) != (name.ear, name.conduction)
    return Row(whole, across, tuple(tuple(cell) for cell in cells), doubtful, heir)


def _across(words: Sequence[Word], line: Line, others: Sequence[Line], title: Name) -> Layout:
    """Read the rows below a row of frequencies."""
    edges, high = line.edges, line.height
    bound = max((o.edges[-1][1] for o in others if o.along == 0 and abs(o.across - line.across) < 2 * high
                 and o.at[-1] < line.at[0]), default=-math.inf)  # fmt: skip
    below = [w for w in words if middle(w)[1] > line.across + 0.6 * high and bound < middle(w)[0] < edges[-1][1]]
    stops = [o.across for o in others if o.along == 0 and o.across > line.across + high and _meet(o, line)]
    rows: list[Row] = []
    unnamed, last, section, indent, lost = 0, line.across, Name(), (0.0, 0.0, Name()), False
    for text in text_lines((w for w in below if middle(w)[1] < min(stops, default=math.inf) - high), high):
        y = median(middle(w)[1] for w in text)
        if y - last > NEXT_ROW * high:
            break
        cells, beside = _split(text, edges, high)
        name = name_of(beside)
        if not any(cells) and all(map(speck, beside)):
            continue
        if not any(cells):
            if _usable_section(name):
                section, last, lost = (name if name.ear else replace(name, ear=section.ear)), y, False
            elif beside and y - last < NEXT_ROW * high:
                # a heading that was not understood: whose rows follow?
                section, indent, lost = Name(), (0.0, 0.0, Name()), True
            continue
        if not _says_something(cells) or (beside and not name.told and not name.other):
            # a row with a name and cells that say nothing is one that was not read, and the table goes on below it
            row_named = name.told and not name.other
            unnamed += _has_levels(cells) or row_named
            last = y if row_named else last
            continue
        own = name.ear
        if own is None and section.ear is None and beside and _indented(beside, indent, high):
            name = name.under(indent[2])
        elif name.ear is not None and name.conduction is not None and len(beside) > 1:
            second = next((w for w in beside[1:] if name_of([w]).conduction), beside[1])
            indent = (beside[0].box[0], second.box[0], Name(ear=name.ear))
        name = name.under(Name(ear=section.ear, conduction=section.conduction))
        last = y
        if _usable(name if name.ear or name.conduction == "field" else name.under(title)):
            # a name of one ear below a heading of the other: "CO" was read as "OD", an ear's name elsewhere;
            # an ear with its conduction is no heading but a row without values
            over = section if section.ear else title
            heading = over.ear if over.conduction is None else None
            denied = own is not None and heading not in (None, own)
            name = replace(name, ear=heading) if denied else name
            row = _row(name, title, y, cells, heir=own is None and name.conduction != "field")
            rows.append(replace(row, doubtful=row.doubtful or denied or (lost and own is None)))
        elif not name.other:
            unnamed += _has_levels(cells)
    return Layout(line, tuple(rows), unnamed)


def _says_something(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether any cell of a row says what cells of thresholds do."""
    return any(cell and said_by(" ".join(w.text for w in cell)).kind != "unclear" for cell in cells)


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
    """Read the columns beside a column of frequencies."""
    edges, high = line.edges, line.height
    stops = [o.sides[0] for o in others if o.along == 1 and o.across > line.across + high and _meet(o, line)]
    end = min(stops, default=math.inf)
    found: list[tuple[float, int, list[Word]]] = []
    for i, (low, edge) in enumerate(edges):
        inside = sorted((w for w in words if low < middle(w)[1] <= edge and line.sides[1] < w.box[0] < end
                         and w.text.casefold().strip(".") not in UNITS), key=lambda w: w.box[0])  # fmt: skip
        found += [((g[0].box[0] + max(w.box[2] for w in g)) / 2, i, g) for g in numbers_apart(inside, high)]
    columns = _columns(found, line, high)
    if not columns:
        return Layout(line, (), 0)
    names = _column_names(words, line, [x for x, _ in columns])
    rows, unnamed = [], 0
    for (x, cells), (name, doubtful, heir) in zip(columns, names, strict=True):
        if _usable(name if name.ear or name.conduction == "field" else name.under(title)):
            row = _row(name, title, x, cells, heir=heir and name.conduction != "field")
            rows.append(replace(row, doubtful=row.doubtful or doubtful))
        elif not name.other:
            unnamed += _has_levels(cells)
    return Layout(line, tuple(rows), unnamed)


def _columns(
    found: list[tuple[float, int, list[Word]]], line: Line, high: float
) -> list[tuple[float, list[list[Word]]]]:
    """Put the groups of words beside the frequencies into columns, up to the first wide gap."""
    columns: list[list[tuple[float, int, list[Word]]]] = []
    last = line.sides[1]
    steps = [
        b[0] - a[0] for i in range(len(line.hz)) for a, b in pairwise(sorted(one[:2] for one in found if one[1] == i))
    ]
    apart = max(0.9 * high, ASIDE * median(steps) if steps else 0.0)
    for one in sorted(found, key=lambda group: group[0]):
        if columns and one[0] - columns[-1][-1][0] < apart:
            columns[-1].append(one)
        elif one[2][0].box[0] - last > COLUMN_GAP * high:
            break
        else:
            columns.append([one])
        last = max(last, *(w.box[2] for w in one[2]))
    made = []
    for column in columns:
        cells: list[list[Word]] = [[] for _ in line.hz]
        for _, i, group in column:
            cells[i] += group
        made.append((median(x for x, _, _ in column), cells))
    return made


def _column_names(words: Sequence[Word], line: Line, at: list[float]) -> list[tuple[Name, bool, bool]]:
    """Name each column from the lines over it; say where that is doubtful, and where a wider heading names the ear."""
    high = line.height
    pitch = min((b - a for a, b in pairwise(at)), default=line.step * 3)
    left, right = line.sides[1], at[-1] + pitch / 2
    over = [
        w
        for w in words
        if middle(w)[1] < line.at[0] - 0.6 * high and left - 0.5 * pitch < middle(w)[0] < right
        and not (w.box[0] < left and middle(w)[0] < at[0] - pitch / 2)
    ]  # fmt: skip
    names: list[tuple[Name, bool]] = [(Name(), False)] * len(at)
    heirs = [True] * len(at)
    last = line.at[0]
    for depth, text in enumerate(reversed(text_lines(over, high))):
        y = median(middle(w)[1] for w in text)
        if depth == 3 or last - y > max(HEAD_WITHIN * high, 1.6 * line.step):
            break
        last = y
        split = groups(text, 1.2 * high)
        if depth and len(split) < len(at):
            if not any(name_of(g).ear or name_of(g).conduction for g in split) or len(split) == 1 < len(at):
                break
            own = [i for i, (name, _) in enumerate(names) if name.conduction != "field"]
            if len(split) > len(own):
                break
            spanned = _spanned(split, [at[i] for i in own], pitch)
            for i, (outer, doubt) in zip(own, spanned, strict=True):
                names[i] = names[i][0].under(outer), names[i][1] or doubt
            continue
        mine = [[w for w in text if abs(middle(w)[0] - x) < pitch / 2] for x in at]
        names = [(n.under(name_of(m)) if depth else name_of(m), d) for (n, d), m in zip(names, mine, strict=True)]
        heirs = [heir and name.ear is None for heir, (name, _) in zip(heirs, names, strict=True)]
    return [(name, doubtful, heir) for (name, doubtful), heir in zip(names, heirs, strict=True)]


def _spanned(split: list[list[Word]], at: list[float], pitch: float) -> list[tuple[Name, bool]]:
    """Share columns out among headings that each stand over several, by where their middles are."""
    middles = [(g[0].box[0] + max(w.box[2] for w in g)) / 2 for g in split]
    best, worst = (), math.inf
    for cuts in combinations(range(1, len(at)), len(split) - 1):
        parts = list(pairwise((0, *cuts, len(at))))
        off = max(abs((at[a] + at[b - 1]) / 2 - m) for (a, b), m in zip(parts, middles, strict=True))
        if off < worst:
            best, worst = tuple(parts), off
    names: list[tuple[Name, bool]] = []
    for (a, b), group in zip(best, split, strict=True):
        names += [(name_of(group), worst > OFF_MIDDLE * pitch or height(group[0]) <= 0)] * (b - a)
    return names
