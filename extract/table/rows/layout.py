"""Which cell of a table belongs to which ear, conduction and frequency: from the names beside rows or over columns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ...page import Word
from ..cells.numbers import said_by
from .across import across
from .columns import down
from .inherited.listed import lists_of, rows_of_list
from .lines import Line, line_of
from .row import Layout, meet, usable
from .titles import corner_of, date_of, lines_over, of_other_numbers, title_of, told_below, told_by_titles
from .vocabulary import Name, kinds_of, name_of, parts_of

REFLEX_HZ = frozenset({500.0, 1000.0, 2000.0, 4000.0})
LEAST_REFLEX_DB = 70.0
"""Acoustic reflexes are tested at these tones and seldom seen below this level [common practice]."""
LEAST_REFLEXES = 3
AIR_ALONE_HZ = frozenset({125.0, 6000.0, 8000.0})
"""Bone vibrators are specified from 250 to 4000 Hz [ISO 389-3:2016, and common practice]: what is heard here is air."""
NOT_BY_AIR = frozenset({"bone", "field", "mcl", "ucl"})
NEAR = 8.0
"""What stands so near a table, in heights of a word, may be about it."""


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
        None where its words name a test of another kind, unless it is seen to hold acoustic reflexes.
    """
    before = [o for o in others if o.along == 0 and abs(o.across - line.across) < 2 * line.height
              and o.at[-1] < line.at[0]] if line.along == 0 else []  # fmt: skip
    if line.along == 0:
        bounds = max((o.edges[-1][1] for o in before), default=-math.inf), math.inf
    else:
        bounds = _between_neighbours(words, line, others)
    over = lines_over(words, line, *bounds)
    title = title_of(over, line)
    corner = corner_of(words, line) if line.along == 0 else []
    inner = name_of(corner)
    if inner.told and usable(inner) and not title.other:  # "Right" over the names of its rows
        title = inner.under(title)

    def under(title: Name) -> Layout:
        return across(words, line, others, before, title) if line.along == 0 else down(words, line, others, title)

    found = under(title)
    if title.other or (found.left_over and not found.rows):
        reflexes = _of_reflexes(found) and not any(row.name.conduction for row in under(Name()).rows)
        if title.other and not reflexes:
            return None
        return replace(found, unnamed=0 if reflexes else found.unnamed, of_reflexes=reflexes)
    bare = bool(found.rows) and all(row.name.conduction is None for row in found.rows)
    if bare and told_by_titles(over, corner) and _of_air(words, line, _end(found)):
        found = _air_where_proven(under(title.under(Name(conduction="air"))))
    # a title seldom says that all is masked: it may be a note
    if title.masked or of_other_numbers(over, corner, line) or told_below(words, line, _end(found), others):
        found = doubted(found)
    return replace(found, date=date_of(over, line))


def _of_air(words: Sequence[Word], line: Line, last: float) -> bool:
    """Say whether no word of a page names another way of testing than by air, and none about its table hearing aids."""
    top, bottom = min(w.box[1] for w in line.words) - NEAR * line.height, last + NEAR * line.height
    near = {id(w) for w in words if top < w.middle[1] < bottom}
    return not any(
        kinds_of(part)[0] & (NOT_BY_AIR | {"aided"} if id(w) in near else NOT_BY_AIR)
        for w in words for text, _ in w.readings for part in parts_of(text)
    )  # fmt: skip


def _air_where_proven(layout: Layout) -> Layout:
    """Let rows that were taken for air be doubted that hold no level where bone is not tested."""
    outer = [i for i, hz in enumerate(layout.line.hz) if hz in AIR_ALONE_HZ]
    return replace(layout, rows=tuple(
        row if any(said_by(" ".join(w.text for w in row.cells[i])).kind == "level" for i in outer)
        else replace(row, doubtful=True) for row in layout.rows
    ))  # fmt: skip


def _between_neighbours(words: Sequence[Word], line: Line, others: Sequence[Line]) -> tuple[float, float]:
    """Give between which places the words over a column of frequencies are its own: another table may stand beside."""
    beside = [other for other in others if other.along == 1 and meet(other, line)]
    ends = {other.across: _end_before(words, other) for other in (line, *beside)}
    left = [ends[line.across]] if any(other.across < line.across for other in beside) else []
    right = [ends[other.across] for other in beside if other.across > line.across]
    return max(left, default=-math.inf), min(right, default=math.inf)


def _end_before(words: Sequence[Word], line: Line) -> float:
    """Give where the numbers end that stand before a column of frequencies, in its rows."""
    low, high = line.edges[0][0], line.edges[-1][1]
    return max((w.box[2] for w in words if low < w.middle[1] < high and w.box[2] < line.sides[0]), default=-math.inf)


def _of_reflexes(layout: Layout) -> bool:
    """Say whether the numbers of a table whose title, or all of whose rows, name another test can be reflexes alone.

    A title may be of what stands beside the table, so that it proves nothing of levels that are none of reflexes.
    """
    said = [said_by(w.text) for w in layout.left_over]
    levels = [one.level_db_hl for one in said if one.level_db_hl is not None]
    odd = any(one.kind == "off-step" for one in said)
    enough = len(levels) >= LEAST_REFLEXES and not odd and not layout.rows
    return enough and min(levels) >= LEAST_REFLEX_DB and set(layout.line.hz) <= REFLEX_HZ


def doubted(layout: Layout) -> Layout:
    """Give a table with all its rows doubtful."""
    return replace(layout, rows=tuple(replace(row, doubtful=True) for row in layout.rows))


def listed_layouts(words: Sequence[Word]) -> list[Layout]:
    """Find lists of thresholds, one a line, and give each ear's row in them as a table of its own."""
    found: list[Layout] = []
    for listing in lists_of(words):
        line = line_of([(e.head, e.hz) for e in listing.entries], 1)
        over = lines_over(words, line)
        title = title_of(over, line)
        if title.other:
            continue
        layouts = rows_of_list(listing, title)
        if title.masked or of_other_numbers(over, [], line) or told_below(words, line, line.at[-1], []):
            layouts = [doubted(layout) for layout in layouts]
        found += [replace(layout, date=date_of(over, line)) for layout in layouts]
    return found


def _end(layout: Layout) -> float:
    """Give how far down the numbers of a table reach; infinite where it has none."""
    return max((w.box[3] for row in layout.rows for cell in row.cells for w in cell), default=math.inf)


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
