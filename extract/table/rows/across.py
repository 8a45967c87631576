"""The rows below a row of frequencies, each under what stands beside it and over it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from statistics import median

from ...page import Word
from ..cells.numbers import said_by
from .inherited.blocks import in_blocks
from .inherited.merged import Printed, merged_dates, merged_ears, says_something
from .inherited.wrapped import reach_of, unwrapped
from .lines import Line, groups, speck, text_lines
from .row import Layout, Row, has_levels, meet, row_of, usable, words_of
from .titles import strange, without_date
from .vocabulary import Name, name_of, parts_of

PROSE, LEAST_LETTERS = 4, 3
"""So many words of so many letters across the cells of a table are a sentence."""
ONE_PHRASE = 0.8
"""Words of one cell, or one name, stand less apart than so many heights of a word."""
FEWEST_OF_HEADING = 2
"""A heading of another table that stands below has so many words."""
NAME_GAP = 12.0
"""Words of a row's name stand at most so many heights of a word apart."""


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


def across(words: Sequence[Word], line: Line, others: Sequence[Line], before: Sequence[Line], title: Name) -> Layout:
    """Read the rows below a row of frequencies; ``before`` are the lines of others at its left, on the same height."""
    high = line.height
    texts = _lines_below(words, line, others, before)
    if before and not any(beside for _, _, beside in texts) and (title.ear or title.conduction):
        texts = _lines_below(words, line, others, before, named_before=True)  # the names stand before all of them
    own = texts[: _end_of(texts)]
    merged, dates, reach = merged_ears(own), merged_dates(own), reach_of(texts, high)
    rows: list[Row] = []
    unnamed, last, under, left_over = 0, line.across, _Heading(), list[Word]()
    for number, (y, cells, beside) in enumerate(texts):
        if y - last > reach or (under.lost and _of_other_numbers(cells)):
            unnamed += any(map(_is_row, texts[number:]))
            break
        if _is_prose(cells):  # a remark that runs across the table, or ends it
            last, under = y, _Heading(lost=True, strange=strange([*beside, *words_of(cells)]), date=under.date)
            continue
        beside, date = without_date(beside)
        date = date or under.date if dates is None else dates.get(number)
        name, under = name_of(beside), replace(under, date=date)
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
            row_named = name.told and not name.other and any(c.isdigit() for w in words_of(cells) for c in w.text)
            unnamed += has_levels(cells) or row_named
            last = y if row_named or has_levels(cells) else last
            left_over += words_of(cells)
            continue
        if merged and number in merged:
            name = name.under(merged[number])
        row, under = _row_under(name, beside, title, under, y, cells, high)
        last = y
        if row is not None:
            rows.append(replace(row, doubtful=row.doubtful or {} in (merged, dates), date=under.date))
            continue
        unnamed += not name.other and has_levels(cells)
        left_over += words_of(cells)
    return Layout(line, tuple(rows), unnamed, tuple(left_over))


def _is_prose(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether what runs across the cells of a table are words of a sentence."""
    words = words_of(cells)
    lettered = sum(len(part) >= LEAST_LETTERS for w in words for part in parts_of(w.text))
    return lettered >= PROSE and not says_something(cells) and 2 * lettered > len(words)


def _end_of(texts: Sequence[Printed]) -> int:
    """Give how many printed lines belong to a table: up to the heading of what stands below it."""
    for number, (_, cells, beside) in enumerate(texts):
        words = [*beside, *words_of(cells)]
        lettered = sum(len(part) >= LEAST_LETTERS for w in words for part in parts_of(w.text))
        if lettered >= FEWEST_OF_HEADING and not says_something(cells) and not name_of(words).told:
            return number
    return len(texts)


def _of_other_numbers(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether most of what stands in a row are other numbers, or words: below a heading, another table begins."""
    kinds = [said_by(" ".join(w.text for w in cell)).kind for cell in cells if cell]
    return 2 * sum(kind in ("off-step", "unclear") for kind in kinds) > len(kinds)


def _is_row(text: Printed) -> bool:
    """Say whether a line that stands too far below a table looks like one of its rows."""
    _, cells, beside = text
    name = name_of(beside)
    return name.told and not name.other and name.ear is not None and has_levels(cells)


def _lines_below(
    words: Sequence[Word], line: Line, others: Sequence[Line], before: Sequence[Line], *, named_before: bool = False
) -> list[Printed]:
    """Give the printed lines below a row of frequencies: their heights, the words of their cells, those beside."""
    edges, high = line.edges, line.height
    bound = max((o.edges[-1][1] for o in before), default=-math.inf)
    names_end = min(o.edges[0][0] for o in before) if named_before else -math.inf
    below = [w for w in words if w.middle[1] > line.across + 0.6 * high
             and (bound < w.middle[0] < edges[-1][1] or w.middle[0] < names_end)]  # fmt: skip
    stops = [o.across for o in others if o.along == 0 and o.across > line.across + high and meet(o, line)]
    found: list[Printed] = []
    for text in text_lines((w for w in below if w.middle[1] < min(stops, default=math.inf) - high), high):
        cells, beside = _split(text, edges, high)
        if any(cells) or not all(map(speck, beside)):
            found.append((median(w.middle[1] for w in text), cells, beside))
    rows, below = in_blocks(found)
    return rows + unwrapped(below, high)


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
    if not usable(name if name.ear or name.conduction == "field" else name.under(title)):
        return None, under
    # a name of one ear below a heading of the other: "CO" was read as "OD", an ear's name elsewhere;
    # an ear with its conduction is no heading but a row without values
    over = under.name if under.name.ear else title
    heading = over.ear if over.conduction is None else None
    denied = own is not None and heading not in (None, own)
    name = replace(name, ear=heading) if denied else name
    row = row_of(name, title, y, cells, heir=own is None and name.conduction != "field")
    return replace(row, doubtful=row.doubtful or denied or under.strange or (under.lost and own is None)), under


def _usable_section(name: Name) -> bool:
    return name.told and not name.other and (name.ear is not None or name.conduction is not None)


def _indented(beside: Sequence[Word], indent: tuple[float, float, Name], high: float) -> bool:
    """Say whether a name without an ear stands in the second column of names, under one that follows an ear."""
    return (
        indent[2].ear is not None
        and beside[0].box[0] > indent[0] + high
        and (abs(beside[0].box[0] - indent[1]) < 1.5 * high)
    )


def _with_places(text: Sequence[Word], high: float) -> list[tuple[Word, float]]:
    """Give the words of a line with the place of each: "not tested" over two narrow cells stands in one of them."""
    found: list[tuple[Word, float]] = []
    for group in groups(text, ONE_PHRASE * high):
        whole = len(group) > 1 and said_by(" ".join(w.text for w in group)).kind in ("untested", "unheard", "level")
        x = (group[0].box[0] + group[-1].box[2]) / 2
        found += [(w, x if whole else w.middle[0]) for w in group]
    return found


def _goes_on(beside: Sequence[Word], word: Word, high: float) -> bool:
    """Say whether a word in the first cell goes on with a long name before it: a wide column may lie under both."""
    near = bool(beside) and word.box[0] - beside[-1].box[2] < ONE_PHRASE * high
    return near and name_of([word]).told and said_by(word.text).kind == "unclear"


def _split(
    text: Sequence[Word], edges: Sequence[tuple[float, float]], high: float
) -> tuple[list[list[Word]], list[Word]]:
    """Split a printed line into the words of each cell and those beside them, which name the row."""
    cells: list[list[Word]] = [[] for _ in edges]
    beside: list[Word] = []
    first = edges[0][0] + 0.1 * (edges[0][1] - edges[0][0])
    for word, x in _with_places(text, high):
        inside = [i for i, (low, high_edge) in enumerate(edges) if low < x <= high_edge]
        if inside and word.box[2] > first and not (inside[0] == 0 and _goes_on(beside, word, high)):
            cells[inside[0]].append(word)
        elif x < edges[0][1]:
            beside.append(word)
    near: list[Word] = []
    for word in reversed(beside):
        if near and near[0].box[0] - word.box[2] > NAME_GAP * high:
            break
        near.insert(0, word)
    return cells, near
