"""What the pictures of the steps show: where each thing was seen, and lines where the fitted axes lie."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from octavo.extract.chart import Bend, FrequencyScale, LevelScale, Mark, MeasuredChart, Unexplained
from octavo.extract.page import Pixels, Word
from octavo.extract.sheet import Sheet
from octavo.extract.sightings import ChartArea, LabelRun, MarkSight, Sightings
from octavo.interpret.symbols import Ink
from octavo.tools.step_pictures import (
    AREA,
    DOUBT,
    FREQUENCY,
    INK_COLOURS,
    LEVEL,
    WORD,
    draw_charts,
    draw_sheet,
    draw_sightings,
    on_sheet,
)

BOX = (100.0, 100.0, 700.0, 500.0)
WORDS = (Word("250", (190.0, 60.0, 230.0, 80.0)),)
FREQUENCIES = LabelRun("frequency", "x", "log", (250, 500, 1000), (210, 360, 510), 70, (1, 1, 1), 16, 0)
LEVELS = LabelRun("level", "y", "linear", (0, 50, 100), (160, 310, 460), 80, (1, 1, 1), 16, 0)
BENT = Bend(BOX, (2.0, 1.0, -2.0, 0.5, 1.0, 0.0), (5.0, 0.0, 3.0, 0.0, 0.0, 6.0), 60, 0.1)
FLAT = Bend(BOX, (0.0,) * 6, (0.0,) * 6, 0, 0.0)


def a_sheet() -> Sheet:
    paper = np.full((600, 800, 3), 255, np.uint8)
    return Sheet(paper, np.eye(3), (800, 600), "drawn", WORDS, (), 0.0)


def a_sight(ink: Ink = "red", score: float = 0.8) -> MarkSight:
    red, blue = float(ink == "red"), float(ink == "blue")
    return MarkSight(0, "circle", (360.0, 310.0), (20.0, 20.0), score, (), red, blue, (0.0, 0.0, 0.0))


def a_chart(bend: Bend, *marks: Mark) -> MeasuredChart:
    frequency = FrequencyScale("log", ((250, 210.0), (500, 360.0), (1000, 510.0)), 3, 0.0, frozenset((250, 500, 1000)))
    return MeasuredChart(0, BOX, frequency, LevelScale(160.0, 3.0, (0, 100), 3, 0.0, 3), bend, marks, ())


def sightings(*marks: MarkSight) -> Sightings:
    return Sightings(WORDS, (ChartArea(FREQUENCIES, LEVELS, (), BOX),), marks, (), chart_like=False)


def has_colour(picture: Pixels, colour: tuple[int, int, int]) -> np.ndarray:
    """Tell where a colour stands; thin smooth lines never have it quite."""
    return np.all(np.abs(picture.astype(int) - colour) < 60, axis=2)


def nearest(picture: Pixels, colour: tuple[int, int, int], x: float, y: float) -> float:
    """Give how far from a place the nearest pixel of a colour lies."""
    rows, columns = np.nonzero(has_colour(picture, colour))
    return float(np.hypot(columns - x, rows - y).min())


def test_the_sheet_s_picture_frames_its_words_and_leaves_the_sheet_as_it_is() -> None:
    sheet = a_sheet()
    picture = draw_sheet(sheet)
    # Lines are drawn at whole pixels: half a pixel off on each axis at the most.
    assert all(nearest(picture, WORD, x, y) <= 0.71 for x in (190, 230) for y in (60, 80))
    assert sheet.pixels.min() == 255


def test_the_sightings_picture_frames_the_area_and_rings_every_label() -> None:
    picture = draw_sightings(a_sheet(), sightings())
    assert all(nearest(picture, AREA, x, y) <= 1.5 for x in (100, 700) for y in (100, 500))
    assert all(nearest(picture, FREQUENCY, x, 70) <= 3 for x in (210, 360, 510))
    assert all(nearest(picture, LEVEL, 80, y) <= 3 for y in (160, 310, 460))


@pytest.mark.parametrize("ink", ["red", "blue", "neutral"])
def test_a_mark_is_framed_in_the_colour_of_its_ink(ink: Ink) -> None:
    picture = draw_sightings(a_sheet(), sightings(a_sight(ink)))
    assert all(nearest(picture, INK_COLOURS[ink], x, y) <= 1.5 for x in (350, 370) for y in (300, 320))


def test_what_was_hardly_seen_has_a_thinner_frame() -> None:
    bold, thin = (draw_sightings(a_sheet(), sightings(a_sight(score=score))) for score in (0.8, 0.2))
    frame = np.s_[296:325, 346:375]
    assert (thin[frame] < 255).sum() < (bold[frame] < 255).sum()


def test_a_mark_s_note_changes_with_its_score() -> None:
    one, other = (draw_sightings(a_sheet(), sightings(a_sight(score=score))) for score in (0.8, 0.9))
    assert (one != other).any()


@pytest.mark.parametrize("bend", [FLAT, BENT])
def test_a_place_on_the_sheet_is_the_bend_s_inverse(bend: Bend) -> None:
    chart = a_chart(bend)
    for x, y in ((210.0, 160.0), (400.0, 300.0), (690.0, 480.0)):
        assert chart.bend.undone(*on_sheet(chart, x, y)) == pytest.approx((x, y), abs=1e-3)


@pytest.mark.parametrize("bend", [FLAT, BENT])
def test_the_fitted_lines_are_drawn_where_the_bend_says_that_they_lie(bend: Bend) -> None:
    picture = draw_charts(a_sheet(), (a_chart(bend),))
    rows, columns = np.nonzero(has_colour(picture, LEVEL) | has_colour(picture, FREQUENCY))
    inside = (columns > 215) & (columns < 505) & (rows > 170) & (rows < 455)
    misses = []
    for x, y in zip(columns[inside], rows[inside], strict=True):
        u, v = bend.undone(float(x), float(y))
        misses.append(min(abs((v - 160) / 30 - round((v - 160) / 30)) * 30, *(abs(u - c) for c in (210, 360, 510))))
    # Whole pixels and short straight pieces: within a pixel. Ten level lines, each across 290 px, are there.
    assert max(misses) <= 1.0
    assert len(misses) > 2000


def test_the_charts_picture_marks_every_mark_at_its_place() -> None:
    mark = Mark(a_sight("blue"), 360.0, 310.0, 500.0, 50.0)
    assert nearest(draw_charts(a_sheet(), (a_chart(FLAT, mark),)), INK_COLOURS["blue"], 360, 310) <= math.sqrt(2) * 4


def test_the_charts_picture_frames_ink_that_nothing_explains() -> None:
    ink = Unexplained((500.0, 200.0), (24.0, 20.0), 950.0, 13.0, 0.0, 0.0, 0.9)
    picture = draw_charts(a_sheet(), (replace(a_chart(FLAT), unexplained=(ink,)),))
    corners = ((488, 190), (512, 190), (512, 210), (488, 210))
    assert all(nearest(picture, DOUBT, *corner) <= 2 for corner in corners)


def test_a_page_without_a_chart_is_drawn_all_the_same() -> None:
    empty = Sightings((), (), (), (), chart_like=True)
    # That something was left unread is written on it.
    assert draw_sightings(a_sheet(), empty).min() < 255
    assert draw_charts(a_sheet(), ()).min() == 255
