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


def test_levels_that_lost_their_hundreds_on_a_copy_are_those_at_their_places() -> None:
    # 100, 110 and 120 had lost their first digits: 0, 10 and 20 at the foot made a chart of their own, without marks
    words = tuple(replace(w, text=w.text[1:].removeprefix("0") or "0") if len(w.text) == 3 and w.text > "1" else w
                  for w in level_words())  # fmt: skip
    assert [w.text for w in words[-3:]] == ["0", "10", "20"]
    runs = level_runs(words)
    assert sorted(value for run in runs for value in run.values) == list(LEVELS)
