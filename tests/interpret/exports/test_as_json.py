"""A record as JSON and back; the keys are those of the published field list."""

from __future__ import annotations

import json
from dataclasses import fields, replace

import pytest
from any_records import page_records
from hypothesis import given, settings
from invented_pages import asked, page, rich_page, value
from invented_tests import full_page

from octavo.interpret.errors import InternalFault
from octavo.interpret.exports.as_json import from_json, to_json_line
from octavo.interpret.record import (
    Audiogram,
    EmissionBand,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Reflex,
    Remark,
    Seen,
    Speech,
    Threshold,
    Tympanogram,
)


@given(page_records())
@settings(max_examples=60, deadline=None)
def test_any_record_comes_back_as_it_was(record: PageRecord) -> None:
    assert from_json(to_json_line(record)) == record


@given(page_records())
@settings(max_examples=60, deadline=None)
def test_any_record_is_one_line_of_utf_8(record: PageRecord) -> None:
    line = to_json_line(record)
    assert len(line.splitlines()) == 1
    assert line.encode("utf-8").decode("utf-8") == line


def test_writing_what_was_read_gives_the_same_text() -> None:
    unrounded = replace(
        asked("left", 1000, 35, "faint"), probability=1 / 3, seen=Seen(0, (1 / 3, 2 / 3), 1001.23456, 34.7 / 3)
    )
    line = to_json_line(page(Audiogram(thresholds=(unrounded,))))
    assert to_json_line(from_json(line)) == line


def test_page_fractions_have_five_decimals_and_probabilities_four() -> None:
    odd = replace(
        value("right", 1000, 35), probability=0.99987654, seen=Seen(0, (0.123456789, 0.5), 1004.1234, 34.5678)
    )
    written = json.loads(to_json_line(page(Audiogram(thresholds=(odd,)))))["audiograms"][0]["thresholds"][0]
    assert written["probability"] == 0.9999
    assert written["seen"] == {"chart": 0, "at": [0.12346, 0.5], "frequency_hz": 1004.12, "level_db_hl": 34.57}


def test_whole_numbers_are_written_without_a_point() -> None:
    line = to_json_line(page(Audiogram(thresholds=(value("right", 1000.0, 35.0),))))
    assert '"frequency_hz": 1000, "level_db_hl": 35, ' in line


def test_keys_stand_in_the_order_of_the_published_field_list() -> None:
    record = json.loads(to_json_line(rich_page()))
    threshold = record["audiograms"][0]["thresholds"][0]
    assert list(record) == ["schema", "source", "standing", "audiograms", "report", "remarks"]
    assert list(threshold) == [
        "ear", "conduction", "masked", "aided", "measure", "frequency_hz", "level_db_hl", "response", "standing",
        "probability", "why_ask", "seen",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "where"),
    [
        (PageRecord, ()),
        (Audiogram, ("audiograms", 0)),
        (Threshold, ("audiograms", 0, "thresholds", 0)),
        (Speech, ("audiograms", 0, "speech", 0)),
        (Immittance, ("audiograms", 0, "immittance", 0)),
        (Tympanogram, ("audiograms", 0, "immittance", 0, "tympanogram")),
        (Reflex, ("audiograms", 0, "immittance", 0, "reflexes", 0)),
        (OtoacousticEmission, ("audiograms", 0, "otoacoustic", 0)),
        (EmissionBand, ("audiograms", 0, "otoacoustic", 0, "bands", 0)),
        (PrintedAverage, ("audiograms", 0, "printed_averages", 0)),
    ],
)
def test_every_field_of_the_record_is_written(kind: type, where: tuple[str | int, ...]) -> None:
    written = json.loads(to_json_line(full_page()))
    for step in where:
        written = written[step]
    assert set(written) == {field.name for field in fields(kind)}


def test_printed_averages_are_left_out_where_the_page_prints_none() -> None:
    assert "printed_averages" not in to_json_line(rich_page())


def test_a_page_with_every_test_comes_back_as_it_was() -> None:
    assert from_json(to_json_line(full_page())) == full_page()


def test_a_remark_names_only_the_places_that_apply() -> None:
    record = page(remarks=(Remark("skewed", "Straightened."), Remark("faint", "Faint.", ear="left", frequency_hz=500)))
    first, second = json.loads(to_json_line(record))["remarks"]
    assert list(first) == ["code", "text"]
    assert list(second) == ["code", "text", "ear", "frequency_hz"]


def test_letters_beyond_ascii_stay_as_they_are() -> None:
    record = page()
    named = replace(record, source=replace(record.source, name="Hörtest 日本.pdf"))
    assert "Hörtest 日本.pdf" in to_json_line(named)


@pytest.mark.parametrize("wrong", [float("nan"), float("inf"), object()])
def test_what_json_cannot_say_is_a_fault_of_octavo(wrong: object) -> None:
    record = page(Audiogram(findings={"average": wrong}))
    with pytest.raises(InternalFault, match="the record cannot be written as JSON"):
        to_json_line(record)
