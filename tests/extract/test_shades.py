"""What is asked of one picture more than once is worked out once, and only while nobody can change the picture."""

from __future__ import annotations

import gc

import numpy as np
import pytest

from octavo.extract import shades
from octavo.extract.eyes.axes.ruling import ruling_of
from octavo.extract.eyes.marks.crops import chart_crop
from octavo.extract.shades import grey_of, locked, of_plain, once, plain_of, reduced
from octavo.tools.painter import paint, render


def noise(*shape: int) -> np.ndarray:
    return np.random.default_rng(3).integers(0, 256, shape, np.uint8)


def test_a_page_is_worked_out_once_and_a_picture_that_may_change_every_time() -> None:
    asked = []

    def work(picture: np.ndarray) -> int:
        asked.append(picture.shape)
        return int(picture[0, 0])

    page, open_page = locked(noise(700, 600)), noise(700, 600)
    assert [once(page, work), once(page, work)] == [int(page[0, 0])] * 2
    assert len(asked) == 1
    first = once(open_page, work)
    open_page[0, 0] += 1
    assert once(open_page, work) != first


def test_what_was_worked_out_goes_with_its_picture() -> None:
    page = locked(noise(700, 600))
    key = id(page)
    once(page, np.sum)
    assert key in shades._known
    del page
    gc.collect()
    assert key not in shades._known


@pytest.mark.parametrize("place", [(0, 0), (17, 299), (699, 599)])
def test_a_single_coloured_pixel_makes_a_page_coloured(place: tuple[int, int]) -> None:
    page = np.repeat(noise(700, 600)[..., None], 3, axis=2)
    assert plain_of(locked(page.copy())) is not None
    page[place] = (200, 0, 0)
    assert plain_of(locked(page)) is None


def test_the_brightness_of_a_page_without_colours_is_its_channel() -> None:
    channel = noise(700, 600)
    page = of_plain(channel.copy())
    assert np.array_equal(page, np.repeat(channel[..., None], 3, axis=2))
    assert np.array_equal(grey_of(page), channel)
    assert np.array_equal(grey_of(page.copy()), channel)


def test_a_page_without_colours_takes_the_memory_of_its_channel_alone() -> None:
    channel = noise(700, 600)
    page = of_plain(channel)
    assert page.shape == (700, 600, 3)
    assert np.shares_memory(page, channel)


def test_every_shade_of_grey_is_kept_where_a_page_turns_out_to_have_no_colours() -> None:
    channel = np.resize(np.arange(256, dtype=np.uint8), (700, 600))
    found = plain_of(locked(np.repeat(channel[..., None], 3, axis=2)))
    assert found is not None
    assert np.array_equal(found, channel)


def test_lines_and_charts_of_a_page_without_colours_are_the_same_seen_by_one_channel_or_by_three() -> None:
    grey = grey_of(render(paint("single", 4, mono=True).pdf, 200))
    three, one = np.repeat(grey[..., None], 3, axis=2), of_plain(grey.copy())
    box = (101.5, 207.0, 1203.0, 1402.5)
    assert plain_of(three) is None  # it may be written to
    assert np.array_equal(chart_crop(three, box).pixels, chart_crop(one, box).pixels)
    for lines in ("upright", "level"):
        assert np.array_equal(getattr(ruling_of(three), lines), getattr(ruling_of(one), lines))


@pytest.mark.parametrize("scale", [0.5, 0.342, 0.8])
def test_what_is_printed_keeps_its_place_and_weight_on_a_reduced_page_of_odd_sides(scale: float) -> None:
    """A square's middle and its ink are known: a pixel of the page is a square of ``scale`` of a pixel's side."""
    page = np.full((1755, 1241), 255, np.uint8)
    places = [(100, 60), (1651, 60), (903, 1101)]
    for y, x in places:
        page[y - 6 : y + 7, x - 6 : x + 7] = 55
    small = reduced(locked(page), scale)
    for y, x in places:
        top, left = (int((at + 0.5) * scale - 12) for at in (y, x))
        ink = 255.0 - small[top : top + 25, left : left + 25]
        rows, columns = np.indices(ink.shape)
        found = (rows * ink).sum() / ink.sum() + top, (columns * ink).sum() / ink.sum() + left
        assert found == pytest.approx([(y + 0.5) * scale - 0.5, (x + 0.5) * scale - 0.5], abs=0.1)
        assert ink.sum() == pytest.approx(13 * 13 * 200 * scale**2, rel=0.05)
