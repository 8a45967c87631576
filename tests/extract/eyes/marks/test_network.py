"""Marks are seen where they were painted."""

from __future__ import annotations

from dataclasses import replace
from math import dist

import numpy as np
import pytest
from by_hand import grid_picture

from octavo.extract.eyes.marks.crops import chart_crop
from octavo.extract.eyes.marks.network import ARROWS, maps_of, marks_in, with_tips
from octavo.extract.sightings import ArrowTip, MarkSight
from octavo.interpret.symbols import GLYPHS
from octavo.tools.painter import PaintedMark, PaintedPage, paint, render


def alone(page: PaintedPage, mark: PaintedMark) -> bool:
    """No other mark comes within a size and a half of the mark."""
    return all(
        abs(o.at[0] - mark.at[0]) > 1.5 * mark.size[0] or abs(o.at[1] - mark.at[1]) > 1.5 * mark.size[1]
        for o in page.marks
        if o is not mark
    )


def seen_on(page: PaintedPage, dpi: int) -> tuple[tuple[MarkSight, ...], tuple[int, int]]:
    """See the marks of a page's first chart, its region taken from the truth."""
    pixels = render(page.pdf, dpi)
    height, width = pixels.shape[:2]
    outline = np.array(page.record.audiograms[0].charts[0].outline) * (width, height)
    (left, top), (right, bottom) = outline.min(axis=0), outline.max(axis=0)
    spare = 0.06 * (right - left)
    crop = chart_crop(pixels, (left - spare, top - spare, right + spare, bottom + spare))
    return marks_in(crop, 0), (width, height)


@pytest.mark.parametrize("dpi", [120, 200])
def test_a_painted_mark_that_stands_alone_is_seen_as_its_glyph_at_its_place(dpi: int) -> None:
    wanted = 0
    for family in ("single", "one-ear", "beside"):
        for seed in (1, 2, 3, 5):
            page = paint(family, seed)
            marks, (width, height) = seen_on(page, dpi)
            for mark in page.marks:
                if mark.in_key or mark.chart or mark.glyph not in ("circle", "cross") or not alone(page, mark):
                    continue
                wanted += 1
                at = (mark.at[0] * width - 0.5, mark.at[1] * height - 0.5)
                best = max((m for m in marks if dist(m.at, at) < 0.4 * mark.size[0] * width), key=lambda m: m.score)
                assert best.glyph == mark.glyph
                assert best.score > 0.5
                assert dist(best.at, at) < 0.15 * mark.size[0] * width + 1
                assert best.ink == mark.ink
    assert wanted >= 10


@pytest.mark.parametrize("picture", ["blank", "grid"])
def test_no_mark_is_seen_where_there_is_none(picture: str) -> None:
    pixels = np.full((1200, 1000, 3), 255, np.uint8) if picture == "blank" else grid_picture()
    marks = marks_in(chart_crop(pixels, (150.0, 150.0, 850.0, 900.0)), 0)
    assert max((m.score for m in marks), default=0.0) < 0.4


def test_maps_are_half_as_fine_as_the_crop() -> None:
    assert maps_of(np.full((320, 480, 3), 255, np.uint8)).shape == (len(GLYPHS) + 2 * ARROWS + 3 + 4, 160, 240)


def test_an_arrow_apart_from_every_mark_is_told_at_the_marks_above_it() -> None:
    above, beside, far = (
        MarkSight(0, "angle-right", at, (20.0, 24.0), 0.8, (), 0.0, 1.0, (0.0, 0.0, 0.0))
        for at in ((100.0, 100.0), (160.0, 150.0), (100.0, 20.0))
    )
    tip = ArrowTip(1, (110.0, 145.0), (85.0, 125.0), 0.7)
    assert [mark.tips for mark in with_tips([above, beside, far], [tip])] == [(tip,), (), ()]
    long = ArrowTip(1, (165.0, 160.0), (140.0, 140.0), 0.7)
    assert with_tips([above], [long])[0].tips == (long,)
    assert with_tips([above], [replace(long, way=0)])[0].tips == ()
