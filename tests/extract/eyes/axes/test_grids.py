"""Lines that meet one another are a grid; shadows, edges of paper and rules are not."""

from __future__ import annotations

import numpy as np

from octavo.extract.eyes.axes.ruling import ruling_of


def test_lines_apart_from_one_another_are_no_grid() -> None:
    page = np.full((1200, 900, 3), 255, np.uint8)
    for i in range(6):
        page[40 + 30 * i : 42 + 30 * i, 50:400] = 0  # rules at the top
        page[400:1100, 50 + 60 * i : 52 + 60 * i] = 0  # streaks below them
    assert min(ruling_of(page).counts()) >= 5
    assert ruling_of(page).grids(5).counts() == (0, 0)


def test_a_grid_stays_and_goes_with_its_box() -> None:
    page = np.full((1200, 900, 3), 255, np.uint8)
    for i in range(6):
        page[400 + 80 * i : 402 + 80 * i, 100:502] = 0
        page[400:802, 100 + 80 * i : 102 + 80 * i] = 0
    ruling = ruling_of(page)
    assert min(ruling.grids(5).counts()) >= 5
    assert ruling.without((80, 380, 530, 830)).counts() == (0, 0)
