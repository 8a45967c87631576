"""One table's rows as data: what each is named, its cells, and what is doubtful of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...page import Word
from ..cells.numbers import said_by
from .lines import Line
from .vocabulary import Name


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
    of_reflexes: bool = False
    """It holds acoustic reflexes, and nothing else."""


def usable(name: Name) -> bool:
    """Say whether a name is one of a row of thresholds: of an ear, or of the room."""
    return not name.torn and not name.other and (name.ear is not None or name.conduction == "field")


def row_of(name: Name, title: Name, across: float, cells: list[list[Word]], *, heir: bool) -> Row:
    """Give a row under its table's title; ``heir`` as in ``Row``."""
    whole = name.under(title) if name.ear is None or name.conduction is None else name
    doubtful = bool(name.unknown or whole.conduction is None or whole.two)
    doubtful |= whole is not name and title.unknown > 0 and (whole.ear, whole.conduction) != (name.ear, name.conduction)
    # "Uncomfortable levels" or "Aided" over rows that do not say it: of all of them, or of some?
    doubtful |= title.measure not in (None, name.measure) or (title.aided is True and whole.aided is None)
    return Row(whole, across, tuple(tuple(cell) for cell in cells), doubtful, heir)


def has_levels(cells: Sequence[Sequence[Word]]) -> bool:
    """Say whether at least half of a row's cells hold levels, so that it may be one of thresholds."""
    levels = [said_by(" ".join(w.text for w in cell)).kind == "level" for cell in cells]
    return 2 * sum(levels) >= len(levels)


def words_of(cells: Sequence[Sequence[Word]]) -> list[Word]:
    """Give the words of all cells of a row."""
    return [w for cell in cells for w in cell]


def meet(one: Line, other: Line) -> bool:
    """Say whether two lines of frequencies stand over each other along them."""
    return one.at[0] < other.at[-1] and one.at[-1] > other.at[0]
