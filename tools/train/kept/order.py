"""Which painted pages are wanted, as words of the command line, and one such page as a file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from ....interpret.record import PageRecord
from ...painter import FAMILIES, paint, render
from ...painter.spoiling import shown, spoil, write_file
from ...painter.truth import PaintedMark

SUFFIX = {"drawn": ".pdf", "scan": ".png", "copy": ".png", "photo": ".jpg"}
"""File suffixes by way; faxes are TIFF."""
NO_CHART = frozenset({"none", "wild", "pen-table", "printed-table", "facts", "facts-pen"})
BY_HAND = frozenset({"by-hand", "pen"})


@dataclass(frozen=True, slots=True)
class Order:
    """One page: its family, seed, way of spoiling (or ``drawn``), and whether it is painted in black alone."""

    family: str
    seed: int
    way: str
    mono: bool


@dataclass(frozen=True, slots=True)
class Painted:
    """A page as a file, with what is true of it and its marks in the file's pixels."""

    path: Path
    truth: PageRecord
    marks: tuple[PaintedMark, ...]


def orders(wanted: str) -> list[Order]:
    """Give the pages of ``WAY:FIRST:PAGES:SPLIT:INK:HANDS``, families in turn.

    SPLIT is ``train`` or ``bench``, INK ``mono`` or ``colour``, HANDS ``print`` or ``pen``.

    Raises
    ------
    ValueError
        If the words are not such an order.
    """
    way, first, pages, split, ink, hands = wanted.split(":")
    named = [
        name
        for name, family in FAMILIES.items()
        if family.split == split and not family.tags & NO_CHART and bool(family.tags & BY_HAND) == (hands == "pen")
    ]
    return [Order(named[i % len(named)], int(first) + i, way, ink == "mono") for i in range(int(pages))]


def painted(order: Order, folder: str) -> Painted:
    """Paint the page, spoil it, and write its file into ``folder``."""
    page = paint(order.family, order.seed, mono=order.mono)
    path = Path(folder) / ("page" + SUFFIX.get(order.way, ".tif"))
    if order.way == "drawn":
        path.write_bytes(page.pdf)
        return Painted(path, page.record, page.marks)
    spoiled = spoil(render(page.pdf, 300), order.way, order.seed, dpi=300)
    write_file(spoiled, order.way, path)
    seen = shown(page, spoiled)
    return Painted(path, seen.record, seen.marks)
