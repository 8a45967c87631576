"""Whose marks without colour are on charts of one ear: what a title and the page's other charts tell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from by_hand import chart, row, sheet

from octavo.extract.chart import MeasuredChart, OneEar
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import Glyph

LEVELS = {250: 20, 500: 20, 1000: 30, 2000: 40, 4000: 50, 8000: 50}


def of_ear(air: Glyph, other: Glyph, levels: Mapping[int, float], number: int = 0) -> MeasuredChart:
    return chart(*row(air, LEVELS), *row(other, levels), number=number)


def read(*charts: MeasuredChart, symbols: str) -> list[Threshold]:
    found = mean(sheet(), (), charts, Choices(symbols=symbols)).audiograms
    return [t for audiogram in found for t in audiogram.thresholds]


def test_loudness_on_one_of_two_charts_of_an_ear_each_is_that_ears() -> None:
    # on 58 painted pages each such mark asked, though the other ear's stood on a chart of its own
    loud = {500: 60, 1000: 65, 2000: 70}
    right, left = of_ear("circle", "letter-m", loud), of_ear("cross", "letter-m", loud, 1)
    found = [t for t in read(right, left, symbols="asha-1990") if t.measure == "mcl"]
    assert {(t.ear, t.standing) for t in found} == {("right", "sure"), ("left", "sure")}


@pytest.mark.parametrize(("titled", "standing"), [(None, "ask"), ("right", "sure")])
def test_unmasked_bone_without_colour_is_the_ears_that_the_charts_title_names(
    titled: OneEar | None, standing: str
) -> None:
    # without a title it may be the other ear's, whose air was not tested (BSA 2018 leaves bone's ear to the ink)
    one = replace(of_ear("circle", "triangle", {500: 15, 1000: 25, 2000: 35, 4000: 45}), titled=titled)
    found = [t for t in read(one, symbols="bsa-2018") if t.conduction == "bone"]
    assert {(t.ear, t.standing) for t in found} == {("right", standing)}


@pytest.mark.parametrize(("titles", "tests"), [(("right", "left"), 1), ((None, None), 2)])
def test_charts_whose_titles_name_an_ear_each_are_one_test_though_marks_of_one_look_like_the_others(
    titles: tuple[OneEar | None, OneEar | None], tests: int
) -> None:
    # on a fax circles on a thick line looked like crosses too: the left ear's values stood as sure in another test
    right = of_ear("circle", "cross", {hz: level for hz, level in LEVELS.items() if hz < 4000})
    left = chart(*row("cross", LEVELS), number=1)
    charts = tuple(replace(one, titled=title) for one, title in zip((right, left), titles, strict=True))
    found = mean(sheet(), (), charts, Choices(symbols="asha-1990")).audiograms
    assert len(found) == tests
    if tests == 1:
        assert {t.standing for t in found[0].thresholds if t.ear == "left" and t.seen and t.seen.chart == 0} == {"ask"}
