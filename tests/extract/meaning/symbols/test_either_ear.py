"""Bone that both ears have at one level, where nobody can tell which ear `<` is."""

from __future__ import annotations

from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold

AIR = (
    *row("circle", {250: 20, 500: 20, 1000: 30, 2000: 40, 4000: 50}),
    *row("cross", {250: 20, 500: 20, 1000: 35, 2000: 40, 4000: 55}),
)
RIGHT_OR_LEFT = {500: 15, 1000: 25, 2000: 35, 4000: 45}
LEFT_OR_RIGHT = {500: 15, 1000: 30, 2000: 35}


def bone(*marks: Mark) -> dict[tuple[str, float], Threshold]:
    """Read a page without colour, key or words, whose angles stand on their lines."""
    reading = mean(sheet(), (), (chart(*AIR, *marks),), Choices(report=False))
    return {(t.ear, t.frequency_hz): t for t in reading.audiograms[0].thresholds if t.conduction == "bone"}


def test_bone_of_both_ears_at_one_level_is_sure_whichever_ear_an_angle_means() -> None:
    # `<` is the right ear's in ASHA 1990 and the left's in the German leaflet (references.md, section 2): all asked
    values = bone(*row("angle-left", RIGHT_OR_LEFT), *row("angle-right", LEFT_OR_RIGHT))
    sure = {where for where, t in values.items() if t.standing == "sure"}
    assert sure == {(ear, hz) for ear in ("right", "left") for hz in (500.0, 2000.0)}
    assert values["right", 1000.0].why_ask == values["left", 1000.0].why_ask == ("symbol-set-unknown",)
    assert values["right", 4000.0].why_ask == ("symbol-set-unknown",)  # of one ear, nobody can tell which


def test_a_level_that_is_not_sure_itself_makes_no_pair() -> None:
    # a hand's two angles over each other at 35 and 40 dB were both read at 35: the clear one stood surely as both
    faint = mark("angle-right", 500, 15, score=0.5)
    values = bone(*row("angle-left", RIGHT_OR_LEFT), faint, *row("angle-right", {1000: 30, 2000: 35}))
    assert values["right", 500.0].why_ask == ("symbol-set-unknown",)
    assert values["right", 2000.0].standing == "sure"


def test_brackets_at_one_level_still_ask_whether_they_are_masked() -> None:
    values = bone(*row("bracket-left", {500: 15, 1000: 25, 2000: 35}), *row("bracket-right", {500: 15, 1000: 25}))
    assert {t.why_ask for t in values.values()} == {("symbol-set-unknown",)}
