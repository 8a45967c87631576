"""Words are found where they were painted."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from by_hand import SIZE, grid_picture

from octavo.extract.eyes.words import finder
from octavo.extract.eyes.words.finder import BLOCK, REACH_PX, STRIDE, Box, boxes_of, word_boxes
from octavo.tools.painter import paint, render


def overlap(one: Box, other: Box) -> float:
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    if wide <= 0 or high <= 0:
        return 0.0
    areas = sum((b[2] - b[0]) * (b[3] - b[1]) for b in (one, other))
    return wide * high / (areas - wide * high)


@pytest.mark.parametrize("dpi", [150, 250])
@pytest.mark.parametrize("family", ["single", "small", "wide", "beside"])
def test_nineteen_in_twenty_axis_labels_of_painted_pages_get_a_box_of_their_own(family: str, dpi: int) -> None:
    wanted = found = 0
    for seed in range(3):
        page = paint(family, seed)
        grey = cv2.cvtColor(render(page.pdf, dpi), cv2.COLOR_RGB2GRAY)
        boxes = word_boxes(np.asarray(grey, np.uint8))
        height, width = grey.shape
        for label in page.words:
            if label.role == "other":
                continue
            left, top, right, bottom = label.box
            truth = (left * width, top * height, right * width, bottom * height)
            wanted += 1
            found += max(overlap(box, truth) for box in boxes) > 0.6
    assert wanted > 40
    assert found >= 0.95 * wanted


def test_an_empty_sheet_and_a_bare_grid_have_no_words() -> None:
    assert word_boxes(np.full((600, 400), 255, np.uint8)) == []
    grid = np.ascontiguousarray(grid_picture(SIZE)[:, :, 0])
    assert word_boxes(grid) == []


def test_letters_side_by_side_are_one_word_and_far_apart_two() -> None:
    picture = np.full((900, 1200), 255, np.uint8)
    cv2.putText(picture, "1000", (200, 300), cv2.FONT_HERSHEY_SIMPLEX, 0.8, 0, 2)
    cv2.putText(picture, "8000", (500, 300), cv2.FONT_HERSHEY_SIMPLEX, 0.8, 0, 2)
    boxes = sorted(word_boxes(picture))
    assert len(boxes) == 2
    assert boxes[0][0] == pytest.approx(200, abs=4)
    assert boxes[1][0] == pytest.approx(500, abs=4)


@pytest.mark.parametrize("corner", [(0, 0), (1170, 2210), (2000, 100)])
def test_words_amid_empty_paper_are_found_where_they_are_printed(corner: tuple[int, int]) -> None:
    """A page's words may fill one corner of it alone."""
    picture = np.full((3300, 2550), 255, np.uint8)
    x, y = corner[0] + 60, corner[1] + 90
    cv2.putText(picture, "2000", (x, y), cv2.FONT_HERSHEY_SIMPLEX, 1.6, 0, 3)
    rows, columns = np.nonzero(picture < 128)
    (box,) = word_boxes(picture)
    assert box == pytest.approx((columns.min(), rows.min(), columns.max(), rows.max()), abs=3)


def test_a_speck_of_a_comma_at_the_edge_of_a_page_is_within_what_is_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[tuple[int, ...]] = []

    def said_by(name: str, seen: np.ndarray) -> np.ndarray:
        looked.append(seen.shape)
        return np.full((1, 5, *seen.shape[2:]), -9.0, np.float32)

    monkeypatch.setattr(finder, "said_by", said_by)
    picture = np.full((1600, 1200), 255, np.uint8)
    assert word_boxes(picture) == []
    assert looked == []  # of empty paper nothing is asked
    picture[[3, 1596], 600] = 200
    assert word_boxes(picture) == []
    assert looked[0][2] == 1600 // BLOCK
    assert looked[0][3] < 1200 // BLOCK // 4


def test_a_peak_becomes_a_box_that_reaches_as_far_as_its_maps_say_and_hides_worse_ones() -> None:
    maps = np.full((5, 20, 30), -8.0, np.float32)
    maps[1:] = np.log(np.array([20, 6, 24, 8], np.float32) / REACH_PX)[:, None, None]
    maps[0, 10, 15] = 3.0
    maps[0, 10, 17] = 1.0  # another peak within the first one's box
    maps[0, 2, 2] = -4.0  # too weak
    (box,) = boxes_of(maps)
    x, y = 15 * STRIDE + 1.5, 10 * STRIDE + 1.5
    assert box[:4] == pytest.approx([x - 20, y - 6, x + 24, y + 8], abs=1e-3)
    assert box[4] == pytest.approx(1 / (1 + np.exp(-3)), abs=1e-6)
