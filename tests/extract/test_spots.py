"""Spots are counted whole, be they few or more than 16 bits can number."""

from __future__ import annotations

import numpy as np
import pytest

from octavo.extract.spots import spots_in


@pytest.mark.parametrize("side", [20, 560])  # 100 and 78,400 spots; 65,535 is the most for numbers of 16 bits
def test_spots_apart_are_as_many_as_were_drawn(side: int) -> None:
    mask = np.zeros((side, side), np.uint8)
    mask[::2, ::2] = 1
    numbers, stats, centres = spots_in(mask)
    assert len(stats) == len(centres) == (side // 2) ** 2 + 1
    assert set(stats[1:, 4].tolist()) == {1}
    assert len(np.unique(numbers[::2, ::2])) == (side // 2) ** 2
    assert not numbers[1::2].any()


def test_pixels_that_touch_at_corners_are_one_spot() -> None:
    mask = np.eye(7, dtype=np.uint8)
    mask[0, 6] = 1
    _, stats, centres = spots_in(mask)
    assert stats[1:].tolist() == [[0, 0, 7, 7, 7], [6, 0, 1, 1, 1]]
    assert centres[1:].tolist() == [[3.0, 3.0], [6.0, 0.0]]
