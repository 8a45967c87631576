"""``octavo compare``: files in, changes out, exit codes, the plot."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from octavo.interpret.exports.as_json import to_json_line
from octavo.interpret.record import Audiogram, PageRecord, Report, Source, Standing, Threshold
from octavo.tools.command import main

HZ = (500, 1000, 2000, 3000, 4000, 6000)


def sheet(date: str | None, *levels: float, standing: Standing = "sure", born: str | None = "1979-03-14") -> PageRecord:
    values = tuple(
        Threshold("right", "air", False, hz, db, standing=standing, probability=0.99)
        for hz, db in zip(HZ, levels, strict=True)
    )
    source = Source(f"harbour-lane-{date}.pdf", f"{hash(date) % 10}" * 64, 1, 1, "scan")
    return PageRecord(source, standing, (Audiogram(date, thresholds=values),), Report(born=born))


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    records = (sheet("2019-01-10", 10, 10, 10, 15, 20, 20), sheet("2021-01-10", 10, 20, 25, 30, 40, 20))
    paths = [tmp_path / f"{number}.jsonl" for number in range(2)]
    for path, record in zip(paths, records, strict=True):
        path.write_text(to_json_line(record) + "\n", "utf-8")
    return str(paths[0]), str(paths[1])


def test_two_tests_are_compared(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *files]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "Standard threshold shift, 29 CFR 1910.95: right met, 16.7 dB" in text
    assert "It is not a hearing test" in text


def test_the_order_of_the_files_does_not_matter_where_all_are_dated(
    files: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    main(["compare", *files])
    forward = capsys.readouterr().out
    main(["compare", *reversed(files)])
    assert capsys.readouterr().out == forward


def test_sex_brings_the_age_correction(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    main(["compare", "--sex", "female", *files])
    assert "appendix F" in capsys.readouterr().out


def test_json_has_one_object_for_each_later_test(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "--json", *files]) == 0
    (line,) = capsys.readouterr().out.splitlines()
    told = json.loads(line)
    assert (told["schema"], told["old"]["tested_on"], told["new"]["age_years"]) == (
        "octavo.comparison/1",
        "2019-01-10",
        41.83,
    )
    assert "standard-threshold-shift" in {one["code"] for one in told["found"]}


def test_the_words_may_be_spanish(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    main(["compare", "--words", "es", *files])
    assert "comparada con" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(("ending", "begins"), [("svg", b"<?xml"), ("pdf", b"%PDF"), ("png", b"\x89PNG")])
def test_the_plot_is_written(files: tuple[str, str], tmp_path: Path, ending: str, begins: bytes) -> None:
    place = tmp_path / f"plot.{ending}"
    assert main(["compare", *files, "--plot", str(place)]) == 0
    assert place.read_bytes().startswith(begins)


def test_the_picture_of_the_plot_has_ink(files: tuple[str, str], tmp_path: Path) -> None:
    place = tmp_path / "plot.png"
    main(["compare", *files, "--plot", str(place)])
    with Image.open(place) as picture:
        darkest, lightest = picture.convert("L").getextrema()
        assert (darkest, lightest, picture.width) == (pytest.approx(0, abs=40), 255, 1520)


def test_values_to_look_at_give_exit_code_1(files: tuple[str, str], tmp_path: Path) -> None:
    asks = tmp_path / "asks.jsonl"
    asks.write_text(to_json_line(sheet("2023-01-10", 10, 20, 25, 30, 40, 20, standing="ask")), "utf-8")
    assert main(["compare", *files, str(asks)]) == 1


def test_a_record_in_any_layout_is_taken_from_a_json_file(files: tuple[str, str], tmp_path: Path) -> None:
    laid_out = tmp_path / "laid-out.json"
    record = json.loads(to_json_line(sheet("2023-01-10", 10, 20, 25, 30, 40, 20)))
    laid_out.write_text(json.dumps(record, indent=2), "utf-8")
    assert main(["compare", files[0], str(laid_out)]) == 0


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--plot", "plot.gif"], "'plot.gif' does not say what is to be drawn"),
        (["--age", "50"], "unrecognized arguments: --age"),
        (["--json", "--words", "es"], "--json is for programs and has no words"),
    ],
)
def test_misuse_is_64(
    files: tuple[str, str], arguments: list[str], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", *files, *arguments]) == 64
    assert message in capsys.readouterr().err


def test_one_test_alone_is_misuse(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", files[0]]) == 64
    assert "1 test was found and a comparison needs two" in capsys.readouterr().err


def test_a_missing_file_is_named_and_the_others_are_compared(
    files: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", *files, str(tmp_path / "none.jsonl")]) == 66
    out, err = capsys.readouterr()
    assert "none.jsonl: the file cannot be opened" in err
    assert "Standard threshold shift" in out


@pytest.mark.parametrize(("content", "message"), [(b"{}", "lacks the field"), (b"\xff\xfe", "not UTF-8 text")])
def test_a_file_that_holds_no_record_is_65(
    files: tuple[str, str], tmp_path: Path, content: bytes, message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = tmp_path / "broken.jsonl"
    broken.write_bytes(content)
    assert main(["compare", files[0], str(broken)]) == 65
    assert message in capsys.readouterr().err


def test_pages_are_read_as_octavo_read_reads_them(
    files: tuple[str, str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    record = sheet("2022-05-05", 10, 20, 25, 30, 40, 20)

    def read_pages(path: Path, choices: object) -> Iterator[PageRecord]:
        yield replace(record, source=replace(record.source, name=str(path)))

    monkeypatch.setattr("octavo.tools.reading.read_pages", read_pages)
    assert main(["compare", files[0], "page.pdf"]) == 0
    assert "page.pdf" in capsys.readouterr().out


def test_redraw_lays_the_tests_over_each_other(files: tuple[str, str], tmp_path: Path) -> None:
    assert main(["compare", *files, "--redraw", str(tmp_path / "out.svg"), "--words", "es"]) == 0
    drawn = (tmp_path / "out.svg").read_text("utf-8")
    assert "1: prueba del 2019-01-10" in drawn
    assert "lecturas de harbour-lane-2019-01-10.pdf, harbour-lane-2021-01-10.pdf" in drawn


def test_redraw_to_an_unknown_kind_of_file_is_misuse(files: tuple[str, str], tmp_path: Path) -> None:
    assert main(["compare", *files, "--redraw", str(tmp_path / "out.png")]) == 64
