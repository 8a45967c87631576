"""How a page lies, on drawn grids that were turned and seen askew by a known map."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt
import pytest
from by_hand import OCTAVES, grid_picture, x_of, y_of
from drawn_by_hand import plotted

from octavo.extract.page import Pixels
from octavo.extract.tilt import find_tilt
from octavo.tools.painter import paint, render

WIDTH, HEIGHT = 1000, 1200
CORNERS = np.array([(x_of(hz), y_of(level)) for hz in (125, 8000) for level in (-10, 120)])
Matrix = npt.NDArray[np.float64]


def turn(degrees: float) -> Matrix:
    """Turn clockwise about the page's middle."""
    matrix = np.eye(3)
    matrix[:2] = cv2.getRotationMatrix2D(((WIDTH - 1) / 2, (HEIGHT - 1) / 2), -degrees, 1.0)
    return matrix


def warped(picture: Pixels, matrix: Matrix) -> Pixels:
    moved = cv2.warpPerspective(picture, matrix, (WIDTH, HEIGHT), flags=cv2.INTER_CUBIC, borderValue=(255, 255, 255))
    return np.asarray(moved, np.uint8)


def through(matrix: Matrix, points: Matrix) -> Matrix:
    moved = np.c_[points, np.ones(len(points))] @ matrix.T
    return moved[:, :2] / moved[:, 2:]


@pytest.mark.parametrize("degrees", [0.0, 0.3, -0.7, 1.6, -4.0, 9.0, -20.0, 38.0])
def test_a_known_turn_is_found_within_a_twentieth_of_a_degree(degrees: float) -> None:
    tilt = find_tilt(warped(grid_picture(), turn(degrees)))
    assert tilt.skew_deg == pytest.approx(degrees, abs=0.05)
    assert not tilt.perspective


@pytest.mark.parametrize("degrees", [-2.2, 1.1, 3.4])
def test_a_painted_page_turned_by_a_known_angle_is_found_too(degrees: float) -> None:
    picture = cv2.resize(render(paint("single", 1).pdf, 150), (WIDTH, HEIGHT), interpolation=cv2.INTER_AREA)
    tilt = find_tilt(warped(np.asarray(picture, np.uint8), turn(degrees)))
    assert tilt.skew_deg == pytest.approx(degrees, abs=0.08)


@pytest.mark.parametrize(
    "corners",
    [
        [(60, 40), (950, 20), (990, 1180), (20, 1150)],
        [(0, 60), (999, 0), (930, 1199), (50, 1130)],
        [(110, 30), (890, 60), (999, 1199), (0, 1170)],
    ],
)
def test_a_page_seen_askew_is_laid_straight_within_3_px(corners: list[tuple[int, int]]) -> None:
    sheet = np.array([(0, 0), (WIDTH - 1, 0), (WIDTH - 1, HEIGHT - 1), (0, HEIGHT - 1)], np.float32)
    camera = np.asarray(cv2.getPerspectiveTransform(sheet, np.array(corners, np.float32)), np.float64)
    tilt = find_tilt(warped(grid_picture(), camera))
    (left, top), (left_low, bottom), (right, right_top), (right_low, right_bottom) = through(
        tilt.matrix @ camera, CORNERS
    )
    assert left_low == pytest.approx(left, abs=3)
    assert right_low == pytest.approx(right, abs=3)
    assert right_top == pytest.approx(top, abs=3)
    assert right_bottom == pytest.approx(bottom, abs=3)
    assert tilt.perspective


def test_a_photo_whose_grid_is_cut_by_a_dark_desk_is_still_found_by_the_sheet_of_paper() -> None:
    desk = np.random.default_rng(2).integers(40, 70, (HEIGHT, WIDTH, 1), dtype=np.uint8).repeat(3, axis=2)
    desk[:, ::37] = 20  # a table's boards, upright while the sheet is not
    mask = warped(np.zeros((HEIGHT, WIDTH, 3), np.uint8), turn(6.0) @ np.diag([0.9, 0.9, 1.0])) == 0
    photo = np.where(mask, warped(grid_picture(), turn(6.0) @ np.diag([0.9, 0.9, 1.0])), desk)
    assert find_tilt(np.asarray(photo, np.uint8)).skew_deg == pytest.approx(6.0, abs=0.1)


@pytest.mark.parametrize("what", ["blank", "noise", "two lines"])
def test_a_page_without_lines_is_left_as_it_is(what: str) -> None:
    picture = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    if what == "noise":
        picture[:] = np.random.default_rng(1).integers(0, 256, picture.shape, dtype=np.uint8)
    if what == "two lines":
        cv2.line(picture, (100, 100), (800, 300), (0, 0, 0), 1)
    tilt = find_tilt(picture)
    if what != "two lines":
        np.testing.assert_array_equal(tilt.matrix, np.eye(3))
    assert not tilt.perspective


def rising(count: int, step: float) -> list[list[float]]:
    return [[10.0 * k + step * i for i in range(7)] for k in range(count)]


@pytest.mark.parametrize(("count", "step"), [(3, 10), (4, 5), (4, 10)])
def test_joining_lines_of_an_audiogram_do_not_turn_a_plotted_page_with_a_dashed_grid(count: int, step: float) -> None:
    # the lines of one audiogram run one way; those of a grid run both ways
    tilt = find_tilt(plotted(rising(count, step), grid=(0, (24, 8)), frame=False))
    assert tilt.skew_deg == pytest.approx(0, abs=0.05)
    assert not tilt.perspective


def joined(picture: Pixels, count: int, step: float) -> Pixels:
    """Draw joined circles over the charts made by hand, ``step`` dB an octave."""
    for curve in rising(count, step):
        points = [(x_of(hz), y_of(level)) for hz, level in zip(OCTAVES, curve, strict=True)]
        cv2.polylines(picture, [np.array(points, np.int32)], False, (200, 0, 0), 2)
        for x, y in points:
            cv2.circle(picture, (int(x), int(y)), 9, (200, 0, 0), 3)
    return picture


def dashed(dash: int, gap: int) -> Pixels:
    """Draw the lattice of the charts made by hand in dashes."""
    picture, solid = np.full((HEIGHT, WIDTH, 3), 255, np.uint8), grid_picture()
    inked = np.arange(HEIGHT) % (dash + gap) < dash
    for hz in OCTAVES:
        x = int(x_of(hz))
        picture[inked, x : x + 2] = solid[inked, x : x + 2]
    for level in range(-10, 121, 10):
        y = int(y_of(level))
        picture[y : y + 2, inked[:WIDTH]] = solid[y : y + 2, inked[:WIDTH]]
    return picture


@pytest.mark.parametrize("step", [2, 3, 4, 5])
def test_joining_lines_do_not_turn_a_page_whose_grid_is_drawn_in_dashes(step: float) -> None:
    assert find_tilt(joined(dashed(32, 20), 8, step)).skew_deg == pytest.approx(0, abs=0.05)


@pytest.mark.parametrize("degrees", [0.0, 4.0])
@pytest.mark.parametrize("step", [5, 10, 15])
def test_an_open_frame_on_a_dotted_grid_says_how_the_page_lies(step: float, degrees: float) -> None:
    picture = joined(dashed(2, 6), 3, step)
    picture[int(y_of(-10)) : int(y_of(120)), int(x_of(125)) : int(x_of(125)) + 2] = 0
    picture[int(y_of(120)) : int(y_of(120)) + 2, int(x_of(125)) : int(x_of(8000))] = 0
    tilt = find_tilt(warped(picture, turn(degrees)))
    assert tilt.skew_deg == pytest.approx(degrees, abs=0.1)
    assert not tilt.perspective


@pytest.mark.parametrize("degrees", [0.0, -3.0])
def test_lines_one_way_alone_still_tell_how_a_page_lies(degrees: float) -> None:
    ruled = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    ruled[200:1000:40, 150:850] = 100
    assert find_tilt(warped(ruled, turn(degrees))).skew_deg == pytest.approx(degrees, abs=0.05)


def test_a_hatching_both_ways_turns_no_page_that_has_nearly_as_many_lines_of_its_own() -> None:
    picture = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    picture[150:1050:100, 150:850] = 0
    picture[150:1050, 150:851:100] = 0
    hatched = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    hatched[150:1050:60, 150:850] = 0
    hatched[150:1050, 150:851:60] = 0
    both = np.minimum(picture, warped(hatched, turn(20.0)))
    assert find_tilt(hatched).skew_deg == pytest.approx(0, abs=0.05)
    assert find_tilt(both).skew_deg == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize("degrees", [0.0, 2.5, -3.0])
@pytest.mark.parametrize("lean", [0.05, 0.1, -0.1])
def test_a_flat_page_shows_no_perspective_although_some_lines_on_it_converge(lean: float, degrees: float) -> None:
    # octave lines and one axis at the foot; three curves, the steeper the farther from it
    picture = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    for x in range(200, 801, 100):
        picture[200:850, x : x + 2] = 120
    picture[850:852, 200:800] = 120
    for y in (620, 420, 220):
        slope = lean * (850 - y) / 600
        for x in range(200, 800, 100):
            ends = [(x0, round(y + slope * (x0 - 500))) for x0 in (x + 12, x + 88)]
            cv2.line(picture, ends[0], ends[1], (0, 0, 200), 2, cv2.LINE_AA)
    tilt = find_tilt(warped(picture, turn(degrees)))
    assert not tilt.perspective
    assert tilt.skew_deg == pytest.approx(degrees, abs=0.05)
    np.testing.assert_allclose(through(tilt.matrix @ turn(degrees), CORNERS), CORNERS, atol=1.5)


def on_a_desk(sheet: Pixels, corners: list[tuple[int, int]]) -> tuple[Pixels, Matrix]:
    """Photograph a sheet so that its corners come to lie there, on a dark desk; give the camera too."""
    flat = np.array([(0, 0), (WIDTH - 1, 0), (WIDTH - 1, HEIGHT - 1), (0, HEIGHT - 1)], np.float32)
    camera = np.asarray(cv2.getPerspectiveTransform(flat, np.array(corners, np.float32)), np.float64)
    covered = warped(np.zeros((HEIGHT, WIDTH, 3), np.uint8), camera) == 0
    return np.where(covered, warped(sheet, camera), np.uint8(45)), camera


def small_grid(step: int) -> tuple[Pixels, Matrix]:
    """Draw a small grid of strong lines in the upper half of a sheet; give its corners, left ones first."""
    sheet = np.full((HEIGHT, WIDTH, 3), 235, np.uint8)
    left, top, right, bottom = 200, 200, 200 + 18 * step, 200 + 14 * step
    for x in range(left, right + 1, step):
        sheet[top : bottom + 2, x : x + 2] = 60
    for y in range(top, bottom + 1, step):
        sheet[y : y + 2, left : right + 2] = 60
    return sheet, np.array([(left, top), (left, bottom), (right, top), (right, bottom)], float)


FROM_ASIDE = [
    [(110, 90), (880, 130), (930, 1080), (60, 1120)],
    [(80, 130), (920, 60), (840, 1150), (150, 1090)],
    [(150, 80), (850, 80), (940, 1130), (60, 1130)],
]


@pytest.mark.parametrize("step", [20, 26])
@pytest.mark.parametrize("corners", FROM_ASIDE)
def test_the_edges_of_a_sheet_do_not_hide_that_its_small_chart_is_seen_from_aside(
    corners: list[tuple[int, int]], step: int
) -> None:
    sheet, chart = small_grid(step)
    photo, camera = on_a_desk(sheet, corners)
    tilt = find_tilt(photo)
    (left, top), (left_low, bottom), (right, right_top), (right_low, right_bottom) = through(
        tilt.matrix @ camera, chart
    )
    slopes = [
        (left_low - left) / (bottom - top), (right_low - right) / (right_bottom - right_top),
        (right_top - top) / (right - left), (right_bottom - bottom) / (right_low - left_low),
    ]  # fmt: skip
    # the levels of a chart are found where its lines lean by less than a hundredth (`lattice.REACH_DB`)
    assert max(map(abs, slopes)) < 0.01


@pytest.mark.parametrize("degrees", [0.0, 2.0])
def test_a_flat_sheet_on_a_dark_ground_is_turned_alone(degrees: float) -> None:
    sheet, _ = small_grid(20)
    photo, _ = on_a_desk(sheet, [(100, 120), (900, 120), (900, 1080), (100, 1080)])
    tilt = find_tilt(warped(photo, turn(degrees)))
    assert tilt.skew_deg == pytest.approx(degrees, abs=0.1)
    assert not tilt.perspective
