"""How certain a value is by the words that it was read from."""

from __future__ import annotations

import pytest
from printed_by_hand import sheet_of

from octavo.extract.report.layout.tokens import Token
from octavo.extract.report.other_tests.evidence import judge

WORD, BESIDE = (30.0, 30.0, 90.0, 40.0), (100.0, 31.0, 130.0, 41.0)


def number(text: str, box: tuple[float, float, float, float], chance: float) -> Token:
    return Token("number", text, box, chance, 0, value=float(text))


def test_a_word_of_three_numbers_is_doubted_once() -> None:
    """ "0.5/1/2" was read right or not at all, and its doubt was counted for each of its numbers."""
    one = judge(sheet_of(()), "average", [number("0.5", WORD, 0.9)], ())
    three = judge(sheet_of(()), "average", [number(text, WORD, 0.9) for text in ("0.5", "1", "2")], ())
    assert three.probability == one.probability


def test_two_words_are_doubted_each() -> None:
    both = judge(sheet_of(()), "average", [number("1", WORD, 0.9), number("2", BESIDE, 0.9)], ())
    assert both.probability == pytest.approx(0.999 * 0.81, abs=1e-4)


def test_a_word_of_a_checked_number_and_another_is_doubted_in_full() -> None:
    checked, other = number("1", WORD, 0.9), number("2", WORD, 0.9)
    found = judge(sheet_of(()), "average", [checked, other], (), [checked])
    assert found.probability == pytest.approx(0.999 * 0.9, abs=1e-4)
