"""A report's cells: labels with what stands beside them, and the facts that they state."""

from __future__ import annotations

from dataclasses import dataclass

from ....interpret.record import FactName
from .dates import DateStyle
from .languages import Language


@dataclass(frozen=True, slots=True)
class Piece:
    """Words of a cell; ``fact`` is the number of the fact that they state, None where they state none."""

    text: str
    fact: int | None = None


@dataclass(frozen=True, slots=True)
class Cell:
    """A label with what stands beside it: words, or a row of tick boxes whose ticked ones state ``fact``."""

    label: str
    pieces: tuple[Piece, ...] = ()
    boxes: tuple[tuple[str, bool], ...] = ()
    fact: int | None = None
    long: bool = False
    """Needs a line of its own."""


@dataclass(frozen=True, slots=True)
class ToldFact:
    """The truth of one fact; ``open`` where the page leaves it to the reader, as a date that may be of two months."""

    name: FactName
    value: str
    open: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """All that a report's head and foot tell."""

    cells: tuple[Cell, ...]
    facts: tuple[ToldFact, ...]
    tested_on: str
    language: Language
    style: DateStyle
