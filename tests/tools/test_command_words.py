"""``octavo read --for``: for whom, in which language, with what is known of the listener, and from records."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from octavo.interpret.exports.as_json import to_json_line
from octavo.interpret.record import Audiogram, PageRecord, Report, Source, Threshold
from octavo.tools.command import main

HZ = (250, 500, 1000, 2000, 4000, 8000)


@pytest.fixture
def file(tmp_path: Path) -> str:
    values = tuple(
        Threshold(ear, "air", False, hz, 20.0 + 5 * step, standing="sure", probability=0.999)
        for ear in ("right", "left")
        for step, hz in enumerate(HZ)
    )
    source = Source("harbour-lane-01.pdf", "1" * 64, 1, 1, "scan")
    record = PageRecord(source, "sure", (Audiogram("2019-03-14", thresholds=values),), Report(born="1950-02-01"))
    path = tmp_path / "checked.jsonl"
    path.write_text(to_json_line(record) + "\n", "utf-8")
    return str(path)


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["read", *arguments]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_a_patient_gets_plain_words(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = told(capsys, file, "--for", "patient")
    assert "YOUR HEARING TEST IN PLAIN WORDS" in text
    assert text.count("Please note") == 1


def test_a_clinician_gets_every_rule_by_name(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = told(capsys, file, "--for", "clinician")
    assert "Clark 1981, as used by ASHA: right mild, 30 dB HL" in text
    assert text.count("Please note") == 1


@pytest.mark.parametrize(("reader", "words"), [("patient", "Tenga en cuenta"), ("clinician", "Promedios")])
def test_the_words_may_be_spanish(file: str, reader: str, words: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert words in told(capsys, file, "--for", reader, "--words", "es")


def test_sex_brings_the_percentiles_with_the_birth_date_of_the_page(
    file: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "ISO 7029" not in told(capsys, file, "--for", "clinician")
    assert "age 69; female;" in told(capsys, file, "--for", "clinician", "--sex", "female")
    assert "ISO 7029:2017" in told(capsys, file, "--for", "clinician", "--sex", "female")


def test_the_age_given_comes_before_the_page_s_birth_date(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "age 40;" in told(capsys, file, "--for", "clinician", "--age", "40")


def test_noise_brings_the_expectation(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "ISO 1999:2013" in told(capsys, file, "--for", "clinician", "--noise", "90", "20")


def test_the_limit_of_normal_follows_the_choice(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "Normal limit used: 25 dB" in told(capsys, file, "--for", "clinician")
    assert "Normal limit used: 15 dB" in told(capsys, file, "--for", "clinician", "--normal", "child")
    assert "Normal limit used: 15 dB" in told(capsys, file, "--for", "clinician", "--age", "9")


def test_a_corrected_record_is_worded_with_its_correction(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    record = json.loads(Path(file).read_text("utf-8"))
    record["audiograms"][0]["thresholds"][1]["level_db_hl"] = 55
    Path(file).write_text(json.dumps(record) + "\n", "utf-8")
    # By hand: (55 + 30 + 35) / 3.
    assert "right mild, 40 dB HL" in told(capsys, file, "--for", "clinician")


def test_the_json_of_a_record_has_its_findings(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "--json", file]) == 0
    found = json.loads(capsys.readouterr().out)["audiograms"][0]["findings"]["found"]
    assert {"average", "degree", "loss-type", "configuration", "audibility-quiet"} <= {one["code"] for one in found}


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--words", "es"], "--words needs a reader"),
        (["--json", "--for", "patient"], "--json is for programs and has no words"),
        (["--age", "old"], "is not a number that can stand here"),
        (["--born", "14.3.1958"], "is no date"),
        (["--for", "judge"], "invalid choice"),
        (["--age", "200"], "200 is no age in years"),
    ],
)
def test_misuse_is_64_before_anything_is_read(
    file: str, arguments: list[str], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["read", file, *arguments]) == 64
    out, err = capsys.readouterr()
    assert (out, message in err) == ("", True)
