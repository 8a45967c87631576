"""What the charts of a page, held against one another, tell of its symbol set."""

from __future__ import annotations

from dataclasses import replace

from by_hand import row

from octavo.extract.chart import Mark
from octavo.extract.meaning.symbols.convention import convention


def on_chart(number: int, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    return tuple(replace(m, sight=replace(m.sight, area=number)) for m in marks)


def test_triangles_on_charts_of_one_ear_each_are_bone_though_some_stand_where_none_is_tested() -> None:
    # one chart of circles and one of crosses, triangles on both, up to 6000 Hz: as masked air of the right ear they
    # made a second test of the left ear's chart
    levels = {500: 20, 1000: 25, 2000: 40, 4000: 45, 6000: 45}
    right, left = ((*row(glyph, levels), *row("triangle", levels)) for glyph in ("circle", "cross"))
    chosen = convention((*on_chart(0, right), *on_chart(1, left)), key=None, asked=None)
    assert (chosen.symbol_set.id, chosen.open_glyphs) == ("bsa-2018", frozenset())
    alone = convention(on_chart(1, left), key=None, asked=None)
    assert "triangle" in alone.open_glyphs or alone.symbol_set.id == "asha-1990"
