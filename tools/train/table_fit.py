"""Fit how sure table values are, and what a table is worth beside a chart.

Run as ``python -m octavo.tools.train.table_fit keep ROWS --pages 1650 --workers 16`` (CPU; about 4 s a page and core),
which reads painted pages of the training families with tables, printed and by hand, in every way of spoiling, and
writes one JSON line for each value; then as ``… fit ROWS…``, which writes ``extract/table/certainty.json`` and
``extract/crosscheck/certainty.json``; ``… check ROWS…`` tells what the cross-check does to the silent errors of charts:
as they are read; ``trusted``, where every value of the chart is taken for sure; and ``misread``, where one in twenty is
also misread on purpose. ``stated`` counts the errors in what the tables as read state, rightly or wrongly.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from pathlib import Path
from typing import Any

from ...extract.choices import Choices
from ...extract.crosscheck import against_tables
from ...extract.crosscheck.chart_and_table import Group, group_of
from ...extract.intake import pages
from ...extract.meaning import Reading, mean
from ...extract.page import Page
from ...extract.report.words import report_words
from ...extract.road import looked_at
from ...extract.table import audiograms_of, read_tables
from ...extract.table.cells.cells import Cell
from ...extract.table.certainty import Way
from ...extract.table.reading import SeenTables, Table, seen_tables
from ...interpret.record import Audiogram, PageRecord, Point, Remark, Threshold
from ..bench.matching import Finding, compare
from ..painter import FAMILIES
from .kept.order import Order, painted
from .misread import misread, trusted
from .table_weights import fit, report

FIRST_SEED = 71_000_000
MISREAD, TURNS = 0.05, 8
"""Share of a chart's values that is misread on purpose to measure the check, and how often that is done anew."""
WAYS = ("drawn", "scan", "fax-fine", "copy", "photo", "fax-coarse")
TAGS = ("printed-table", "pen-table")

Row = dict[str, Any]
"""One line of JSON."""


def rows_of(order: tuple[str, str, int]) -> list[Row]:
    """Read one painted page (family, way, number) and give a line for each of its values."""
    import cv2

    cv2.setNumThreads(1)
    family, way, number = order
    with tempfile.TemporaryDirectory() as folder:
        made = painted(Order(family, FIRST_SEED + number, way, mono=number % 5 == 4), folder)
        found = [row for read in pages(made.path) if isinstance(read, Page) for row in _rows(read, made.truth)]
    return [{"family": family, "way": way, "number": number, **row} for row in found]


def _rows(page: Page, truth: PageRecord) -> Iterator[Row]:
    looked = looked_at(page)
    sheet, sightings, charts = looked.sheet, looked.sightings, looked.charts
    words = report_words(sheet, charts, Choices())
    read_as: Way = "given" if words.given else "one-reading" if words.unread else "two-readings"
    tables = read_tables(sheet, words.words, read_as)
    if not truth.audiograms[0].charts:
        seen = seen_tables(sheet, words.words, read_as)
        record = PageRecord(page.source, "ask", audiograms_of(tables))
        evidence = {sheet.on_page(*cell.at): (cell, e, by_hand) for cell, e, by_hand in _told(seen)}
        for finding in compare(truth, record):
            yield from _value(finding, evidence, read_as)
        return
    reading = mean(sheet, sightings.key, charts, Choices())
    yield from _checked(truth, page, reading, tables.tables)
    stated = {_whole(t): t for table in tables.tables for t in table.thresholds}
    yield from _agreeing(truth, page, reading.audiograms, reading.remarks, stated)


def _told(seen: SeenTables) -> Iterator[tuple[Cell, tuple[float, ...], bool]]:
    for table in seen.tables:
        yield from ((cell, e, table.by_hand) for cell, e in zip(table.cells, table.evidence, strict=True))


def _value(finding: Finding, evidence: dict[Point, Any], read_as: Way) -> Iterator[Row]:
    if finding.read is None or finding.read.seen is None or finding.read.seen.at is None:
        return
    cell, told, by_hand = evidence[finding.read.seen.at]
    yield {"of": "table", "read": read_as, "right": finding.exact, "doubts": cell.doubts, "slips": cell.slips,
           "verdict": finding.verdict, "by_hand": by_hand, "evidence": told}  # fmt: skip


def _checked(truth: PageRecord, page: Page, reading: Reading, tables: Sequence[Table]) -> Iterator[Row]:
    """Tell what the check does to the values as they stand, to all of them taken for sure, and to misread ones."""
    read = [("as-read", reading.audiograms), ("trusted", trusted(reading.audiograms))]
    read += [("misread", misread(reading.audiograms, MISREAD, seed)) for seed in range(TURNS)]
    told = {
        (*group_of(one), masked, table.tells_masking)
        for table in tables
        for one in (*table.thresholds, *table.unheard)
        for masked in ({one.masked} if table.tells_masking else {False, True})
    }
    counted = Counter(group_of(t) for audiogram in truth.audiograms for t in audiogram.thresholds)
    for (trust, audiograms), check in product(read, (False, True)):
        checked = against_tables(audiograms, tables, check=check)
        said = (reading.remarks if trust == "as-read" else ()) + checked.remarks
        findings = compare(truth, PageRecord(page.source, "ask", checked.audiograms, remarks=said))
        silent = [f for f in findings if f.silent]
        sure = sum(f.exact and f.read is not None and f.read.standing == "sure" for f in findings)
        true = sum(f.truth is not None for f in findings)
        yield {"of": "charts", "trust": trust, "check": check, "silent": len(silent), "true": true, "sure": sure,
               "stated": sum(_is_told(f, told, counted) for f in silent)}  # fmt: skip


def _is_told(finding: Finding, told: set[tuple[object, ...]], counted: Mapping[Group, int]) -> bool:
    """Say whether the tables state the value that is wrong; without signs of masking, they do not say which of two."""
    value = finding.truth or finding.read
    assert value is not None
    place = (*group_of(value), value.masked)
    by_level = finding.verdict != "wrong-masking" and counted[group_of(value)] < 2
    return (*place, True) in told or (by_level and (*place, False) in told)


def _agreeing(
    truth: PageRecord, page: Page, audiograms: tuple[Audiogram, ...], remarks: tuple[Remark, ...],
    stated: dict[tuple[object, ...], Threshold],
) -> Iterator[Row]:  # fmt: skip
    for finding in compare(truth, PageRecord(page.source, "ask", audiograms, remarks=remarks)):
        same = stated.get(_whole(finding.read)) if finding.read else None
        if finding.read and same:
            yield {"of": "agreeing", "right": finding.exact, "chart": finding.read.standing, "table": same.standing,
                   "chance": same.probability, "why": same.why_ask, "chart_why": finding.read.why_ask}  # fmt: skip


def _whole(t: Threshold) -> tuple[object, ...]:
    return t.ear, t.conduction, t.masked, t.aided, t.measure, t.frequency_hz, t.level_db_hl, t.response


def keep(path: Path, numbers: range, workers: int, split: str, *, checked: bool = False) -> None:
    """Paint and read pages, and write a line for each value; ``checked`` takes those with a chart as well alone."""
    names = [n for n, f in FAMILIES.items() if f.split == split and any(tag in f.tags for tag in TAGS)]
    names = [n for n in names if "checked" in FAMILIES[n].tags] if checked else names
    names = [n for n in names if "printed-table" in FAMILIES[n].tags for _ in range(3)] + [
        n for n in names if "pen-table" in FAMILIES[n].tags
    ]
    orders = [(names[i % len(names)], WAYS[i // len(names) % len(WAYS)], i) for i in numbers]
    with multiprocessing.get_context("spawn").Pool(workers) as pool, path.open("w") as out:
        for rows in pool.imap_unordered(rows_of, orders, chunksize=2):
            out.writelines(json.dumps(row) + "\n" for row in rows)
            out.flush()


def main() -> None:
    """Keep, fit or check."""
    parser = argparse.ArgumentParser()
    parser.add_argument("what", choices=("keep", "fit", "check"))
    parser.add_argument("rows", type=Path, nargs="+")
    parser.add_argument("--pages", type=int, default=120)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--split", choices=("train", "bench"), default="train")
    parser.add_argument("--checked", action="store_true", help="only pages with a chart beside a printed table")
    args = parser.parse_args()
    if args.what == "keep":
        numbers = range(args.first, args.first + args.pages)
        keep(args.rows[0], numbers, args.workers, args.split, checked=args.checked)
        return
    rows = [json.loads(line) for path in args.rows for line in path.read_text().splitlines()]
    if args.what == "fit":
        fit(rows)
    else:
        print(json.dumps(report(rows), indent=1))


if __name__ == "__main__":
    main()
