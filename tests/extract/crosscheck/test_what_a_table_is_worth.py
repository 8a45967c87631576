"""Misread charts beside a printed table: how many of their errors are still silent after the check.

The charts' values are the painter's truth with errors put in, all standing as sure; the tables are read from the drawn
page, the painter's own slips in them included.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from octavo.extract.crosscheck import against_tables
from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.extract.straighten import straighten
from octavo.extract.table import Tables, read_tables
from octavo.interpret.record import Audiogram, PageRecord, Source, Threshold
from octavo.tools.bench.matching import compare
from octavo.tools.painter import PaintedPage, paint

ODDS = 0.05
FAMILIES = ("rigging", "hawser", "table-chart")
SEEDS = range(9000, 9016)
SOURCE = Source("page.pdf", "0" * 64, 1, 1, "drawn")


def misread(rng: np.random.Generator, values: tuple[Threshold, ...]) -> tuple[Threshold, ...]:
    """Give values with errors of the kinds that charts have: levels, ears, masking, arrows, marks lost."""
    found: list[Threshold] = []
    for t in values:
        if rng.random() >= ODDS:
            found.append(t)
            continue
        kind = str(rng.choice(("level", "level", "level", "ear", "masked", "response", "lost")))
        other = "left" if t.ear == "right" else "right"
        changes: dict[str, dict[str, object]] = {
            "level": {"level_db_hl": t.level_db_hl + float(rng.choice((-10, -5, 5, 10)))},
            "ear": {"ear": other}, "masked": {"masked": not t.masked}, "response": {"response": not t.response},
        }  # fmt: skip
        if kind != "lost":
            found.append(replace(t, **changes[kind]))
    return tuple(found)


def tables_of(page: PaintedPage, folder: Path) -> Tables:
    file = folder / "page.pdf"
    file.write_bytes(page.pdf)
    read = next(iter(pages(file)))
    assert isinstance(read, Page)
    sheet = straighten(read)
    return read_tables(sheet, sheet.words, "given")


def silent(page: PaintedPage, audiograms: tuple[Audiogram, ...]) -> int:
    return sum(f.silent for f in compare(page.record, PageRecord(SOURCE, "ask", audiograms)))


def test_a_table_cuts_the_silent_errors_of_a_chart_at_least_tenfold(tmp_path: Path) -> None:
    rng = np.random.default_rng(5)
    before = after = kept = true = 0
    for family in FAMILIES:
        for seed in SEEDS:
            page = paint(family, seed)
            tables = tables_of(page, tmp_path)
            (right,) = page.record.audiograms
            stated = {(c.threshold.ear, c.threshold.conduction) for c in page.cells if c.threshold is not None}
            listed = tuple(t for t in right.thresholds if (t.ear, t.conduction) in stated)
            page = replace(page, record=replace(page.record, audiograms=(replace(right, thresholds=listed),)))
            charts = (replace(right, thresholds=misread(rng, listed)),)
            checked = against_tables(charts, tables.tables).audiograms
            before += silent(page, charts)
            after += silent(page, checked)
            kept += sum(t.standing == "sure" for a in checked for t in a.thresholds)
            true += len(listed)
    assert before >= 40  # else the experiment shows nothing
    assert after <= before / 10
    assert kept >= 0.9 * true * (1 - ODDS)
