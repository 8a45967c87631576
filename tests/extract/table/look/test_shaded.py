"""Shaded heads of tables on faxes, whose shade is a field of specks."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from octavo.extract.eyes.axes.level import without_level_axes
from octavo.extract.eyes.words.numbers import frequency_values
from octavo.extract.intake import pages
from octavo.extract.page import Page, Word
from octavo.extract.shades import grey_of
from octavo.extract.straighten import straighten
from octavo.extract.table.look.shaded import with_shaded_heads
from octavo.tools.painter import paint, render
from octavo.tools.painter.spoiling import spoil, write_file


def test_frequencies_in_a_shaded_head_of_a_fax_were_read_as_one_word(tmp_path: Path) -> None:
    seed, file = 72_000_105, tmp_path / "page.tif"
    write_file(spoil(render(paint("table-chart", seed).pdf, 300), "fax-fine", seed, dpi=300), "fax-fine", file)
    page = next(iter(pages(file)))
    assert isinstance(page, Page)
    sheet = straighten(page)
    words = with_shaded_heads(grey_of(sheet.pixels), without_level_axes(sheet.words))
    row = [w for w in words if 0.745 < w.box[1] / len(sheet.pixels) < 0.765]  # seen in the picture
    assert {hz for w in row for hz, _ in frequency_values(w.text)} >= {125, 500, 1000, 1500, 2000, 3000, 4000, 6000}


def test_a_page_without_shade_keeps_its_words(tmp_path: Path) -> None:
    seed, file = 72_000_009, tmp_path / "page.png"
    write_file(spoil(render(paint("table-page", seed).pdf, 150), "scan", seed, dpi=150), "scan", file)
    page = next(iter(pages(file)))
    assert isinstance(page, Page)
    sheet = straighten(page)
    words: tuple[Word, ...] = sheet.words
    assert with_shaded_heads(grey_of(sheet.pixels), words) == words


@pytest.mark.parametrize("off", [(-2000, 0), (2000, 0), (0, 2000), (-150, 0)])
def test_numbers_that_stand_beyond_the_picture_stop_nothing(off: tuple[int, int]) -> None:
    # on three photos the pattern of the ground was seen as numbers, and straightening had put them beyond the sheet
    dx, dy = off
    words = tuple(
        Word(str(20 + 5 * i), (80.0 * i + dx, 40.0 * k + 100 + dy, 80.0 * i + 30 + dx, 40.0 * k + 120 + dy))
        for i in range(6)
        for k in range(4)
    )
    assert with_shaded_heads(np.full((400, 600), 200, np.uint8), words) == words
