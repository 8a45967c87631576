"""Rows of numbers that are no frequencies: what counts times, distances or doses, though some of it reads as such."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from by_hand import LEFT, OCTAVE, OCTAVES, TOP, frequency_words, level_words, word, x_of, y_of

from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.page import Word
from octavo.tools.reading import read
from octavo.tools.train.kept.order import Order, painted

ROW, COLUMN = TOP - 30, 60.0
KILOHERTZ = ("0.125", "0.25", "0.5", "1", "2", "4", "8")
MIDDLE = x_of(1000)


def evenly(texts: Sequence[str], *, first: float = LEFT) -> tuple[Word, ...]:
    return tuple(word(text, first + COLUMN * i, ROW) for i, text in enumerate(texts))


def in_octaves(texts: Sequence[str]) -> tuple[Word, ...]:
    return tuple(word(text, LEFT + OCTAVE * i, ROW) for i, text in enumerate(texts))


def caption(text: str, *, x: float = MIDDLE, y: float = ROW - 30) -> tuple[Word, ...]:
    """Write words in a line with its middle at a place."""
    parts, at = text.split(" "), x - 0.28 * 14 * len(text)
    found = []
    for part in parts:
        wide = 0.56 * 14 * len(part)
        found.append(word(part, at + wide / 2, y))
        at += wide + 0.56 * 14
    return tuple(found)


STANDARD = ("125", "250", "500", "1000", "2000", "3000", "4000", "6000", "8000")


def test_a_nought_a_column_before_the_first_label_is_no_audiograms() -> None:
    assert frequency_runs(evenly(STANDARD))
    assert not frequency_runs(evenly(("0", *STANDARD), first=LEFT - COLUMN))


def test_a_nought_that_was_hardly_read_says_nothing() -> None:
    nought, *rest = evenly(("0", *STANDARD), first=LEFT - COLUMN)
    assert frequency_runs((replace(nought, confidence=0.5), *rest))


def test_the_nought_of_the_levels_beside_a_row_along_its_line_says_nothing() -> None:
    levels = level_words(x=LEFT - COLUMN)
    row = tuple(replace(w, box=(w.box[0], y_of(0) - 7, w.box[2], y_of(0) + 7)) for w in evenly(STANDARD))
    (run,) = frequency_runs((*row, *levels))
    assert run.values == tuple(map(float, STANDARD))


def test_a_row_that_is_worth_more_as_numbers_in_even_steps_is_no_row_of_frequencies() -> None:
    # as a coarse fax of 1 to 7 was read, the 5 as a 6
    row = evenly(("1", "2", "3", "4", "6", "6", "7"))
    labels = tuple(replace(w, confidence=0.54 if w.text != "6" else 0.2) for w in row[:5])
    assert frequency_runs(labels)
    assert not frequency_runs((*labels, *row[5:]))


@pytest.mark.parametrize("texts", [("1", "2", "4", "8", "16", "32", "64"), ("0.1", "0.2", "0.5", "1", "2", "5", "10")])
def test_a_number_in_its_place_that_is_no_frequency_of_hearing_tests_makes_the_row_another_axis(
    texts: Sequence[str],
) -> None:
    places = [x_of(1000 * float(text)) for text in texts]
    row = tuple(word(text, x, ROW) for text, x in zip(texts, places, strict=True))
    assert not frequency_runs(row)
    named = (*row, *caption("Frequency (kHz)", x=(places[0] + places[-1]) / 2))
    assert frequency_runs(named)


def test_a_level_beside_a_row_on_its_side_is_no_number_of_the_row() -> None:
    # 80 dB may stand where 80 Hz would, at the height of the row's middle
    row = tuple(
        replace(w, upright=90, box=(x - 7, ROW - 20, x + 7, ROW + 20))
        for w, x in zip(
            in_octaves(("125", "250", "500", "1000", "2000", "4000", "8000")), map(x_of, OCTAVES), strict=True
        )
    )
    (run,) = frequency_runs((*row, word("80", x_of(80), ROW)))
    assert run.values == OCTAVES


def test_a_level_of_a_column_beside_a_row_is_no_number_of_the_row() -> None:
    levels = tuple(word(str(20 * i), x_of(80), ROW + 40 * (i - 4)) for i in range(6))
    (run,) = frequency_runs((*frequency_words(y=ROW), *levels))
    assert run.values == OCTAVES


def test_a_number_far_beside_a_row_is_none_of_its() -> None:
    # seen on a report whose results of speech stood in line with the labels: 80 where 80 kHz would be
    (run,) = frequency_runs((*frequency_words(y=ROW), word("80", x_of(80000), ROW)))
    assert run.values == OCTAVES


@pytest.mark.parametrize("name", ["Mesh (mm)", "Time (min)", "Dose (mg)", "Abstand (km)", "Weeks", "Speed (1/min)"])
def test_the_name_of_another_quantity_over_a_row_makes_it_another_axis(name: str) -> None:
    assert not frequency_runs((*in_octaves(KILOHERTZ), *caption(name)))


@pytest.mark.parametrize(
    "name",
    ["Frequency (kHz)", "Frequenz in kHz", "Right ear", "Sound field (S)", "Masked (M)", "Time: 10", "Test time",
     "Left (L)", "Pure tone audiogram", "Hearing age"],
)  # fmt: skip
def test_other_words_over_a_row_of_frequencies_leave_it_one(name: str) -> None:
    assert frequency_runs((*in_octaves(KILOHERTZ), *caption(name)))


def test_a_name_that_stands_aside_or_was_hardly_read_says_nothing() -> None:
    aside = caption("Time (min)", x=x_of(6000))
    hazy = tuple(replace(w, confidence=0.7) for w in caption("Time (min)"))
    assert frequency_runs((*in_octaves(KILOHERTZ), *aside))
    assert frequency_runs((*in_octaves(KILOHERTZ), *hazy))


def test_frequencies_with_words_between_them_are_a_sentence() -> None:
    row = frequency_words((500, 1000, 2000, 4000), y=ROW)
    between = replace(word("and", x_of(2800), ROW), box=(x_of(2000) + 18, ROW - 7, x_of(4000) - 18, ROW + 7))
    assert frequency_runs(row)
    assert not frequency_runs((*row, between))


@pytest.mark.parametrize(
    ("seed", "way"),
    [(97100020, "drawn"), (97100025, "drawn"), (97100060, "drawn"), (97100006, "scan"), (97100038, "fax-coarse")],
)
def test_a_plot_of_something_else_downward_has_no_values(tmp_path: Path, seed: int, way: str) -> None:
    (record,) = read(painted(Order("downward", seed, way, mono=False), str(tmp_path)).path, report=False)
    assert not [t for audiogram in record.audiograms for t in audiogram.thresholds]
