"""Whether a mark's frequency may be another because its label was poorly read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, frequency_scale, mark, x_of

from octavo.extract.chart import FrequencyScale
from octavo.extract.meaning.doubts.place import doubtful_place, unprinted_alone
from octavo.extract.meaning.frequencies import Habit, Placed


def asked(hz: float, *well_read: float) -> bool:
    seen = mark("circle", hz, 20)
    measured = chart(seen)
    measured = replace(measured, frequency=replace(measured.frequency, well_read=frozenset(well_read)))
    why = doubtful_place(measured, Habit(0.0, "machine"), (seen,), seen, Placed(hz, 0.0, 1.0))
    return "frequency-uncertain" in why


@pytest.mark.parametrize(("hz", "open_"), [(1000.0, False), (500.0, True), (250.0, True), (8000.0, False)])
def test_a_frequency_more_than_an_octave_beyond_the_labels_read_well_is_asked_for(hz: float, open_: bool) -> None:
    # only 2, 4 and 8 kHz were read: on an evenly spaced axis the columns before them are no octaves
    assert asked(hz, 2000.0, 4000.0, 8000.0) is open_


def test_a_frequency_with_near_neighbours_is_asked_for_unless_its_own_label_was_read_well() -> None:
    assert asked(12000.0, 4000.0, 8000.0, 16000.0)
    assert not asked(12000.0, 4000.0, 8000.0, 12000.0, 16000.0)


def test_where_no_label_was_read_well_every_frequency_is_asked_for() -> None:
    assert asked(1000.0)


@pytest.mark.parametrize(("hz", "open_"), [(250.0, True), (500.0, False)])
def test_a_frequency_below_the_first_label_of_any_kind_is_asked_for(hz: float, open_: bool) -> None:
    # 125 and 250 stood half an octave's width apart and their labels were lost: 125 Hz was read as 250
    seen = mark("circle", hz, 20)
    scale = frequency_scale((500, 1000, 2000, 4000, 8000))
    measured = replace(chart(seen), frequency=scale)
    why = doubtful_place(measured, Habit(0.0, "machine"), (seen,), seen, Placed(hz, 0.0, 1.0))
    assert ("frequency-uncertain" in why) is open_


@pytest.mark.parametrize(("last", "open_"), [(18000.0, True), (8000.0, False)])
def test_a_column_of_an_equal_axis_more_than_an_octave_from_the_one_beside_it_is_asked_for(
    last: float, open_: bool
) -> None:
    # the frame's line before 8,000 was read as a figure: 18,000
    seen = mark("circle", 1000, 20)
    anchors = tuple((hz, 100.0 * i) for i, hz in enumerate((2000.0, 3000.0, 4000.0, 6000.0, last)))
    scale = FrequencyScale("equal", anchors, 5, 0.0, frozenset(hz for hz, _ in anchors))
    measured = replace(chart(seen), frequency=scale)
    why = doubtful_place(measured, Habit(0.0, "machine"), (seen,), seen, Placed(last, 0.0, 1.0))
    assert ("frequency-uncertain" in why) is open_


@pytest.mark.parametrize(("hz", "open_"), [(4000.0, True), (3000.0, False), (1000.0, False)])
def test_an_octave_above_labels_that_end_at_2000_may_be_a_column_of_half_an_octave(hz: float, open_: bool) -> None:
    # the labels beyond 2000 were lost: 3000 stood an octave's width beyond it, and was read as 4000
    seen = mark("circle", hz, 20)
    measured = replace(chart(seen), frequency=frequency_scale((125, 250, 500, 1000, 2000)))
    why = doubtful_place(measured, Habit(0.0, "machine"), (seen,), seen, Placed(hz, 0.0, 1.0))
    assert ("frequency-uncertain" in why) is open_


@pytest.mark.parametrize(
    ("label", "at", "open_"), [(12000.0, 12500.0, True), (12000.0, 12000.0, False), (12500.0, 12500.0, False)]
)
def test_a_label_that_stands_where_its_twin_would_on_a_logarithmic_axis_is_asked_for(
    label: float, at: float, *, open_: bool
) -> None:
    # a small 12500 on a fax was read as 12000, and two values stood there
    scale = frequency_scale((1000, 2000, 4000, 8000, 16000))
    anchors = (*scale.anchors[:-1], (label, x_of(at)), scale.anchors[-1])
    scale = replace(scale, anchors=anchors, well_read=frozenset(hz for hz, _ in anchors))
    one = mark("circle", 12500, 40)
    one = replace(one, frequency_hz=label)
    measured = replace(chart(one), frequency=scale)
    why = doubtful_place(measured, Habit(0.0, "machine"), (one,), one, Placed(label, 0.0, 1.0))
    assert ("frequency-uncertain" in why) == open_


@pytest.mark.parametrize(("hz", "open_"), [(6000.0, True), (4000.0, False)])
def test_the_last_column_is_asked_for_where_the_other_row_of_labels_ends_higher(hz: float, *, open_: bool) -> None:
    # of two rows of labels one said 6 where the other said 8: the values of 8 kHz stood at 6
    scale = frequency_scale((500, 1000, 2000, 4000, 6000))
    scale = replace(scale, well_read=scale.well_read | {8000.0})
    one = mark("circle", hz, 40)
    why = doubtful_place(replace(chart(one), frequency=scale), Habit(0.0, "machine"), (one,), one, Placed(hz, 0.0, 1.0))
    assert ("frequency-uncertain" in why) == open_


@pytest.mark.parametrize(
    ("hz", "score", "beside", "asks"),
    [
        (1500, 0.6, False, True),
        (1500, 0.6, True, False),
        (1500, 0.9, False, False),
        (1000, 0.6, False, False),
    ],
)
def test_an_unclear_mark_alone_at_a_frequency_that_is_not_printed_asks(
    hz: float, score: float, *, beside: bool, asks: bool
) -> None:
    # thick marks of two columns met half-way, and gave a value at 1500 Hz of a form of octaves
    one, other = mark("cross", hz, 5, score=score), mark("circle", hz, 40)
    taken = (one, other) if beside else (one,)
    assert unprinted_alone(frequency_scale(), taken, one, hz) == asks
