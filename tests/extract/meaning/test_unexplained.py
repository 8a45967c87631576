"""What follows from ink that nothing explains: remarks for missed marks, doubts for missed arrows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, chart, mark, row, sheet, x_of, y_of

from octavo.extract.chart import MeasuredChart, Unexplained
from octavo.extract.choices import Choices
from octavo.extract.meaning import Reading, mean
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import Glyph

LEVELS = {250: 20, 500: 30, 1000: 40, 2000: 50, 4000: 60, 8000: 70}
SIZE = 14.0
"""The size of the marks of ``by_hand``, in pixels."""
LOUDER = 30
"""So many dB more and an audiometer may end at any of ``LEVELS``."""


def both_ears(*ink: Unexplained) -> MeasuredChart:
    circles = row("circle", LEVELS, "red")
    crosses = row("cross", {hz: level + 15 for hz, level in LEVELS.items()}, "blue")
    return replace(chart(*circles, *crosses), unexplained=ink)


def ink(hz: float, level: float, *, red: float = 0.0, blue: float = 0.0, down: float = 0.0) -> Unexplained:
    return Unexplained((x_of(hz), y_of(level) + down), (SIZE, SIZE), hz, level, red, blue, 0.9)


def read(measured: MeasuredChart) -> Reading:
    return mean(sheet(), (), (measured,), Choices())


def told(reading: Reading) -> set[tuple[object, ...]]:
    at_ink = {r.at for r in reading.remarks if r.code == "unexplained-ink"}
    return {
        (r.ear, r.conduction, r.frequency_hz)
        for r in reading.remarks
        if r.code == "missing-expected" and r.at in at_ink
    }


def asked(reading: Reading) -> list[Threshold]:
    values = [t for audiogram in reading.audiograms for t in audiogram.thresholds]
    return [t for t in values if "arrow-uncertain" in t.why_ask]


def test_a_chart_whose_ink_is_all_explained_has_nothing_to_tell() -> None:
    reading = read(both_ears())
    assert told(reading) == set()
    assert asked(reading) == []


@pytest.mark.parametrize(("red", "blue", "ear"), [(0.9, 0.0, "right"), (0.05, 0.8, "left")])
def test_coloured_ink_may_be_a_mark_of_the_ear_that_its_colour_names(red: float, blue: float, ear: str) -> None:
    # common practice: red for the right ear, blue for the left
    reading = read(both_ears(ink(1000, 10, red=red, blue=blue)))
    assert told(reading) == {(ear, "air", 1000.0), (ear, "bone", 1000.0)}


@pytest.mark.parametrize(("red", "blue"), [(0.0, 0.0), (0.5, 0.5), (0.7, 0.3)])
def test_ink_without_one_clear_colour_may_be_a_mark_of_either_ear(red: float, blue: float) -> None:
    reading = read(both_ears(ink(1000, 10, red=red, blue=blue)))
    assert {ear for ear, *_ in told(reading)} == {"right", "left", "unspecified"}


def test_ink_at_8000_hz_is_no_bone_mark() -> None:
    # ASHA 2005: bone conduction is tested at 250 to 4000 Hz
    assert told(read(both_ears(ink(8000, 10)))) == {("right", "air", 8000.0), ("left", "air", 8000.0)}


def test_ink_beside_its_line_is_told_at_the_printed_frequency() -> None:
    assert {hz for *_, hz in told(read(both_ears(ink(1130, 10))))} == {1000.0}


def test_the_remark_says_where_on_the_page_to_look() -> None:
    measured = both_ears(ink(1000, 10, red=1.0))
    places = {r.at for r in read(measured).remarks if r.code == "unexplained-ink"}
    assert places == {sheet().on_page(x_of(1000), y_of(10))}


def test_ink_away_from_the_marks_leaves_their_values_as_they_were() -> None:
    before, after = (read(c).audiograms[0].thresholds for c in (both_ears(), both_ears(ink(1000, 10))))
    assert after == before


def test_a_mark_from_which_a_stroke_hangs_may_not_have_been_heard() -> None:
    hanging = replace(ink(2000, 70, blue=1.0), hangs_from=(x_of(2000), y_of(65)))
    reading = read(both_ears(hanging))
    assert [(t.ear, t.frequency_hz, t.standing) for t in asked(reading)] == [("left", 2000.0, "ask")]
    assert told(reading) == set()


def test_ink_close_below_a_mark_may_be_its_arrow_where_an_audiometer_may_end() -> None:
    # IEC 60645-1: even screening audiometers reach 70 dB by air
    assert asked(read(both_ears(ink(1000, LEVELS[1000], down=1.1 * SIZE)))) == []
    loud = [mark("circle", hz, level + LOUDER) for hz, level in LEVELS.items()]
    below = ink(4000, LEVELS[4000] + LOUDER, down=1.1 * SIZE)
    reading = read(replace(chart(*loud), unexplained=(below,)))
    assert [(t.ear, t.frequency_hz) for t in asked(reading)] == [("right", 4000.0)]


def test_ink_above_a_mark_is_no_arrow_of_it() -> None:
    assert asked(read(both_ears(ink(4000, LEVELS[4000], down=-1.1 * SIZE)))) == []


def test_a_mark_with_an_arrow_needs_no_second_one() -> None:
    mute = mark("cross", 8000, 100, "blue", arrows=(0.01, 0.97, 0.01))
    circles = row("circle", LEVELS, "red")
    hanging = replace(ink(8000, 105), hangs_from=mute.sight.at)
    reading = read(replace(chart(*circles, mute), unexplained=(hanging,)))
    assert [t.response for t in reading.audiograms[0].thresholds if t.ear == "left"] == [False]
    assert asked(reading) == []


@pytest.mark.parametrize(("reds", "doubted"), [(0.9, True), (0.0, False)], ids=["two inks", "one ink"])
def test_a_cross_of_two_inks_close_below_a_mark_may_be_two_arrows(reds: float, doubted: bool) -> None:
    circles = row("circle", {hz: level + LOUDER for hz, level in LEVELS.items()}, "red")
    crosses = row("cross", {hz: level + 15 for hz, level in LEVELS.items() if hz != 4000}, "blue")
    below = mark("cross", 4000, LEVELS[4000] + LOUDER + 1.2 * SIZE / DECIBEL, "blue")
    below = replace(below, sight=replace(below.sight, red=reds, blue=0.9 - reds))
    arrows = {(t.ear, t.frequency_hz) for t in asked(read(chart(*circles, *crosses, below)))}
    assert (("right", 4000.0) in arrows) == doubted


@pytest.mark.parametrize(("glyph", "across", "down", "asks"), [
    ("triangle-filled", 0.1, 1.9, True), ("vee", 0.0, 2.2, True), ("triangle-filled", 0.6, 1.9, False),
    ("triangle-filled", 0.0, 2.8, False), ("letter-s", 0.0, 1.9, False),
])  # fmt: skip
def test_a_small_head_straight_below_a_mark_may_be_its_arrow(
    glyph: Glyph, across: float, down: float, asks: bool
) -> None:
    # a plotting program hung a small triangle below marks that were not heard: they stood as heard, surely
    marks = row("circle", LEVELS, "red")
    head = mark(glyph, 8000, 70, "red", score=0.35)
    at = head.sight.at[0] + across * SIZE, head.sight.at[1] + down * SIZE
    head = replace(head, sight=replace(head.sight, at=at), x=at[0], y=at[1], level_db_hl=70 + down * SIZE / DECIBEL)
    assert {t.frequency_hz for t in asked(read(chart(*marks, head)))} == ({8000.0} if asks else set())
