"""Painted pages, drawn and spoiled, come in as they were painted: the truth is the painter's."""

from __future__ import annotations

import itertools
from pathlib import Path

import numpy as np
import pytest
from handmade import only_page

from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.tools.painter import paint, render
from octavo.tools.painter.spoiling import SPOILINGS, spoil, write_file
from octavo.tools.painter.spoiling.files import SUFFIXES


@pytest.mark.parametrize("family", ["single", "strip", "lantern", "mole", "letter", "reflexes"])
def test_every_printed_word_is_found_where_it_was_painted(family: str, tmp_path: Path) -> None:
    painted = paint(family, 3)
    page = only_page(tmp_path, painted.pdf)
    height, width = page.pixels.shape[:2]
    assert page.source.taken_by == "drawn"
    assert page.words
    for wanted in painted.words:
        if len(wanted.text.split()) != 1 or set(wanted.text) == {"_"}:
            continue
        left, top, right, bottom = np.array(wanted.box) * (width, height, width, height) - 0.5
        apart = [
            np.hypot((word.box[0] + word.box[2] - left - right) / 2, (word.box[1] + word.box[3] - top - bottom) / 2)
            for word in page.words
            if word.text == wanted.text and word.upright == wanted.upright
        ]
        # The box runs to the height of capitals whatever the letters: half of that is 7 px for the largest titles here.
        assert apart, wanted.text
        assert min(apart) < 7, wanted.text


@pytest.mark.parametrize(("kind", "suffix"), [(kind, suffix) for kind in SPOILINGS for suffix in SUFFIXES[kind]])
def test_a_spoiled_page_comes_out_of_its_file_as_it_was_spoiled(kind: str, suffix: str, tmp_path: Path) -> None:
    spoiled = spoil(render(paint("single", 3).pdf, 110), kind, 3, dpi=110)
    path = tmp_path / f"page{suffix}"
    write_file(spoiled, kind, path)
    (page,) = pages(path)
    assert isinstance(page, Page)
    assert page.words is None
    wanted = np.asarray(spoiled.pixels, float)
    wanted = wanted if wanted.ndim == 2 else wanted.mean(axis=2)
    # Means over 24 x 32 blocks do not care for the number of pixels, nor for what JPEG takes away; a block is 50 px
    # wide, so that a line which falls on the other side of a block's rim changes its mean by a few levels.
    np.testing.assert_allclose(blocks(page.pixels.mean(axis=2)), blocks(wanted), atol=14)


def blocks(grey: np.ndarray) -> np.ndarray:
    rows, columns = (
        np.linspace(0, side, count + 1).astype(int) for side, count in zip(grey.shape, (32, 24), strict=True)
    )
    return np.array([
        [grey[top:bottom, left:right].mean() for left, right in itertools.pairwise(columns)]
        for top, bottom in itertools.pairwise(rows)
    ])  # fmt: skip
