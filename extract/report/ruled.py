"""Cells of tables whose columns stand close together: cut at the vertical rules between them, and between numbers."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

import numpy as np

from ..page import Pixels, Word
from .lines import Box, Cell, Line

BEYOND = 0.3
"""A rule runs on so far above and below the letters, in heights of the line: a stroke between words does not."""
DARKER = 20
"""A rule is so much darker than the paper, in levels of grey: rules are printed in light grey as well."""
HOLES = 0.06
"""Of its length so much may be lost."""
PAPER = 0.8
"""Share of the pixels around a line that are darker than its paper, or as dark."""
INSIDE = 1
"""Boxes end so many pixels within the ink of their letters at most."""
NUMBER = re.compile(r"[<>\u2264\u2265]?[-\u2212\u2013+]?\d{1,4}(?:[.,]\d{1,2})?%?|[-\u2212\u2013\u2014]|[A-Z]{1,3}")
"""What stands in a table's column of numbers: a number, a dash, or a few capitals as "NR"."""
APART = 0.55
"""Numbers of two columns are at least so many heights apart: a space is less than half of a digit's height wide."""
OVER_SPACE, USUAL_SPACE, FEWEST_SPACES = 1.15, 0.3, 5
"""They are also so much farther apart than words are on this page, as typewriter faces have wide spaces; by default a
space is so many heights wide, and so many spaces tell it otherwise."""
SHARED = 0.25
"""The gaps of two lines lie over each other by so many heights, where they part the same columns."""
NEXT_LINE = 1.6
"""The lines of a table follow each other with no more than so many heights between them."""
HEAD_LINES = 3
"""Heads stand at most so many lines over their columns' first numbers."""
HEADS_APART = 0.42
"""Heads of two columns are at least so many heights apart."""
WIDER = 1.25
"""The gaps between heads are so much wider than the spaces within them."""
ALIGNED = 0.6
"""Heads and columns begin, end or have their middles at most so many heights aside."""
SEVERAL, EXACT = 3, 0.35
"""So many heads whose gaps are no wider than spaces stand over as many columns, at most so many heights aside."""


def cut_into_columns(lines: Sequence[Line], grey: Pixels) -> tuple[Line, ...]:
    """Cut the cells of tables apart whose columns stand closer than cells do elsewhere.

    Parameters
    ----------
    lines : sequence of Line
        In sheet pixels, from the top of the page (``lines_of``).
    grey : ndarray, shape (height, width), uint8
        The sheet.

    Returns
    -------
    tuple of Line
        The same words in the same lines.
    """
    return cut_over_columns(cut_between_numbers(cut_at_rules(lines, grey)))


def cut_at_rules(lines: Sequence[Line], grey: Pixels) -> tuple[Line, ...]:
    """Cut the cells of lines where a vertical rule stands between two words.

    Parameters
    ----------
    lines : sequence of Line
        In sheet pixels.
    grey : ndarray, shape (height, width), uint8
        The sheet.

    Returns
    -------
    tuple of Line
        The same words; a rule ends a cell however close to it they stand.
    """
    return tuple(Line(tuple(_cut(line, grey)), line.height) for line in lines)


def cut_between_numbers(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Cut the cells of lines between two numbers where the next line has the same gap between two numbers.

    Parameters
    ----------
    lines : sequence of Line
        From the top of the page.
    """
    least = max(APART, OVER_SPACE * _space(lines))
    gaps = [_number_gaps(line, least) for line in lines]
    cut: list[Line] = []
    for at, line in enumerate(lines):
        near = [n for n in (at - 1, at + 1) if 0 <= n < len(lines) and _follow(lines[min(n, at)], lines[max(n, at)])]
        others = [gap for n in near for gap in gaps[n]]
        own = [gap for gap in gaps[at] if any(_shared(gap, other) > SHARED * line.height for other in others)]
        cut.append(Line(tuple(part for cell in line.cells for part in _at_gaps(cell, own)), line.height))
    return tuple(cut)


def cut_over_columns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Cut heads that stand close together: where each part of a cell stands over a column of the lines below it.

    Parameters
    ----------
    lines : sequence of Line
        From the top of the page.
    """
    cut: list[Line] = []
    for at, line in enumerate(lines):
        below = _columns_below(lines, at)
        cut.append(Line(tuple(part for cell in line.cells for part in _heads(cell, below, line.height)), line.height))
    return tuple(cut)


def _columns_below(lines: Sequence[Line], at: int) -> tuple[Cell, ...]:
    """Give the cells of the next lines' widest one that holds numbers: the columns that heads stand over."""
    found: tuple[Cell, ...] = ()
    for number in range(at, min(at + HEAD_LINES, len(lines) - 1)):
        if not _follow(lines[number], lines[number + 1]):
            break
        cells = lines[number + 1].cells
        numbers = sum(any(c.isdigit() for c in cell.text) for cell in cells)
        found = cells if numbers > 1 and len(cells) > len(found) else found
    return found


def _heads(cell: Cell, columns: Sequence[Cell], height: float) -> list[Cell]:
    """Cut a cell over several columns, if its parts begin, end or have their middles where the columns have."""
    left, _, right, _ = cell.box
    under = [one.box for one in columns if min(one.box[2], right) - max(one.box[0], left) > 0]
    if not 2 <= len(under) <= len(cell.words):
        return [cell]
    parts = _at_gaps(cell, _widest_gaps(cell, len(under) - 1, height))
    if _aside(parts, under) < ALIGNED * height:
        return parts
    for parts in (_by_beginnings(cell, under), _by_ends(cell, under)) if len(under) >= SEVERAL else ():
        if _aside(parts, under) < EXACT * height:
            return parts
    return [cell]


def _widest_gaps(cell: Cell, count: int, height: float) -> list[tuple[float, float]]:
    """Give the widest gaps between a cell's words; none where they are spaces, or the next ones hardly narrower."""
    gaps = sorted(((a.box[2], b.box[0]) for a, b in pairwise(cell.words)), key=lambda gap: gap[0] - gap[1])
    chosen, rest = gaps[:count], gaps[count:]
    narrow = min(b - a for a, b in chosen)
    clear = narrow > HEADS_APART * height and all(b - a < narrow / WIDER for a, b in rest)
    return chosen if clear else []


def _by_beginnings(cell: Cell, columns: Sequence[Box]) -> list[Cell]:
    """Cut a cell before the words that begin nearest to where columns begin."""
    first = [min(cell.words, key=lambda word: abs(word.box[0] - one[0])) for one in columns[1:]]
    return _at_gaps(cell, [(a.box[2], b.box[0]) for a, b in pairwise(cell.words) if b in first])


def _by_ends(cell: Cell, columns: Sequence[Box]) -> list[Cell]:
    """Cut a cell behind the words that end nearest to where columns end."""
    last = [min(cell.words, key=lambda word: abs(word.box[2] - one[2])) for one in columns[:-1]]
    return _at_gaps(cell, [(a.box[2], b.box[0]) for a, b in pairwise(cell.words) if a in last])


def _aside(parts: Sequence[Cell], columns: Sequence[Box]) -> float:
    """Say how far parts stand from columns at the most: by their beginnings, their ends or their middles."""
    if len(parts) != len(columns):
        return float("inf")
    beginnings = [part.box[0] - one[0] for part, one in zip(parts, columns, strict=True)]
    ends = [part.box[2] - one[2] for part, one in zip(parts, columns, strict=True)]
    middles = [(a + b) / 2 for a, b in zip(beginnings, ends, strict=True)]
    return min(max(map(abs, way)) for way in (beginnings, ends, middles))


def _space(lines: Sequence[Line]) -> float:
    """Give the usual space between words of letters, in heights."""
    spaces = [
        (b.box[0] - a.box[2]) / line.height
        for line in lines for cell in line.cells for a, b in pairwise(cell.words)
        if a.text.isalpha() and b.text.isalpha()
    ]  # fmt: skip
    return median(spaces) if len(spaces) >= FEWEST_SPACES else USUAL_SPACE


def _number_gaps(line: Line, least: float) -> list[tuple[float, float]]:
    """Give the gaps of a line between two numbers, or a number and a sign, that are too wide for a space."""
    return [
        (a.box[2], b.box[0])
        for a, b in pairwise(line.words)
        if NUMBER.fullmatch(a.text) and NUMBER.fullmatch(b.text)
        and any(c.isdigit() for c in a.text + b.text) and b.box[0] - a.box[2] > least * line.height
    ]  # fmt: skip


def _follow(upper: Line, lower: Line) -> bool:
    return lower.box[1] - upper.box[3] < NEXT_LINE * max(upper.height, lower.height)


def _shared(one: tuple[float, float], other: tuple[float, float]) -> float:
    return min(one[1], other[1]) - max(one[0], other[0])


def _at_gaps(cell: Cell, gaps: Sequence[tuple[float, float]]) -> list[Cell]:
    parts: list[list[Word]] = [[cell.words[0]]]
    for before, word in pairwise(cell.words):
        if (before.box[2], word.box[0]) in gaps:
            parts.append([])
        parts[-1].append(word)
    return [Cell(tuple(part)) for part in parts]


def _cut(line: Line, grey: Pixels) -> list[Cell]:
    gaps = [
        (a.box[2], b.box[0]) for cell in line.cells for a, b in pairwise(cell.words) if _ruled(a, b, grey)
    ]  # fmt: skip
    return [part for cell in line.cells for part in _at_gaps(cell, gaps)]


def _ruled(before: Word, word: Word, grey: Pixels) -> bool:
    """Say whether a rule runs down between two words: dark above, beside and below their letters alike."""
    left, right = round(before.box[2]) - INSIDE, round(word.box[0]) + INSIDE
    top, bottom = min(before.box[1], word.box[1]), max(before.box[3], word.box[3])
    reach = BEYOND * (bottom - top)
    around = grey[max(round(top - reach), 0) : round(bottom + reach) + 1, max(left, 0) : right + 1]
    if around.size == 0 or around.shape[0] < bottom - top + reach:
        return False
    paper = float(np.quantile(around, PAPER))
    return bool((np.mean(around < paper - DARKER, axis=0) > 1 - HOLES).any())
