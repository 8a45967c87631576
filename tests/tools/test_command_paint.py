"""``octavo paint``: files and their truth."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import jsonschema
import pytest

from octavo.tools.command import main
from octavo.tools.painter import FAMILIES

SCHEMA = json.loads((Path(__file__).parents[2] / "interpret" / "schema.json").read_text("utf-8"))


def test_the_list_names_every_family(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["paint", "--list"]) == 0
    assert [line.split()[0] for line in capsys.readouterr().out.splitlines()] == list(FAMILIES)


@pytest.mark.parametrize(
    ("way", "suffix", "first_bytes", "taken_by"),
    [
        ("drawn", ".pdf", b"%PDF-", "drawn"),
        ("scan", ".pdf", b"%PDF-", "scan"),
        ("fax-fine", ".tif", b"II*\0", "scan"),
        ("photo", ".jpg", b"\xff\xd8\xff", "photo"),
    ],
)
def test_a_page_comes_with_its_truth_as_a_valid_record(
    way: str, suffix: str, first_bytes: bytes, taken_by: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["paint", "harbour", "--seed", "7", "--way", way, "--out", str(tmp_path / "new")]) == 0
    (path,) = map(Path, capsys.readouterr().out.splitlines())
    assert path.suffix == suffix
    data = path.read_bytes()
    assert data.startswith(first_bytes)
    (line,) = path.with_name(path.name + ".truth.jsonl").read_text("utf-8").splitlines()
    truth = json.loads(line)
    jsonschema.validate(truth, SCHEMA)
    assert truth["source"] == {
        "name": path.name,
        "sha256": hashlib.sha256(data).hexdigest(),
        "page": 1,
        "pages": 1,
        "taken_by": taken_by,
    }
    assert truth["audiograms"][0]["thresholds"]


def test_seeds_count_up_from_the_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["paint", "quay", "-n", "2", "--seed", "3", "--out", str(tmp_path)]) == 0
    assert [Path(line).name for line in capsys.readouterr().out.splitlines()] == ["quay-3.pdf", "quay-4.pdf"]


def test_an_unknown_family_is_misuse(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["paint", "martian", "--out", str(tmp_path / "new")]) == 64
    assert capsys.readouterr().err == "octavo: there is no family 'martian'. See octavo paint --list.\n"
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("words", [["-n", "-3"], ["-n", "two"], ["--seed", "1.5"]])
def test_a_number_that_is_none_is_misuse(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["paint", "harbour", *words]) == 64
    assert "is not a whole number" in capsys.readouterr().err


def test_a_folder_that_cannot_be_made_exits_73(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "taken").write_text("a file")
    assert main(["paint", "harbour", "--out", str(tmp_path / "taken")]) == 73
    assert "the page cannot be written" in capsys.readouterr().err
