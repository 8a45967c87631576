"""A fact in the making: what it would say, the words that say so, and what speaks against it."""

from __future__ import annotations

from dataclasses import dataclass, field

from ....interpret.record import FactName
from ...page import Word
from ..lines import box_around
from .printed.labels import Label
from .printed.pairs import Place


@dataclass(frozen=True, slots=True)
class Draft:
    """One fact before its probability is known.

    Attributes
    ----------
    name, value, written
        As of a ``Fact``.
    words : tuple of Word
        The words that say it, in sheet pixels; their letters must all be right for the value to be.
    label : Label or None
        The label that announces it; None where it stands there without one.
    place : str
        Where it stands by its label.
    why_ask : tuple of str
        Codes of what forbids it to be sure.
    strict : bool
        Its form allows few texts alone (a date, a time, a choice), so that a slip would hardly fit.
    slips : int
        Letters of the value that must have been misread.
    lines : int
        How many lines it runs over.
    """

    name: FactName
    value: str
    written: str
    words: tuple[Word, ...]
    label: Label | None
    place: Place | None = "beside"
    why_ask: tuple[str, ...] = field(default=())
    strict: bool = False
    slips: int = 0
    lines: int = 1

    @property
    def at(self) -> tuple[float, float, float, float]:
        """The box around its words, in sheet pixels."""
        return box_around(self.words)
