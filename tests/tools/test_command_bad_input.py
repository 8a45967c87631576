"""``octavo read`` on what is no page, with the real intake: one line each, the right exit code, no traceback."""

from __future__ import annotations

import os
from pathlib import Path

import cv2
import numpy as np
import pytest

from octavo.tools.command import main


def jpeg() -> bytes:
    noise = np.random.default_rng(1).integers(0, 255, (300, 300, 3), np.uint8)
    return cv2.imencode(".jpg", noise)[1].tobytes()


BAD = {
    "empty.pdf": b"",
    "text.pdf": b"Dear colleague, please find the hearing test enclosed.\n" * 20,
    "html.pdf": b"<!DOCTYPE html><html><body>not found</body></html>",
    "zip.png": b"PK\x03\x04" + bytes(400),
    "head.pdf": b"%PDF-1.7\n",
    "cut.jpg": jpeg()[:5000],
    "signature.png": b"\x89PNG\r\n\x1a\n",
    "noise.tif": b"II*\x00" + bytes(range(256)),
    "heic.jpg": b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + bytes(200),
}


@pytest.mark.parametrize("name", BAD)
def test_what_is_no_page_is_told_in_one_line_and_exits_65(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / name
    path.write_bytes(BAD[name])
    assert main(["read", str(path)]) == 65
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"octavo: {path}: ")
    assert err.count("\n") == 1
    assert "Traceback" not in err


def test_all_bad_files_are_named_one_after_the_other(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name, data in BAD.items():
        (tmp_path / name).write_bytes(data)
    assert main(["read", str(tmp_path)]) == 65
    lines = capsys.readouterr().err.splitlines()
    assert [line.split(": ")[1] for line in lines] == [str(tmp_path / name) for name in sorted(BAD)]


ABSENT = ["absent.pdf", "absent/page.pdf", "x" * 300 + ".pdf", "-x.pdf", " .pdf", "日本-ä-🙂.pdf"]


@pytest.mark.parametrize("name", ABSENT)
def test_a_file_that_is_not_there_exits_66(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["read", "--", name]) == 66
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"octavo: {name}: ")
    assert err.count("\n") == 1


def test_a_pipe_in_the_file_system_is_refused_and_not_waited_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    os.mkfifo(tmp_path / "pipe.pdf")
    assert main(["read", str(tmp_path / "pipe.pdf")]) in (65, 66)
    assert capsys.readouterr().err.count("\n") == 1


def test_a_folder_without_pages_exits_66(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", str(tmp_path)]) == 66
    assert "the folder holds no PDF" in capsys.readouterr().err
