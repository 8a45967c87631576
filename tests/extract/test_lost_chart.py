"""What a chart holds that was noticed beside others, and not read, is told as missing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from octavo.extract.choices import Choices
from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.extract.road import read_page
from octavo.tools.painter import paint


def test_a_chart_lost_beside_one_that_was_read_may_hold_any_ear_and_conduction(tmp_path: Path) -> None:
    file = tmp_path / "two.pdf"
    file.write_bytes(paint("beside", 7).pdf)
    page = next(iter(pages(file)))
    assert isinstance(page, Page)
    assert page.words
    half = np.median([w.box[0] for w in page.words if w.text in ("250", "500", "1000", "2000", "4000", "8000", "1k")])
    record = read_page(replace(page, words=tuple(w for w in page.words if w.box[2] < half)), Choices())
    assert record.standing == "ask"
    told = {(r.ear, r.conduction) for r in record.remarks if r.code == "missing-expected"}
    assert told >= {("right", "air"), ("right", "bone"), ("left", "air"), ("left", "bone")}
    assert told >= {("unspecified", "air")}  # loudness by one pen
    assert any(r.code == "chart-not-read" for r in record.remarks)
