"""From a page to its record: painted pages hold the truth, other pages hold nothing."""

from __future__ import annotations

from math import dist
from pathlib import Path

import cv2
import numpy as np
import pytest
from by_hand import frequency_words, grid_picture, level_words, page

from octavo.extract import road
from octavo.extract.choices import Choices
from octavo.extract.intake import pages
from octavo.extract.intake import words as recognition
from octavo.extract.page import Page
from octavo.extract.road import read_page
from octavo.interpret.record import PageRecord, Threshold
from octavo.tools.painter import PaintedMark, PaintedPage, paint, render

SIMPLE = [(family, seed) for family in ("report", "small", "beside", "wide", "one-ear", "keyed") for seed in (2, 7)]
SAME_PLACE = 0.005


def drawn(painted: PaintedPage, folder: Path) -> PageRecord:
    path = folder / "page.pdf"
    path.write_bytes(painted.pdf)
    (one,) = pages(path)
    assert isinstance(one, Page)
    return read_page(one, Choices())


def values(record: PageRecord) -> tuple[Threshold, ...]:
    return tuple(t for a in record.audiograms for t in a.thresholds)


def what(t: Threshold) -> tuple[object, ...]:
    return t.ear, t.conduction, t.masked, t.aided, t.measure, t.frequency_hz, t.level_db_hl, t.response


def alone(painted: PaintedPage, mark: PaintedMark) -> bool:
    return all(
        abs(o.at[0] - mark.at[0]) > 1.3 * mark.size[0] or abs(o.at[1] - mark.at[1]) > 1.3 * mark.size[1]
        for o in painted.marks
        if o is not mark
    )


def remarks(record: PageRecord) -> set[str]:
    return {r.code for r in record.remarks}


def test_a_simple_mark_that_stands_alone_on_a_drawn_page_is_read_right_at_its_place(tmp_path: Path) -> None:
    wanted = found = 0
    for family, seed in SIMPLE:
        painted = paint(family, seed)
        read = values(drawn(painted, tmp_path))
        for mark in painted.marks:
            if (
                mark.threshold is None
                or mark.glyph not in ("circle", "cross")
                or mark.arrow
                or not alone(painted, mark)
            ):
                continue
            wanted += 1
            here = [t for t in read if t.seen and t.seen.at and dist(t.seen.at, mark.at) < SAME_PLACE]
            right = [t for t in here if what(t) == what(mark.threshold)]
            silent = [t for t in here if t.standing == "sure" and what(t) != what(mark.threshold)]
            assert not silent, (family, seed, mark)
            found += bool(right)
    assert wanted > 20
    assert found >= 0.97 * wanted


def test_the_axes_run_where_they_were_drawn(tmp_path: Path) -> None:
    for family, seed in (("report", 2), ("small", 2), ("one-ear", 2)):
        painted = paint(family, seed)
        (read,) = drawn(painted, tmp_path).audiograms[0].charts
        (true,) = painted.record.audiograms[0].charts
        assert read.level_axis
        assert true.level_axis
        (_, first), (_, last) = true.level_axis.at
        low, high = true.level_axis.db_hl
        for level, (_, y) in zip(read.level_axis.db_hl, read.level_axis.at, strict=True):
            assert y == pytest.approx(first + (last - first) * (level - low) / (high - low), abs=SAME_PLACE)
        assert read.frequency_axis
        assert true.frequency_axis
        assert read.frequency_axis.hz == true.frequency_axis.hz
        for here, there in zip(read.frequency_axis.at, true.frequency_axis.at, strict=True):
            assert here[0] == pytest.approx(there[0], abs=SAME_PLACE)


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_scan_fed_in_turned_gives_the_same_thresholds_as_the_upright_one(quarters: int) -> None:
    painted = paint("report", 5)
    picture = render(painted.pdf, 130)
    record = read_page(page(np.rot90(picture, quarters)), Choices())
    places = {what(t): t.seen.at for t in values(painted.record) if t.seen and t.seen.at}
    assert {what(t) for t in values(record)} == set(places)
    for t in values(record):
        assert t.seen
        assert t.seen.at
        x, y = places[what(t)]
        there = {0: (x, y), 1: (y, 1 - x), 2: (1 - x, 1 - y), 3: (1 - y, x)}[quarters]
        assert dist(t.seen.at, there) < SAME_PLACE


def test_a_page_of_letters_has_no_audiogram_and_nothing_to_ask(tmp_path: Path) -> None:
    for family in ("letter", "invoice"):
        record = drawn(paint(family, 4), tmp_path)
        assert record.audiograms == ()
        assert remarks(record) == {"no-audiogram"}
        assert record.standing == "sure"


@pytest.mark.parametrize("family", ["month", "weather", "bars", "scatter", "growth", "heart",
                                    "tympanogram", "emissions", "speech-curve", "aid-output", "bare-grid",
                                    "blank-form"])  # fmt: skip
def test_no_value_is_read_as_sure_from_a_page_without_one(family: str, tmp_path: Path) -> None:
    assert [t for t in values(drawn(paint(family, 1), tmp_path)) if t.standing == "sure"] == []


def test_no_value_is_read_from_scanned_graph_paper() -> None:
    assert values(read_page(page(render(paint("graph-paper", 1).pdf, 100)), Choices())) == ()


def test_a_grid_without_labels_is_asked_about() -> None:
    record = read_page(page(grid_picture()), Choices())
    assert values(record) == ()
    assert "chart-not-read" in remarks(record)
    assert record.standing == "ask"


def test_frequencies_without_levels_are_asked_about() -> None:
    record = read_page(page(np.full((1200, 1000, 3), 255, np.uint8), frequency_words()), Choices())
    assert "chart-not-read" in remarks(record)
    assert record.standing == "ask"


def test_an_empty_chart_has_an_audiogram_without_thresholds() -> None:
    record = read_page(page(grid_picture(), frequency_words() + level_words()), Choices())
    assert len(record.audiograms) == 1
    assert values(record) == ()


def test_a_blank_page_says_that_it_holds_no_audiogram() -> None:
    record = read_page(page(np.full((900, 700, 3), 255, np.uint8)), Choices())
    assert record.audiograms == ()
    assert remarks(record) == {"no-audiogram"}


@pytest.mark.parametrize("depth", [20, 256])
def test_noise_holds_no_thresholds(depth: int) -> None:
    noise = np.random.default_rng(depth).integers(256 - depth, 256, (600, 450, 3), dtype=np.uint8)
    assert values(read_page(page(noise), Choices())) == ()


def test_a_mirrored_page_has_no_sure_value() -> None:
    picture = render(paint("wide", 2).pdf, 110)
    record = read_page(page(picture[:, ::-1]), Choices())
    assert [t for t in values(record) if t.standing == "sure"] == []


def test_levels_that_increase_upward_make_no_audiogram() -> None:
    words = frequency_words() + tuple(type(w)(str(110 - int(w.text)), w.box, w.confidence) for w in level_words())
    picture = grid_picture()
    for x in range(250, 800, 100):
        cv2.circle(picture, (x, 500), 8, (200, 0, 0), 2)
    assert read_page(page(picture, words), Choices()).audiograms == ()


def test_an_observer_sees_every_step_in_order_and_changes_nothing(tmp_path: Path) -> None:
    words = frequency_words() + level_words()
    steps: list[str] = []

    def note(name: str, result: object) -> None:
        steps.append(name)

    one = page(grid_picture(), words)
    record = read_page(one, Choices(), observer=note)
    assert steps == ["page", "sheet", "sightings", "charts", "words", "facts", "thresholds"]
    assert record == read_page(one, Choices())


def test_without_text_recognition_a_scan_is_read_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recognition.pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    scan = page(render(paint("single", 3).pdf, 200))
    charts_only = read_page(scan, Choices(report=False))
    whole = read_page(scan, Choices())
    assert [remark.code for remark in whole.remarks if remark not in charts_only.remarks] == ["ocr-missing"]
    assert values(whole) == values(charts_only) != ()


def test_text_recognition_has_begun_when_tables_are_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """A page waits for it at the end, so what comes before it counts twice."""
    steps: list[str] = []
    begin, tables = road.begin_words, road.read_tables
    monkeypatch.setattr(road, "begin_words", lambda *given: (steps.append("words"), begin(*given))[1])
    monkeypatch.setattr(road, "read_tables", lambda *given: (steps.append("tables"), tables(*given))[1])
    monkeypatch.setattr(recognition, "read_strip", lambda *_, **__: ())
    read_page(page(render(paint("single", 3).pdf, 200)), Choices())
    assert steps == ["words", "tables", "tables"]
