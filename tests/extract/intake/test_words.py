"""Tesseract: what it reads, and what happens when it is missing, hangs, dies or talks rubbish."""

from __future__ import annotations

import os
import stat
import sys
import time
from pathlib import Path

import cv2
import numpy as np
import pytest

from octavo.extract.intake import words as module
from octavo.extract.intake.words import read_strip, require_languages
from octavo.interpret.errors import MissingProgram


def strip(*labels: str) -> np.ndarray:
    pixels = np.full((60, 160 * len(labels), 3), 255, np.uint8)
    for i, label in enumerate(labels):
        cv2.putText(pixels, label, (20 + 160 * i, 44), cv2.FONT_HERSHEY_SIMPLEX, 1.2, (0, 0, 0), 3, cv2.LINE_AA)
    return pixels


def play(folder: Path, monkeypatch: pytest.MonkeyPatch, script: str) -> None:
    """Put a program of our own in Tesseract's place."""
    program = folder / "tesseract"
    program.write_text(f"#!{sys.executable}\nimport os, sys, time\n{script}\n")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    monkeypatch.setattr(module.pytesseract.pytesseract, "tesseract_cmd", str(program))


def test_labels_of_a_strip_are_read_where_they_stand() -> None:
    words = read_strip(strip("250", "1000", "4000"), whitelist="0123456789", psm=7)
    assert words is not None
    assert [word.text for word in words] == ["250", "1000", "4000"]
    for i, word in enumerate(words):
        left, top, right, bottom = word.box
        assert 160 * i < left < right < 160 * (i + 1)
        assert 5 < top < bottom < 55
        assert 0.5 < word.confidence <= 1


def test_words_anywhere_on_a_page_are_read() -> None:
    page = np.full((600, 800, 3), 255, np.uint8)
    page[100:160, 100:260] = strip("500")
    page[400:460, 500:660] = strip("8000")
    words = read_strip(page)
    assert words is not None
    assert {word.text for word in words} >= {"500", "8000"}


def test_a_grey_picture_is_read_as_well() -> None:
    words = read_strip(np.ascontiguousarray(strip("2000")[:, :, 0]), psm=7)
    assert [word.text for word in words or ()] == ["2000"]


def test_a_blank_picture_has_no_words() -> None:
    assert read_strip(np.full((60, 200, 3), 255, np.uint8)) == ()
    assert read_strip(np.full((1, 1, 3), 255, np.uint8)) == ()


def test_a_picture_beyond_the_limit_is_reduced_and_its_boxes_given_in_its_own_pixels(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(module, "OCR_SIDE_PX", 240)
    words = read_strip(strip("250", "1000", "4000"), psm=7)
    assert words is not None
    last = words[-1]
    assert 300 < last.box[0] < last.box[2] < 480


def test_one_thread_is_asked_for_and_the_environment_left_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = tmp_path / "said"
    play(tmp_path, monkeypatch, f"open({str(said)!r}, 'w').write(os.environ.get('OMP_THREAD_LIMIT', ''))")
    for before in ("7", None):
        said.unlink(missing_ok=True)
        if before is None:
            monkeypatch.delenv("OMP_THREAD_LIMIT", raising=False)
        else:
            monkeypatch.setenv("OMP_THREAD_LIMIT", before)
        read_strip(strip("250"))
        assert said.read_text() == "1"
        assert os.environ.get("OMP_THREAD_LIMIT") == before


def test_without_the_program_it_says_how_to_install_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module.pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    with pytest.raises(MissingProgram, match=r"Tesseract is not installed\. Install Tesseract 4 or later") as caught:
        read_strip(strip("250"))
    assert caught.value.exit_code == 69


def test_without_english_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TESSDATA_PREFIX", str(tmp_path))
    with pytest.raises(MissingProgram, match=r"Tesseract has no English data\. Install"):
        read_strip(strip("250"))


def test_without_a_language_asked_for_it_names_it_and_its_package() -> None:
    with pytest.raises(MissingProgram, match=r"no data for 'xxx'\. Install it .*tesseract-ocr-xxx\), or leave out"):
        require_languages(("eng", "xxx"))
    require_languages(("eng",))


def test_a_program_that_hangs_is_ended_and_gives_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play(tmp_path, monkeypatch, f"open({str(tmp_path / 'pid')!r}, 'w').write(str(os.getpid())); time.sleep(60)")
    monkeypatch.setattr(module, "OCR_SECONDS", 1)
    start = time.monotonic()
    assert read_strip(strip("250")) is None
    assert time.monotonic() - start < 6
    with pytest.raises(ProcessLookupError):
        os.kill(int((tmp_path / "pid").read_text()), 0)


@pytest.mark.parametrize("script", [
    "os.kill(os.getpid(), 9)",
    "sys.exit(1)",
    "sys.stderr.buffer.write(bytes([255, 254])); sys.exit(1)",
    "pass",
    "open(sys.argv[2] + '.tsv', 'w').write('')",
    "open(sys.argv[2] + '.tsv', 'w').write('level\\tconf\\n1')",
    "open(sys.argv[2] + '.tsv', 'wb').write(bytes(range(256)) * 9)",
    "open(sys.argv[2] + '.tsv', 'w').write('head\n' + '\t'.join('5 1 1 1 1 1 x y z w v 500'.split()))",
])  # fmt: skip
def test_a_program_that_dies_or_talks_rubbish_gives_no_word(
    script: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    play(tmp_path, monkeypatch, script)
    assert not read_strip(strip("250"))


def test_characters_that_a_shell_would_take_may_be_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = tmp_path / "said"
    play(tmp_path, monkeypatch, f"open({str(said)!r}, 'w').write(repr(sys.argv))")
    read_strip(strip("250"), whitelist="-0123 '\"$")
    assert repr("tessedit_char_whitelist=-0123 '\"$") in said.read_text()


def test_without_a_folder_for_temporary_files_it_gives_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "gone"))
    assert read_strip(strip("250")) is None


def test_nothing_is_left_in_the_folder_for_temporary_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    read_strip(strip("250"))
    assert list(tmp_path.iterdir()) == []
