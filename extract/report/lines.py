"""Words to lines and cells: what stands on one height of the page, cut at wide gaps, from top to bottom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from ..page import Word

Box = tuple[float, float, float, float]

CELL_GAP = 1.3
"""A gap wider than so many heights of the letters ends a cell: a space is a third of the height of capitals wide."""
SHARED = 0.5
"""Words of a line share at least this part of the lower one's height."""
STEP = 0.45
"""The middle of the next word of a line lies at most so far off, in heights of the higher one."""
RAISED, CLOSE, TOUCHING = frozenset("*†‡§"), 0.35, 0.2
"""Signs that stand raised behind a word: so near, in its height, and with this part of their own on its line."""
LOOK_BACK = 25.0
"""Words so many heights apart are never put on one line for each other's sake: the paper may be bent."""


@dataclass(frozen=True, slots=True)
class Cell:
    """Words of a line that stand close together, from left to right; boxes in sheet pixels."""

    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        """The words with single spaces."""
        return " ".join(word.text for word in self.words)

    @property
    def box(self) -> Box:
        """The box around its words."""
        return box_around(self.words)


@dataclass(frozen=True, slots=True)
class Line:
    """The words on one height of the page, from left to right, in cells; ``height`` is that of its letters."""

    cells: tuple[Cell, ...]
    height: float

    @property
    def words(self) -> tuple[Word, ...]:
        """All its words."""
        return tuple(word for cell in self.cells for word in cell.words)

    @property
    def text(self) -> str:
        """Its words, two spaces between cells."""
        return "  ".join(cell.text for cell in self.cells)

    @property
    def box(self) -> Box:
        """The box around its words."""
        return box_around(self.words)


def box_around(words: Sequence[Word]) -> Box:
    """Give the box around one word or more."""
    return (
        min(w.box[0] for w in words), min(w.box[1] for w in words),
        max(w.box[2] for w in words), max(w.box[3] for w in words),
    )  # fmt: skip


def lines_of(words: Sequence[Word]) -> tuple[Line, ...]:
    """Put words into lines and cells.

    Parameters
    ----------
    words : sequence of Word
        In sheet pixels, in any order; words that stand on their side are left out.

    Returns
    -------
    tuple of Line
        From top to bottom. A line runs across the whole page; columns beside each other are cells of one line.
    """
    rows: list[list[Word]] = []
    for word in sorted((w for w in words if not w.upright), key=lambda w: w.box[0]):
        fitting = [row for row in rows if _on_line(row[-1], word)]
        if fitting:
            min(fitting, key=lambda row: abs(_middle(row[-1]) - _middle(word))).append(word)
        else:
            rows.append([word])
    rows.sort(key=lambda row: (median(_middle(w) for w in row), row[0].box[0]))
    return tuple(_line(row) for row in rows)


BAR = "|"


def cut_at_bars(lines: Sequence[Line]) -> tuple[Line, ...]:
    """End cells at bars that stand alone between words, and leave the bars out."""
    return tuple(cut for line in lines if (cut := _without_bars(line)).cells)


def _without_bars(line: Line) -> Line:
    cells: list[Cell] = []
    for cell in line.cells:
        parts: list[list[Word]] = [[]]
        for word in cell.words:
            if word.text == BAR:
                parts.append([])
            else:
                parts[-1].append(word)
        cells += [Cell(tuple(part)) for part in parts if part]
    return Line(tuple(cells), line.height)


def _middle(word: Word) -> float:
    return (word.box[1] + word.box[3]) / 2


def _on_line(last: Word, word: Word) -> bool:
    one, other = last.box[3] - last.box[1], word.box[3] - word.box[1]
    low, high = min(one, other), max(one, other)
    shared = min(last.box[3], word.box[3]) - max(last.box[1], word.box[1])
    if RAISED.issuperset(word.text) and abs(word.box[0] - last.box[2]) < CLOSE * one and word.box[1] < last.box[1]:
        return shared > TOUCHING * low
    near = word.box[0] - last.box[2] < LOOK_BACK * high
    step = STEP * high if near else 0.5 * STEP * high
    return shared > SHARED * low and abs(_middle(last) - _middle(word)) < step and word.box[0] > last.box[0] + 0.2 * low


def _line(row: list[Word]) -> Line:
    height = median(w.box[3] - w.box[1] for w in row)
    cells: list[list[Word]] = [[row[0]]]
    for word in row[1:]:
        if word.box[0] - cells[-1][-1].box[2] > CELL_GAP * height:
            cells.append([word])
        else:
            cells[-1].append(word)
    return Line(tuple(Cell(tuple(cell)) for cell in cells), height)
