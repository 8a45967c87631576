"""Weights in whole steps stay within what sixteen bits hold (Intel's manual on the instruction VPMADDUBSW)."""

from __future__ import annotations

import numpy as np

from octavo.tools.train.whole_numbers.steps import in_steps


def test_products_of_two_neighbours_with_the_largest_bytes_do_not_run_over() -> None:
    chance = np.random.default_rng(83000005)
    weight = chance.standard_t(2, size=(64, 24, 3, 3)).astype(np.float32)
    whole, step = in_steps(weight)
    neighbours = whole.astype(np.int64).transpose(0, 2, 3, 1).reshape(64, -1, 2)
    assert 255 * np.maximum(neighbours, 0).sum(axis=2).max() <= np.iinfo(np.int16).max
    assert 255 * np.minimum(neighbours, 0).sum(axis=2).min() >= np.iinfo(np.int16).min
    assert np.abs(whole * step[:, None, None, None] - weight).max() <= 0.5001 * step.max()
    np.testing.assert_array_less(np.abs(weight).max(axis=(1, 2, 3)) / 127 * 0.999, step)
