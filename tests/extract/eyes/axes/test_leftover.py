"""Something like a chart that was not read must not pass in silence."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import LEFT, SIZE, frequency_words, grid_picture, level_words, word

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.axes.leftover import chart_like
from octavo.tools.painter import paint, render

BLANK = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)


def test_a_grid_without_labels_looks_like_a_chart() -> None:
    assert chart_like(grid_picture(), (), ())


@pytest.mark.parametrize("ink", [200, 225])
def test_a_faint_grid_looks_like_a_chart_too(ink: int) -> None:
    assert chart_like(grid_picture(ink=ink), (), ())


def test_a_row_of_audiometric_frequencies_without_levels_looks_like_a_chart() -> None:
    assert chart_like(BLANK, frequency_words(), ())


def test_a_chart_that_was_found_is_not_left_over() -> None:
    words = frequency_words() + level_words()
    areas = chart_areas(words, SIZE)
    assert areas
    assert not chart_like(grid_picture(), words, areas)


def test_a_second_row_of_frequencies_far_from_the_chart_found_is_left_over() -> None:
    words = frequency_words() + level_words()
    areas = chart_areas(words, SIZE)
    assert chart_like(BLANK, words + frequency_words(y=1120), areas)


def test_an_empty_sheet_has_nothing_left_over() -> None:
    assert not chart_like(BLANK, (), ())
    assert not chart_like(BLANK, (word("Harbour", LEFT, 100), word("125", LEFT, 200)), ())


def test_noise_is_no_chart() -> None:
    noise = np.random.default_rng(5).integers(0, 256, (900, 700, 3), dtype=np.uint8)
    assert not chart_like(noise, (), ())


@pytest.mark.parametrize("family", ["letter", "invoice"])
def test_a_page_of_words_is_no_chart(family: str) -> None:
    for seed in range(3):
        assert not chart_like(render(paint(family, seed).pdf, 120), (), ())
