"""Lines of a sheet that still lies in perspective, pixel by pixel, and labels that lean with them."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import OCTAVES, frequency_scale, level_scale, x_of, y_of
from grid_by_hand import BOX, LEVELS, Curve, bent_grid

from octavo.extract.measure.keystone import keystone
from octavo.extract.measure.lattice import fit_bend
from octavo.extract.measure.leaning import Slopes, leaning_of, slopes_of
from octavo.extract.sightings import LabelRun

FIRST, LAST = x_of(OCTAVES[0]), x_of(OCTAVES[-1])


def falling(top: float, bottom: float) -> Curve:
    """Level lines that fall by so many pixels over the chart, at its top and at its bottom; none at the left."""

    def curve(x: float, y: float) -> tuple[float, float]:
        part = (y - y_of(LEVELS[0])) / (y_of(LEVELS[-1]) - y_of(LEVELS[0]))
        return 0.0, (x - FIRST) / (LAST - FIRST) * (top * (1 - part) + bottom * part)

    return curve


@pytest.mark.parametrize(("top", "bottom"), [(18.0, 18.0), (-16.0, 14.0), (0.0, 20.0)])
def test_a_grid_in_perspective_is_taken_back_within_a_decibel(top: float, bottom: float) -> None:
    curve = falling(top, bottom)
    held = FIRST, y_of(LEVELS[0])
    bend = fit_bend(bent_grid(curve), BOX, frequency_scale(), level_scale(), held_at=held)
    for hz in OCTAVES:
        for level in LEVELS:
            x, y = x_of(hz), y_of(level)
            assert bend.undone(x, y + curve(x, y)[1])[1] == pytest.approx(y, abs=level_scale().px_per_db)


def test_labels_on_both_sides_tell_how_level_lines_fall() -> None:
    left = LabelRun("level", "y", "linear", (0, 10, 20, 30), (100, 120, 140, 160), 50, (1.0,) * 4, 12, 0)
    right = LabelRun("level", "y", "linear", (10, 20, 30), (132, 152, 172), 450, (1.0,) * 3, 12, 0)
    row = LabelRun("frequency", "x", "log", (500, 1000), (100, 200), 80, (1.0,) * 2, 12, 0)
    slopes = slopes_of((left, right), (row,))
    assert (slopes.level, slopes.upright) == (pytest.approx(12 / 400), 0.0)


def test_a_table_below_with_the_same_frequencies_is_no_side_of_the_chart() -> None:
    left = LabelRun("level", "y", "linear", (0, 10, 20), (100, 120, 140), 50, (1.0,) * 3, 12, 0)
    row = LabelRun("frequency", "x", "log", (500, 1000, 2000), (100, 200, 300), 80, (1.0,) * 3, 12, 0)
    table = LabelRun("frequency", "x", "equal", (500, 1000, 2000), (260, 360, 460), 290, (1.0,) * 3, 12, 0)
    narrow = LabelRun("frequency", "x", "equal", (500, 1000, 2000), (120, 170, 220), 490, (1.0,) * 3, 12, 0)
    assert slopes_of((left,), (row, table, narrow)) == Slopes(0.0, 0.0)


def test_a_leaning_row_of_labels_tells_it_too_and_is_not_off_at_the_labels() -> None:
    left = LabelRun("level", "y", "linear", (0, 10, 20), (100, 120, 140), 50, (1.0,) * 3, 12, 0)
    row = LabelRun("frequency", "x", "log", (500, 1000, 2000), (100, 200, 300), 80, (1.0,) * 3, 12, 0, lean=0.05)
    slopes = slopes_of((left,), (row,))
    assert slopes == Slopes(0.05, 0.0)
    box = (0.0, 60.0, 400.0, 260.0)
    across, down = leaning_of(slopes, (left,), row, box)
    assert across == (0.0,) * 6
    assert down[0] + down[1] * (2 * 50 - 400) / 400 == pytest.approx(0)
    assert down[0] + down[1] == pytest.approx(0.05 * 350)


def test_noise_leans_nowhere() -> None:
    picture = np.random.default_rng(3).integers(200, 256, (*bent_grid(falling(0, 0)).shape[:2], 1), dtype=np.uint8)
    bend = fit_bend(np.repeat(picture, 3, axis=2), BOX, frequency_scale(), level_scale())
    assert bend.down == (0.0,) * 6
    assert bend.across == (0.0,) * 6


def test_lines_halfway_between_the_labels_do_not_lean() -> None:
    # seen on a page: the labels had ticks alone and the lines stood at 5, 15 and so on; taken for lines that fall, they
    # made the right half of a chart 5 dB worse, surely
    at, rows = np.linspace(50.0, 950.0, 10), np.arange(100.0, 700.0, 40.0)
    expected = np.tile(rows, (len(at), 1))
    halfway, falling_by_half = (np.zeros((len(at), 800), np.float32) for _ in range(2))
    for piece, x in enumerate(at):
        halfway[piece, rows.astype(int) + 20] = 50
        falling_by_half[piece, (rows + 20 * x / 950).round().astype(int)] = 50
    assert keystone(halfway, at, rows, expected, 0.0, 4.0) == (0.0, 0.0)
    assert keystone(falling_by_half, at, rows, expected, 0.0, 4.0) == pytest.approx((20 / 950, 20 / 950), abs=0.002)
