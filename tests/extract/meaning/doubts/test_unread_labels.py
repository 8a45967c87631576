"""Whether a mark's frequency may be another because its label was poorly read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import chart, mark

from octavo.extract.meaning.doubts.place import doubtful_place
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
