"""Numbers that stand like the labels of an axis; what forms print is common practice (references: chart geometry)."""

from __future__ import annotations

import math

import pytest
from by_hand import LEFT, OCTAVE, OCTAVES, TOP, frequency_words, level_words, word, x_of, y_of

from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.eyes.axes.level import level_runs
from octavo.extract.eyes.words.numbers import frequency_values, level_value
from octavo.extract.page import Word

TESTED = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)


@pytest.mark.parametrize(
    ("text", "hz"),
    [
        ("125", 125), ("250", 250), ("8000", 8000), ("1 000", 1000), ("1,000", 1000), ("1.000", 1000), ("2'000", None),
        ("12 500", 12500), ("0,5", 500), ("0.5", 500), (".25", 250), (",25", 250), ("0.125", 125), ("1.5", 1500),
        ("1k", 1000), ("1K", 1000), ("12.5k", 12500), ("1 kHz", 1000), ("500 Hz", 500), ("4kHz", 4000), ("8", 8000),
        ("750", 750), ("11.2", 11200), ("7", None), ("", None), ("k", None), ("Hz", None), ("-500", None),
        ("333", None), ("1k5x", None), ("L", None), ("20 dB", None), ("0 500", None),
    ],
)  # fmt: skip
def test_a_label_says_its_frequency_in_every_way_it_is_printed(text: str, hz: float | None) -> None:
    found = {value for value, _ in frequency_values(text)}
    assert found == (set() if hz is None else {hz})


def test_a_label_tells_whether_it_was_read_as_kilohertz() -> None:
    assert frequency_values("0,5") == ((500.0, True),)
    assert frequency_values("500") == ((500.0, False),)


def test_a_number_that_is_a_frequency_both_in_hertz_and_in_kilohertz_does_not_exist_among_labels() -> None:
    for hz in TESTED:
        assert len(frequency_values(str(hz))) == 1
        assert len(frequency_values(f"{hz / 1000:g}")) == 1


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("0", 0), ("-10", -10), ("- 10", -10), ("-20", -20), ("120", 120), ("140", 140), ("65", 65), ("30 dB", 30),
        ("30 dB HL", 30), ("-25", None), ("145", None), ("150", None), ("33", None), ("1000", None), ("4.5", None),
        ("", None), ("-", None), ("dB", None), ("O", None), ("-0", None), ("05", None), ("00", None), ("-05", None),
        ("010", None),
    ],
)  # fmt: skip
def test_a_level_label_goes_from_minus_20_to_140_in_steps_of_5(text: str, level: float | None) -> None:
    assert level_value(text) == level


def test_a_row_of_octaves_is_a_logarithmic_axis_at_its_labels_places() -> None:
    (run,) = frequency_runs(frequency_words())
    assert run.scale == "log"
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES])


def test_labels_in_kilohertz_are_the_same_axis() -> None:
    texts = ("0,125", "0,25", "0,5", "1", "2", "4", "8")
    words = tuple(word(text, x_of(hz), TOP) for text, hz in zip(texts, OCTAVES, strict=True))
    (run,) = frequency_runs(words)
    assert run.values == OCTAVES


def test_inter_octaves_printed_half_way_keep_their_place() -> None:
    # references.md section 1: 0.585 of the octave on a true log axis, 0.5 on many forms
    octaves = frequency_words()
    half_way = {hz: x_of(hz / 1.5) + OCTAVE / 2 for hz in (750, 1500, 3000, 6000)}
    words = octaves + tuple(word(str(hz), x, TOP - 30, height=12.0) for hz, x in half_way.items())
    (run,) = frequency_runs(words)
    found = dict(zip(run.values, run.at, strict=True))
    assert set(found) == {*OCTAVES, *half_way}
    for hz, x in half_way.items():
        assert found[hz] == pytest.approx(x, abs=0.01)


def test_an_axis_whose_labels_stand_in_two_rows_is_one_axis() -> None:
    words = tuple(word(str(hz), LEFT + 60 * i, TOP - 30 + 18 * (i % 2)) for i, hz in enumerate(TESTED))
    (run,) = frequency_runs(words)
    assert run.scale == "equal"
    assert run.values == TESTED
    assert run.at == pytest.approx([LEFT + 60 * i for i in range(len(TESTED))])


def test_a_thousand_printed_with_a_space_is_one_label() -> None:
    words = [word(str(hz), x_of(hz), TOP) for hz in (125, 250, 500)]
    for hz in (1000, 2000, 4000, 8000):
        words += [word(str(hz // 1000), x_of(hz) - 18, TOP), word("000", x_of(hz) + 4, TOP)]
    (run,) = frequency_runs(tuple(words))
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES], abs=6)


def test_two_labels_seen_as_one_word_are_parted() -> None:
    words = [*frequency_words((125, 250, 500, 1000, 2000)), word("40008000", x_of(4000 * math.sqrt(2)), TOP - 30)]
    (run,) = frequency_runs(tuple(words))
    assert set(run.values) >= {125, 250, 500, 1000, 2000}
    assert 40008000 not in run.values


def test_four_labels_seen_as_one_word_are_parted() -> None:
    # a file set them so close that they were one word: the chart ended at 500 Hz
    octave, half = 36.0, 0.28 * 14 * 4
    words = [word(str(hz), LEFT + octave * i, TOP) for i, hz in enumerate((125, 250, 500))]
    box = (LEFT + 3 * octave - half, TOP - 7.0, LEFT + 6 * octave + half, TOP + 7.0)
    (run,) = frequency_runs((*words, Word("1000200040008000", box)))
    assert run.values == OCTAVES
    assert run.at == pytest.approx([LEFT + octave * i for i in range(7)], abs=5)


@pytest.mark.parametrize(
    "texts",
    [
        ("125", "250"),
        ("8000", "4000", "2000", "1000", "500", "250"),
        ("Jan", "Feb", "Mar", "Apr", "May"),
        ("10", "20", "30", "40", "50", "60"),
        ("2019", "2020", "2021", "2022", "2023"),
        ("125", "125", "125", "125"),
        ("0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10"),
    ],
)
def test_what_does_not_rise_through_audiometric_frequencies_is_no_axis(texts: tuple[str, ...]) -> None:
    assert frequency_runs(tuple(word(text, LEFT + 70 * i, TOP) for i, text in enumerate(texts))) == ()


def test_words_upside_down_are_no_labels() -> None:
    assert frequency_runs(tuple(word(str(hz), x_of(hz), TOP, upright=180) for hz in OCTAVES)) == ()


def test_a_column_of_levels_is_an_axis_at_its_labels_places() -> None:
    (run,) = level_runs(level_words())
    assert run.values == tuple(range(-10, 121, 10))
    assert run.at == pytest.approx([y_of(v) for v in run.values])


def test_levels_that_increase_upward_are_no_axis() -> None:
    # an output curve of a hearing aid counts upward, an audiogram never (ISO 8253-1: audiogram form)
    words = tuple(word(str(v), LEFT, y_of(120 - v)) for v in range(0, 121, 10))
    assert level_runs(words) == ()


def test_a_level_label_out_of_place_is_left_out() -> None:
    words = (*level_words((0, 20, 40, 60, 80, 100)), word("70", LEFT - 58, y_of(105)))
    (run,) = level_runs(words)
    assert run.values == (0, 20, 40, 60, 80, 100)


def test_two_labels_are_no_axis() -> None:
    assert level_runs(level_words((0, 100))) == ()
    assert frequency_runs(frequency_words((500, 1000))) == ()
