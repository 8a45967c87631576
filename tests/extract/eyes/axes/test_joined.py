"""Words of a row of frequencies made whole labels."""

from __future__ import annotations

import pytest
from by_hand import OCTAVES, TOP, frequency_words, x_of

from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.eyes.axes.joined import one_label_each
from octavo.extract.page import Word

HEIGHT = 14.0


def at(text: str, left: float, right: float, confidence: float = 0.99) -> Word:
    return Word(text, (left, TOP, right, TOP + HEIGHT), confidence)


def with_units(hz: float) -> tuple[Word, Word]:
    """Print "250 Hz" with the middle of both words on its line."""
    return at(f"{hz:g}", x_of(hz) - 22, x_of(hz)), at("Hz", x_of(hz) + 5, x_of(hz) + 22)


def test_a_label_with_its_unit_stands_with_the_middle_of_both_on_its_line() -> None:
    # all marks of a chart stood a tenth of an octave beside the frequencies, which were taken from the numbers alone
    (run,) = frequency_runs(tuple(w for hz in OCTAVES for w in with_units(hz)))
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES], abs=0.5)


def test_a_unit_far_from_any_number_stays_a_word_of_its_own() -> None:
    words = (at("250", 100, 130), at("Hz", 180, 200))
    assert one_label_each(words) == list(words)


def test_groups_of_digits_whose_boxes_touch_are_one_label() -> None:
    (label,) = one_label_each((at("1", 256, 264), at("500", 263.5, 283)))
    assert label.text == "1500"


def test_a_digit_and_thousands_whose_boxes_overlap_are_one_label() -> None:
    # seen on a page: "6 000" stood where its "6" does, as 6 kHz, and a mark at 6 kHz was read at 8, surely
    (label,) = one_label_each((at("6", 256, 271), at("000", 267, 303)))
    assert (label.text, label.box[0], label.box[2]) == ("6000", 256, 303)
    assert len(one_label_each((at("6", 256, 271), at("500", 267, 303)))) == 2


def test_a_speck_at_an_octaves_distance_does_not_make_octaves_an_axis_of_equal_steps() -> None:
    # the point before a line of text stood where the next octave would: the axis was in doubt, and with it all values
    octaves = frequency_words(OCTAVES[1:])
    beyond = 2 * x_of(8000) - x_of(4000)
    speck = Word("9", (beyond - 3, octaves[0].box[1], beyond + 3, octaves[0].box[3]), 0.04)
    (run,) = frequency_runs((*octaves, speck))
    assert (run.scale, run.values, run.strays) == ("log", OCTAVES[1:], 0)
