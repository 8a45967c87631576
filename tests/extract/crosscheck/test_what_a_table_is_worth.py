"""Misread charts beside a printed table: how many of their errors are still silent after the check.

The charts' values are the painter's truth with errors put in, all standing as sure; the tables are read from the drawn
page, the painter's own slips in them included.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from octavo.extract.crosscheck import against_tables
from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.extract.straighten import straighten
from octavo.extract.table import Tables, read_tables
from octavo.interpret.record import Audiogram, PageRecord, Source, Threshold
from octavo.tools.bench.matching import compare
from octavo.tools.painter import PaintedPage, paint
from octavo.tools.train.misread import misread

ODDS = 0.05
FAMILIES = ("rigging", "hawser", "table-chart")
SEEDS = range(9000, 9020)
SOURCE = Source("page.pdf", "0" * 64, 1, 1, "drawn")


def place_of(value: Threshold) -> tuple[str, str, bool, float]:
    return value.ear, value.conduction, value.masked, value.frequency_hz


def tables_of(page: PaintedPage, folder: Path) -> Tables:
    file = folder / "page.pdf"
    file.write_bytes(page.pdf)
    read = next(iter(pages(file)))
    assert isinstance(read, Page)
    sheet = straighten(read)
    return read_tables(sheet, sheet.words, "given")


def silent(page: PaintedPage, audiograms: tuple[Audiogram, ...], stated: set[tuple[str, str, bool, float]]) -> int:
    """Count the silent errors in what the table states: it cannot know more."""
    found = [f for f in compare(page.record, PageRecord(SOURCE, "ask", audiograms)) if f.silent]
    return sum(any(place_of(t) in stated for t in (f.truth, f.read) if t) for f in found)


def test_a_table_cuts_the_silent_errors_of_a_chart_at_least_tenfold(tmp_path: Path) -> None:
    before = after = kept = true = 0
    for family in FAMILIES:
        for seed in SEEDS:
            page = paint(family, seed)
            tables = tables_of(page, tmp_path)
            (right,) = page.record.audiograms
            stated = {place_of(c.threshold) for c in page.cells if c.threshold is not None}
            listed = tuple(t for t in right.thresholds if place_of(t) in stated)
            page = replace(page, record=replace(page.record, audiograms=(replace(right, thresholds=listed),)))
            charts = misread((replace(right, thresholds=listed),), ODDS, seed)
            checked = against_tables(charts, tables.tables).audiograms
            before += silent(page, charts, stated)
            after += silent(page, checked, stated)
            kept += sum(t.standing == "sure" for a in checked for t in a.thresholds)
            true += len(listed)
    assert before >= 40  # else the experiment shows nothing
    assert after <= before / 10
    assert kept >= 0.9 * true * (1 - ODDS)
