"""Which ear an angle mark is, told by bone that cannot be worse than its ear's air."""

from __future__ import annotations

import pytest
from by_hand import row

from octavo.extract.meaning.symbols.convention import Convention, convention

RIGHT = {500: 20, 1000: 25, 2000: 30, 4000: 40}
"""The right ear's air; the left ear's is so much worse as each test says."""


def page(worse: int, hertz: tuple[int, ...], *, turned: bool) -> Convention:
    """A page without colour: each ear's bone at its own air, by ASHA's angles, or turned round as the leaflet's."""
    left = {hz: level + worse for hz, level in RIGHT.items()}
    angles = ("angle-right", "angle-left") if turned else ("angle-left", "angle-right")
    bones = (row(glyph, {hz: ear[hz] for hz in hertz}) for glyph, ear in zip(angles, (RIGHT, left), strict=True))
    marks = (*row("circle", RIGHT), *row("cross", left), *(m for one in bones for m in one))
    return convention(marks, key=(), asked=None)


@pytest.mark.parametrize(("turned", "set_id"), [(False, "asha-1990"), (True, "leaflet-de")])
def test_bone_far_worse_than_air_three_times_is_the_other_ears(turned: bool, set_id: str) -> None:
    # no ear hears less by bone than by air: of ears that differ, only one reading of `<` and `>` can be so
    chosen = page(20, (500, 1000, 2000, 4000), turned=turned)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == (set_id, frozenset())


@pytest.mark.parametrize(("worse", "hertz"), [(10, (500, 1000, 2000, 4000)), (20, (500, 1000))])
def test_what_test_and_retest_or_two_slips_would_give_leaves_angles_open(worse: int, hertz: tuple[int, ...]) -> None:
    assert page(worse, hertz, turned=True).open_glyphs == {"angle-left", "angle-right"}


def test_bone_that_is_worse_than_air_either_way_leaves_angles_open() -> None:
    # read amiss, or a vibrator out of order: then nothing follows from it
    air = (*row("circle", RIGHT), *row("cross", RIGHT))
    bone = (*row("angle-left", {hz: level + 20 for hz, level in RIGHT.items()}), *row("angle-right", RIGHT))
    assert convention((*air, *bone), key=(), asked=None).open_glyphs == {"angle-left", "angle-right"}
