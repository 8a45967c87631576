"""Rows whose names and cells are wrapped over several lines: a wider gap stands between two rows than within one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import chain, pairwise

from ...cells.legend import masking_by_notes
from ..vocabulary import NAMING, kinds_of, name_of, parts_of
from .merged import Printed, says_something

NARROWER = 0.8
"""Lines of one row stand so much nearer to each other, by the paper between them, than those of two rows."""
FEWEST_ROWS = 2


def in_blocks(lines: Sequence[Printed]) -> tuple[list[Printed], list[Printed]]:
    """Join the lines of each row where the gaps between a table's lines show what is one row.

    Parameters
    ----------
    lines : sequence of tuple
        The printed lines below a row of frequencies, from the top down.

    Returns
    -------
    tuple of list
        The rows, and the lines below them, which are left as they are; no rows where the gaps do not show them, or
        where no row has several lines.

    Notes
    -----
    What the gaps say is held against what the lines say: each row has a name that is understood, names no ear and no
    conduction twice, and has one number a cell at most.
    """
    note = next((i for i, (_, cells, beside) in enumerate(lines) if not any(cells) and masking_by_notes(beside)), None)
    table = lines[:note]  # a note under the last row is no part of its name
    spans = [_span(line) for line in table]
    gaps = [below[0] - above[1] for above, below in pairwise(spans)]
    best: list[list[int]] = []
    for least in sorted({gap for gap in gaps if gap > 0}):
        blocks = _rows_from_top(table, gaps, least)
        if len(blocks) >= FEWEST_ROWS and _apart(blocks, gaps) and _worth(blocks) > _worth(best):
            best = blocks
    if all(len(block) == 1 for block in best):
        return [], list(lines)
    return [_joined([lines[i] for i in block]) for block in best], list(lines[sum(map(len, best)) :])


def _span(line: Printed) -> tuple[float, float]:
    words = [*chain.from_iterable(line[1]), *line[2]]
    return min(w.box[1] for w in words), max(w.box[3] for w in words)


def _rows_from_top(lines: Sequence[Printed], gaps: Sequence[float], least: float) -> list[list[int]]:
    """Part lines at gaps of at least this much, and give the first parts up to one that is no row."""
    blocks: list[list[int]] = [[0]]
    for number, gap in enumerate(gaps, 1):
        if gap >= least:
            blocks.append([])
        blocks[-1].append(number)
    end = next((n for n, block in enumerate(blocks) if not _is_row([lines[i] for i in block])), len(blocks))
    return blocks[:end]


def _apart(blocks: Sequence[Sequence[int]], gaps: Sequence[float]) -> bool:
    """Say whether all gaps within rows are clearly narrower than those between them."""
    within = [gaps[i] for block in blocks for i in block[:-1]]
    between = [gaps[block[-1]] for block in blocks[:-1]]
    return max(within, default=0.0) < NARROWER * min(between)


def _worth(blocks: Sequence[Sequence[int]]) -> tuple[int, int]:
    return sum(map(len, blocks)), len(blocks)


def _is_row(lines: Sequence[Printed]) -> bool:
    name, cells = [w for line in lines for w in line[2]], [line[1] for line in lines]
    said = name_of(name)
    kinds = Counter(kind for w in name for part in parts_of(w.text) for kind in kinds_of(part)[0] & NAMING)
    numbers = [sum(any(c.isdigit() for c in w.text) for line in cells for w in line[k]) for k in range(len(cells[0]))]
    return (
        said.told and not said.other and max(kinds.values(), default=0) == 1 and sum(numbers) > 0
        and max(numbers) == 1 and (len(lines) == 1 or says_something(_joined(lines)[1]))
    )  # fmt: skip


def _joined(lines: Sequence[Printed]) -> Printed:
    cells = [[w for line in lines for w in line[1][k]] for k in range(len(lines[0][1]))]
    middle = (min(_span(line)[0] for line in lines) + max(_span(line)[1] for line in lines)) / 2
    return middle, cells, [w for line in lines for w in line[2]]
