"""Light ink on dark grounds is turned into dark ink on paper, and nothing else is."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import grid_picture
from paths_by_hand import line

from octavo.extract.choices import Choices
from octavo.extract.eyes.negative import positive
from octavo.extract.page import Page, Pixels, Word
from octavo.extract.road import read_page
from octavo.interpret.record import Source
from octavo.tools.painter import paint, render

GROUND = (18, 22, 40)
CHANCE = np.random.default_rng(7)


def page(pixels: Pixels) -> Page:
    return Page(Source("made.png", "0" * 64, 1, 1, "scan"), pixels, None)


def on_screen(pixels: Pixels) -> Pixels:
    """Show a page on a dark screen as programs do: lightness turned round, hues kept, a ground that is not black."""
    wide = pixels.astype(np.int16)
    turned = wide + 255 - wide.max(axis=2, keepdims=True) - wide.min(axis=2, keepdims=True)
    return np.asarray(np.array(GROUND) + turned * (255 - np.array(GROUND)) / 255, np.uint8)


def test_a_dark_screen_becomes_dark_ink_on_white() -> None:
    shown = grid_picture()
    found = positive(page(on_screen(shown)))
    assert found.notes == ("negative",)
    assert np.abs(found.pixels.astype(int) - shown).max() < 25  # of 255; the screen has fewer levels


def test_a_plot_of_another_dark_than_the_screen_round_it_is_turned_with_it() -> None:
    # a dark theme's plot filled half of the picture: it was left as it was, and said to hold no audiogram
    pixels = np.full((400, 600, 3), 38, np.uint8)
    pixels[20:340, 80:500] = 22
    pixels[60:330:40, 80:500] = 110
    pixels[360:366, 100:480] = 220
    found = positive(page(pixels))
    assert found.notes == ("negative",)
    assert found.pixels[390, 590].min() > 220


def test_a_red_mark_on_a_dark_screen_stays_red_and_a_blue_one_blue() -> None:
    pixels = np.full((400, 400, 3), GROUND, np.uint8)
    pixels[100:110, 50:150], pixels[200:210, 50:150] = (255, 107, 107), (77, 171, 247)
    found = positive(page(pixels)).pixels.astype(int)
    red, blue = found[105, 100], found[205, 100]
    assert red[0] > max(red[1], red[2]) + 80
    assert blue[2] > blue[0] + 80


def test_paths_and_words_on_a_dark_screen_have_the_ink_that_is_seen() -> None:
    pixels = np.full((400, 400, 3), GROUND, np.uint8)
    pixels[100:104, 50:350] = 240
    word = Word("500", (60.0, 20.0, 90.0, 32.0), ink=(240, 240, 240))
    path = line(1, (50.0, 102.0), (350.0, 102.0), ink=(240, 240, 240))
    found = positive(Page(Source("made.pdf", "0" * 64, 1, 1, "drawn"), pixels, None, (word,), (path,)))
    assert found.words is not None
    for ink in (found.words[0].ink, found.paths[0].stroke):
        assert ink is not None
        assert max(ink) < 40


def noisy(level: float) -> Pixels:
    """Give a page in deep shadow, with the grain of a camera."""
    pixels = grid_picture().astype(float) * level + CHANCE.normal(0, 12, grid_picture().shape)
    return np.clip(pixels, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("pixels", [grid_picture(), noisy(0.3)], ids=["paper", "shadow"])
def test_dark_ink_on_paper_is_left_as_it_is(pixels: Pixels) -> None:
    given = page(pixels)
    assert positive(given) is given


def test_a_dark_head_of_a_table_is_left_as_it_is() -> None:
    pixels = np.full((600, 400, 3), 255, np.uint8)
    pixels[100:130, 20:380] = (20, 40, 90)
    pixels[110:120, 40:300:6] = 255
    given = page(pixels)
    assert positive(given) is given


def test_a_chart_on_a_dark_screen_is_read_as_on_paper() -> None:
    painted = paint("single", 5)
    shown = render(painted.pdf, 120)
    paper, screen = (read_page(page(pixels), Choices(report=False)) for pixels in (shown, on_screen(shown)))
    assert paper.audiograms
    values = [
        {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl) for t in record.audiograms[0].thresholds}
        for record in (paper, screen)
    ]
    assert values[0] == values[1]
    assert "negative" in {remark.code for remark in screen.remarks}
