"""What a read word teaches of the readers, against what the page prints."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.extract.page import Word
from octavo.extract.report.trust import Said
from octavo.tools.train.words_fit import judged

PRINTED, BOXES = ["Name:", "Pure-tone", "0,5"], np.array([[0, 0, 50, 20], [60, 0, 150, 20], [160, 0, 190, 20]], float)


def right(text: str, left: float, end: float) -> list[bool]:
    word = Word(text, (left, 2, end, 18))
    said = Said(text, 0.9)
    return [one for _, one in judged([(word, (said, said, said))], PRINTED, BOXES)]


@pytest.mark.parametrize(("text", "left", "end", "is_right"), [("Name", 0, 48, True), ("Nane:", 0, 50, False)])
def test_a_word_is_right_but_for_the_stop_at_its_end(text: str, left: float, end: float, is_right: bool) -> None:
    assert right(text, left, end) == [is_right]


def test_a_decimal_comma_read_as_a_point_is_the_same_number() -> None:
    assert right("0.5", 160, 190) == [True]


def test_a_part_of_a_word_and_a_word_where_none_is_printed_teach_nothing() -> None:
    assert right("tone", 104, 150) == right("dirt", 300, 330) == []
