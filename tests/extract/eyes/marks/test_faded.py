"""What shows through from the back of the paper, on a picture of circles drawn as dark as the test says."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.marks.faded import not_paler, not_through
from octavo.extract.meaning.explain import SURE_SCORE
from octavo.extract.meaning.nearby import ACCEPT, DOUBTFUL
from octavo.extract.page import Pixels
from octavo.extract.sightings import MarkSight
from octavo.interpret.symbols import Glyph

PAPER = 250
INK, BACK = 20, 220


def sheet_of(
    brightnesses: list[int], grid: int = PAPER, wide: int = 24, thick: int = 2
) -> tuple[Pixels, tuple[MarkSight, ...]]:
    """Draw a circle of each brightness in a row, over grid lines, and say that each was clearly seen."""
    picture = np.full((300, 100 * len(brightnesses) + 100, 3), PAPER, np.uint8)
    picture[150] = grid
    seen = []
    for number, bright in enumerate(brightnesses):
        x = 100 * number + 100
        picture[:, x] = grid
        cv2.circle(picture, (x, 150), wide // 2 - 1, (bright,) * 3, thick)
        sight = MarkSight(
            0, "circle", (float(x), 150.0), (float(wide), float(wide)), 0.9, (), 0.0, 0.0, (0.0, 0.0, 0.0)
        )
        seen.append(sight)
    return picture, tuple(seen)


def taken(brightnesses: list[int], grid: int = PAPER) -> list[bool]:
    return [mark.score >= ACCEPT for mark in not_through(*sheet_of(brightnesses, grid))]


@pytest.mark.parametrize("grid", [PAPER, 190])
def test_the_marks_of_the_back_of_thin_paper_are_no_values(grid: int) -> None:
    # seen on scans of thin forms printed on both sides: the other chart's marks were values, one of them sure
    assert taken([INK] * 5 + [BACK] * 4, grid) == [True] * 5 + [False] * 4


def test_what_shows_through_stays_told_as_what_may_be_a_mark() -> None:
    through = not_through(*sheet_of([INK] * 5 + [BACK] * 4))[-1]
    assert through.score > DOUBTFUL
    assert through.striking == 0.9


def test_large_marks_of_thin_strokes_are_as_dark_as_small_bold_ones() -> None:
    bold, few = sheet_of([INK] * 5)
    thin, many = sheet_of([INK] * 5, wide=70, thick=1)
    side_by_side = np.hstack([bold, thin])
    moved = tuple(replace(mark, at=(mark.at[0] + bold.shape[1], mark.at[1])) for mark in many)
    assert not_through(side_by_side, few + moved) == few + moved


def test_marks_of_weak_toner_or_of_a_faint_pencil_are_kept() -> None:
    assert all(taken([INK] * 5 + [150] * 4))  # another ribbon, less than half as dark
    assert all(taken([BACK] * 8))
    assert all(taken([INK] * 6 + [BACK] * 2))  # a white streak of a copier over two marks


def test_one_mark_rubbed_out_or_covered_asks() -> None:
    # seen on forms: a pencil's mark an eraser left, and the edge of correction fluid, were values like others
    *marks, ghost = not_through(*sheet_of([INK] * 6 + [BACK]))
    assert ACCEPT <= ghost.score < SURE_SCORE
    assert ghost.striking == 0.9
    assert all(mark.score == 0.9 for mark in marks)


@pytest.mark.parametrize(
    ("pale", "shape", "asks"),
    [
        (3 * [150], "circle", True),  # half as dark, and of a shape that others have
        (3 * [150], "triangle", False),  # its shape may have an ink of its own
        (3 * [190], "triangle", True),  # a quarter as dark
        (2 * [190], "triangle", False),
    ],
)
def test_marks_of_an_earlier_test_in_grey_under_today_s_in_black_ask(
    pale: list[int], shape: Glyph, *, asks: bool
) -> None:
    # a stranger's pages: where today's had no mark of the frequency the earlier one stood for it, as sure
    picture, seen = sheet_of([INK] * 5 + pale)
    marks = (*seen[:5], *(replace(mark, glyph=shape) for mark in seen[5:]))
    for found in (not_through(picture, marks), not_paler(picture, marks)):
        assert [mark.score < SURE_SCORE for mark in found] == [False] * 5 + [asks] * len(pale)
        assert all(mark.score >= ACCEPT for mark in found)
