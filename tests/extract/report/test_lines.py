"""Lines and cells of words placed by hand."""

from __future__ import annotations

from by_hand import word
from hypothesis import given
from hypothesis import strategies as st

from octavo.extract.report.lines import lines_of


def texts(*words) -> list[list[str]]:
    return [[cell.text for cell in line.cells] for line in lines_of(words)]


def test_words_of_one_height_are_a_line_and_a_wide_gap_ends_a_cell() -> None:
    assert texts(word("Ada", 148, 50), word("Name:", 100, 50), word("Born:", 500, 51), word("below", 130, 90)) == [
        ["Name: Ada", "Born:"], ["below"],
    ]  # fmt: skip


def test_a_line_that_leans_a_little_stays_one() -> None:
    leaning = [word("word", 100 + 70 * k, 50 + 0.7 * k) for k in range(12)]
    assert len(lines_of(leaning)) == 1


def test_two_lines_close_together_stay_two() -> None:
    assert texts(word("upper", 100, 50), word("lower", 160, 66), word("upper2", 220, 50)) == [
        ["upper", "upper2"], ["lower"],
    ]  # fmt: skip


def test_words_on_their_side_are_left_out() -> None:
    assert texts(word("up", 100, 50, upright=90)) == []


@given(st.permutations(range(9)))
def test_the_order_in_which_words_come_changes_nothing(order: list[int]) -> None:
    words = [word(f"w{k}", 100 + 90 * (k % 3), 50 + 30 * (k // 3)) for k in range(9)]
    assert lines_of([words[k] for k in order]) == lines_of(words)
