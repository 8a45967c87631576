"""The account of ink on charts drawn pixel by pixel, of which all but one thing is told."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

import cv2
import numpy as np
import pytest
from by_hand import (
    LEVELS,
    OCTAVES,
    TOP,
    chart,
    frequency_run,
    frequency_scale,
    grid_picture,
    level_run,
    level_scale,
    mark,
    word,
    x_of,
    y_of,
)

from octavo.extract.chart import Bend, Unexplained
from octavo.extract.measure.ink import Axes, unexplained_ink
from octavo.extract.page import Pixels, Word
from octavo.extract.sightings import ChartArea, MarkSight
from octavo.interpret.symbols import Glyph

BOX = chart().box
AREA = ChartArea(frequency_run(OCTAVES, map(x_of, OCTAVES)), level_run(LEVELS, map(y_of, LEVELS)), (), BOX)
FLAT = Bend(BOX, (0.0,) * 6, (0.0,) * 6, 150, 0.2)
HALF = 13
"""Half the size of the marks drawn here, in pixels: a mark is as high as 5 dB."""
RED, BLUE, BLACK = (200, 20, 20), (20, 40, 200), (20, 20, 20)
ROW = {250: 20, 500: 35, 1000: 55, 2000: 30, 4000: 75}
Colour = tuple[int, int, int]
Spot = tuple[float, float]


def spot(hz: float, level: float) -> Spot:
    return x_of(hz), y_of(level)


def draw(picture: Pixels, glyph: Glyph, at: Spot, colour: Colour, *, thick: int = 2) -> None:
    """Draw a mark of the size that ``seen`` gives it."""
    x, y = round(at[0]), round(at[1])
    left, right, top, bottom = x - HALF, x + HALF, y - HALF, y + HALF
    strokes: dict[str, list[list[tuple[int, int]]]] = {
        "cross": [[(left, top), (right, bottom)], [(left, bottom), (right, top)]],
        "square": [[(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]],
        "triangle": [[(x, top), (right, bottom), (left, bottom), (x, top)]],
        "angle-left": [[(x + 9, top), (x - 9, y), (x + 9, bottom)]],
        "bracket-right": [[(x - 6, top), (x + 6, top), (x + 6, bottom), (x - 6, bottom)]],
    }
    if glyph == "circle":
        cv2.circle(picture, (x, y), HALF, colour, thick, cv2.LINE_AA)
    for stroke in strokes.get(glyph, []):
        cv2.polylines(picture, [np.array(stroke, np.int32)], False, colour, thick, cv2.LINE_AA)


def seen(glyph: Glyph, at: Spot, arrows: tuple[float, float, float] = (0.01, 0.01, 0.01)) -> MarkSight:
    wide = {"angle-left": 20.0, "bracket-right": 14.0}.get(glyph, 2.0 * HALF + 2)
    return replace(mark(glyph, 1000, 0).sight, at=at, size=(wide, 2.0 * HALF + 2), arrows=arrows)


def drawn_chart() -> tuple[Pixels, list[MarkSight]]:
    """Draw a grid with a row of red circles and one of blue crosses, both joined, the crosses by dashes."""
    picture = grid_picture()
    sights: list[MarkSight] = []
    rows: tuple[tuple[Glyph, Colour, int, int], ...] = (("circle", RED, 0, 1), ("cross", BLUE, 20, 6))
    for glyph, colour, deeper, dashes in rows:
        places = [spot(hz, level + deeper) for hz, level in ROW.items()]
        for a, b in pairwise(places):
            join(picture, a, b, colour, dashes)
        for at in places:
            draw(picture, glyph, at, colour)
            sights.append(seen(glyph, at))
    return picture, sights


def join(picture: Pixels, a: Spot, b: Spot, colour: Colour, dashes: int) -> None:
    for dash in range(dashes):
        ends = (dash / dashes, (dash + (1 if dashes == 1 else 0.6)) / dashes)
        start, end = ((round(a[0] + (b[0] - a[0]) * e), round(a[1] + (b[1] - a[1]) * e)) for e in ends)
        cv2.line(picture, start, end, colour, 1, cv2.LINE_AA)


def draw_arrow(picture: Pixels, at: Spot, colour: Colour) -> Spot:
    """Draw an arrow down-right from a mark's corner; give its tip."""
    start, tip = (round(at[0] + HALF), round(at[1] + HALF)), (round(at[0] + 2.6 * HALF), round(at[1] + 2.8 * HALF))
    cv2.arrowedLine(picture, start, tip, colour, 2, cv2.LINE_AA, tipLength=0.35)
    return float(tip[0]), float(tip[1])


def account(
    picture: Pixels, sights: Iterable[MarkSight], words: tuple[Word, ...] = (), bend: Bend = FLAT
) -> tuple[Unexplained, ...]:
    return unexplained_ink(picture, words, tuple(sights), AREA, Axes(frequency_scale(), level_scale(), bend))


def test_grid_marks_and_joins_that_were_seen_leave_nothing() -> None:
    assert account(*drawn_chart()) == ()


GLYPHS: tuple[Glyph, ...] = ("circle", "cross", "square", "triangle", "angle-left", "bracket-right")


@pytest.mark.parametrize("glyph", GLYPHS)
@pytest.mark.parametrize("level", [0, 95])
def test_a_mark_that_was_not_seen_is_noticed_at_its_place(glyph: Glyph, level: int) -> None:
    picture, sights = drawn_chart()
    draw(picture, glyph, spot(2000, level), BLACK)
    (ink,) = account(picture, sights)
    # a mark is noticed where its ink is, not measured: half its size is near enough to say which
    assert math.dist(ink.at, spot(2000, level)) < HALF
    assert ink.frequency_hz == pytest.approx(2000, rel=0.07)
    assert ink.level_db_hl == pytest.approx(level, abs=2.5)
    assert ink.hangs_from is None


@pytest.mark.parametrize("hz", [500, 1000, 2000])
@pytest.mark.parametrize(("glyph", "deeper", "colour"), [("circle", 0, "red"), ("cross", 20, "blue")])
def test_a_mark_of_a_joined_row_that_was_not_seen_is_noticed_with_its_colour(
    hz: int, glyph: Glyph, deeper: int, colour: str
) -> None:
    picture, sights = drawn_chart()
    at = spot(hz, ROW[hz] + deeper)
    missed = [s for s in sights if s.at != at]
    assert len(missed) == len(sights) - 1
    # the joins that led to it now hang from its neighbours as arrows would
    (ink,) = (ink for ink in account(picture, missed) if ink.hangs_from is None)
    assert math.dist(ink.at, at) < HALF
    assert (ink.red > 0.6, ink.blue > 0.6) == (colour == "red", colour == "blue")


def test_a_cross_in_a_circle_is_noticed_where_only_the_circle_was_seen() -> None:
    picture, sights = drawn_chart()
    draw(picture, "cross", spot(500, ROW[500]), BLUE)
    (ink,) = account(picture, sights)
    assert math.dist(ink.at, spot(500, ROW[500])) < HALF


def test_an_arrow_that_was_seen_is_no_unexplained_ink() -> None:
    picture, sights = drawn_chart()
    at = spot(4000, ROW[4000] + 20)
    draw_arrow(picture, at, BLUE)
    assert account(picture, [replace(s, arrows=(0.0, 0.95, 0.0)) if s.at == at else s for s in sights]) == ()


def test_an_arrow_that_was_not_seen_hangs_from_its_mark() -> None:
    picture, sights = drawn_chart()
    at = spot(4000, ROW[4000] + 20)
    tip = draw_arrow(picture, at, BLUE)
    hanging = [ink for ink in account(picture, sights) if ink.hangs_from is not None]
    assert [ink.hangs_from for ink in hanging] == [at]
    assert math.dist(hanging[0].at, tip) < HALF


def test_the_shaft_of_an_arrow_whose_head_looks_a_little_like_a_mark_is_no_join() -> None:
    picture, sights = drawn_chart()
    at = spot(4000, ROW[4000] + 20)
    x, y = draw_arrow(picture, at, BLUE)
    cv2.arrowedLine(picture, (round(x), round(y)), (round(x) + 24, round(y) + 26), BLUE, 2, cv2.LINE_AA, tipLength=0.5)
    head = replace(seen("triangle", (x + 22.0, y + 23.0)), score=0.17)
    assert at in [ink.hangs_from for ink in account(picture, [*sights, head])]


def test_a_word_that_was_read_and_its_frame_are_no_unexplained_ink() -> None:
    picture, sights = drawn_chart()
    x, y = round(x_of(700)), round(y_of(98))
    cv2.putText(picture, "COPY", (x - 30, y + 8), cv2.FONT_HERSHEY_SIMPLEX, 0.7, RED, 2, cv2.LINE_AA)
    assert account(picture, sights) != ()
    cv2.rectangle(picture, (x - 34, y - 12), (x + 34, y + 13), RED, 2)
    assert account(picture, sights, (replace(word("COPY", x, y), box=(x - 30.0, y - 8.0, x + 30.0, y + 9.0)),)) == ()


def test_a_band_of_shading_is_no_unexplained_ink() -> None:
    picture, sights = drawn_chart()
    band = picture[round(y_of(-10)) : round(y_of(25)), round(x_of(125)) : round(x_of(8000))]
    np.minimum(band, 190, out=band)
    assert account(picture, sights) == ()


def test_a_chart_full_of_specks_says_nothing() -> None:
    picture, sights = drawn_chart()
    rng = np.random.default_rng(3)
    for x, y in rng.uniform((x_of(125), TOP), (x_of(8000), y_of(120)), (2500, 2)):
        cv2.circle(picture, (round(x), round(y)), 2, BLACK, -1)
    assert account(picture, sights) == ()


def test_faint_dirt_of_a_marks_size_is_no_unexplained_ink() -> None:
    picture, sights = drawn_chart()
    cv2.circle(picture, (round(x_of(2000)), round(y_of(95))), HALF, (225, 225, 225), -1)
    assert account(picture, sights) == ()


def test_two_marks_are_too_few_to_say_what_a_mark_weighs() -> None:
    picture, sights = drawn_chart()
    assert account(picture, sights[:2]) == ()


def test_on_bent_paper_the_ink_has_its_place_on_the_sheet_and_its_level_on_the_lattice() -> None:
    flat, sights = drawn_chart()
    draw(flat, "square", spot(2000, 95), BLACK)
    # common practice: paper in a camera's view sags; the whole chart lies 9 px lower and 6 px to the right here
    picture = np.roll(flat, (9, 6), (0, 1))
    bend = replace(FLAT, across=(6.0, *(0.0,) * 5), down=(9.0, *(0.0,) * 5))
    moved = [replace(s, at=(s.at[0] + 6, s.at[1] + 9)) for s in sights]
    (ink,) = account(picture, moved, bend=bend)
    x, y = spot(2000, 95)
    assert math.dist(ink.at, (x + 6, y + 9)) < HALF / 2
    assert ink.level_db_hl == pytest.approx(95, abs=1.5)
