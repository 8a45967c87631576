"""What a word of a column of levels may say, where it was read in several ways."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import LEVELS, level_words

from octavo.extract.eyes.axes.level import level_runs


@pytest.mark.parametrize(("first", "second"), [("-10", "- 10"), ("- 10", "-10"), ("-10", "\u221210")])
def test_minus_ten_with_and_without_a_space_are_one_level_and_their_chances_add_up(first: str, second: str) -> None:
    words = list(level_words())
    words[0] = replace(words[0], text=first, confidence=0.5, others=((second, 0.3), ("40", 0.1)))
    (run,) = level_runs(tuple(words))
    assert run.values == LEVELS
    assert run.confidences[0] == pytest.approx(0.8)


def test_the_chances_of_one_level_add_up_to_no_more_than_certainty() -> None:
    words = list(level_words())
    words[0] = replace(words[0], confidence=0.9, others=(("- 10", 0.3),))
    (run,) = level_runs(tuple(words))
    assert run.confidences[0] == 1.0
