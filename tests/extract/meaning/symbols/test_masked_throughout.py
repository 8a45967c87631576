"""An ear whose air was masked at every frequency, so that the chart has none of its unmasked marks."""

from __future__ import annotations

from by_hand import row

from octavo.extract.meaning.symbols.convention import convention

LEFT = row("cross", {250: 5, 500: 5, 1000: 0, 2000: 5, 4000: 10, 8000: 10}, "blue")


def test_an_ear_with_masked_air_alone_has_bone_of_its_own() -> None:
    # a whole page asked: without a circle its `<` seemed to be of an ear whose air the chart lacks
    masked = row("triangle", {250: 50, 500: 45, 1000: 45, 2000: 45, 4000: 50, 8000: 50}, "red")
    right = row("angle-left", {500: 0, 1000: 5, 2000: 5}, "red")
    left = row("angle-right", {500: 0, 1000: 0, 2000: 5}, "blue")
    chosen = convention((*LEFT, *masked, *right, *left), key=(), asked=None)
    assert chosen.symbol_set.id == "asha-1990"
    assert not chosen.open_glyphs


def test_triangles_that_reach_beyond_the_frequencies_of_bone_may_be_air_though_nothing_calls_for_masking() -> None:
    # ASHA 2005: bone is tested up to 4000 Hz; a row up to 8000 Hz in one pen was read as bone, but for its end
    masked = row("triangle", {250: 15, 500: 20, 1000: 25, 2000: 35, 4000: 35, 8000: 45})
    plain = row("cross", {250: 55, 500: 60, 1000: 40, 2000: 40, 4000: 40, 8000: 35})
    brackets = row("bracket-left", {500: 15, 1000: 20, 2000: 35})
    assert "triangle" in convention((*plain, *masked, *brackets), key=(), asked=None).open_glyphs
