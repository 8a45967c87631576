"""``octavo blank``: what it writes, what it refuses, and that nothing is half written."""

from __future__ import annotations

import os
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from octavo.extract.blank import BlankedPage, Doubt
from octavo.tools.blanking import whole as blanking
from octavo.tools.command import main
from octavo.tools.painter import paint, render

SAMPLES = Path(__file__).parents[2] / "sample_charts"


def page_file(folder: Path, pages: int = 1) -> str:
    path = folder / "brandt-kira.tif"
    pictures = [Image.fromarray(np.asarray(render(paint("fact-words", 11).pdf, 100))) for _ in range(pages)]
    exif = Image.Exif()
    exif[0x010E] = "Kira Brandt"
    pictures[0].save(path, save_all=True, append_images=pictures[1:], dpi=(100, 100), exif=exif)
    return str(path)


@pytest.fixture
def covered(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Doubt, ...]]:
    """Stand in for the covering of pages, which has its own tests: each page becomes black, with these doubts."""
    doubts: list[tuple[Doubt, ...]] = []

    def blank_page(page, *_):
        mask = np.ones(page.pixels.shape[:2], bool)
        return BlankedPage(np.zeros_like(page.pixels), mask, page.dpi, doubts.pop(0) if doubts else ())

    monkeypatch.setattr(blanking, "blank_page", blank_page)
    return doubts


def blank(*arguments: str | Path) -> int:
    return main(["blank", *map(str, arguments)])


def test_a_whole_page_is_blanked_from_end_to_end(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out.pdf"
    assert blank(SAMPLES / "drawn-letter.pdf", "-o", out) == 0
    assert "1 page" in capsys.readouterr().out
    shown = np.asarray(pypdfium2.PdfDocument(out)[0].render(scale=1).to_pil())
    assert 0.05 < (shown < 10).mean() < 0.5
    assert not pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()


@pytest.mark.parametrize("ending", [".pdf", ".tif"])
def test_all_pages_go_into_one_file(
    ending: str, tmp_path: Path, covered: list[tuple[Doubt, ...]], capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / f"out{ending}"
    assert blank(page_file(tmp_path, 3), "-o", out) == 0
    assert b"Kira" not in out.read_bytes()
    assert "3 pages, 100% blacked out" in capsys.readouterr().out


def test_pages_of_a_file_become_several_pictures(tmp_path: Path, covered: list[tuple[Doubt, ...]]) -> None:
    assert blank(page_file(tmp_path, 2), "-o", tmp_path / "out.png") == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["brandt-kira.tif", "out-2.png", "out.png"]


def test_one_page_in_doubt_refuses_the_file_names_the_place_and_writes_nothing(
    tmp_path: Path, covered: list[tuple[Doubt, ...]], capsys: pytest.CaptureFixture[str]
) -> None:
    covered += [(), (Doubt("something like handwriting in a chart", (0.101, 0.2, 0.299, 0.25)),)]
    out = tmp_path / "out.pdf"
    out.write_bytes(b"as it was")
    assert blank(page_file(tmp_path, 2), "-o", out) == 1
    told = capsys.readouterr()
    assert "page 2: something like handwriting in a chart, at 10,20,30,26 percent of the page" in told.err
    assert "nothing was written. Look at the places named" in told.err
    assert told.out == ""
    assert out.read_bytes() == b"as it was"
    assert len(list(tmp_path.iterdir())) == 2


def test_an_existing_file_is_replaced_whole(tmp_path: Path, covered: list[tuple[Doubt, ...]]) -> None:
    out = tmp_path / "out.pdf"
    out.write_bytes(b"old" * 1_000_000)
    assert blank(page_file(tmp_path), "-o", out) == 0
    assert out.read_bytes().startswith(b"%PDF-")
    assert b"old" not in out.read_bytes()


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["{file}", "-o", "out.txt"], 64, "does not say what is to be written"),
        (["{file}", "-o", "{file}"], 64, "the file to write is the file to read"),
        (["{folder}", "-o", "out.pdf"], 64, "one file at a time"),
        (["{file}", "-o", "{folder}/none/out.pdf"], 73, "the folder for this file does not exist"),
        (["{folder}/none.pdf", "-o", "{folder}/out.pdf"], 66, "there is no such file"),
        (["{file}"], 64, "the following arguments are required: -o/--out"),
        (["{file}", "-o", "{folder}/out.pdf", "--also", "1:5,5,4,9"], 64, "'1:5,5,4,9' is no area of a page"),
        (["{file}", "-o", "{folder}/out.pdf", "--also", "0:1,1,2,2"], 64, "is no area of a page"),
        (["{file}", "-o", "{folder}/out.pdf", "--also", "all"], 64, "'all' is no area of a page"),
    ],
)
def test_bad_calls_end_with_one_sentence(
    arguments: list[str], code: int, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = page_file(tmp_path)
    before = Path(file).read_bytes()
    assert blank(*(one.format(file=file, folder=tmp_path) for one in arguments)) == code
    error = capsys.readouterr().err
    assert said in error
    assert error.count("\n") == 1
    assert Path(file).read_bytes() == before
    assert len(list(tmp_path.iterdir())) == 1


def test_a_read_only_folder_is_told_before_the_work(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    file = page_file(tmp_path)
    target = tmp_path / "shut"
    target.mkdir(mode=0o500)
    # to root the system says that any folder takes files; the folder's own mode is what others are told
    monkeypatch.setattr(os, "access", lambda path, _: bool(Path(path).stat().st_mode & 0o200))
    assert blank(file, "-o", target / "out.pdf") == 73
    assert "the folder does not take new files" in capsys.readouterr().err


def test_a_folder_in_the_place_of_the_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "out.pdf").mkdir()
    assert blank(page_file(tmp_path), "-o", tmp_path / "out.pdf") == 73


def test_a_page_that_cannot_be_read_refuses_the_whole_file(tmp_path: Path, covered: list[tuple[Doubt, ...]]) -> None:
    cut = tmp_path / "cut.tif"
    whole = Path(page_file(tmp_path, 3)).read_bytes()
    cut.write_bytes(whole[: len(whole) // 2])
    assert blank(cut, "-o", tmp_path / "out.pdf") == 65
    assert not (tmp_path / "out.pdf").exists()


def test_a_full_disk_leaves_nothing_half_written(
    tmp_path: Path, covered: list[tuple[Doubt, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    file = page_file(tmp_path)
    monkeypatch.setattr(os, "fsync", full)
    assert blank(file, "-o", tmp_path / "out.pdf") == 73
    assert [path.name for path in tmp_path.iterdir()] == ["brandt-kira.tif"]


def test_areas_that_a_person_names_are_handed_to_their_page(
    tmp_path: Path, covered: list[tuple[Doubt, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = []
    stand_in = blanking.blank_page

    def note(page, sheet, charts, choices, told):
        seen.append(told.also)
        return stand_in(page, sheet, charts, choices, told)

    monkeypatch.setattr(blanking, "blank_page", note)
    assert blank(page_file(tmp_path, 2), "-o", tmp_path / "o.pdf", "--also", "2:10,20,30.5,40") == 0
    assert seen == [(), ((0.1, 0.2, 0.305, 0.4),)]
