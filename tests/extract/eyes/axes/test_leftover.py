"""Something like a chart that was not read must not pass in silence."""

from __future__ import annotations

from pathlib import Path

import cv2
import numpy as np
import pytest
from by_hand import LEFT, SIZE, frequency_words, grid_picture, level_words, word, x_of

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.axes.leftover import chart_like
from octavo.extract.eyes.axes.ruling import ruling_of
from octavo.extract.intake import pages
from octavo.extract.page import Page, Pixels, Word
from octavo.extract.sightings import ChartArea
from octavo.tools.painter import paint, render

BLANK = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)


def left_over(pixels: Pixels, words: tuple[Word, ...], areas: tuple[ChartArea, ...]) -> bool:
    return chart_like(pixels, words, areas, ruling_of(pixels))


def test_a_grid_without_labels_looks_like_a_chart() -> None:
    assert left_over(grid_picture(), (), ())


@pytest.mark.parametrize("ink", [200, 225])
def test_a_faint_grid_looks_like_a_chart_too(ink: int) -> None:
    assert left_over(grid_picture(ink=ink), (), ())


def test_a_row_of_audiometric_frequencies_without_levels_looks_like_a_chart() -> None:
    assert left_over(BLANK, frequency_words(), ())


def test_a_chart_that_was_found_is_not_left_over() -> None:
    words = frequency_words() + level_words()
    areas = chart_areas(words, SIZE)
    assert areas
    assert not left_over(grid_picture(), words, areas)


def test_marks_beside_a_column_that_was_taken_for_the_levels_of_the_chart_before_it_are_left_over() -> None:
    # the second chart's frequencies were hidden by arrows, and its levels served as the first one's right-hand labels
    size = (2000, SIZE[1])
    words = frequency_words() + level_words() + level_words(x=x_of(8000) + 130)
    areas = chart_areas(words, size)
    assert len(areas) == 1
    wide = np.full((size[1], size[0], 3), 255, np.uint8)
    assert not left_over(wide, words, areas)
    shown = marks_picture(12)
    wide[:, size[0] - SIZE[0] :] = shown
    assert left_over(wide, words, areas)


def test_a_second_row_of_frequencies_far_from_the_chart_found_is_left_over() -> None:
    words = frequency_words() + level_words()
    areas = chart_areas(words, SIZE)
    assert left_over(BLANK, words + frequency_words(y=1120), areas)


def test_an_empty_sheet_has_nothing_left_over() -> None:
    assert not left_over(BLANK, (), ())
    assert not left_over(BLANK, (word("Harbour", LEFT, 100), word("125", LEFT, 200)), ())


def test_noise_is_no_chart() -> None:
    noise = np.random.default_rng(5).integers(0, 256, (900, 700, 3), dtype=np.uint8)
    assert not left_over(noise, (), ())


@pytest.mark.parametrize("family", ["letter", "invoice"])
def test_a_page_of_words_is_no_chart(family: str) -> None:
    for seed in range(3):
        assert not left_over(render(paint(family, seed).pdf, 120), (), ())


def drawn_words(family: str, seed: int, folder: Path) -> Page:
    path = folder / "page.pdf"
    path.write_bytes(paint(family, seed).pdf)
    (one,) = pages(path)
    assert isinstance(one, Page)
    return one


def marks_picture(count: int) -> Pixels:
    """Draw circles and crosses as on an audiogram, without axes or lines."""
    picture = BLANK.copy()
    for i in range(count):
        x, y = 250 + 90 * (i // 2), 400 + 45 * (i // 2) + 120 * (i % 2)
        if i % 2:
            cv2.line(picture, (x - 12, y - 12), (x + 12, y + 12), (30, 30, 220), 3, cv2.LINE_AA)
            cv2.line(picture, (x - 12, y + 12), (x + 12, y - 12), (30, 30, 220), 3, cv2.LINE_AA)
        else:
            cv2.circle(picture, (x, y), 13, (220, 30, 30), 3, cv2.LINE_AA)
    return picture


@pytest.mark.parametrize(("levels", "found"), [((0, 20, 40, 60), True), ((0, 20, 40), False)])
def test_a_column_of_four_levels_without_frequencies_looks_like_a_chart(levels: tuple[int, ...], found: bool) -> None:
    assert left_over(BLANK, level_words(levels), ()) == found


def test_a_second_column_of_levels_far_from_the_chart_found_is_left_over() -> None:
    words = frequency_words() + level_words()
    areas = chart_areas(words, SIZE)
    assert not left_over(BLANK, words, areas)
    wide = np.full((SIZE[1], 2400, 3), 255, np.uint8)
    assert left_over(wide, words + level_words(x=2000), areas)


def test_marks_on_a_page_without_axes_look_like_a_chart() -> None:
    assert left_over(marks_picture(12), (), ())


def test_marks_in_a_frame_are_a_chart_where_the_whole_page_shows_them_too_small() -> None:
    # a fax lost its labels and most of its grid: the page passed as one without an audiogram
    small = np.asarray(cv2.resize(marks_picture(12)[300:900, 150:900], None, fx=0.8, fy=0.8), np.uint8)
    page = np.full((3 * SIZE[1], 3 * SIZE[0], 3), 255, np.uint8)
    high, wide = small.shape[:2]
    page[1000 : 1000 + high, 800 : 800 + wide] = small
    assert not left_over(page, (), ())
    cv2.rectangle(page, (780, 980), (820 + wide, 1020 + high), (0, 0, 0), 4)
    assert left_over(page, (), ())


@pytest.mark.parametrize("count", [1, 3])
def test_a_few_rings_and_crosses_on_a_page_are_no_chart(count: int) -> None:
    assert not left_over(marks_picture(count), (), ())


def test_marks_that_stand_in_words_are_letters() -> None:
    large = tuple(word("OX", 250 + 90 * i, 460 + 45 * i, height=200) for i in range(6))
    words = large + tuple(word("Harbour", 150, 900 + 20 * i, height=10) for i in range(10))
    assert left_over(marks_picture(12), words[len(large) :], ())
    assert not left_over(marks_picture(12), words, ())


def test_marks_no_larger_than_the_pages_letters_are_letters() -> None:
    words = tuple(word("Harbour", 150, 900 + 40 * i, height=36) for i in range(4))
    assert not left_over(marks_picture(12), words, ())


@pytest.mark.parametrize("family", ["letter", "invoice"])
def test_a_drawn_page_of_words_is_no_chart(family: str, tmp_path: Path) -> None:
    for seed in range(3):
        one = drawn_words(family, seed, tmp_path)
        assert one.words
        assert not left_over(one.pixels, one.words, ())


def test_a_chart_without_readable_labels_beside_one_that_was_found_is_left_over(tmp_path: Path) -> None:
    page = drawn_words("beside", 7, tmp_path)
    assert page.words
    size = (page.pixels.shape[1], page.pixels.shape[0])
    first, second = chart_areas(page.words, size)
    assert not left_over(page.pixels, page.words, (first, second))
    middle = (first.box[2] + second.box[0]) / 2
    read = tuple(w for w in page.words if w.box[2] < middle)
    assert left_over(page.pixels, read, chart_areas(read, size))


def test_a_framed_key_beside_the_chart_is_not_left_over(tmp_path: Path) -> None:
    for seed in range(4):
        page = drawn_words("keyed", seed, tmp_path)
        assert page.words
        areas = chart_areas(page.words, (page.pixels.shape[1], page.pixels.shape[0]))
        assert areas
        assert not left_over(page.pixels, page.words, areas)


def test_marks_that_were_read_as_words_themselves_are_no_letters_of_a_text() -> None:
    """A chart whose marks hid its labels, and were read as 0 and X, passed in silence: 14 values were not told."""
    own = tuple(word("0X"[k], 250 + 90 * i, 400 + 45 * i + 120 * k, height=20) for i in range(6) for k in (0, 1))
    words = own + tuple(word("Harbour", 150, 900 + 20 * i, height=10) for i in range(10))
    assert left_over(marks_picture(12), words, ())


def test_marks_on_the_upper_line_of_a_frame_beside_the_chart_found_are_left_over() -> None:
    """Normal hearing on a chart from 0 dB: its marks stood half outside the frame, were cut off, and not told."""
    words = frequency_words() + level_words()
    wide = np.full((SIZE[1], 2000, 3), 255, np.uint8)
    cv2.rectangle(wide, (1150, 450), (1850, 1000), (60, 60, 60), 2)
    for x in range(1250, 1850, 100):
        cv2.line(wide, (x, 450), (x, 1000), (120, 120, 120), 2)
    areas = chart_areas(words, (2000, SIZE[1]))
    assert not left_over(wide, words, areas)
    for x in range(1250, 1850, 100):
        cv2.circle(wide, (x, 438), 13, (220, 30, 30), 3, cv2.LINE_AA)
    assert left_over(wide, words, areas)
