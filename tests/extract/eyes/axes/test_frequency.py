"""Labels off their place and labels misread: when a row of frequencies stays logarithmic, and when it is doubted.

What forms print and how they space it is common practice (references: chart geometry).
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import LEFT, OCTAVE, OCTAVES, TOP, frequency_words, word, x_of

from octavo.extract.eyes.axes.frequency import CONTRADICTION, frequency_runs
from octavo.extract.page import Word
from octavo.extract.sightings import LabelRun

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


@pytest.mark.parametrize(("octave", "fits"), [(100.0, False), (30.0, True)])
def test_a_label_may_be_off_by_a_share_of_its_height_which_counts_on_small_charts(octave: float, fits: bool) -> None:
    # a digit cut away or a speck taken in moves a box's middle by pixels, not by octaves
    words = list(evenly(OCTAVES, octave))
    words[-1] = word("8000", LEFT + 6 * octave + 0.135 * octave, ROW)
    run = run_of(*words)
    assert run.scale == "log"
    assert (8000 in run.values) == fits
