"""A convolution over blocks of pixels gives what OpenCV's correlation gives at every second pixel."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.networks import in_blocks
from octavo.tools.train.whole_numbers.blocks import over_blocks


def correlated(picture: np.ndarray, weight: np.ndarray, pad: tuple[int, int]) -> np.ndarray:
    """Lay a weight, shape (gives, takes, size, size), over a picture of (takes, height, width), at every place."""
    wide = np.pad(picture, ((0, 0), pad, pad))
    size = weight.shape[-1]
    rows, columns = (side - size + 1 for side in wide.shape[1:])
    whole = [
        sum(
            cv2.filter2D(wide[i], cv2.CV_32F, one[i], anchor=(0, 0), borderType=cv2.BORDER_CONSTANT)
            for i in range(len(one))
        )
        for one in weight
    ]
    return np.stack(whole)[:, :rows, :columns]


@pytest.mark.parametrize(("size", "stride", "pad", "places"), [(5, 2, 2, 1), (5, 2, 2, 2), (3, 2, 1, 1), (3, 1, 1, 2)])
def test_it_says_over_blocks_what_it_says_over_pixels(size: int, stride: int, pad: int, places: int) -> None:
    chance = np.random.default_rng(83000004)
    weight = chance.normal(size=(3, 2, size, size)).astype(np.float32)
    picture = chance.integers(0, 256, (24, 16, 2), np.uint8)
    pixels = picture.transpose(2, 0, 1).astype(np.float32)
    expected = correlated(pixels, weight, (pad, size))[:, ::stride, ::stride][:, : 24 // stride, : 16 // stride]
    new, around = over_blocks(weight, stride, pad, places)
    said = correlated(in_blocks(picture, stride * places)[0].astype(np.float32), new, around)
    apart = said.reshape(3, places, places, *said.shape[1:]).transpose(0, 3, 1, 4, 2).reshape(expected.shape)
    np.testing.assert_allclose(apart, expected, rtol=1e-4, atol=1e-2)
