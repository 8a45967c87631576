"""Page to sheet: the words read upright, and every position still known on the page."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from by_hand import frequency_words, grid_picture, level_words, page

from octavo.extract.straighten import straighten
from octavo.tools.painter import paint, render

PAINTED = paint("wide", 3)
PICTURE = render(PAINTED.pdf, 110)
LABELS = {w.text for w in PAINTED.words if w.role == "frequency-label"}


def test_a_drawn_page_with_words_of_its_own_is_taken_as_it_is() -> None:
    words = frequency_words() + level_words()
    sheet = straighten(page(grid_picture(), words))
    assert sheet.words == words
    assert sheet.turn_deg == 0
    assert sheet.on_page(499.5, 599.5) == pytest.approx((0.5, 0.5))
    np.testing.assert_array_equal(sheet.pixels, grid_picture())


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_scan_fed_in_sideways_is_turned_until_its_numbers_read(quarters: int) -> None:
    sheet = straighten(page(np.rot90(PICTURE, quarters)))
    assert sheet.pixels.shape == PICTURE.shape
    assert np.abs(sheet.pixels.astype(int) - PICTURE).mean() < 12
    assert len(LABELS & {w.text for w in sheet.words}) >= 0.7 * len(LABELS)


@pytest.mark.parametrize(("quarters", "degrees"), [(0, 2.5), (1, 0.0), (2, -1.5), (3, 0.0)])
def test_a_place_on_the_sheet_is_known_on_the_page_however_that_lay(quarters: int, degrees: float) -> None:
    marked = PICTURE.copy()
    height, width = marked.shape[:2]
    x, y = round(0.85 * width), round(0.9 * height)
    marked[y - 9 : y + 10, x - 9 : x + 10] = (0, 160, 0)
    turn = cv2.getRotationMatrix2D(((width - 1) / 2, (height - 1) / 2), -degrees, 1.0)
    lain = cv2.warpAffine(marked, turn, (width, height), borderValue=(255, 255, 255))
    lain = np.rot90(lain, quarters)
    sheet = straighten(page(np.asarray(lain, np.uint8)))

    def green(picture: np.ndarray) -> tuple[float, float]:
        most = np.maximum(picture[:, :, 0], picture[:, :, 2]).astype(int)
        rows, columns = np.nonzero(picture[:, :, 1] - most > 80)
        return float(columns.mean()), float(rows.mean())

    there, here = green(lain), green(sheet.pixels)
    on_page = sheet.on_page(*here)
    assert on_page[0] * lain.shape[1] - 0.5 == pytest.approx(there[0], abs=0.6)
    assert on_page[1] * lain.shape[0] - 0.5 == pytest.approx(there[1], abs=0.6)
    assert here == pytest.approx((x, y), abs=4)


def test_a_page_without_lines_or_words_is_left_as_it_is() -> None:
    blank = np.full((500, 400, 3), 255, np.uint8)
    sheet = straighten(page(blank))
    np.testing.assert_array_equal(sheet.pixels, blank)
    assert sheet.words == ()
    assert sheet.notes == ()


def test_a_page_that_had_to_be_turned_says_so() -> None:
    assert "skewed" in straighten(page(np.rot90(PICTURE, 2))).notes
    assert "skewed" not in straighten(page(PICTURE)).notes
