"""The bend of a lattice whose lines are drawn, pixel by pixel, along a known curve."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import LEFT, OCTAVES, SIZE, frequency_scale, level_scale, x_of, y_of
from grid_by_hand import BOX, LEVELS, Curve, bent_grid

from octavo.extract.chart import Bend
from octavo.extract.measure.lattice import fit_bend
from octavo.extract.page import Pixels


def fitted(picture: Pixels) -> Bend:
    return fit_bend(picture, BOX, frequency_scale(), level_scale())


def as_unit(x: float, y: float) -> tuple[float, float]:
    return (2 * x - BOX[0] - BOX[2]) / (BOX[2] - BOX[0]), (2 * y - BOX[1] - BOX[3]) / (BOX[3] - BOX[1])


def sag(x: float, y: float) -> tuple[float, float]:
    u, v = as_unit(x, y)
    return 3.0 * u * v - 2.0 * v * v + 1.0, 6.0 * u * u - 3.0 * v + 1.0


def flat(x: float, y: float) -> tuple[float, float]:
    return 0.0, 0.0


def lean(x: float, y: float) -> tuple[float, float]:
    u, v = as_unit(x, y)
    return 3.0 * v, -4.0 * u


@pytest.mark.parametrize("curve", [sag, lean])
def test_a_known_bend_is_taken_back_within_a_pixel(curve: Curve) -> None:
    bend = fitted(bent_grid(curve))
    for hz in OCTAVES:
        for level in LEVELS:
            x, y = x_of(hz), y_of(level)
            dx, dy = curve(x, y)
            assert bend.undone(x + dx, y + dy) == pytest.approx((x, y), abs=1.0)


def test_a_straight_grid_has_no_bend() -> None:
    bend = fitted(bent_grid(flat))
    assert bend.lines_found > 100
    for hz in OCTAVES:
        assert bend.undone(x_of(hz), y_of(60)) == pytest.approx((x_of(hz), y_of(60)), abs=0.3)


@pytest.mark.parametrize("ink", ["blank", "noise", "one line"])
def test_a_chart_without_a_grid_is_left_as_it_is(ink: str) -> None:
    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    if ink == "noise":
        picture[:] = np.random.default_rng(3).integers(200, 256, (SIZE[1], SIZE[0], 1), dtype=np.uint8)
    if ink == "one line":
        picture[int(y_of(40)) + 6, int(LEFT) : int(LEFT) + 120] = 0
    assert fitted(picture).undone(400.0, 500.0) == (400.0, 500.0)


@pytest.mark.parametrize("off_db", [1.1, -1.1])
def test_the_edges_of_a_few_marks_are_no_level_lines_of_a_chart_without_a_grid(off_db: float) -> None:
    # seen on a copy that had lost its faint grid: all its values were read 1.3 dB off and asked as between two steps
    import cv2

    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    for i, hz in enumerate(OCTAVES):
        level = (10, 10, 20, 30, 40, 40, 50)[i]
        y = round(y_of(level + off_db))
        cv2.line(picture, (int(x_of(hz)) - 25, y), (int(x_of(hz)) + 25, y), (0, 0, 0), 3)
    assert fitted(picture).down == (0.0,) * 6


def test_joined_marks_over_the_grid_do_not_bend_it() -> None:
    import cv2

    picture = bent_grid(flat)
    points = [(int(x_of(hz)), int(y_of(level))) for hz, level in zip(OCTAVES, (8, 12, 22, 33, 48, 72, 66), strict=True)]
    cv2.polylines(picture, [np.array(points, np.int32)], False, (200, 0, 0), 4)
    for x, y in points:
        cv2.circle(picture, (x, y), 9, (200, 0, 0), 4)
    bend = fitted(picture)
    for x, y in points:
        assert bend.undone(x, y) == pytest.approx((x, y), abs=0.5)


def upright_lines_only(seed: int) -> Pixels:
    """Draw a chart's frame and octave lines, no level lines, and three joined curves of marks on 5-dB steps."""
    import cv2

    rng = np.random.default_rng(seed)
    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    top, bottom = int(y_of(-16)), int(y_of(126))
    for hz in OCTAVES:
        cv2.line(picture, (int(x_of(hz)), top), (int(x_of(hz)), bottom), (120, 120, 120), 2)
    cv2.rectangle(picture, (int(LEFT), top), (int(x_of(8000)), bottom), (120, 120, 120), 2)
    for start in (10, 40, 70):
        levels = start + np.cumsum(5 * rng.integers(-1, 3, len(OCTAVES)))
        points = [(int(x_of(hz)), int(y_of(level))) for hz, level in zip(OCTAVES, levels, strict=True)]
        cv2.polylines(picture, [np.array(points, np.int32)], False, (200, 0, 0), 2)
        for x, y in points:
            cv2.circle(picture, (x, y), 10, (200, 0, 0), 3)
    return picture


@pytest.mark.parametrize("seed", [0, 3, 7, 15])
def test_joined_marks_on_a_chart_with_upright_lines_alone_are_no_level_lines(seed: int) -> None:
    # common practice of charting programs: a frame and octave lines, and no lines at the levels
    bend = fitted(upright_lines_only(seed))
    assert bend.down == (0.0,) * 6
    assert bend.across[0] == pytest.approx(0, abs=0.3)
    assert bend.lines_found >= 60  # seven octave lines of ten stretches each


def lettered() -> Pixels:
    """Print lines of text over a blank chart, at heights that have nothing to do with its levels."""
    import cv2

    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    for i in range(22):
        at = (int(LEFT) - 7 * i * i % 83, int(y_of(-10)) + 31 * i)
        cv2.putText(picture, "Harbour Lane clinic invented words", at, cv2.FONT_HERSHEY_SIMPLEX, 1.0, (0, 0, 0), 2)
    return picture


def test_lines_of_text_over_a_chart_are_no_lattice() -> None:
    bend = fitted(lettered())
    assert bend.across == bend.down == (0.0,) * 6
    assert bend.lines_found == 0


@pytest.mark.parametrize("light", [(255, 250, 150), (130, 130, 130), (150, 120, 80)], ids=["warm", "dim", "lamp"])
def test_the_grid_of_a_photo_in_warm_or_little_light_is_found_as_in_daylight(light: tuple[int, int, int]) -> None:
    # all paper of such a photo is darker than a line on white paper needs to be
    picture = (bent_grid(sag) * (np.array(light) / 255)).astype(np.uint8)
    bend = fitted(picture)
    assert bend.cover > 0.9
    for hz in OCTAVES:
        x, y = x_of(hz), y_of(60)
        dx, dy = sag(x, y)
        assert bend.undone(x + dx, y + dy) == pytest.approx((x, y), abs=1.0)


def test_the_grid_is_found_where_a_shadow_lies_over_half_of_it() -> None:
    picture = bent_grid(sag).astype(float)
    picture[:, : int(x_of(1000))] *= 0.45
    assert fitted(picture.astype(np.uint8)).cover > 0.85


def test_the_sides_of_marks_on_a_chart_without_upright_lines_do_not_shift_its_frequencies() -> None:
    # circles and crosses began as far left of their frequencies: all values asked, for they stood beside the axis'
    import cv2

    picture = bent_grid(flat)
    for hz in OCTAVES:
        picture[int(y_of(-10)) + 3 : int(y_of(120)) - 2, int(x_of(hz)) - 2 : int(x_of(hz)) + 4] = 255
    for level in LEVELS:
        picture[int(y_of(level)) : int(y_of(level)) + 2, int(LEFT) : int(x_of(8000)) + 1] = 90
    for hz, level in zip(OCTAVES, (25, 25, 35, 45, 55, 65, 75), strict=True):
        cv2.circle(picture, (int(x_of(hz)), int(y_of(level))), 9, (0, 0, 200), 3)
        cv2.circle(picture, (int(x_of(hz)), int(y_of(level + 30))), 9, (0, 0, 200), 3)
    assert fitted(picture).undone(x_of(1000), 500.0)[0] == pytest.approx(x_of(1000), abs=1.0)


def test_a_frame_close_beside_the_outermost_frequencies_is_not_taken_for_their_lines() -> None:
    # seen on a picture with a faint grid: all marks were read up to a seventh of an octave too far to the middle
    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    top, bottom = round(y_of(LEVELS[0])), round(y_of(LEVELS[-1]))
    for hz in OCTAVES[1:-1]:
        picture[top:bottom:3, round(x_of(hz))] = 190
    octave = x_of(OCTAVES[1]) - x_of(OCTAVES[0])
    for x in (x_of(OCTAVES[0]) - 0.15 * octave, x_of(OCTAVES[-1]) + 0.15 * octave):
        picture[top:bottom, round(x) - 1 : round(x) + 1] = 60
    bend = fitted(picture)
    for hz in OCTAVES:
        assert bend.undone(x_of(hz), y_of(60))[0] == pytest.approx(x_of(hz), abs=1.0)


def frame_alone(curve: Curve, *, sides: tuple[float, ...], dark: int = 60) -> Pixels:
    """Draw level lines of a frame along a curve, half a step beyond the outermost levels, and no grid."""
    picture = np.full((SIZE[1], SIZE[0], 3), 255, np.uint8)
    for level in sides:
        for x in range(int(LEFT) - 40, int(x_of(8000)) + 40):
            y = round(y_of(level) + curve(x, y_of(level))[1])
            picture[y - 1 : y + 2, x] = dark
    return picture


def curl(x: float, y: float) -> tuple[float, float]:
    u, v = as_unit(x, y)
    left = as_unit(LEFT, 0)[0]  # at the first column nothing is off
    return 0.0, (4.0 + 2.0 * v) * (u - left) - 20.0 * (u * u - left * left)


def test_a_chart_without_a_grid_on_curled_paper_is_bent_as_its_frame_is() -> None:
    # seen on a photo of a form with ticks alone: thirteen values stood as sure 5 dB off
    bend = fitted(frame_alone(curl, sides=(-15, 125)))
    for hz in OCTAVES:
        for level in LEVELS:
            x, y = x_of(hz), y_of(level)
            assert bend.undone(x, y + curl(x, y)[1]) == pytest.approx((x, y), abs=1.5)


def test_one_side_of_a_frame_or_a_slanting_row_of_joined_marks_bends_nothing() -> None:
    assert fitted(frame_alone(curl, sides=(-15,))).down == (0.0,) * 6
    assert fitted(frame_alone(curl, sides=(40, 70))).down == (0.0,) * 6


def test_one_dark_side_of_a_frame_and_what_is_faint_beyond_the_other_end_bend_nothing() -> None:
    # a chart with a top line alone, on a scan: noise of the paper was followed for its other side, and 10 values of 23
    # were 5 dB off
    faint = frame_alone(curl, sides=(125,), dark=235)
    one = np.minimum(frame_alone(lambda _x, _y: (0.0, 0.0), sides=(-15,)), faint)
    assert fitted(one).down == (0.0,) * 6


def test_a_frame_a_little_beyond_both_outermost_levels_is_not_taken_for_their_lines() -> None:
    # no level lines, and both sides of the frame 2 dB beyond: all levels were drawn apart by 3%
    level = frame_alone(lambda _x, _y: (0.0, 0.0), sides=(-12, 122))
    assert fitted(level).down == (0.0,) * 6
