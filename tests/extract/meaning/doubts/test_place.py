"""Whether a mark's frequency may be another: columns of an evenly spaced axis whose labels marks have hidden."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import FrequencyScale, MeasuredChart
from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.extract.meaning.doubts.place import between_lost_labels
from octavo.interpret.symbols import Glyph

COLUMNS = (125.0, 250.0, 500.0, 1000.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)
COLUMN = 75.0


def columns(labelled: Iterable[float]) -> FrequencyScale:
    """Print every column of a form, and read some of the labels."""
    anchors = tuple((hz, 200 + COLUMN * COLUMNS.index(hz)) for hz in labelled)
    return FrequencyScale("equal", anchors, len(anchors), 0.0, frozenset(COLUMNS))


def test_a_column_between_lost_labels_may_be_any_of_more_frequencies_than_there_are_columns() -> None:
    # three columns between 1000 and 6000 Hz: of 1500, 2000, 3000 and 4000 one is not on the form
    scale = columns((125, 250, 500, 1000, 6000, 8000))
    assert between_lost_labels(scale, 1500)
    assert not between_lost_labels(scale, 500)


def test_a_column_is_known_where_as_many_were_lost_as_there_are_frequencies() -> None:
    scale = columns((1000, 2000, 3000, 8000))
    assert not between_lost_labels(scale, 4000)
    assert not between_lost_labels(scale, 6000)


def test_marks_on_columns_that_lost_their_labels_ask_and_the_row_may_hold_others() -> None:
    scale = columns((125, 250, 500, 1000, 6000, 8000))
    marks = row("cross", {250: 20, 500: 25, 1000: 30, 4000: 60, 6000: 65, 8000: 75})
    placed = [replace(m, x=200 + COLUMN * COLUMNS.index(m.frequency_hz)) for m in marks]
    on_2000 = replace(marks[3], x=200 + COLUMN * COLUMNS.index(2000))  # nearest to 1500 between 1000 and 6000
    reading = read(replace(chart(*placed, on_2000), frequency=scale))
    asked = [t for a in reading.audiograms for t in a.thresholds if "frequency-uncertain" in t.why_ask]
    assert asked
    assert {t.frequency_hz for t in asked}.isdisjoint({250, 500, 1000, 6000, 8000})
    assert any(r.code == "missing-expected" and r.ear == "left" and r.frequency_hz is None for r in reading.remarks)


@pytest.mark.parametrize(
    ("glyph", "off", "asks"),
    [("circle", 0.085, False), ("circle", -0.085, False), ("circle", 0.11, True),
     ("bracket-left", -0.11, False), ("bracket-left", 0.11, False), ("bracket-left", 0.13, True)],
)  # fmt: skip
def test_a_mark_a_little_off_its_frequency_asks_later_where_it_stands_beside_its_line(
    glyph: Glyph, off: float, asks: bool
) -> None:
    usual = -0.2 if glyph == "bracket-left" else 0.0
    air = row("circle", {hz: 20.0 + hz / 200 for hz in (250, 500, 1000, 2000, 4000, 8000)})
    bone = [mark("bracket-left", hz, 15, beside=-0.2) for hz in (500, 1000, 2000)]
    reading = read(chart(*air[:-1], *bone, mark(glyph, 4000 if usual else 8000, 25, beside=usual + off)))
    (one,) = [t for a in reading.audiograms for t in a.thresholds if t.level_db_hl == 25 and t.frequency_hz >= 4000]
    assert ("frequency-uncertain" in one.why_ask) == asks


@pytest.mark.parametrize(
    ("first", "level", "asks"), [(20, 0, False), (20, -10, False), (20, -15, True), (40, 10, True), (-10, -20, True)]
)
def test_a_mark_about_0_db_stands_on_the_axis_though_its_first_labels_were_lost(
    first: int, level: int, asks: bool
) -> None:
    # every audiogram shows 0 dB; half a step of its labels beyond, its plot may end
    made = chart(*row("circle", dict.fromkeys((250, 500, 2000, 4000), 40.0)), mark("circle", 1000, level))
    scale = replace(made.level, printed=(float(first), 100.0), levels_read=5 if first > 0 else 12)
    reading = read(replace(made, level=scale, row_db=130.0))
    (one,) = [t for a in reading.audiograms for t in a.thresholds if t.frequency_hz == 1000]
    assert ("axis-uncertain" in one.why_ask) == asks


def read(measured: MeasuredChart) -> Reading:
    return mean(sheet(), (), (measured,), Choices("asha-1990"))
