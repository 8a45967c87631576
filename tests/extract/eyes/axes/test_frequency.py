"""Labels off their place and labels misread: when a row of frequencies stays logarithmic, and when it is doubted.

What forms print and how they space it is common practice (references: chart geometry).
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from by_hand import LEFT, OCTAVE, OCTAVES, TOP, frequency_words, word, x_of

from octavo.extract.eyes.axes.frequency import CONTRADICTION, frequency_runs
from octavo.extract.intake import pages
from octavo.extract.page import Page, Word
from octavo.extract.sightings import LabelRun
from octavo.extract.straighten import straighten
from octavo.tools.train.kept.order import Order, painted

ROW = TOP - 30
BELOW_8000 = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000)
"""With inter-octaves at their true places, so that the labels are not evenly spaced as well."""


def label(text: str, hz: float, *, off: float = 0.0, chance: float = 0.99) -> Word:
    """Print a label at a frequency's place, or ``off`` octaves right of it."""
    return replace(word(text, x_of(hz) + off * OCTAVE, ROW), confidence=chance)


def run_of(*words: Word) -> LabelRun:
    (run,) = frequency_runs(words)
    return run


def evenly(values: tuple[int, ...], step: float = 60.0) -> tuple[Word, ...]:
    return tuple(word(str(hz), LEFT + step * i, ROW) for i, hz in enumerate(values))


@pytest.mark.parametrize("off", [-0.15, 0.1, 0.15, 0.19])
def test_one_label_a_little_off_its_place_leaves_the_axis_logarithmic(off: float) -> None:
    run = run_of(*frequency_words(BELOW_8000), label("8000", 8000, off=off))
    assert run.scale == "log"
    assert run.values == BELOW_8000


def test_one_label_far_off_its_place_but_in_order_makes_the_axis_one_that_is_not_logarithmic() -> None:
    run = run_of(*frequency_words(BELOW_8000), label("8000", 8000, off=0.3))
    assert run.scale == "equal"
    assert run.values == (*BELOW_8000, 8000)


def test_two_labels_a_little_off_their_places_are_a_spacing_of_the_forms_own() -> None:
    inner = (250, 500, 750, 1000, 1500, 2000, 3000, 4000)
    run = run_of(label("125", 125, off=-0.15), *frequency_words(inner), label("8000", 8000, off=0.15))
    assert run.scale == "equal"
    assert run.values == (125, *inner, 8000)


@pytest.mark.parametrize(("chance", "scale"), [(0.8, "log"), (0.9, "equal")])
def test_a_label_keeps_the_order_alone_only_where_it_was_read_surely(chance: float, scale: str) -> None:
    assert run_of(*frequency_words(BELOW_8000), label("8000", 8000, off=0.3, chance=chance)).scale == scale


@pytest.mark.parametrize(("text", "scale"), [("5000", "log"), ("9000", "log"), ("11200", "log"), ("6000", "equal")])
def test_a_frequency_that_few_forms_print_does_not_keep_the_order_alone(text: str, scale: str) -> None:
    run = run_of(*frequency_words(BELOW_8000), label(text, 4000 * 2**0.9))
    assert run.scale == scale
    assert (float(text) in run.values) == (scale == "equal")


def test_a_6000_in_the_very_place_of_8000_on_a_logarithmic_row_is_doubted() -> None:
    run = run_of(*frequency_words(BELOW_8000), label("6000", 8000))
    assert (run.scale, run.values[-1]) == ("equal", 6000)
    assert run.strays >= CONTRADICTION


def test_a_6000_short_of_the_place_of_8000_is_a_spacing_of_the_forms_own() -> None:
    run = run_of(*frequency_words(BELOW_8000), label("6000", 8000, off=-0.1))
    assert (run.scale, run.values[-1]) == ("equal", 6000)
    assert run.strays == 0


@pytest.mark.parametrize("text", ["5000", "6000"])
def test_another_number_in_the_place_of_8000_on_an_evenly_spaced_row_of_octaves_is_doubted(text: str) -> None:
    run = run_of(*frequency_words(OCTAVES[:-1]), label(text, 8000))
    assert run.values[-1] == float(text)
    assert run.strays >= CONTRADICTION


def test_of_two_readings_of_a_last_label_the_one_without_a_contradiction_is_taken() -> None:
    # seen on a fax: "5k", which may say "6k" or "8k", where 8 kHz stands on a logarithmic axis
    last = replace(label("5000", 8000), confidence=0.4, others=(("6000", 0.26), ("8000", 0.23)))
    run = run_of(*frequency_words(BELOW_8000), last)
    assert (run.scale, run.values[-1], run.strays) == ("log", 8000, 0)


def test_a_last_4000_that_may_as_well_say_6000_is_told_by_the_octaves_though_others_stand_half_way() -> None:
    # seen on a copy: all values of that column stood as sure at 6000 Hz
    columns = {250: 0, 500: 2, 750: 3, 1000: 4, 1500: 5, 2000: 6, 3000: 7}
    row = [replace(word(str(hz), LEFT + 64 * at, ROW), confidence=0.7) for hz, at in columns.items()]
    last = replace(word("6000", LEFT + 64 * 8, ROW), confidence=0.54, others=(("4000", 0.45),))
    run = run_of(*row, last)
    assert (run.scale, run.values[-1], run.strays) == ("log", 4000, 0)


def test_an_evenly_spaced_row_of_which_a_few_labels_were_lost_is_read(tmp_path: Path) -> None:
    # the heads of "1 500", "2 000" and "3 000" are lost on this scan, and the whole chart was with them
    made = painted(Order("wide", 82000194, "scan", mono=False), str(tmp_path))
    (page,) = pages(made.path)
    assert isinstance(page, Page)
    run = run_of(*straighten(page).words)
    assert run.scale == "equal"
    assert {500, 750, 4000, 10000, 20000} <= set(run.values)
    steps = [(at - run.at[0]) / 84.2 for at in run.at]
    assert all(abs(step - round(step)) < 0.15 for step in steps)


def test_a_3000_in_the_place_of_4000_within_a_row_of_octaves_is_doubted() -> None:
    others = tuple(hz for hz in OCTAVES if hz != 4000)
    assert run_of(*frequency_words(others), label("3000", 4000)).strays >= CONTRADICTION


@pytest.mark.parametrize(
    "values",
    [
        OCTAVES,
        (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
        (250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
        (250, 500, 1000, 2000, 3000, 4000, 6000, 8000),
    ],
)
def test_a_form_that_spaces_its_frequencies_evenly_is_not_doubted(values: tuple[int, ...]) -> None:
    run = run_of(*evenly(values))
    assert run.values == values
    assert run.strays == 0


FORM = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)


@pytest.mark.parametrize("lost", [(1000,), (1000, 1500, 2000), (750, 1000, 1500, 2000, 3000), (250, 1000)])
def test_a_lost_1000_whose_column_counts_out_leaves_the_axis_undoubted(lost: tuple[int, ...]) -> None:
    run = run_of(*(word(str(hz), LEFT + 60 * i, ROW) for i, hz in enumerate(FORM) if hz not in lost))
    assert run.values == tuple(hz for hz in FORM if hz not in lost)
    assert run.strays == 0


def test_a_lost_1000_beside_a_label_misread_does_not_count_out() -> None:
    read = {0: 125, 1: 250, 2: 500, 3: 750, 7: 4000, 9: 6000, 10: 8000}  # 4000 for 3000
    run = run_of(*(word(str(hz), LEFT + 60 * i, ROW) for i, hz in read.items()))
    assert run.strays >= CONTRADICTION


@pytest.mark.parametrize(("octave", "fits"), [(100.0, False), (30.0, True)])
def test_a_label_may_be_off_by_a_share_of_its_height_which_counts_on_small_charts(octave: float, fits: bool) -> None:
    # a digit cut away or a speck taken in moves a box's middle by pixels, not by octaves
    words = list(evenly(OCTAVES, octave))
    words[-1] = word("8000", LEFT + 6 * octave + 0.135 * octave, ROW)
    run = run_of(*words)
    assert run.scale == "log"
    assert (8000 in run.values) == fits


def columns(values: dict[str, int], *, chances: dict[str, float] | None = None) -> tuple[Word, ...]:
    """Print labels in the columns of an evenly spaced axis, 60 pixels each."""
    chances = chances or {}
    return tuple(
        replace(word(text, LEFT + 60 * at, ROW), confidence=chances.get(text, 0.99)) for text, at in values.items()
    )


def test_hertz_below_and_kilohertz_from_1000_are_one_row_where_columns_are_of_one_width() -> None:
    # columns without a label stand for 1500, 3000 and 6000 Hz
    run = run_of(*columns({"250": 0, "500": 1, "1K": 2, "2K": 4, "4K": 6, "8K": 8}))
    assert run.values == (250, 500, 1000, 2000, 4000, 8000)
    assert run.strays == 0


EXTENDED = {
    "125": 0, "250": 1, "500": 2, "1000": 4, "2000": 6, "4000": 8, "8000": 10, "9000": 11, "10000": 12, "11200": 13,
    "12500": 14, "14000": 15, "16000": 16, "18000": 17, "20000": 18,
}  # fmt: skip


def test_labels_of_every_column_below_500_and_above_8000_hz_are_read_beside_those_of_every_other() -> None:
    run = run_of(*columns(EXTENDED))
    assert run.values == tuple(map(float, EXTENDED))
    assert run.strays == 0


def test_columns_of_one_width_are_not_doubted_where_a_second_label_fits_no_octave() -> None:
    # 4000 stands where a logarithmic axis has 8000, but 8000 stands where it has 32,000
    run = run_of(*columns({"125": 0, "250": 1, "500": 2, "1000": 3, "2000": 4, "4000": 6, "8000": 8}))
    assert run.values == OCTAVES
    assert run.strays == 0


def test_a_label_that_may_be_5000_or_6000_is_the_one_that_forms_print() -> None:
    values = (250, 500, 750, 1000, 1500, 2000, 3000, 4000)
    place = LEFT + 60 * len(values)
    last = replace(word("5000", place, ROW), confidence=0.5, others=(("6000", 0.4),))
    run = run_of(*evenly(values), last, word("8000", place + 60, ROW))
    assert run.values == (*values, 6000, 8000)


def test_two_charts_of_columns_of_one_width_side_by_side_keep_a_label_each() -> None:
    # seen on a scan: 125 Hz of the left chart was taken for the right one's, a whole number of columns away
    one = {"125": 0, "250": 2, "500": 4, "750": 5, "1000": 6, "1500": 7, "2000": 8, "3000": 9, "4000": 10, "8000": 12}
    left = columns(one, chances={text: 0.97 for text in one if text != "125"})
    right = columns(one, chances={"125": 0.9})
    shifted = tuple(replace(w, box=(w.box[0] + 1200, w.box[1], w.box[2] + 1200, w.box[3])) for w in right)
    runs = frequency_runs(left + shifted)
    assert [run.values for run in runs] == [tuple(map(float, one))] * 2
    assert [run.strays for run in runs] == [0, 0]


def test_a_row_in_kilohertz_whose_points_were_lost_is_read_by_its_places() -> None:
    # seen on a fax: ".25 .5 1 2 4 8" read as "25 5 1 2 4 8"
    run = run_of(*(label(text, hz) for text, hz in (("25", 250), ("5", 500), ("1", 1000), ("2", 2000), ("4", 4000))))
    assert run.values == (250, 500, 1000, 2000, 4000)


@pytest.mark.parametrize(
    ("values", "found"), [((1500, 2000, 3000, 4000, 6000, 8000), 1), ((1000, 2000, 4000, 8000), 0)]
)
def test_a_row_whose_labels_below_1000_hz_are_hidden_is_an_axis_where_enough_others_are_read(
    values: tuple[int, ...], found: int
) -> None:
    assert len(frequency_runs(frequency_words(values))) == found
