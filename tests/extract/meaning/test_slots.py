"""Values that hardly can be so beside the others of their chart."""

from __future__ import annotations

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

DEAF = row("circle-filled", {500: 85, 1000: 90, 2000: 95}, "red")
LEFT = row("cross", {500: 5, 1000: 5, 2000: 10, 4000: 15}, "blue")


def odd(*marks: Mark) -> set[tuple[float, float]]:
    """Read marks under BSA 2018, and give the frequencies and levels that hardly can be so."""
    reading = mean(sheet(), (), (chart(*marks),), Choices("bsa-2018"))
    found: tuple[Threshold, ...] = tuple(t for audiogram in reading.audiograms for t in audiogram.thresholds)
    return {(t.frequency_hz, t.level_db_hl) for t in found if "implausible" in t.why_ask}


@pytest.mark.parametrize(("level", "asked"), [(10, True), (50, False)])
def test_air_that_only_the_other_cochlea_heard_was_heard_40_db_worse(level: float, asked: bool) -> None:
    # BSA 2018: the other ear hears from 40 dB; a round-cornered triangle at 10 dB was read as such a circle too
    bone = row("triangle", {500: 0, 1000: 5, 2000: 10}, "blue")
    found = odd(*DEAF, *LEFT, *bone, mark("circle", 1000, level, "red"))
    assert ((1000, level) in found) == asked
    assert ((1000, 90) in found) == asked


def test_a_better_cochlea_than_its_air_may_have_heard_where_no_bone_tells() -> None:
    assert odd(*DEAF, *LEFT, mark("circle", 1000, 25, "red")) == set()


def test_masked_air_within_retest_of_the_unmasked_is_usual() -> None:
    bone = row("triangle", {500: 0, 1000: 5, 2000: 10}, "blue")
    masked = row("circle-filled", {500: 25, 1000: 30, 2000: 25}, "red")
    assert odd(*masked, *LEFT, *bone, mark("circle", 1000, 20, "red")) == set()


def test_loudness_below_what_its_ear_hears_asks() -> None:
    # a crooked `]` at 5 dB looked like the foot that marks the uncomfortable level
    air = row("cross", {500: 40, 1000: 45, 2000: 45, 4000: 40}, "blue")
    feet = row("foot-left", {500: 95, 1000: 100, 2000: 100}, "blue")
    assert odd(*air, *feet, mark("foot-left", 4000, 5, "blue")) == {(4000, 5)}
    assert odd(*air, *feet, mark("foot-left", 4000, 95, "blue")) == set()
