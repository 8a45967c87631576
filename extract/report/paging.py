"""The page number that a page prints of itself: page 2 of 3."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...interpret.record import Box, Fact
from ..page import Word
from ..sheet import Sheet
from .lines import Cell, Line, box_around

_PRINTED = re.compile(
    r"\b(?:page|pg\.?|p\.|seite|s\.|blatt|página|pagina|pág\.?|hoja|feuille)\s*:?\s*(\d{1,3})\s*"
    r"(?:/|of|von|de|sur)\s*(\d{1,3})\b",
    re.IGNORECASE,
)
"""As reports in English, German, Spanish and French print it (common practice)."""
LEAST_CONFIDENCE = 0.9


def read_page_number(sheet: Sheet, lines: Sequence[Line]) -> tuple[Fact, ...]:
    """Read which page of how many the page says that it is.

    Parameters
    ----------
    sheet : Sheet
        For the place on the page.
    lines : sequence of Line
        The sheet's lines of words.

    Returns
    -------
    tuple of Fact
        One, with a value such as ``2/3``; none where the page prints none, where it prints several that differ, where a
        word of it was read with doubt, or where the number cannot be.
    """
    found: dict[str, Fact] = {}
    for cell in (cell for line in lines for cell in line.cells):
        told = _PRINTED.search(cell.text)
        if told is None:
            continue
        words = _words_in(cell, told.start(), told.end())
        page, pages = int(told[1]), int(told[2])
        if not 1 <= page <= pages or not all(map(_is_certain, words)):
            return ()
        value = f"{page}/{pages}"
        chance = min(word.confidence for word in words)
        found[value] = Fact("page-number", value, told[0], _on_page(sheet, words), chance, "sure")
    return tuple(found.values()) if len(found) == 1 else ()


def _words_in(cell: Cell, start: int, end: int) -> tuple[Word, ...]:
    """Give the words of a cell that a stretch of its text runs over."""
    found: list[Word] = []
    at = 0
    for word in cell.words:
        if at < end and at + len(word.text) > start:
            found.append(word)
        at += len(word.text) + 1
    return tuple(found)


def _is_certain(word: Word) -> bool:
    """Say whether a word was read without doubt: a number by both readings alike, where it had to be read."""
    if word.confidence < LEAST_CONFIDENCE:
        return False
    digits = re.sub(r"\D", "", word.text)
    return not digits or not word.others or any(re.sub(r"\D", "", text) == digits for text, _ in word.others)


def _on_page(sheet: Sheet, words: Sequence[Word]) -> Box:
    left, top, right, bottom = box_around(words)
    corners = [sheet.on_page(x, y) for x in (left, right) for y in (top, bottom)]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)
