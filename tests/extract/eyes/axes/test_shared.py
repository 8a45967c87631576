"""Charts side by side or one above the other of which only one bears the labels of the axis that they share."""

from __future__ import annotations

import pytest
from by_hand import LEVELS, OCTAVES, TOP, frequency_words, level_words, word, x_of, y_of

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.page import Word

SIZE = (2400, 2400)
BESIDE, BELOW = 900.0, 760.0
"""How far the second chart stands from the first, in pixels."""


def moved(words: tuple[Word, ...], dx: float, dy: float = 0.0) -> tuple[Word, ...]:
    return tuple(
        Word(w.text, (w.box[0] + dx, w.box[1] + dy, w.box[2] + dx, w.box[3] + dy), w.confidence) for w in words
    )


def foot() -> tuple[Word, ...]:
    return frequency_words(y=y_of(120) + 30)


def test_a_chart_beside_one_with_levels_has_the_same_levels() -> None:
    # the left ear's chart beside the right ear's was not read: the levels stand at the left of both, once
    areas = chart_areas((*foot(), *moved(foot(), BESIDE), *level_words()), SIZE)
    assert len(areas) == 2
    assert areas[0].level.at == areas[1].level.at
    assert areas[1].frequency.at == pytest.approx([at + BESIDE for at in areas[0].frequency.at])
    assert areas[1].level.across == pytest.approx(areas[0].level.across + BESIDE)


def test_levels_stand_higher_or_lower_beside_the_other_chart_of_a_leaning_sheet() -> None:
    # seen on a copy that leant by half a degree: all values of the left ear were read 1.8 dB off
    lean = 8.0
    areas = chart_areas((*foot(), *moved(foot(), BESIDE, lean), *level_words()), SIZE)
    assert areas[1].level.at == pytest.approx([at + lean for at in areas[0].level.at])
    below = moved(foot(), 0, BELOW)
    areas = chart_areas((*below, *level_words(), *moved(level_words(), lean, BELOW)), SIZE)
    assert areas[0].frequency.at == pytest.approx([at - lean for at in areas[1].frequency.at])


def leaning(words: tuple[Word, ...], slope: float) -> tuple[Word, ...]:
    left = min(w.box[0] for w in words)
    return tuple(moved((w,), 0, slope * (w.box[0] - left))[0] for w in words)


def test_levels_beside_another_chart_stand_as_its_own_end_of_a_curled_row_does() -> None:
    # seen on a photo of a curled sheet: the row of the second chart rises, and all its values stood as sure 5 dB off
    slope = -0.04
    areas = chart_areas((*foot(), *leaning(moved(foot(), BESIDE), slope), *level_words()), SIZE)
    beside_first = slope * (areas[1].level.across - areas[1].frequency.at[0])
    assert areas[1].level.at == pytest.approx([at + beside_first for at in areas[0].level.at], abs=1.0)


def test_a_chart_above_one_with_frequencies_has_the_same_frequencies() -> None:
    areas = chart_areas((*moved(foot(), 0, BELOW), *level_words(), *moved(level_words(), 0, BELOW)), SIZE)
    assert len(areas) == 2
    assert areas[0].frequency.at == areas[1].frequency.at
    assert areas[0].level.at == pytest.approx([at - BELOW for at in areas[1].level.at])


def test_numbers_at_the_heights_of_the_levels_are_a_second_charts_own_and_not_the_firsts() -> None:
    own = tuple(word(text, x_of(125) + BESIDE - 50, y_of(db)) for text, db in (("30", 10), ("40", 50)))
    assert len(chart_areas((*foot(), *moved(foot(), BESIDE), *level_words(), *own), SIZE)) == 1


def test_numbers_below_an_upper_chart_are_its_own_frequencies() -> None:
    own = tuple(word(text, x_of(hz), y_of(120) + 30) for text, hz in (("500", 250), ("1000", 1000)))
    words = (*moved(foot(), 0, BELOW), *level_words(), *moved(level_words(), 0, BELOW), *own)
    assert len(chart_areas(words, SIZE)) == 1


@pytest.mark.parametrize("other", [OCTAVES[2:], OCTAVES[:4]])
def test_a_row_of_other_frequencies_shares_no_axis(other: tuple[int, ...]) -> None:
    # a chart of something else beside an audiogram
    words = (*foot(), *moved(frequency_words(other, y=y_of(120) + 30), BESIDE), *level_words(LEVELS))
    assert len(chart_areas(words, SIZE)) == 1


def test_a_row_at_another_height_shares_no_levels() -> None:
    words = (*foot(), *moved(frequency_words(y=TOP + 300), BESIDE), *level_words())
    assert len(chart_areas(words, SIZE)) == 1
