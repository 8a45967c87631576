"""Word scores against the published table, entry by entry."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.interpret.rules.speech.critical_difference import critically_different, difference, score_range

PUBLISHED = Path(__file__).parents[3] / "published" / "word_score_critical_differences_95.csv"
ROWS = list(csv.DictReader(PUBLISHED.read_text("utf-8").splitlines()))


@pytest.mark.parametrize("words", [10, 25, 50, 100])
def test_every_range_is_that_of_the_table(words: int) -> None:
    rows = [row for row in ROWS if int(row["n_words"]) == words]
    assert len(rows) == words + 1
    for row in rows:
        assert score_range(float(row["score_pct"]), words) == (float(row["low_pct"]), float(row["high_pct"])), row


# Thornton and Raffin 1978, entries of the published table.
@pytest.mark.parametrize(
    ("words", "score", "low", "high"),
    [(25, 48, 24, 72), (25, 80, 56, 96), (25, 92, 72, 100), (50, 50, 32, 68), (50, 80, 64, 92), (50, 92, 78, 98),
     (100, 50, 37, 63)],
)  # fmt: skip
def test_published_entries(words: int, score: float, low: float, high: float) -> None:
    assert score_range(score, words) == (low, high)


def test_a_score_inside_of_the_range_is_not_different_and_one_word_from_the_edge_is_borderline() -> None:
    # 50 words, 80 %: 64 to 92 (Thornton and Raffin 1978); one word is 2 %.
    assert difference(80, 50, 78, 50) == "not different"
    assert difference(80, 50, 64, 50) == "borderline"
    assert difference(80, 50, 62, 50) == "borderline"
    assert difference(80, 50, 50, 50) == "different"


PERCENT = st.integers(0, 25).map(lambda right: 4.0 * right)


@given(PERCENT, PERCENT, st.sampled_from((25, 50, 100)), st.sampled_from((25, 50, 100)))
def test_the_order_of_the_scores_does_not_matter(one: float, other: float, n: int, m: int) -> None:
    assert difference(one, n, other, m) == difference(other, m, one, n)


@given(PERCENT, PERCENT)
def test_longer_lists_never_hide_a_difference(one: float, other: float) -> None:
    assert not critically_different(one, 25, other, 25) or critically_different(one, 50, other, 50)


@given(PERCENT, st.sampled_from((25, 50)))
def test_a_score_is_not_different_from_itself(score: float, words: int) -> None:
    assert not critically_different(score, words, score, words)
