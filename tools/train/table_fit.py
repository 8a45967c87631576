"""Fit how sure table values are, and what a table is worth beside a chart.

Run as ``python -m octavo.tools.train.table_fit PAGES`` (CPU). Pages of the training families with printed tables, in
every way of spoiling, are read. Counted are the table values that are right, by the way in which they were read, and
the chart values that are right of those that a sure table value repeats; and, for the report alone, the silent errors
of charts with a table beside them, with and without the check.
"""

from __future__ import annotations

import argparse
import datetime
import json
import multiprocessing
import tempfile
from collections import Counter
from pathlib import Path

from ...extract.choices import Choices
from ...extract.crosscheck import against_tables
from ...extract.eyes import see
from ...extract.intake import pages
from ...extract.meaning import mean
from ...extract.measure import measure
from ...extract.page import Page
from ...extract.report.words import report_words
from ...extract.straighten import straighten
from ...extract.table import Tables, audiograms_of, read_tables, without_numbers
from ...interpret.record import Audiogram, PageRecord, Remark, Threshold
from ..bench.matching import compare
from ..painter import FAMILIES, paint, render
from ..painter.spoiling import shown, spoil, write_file

FIRST_SEED = 71_000_000
WAYS = ("drawn", "scan", "fax-fine", "copy", "photo", "fax-coarse")
SUFFIX = {"drawn": ".pdf", "scan": ".png", "copy": ".png", "photo": ".jpg"}
EXTRACT = Path(__file__).parents[2] / "extract"


def counted(order: tuple[str, str, int]) -> Counter[str]:
    """Read one painted page (family, way, number) and count its values."""
    family, way, number = order
    page = paint(family, FIRST_SEED + number, mono=number % 5 == 4)
    truth = page.record
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / ("page" + SUFFIX.get(way, ".tif"))
        if way == "drawn":
            path.write_bytes(page.pdf)
        else:
            spoiled = spoil(render(page.pdf, 300), way, FIRST_SEED + number, dpi=300)
            write_file(spoiled, way, path)
            truth = shown(page, spoiled).record
        found: Counter[str] = Counter()
        for read in pages(path):
            if isinstance(read, Page):
                found += _counted(read, truth, way)
    return found


def _counted(page: Page, truth: PageRecord, way: str) -> Counter[str]:
    sheet = straighten(page)
    given = sheet.words_given
    tables = read_tables(sheet, sheet.words, "given" if given else "one-reading")
    sightings = see(without_numbers(sheet, tables.tables))
    charts = measure(sheet, sightings)
    words = report_words(sheet, charts, Choices())
    tables = read_tables(sheet, words.words, "given" if given else "two-readings")
    reading = mean(sheet, sightings.key, charts, Choices())
    if not truth.audiograms[0].charts:
        return _of_tables(PageRecord(page.source, "ask", audiograms_of(tables)), truth, given=given)
    return _of_charts(page, reading.audiograms, reading.remarks, tables, truth, way)


def _of_tables(record: PageRecord, truth: PageRecord, *, given: bool) -> Counter[str]:
    found: Counter[str] = Counter()
    for finding in compare(truth, record):
        if finding.read is not None:
            kind = "doubted" if finding.read.standing == "ask" else "given" if given else "two-readings"
            found[f"{kind} {'right' if finding.exact else 'wrong'}"] += 1
    return found


def _of_charts(
    page: Page, audiograms: tuple[Audiogram, ...], remarks: tuple[Remark, ...], tables: Tables, truth: PageRecord,
    way: str,
) -> Counter[str]:  # fmt: skip
    found: Counter[str] = Counter()
    for check in (False, True):
        checked = against_tables(audiograms, tables.tables, check=check)
        said = remarks + checked.remarks
        findings = compare(truth, PageRecord(page.source, "ask", checked.audiograms, remarks=said))
        name = "checked" if check else "unchecked"
        found[f"{way} {name} silent"] += sum(f.silent for f in findings)
        found[f"{way} {name} true"] += sum(f.truth is not None for f in findings)
        found[f"{way} {name} sure"] += sum(f.exact and _is_sure(f.read) for f in findings)
    repeated = {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.response)
                for table in tables.tables for t in table.thresholds if t.standing == "sure"}  # fmt: skip
    for finding in compare(truth, PageRecord(page.source, "ask", audiograms)):
        t = finding.read
        if t and (t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.response) in repeated:
            found[f"agreeing {'right' if finding.exact else 'wrong'}"] += 1
            found[f"agreeing {t.standing} {'right' if finding.exact else 'wrong'}"] += 1
    return found


def _is_sure(value: Threshold | None) -> bool:
    return value is not None and value.standing == "sure"


def share(found: Counter[str], kind: str) -> float:
    """Give the share of right ones, with one wrong one added: nothing is certain after so many looks."""
    right, wrong = found[f"{kind} right"], found[f"{kind} wrong"]
    return round((right + 0.5) / (right + wrong + 1), 5)


def main() -> None:
    """Paint, read, count, and write the shares beside the code that uses them."""
    parser = argparse.ArgumentParser()
    parser.add_argument("pages", type=int)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--tag", choices=("printed-table", "checked"), default="printed-table")
    parser.add_argument("--split", choices=("train", "bench"), default="train")
    parser.add_argument("--ways", nargs="+", choices=WAYS, default=WAYS)
    args = parser.parse_args()
    names = [n for n, f in FAMILIES.items() if f.split == args.split and args.tag in f.tags]
    orders = [(names[i % len(names)], args.ways[i // len(names) % len(args.ways)], i) for i in range(args.pages)]
    found: Counter[str] = Counter()
    with multiprocessing.get_context("spawn").Pool(args.workers) as pool:
        for page in pool.imap_unordered(counted, orders):
            found += page
    print(json.dumps(dict(sorted(found.items())), indent=1))
    if args.split == "train" and args.tag == "printed-table":
        _write(found, args.pages)


def _write(found: Counter[str], count: int) -> None:
    today = datetime.datetime.now(tz=datetime.UTC).date()
    source = f"tools/train/table_fit.py on {today}, {count} pages of training families, seeds from {FIRST_SEED}"
    counts = {kind: f"{found[f'{kind} right']} right, {found[f'{kind} wrong']} wrong" for kind in ("given", "doubted")}
    both = f"{found['two-readings right']} right, {found['two-readings wrong']} wrong"
    shares = {
        "right": {
            "given": share(found, "given"), "two-readings": share(found, "two-readings"),
            "one-reading": share(found, "doubted"), "by-hand": share(found, "doubted"),
        },
        "doubted": share(found, "doubted"),
        "provenance": f"{source}: given {counts['given']}; two readings {both}; doubted {counts['doubted']}",
    }  # fmt: skip
    (EXTRACT / "table" / "certainty.json").write_text(json.dumps(shares, indent=1) + "\n")
    said = f"{found['agreeing right']} agreeing right, {found['agreeing wrong']} wrong"
    agreeing = {"agreeing_right": share(found, "agreeing"), "provenance": f"{source}: {said}"}
    (EXTRACT / "crosscheck" / "certainty.json").write_text(json.dumps(agreeing, indent=1) + "\n")


if __name__ == "__main__":
    main()
