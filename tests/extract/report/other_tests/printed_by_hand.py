"""Pages made of text alone, laid out as it stands in the test: each letter has its own place."""

from __future__ import annotations

import re

import numpy as np

from octavo.extract.page import Word
from octavo.extract.report.lines import lines_of
from octavo.extract.report.other_tests import OtherTests, read_other_tests
from octavo.extract.report.ruled import cut_into_columns
from octavo.extract.shades import grey_of
from octavo.extract.sheet import Sheet

LETTER_PX, LINE_PX, HIGH_PX = 6, 18, 10


def words_of(text: str, *, confidence: float = 1.0) -> tuple[Word, ...]:
    """Lay out a text: a letter is 6 px wide and 10 px high, lines are 18 px apart."""
    return tuple(
        Word(
            found.group(),
            (
                30 + LETTER_PX * found.start(),
                30 + LINE_PX * row,
                30 + LETTER_PX * found.end(),
                30 + LINE_PX * row + HIGH_PX,
            ),
            confidence,
        )
        for row, line in enumerate(text.splitlines())
        for found in re.finditer(r"\S+", line)
    )


def sheet_of(words: tuple[Word, ...]) -> Sheet:
    blank = np.full((1200, 1000, 3), 255, np.uint8)
    return Sheet(blank, np.eye(3), (1000, 1200), "drawn", words, (), 0.0, words_given=True)


def read(text: str, *, confidence: float = 1.0) -> OtherTests:
    """Read the other tests of a drawn page with this text."""
    words = words_of(text, confidence=confidence)
    sheet = sheet_of(words)
    return read_other_tests(cut_into_columns(lines_of(words), grey_of(sheet.pixels)), sheet)
