"""Triangles that cannot be masked air, since nothing is to be masked where they stand."""

from __future__ import annotations

import pytest
from by_hand import row

from octavo.extract.chart import Mark
from octavo.extract.meaning.symbols.convention import convention
from octavo.interpret.symbols import Ink

HEARD = {250: 15, 500: 20, 1000: 25, 2000: 40, 4000: 45}
ALMOST = {hz: level - 5 for hz, level in HEARD.items()}


def page(left_better: float, hertz: tuple[int, ...] = tuple(HEARD)) -> tuple[Mark, ...]:
    """A chart without colour: triangles at the right ear's air, the left ear better by so much."""
    left = row("cross", {hz: level - left_better for hz, level in HEARD.items()})
    return (*row("circle", ALMOST), *left, *row("triangle", {hz: HEARD[hz] for hz in hertz}))


def test_triangles_beside_unmasked_air_of_two_ears_that_hear_alike_are_bone() -> None:
    # BSA 2018, rule 1: air is masked where the ears differ by 40 dB; here every frequency would be, and none needs it
    chosen = convention(page(0), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset())


@pytest.mark.parametrize("hertz", [(250, 500, 1000), (500, 1000, 2000)])
def test_a_few_triangles_beside_unmasked_air_of_both_ears_stay_open(hertz: tuple[int, ...]) -> None:
    assert "triangle" in convention(page(0, hertz), key=(), asked=None).open_glyphs


def test_triangles_stay_open_where_a_tester_who_masks_early_would_mask() -> None:
    assert "triangle" in convention(page(15), key=(), asked=None).open_glyphs


def test_triangles_at_the_end_of_the_audiometer_may_be_masked_air_however_alike_the_ears_are() -> None:
    end = dict.fromkeys(HEARD, 105)
    marks = (*row("circle", end), *row("cross", end), *row("triangle", end))
    assert convention(marks, key=(), asked=None).symbol_set.id == "asha-1990"


@pytest.mark.parametrize(("inks", "told"), [(("red", "blue"), True), (("red", "neutral"), False)])
def test_triangles_in_each_ears_ink_are_bone_though_the_worse_ears_is_worse_than_the_better_ears_air(
    inks: tuple[Ink, Ink], told: bool
) -> None:
    # a dozen triangles of a drawn page spoke against every set: the bone of an ear 40 dB worse than the other
    worse = {hz: level + 40 for hz, level in HEARD.items()}
    air = (*row("circle", HEARD, "red"), *row("cross", worse, "blue"))
    triangles = (*row("triangle", HEARD, inks[0]), *row("triangle", worse, inks[1]))
    chosen = convention((*air, *triangles), key=(), asked=None)
    assert ("triangle" not in chosen.open_glyphs) == told


def test_blue_triangles_far_worse_than_the_left_ears_own_air_are_no_bone_of_it() -> None:
    worse = {hz: level + 40 for hz, level in HEARD.items()}
    air = (*row("circle", worse, "red"), *row("cross", HEARD, "blue"))
    chosen = convention((*air, *row("triangle", HEARD, "red"), *row("triangle", worse, "blue")), key=(), asked=None)
    assert "triangle" in chosen.open_glyphs


@pytest.mark.parametrize(("tested", "told"), [((500, 1000, 2000), True), ((250, 500, 1000), False)])
def test_triangles_in_the_place_of_a_right_ears_circles_are_its_masked_air(tested: tuple[int, ...], told: bool) -> None:
    # a chart of one ear without colour: bone is tested where air is, so one of three circles beside them leaves it open
    circles = row("circle", {hz: HEARD[hz] for hz in (250, 4000)})
    chosen = convention((*circles, *row("triangle", {hz: HEARD[hz] for hz in tested})), key=(), asked=None)
    assert (chosen.symbol_set.id == "asha-1990" and "triangle" not in chosen.open_glyphs) == told
