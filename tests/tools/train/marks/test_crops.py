"""Tiles painted for the mark network: where their marks lie, and that they are cut as the reader cuts a chart."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.page import Word
from octavo.interpret.record import Audiogram, Chart, FrequencyAxis, LevelAxis, PageRecord, Source
from octavo.interpret.symbols import GLYPHS
from octavo.tools.painter import paint
from octavo.tools.painter.families import FAMILIES
from octavo.tools.painter.pen import Pen
from octavo.tools.painter.truth import PaintedMark, PaintedPage
from octavo.tools.train.marks import crops as mark_crops
from octavo.tools.train.marks.crops import ARROWS, INKS, TILE, chart_box, paint_tiles, training_families

SIZE = (600.0, 800.0)
"""Width and height in points of the pages made here."""


def a_chart() -> Chart:
    """Give a chart of 125 Hz to 8 kHz at x 150 to 450 (50 an octave), and of -10 to 120 dB at y 200 to 460 (2 a dB)."""
    x0, x1, y0, y1 = 150 / SIZE[0], 450 / SIZE[0], 200 / SIZE[1], 460 / SIZE[1]
    frequency = FrequencyAxis("log", (125, 8000), ((x0, y0), (x1, y0)), 7, 0.0)
    level = LevelAxis("linear", (-10, 120), ((x0, y0), (x0, y1)), 14, 0.0)
    return Chart(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), frequency, level)


def a_page_with_one_square() -> PaintedPage:
    """Give a page that holds nothing but a filled square of 16 points, its middle at (330, 300)."""
    pen = Pen(*SIZE)
    pen.rect((322, 292, 338, 308), None, 0, fill=(0, 0, 0))
    at, size = (330 / SIZE[0], 300 / SIZE[1]), (16 / SIZE[0], 16 / SIZE[1])
    mark = PaintedMark("square", "neutral", None, at, size, None, None, 0, 0, in_key=False)
    record = PageRecord(
        Source("page.pdf", "0" * 64, 1, 1, "drawn"), "sure", (Audiogram(symbol_set="asha-1990", charts=(a_chart(),)),)
    )
    return PaintedPage("single", 0, pen.finish(), SIZE, record, (mark,), (), ())


def test_the_chart_box_is_the_area_that_the_reader_finds_by_the_labels():
    def label(text: str, x: float, y: float) -> Word:
        return Word(text, (x - 8, y - 5, x + 8, y + 5), 0.99, 0)

    row = [label(str(hz), 150 + 50 * i, 188) for i, hz in enumerate((125, 250, 500, 1000, 2000, 4000, 8000))]
    column = [label(str(db), 130, 220 + 2 * db) for db in range(-10, 121, 10)]
    (area,) = chart_areas((*row, *column), (600, 800))
    assert chart_box(a_chart(), SIZE) == pytest.approx(area.box, abs=0.01)


@pytest.mark.parametrize("family", ["single", "beside", "stacked"])
def test_the_chart_boxes_of_painted_pages_are_the_areas_that_the_reader_finds(family: str):
    page = paint(family, 3)
    wide, high = (round(side * 300 / 72) for side in page.size_pt)
    words = [
        Word(w.text, (w.box[0] * wide, w.box[1] * high, w.box[2] * wide, w.box[3] * high), 0.99, w.upright)
        for w in page.words
    ]
    areas = chart_areas(tuple(words), (wide, high))
    charts = [chart for audiogram in page.record.audiograms for chart in audiogram.charts]
    assert len(areas) == len(charts) > 0
    for chart in charts:
        box = np.array(chart_box(chart, (wide, high)))
        # a label's middle may stand beside its line: 3 % of the box are 0.2 octaves or 5 dB
        slack = 0.03 * min(box[2] - box[0], box[3] - box[1])
        assert min(np.abs(box - area.box).max() for area in areas) < slack


def test_every_training_family_is_for_training_and_none_of_the_bench_is_among_them():
    assert {FAMILIES[name].split for name in training_families()} == {"train"}
    assert len(training_families()) > 10


@pytest.mark.parametrize("seed", range(12))
def test_a_mark_is_followed_through_cutting_and_spoiling_to_its_ink(seed: int):
    page = a_page_with_one_square()
    rng = np.random.default_rng(seed)
    tile = mark_crops._tile(mark_crops._spoiled(page, page.record.audiograms[0].charts[0], rng), rng)
    (x, y, glyph, arrow, ink, wide, high, tip_x, tip_y) = tile.marks[0]
    assert (GLYPHS[int(glyph)], int(arrow), INKS[int(ink)]) == ("square", -1, "neutral")
    assert (tip_x, tip_y) == (0, 0)
    grey = cv2.medianBlur(tile.pixels.mean(axis=2).astype(np.uint8), 5)
    limit = (float(np.median(grey)) + float(grey[int(y), int(x)])) / 2
    _, labels, stats, middles = cv2.connectedComponentsWithStats((grey < limit).astype(np.uint8))
    found = labels[round(float(y)), round(float(x))]
    assert found != 0
    # 1.5 px of a square of about 25: the heat that the network learns has a spread of 2.8
    assert middles[found] == pytest.approx((x, y), abs=1.5)
    assert stats[found, cv2.CC_STAT_WIDTH] == pytest.approx(wide, abs=4)
    assert stats[found, cv2.CC_STAT_HEIGHT] == pytest.approx(high, abs=4)


@pytest.mark.parametrize("family", ["single", "stacked", "penned", "wide"])
def test_the_marks_of_a_tile_lie_on_ink(family: str):
    for tile in (tile for seed in range(3) for tile in paint_tiles(family, seed)):
        dark = tile.pixels.min(axis=2)
        paper = np.median(dark)
        for x, y, wide, high in tile.marks[:, [0, 1, 5, 6]]:
            if not (8 < x < TILE - 8 and 8 < y < TILE - 8):
                continue  # it may be cut off
            x0, y0, x1, y1 = (int(v) for v in (x - wide / 2 - 1, y - high / 2 - 1, x + wide / 2 + 2, y + high / 2 + 2))
            assert dark[max(y0, 0) : y1, max(x0, 0) : x1].min() < paper - 30


def test_a_tile_and_its_marks_have_the_form_that_the_network_takes():
    tiles = [tile for seed, family in enumerate(training_families()) for tile in paint_tiles(family, seed)]
    for tile in tiles:
        assert (tile.pixels.shape, tile.pixels.dtype) == ((TILE, TILE, 3), np.uint8)
        assert (tile.marks.shape[1:], tile.marks.dtype) == ((9,), np.float32)
    marks = np.concatenate([tile.marks for tile in tiles])
    assert ((marks[:, :2] > -4) & (marks[:, :2] < TILE + 4)).all()
    assert set(marks[:, 2]) <= set(range(len(GLYPHS)))
    assert set(marks[:, 3]) <= set(range(-1, len(ARROWS)))
    assert set(marks[:, 4]) == set(range(len(INKS)))
    assert (marks[:, 5:7] > 2).all()
    assert (marks[marks[:, 3] < 0, 7:] == 0).all()
    assert (np.hypot(*marks[marks[:, 3] >= 0, 7:].T) > 3).all()
    assert (marks[marks[:, 3] >= 0, 8] > 0).all()
    assert any(len(tile.marks) == 0 for tile in paint_tiles("blank-form", 1))


def test_the_same_seed_gives_the_same_tile_and_another_seed_another():
    one, again, other = paint_tiles("single", 1)[0], paint_tiles("single", 1)[0], paint_tiles("single", 2)[0]
    assert np.array_equal(one.pixels, again.pixels)
    assert np.array_equal(one.marks, again.marks)
    assert not np.array_equal(one.pixels, other.pixels)
