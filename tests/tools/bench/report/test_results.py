"""The report's folder: results, the page to open, the worst pages with their pictures."""

from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from octavo.interpret.errors import CannotWrite
from octavo.tools.bench.reader import Reading
from octavo.tools.bench.report import worst
from octavo.tools.bench.report.readme import Run
from octavo.tools.bench.report.results import by_family, write_report
from octavo.tools.bench.scores import score_page

RUN = Run("octavo bench", 7, "0.1.0", None, "2025-01-02")


@pytest.fixture
def scores(sample, value, page):
    truth = page(value(at=(0.5, 0.5)))
    readings = (page(value(at=(0.5, 0.5))), page(value("left", at=(0.5, 0.5))), page(value(standing="ask")))
    return [
        score_page(replace(sample, number=i, family=f"family-{i}"), truth, Reading(read, 0.1))
        for i, read in enumerate(readings)
    ]


@pytest.fixture
def _white_pages(monkeypatch):
    """Have the worst pages' pictures white: what the painter draws is tested with the painter."""
    monkeypatch.setattr(worst, "paint_page", lambda _: None)
    monkeypatch.setattr(worst, "picture_of", lambda *_: np.full((2000, 1000, 3), 255, np.uint8))


@pytest.mark.usefixtures("_white_pages")
def test_the_worst_pages_are_written_and_named_worst_first(tmp_path, scores):
    paths = write_report(tmp_path / "report", RUN, {"drawn": scores}, worst_pages=10)
    assert [path.name.split("-family-")[1][0] for path in paths] == ["1", "2"]
    assert all(path.exists() for path in paths)
    index = (tmp_path / "report" / "index.html").read_text(encoding="utf-8")
    assert all(f'href="{path.name}"' in index for path in paths)


@pytest.mark.usefixtures("_white_pages")
def test_truth_and_reading_are_drawn_at_their_places(tmp_path, scores):
    text = worst.write_page(tmp_path, scores[1]).read_text(encoding="utf-8")
    assert 'viewBox="0 0 900 1800"' in text
    assert '<circle class="truth" cx="450.0" cy="900.0"' in text
    assert '<path class="read" d="M439.0 900.0h22' in text
    assert "wrong-ear, silent" in text
    assert "left air 1000 Hz 35 dB HL" in text


@pytest.mark.usefixtures("_white_pages")
def test_results_hold_every_page_and_every_error(tmp_path, scores):
    write_report(tmp_path, RUN, {"drawn": scores}, worst_pages=0)
    (suite,) = json.loads((tmp_path / "results.json").read_text(encoding="utf-8"))["suites"]
    assert (suite["thresholds"], suite["exact"], suite["silent"]) == (3, 2, 1)
    assert [len(page["errors"]) for page in suite["pages_read"]] == [0, 1, 0]
    assert suite["pages_read"][1]["errors"][0]["verdict"] == "wrong-ear"


def test_the_family_with_the_most_silent_errors_comes_first(scores):
    assert by_family(scores)[0].suite == "family-1"


def test_a_folder_that_cannot_be_made_is_said_so(tmp_path, scores):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    with pytest.raises(CannotWrite, match="the report cannot be written"):
        write_report(tmp_path / "taken", RUN, {"drawn": scores}, worst_pages=0)
