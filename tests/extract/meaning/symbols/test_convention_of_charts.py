"""What the charts of a page, held against one another, tell of its symbol set."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import mark, row

from octavo.extract.chart import Mark
from octavo.extract.meaning.symbols.convention import convention


def on_chart(number: int, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    return tuple(replace(m, sight=replace(m.sight, area=number)) for m in marks)


def test_triangles_on_charts_of_one_ear_each_are_bone_though_some_stand_where_none_is_tested() -> None:
    # one chart of circles and one of crosses, triangles on both, up to 6000 Hz: as masked air of the right ear they
    # made a second test of the left ear's chart
    levels = {500: 20, 1000: 25, 2000: 40, 4000: 45, 6000: 45}
    right, left = ((*row(glyph, levels), *row("triangle", levels)) for glyph in ("circle", "cross"))
    chosen = convention((*on_chart(0, right), *on_chart(1, left)), key=(), asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset())
    alone = convention(on_chart(1, left), key=(), asked=None)
    assert "triangle" in alone.open_glyphs or alone.symbol_set.id == "asha-1990"


@pytest.mark.parametrize(
    ("squares", "bracket_at", "opened"),
    [
        ({500: 20, 4000: 45}, None, True),
        ({500: 20, 4000: 45}, 500, False),  # masked bone beside a square: the square is masked air
        ({500: 20, 8000: 45}, None, False),  # no bone is tested at 8 kHz
        ({500: 20, 2000: 45, 3000: 45}, None, False),  # masked air in the place of most of the crosses
    ],
)
def test_squares_where_no_bracket_stands_may_be_the_bone_of_both_ears(
    squares: dict[int, float], bracket_at: int | None, *, opened: bool
) -> None:
    # JIS T 1201 has brackets for unmasked bone: at one level they close to a square, and eleven values stood as masked
    crosses = row("cross", {250: 10, 500: 15, 1000: 20, 4000: 40, 8000: 40})
    air = (*row("circle", dict.fromkeys((250, 500, 1000, 2000, 4000, 8000), 30)), *crosses)
    brackets = [mark("bracket-left", hz, 30, beside=-0.1) for hz in (250, 1000, 1500)]
    beside = [mark("bracket-left", bracket_at, 5, beside=-0.1)] if bracket_at else []
    chosen = convention((*air, *row("square", squares), *brackets, *beside), key=(), asked=None)
    assert ({"square", "bracket-left"} <= chosen.open_glyphs) == opened
