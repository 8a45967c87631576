"""Where a chart's crop lies on its sheet, on pictures with one dot at a known place."""

from __future__ import annotations

import math

import numpy as np
import pytest

from octavo.extract.eyes.marks.crops import LONGEST, MULTIPLE, SIDE, chart_crop, crop_scale

BOXES = [
    (100.0, 50.0, 700.0, 650.0),
    (10.4, 20.6, 1500.3, 900.2),
    (300.0, 300.0, 460.5, 420.5),
    (0.0, 0.0, 990.0, 400.0),
]


@pytest.mark.parametrize("box", BOXES)
def test_a_crop_has_sides_that_the_network_can_halve_and_about_the_area_it_was_trained_on(box) -> None:
    crop = chart_crop(np.full((1000, 1600, 3), 255, np.uint8), box)
    height, width = crop.pixels.shape[:2]
    assert width % MULTIPLE == 0
    assert height % MULTIPLE == 0
    assert max(width, height) <= LONGEST
    assert math.sqrt(width * height) == pytest.approx(SIDE, rel=0.06)


@pytest.mark.parametrize("box", BOXES)
def test_a_dot_in_the_crop_is_mapped_back_to_its_place_on_the_sheet(box) -> None:
    left, top, right, bottom = box
    for share in (0.2, 0.5, 0.9):
        x, y = round(left + share * (right - left)), round(top + (1 - share) * (bottom - top))
        picture = np.full((1000, 1600, 3), 255, np.uint8)
        picture[y - 2 : y + 3, x - 2 : x + 3] = 0
        crop = chart_crop(picture, box)
        ink = 255.0 - crop.pixels[:, :, 0]
        rows, columns = np.indices(ink.shape)
        centre = ((columns * ink).sum() / ink.sum(), (rows * ink).sum() / ink.sum())
        assert crop.on_sheet(*centre) == pytest.approx((x, y), abs=0.6)


def test_what_lies_outside_the_sheet_is_white() -> None:
    crop = chart_crop(np.zeros((300, 300, 3), np.uint8), (-100.0, -100.0, 200.0, 200.0))
    assert (crop.pixels[:170, :170] == 255).all()
    assert (crop.pixels[200:-4, 200:-4] == 0).all()


def test_a_larger_region_is_reduced_more() -> None:
    assert crop_scale((0, 0, 2000, 2000)) == pytest.approx(SIDE / 2000)
    assert crop_scale((0, 0, 4000, 500)) == pytest.approx(LONGEST / 4000)
