"""Marks that a drawn page sets as letters stand where their own ink lies, whatever lines run through them."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes.marks.drawn.lettered import lettered
from octavo.extract.page import Pixels, Word

FONT = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", 60)
COLUMNS = (100, 200, 300, 400)
BLACK = (0, 0, 0)


def page(letter: str, *, upright: bool, level: bool) -> tuple[Pixels, tuple[Word, ...], list[tuple[float, float]]]:
    """Draw a letter in four columns with lines of its ink, and give where each one's ink has its middle."""
    picture = Image.new("RGB", (500, 300), (255, 255, 255))
    draw = ImageDraw.Draw(picture)
    words, middles = [], []
    for x in COLUMNS:
        left, top, right, bottom = FONT.getbbox(letter)
        at = x - (left + right) / 2, 150 - (top + bottom) / 2
        draw.text(at, letter, font=FONT, fill=BLACK)
        # a word's box is as high as its line of text, and as wide as the letter's advance
        box = (at[0], at[1] + 4, at[0] + FONT.getlength(letter), at[1] + 64)
        words.append(Word(letter, box, 1.0, ink=BLACK))
    for x in COLUMNS:
        rows, columns = np.nonzero(np.asarray(picture)[:, x - 50 : x + 50, 0] < 128)
        middles.append((x - 50 + (columns.min() + columns.max()) / 2, (rows.min() + rows.max()) / 2))
    for x in COLUMNS if upright else ():
        draw.line([(x, 150), (x, 299)], fill=BLACK, width=3)
    if level:
        draw.line([(0, 193), (499, 193)], fill=BLACK, width=3)
    return np.asarray(picture), tuple(words), middles


@pytest.mark.parametrize("letter", ["O", "×", "<", "S", "A", "M", "U"])
@pytest.mark.parametrize("lines", [(False, False), (True, False), (True, True)], ids=["free", "upright", "both"])
def test_lines_of_a_letters_own_ink_do_not_shift_it(letter: str, lines: tuple[bool, bool]) -> None:
    # seen on a page: black crosses on a grid as dark, the first line of which is 0 dB, were read 4 dB too low
    pixels, words, middles = page(letter, upright=lines[0], level=lines[1])
    found = lettered(words, pixels, (0.0, 0.0, 500.0, 300.0))
    assert len(found) == len(middles)
    for mark, (x, y) in zip(found, middles, strict=True):
        points = np.concatenate([path.points for path in mark.paths])
        middle = (points.min(axis=0) + points.max(axis=0)) / 2
        assert middle == pytest.approx((x, y), abs=2.0)


def test_a_letter_that_another_runs_into_stands_as_its_like_do() -> None:
    pixels, words, middles = page("O", upright=False, level=False)
    picture = Image.fromarray(pixels)
    ImageDraw.Draw(picture).line([(185, 185), (215, 162)], fill=BLACK, width=6)
    found = lettered(words, np.asarray(picture), (0.0, 0.0, 500.0, 300.0))
    points = np.concatenate([path.points for path in found[1].paths])
    assert (points.min(axis=0) + points.max(axis=0)) / 2 == pytest.approx(middles[1], abs=2.0)
