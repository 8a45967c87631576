"""Labels that may say several things: the axis is what all of them say together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from by_hand import LEFT, OCTAVES, TOP, frequency_words, level_words, word, x_of, y_of

from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.eyes.axes.level import level_runs
from octavo.extract.page import Word

ON_ITS_SIDE = (90, 270)


def said(one: Word, *readings: tuple[str, float]) -> Word:
    """Let a word say several texts, the likeliest first."""
    (text, chance), *others = readings
    return replace(one, text=text, confidence=chance, others=tuple(others))


def doubtful(words: Sequence[Word], chance: float) -> tuple[Word, ...]:
    return tuple(replace(w, confidence=chance) for w in words)


def test_a_words_readings_are_its_text_and_then_the_others() -> None:
    one = said(word("500", 0, 0), ("500", 0.6), ("2000", 0.3), ("3000", 0.05))
    assert one.readings == (("500", 0.6), ("2000", 0.3), ("3000", 0.05))
    assert word("500", 0, 0).readings == (("500", 0.99),)


def test_a_label_misread_as_500_that_may_say_2000_takes_its_place_on_a_row_of_octaves() -> None:
    words = list(frequency_words())
    words[4] = said(words[4], ("500", 0.6), ("2000", 0.35))
    (run,) = frequency_runs(tuple(words))
    assert run.values == OCTAVES
    assert run.at[4] == pytest.approx(x_of(2000))
    assert run.confidences[4] == 0.35
    assert run.strays == 0


def test_a_label_misread_as_10_that_may_say_70_takes_its_place_in_a_column_of_levels() -> None:
    words = list(level_words())
    words[8] = said(words[8], ("10", 0.6), ("70", 0.35))
    (run,) = level_runs(tuple(words))
    assert run.values == tuple(range(-10, 121, 10))
    assert run.confidences[8] == 0.35


@pytest.mark.parametrize(("low", "high"), [(0.5, 0.4), (0.4, 0.5)])
def test_a_row_that_fits_two_axes_is_the_one_whose_chances_add_up_to_more(low: float, high: float) -> None:
    # each word may also say the next octave, and both readings are evenly spaced
    words = tuple(
        said(word(str(hz), x_of(hz), TOP), *sorted(((str(hz), low), (str(2 * hz), high)), key=lambda r: -r[1]))
        for hz in OCTAVES[:-1]
    )
    (run,) = frequency_runs(words)
    assert run.values == (OCTAVES[:-1] if low > high else OCTAVES[1:])


@pytest.mark.parametrize(("low", "high"), [(0.5, 0.4), (0.4, 0.5)])
def test_a_column_that_fits_two_axes_is_the_one_whose_chances_add_up_to_more(low: float, high: float) -> None:
    levels = range(10, 91, 10)
    words = tuple(
        said(one, *sorted(((str(v), low), (str(v + 10), high)), key=lambda r: -r[1]))
        for v, one in zip(levels, level_words(levels), strict=True)
    )
    (run,) = level_runs(words)
    assert run.values == tuple(levels if low > high else range(20, 101, 10))


def test_four_certain_labels_are_the_axis_rather_than_five_unlikely_ones() -> None:
    # 250, 500, 1000, 2000 read for certain; with two unlikely readings the same places would be a longer axis
    certain = [word(str(hz), x_of(hz), TOP) for hz in (250, 500, 1000, 2000)]
    other = [said(w, (w.text, 0.9), (str(2 * int(w.text)), 0.06)) for w in certain]
    before = said(word("x", x_of(125), TOP), ("?", 0.5), ("250", 0.2))
    after = said(word("x", x_of(4000), TOP), ("?", 0.5), ("8000", 0.2))
    (run,) = frequency_runs((before, *other, after))
    assert run.values == (250, 500, 1000, 2000)


@pytest.mark.parametrize(("chance", "strays"), [(0.95, 1), (0.5, 0)])
def test_a_word_in_the_row_that_is_no_label_counts_only_where_it_was_read_with_certainty(
    chance: float, strays: int
) -> None:
    odd = said(word("8000", x_of(354), TOP - 30), ("8000", chance))
    (run,) = frequency_runs((*frequency_words(), odd))
    assert run.values == OCTAVES
    assert run.strays == strays


@pytest.mark.parametrize(("chance", "axes"), [(0.5, 0), (0.6, 1)])
def test_three_labels_whose_chances_add_up_to_little_are_no_axis(chance: float, axes: int) -> None:
    assert len(frequency_runs(doubtful(frequency_words((250, 500, 1000)), chance))) == axes
    assert len(level_runs(doubtful(level_words((20, 40, 60)), chance))) == axes


@pytest.mark.parametrize(("chance", "axes"), [(0.3, 0), (0.35, 1)])
def test_five_equally_spaced_labels_whose_chances_add_up_to_little_are_no_axis(chance: float, axes: int) -> None:
    words = tuple(word(str(hz), LEFT + 60 * i, TOP) for i, hz in enumerate((500, 750, 1000, 1500, 2000)))
    assert len(frequency_runs(doubtful(words, chance))) == axes


def sideways(upright: int, levels: Sequence[int] = tuple(range(0, 101, 20))) -> tuple[Word, ...]:
    """Print a column of levels on their side: each box is as wide as the text is high."""
    found = []
    for v in levels:
        half = 3.92 * len(str(v))
        box = (LEFT - 57.0, y_of(v) - half, LEFT - 43.0, y_of(v) + half)
        found.append(Word(str(v), box, 0.99, upright))
    return tuple(found)


@pytest.mark.parametrize("upright", ON_ITS_SIDE)
def test_levels_written_on_their_side_are_a_column_at_their_places(upright: int) -> None:
    (run,) = level_runs(sideways(upright))
    assert run.values == tuple(range(0, 101, 20))
    assert run.at == pytest.approx([y_of(v) for v in run.values])
    assert run.across == pytest.approx(LEFT - 50)
    assert run.text_height == pytest.approx(14)


def test_levels_upside_down_and_levels_that_lie_differently_are_no_column() -> None:
    assert level_runs(sideways(180)) == ()
    assert level_runs((*sideways(90, (0, 40)), *sideways(270, (20, 60)), *sideways(0, (80, 100)))) == ()
