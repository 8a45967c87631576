"""The tables: a row a threshold, a row a finding, as CSV and as Parquet."""

from __future__ import annotations

import csv
import io
import sys
from dataclasses import replace
from pathlib import Path

import pyarrow.parquet
import pytest
from any_records import page_records
from hypothesis import given, settings
from invented_pages import asked, page, rich_page, value

from octavo.interpret.errors import MissingProgram
from octavo.interpret.exports.tables import (
    FINDING_COLUMNS,
    THRESHOLD_COLUMNS,
    csv_of,
    finding_rows,
    parquet_of,
    threshold_rows,
)
from octavo.interpret.exports.tables.document import documentation
from octavo.interpret.findings import with_findings
from octavo.interpret.record import Audiogram, PageRecord

ROOT = Path(__file__).parents[4]


def thresholds_of(record: PageRecord) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_of(THRESHOLD_COLUMNS, threshold_rows(record)).decode("utf-8"))))


def findings_of(record: PageRecord) -> list[dict[str, str]]:
    rows = finding_rows(with_findings(record))
    return list(csv.DictReader(io.StringIO(csv_of(FINDING_COLUMNS, rows).decode("utf-8"))))


def test_every_threshold_is_one_row_in_the_order_of_the_record() -> None:
    record = rich_page()
    rows = thresholds_of(record)
    values = [(t.ear, t.frequency_hz, t.level_db_hl) for one in record.audiograms for t in one.thresholds]
    assert [(row["ear"], float(row["frequency_hz"]), float(row["level_db_hl"])) for row in rows] == values
    assert {row["test"] for row in rows} == {"1", "2"}


def test_what_a_row_says_of_a_value_to_ask_about() -> None:
    row = next(row for row in thresholds_of(rich_page()) if row["standing"] == "ask")
    told = [row[name] for name in ("why_ask", "probability", "chart", "at_x")]
    assert told == ["marks-overlap;faint", "0.81", "0", "0.31"]
    assert (row["masked"], row["response"], row["tested_on"]) == ("false", "true", "2019-03-14")


def test_what_is_not_known_is_empty() -> None:
    row = thresholds_of(page(Audiogram(thresholds=(value("right", 1000, 20),))))[0]
    assert {row[name] for name in ("tested_on", "symbol_set", "why_ask", "chart", "at_x", "seen_level_db_hl")} == {""}


def test_every_finding_is_one_row_with_its_range() -> None:
    values = (value("right", 500, 30), asked("right", 1000, 35, "faint"), value("right", 2000, 40))
    record = page(Audiogram(thresholds=values))
    rows = findings_of(record)
    assert len(rows) == len(with_findings(record).audiograms[0].findings["found"])
    average = next(row for row in rows if (row["code"], row["rule"]) == ("average", "0.5-1-2"))
    # By hand: (30 + 35 + 40) / 3, and 10 dB of doubt in one of three.
    assert [float(average[name]) for name in ("number", "low", "high")] == [35, pytest.approx(31.667, abs=0.001),
                                                                          pytest.approx(38.333, abs=0.001)]  # fmt: skip
    assert (average["standing"], average["rests_on"], average["unit"]) == ("ask", "1000", "dB HL")


def test_an_open_end_of_a_range_is_empty() -> None:
    row = next(r for r in findings_of(rich_page()) if r["code"] == "average" and r["at_least"] == "true")
    assert (row["high"], bool(row["low"])) == ("", True)


@pytest.mark.parametrize("name", ["=cmd|x.pdf", "+1.pdf", "-1.pdf", "@a.pdf"])
def test_a_file_s_name_is_no_formula_in_a_spreadsheet(name: str) -> None:
    record = rich_page()
    rows = thresholds_of(replace(record, source=replace(record.source, name=name)))
    assert rows[0]["file"] == f"'{name}"


def test_a_level_below_zero_stays_a_number() -> None:
    assert thresholds_of(page(Audiogram(thresholds=(value("right", 1000, -5),))))[0]["level_db_hl"] == "-5"


@given(page_records())
@settings(max_examples=40, deadline=None)
def test_any_record_has_as_many_cells_a_row_as_columns(record: PageRecord) -> None:
    for columns, rows in ((THRESHOLD_COLUMNS, threshold_rows(record)), (FINDING_COLUMNS, finding_rows(record))):
        read = list(csv.reader(io.StringIO(csv_of(columns, rows).decode("utf-8"), newline="")))
        assert {len(row) for row in read} == {len(columns)}


def test_parquet_keeps_the_kinds_and_says_what_a_column_means() -> None:
    table = pyarrow.parquet.read_table(io.BytesIO(parquet_of(THRESHOLD_COLUMNS, threshold_rows(rich_page()))))
    kinds = {field.name: str(field.type) for field in table.schema}
    assert (kinds["level_db_hl"], kinds["masked"], kinds["page"], kinds["ear"]) == ("double", "bool", "int64", "string")
    assert table.schema.field("level_db_hl").metadata[b"unit"] == b"dB HL"
    levels = [t.level_db_hl for one in rich_page().audiograms for t in one.thresholds]
    assert table.column("level_db_hl").to_pylist() == levels


@given(page_records())
@settings(max_examples=20, deadline=None)
def test_any_record_can_be_written_as_parquet(record: PageRecord) -> None:
    rows = list(finding_rows(record))
    assert pyarrow.parquet.read_table(io.BytesIO(parquet_of(FINDING_COLUMNS, rows))).num_rows == len(rows)


def test_without_pyarrow_parquet_is_refused_with_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(MissingProgram, match=r"need the package pyarrow\. Install it with pip"):
        parquet_of(THRESHOLD_COLUMNS, [])


def test_every_column_is_documented() -> None:
    written = (ROOT / "interpret/exports/tables/TABLES.md").read_text("utf-8")
    assert written == documentation()
    assert all(column.meaning for column in (*THRESHOLD_COLUMNS, *FINDING_COLUMNS))
