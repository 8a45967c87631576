"""A thick pen fills small circles: then they tell no symbol set."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import row

from octavo.extract.meaning.symbols.convention import convention

CROSSES = row("cross", {250: 35, 500: 35, 1000: 50, 2000: 50}, "blue")
BRACKETS = row("bracket-left", {500: 30, 1000: 30, 2000: 40}, "red")
FEET = row("foot-left", {500: 95, 1000: 100}, "blue")


@pytest.mark.parametrize(("hollow", "is_open"), [(0.5, True), (0.1, False)])
def test_brackets_beside_circles_that_a_thick_pen_may_have_filled_stay_open(hollow: float, is_open: bool) -> None:
    # under JIS as taught `[` is unmasked bone: blots of a marker made it masked, by BSA
    blots = row("circle-filled", {250: 35, 500: 45, 1000: 35, 2000: 40}, "red")
    blots = tuple(replace(m, sight=replace(m.sight, rivals=(("circle", hollow * m.sight.score),))) for m in blots)
    chosen = convention((*CROSSES, *BRACKETS, *FEET, *blots), key=(), asked=None)
    assert chosen.symbol_set.id == "bsa-2018"
    assert ({"circle-filled", "bracket-left"} <= chosen.open_glyphs) == is_open
