"""The chart's frame: its proportions and the region of speech."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import value

from octavo.interpret.exports.redraw.axes import Plot, frame, plot_for, speech_levels
from octavo.interpret.exports.redraw.lettering import width_of
from octavo.interpret.exports.redraw.scene import Lettering
from octavo.interpret.words.languages import language

PLOT = Plot(50, 40, 100)


def test_an_octave_is_as_wide_as_20_db_are_high() -> None:
    # ISO 8253-1:2010, audiogram form [memory].
    assert PLOT.x(2000) - PLOT.x(1000) == pytest.approx(PLOT.y(40) - PLOT.y(20))


def test_3000_hz_stands_where_the_logarithm_puts_it() -> None:
    # By the worked case of the chart's geometry: 100 log2(3000 / 125) = 458.5 from 125 Hz, not half way (450).
    assert PLOT.x(3000) - PLOT.x(125) == pytest.approx(458.496, abs=0.001)


@given(st.lists(st.tuples(st.sampled_from((125, 1000, 8000, 9000, 16000, 20000)), st.integers(-20, 130)), max_size=8))
def test_every_value_stands_inside_its_chart(places: list[tuple[int, int]]) -> None:
    plot = plot_for([value("right", hz, db) for hz, db in places], 40, 40, 480)
    for hz, db in places:
        assert plot.left < plot.x(hz) < plot.left + plot.width
        assert plot.top < plot.y(db) < plot.top + plot.height
    assert plot.width <= 480 + 1e-9


def test_below_the_lowest_level_there_is_room_for_an_arrow() -> None:
    assert plot_for([value("left", 4000, 120, response=False)], 40, 40, 480).most_db == 130


def test_the_labels_of_extended_frequencies_do_not_touch() -> None:
    plot = plot_for([value("right", 16000, 60)], 40, 40, 480)
    drawn = [item for item in frame(plot, language("en").chart) if isinstance(item, Lettering)]
    labels = sorted((item for item in drawn if item.at[1] == plot.top - 5), key=lambda item: item.at[0])
    ends = [(i.at[0] - width_of(i.text, i.size) / 2, i.at[0] + width_of(i.text, i.size) / 2) for i in labels]
    assert all(right < left for (_, right), (left, _) in pairwise(ends))
    assert [item.text for item in labels if plot.x(7000) < item.at[0]] == ["8000", "10k", "12.5k", "16k"]


# By hand from ANSI S3.5-1997, table 3: speech less the reference internal noise, 15 dB to either side.
@pytest.mark.parametrize(("hz", "level"), [(250, 34.75 + 3.9), (1000, 25.01 + 12.5), (4000, 9.33 + 25.9)])
def test_the_region_of_speech_is_30_db_high_around_normal_speech(hz: float, level: float) -> None:
    bands = {band[0]: band[1:] for band in speech_levels()}
    assert bands[hz] == (pytest.approx(level - 15), pytest.approx(level + 15))


def test_the_region_covers_the_bands_of_the_standard() -> None:
    centres = [band[0] for band in speech_levels()]
    assert (len(centres), centres[0], centres[-1]) == (18, 160, 8000)
    assert all(math.isfinite(least) and least < most for _, least, most in speech_levels())
