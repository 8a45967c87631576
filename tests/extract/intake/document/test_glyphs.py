"""Marks that a drawn page sets as letters stand where their own ink lies, whatever runs through them (matplotlib)."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from matplotlib import rc_context
from matplotlib.figure import Figure

from octavo.extract.eyes.marks.drawn.lettered import LETTERS, SHAPES
from octavo.extract.intake import pages
from octavo.extract.page import SIGNS, Page, Word

SET = "O×<[SAMU"


def drawn(path: Path, *, lines: bool, fonttype: int, apart: float = 0.11) -> Page:
    """Set letters side by side, and over them lines of their ink."""
    figure = Figure(figsize=(6, 3))
    for place, letter in enumerate(SET):
        figure.text(0.05 + apart * place, 0.5, letter, size=30, ha="left", va="baseline")
    if lines:
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set(xlim=(0, 1), ylim=(0, 1))
        axes.axis("off")
        axes.plot([0, 1], [0.3, 0.8], color="black", lw=1.0, ls="--")
        for place in range(len(SET)):
            axes.axvline(0.08 + apart * place, color="black", lw=1.0)
    with rc_context({"pdf.fonttype": fonttype}):
        figure.savefig(path)
    (page,) = pages(path)
    assert isinstance(page, Page)
    return page


def signs(page: Page) -> list[Word]:
    return sorted((w for w in page.words or () if w.text in SIGNS), key=lambda w: w.box[0])


@pytest.mark.parametrize("fonttype", [3, 42])
def test_lines_of_a_letters_own_ink_do_not_shift_it(tmp_path: Path, fonttype: int) -> None:
    # seen on pages: crosses on a grid as dark were read 4 dB too low, and one beside a dashed line 5 dB too high
    free = drawn(tmp_path / "free.pdf", lines=False, fonttype=fonttype)
    found = signs(drawn(tmp_path / "lined.pdf", lines=True, fonttype=fonttype))
    assert "".join(w.text for w in found) == SET
    assert all(w.tight for w in found)
    for word in found:
        left, top, right, bottom = (round(side) for side in word.box)
        dark = free.pixels[top - 15 : bottom + 16, left - 15 : right + 16].min(axis=2) < 128
        rows, columns = np.flatnonzero(dark.any(axis=1)), np.flatnonzero(dark.any(axis=0))
        ink = left - 15 + columns[0], top - 15 + rows[0], left - 15 + columns[-1], top - 15 + rows[-1]
        assert word.box == pytest.approx(ink, abs=2.5)


def test_marks_side_by_side_that_are_letters_are_no_word(tmp_path: Path) -> None:
    # seen on a page: three crosses of neighbouring frequencies were one word, and so no marks that the file names
    found = signs(drawn(tmp_path / "near.pdf", lines=False, fonttype=42, apart=0.057))
    assert "".join(w.text for w in found) == SET


def test_every_sign_has_a_shape() -> None:
    assert set(SHAPES) | set(LETTERS) == SIGNS
