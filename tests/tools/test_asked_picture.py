"""What a person must look at, cut out of the page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np

from octavo.extract.page import Page, Pixels
from octavo.interpret.record import PageRecord, Seen, Source, Standing, Threshold
from octavo.tools.asked_picture import CUT_PX, MARGIN_PX, draw_asked
from octavo.tools.show_work import WorkFolder

MakeRecord = Callable[..., PageRecord]


def value(x: float, standing: Standing) -> Threshold:
    why = ("faint",) if standing == "ask" else ()
    seen = Seen(0, (x, 0.5), 1000.0, 30.0)
    return Threshold("right", "air", False, 1000.0, 30.0, False, "threshold", True, standing, 0.5, why, seen)


def page() -> Pixels:
    """Draw a blank page with a green square at a quarter and a blue one at three quarters of its width."""
    pixels = np.full((600, 800, 3), 255, np.uint8)
    pixels[295:305, 195:205] = (0, 200, 0)
    pixels[295:305, 595:605] = (0, 0, 200)
    return pixels


def test_each_value_that_asks_is_cut_out_with_its_place_in_the_middle(make_record: MakeRecord) -> None:
    asked = (value(0.25, "ask"), value(0.5, "sure"), value(0.75, "ask"))
    picture = draw_asked(page(), make_record(thresholds=asked))
    assert picture is not None
    middle = MARGIN_PX + CUT_PX // 2
    assert picture[middle, middle].tolist() == [0, 200, 0]
    assert picture[middle, middle + CUT_PX + MARGIN_PX].tolist() == [0, 0, 200]
    assert picture.shape[1] == 2 * (CUT_PX + MARGIN_PX) + MARGIN_PX


def test_a_value_at_the_edge_of_the_page_is_cut_out_too(make_record: MakeRecord) -> None:
    asked = (value(0.0, "ask"), value(1.0, "ask"))
    assert draw_asked(page(), make_record(thresholds=asked)) is not None


def test_where_nothing_asks_there_is_no_picture(tmp_path: Path, make_record: MakeRecord) -> None:
    work = WorkFolder(tmp_path).work_of(Path("fax.tif"))
    work("page", Page(source=Source("fax.tif", "0" * 64, 1, 1, "scan"), pixels=page(), dpi=None))
    cases: tuple[tuple[Standing, list[str]], ...] = (("sure", []), ("ask", ["fax-p001-7-asked.png"]))
    for standing, names in cases:
        work.reading(make_record(thresholds=(value(0.5, standing),)))
        assert [path.name for path in tmp_path.glob("*asked*")] == names
