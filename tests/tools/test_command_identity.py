"""``octavo read --without-identity``: nothing of the patient is in any output, and the salt is kept safe."""

from __future__ import annotations

import json
import os
import stat
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from octavo.interpret.exports.as_json import to_json_line
from octavo.interpret.record import Audiogram, Fact, PageRecord, Report, Source, Threshold
from octavo.tools.command import main

SECRETS = ("Kira", "Brandt", "1958-03-04", "HL-20413", "brandt-kira-scan", "2019-03-14", "2021-06-02", "5e5e5e5e")


def sheet(number: int, tested_on: str) -> PageRecord:
    values = tuple(
        Threshold("right", "air", False, hz, 35, standing="sure", probability=0.99) for hz in (500, 1000, 2000, 4000)
    )
    facts = (
        Fact("patient-name", "Kira Brandt", "Brandt, Kira", standing="sure"),
        Fact("record-number", "HL-20413", "HL-20413", standing="sure"),
        Fact("birth-date", "1958-03-04", "4.3.1958", standing="sure"),
    )
    source = Source("brandt-kira-scan.tif", "5e" * 32, number, 2, "scan")
    return PageRecord(
        source, "sure", (Audiogram(tested_on, thresholds=values),), Report("Kira Brandt", "1958-03-04", facts=facts)
    )


@pytest.fixture
def records(tmp_path: Path) -> str:
    path = tmp_path / "records.jsonl"
    path.write_text("".join(to_json_line(sheet(n, day)) + "\n" for n, day in ((1, "2019-03-14"), (2, "2021-06-02"))))
    return str(path)


def read(*arguments: str) -> int:
    return main(["read", *arguments])


@pytest.mark.parametrize("options", [[], ["--json"], ["--for", "patient"], ["--for", "clinician"]])
def test_no_identifier_is_in_any_form_of_the_output(
    options: list[str], records: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = [tmp_path / "out.csv", tmp_path / "out-findings.csv", tmp_path / "out.svg", tmp_path / "out-2.svg"]
    files = ["--table", str(kept[0]), "--redraw", str(kept[2])]
    assert read(records, "--without-identity", *options, *files) == 0
    told = capsys.readouterr()
    text = told.out + told.err + "".join(path.read_text("utf-8") for path in kept)
    assert not [secret for secret in SECRETS if secret in text]
    assert "patient-" in text


def test_one_salt_gives_one_pseudonym_and_one_shift_in_every_run(
    records: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    outputs = []
    for _ in range(2):
        assert read(records, "--json", "--without-identity", "--salt-file", str(tmp_path / "salt")) == 0
        outputs.append(capsys.readouterr().out)
    assert outputs[0] == outputs[1]
    told = [json.loads(line) for line in outputs[0].splitlines()]
    days = [date.fromisoformat(one["audiograms"][0]["tested_on"]) for one in told]
    assert days[1] - days[0] == date(2021, 6, 2) - date(2019, 3, 14)
    assert len({one["report"]["patient"] for one in told}) == 1
    # By hand: born 4 March 1958, tested on 14 March 2019 and 2 June 2021.
    assert [one["audiograms"][0]["findings"]["age_years"] for one in told] == [61, 63]
    (tmp_path / "salt").unlink()
    read(records, "--json", "--without-identity", "--salt-file", str(tmp_path / "salt"))
    assert capsys.readouterr().out != outputs[0]


def test_the_salt_is_made_for_its_owner_alone_and_never_shown(
    records: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = os.umask(0)
    try:
        read(records, "--without-identity", "--salt-file", str(tmp_path / "salt"))
    finally:
        os.umask(before)
    told = capsys.readouterr()
    salt = (tmp_path / "salt").read_text().strip()
    assert stat.S_IMODE((tmp_path / "salt").stat().st_mode) == 0o600
    assert len(bytes.fromhex(salt)) == 32
    assert salt not in told.out + told.err


@pytest.mark.parametrize(
    ("content", "mode", "code", "said"),
    [("ab" * 32, 0o644, 64, "others than you may read this salt"), ("my secret", 0o600, 64, "holds no salt"),
     ("", 0o600, 64, "holds no salt"), ("abcd", 0o600, 64, "holds no salt")],
)  # fmt: skip
def test_a_salt_that_is_none_or_is_open_to_others_is_refused(
    content: str, mode: int, code: int, said: str, records: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    salt = tmp_path / "salt"
    salt.write_text(content)
    salt.chmod(mode)
    assert read(records, "--without-identity", "--salt-file", str(salt)) == code
    told = capsys.readouterr()
    assert said in told.err
    assert told.out == ""
    assert not content or content not in told.err


def test_a_salt_in_no_folder_and_a_folder_as_salt_are_refused(records: str, tmp_path: Path) -> None:
    assert read(records, "--without-identity", "--salt-file", str(tmp_path / "none" / "salt")) == 73
    assert read(records, "--without-identity", "--salt-file", str(tmp_path)) == 64


@pytest.mark.parametrize(
    ("options", "said"),
    [(["--show-work", "work"], "--show-work shows the page itself"), (["--born", "1958-03-04"], "are identifiers"),
     (["--age", "93"], "are identifiers")],
)  # fmt: skip
def test_options_that_would_tell_who_it_is_are_refused(
    options: list[str], said: str, records: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert read(records, "--without-identity", *options) == 64
    assert said in capsys.readouterr().err


def test_a_salt_file_alone_is_misuse(records: str, tmp_path: Path) -> None:
    assert read(records, "--salt-file", str(tmp_path / "salt")) == 64
    assert not (tmp_path / "salt").exists()


def test_the_summary_says_which_pages_belong_together(records: str, capsys: pytest.CaptureFixture[str]) -> None:
    read(records)
    text = capsys.readouterr().out
    assert "- Report 1, pages 1, 2: tested on 2019-03-14 (page 1); tested on 2021-06-02 (page 2)" in text
    assert "Kira" not in text


def test_two_patients_in_one_file_are_two_reports(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = sheet(2, "2021-06-02")
    facts = (Fact("patient-name", "Jonas Holm", standing="sure"), Fact("record-number", "X-7", standing="sure"))
    other = replace(other, report=Report("Jonas Holm", facts=facts))
    path = tmp_path / "pile.jsonl"
    path.write_text("".join(to_json_line(one) + "\n" for one in (sheet(1, "2019-03-14"), other)))
    read(str(path))
    text = capsys.readouterr().out
    assert "brandt-kira-scan.tif: 2 reports" in text
    read(str(path), "--without-identity")
    hidden = capsys.readouterr().out
    assert "One file: 2 reports" in hidden
    assert main(["compare", str(path)]) == 64
    assert main(["compare", str(path), "--same-person"]) == 0
