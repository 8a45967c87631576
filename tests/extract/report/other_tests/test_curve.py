"""Tympanograms measured on drawn curves; the curves are drawn here, so that their peaks are known."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.page import Word
from octavo.extract.report.lines import lines_of
from octavo.extract.report.other_tests import OtherTests, read_other_tests
from octavo.extract.sheet import Sheet

LEFT, RIGHT, TOP, BOTTOM = 200, 800, 200, 500
MOST = 1.5


def word(text: str, x: float, y: float) -> Word:
    half = 4.5 * len(text)
    return Word(text, (x - half, y - 8, x + half, y + 8))


def curve_page(peak: float, height: float, *, foot: float = 0.2, ear: str = "Left", unit: str = "daPa") -> OtherTests:
    """Draw one tympanogram of -400 to 200 daPa and 0 to 1.5 mmho with grid, frame and labels, and read it."""
    pixels = np.full((700, 1000, 3), 255, np.uint8)
    words = [word(ear, 500, TOP - 30), word(unit, 500, BOTTOM + 50)]
    for pressure in range(-400, 201, 100):
        x = LEFT + pressure + 400
        cv2.line(pixels, (x, TOP), (x, BOTTOM), (205, 205, 205), 1)
        words.append(word(str(pressure), x, BOTTOM + 20))
    for step in range(4):
        y = BOTTOM - step * 100
        cv2.line(pixels, (LEFT, y), (RIGHT, y), (205, 205, 205), 1)
        words.append(word(f"{step * 0.5:.1f}", LEFT - 30, y))
    cv2.rectangle(pixels, (LEFT, TOP), (RIGHT, BOTTOM), (80, 80, 80), 2)
    pressures = np.linspace(-400, 200, 200)
    level = foot + height * np.exp(-((pressures - peak) ** 2) / 5000)
    points = np.stack([LEFT + pressures + 400, BOTTOM - level / MOST * (BOTTOM - TOP)], axis=1)
    cv2.polylines(pixels, [np.round(points).astype(np.int32)], False, (20, 20, 160), 3)
    sheet = Sheet(pixels, np.eye(3), (1000, 700), "drawn", tuple(words), (), 0.0, words_given=True)
    return read_other_tests(lines_of(words), sheet)


@pytest.mark.parametrize("foot", [0.0, 0.2])
@pytest.mark.parametrize(("peak", "height"), [(-100, 0.8), (0, 0.4), (-250, 1.1)])
def test_the_peak_of_a_curve_is_measured_and_asks(peak: float, height: float, foot: float) -> None:
    (one,) = curve_page(peak, height, foot=foot).immittance
    assert (one.ear, one.standing, one.why_ask) == ("left", "ask", ("from-curve",))
    assert one.tympanogram is not None
    assert one.tympanogram.peak_pressure_dapa == pytest.approx(peak, abs=5)  # rounded to 5 daPa
    assert one.tympanogram.peak_admittance_mmho == pytest.approx(height, abs=0.03)  # a stroke is 0.015 mmho thick


def test_a_flat_curve_has_no_peak_and_no_numbers() -> None:
    (one,) = curve_page(0, 0.0, foot=0.3).immittance
    assert one.tympanogram is not None
    assert one.tympanogram.has_peak is False
    assert one.tympanogram.peak_pressure_dapa is None


def test_a_curve_of_no_named_ear_is_left_out() -> None:
    assert curve_page(0, 0.5, ear="Trace").immittance == ()


def test_a_curve_over_something_else_than_pressure_is_left_out() -> None:
    assert curve_page(0, 0.5, unit="Hz").immittance == ()
