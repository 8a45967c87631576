"""Rows of hazy words on coarse faxes: numbers that count on from column to column are no frequencies."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from octavo.extract.eyes import see_areas
from octavo.extract.eyes.words.evenly import COUNTS, likelier_in_steps
from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.extract.straighten import straighten
from octavo.tools.train.kept.order import Order, painted


def said(numbers: tuple[int | None, ...], chance: float) -> np.ndarray:
    """Give the chances of words that say these numbers."""
    counts = np.full((len(numbers), len(COUNTS)), -20.0)
    for word, number in enumerate(numbers):
        if number is not None:
            counts[word, number] = chance
    return counts


def test_words_that_are_likelier_one_to_seven_than_five_labels_count_on() -> None:
    at = np.array([200.0 * i for i in range(7)], np.float64)
    labels = {0: -1.0, 1: -1.0, 2: -1.0, 3: -1.0, 4: -3.0}
    assert likelier_in_steps(at, said((1, 2, 3, 4, 5, 6, 7), -0.5), labels)


def test_a_lost_number_leaves_the_others_counting_on() -> None:
    at = np.array([0, 200, 400, 600, 800, 1200, 1400], np.float64)
    labels = {0: -1.0, 1: -1.0, 2: -1.0, 3: -1.0, 4: -3.0}
    assert likelier_in_steps(at, said((1, 2, 3, 4, 5, 7, 8), -0.5), labels)


def test_a_row_of_even_columns_from_1_to_8_khz_does_not_count_on() -> None:
    at = np.array([200.0 * i for i in range(8)], np.float64)  # .25 .5 1 2 3 4 6 8
    labels = dict.fromkeys(range(8), -1.0)
    assert not likelier_in_steps(at, said((None, None, 1, 2, 3, 4, 6, 8), -1.0), labels)


def test_words_off_the_columns_of_the_labels_say_nothing() -> None:
    at = np.array([0.0, 200, 400, 600, 890, 1090, 1310])
    assert not likelier_in_steps(at, said((1, 2, 3, 4, 5, 6, 7), 0.0), dict.fromkeys(range(4), -1.0))


@pytest.mark.parametrize("seed", [97300005, 97300021])
def test_a_coarse_fax_of_a_plot_over_even_numbers_has_no_chart(tmp_path: Path, seed: int) -> None:
    (page,) = pages(painted(Order("downward", seed, "fax-coarse", mono=True), str(tmp_path)).path)
    assert isinstance(page, Page)
    assert not see_areas(straighten(page))
