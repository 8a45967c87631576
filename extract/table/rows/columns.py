"""The columns beside a column of frequencies: which numbers stand under one another, and what is over them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from statistics import median
from typing import Literal

from ...page import Word
from ..cells.numbers import said_by
from .lines import Line, groups, height, numbers_apart, text_lines
from .row import Layout, Row, has_levels, meet, row_of, usable, words_of
from .vocabulary import Name, name_of

HEAD_WITHIN = 3.2
"""A line of a table's head stands at most so many heights of a word over the next."""
COLUMN_GAP = {1: 40.0, -1: 12.0}
"""The next column stands at most so many heights of a word away, right and left of the frequencies."""
ASIDE = (0.3, 0.2, 0.12)
"""How far numbers of one column may stand aside of one another, in distances of columns: a hand does not aim well."""
MANY = 4
"""Two numbers in one of so many rows of a column are a correction."""
UNITS = frozenset({"hz", "khz"})
TOLD = frozenset({"level", "unheard", "untested"})
OF_ONE_HEAD = 0.3
"""Words of one head stand no further apart, in distances of columns."""
HEADS_APART = (1.2, 0.9, 0.7)
"""Gaps that may part two heads, in heights of a word, the widest first: a space is about 0.4."""
STACKED = 0.6
"""Lines of one wrapped head stand at most so far from the next, by the paper between, in heights of a word."""
OFF_HEAD = 0.4
"""How far a head may stand from the middle of its column's numbers, in distances of heads."""
OFF_MIDDLE = 0.35
"""How far a heading may stand from the middle of the columns that it is over, in columns."""


def down(words: Sequence[Word], line: Line, others: Sequence[Line], title: Name) -> Layout:
    """Read the columns beside a column of frequencies: at its right, and at its left where it stands in the middle."""
    high = line.height
    beside = [o for o in others if o.along == 1 and meet(o, line)]
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
        inside = sorted((w for w in words if low < w.middle[1] <= edge and between[0] < w.box[0]
                         and w.box[2 if side < 0 else 0] < between[1]
                         and w.text.casefold().strip(".") not in UNITS), key=lambda w: w.box[0])  # fmt: skip
        found += [((g[0].box[0] + max(w.box[2] for w in g)) / 2, i, g) for g in numbers_apart(inside, line.height)]
    every = columns_of(found, line, side)
    columns = [one for one in every if not _stray(one[1])]
    rows: list[Row] = []
    unnamed = len(every) - len(columns)
    left_over = [w for one in every if _stray(one[1]) for w in words_of(one[1])]
    for (x, cells), (name, doubtful, heir) in zip(
        columns, column_names(words, line, [x for x, _ in columns], between, side) if columns else (), strict=True
    ):
        if usable(name if name.ear or name.conduction == "field" else name.under(title)):
            row = row_of(name, title, x, cells, heir=heir and name.conduction != "field")
            rows.append(replace(row, doubtful=row.doubtful or doubtful))
        else:
            unnamed += not name.other and has_levels(cells)
            left_over += words_of(cells)
    return rows, unnamed, left_over


def _stray(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether what stands in a column may be pieces of a rule, or a word beside the table: few, and no level."""
    few = MANY * sum(map(bool, cells)) <= len(cells)
    return few and not any(all(said_by(text).kind in TOLD and text for text, _ in w.readings) for w in words_of(cells))


def columns_of(
    found: list[tuple[float, int, list[Word]]], line: Line, side: Literal[-1, 1]
) -> list[tuple[float, list[list[Word]]]]:
    """Put the groups of words at one side of the frequencies into columns, up to the first wide gap.

    Parameters
    ----------
    found : list of tuple
        The middle of each group, the number of its frequency, and its words.
    line : Line
        The frequencies.
    side : int
        1 for the columns right of them, -1 for those at the left, which are taken up to a narrower gap.

    Returns
    -------
    list of tuple
        Each column's middle and its words by frequency, from left to right.
    """
    high = line.height
    steps = [
        b[0] - a[0] for i in range(len(line.hz)) for a, b in pairwise(sorted(one[:2] for one in found if one[1] == i))
    ]
    columns: list[list[tuple[float, int, list[Word]]]] = []
    for aside in ASIDE:
        apart = max(0.9 * high, aside * median(steps) if steps else 0.0)
        columns = _gathered(found, line, side, apart)
        doubled = (len(column) - len({i for _, i, _ in column}) for column in columns)
        if all(MANY * twice <= len(column) for twice, column in zip(doubled, columns, strict=True)):
            break  # else two numbers of one row stand in one column: empty cells made the steps look wide
    made = []
    for column in columns[::side]:
        cells: list[list[Word]] = [[] for _ in line.hz]
        for _, i, group in column:
            cells[i] += group
        made.append((median(x for x, _, _ in column), cells))
    return made


def _gathered(
    found: list[tuple[float, int, list[Word]]], line: Line, side: Literal[-1, 1], apart: float
) -> list[list[tuple[float, int, list[Word]]]]:
    """Put groups of words that stand less than ``apart`` aside into columns, outward from the frequencies."""
    columns: list[list[tuple[float, int, list[Word]]]] = []
    last = line.sides[1] if side > 0 else line.sides[0]
    outward = sorted(found, key=lambda group: side * group[0])
    for number, one in enumerate(outward):
        near, far = one[2][0].box[0], max(w.box[2] for w in one[2])
        near, far = (near, far) if side > 0 else (far, near)
        if columns and abs(one[0] - columns[-1][-1][0]) < apart:
            columns[-1].append(one)
        elif side * (near - last) > COLUMN_GAP[side] * line.height and not _a_column(outward[number:], line, side):
            break
        else:
            columns.append([one])
        last = max(last, far) if side > 0 else min(last, far)
    return columns


def _a_column(beyond: Sequence[tuple[float, int, list[Word]]], line: Line, side: Literal[-1, 1]) -> bool:
    """Say whether what stands beyond a wide gap is of the table: between may be the columns of what was not tested."""
    rows = {i for _, i, group in beyond if said_by(" ".join(w.text for w in group)).kind == "level"}
    return side > 0 and 2 * len(rows) >= len(line.hz)


def column_names(
    words: Sequence[Word], line: Line, at: list[float], between: tuple[float, float], side: Literal[-1, 1] = 1
) -> list[tuple[Name, bool, bool]]:
    """Name each column from the lines over it; say where that is doubtful, and where a wider heading names the ear.

    Where a name of an ear stands over no column, it may be that of any.
    """
    high = line.height
    numbered, at = at, _with_empty(words, line, at, between)
    pitch = min((b - a for a, b in pairwise(at)), default=line.step * 3)
    left, right = (line.sides[1], at[-1] + pitch / 2) if side > 0 else (at[0] - pitch / 2, line.sides[0])
    over = [
        w
        for w in words
        if any(c.isalpha() for c in w.text)
        and w.middle[1] < line.at[0] - 0.6 * high and left - 0.5 * pitch < w.middle[0] < right
        and not (w.box[0] < left and w.middle[0] < at[0] - pitch / 2) and not (side > 0 and w.box[2] < left)
    ]  # fmt: skip
    names: list[tuple[Name, bool]] = [(Name(), False)] * len(at)
    heirs = [True] * len(at)
    last = line.at[0]
    for depth, text in enumerate(reversed(text_lines(over, high))):
        y = median(w.middle[1] for w in text)
        if depth == 3 or last - y > max(HEAD_WITHIN * high, 1.6 * line.step):
            break
        last = y
        split = groups(text, 1.2 * high)
        if depth and len(split) < len(at):
            own = [i for i, (name, _) in enumerate(names) if name.conduction != "field"]
            if not any(name_of(g).ear or name_of(g).conduction for g in split) or len(split) > len(own):
                break
            spanned = _spanned(split, [at[i] for i in own], pitch)
            if len(split) == 1 < len(at) and (spanned[0][1] or spanned[0][0].unknown):
                break  # a title, unless it is an ear's name over the middle of all columns
            for i, (outer, doubt) in zip(own, spanned, strict=True):
                names[i] = names[i][0].under(outer), names[i][1] or doubt
            continue
        mine = _each_its_own(text, at, high) or [[w for w in text if abs(w.middle[0] - x) < pitch / 2] for x in at]
        astray = any(name_of(g).ear and not any(w in m for m in mine for w in g) for g in split)
        names = [
            (n.under(name_of(m)) if depth else name_of(m), d or astray) for (n, d), m in zip(names, mine, strict=True)
        ]
        heirs = [heir and name.ear is None for heir, (name, _) in zip(heirs, names, strict=True)]
    stacked = _stacked(over, line, at, pitch)
    names, heirs = (stacked, [False] * len(at)) if stacked else (names, heirs)
    return [(*names[i], heirs[i]) for i in map(at.index, numbered)]


def _stacked(over: Sequence[Word], line: Line, at: Sequence[float], pitch: float) -> list[tuple[Name, bool]]:
    """Name columns whose heads are wrapped over several lines at heights of their own; none where any stays unnamed."""
    heads: list[Word] = []
    for word in sorted(over, key=lambda w: -w.middle[1]):
        top = min((w.box[1] for w in heads), default=line.at[0] - 0.5 * line.height)
        if top - word.box[3] > (STACKED if heads else HEAD_WITHIN) * line.height:
            break
        heads.append(word)
    own = [[w for w in heads[::-1] if abs(w.middle[0] - x) < pitch / 2] for x in at]
    names = [name_of(words) for words in own]
    whole = sum(map(len, own)) == len(heads) and all(
        name.told and not name.unknown and name.ear and name.conduction for name in names
    )
    return [(name, False) for name in names] if whole else []


def _each_its_own(text: Sequence[Word], at: Sequence[float], high: float) -> list[list[Word]]:
    """Share a line's words out among columns where each stands under one head; none where that is not so.

    Numbers at one side of a wide column stand far from the middle of its head.
    """
    for gap in HEADS_APART:
        heads = groups(text, gap * high)
        if len(heads) == len(at) and all(
            head[0].box[0] < x < max(w.box[2] for w in head) for head, x in zip(heads, at, strict=True)
        ):
            return heads
    return []


def _with_empty(
    words: Sequence[Word], line: Line, at: list[float], between: tuple[float, float]
) -> list[float]:  # fmt: skip
    """Give the places of columns with those that have a head and no numbers: a heading stands over them as well."""
    over = [w for w in words if w.middle[1] < line.at[0] - 0.6 * line.height and any(c.isalpha() for c in w.text)
            and between[0] < w.box[0] and w.box[2] < between[1]]  # fmt: skip
    lines = text_lines(over, line.height)
    if not lines or line.at[0] - lines[-1][0].middle[1] > max(HEAD_WITHIN * line.height, 1.6 * line.step):
        return at
    pitch = min((b - a for a, b in pairwise(at)), default=0.0)
    named = [(g, name_of(g)) for g in groups(lines[-1], max(1.2 * line.height, OF_ONE_HEAD * pitch))]
    heads = [(g[0].box[0] + max(w.box[2] for w in g)) / 2 for g, name in named if name.told and not name.other]
    step = min((b - a for a, b in pairwise(heads)), default=0.0)
    free = [head for head in heads if min(abs(head - x) for x in at) > OFF_HEAD * step]
    return sorted((*at, *free)) if len(heads) - len(free) == len(at) else at


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
