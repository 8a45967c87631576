"""``octavo read``: what it prints and how it ends, with the reading itself played by a stand-in."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np
import pytest

from octavo.interpret.errors import (
    CannotWrite,
    InternalFault,
    LockedFile,
    MissingFile,
    MissingProgram,
    OctavoError,
    PageGivenUp,
    UnreadableFile,
)
from octavo.interpret.record import PageRecord
from octavo.interpret.settings import Settings
from octavo.tools import reading
from octavo.tools.command import main

Play = Callable[[dict[str, list[PageRecord | OctavoError]]], None]
MakeRecord = Callable[..., PageRecord]


@pytest.fixture
def play(monkeypatch: pytest.MonkeyPatch) -> Play:
    """Give a function that sets what each file name gives; an error as the last thing ends its file."""

    def set_up(files: dict[str, list[PageRecord | OctavoError]]) -> None:
        def read_pages(path: Path, choices: object, *, observer: object = None) -> Iterator[PageRecord | OctavoError]:
            *pages, last = files[path.name]
            yield from pages
            if isinstance(last, OctavoError):
                raise last
            yield last

        monkeypatch.setattr(reading, "read_pages", read_pages)

    return set_up


def test_all_sure_exits_0(play: Play, make_record: MakeRecord) -> None:
    play({"a.pdf": [make_record("sure")]})
    assert main(["read", "a.pdf"]) == 0


def test_one_value_to_ask_exits_1(play: Play, make_record: MakeRecord) -> None:
    play({"a.pdf": [make_record("sure", pages=2), make_record("ask", page=2, pages=2)]})
    assert main(["read", "a.pdf"]) == 1


def test_no_audiogram_exits_2(play: Play, make_record: MakeRecord) -> None:
    play({"letter.pdf": [make_record("sure", empty=True)]})
    assert main(["read", "letter.pdf"]) == 2


def test_an_audiogram_behind_a_cover_page_exits_0(play: Play, make_record: MakeRecord) -> None:
    play({"fax.tif": [make_record("sure", empty=True, pages=2), make_record("sure", page=2, pages=2)]})
    assert main(["read", "fax.tif"]) == 0


def test_a_page_that_asks_without_an_audiogram_exits_1_since_it_may_hold_one(
    play: Play, make_record: MakeRecord
) -> None:
    play({"dark.png": [make_record("ask", empty=True)]})
    assert main(["read", "dark.png"]) == 1


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (UnreadableFile("the image is cut short", "Scan it again"), 65),
        (LockedFile("it is locked", "Unlock it"), 65),
        (PageGivenUp("it takes too long", "Scan it again"), 65),
        (MissingFile("there is no such file", "Check the name"), 66),
        (MissingProgram("Tesseract is missing", "Install it"), 69),
        (InternalFault("octavo failed here (KeyError)", "Report this"), 70),
        (CannotWrite("the picture cannot be written", "Free some space"), 73),
    ],
)
def test_each_error_ends_with_its_own_code_and_its_own_line(
    error: OctavoError, code: int, play: Play, capsys: pytest.CaptureFixture[str]
) -> None:
    play({"a.pdf": [error.at(file="a.pdf")]})
    assert main(["read", "a.pdf"]) == code
    assert capsys.readouterr() == ("", f"octavo: a.pdf: {error.what}. {error.do}.\n")


def test_other_files_are_read_after_an_error_and_the_highest_code_is_given(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    play(
        {
            "a.pdf": [MissingFile("there is no such file", "Check the name", file="a.pdf")],
            "b.pdf": [UnreadableFile("it is damaged", "Scan it again", file="b.pdf")],
            "c.pdf": [make_record("ask", name="c.pdf")],
        }
    )
    assert main(["read", "--json", "a.pdf", "b.pdf", "c.pdf"]) == 66
    out, err = capsys.readouterr()
    assert json.loads(out)["source"]["name"] == "c.pdf"
    assert err.splitlines() == [
        "octavo: a.pdf: there is no such file. Check the name.",
        "octavo: b.pdf: it is damaged. Scan it again.",
    ]


def test_a_page_that_fails_does_not_hide_the_page_after_it(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    fault = InternalFault("octavo failed here (ValueError)", "Report this", file="a.pdf", page=1)
    play({"a.pdf": [fault, make_record(page=2, pages=2)]})
    assert main(["read", "--json", "a.pdf"]) == 70
    out, err = capsys.readouterr()
    assert json.loads(out)["source"]["page"] == 2
    assert err == "octavo: a.pdf, page 1: octavo failed here (ValueError). Report this.\n"


def test_a_page_that_cannot_be_worded_costs_that_page_alone(
    play: Play, make_record: MakeRecord, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def with_findings(record: PageRecord, settings: Settings) -> PageRecord:
        if record.source.page == 1:
            raise ZeroDivisionError
        return record

    monkeypatch.setattr("octavo.interpret.findings.with_findings", with_findings)
    play({"a.pdf": [make_record(page=1, pages=2), make_record(page=2, pages=2)]})
    assert main(["read", "--json", "a.pdf"]) == 70
    out, err = capsys.readouterr()
    assert json.loads(out)["source"]["page"] == 2
    assert err == "octavo: a.pdf, page 1: octavo failed to word this page (ZeroDivisionError). Report this.\n"


def test_json_is_one_valid_record_a_line_in_page_order(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    play({"a.pdf": [make_record(page=n, pages=3) for n in (1, 2, 3)]})
    main(["read", "--json", "a.pdf"])
    lines = capsys.readouterr().out.splitlines()
    assert [json.loads(line)["source"]["page"] for line in lines] == [1, 2, 3]


def test_each_page_is_out_before_the_next_is_read(
    monkeypatch: pytest.MonkeyPatch, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    def read_pages(path: Path, choices: object, *, observer: object = None) -> Iterator[PageRecord]:
        yield make_record(page=1, pages=2)
        assert capsys.readouterr().out.count("\n") == 1
        yield make_record(page=2, pages=2)

    monkeypatch.setattr(reading, "read_pages", read_pages)
    assert main(["read", "--json", "a.pdf"]) == 0


def test_the_summary_carries_levels_and_the_caution(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    play({"a.pdf": [make_record("sure")]})
    main(["read", "a.pdf"])
    shown = capsys.readouterr().out
    assert "35" in shown
    assert "not a diagnosis" in " ".join(shown.split())


def test_a_value_to_ask_looks_otherwise_in_the_summary_than_a_sure_one(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    shown = []
    for standing in ("sure", "ask"):
        play({"a.pdf": [make_record(standing)]})
        main(["read", "a.pdf"])
        shown.append([line for line in capsys.readouterr().out.splitlines() if "35" in line])
    assert shown[0] != shown[1]


def test_the_scheme_asked_for_is_the_one_named_in_the_summary(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    play({"a.pdf": [make_record("sure")]})
    main(["read", "--scheme", "who-2021", "a.pdf"])
    assert "WHO 2021" in capsys.readouterr().out


def test_the_symbol_set_asked_for_reaches_the_reader(monkeypatch: pytest.MonkeyPatch, make_record: MakeRecord) -> None:
    seen = []

    def read_pages(path: Path, choices: object, *, observer: object = None) -> Iterator[PageRecord]:
        seen.append(choices)
        yield make_record()

    monkeypatch.setattr(reading, "read_pages", read_pages)
    main(["read", "--symbols", "bsa-2018", "a.pdf"])
    assert [choices.symbols for choices in seen] == ["bsa-2018"]


def test_what_is_asked_of_the_text_reaches_the_reader(monkeypatch: pytest.MonkeyPatch, make_record: MakeRecord) -> None:
    seen = []

    def read_pages(path: Path, choices: object, *, observer: object = None) -> Iterator[PageRecord]:
        seen.append(choices)
        yield make_record()

    monkeypatch.setattr(reading, "read_pages", read_pages)
    main(["read", "a.pdf"])
    main(["read", "--charts-only", "a.pdf"])
    main(["read", "--languages", "eng", "a.pdf"])
    assert [(choices.report, choices.languages) for choices in seen] == [
        (True, ("eng",)), (False, ("eng",)), (True, ("eng",)),
    ]  # fmt: skip


def test_a_language_without_data_exits_69_in_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "--languages", "eng,xxx", "a.pdf"]) == 69
    assert capsys.readouterr().err.count("\n") == 1
    assert main(["read", "--languages", "../x", "a.pdf"]) == 64


def test_no_bar_is_drawn_where_standard_error_is_no_terminal(
    play: Play, make_record: MakeRecord, capsys: pytest.CaptureFixture[str]
) -> None:
    play({"a.pdf": [make_record(page=n, pages=9) for n in range(1, 10)]})
    main(["read", "--json", "a.pdf"])
    assert capsys.readouterr().err == ""


def test_a_folder_for_pictures_that_cannot_be_made_exits_73(
    play: Play, make_record: MakeRecord, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "taken").write_text("a file, no folder")
    play({"a.pdf": [make_record()]})
    assert main(["read", "a.pdf", "--show-work", str(tmp_path / "taken")]) == 73
    assert "the folder for the pictures cannot be made" in capsys.readouterr().err


@pytest.mark.parametrize("package", ["cv2", "onnxruntime"])
def test_a_package_that_cannot_be_loaded_exits_69_and_names_it(package: str, tmp_path: Path) -> None:
    picture = tmp_path / "page.png"
    picture.write_bytes(cv2.imencode(".png", np.full((400, 400), 255, np.uint8))[1].tobytes())
    code = f"import sys; sys.modules[{package!r}] = None; from octavo.tools.command import main; sys.exit(main())"
    done = subprocess.run([sys.executable, "-c", code, "read", picture], capture_output=True, text=True, check=False)
    assert done.returncode == 69
    assert done.stderr.startswith(f"octavo: {picture}: a package that octavo needs cannot be loaded (")
    assert package in done.stderr
    assert done.stderr.count("\n") == 1


def test_what_cannot_carry_every_letter_is_given_ascii_alone(
    play: Play, make_record: MakeRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The command makes a file UTF-8; an output that keeps an encoding of its own is one that is no text file.
    class Narrow(io.StringIO):
        encoding = "ascii"

    out = Narrow()
    monkeypatch.setattr(sys, "stdout", out)
    play({"a.pdf": [make_record(name="höre.pdf")]})
    assert main(["read", "a.pdf"]) == 0
    assert out.getvalue().isascii()
    assert "h\\xf6re.pdf" in out.getvalue()
