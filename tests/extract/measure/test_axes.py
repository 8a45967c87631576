"""Axes fitted to their labels, on label places worked out by hand (references: chart geometry)."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from by_hand import DECIBEL, OCTAVE, OCTAVES, frequency_run, level_run, x_of, y_of

from octavo.extract.measure.axes import fit_frequency, fit_level

LEVELS = tuple(range(-10, 121, 10))


def test_a_level_axis_goes_through_its_labels() -> None:
    scale = fit_level((level_run(LEVELS, map(y_of, LEVELS)),))
    assert scale.px_per_db == pytest.approx(DECIBEL)
    assert scale.level_at(y_of(37.5)) == pytest.approx(37.5)
    assert scale.printed == (-10, 120)
    assert scale.labels_read == len(LEVELS)
    assert scale.worst_misfit == pytest.approx(0, abs=1e-6)


def test_one_label_out_of_place_hardly_moves_the_level_axis_and_is_reported() -> None:
    at = [y_of(v) + (8 * DECIBEL if v == 120 else 0) for v in LEVELS]
    scale = fit_level((level_run(LEVELS, at),))
    assert scale.level_at(y_of(60)) == pytest.approx(60, abs=0.5)
    assert scale.worst_misfit > 6


def test_a_number_between_the_steps_of_a_level_axis_and_off_its_place_is_none_of_its_labels() -> None:
    # seen on a scan: a mark beside the axis was read as "5", and all values of the chart asked for it
    levels = sorted((*LEVELS, 5))
    at = [y_of(v) + (2 * DECIBEL if v == 5 else 0) for v in levels]
    scale = fit_level((level_run(levels, at),))
    assert scale.labels_read == len(LEVELS)
    assert scale.worst_misfit == pytest.approx(0, abs=1e-6)


def test_levels_printed_on_both_sides_are_as_far_apart_as_those_on_one() -> None:
    # taken for half as far, so that marks one step beyond the labels were dropped and nobody was told
    levels = range(20, 121, 20)
    both = tuple(replace(level_run(levels, map(y_of, levels)), across=across) for across in (150.0, 900.0))
    assert fit_level(both).printed_step_db == fit_level(both[:1]).printed_step_db == 20


def test_level_columns_on_both_sides_are_fitted_together() -> None:
    left = level_run((0, 20, 40), map(y_of, (0, 20, 40)))
    right = level_run((60, 80, 100), map(y_of, (60, 80, 100)))
    scale = fit_level((left, right))
    assert scale.printed == (0, 100)
    assert scale.labels_read == 6
    assert scale.level_at(y_of(50)) == pytest.approx(50)


@pytest.mark.parametrize("hz", [125, 250, 333, 1000, 3000, 7000, 8000, 11000])
def test_a_logarithmic_axis_gives_every_frequency_its_place_and_back(hz: float) -> None:
    scale = fit_frequency(frequency_run(OCTAVES, map(x_of, OCTAVES)))
    assert scale.x_of(hz) == pytest.approx(x_of(hz))
    assert scale.hz_at(x_of(hz)) == pytest.approx(hz)
    assert scale.octave_px == pytest.approx(OCTAVE)


def test_the_worked_case_of_the_trade_puts_3_khz_at_508_5_px() -> None:
    # references.md section 1, worked: an octave of 100 px, 125 Hz at 50 px -> 1000 Hz at 350, 3000 Hz at 508.5
    scale = fit_frequency(frequency_run(OCTAVES, [50 + 100 * i for i in range(7)]))
    assert scale.x_of(1000) == pytest.approx(350)
    assert scale.x_of(3000) == pytest.approx(508.5, abs=0.05)


def test_half_way_inter_octaves_keep_their_labels_places_on_a_logarithmic_axis() -> None:
    values = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    half_way = {hz: x_of(hz / 1.5) + OCTAVE / 2 for hz in (750, 1500, 3000, 6000)}
    scale = fit_frequency(frequency_run(values, [half_way.get(hz, x_of(hz)) for hz in values]))
    for hz, x in half_way.items():
        assert scale.x_of(hz) == pytest.approx(x)
        assert scale.hz_at(x) == pytest.approx(hz)
    assert scale.x_of(1000) == pytest.approx(x_of(1000))


def test_an_octave_label_set_askew_is_put_back_on_the_line_and_reported() -> None:
    at = [x_of(hz) + (5 if hz == 1000 else 0) for hz in OCTAVES]
    scale = fit_frequency(frequency_run(OCTAVES, at))
    assert scale.x_of(1000) == pytest.approx(x_of(1000), abs=1.0)
    assert 0.03 < scale.worst_misfit < 0.05


def test_an_equally_spaced_axis_keeps_every_label_where_it_stands() -> None:
    values = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    at = [100 + 60 * i + (1 if i % 2 else -1) for i in range(len(values))]
    scale = fit_frequency(frequency_run(values, at, "equal"))
    assert scale.scale == "equal"
    for hz, x in zip(values, at, strict=True):
        assert scale.x_of(hz) == pytest.approx(x)
    between = (at[4] + at[5]) / 2
    assert scale.hz_at(between) == pytest.approx(math.sqrt(1000 * 1500))


def test_a_scale_knows_which_of_its_labels_were_read_well_in_any_of_its_rows() -> None:
    below = frequency_run(OCTAVES, map(x_of, OCTAVES))
    poor = replace(below, confidences=tuple(0.2 if hz in (1000, 8000) else 0.9 for hz in OCTAVES))
    poorer = replace(below, confidences=tuple(0.9 if hz == 1000 else 0.1 for hz in OCTAVES))
    assert fit_frequency(poor, (poorer,)).well_read == {float(hz) for hz in OCTAVES if hz != 8000}
