"""Files: what they are is told by their bytes; whatever cannot be read is one sentence that names the file."""

from __future__ import annotations

import io
import os
import threading
import time
import zipfile
from pathlib import Path

import numpy as np
import pytest
from handmade import chart_like, encoded, only_page, opened, pdf
from PIL import Image

from octavo.extract.intake import pages, stored
from octavo.extract.intake.kind import kind_of
from octavo.extract.page import Page
from octavo.interpret.errors import MissingFile, MisuseError, OctavoError, OversizeFile, UnreadableFile

PNG = encoded(Image.fromarray(chart_like()), "PNG")


def archive() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("word/document.xml", "<w/>")
    return out.getvalue()


@pytest.mark.parametrize("form", ["PNG", "JPEG", "TIFF", "WEBP", "BMP", "GIF"])
def test_a_picture_is_known_by_its_bytes_whatever_its_name(form: str, tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(Image.fromarray(chart_like()), form), "page.pdf")
    assert page.pixels.shape == chart_like().shape


def test_a_pdf_is_known_by_its_bytes_whatever_its_name(tmp_path: Path) -> None:
    assert only_page(tmp_path, pdf(), "page.jpg").source.taken_by == "drawn"


def test_a_pdf_with_other_bytes_before_its_header_is_read(tmp_path: Path) -> None:
    page = only_page(tmp_path, b"junk of a mail program\r\n" * 20 + pdf(b"100 100 m 300 100 l S"))
    assert page.pixels.min() < 255


@pytest.mark.parametrize(("data", "name"), [
    (b"", "the file is empty"),
    (b"Dear patient, your hearing", "not a page: this is a text file"),
    (archive(), "not a page: this is a ZIP archive or an office document"),
    (b"<!DOCTYPE html><html></html>", "not a page: this is a web page"),
    (b"<?xml version='1.0'?><svg xmlns='http://www.w3.org/2000/svg'/>", "not a page: this is an SVG drawing"),
    (b"\0\0\0\x18ftypheic\0\0\0\0heicmif1", "not a page: this is a HEIC or AVIF photo"),
    (b"\0\0\0\x18ftypmp42\0\0\0\0", "not a page: this is a film"),
    (b"\0" * 128 + b"DICM", "not a page: this is a DICOM object"),
    (b"\0\0\0\x0cjP  \r\n\x87\n", "not a page: this is a JPEG 2000 picture"),
    (b"%!PS-Adobe-3.0", "not a page: this is a PostScript file"),
    (b"{\\rtf1", "not a page: this is a text document"),
    (bytes(range(250, 0, -1)), "not a page: this is a file of an unknown kind"),
])  # fmt: skip
def test_what_is_no_page_is_refused_by_name(data: bytes, name: str, tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile) as caught:
        opened(tmp_path, data, "report.pdf")
    assert str(caught.value).startswith(f"{tmp_path}/report.pdf: {name}. ")
    assert caught.value.exit_code == 65


def test_a_refused_kind_says_what_to_save_it_as() -> None:
    with pytest.raises(UnreadableFile, match=r"a text file\. Save it as PDF, PNG or JPEG and give that file\."):
        kind_of(b"words")


@pytest.mark.parametrize("name", [
    "Hörtest.png", "聴力検査.png", "ear 👂.png", "two  spaces.png", "-leading.png", "x" * 250 + ".png", "quote\"'.png",
    "a%20b.png",
])  # fmt: skip
def test_names_with_any_characters_are_read(name: str, tmp_path: Path) -> None:
    assert only_page(tmp_path, PNG, name).source.name == name


def test_names_that_no_terminal_shows_are_read_and_shown_in_one_line(tmp_path: Path) -> None:
    for name, as_shown in ((b"broken\xff.png", "broken\\udcff.png"), (b"two\nlines\x1b.png", "two\\nlines\\x1b.png")):
        path = os.fsencode(tmp_path) + b"/" + name
        Path(os.fsdecode(path)).write_bytes(PNG)
        (page,) = pages(os.fsdecode(path))
        assert isinstance(page, Page)
        assert page.source.name == as_shown
        Path(os.fsdecode(path)).write_bytes(b"no picture")
        with pytest.raises(UnreadableFile) as caught:
            list(pages(os.fsdecode(path)))
        assert as_shown in str(caught.value)
        assert "\n" not in str(caught.value)
        str(caught.value).encode("utf-8")


@pytest.mark.parametrize("name", ["gone.png", "x" * 300, "zero\0byte.png", "", "no/such/folder/page.png"])
def test_a_file_that_is_not_there_is_missing(name: str, tmp_path: Path) -> None:
    with pytest.raises(
        MissingFile, match=r"(there is no such file|the name is too long)\. Check the name\.$"
    ) as caught:
        list(pages(f"{tmp_path}/{name}" if name else ""))
    assert caught.value.exit_code == 66


def test_a_link_that_points_to_itself_is_missing(tmp_path: Path) -> None:
    (tmp_path / "loop.png").symlink_to(tmp_path / "loop.png")
    with pytest.raises(MissingFile, match="the link points to itself"):
        list(pages(tmp_path / "loop.png"))


def test_a_link_to_a_page_is_read(tmp_path: Path) -> None:
    (tmp_path / "real.png").write_bytes(PNG)
    (tmp_path / "link.png").symlink_to(tmp_path / "real.png")
    (page,) = pages(tmp_path / "link.png")
    assert isinstance(page, Page)
    assert page.source.name == "link.png"


def test_a_file_that_may_not_be_read_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "page.png").write_bytes(PNG)

    def refuse(*args: object) -> bytes:
        raise PermissionError(13, "Permission denied")  # as the system does; a test that runs as root is never refused

    monkeypatch.setattr(stored, "_read_still", refuse)
    with pytest.raises(MissingFile, match=r"page\.png: you may not read this file\. Ask for the right to read it\."):
        list(pages(tmp_path / "page.png"))


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"this is a folder, not a file\. Give the name of a file\."):
        list(pages(tmp_path))


def test_a_pipe_is_never_opened(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(UnreadableFile, match="this is a pipe, a device or a socket"):
        list(pages(tmp_path / "pipe"))  # opening it would wait for a writer for ever


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_a_device_is_never_opened(device: str) -> None:
    with pytest.raises(UnreadableFile, match="this is a pipe, a device or a socket"):
        list(pages(device))


def test_the_standard_input_is_not_offered() -> None:
    with pytest.raises(
        MisuseError, match=r"^-: a page cannot be read from the standard input\. Give the name of a file\.$"
    ):
        list(pages("-"))


def test_a_file_beyond_the_limit_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stored, "FILE_BYTES", 1_000_000)
    with (tmp_path / "large.tif").open("wb") as file:
        file.truncate(1_000_001)
    with pytest.raises(OversizeFile, match=r"more than 1 million bytes\. Split it into smaller ones\."):
        list(pages(tmp_path / "large.tif"))


def test_a_file_that_grows_is_waited_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "page.png"
    path.write_bytes(PNG[:100])
    real, looks = os.fstat, []

    def grow(descriptor: int) -> os.stat_result:
        looks.append(descriptor)
        if len(looks) == 2:  # between the reading and the second look
            path.write_bytes(PNG)
        return real(descriptor)

    monkeypatch.setattr(stored.os, "fstat", grow)
    (page,) = pages(path)
    assert isinstance(page, Page)
    np.testing.assert_array_equal(page.pixels, chart_like())
    assert len(looks) == 4


def test_a_file_that_never_stops_growing_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "page.png"
    path.write_bytes(PNG)
    monkeypatch.setattr(stored, "STILL_SECONDS", 0.5)
    stop = threading.Event()

    def scanner() -> None:
        while not stop.wait(0.001):
            os.utime(path, ns=(time.time_ns(), time.time_ns()))

    writer = threading.Thread(target=scanner)
    real = os.fstat
    monkeypatch.setattr(stored.os, "fstat", lambda descriptor: (time.sleep(0.02), real(descriptor))[1])
    writer.start()
    try:
        with pytest.raises(UnreadableFile, match=r"still being written\. Try again when it is complete\."):
            list(pages(path))
    finally:
        stop.set()
        writer.join()


def test_every_error_is_one_line_and_ends_in_what_to_do(tmp_path: Path) -> None:
    for data in (
        b"",
        b"text",
        b"%PDF-1.7",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff\xe0",
        b"II*\0",
        b"BM",
        b"GIF89a",
        PNG[:500],
    ):
        with pytest.raises(OctavoError) as caught:
            opened(tmp_path, data)
        text = str(caught.value)
        assert text.startswith(f"{tmp_path}/page: ")
        assert text.count("\n") == 0
        assert text.endswith(".")
        assert text.count(". ") == 1
