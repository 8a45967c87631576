"""A sample's file is as a user would have it, and its truth is that of the page in the file."""

from __future__ import annotations

import pytest
from PIL import Image

from octavo.tools.bench.paint import Order, paint_file
from octavo.tools.bench.suites import SUITES, Sample, plan
from octavo.tools.painter import paint
from octavo.tools.painter.spoiling.files import SUFFIXES

FAMILY = "single"


def order(way: str, suffix: str, folder, *, yardstick: bool = False) -> Order:
    return Order(Sample("none", 0, FAMILY, 11, mono=False, way=way, suffix=suffix), str(folder), yardstick)


def test_a_drawn_sample_is_the_painters_own_pdf(tmp_path):
    painted = paint_file(order("drawn", ".pdf", tmp_path))
    page = paint(FAMILY, 11)
    assert (tmp_path / painted.path).read_bytes() == page.pdf
    assert painted.truth == page.record


@pytest.mark.parametrize(("way", "suffix"), [("scan", ".pdf"), ("fax-fine", ".tif"), ("photo", ".jpg")])
def test_a_spoiled_sample_keeps_its_values_and_moves_their_places(way, suffix, tmp_path):
    painted, page = paint_file(order(way, suffix, tmp_path)), paint(FAMILY, 11)
    moved, still = painted.truth.audiograms[0].thresholds, page.record.audiograms[0].thresholds
    assert [(t.ear, t.frequency_hz, t.level_db_hl) for t in moved] == [
        (t.ear, t.frequency_hz, t.level_db_hl) for t in still
    ]
    assert moved != still
    assert all(t.seen and t.seen.at and 0 < t.seen.at[0] < 1 and 0 < t.seen.at[1] < 1 for t in moved)


def test_the_same_sample_gives_the_same_file(tmp_path):
    first, second = tmp_path / "first", tmp_path / "second"
    for folder in (first, second):
        folder.mkdir()
        paint_file(order("fax-fine", ".tif", folder))
    (name,) = [path.name for path in first.iterdir()]
    assert (first / name).read_bytes() == (second / name).read_bytes()


def test_tesseract_is_timed_on_the_page_with_square_pixels(tmp_path):
    painted = paint_file(order("fax-coarse", ".tif", tmp_path, yardstick=True))
    assert painted.yardstick is not None
    with Image.open(painted.path) as fax, Image.open(painted.yardstick) as picture:
        assert picture.size == (fax.width, 2 * fax.height)


def test_a_planned_sample_has_a_form_that_goes_with_its_way():
    planned = [plan(suite, number, 1, (FAMILY,)) for suite in SUITES.values() for number in range(60)]
    spoiled = {(sample.way, sample.suffix) for sample in planned if sample.way != "drawn"}
    assert {way for way, _ in spoiled} == set(SUFFIXES) - {"clean"}
    assert all(suffix in SUFFIXES[way] for way, suffix in spoiled)
