"""The page number that a page prints."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.extract.page import Word
from octavo.extract.report.lines import lines_of
from octavo.extract.report.paging import read_page_number
from octavo.extract.sheet import Sheet

SHEET = Sheet(np.zeros((1000, 800, 3), np.uint8), np.eye(3), (800, 1000), "scan", (), (), 0.0)


def printed(text: str, y: float = 950.0, *, confidence: float = 0.99, others: tuple[str, ...] = ()) -> list[Word]:
    words, x = [], 100.0
    for part in text.split():
        more = tuple((other, 0.9) for other in others) if any(map(str.isdigit, part)) else ()
        words.append(Word(part, (x, y, x + 10 * len(part), y + 20), confidence, others=more))
        x += 10 * len(part) + 6
    return words


def values(*words: list[Word]) -> list[str]:
    return [fact.value for fact in read_page_number(SHEET, lines_of([w for one in words for w in one]))]


@pytest.mark.parametrize(
    "text",
    [
        "Page 2 of 3",
        "page 2/3",
        "PAGE: 2 / 3",
        "Seite 2 von 3",
        "Página 2 de 3",
        "Page 2 sur 3",
        "Brandt, Kira Page 2 of 3",
    ],
)
def test_page_numbers_in_four_languages(text: str) -> None:
    assert values(printed(text)) == ["2/3"]


@pytest.mark.parametrize(
    "text", ["2 of 3", "Page 4 of 3", "Page 0 of 2", "Page two of three", "Webpage 2 of 3", "List 2 of 3"]
)
def test_what_is_no_page_number_gives_none(text: str) -> None:
    assert values(printed(text)) == []


def test_numbers_that_differ_or_are_in_doubt_give_none() -> None:
    assert values(printed("Page 1 of 3", 20), printed("Page 2 of 3")) == []
    assert values(printed("Page 2 of 3", 20), printed("Page 2 of 3")) == ["2/3"]
    assert values(printed("Page 2 of 3", confidence=0.7)) == []
    assert values(printed("Page 2/3", others=("7/3",))) == []
    assert values(printed("Page 2/3", others=("2/3",))) == ["2/3"]


def test_the_place_is_that_of_the_number_and_its_words() -> None:
    (fact,) = read_page_number(SHEET, lines_of(printed("Page 2 of 3")))
    assert fact.box == pytest.approx((100.5 / 800, 950.5 / 1000, 198.5 / 800, 970.5 / 1000))
    assert (fact.written, fact.standing) == ("Page 2 of 3", "sure")
