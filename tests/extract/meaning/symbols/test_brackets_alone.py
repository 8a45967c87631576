"""Which set a page of brackets alone is taken for, printed in a European language; its brackets ask all the same."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import row

from octavo.extract.meaning.symbols.convention import convention
from octavo.interpret.symbols import Glyph

COCHLEA = {500: 10, 1000: 15, 2000: 20, 4000: 25}


@pytest.mark.parametrize(
    ("right_air", "left_air", "left_bone", "set_id"),
    [
        (30, 0, 0, "jis-t-1201"),  # one ear conductive: brackets of the other have nothing to mask
        (30, 30, 0, "asha-1990"),  # both conductive: each needs masking
        (0, 50, 50, "jis-t-1201"),  # the better ear is not to be masked
    ],
)
def test_brackets_of_both_ears_of_which_one_needs_no_masking_are_taken_for_unmasked_bone(
    right_air: int, left_air: int, left_bone: int, set_id: str
) -> None:
    # bone is masked where a gap calls for it (ASHA 2005); 61 of 143 painted pages were taken for masked bone
    rows: tuple[tuple[Glyph, int], ...] = (
        ("circle", right_air), ("cross", left_air), ("bracket-left", 0), ("bracket-right", left_bone),
    )  # fmt: skip
    marks = [m for glyph, worse in rows for m in row(glyph, {hz: db + worse for hz, db in COCHLEA.items()})]
    chosen = convention(tuple(marks), key=(), asked=None, western=True)
    assert chosen.symbol_set.id == set_id
    assert {"bracket-left", "bracket-right"} <= chosen.open_glyphs


def test_masked_bone_of_a_deaf_ear_beside_one_that_hears_had_to_be_masked() -> None:
    # its bone is as bad as its air, and unmasked it would be heard by the other ear, whose bone was not tested
    marks = (
        *row("circle", COCHLEA), *row("cross", {hz: db + 50 for hz, db in COCHLEA.items()}),
        *row("bracket-right", {hz: db + 50 for hz, db in {**COCHLEA, 3000: 25}.items()}),
    )  # fmt: skip
    assert convention(marks, key=(), asked=None, western=True).symbol_set.id == "asha-1990"


@pytest.mark.parametrize(("worse_air", "unmasked"), [(0, True), (40, False)])
def test_brackets_with_nothing_to_mask_are_open_though_another_chart_has_angle_marks(
    worse_air: int, unmasked: bool
) -> None:
    # seen on a page: another hand had drawn brackets with round corners, which look like angles; ten stood as masked
    first = [*row("circle", COCHLEA), *row("angle-left", COCHLEA)]
    earlier = [replace(m, sight=replace(m.sight, area=1)) for m in first]
    ears: tuple[tuple[Glyph, int], ...] = (
        ("circle", worse_air), ("cross", 40), ("bracket-left", 0), ("bracket-right", 0),
    )  # fmt: skip
    marks = [m for glyph, worse in ears for m in row(glyph, {hz: db + worse for hz, db in COCHLEA.items()})]
    chosen = convention((*earlier, *marks), key=(), asked=None, leaflet="no")
    assert chosen.open_glyphs == ({"bracket-left", "bracket-right"} if unmasked else set())


@pytest.mark.parametrize(("free", "open_"), [((250, 2000, 4000), True), ((250,), False)])
def test_squares_that_a_drawing_shows_apart_may_be_brackets_that_touch(free: tuple[int, ...], *, open_: bool) -> None:
    # tests/published/audiometric_symbols.csv: JIS T 1201 has `[` and `]` for unmasked bone. At one level they close to
    # a square, by which 39 values of a drawn page stood as masked
    shapes: tuple[tuple[Glyph, float], ...] = (("bracket-left", -0.1), ("bracket-right", 0.1))
    brackets = [m for glyph, beside in shapes for m in row(glyph, dict.fromkeys(free, 20), beside=beside)]
    closed = row("square", {500: 30, 1000: 30, 1500: 30})
    air = (*row("circle", COCHLEA), *row("cross", COCHLEA), *row("cross", {500: 30, 1000: 30, 1500: 30}))
    marks = [replace(m, sight=replace(m.sight, apart=True)) for m in (*air, *brackets, *closed)]
    chosen = convention(tuple(marks), key=(), asked=None)
    assert ({"bracket-left", "square"} <= chosen.open_glyphs) == open_
