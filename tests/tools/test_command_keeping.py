"""``octavo read --table`` and ``--redraw``: the files that they leave, and what happens where they cannot."""

from __future__ import annotations

import csv
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pypdfium2
import pytest

from octavo.interpret.errors import OctavoError
from octavo.interpret.record import PageRecord
from octavo.tools import reading
from octavo.tools.command import main

MakeRecord = Callable[..., PageRecord]


@pytest.fixture
def play(monkeypatch: pytest.MonkeyPatch) -> Callable[[list[PageRecord]], None]:
    def set_up(pages: list[PageRecord]) -> None:
        def read_pages(path: Path, choices: object, *, observer: object = None) -> Iterator[PageRecord | OctavoError]:
            yield from pages

        monkeypatch.setattr(reading, "read_pages", read_pages)

    return set_up


Play = Callable[[list[PageRecord]], None]


def test_table_leaves_thresholds_and_findings(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    play([make_record(page=1, pages=2), make_record("ask", page=2, pages=2)])
    assert main(["read", "a.pdf", "--table", str(tmp_path / "out.csv")]) == 1
    with (tmp_path / "out.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert [(row["page"], row["level_db_hl"], row["standing"]) for row in rows] == [
        ("1", "35", "sure"),
        ("2", "35", "ask"),
    ]
    assert "average,0.5-1-2" in (tmp_path / "out-findings.csv").read_text()


def test_the_findings_are_by_the_scheme_that_was_asked_for(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    values = tuple(t for hz in (500, 1000, 2000, 4000) for t in make_record().audiograms[0].thresholds)
    play([make_record(thresholds=values)])
    main(["read", "a.pdf", "--table", str(tmp_path / "out.csv"), "--scheme", "who-2021"])
    assert "WHO 2021" in (tmp_path / "out-findings.csv").read_text()


def test_a_run_without_a_value_leaves_head_lines(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    play([make_record(empty=True)])
    assert main(["read", "a.pdf", "--table", str(tmp_path / "out.csv")]) == 2
    assert len((tmp_path / "out.csv").read_text().splitlines()) == 1


def test_redraw_leaves_a_pdf_with_a_page_for_each_page_that_has_values(
    play: Play, make_record: MakeRecord, tmp_path: Path
) -> None:
    play([make_record(page=1, pages=3), make_record(page=2, pages=3, empty=True), make_record(page=3, pages=3)])
    assert main(["read", "a.pdf", "--redraw", str(tmp_path / "out.pdf")]) == 0
    document = pypdfium2.PdfDocument(tmp_path / "out.pdf")
    try:
        assert len(document) == 2
    finally:
        document.close()


def test_redraw_numbers_further_svg_files(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    play([make_record(page=1, pages=2), make_record(page=2, pages=2)])
    main(["read", "a.pdf", "--redraw", str(tmp_path / "out.svg")])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out-2.svg", "out.svg"]
    assert "page 2 of 2" in (tmp_path / "out-2.svg").read_text("utf-8")


def test_the_chart_speaks_the_language_that_was_asked_for(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    play([make_record()])
    assert main(["read", "a.pdf", "--json", "--redraw", str(tmp_path / "out.svg"), "--words", "es"]) == 0
    assert "oído derecho" in (tmp_path / "out.svg").read_text("utf-8")


def test_nothing_to_draw_is_said_and_leaves_no_file(
    play: Play, make_record: MakeRecord, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    play([make_record(empty=True)])
    assert main(["read", "a.pdf", "--redraw", str(tmp_path / "out.pdf")]) == 2
    assert "nothing was drawn" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("option", "name", "code", "message"),
    [
        ("--table", "out.xls", 64, "does not say what is to be written. Name a file that ends in .csv or .parquet."),
        ("--redraw", "out.png", 64, "Name a file that ends in .pdf or .svg."),
        ("--table", "none/out.csv", 73, "the folder for this file does not exist. Make the folder first."),
    ],
)
def test_what_cannot_be_written_is_said_before_anything_is_read(
    option: str, name: str, code: int, message: str, play: Play, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    play([])
    assert main(["read", "a.pdf", option, str(tmp_path / name)]) == code
    said = capsys.readouterr()
    assert message in said.err
    assert said.out == ""


def test_parquet_without_pyarrow_is_said_before_anything_is_read(
    play: Play, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    play([])
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    assert main(["read", "a.pdf", "--table", str(tmp_path / "out.parquet")]) == 69
    assert "pyarrow" in capsys.readouterr().err


def test_parquet_files_are_left_beside_each_other(play: Play, make_record: MakeRecord, tmp_path: Path) -> None:
    play([make_record()])
    main(["read", "a.pdf", "--table", str(tmp_path / "out.parquet")])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out-findings.parquet", "out.parquet"]
