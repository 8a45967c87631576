"""Facts within a text, in blocks without colons, and behind tick boxes: what is right, and what must ask."""

from __future__ import annotations

import numpy as np
import pytest
from facts_by_hand import read, value, why

from octavo.extract.page import Word
from octavo.extract.report import facts
from octavo.extract.report.facts.draft import Draft
from octavo.interpret.record import FactName


def test_facts_behind_commas_need_neither_colon_nor_gap() -> None:
    found = read((40, 40, "Re: Constance Wray, DOB 22 July 1947, MRN 60-3318"))
    assert value(found, "patient-name") == ("Constance Wray", "sure")
    assert value(found, "birth-date") == ("1947-07-22", "sure")
    assert value(found, "record-number") == ("60-3318", "sure")


def test_a_letter_s_matter_is_no_patient() -> None:
    assert value(read((40, 40, "Re: Hearing evaluation of 3 May 2031")), "patient-name") is None


def test_a_name_ends_where_the_birth_date_s_label_begins() -> None:
    found = read((40, 40, "Patient : Gaspard Thiercelin, n\u00e9 le 3 ao\u00fbt 1969"))
    assert value(found, "patient-name") == ("Gaspard Thiercelin", "sure")
    assert value(found, "birth-date") == ("1969-08-03", "sure")


def test_a_date_in_a_sentence_asks_whose_it_is() -> None:
    found = read((40, 40, "Her daughter, born 4 May 1990, hears well"))
    assert value(found, "birth-date") == ("1990-05-04", "ask")
    assert why(found, "birth-date") == ("label-uncertain",)


def test_what_a_sentence_says_does_not_speak_against_a_label_of_its_own() -> None:
    found = read((40, 40, "Date of birth: 22 July 1947"), (40, 80, "Her daughter, born 4 May 1990, hears well"))
    assert [(f.value, f.standing) for f in found.facts if f.name == "birth-date"] == [("1947-07-22", "sure")]


def test_the_dates_behind_a_device_end_its_name() -> None:
    found = read((40, 40, "Audiometer: Model 7, calibrated January 15, 2030, calibration due January 15, 2031"))
    assert value(found, "audiometer") == ("Model 7", "sure")
    assert value(found, "calibration-date") == ("2030-01-15", "sure")


def test_a_number_sign_belongs_to_its_label() -> None:
    assert value(read((40, 40, "Chart #: 88412")), "record-number") == ("88412", "sure")


def test_of_a_reason_s_options_the_ticked_one_is_taken() -> None:
    """All options with their boxes stood as the reason, and as sure."""
    options = "Reason for test: \u2610 Tinnitus \u2612 Routine check \u2610 Dizziness"
    assert value(read((40, 40, options)), "reason") == ("Routine check", "sure")
    two = options.replace("\u2610", "\u2612", 1)
    assert why(read((40, 40, two)), "reason") == ("text-uncertain",)


def test_a_value_is_no_label_on_a_page_of_colons() -> None:
    """ "Follow-up" is the label of a date to come elsewhere: the reason was lost, or taken from the line below."""
    found = read(
        (40, 40, "Name:"), (160, 40, "Ada Hollis"), (400, 40, "Sex:"), (480, 40, "F"),
        (40, 70, "Reason for test:"), (260, 70, "Follow-up"), (40, 100, "Tympanogram"),
    )  # fmt: skip
    assert value(found, "reason") == ("Follow-up", "sure")


def test_the_lines_around_tell_where_a_value_stands_before_the_page_does() -> None:
    """A table's head below a label was taken for the audiometer, as more labels of the page have their values below."""
    found = read(
        (40, 40, "Name"), (200, 40, "Sex"), (400, 40, "Date of birth"), (600, 40, "Test date"),
        (40, 65, "Ada Hollis"), (200, 65, "F"), (400, 65, "26.02.2004"), (600, 65, "18.12.2014"),
        (40, 200, "Reliability"), (200, 200, "good"), (400, 200, "Birth date"), (600, 200, "26.02.2004"),
        (40, 230, "Audiometer"), (200, 230, "Skerry 7"),
        (40, 260, "dB HL"), (200, 260, "Right"),
    )  # fmt: skip
    assert [f.value for f in found.facts if f.name == "audiometer"] == ["Skerry 7"]


def test_a_place_in_a_block_of_labels_without_colons_is_no_house_s_name() -> None:
    found = read(
        (40, 40, "Clinic at the quay"), (40, 80, "Name Ada Hollis"), (400, 80, "Date of birth 26.02.2004"),
        (40, 110, "Room Booth 2"), (400, 110, "Test date 18.12.2014"), (40, 140, "Audiometer Skerry 7"),
    )  # fmt: skip
    assert [(f.value, f.standing) for f in found.facts if f.name == "place" and f.standing == "sure"] == [
        ("Booth 2", "sure")
    ]


def test_a_rule_behind_a_label_without_a_colon_ends_it() -> None:
    found = read((40, 40, "Name:"), (200, 40, "Ada Hollis"), (40, 80, "born ~"), (200, 80, "01.08.1995"))
    assert value(found, "birth-date") == ("1995-08-01", "sure")


def test_a_year_glued_to_its_comma_is_a_date_s() -> None:
    assert value(read((40, 40, "Tested on: Feb 17,2019")), "test-date") == ("2019-02-17", "sure")


@pytest.mark.parametrize("given", [True, False])
def test_a_name_that_goes_on_below_a_full_line_is_no_sure_half(given: bool) -> None:
    first = (40.0, 40.0, "Name: Beatriz Quill; Test date: 2021-07-01; Reliability: good; Tested by: Anouk")
    found = read(first, (40.0, 62.0, "Brandt; DOB: 1977-01-01"), (40.0, 120.0, "Ears were clear."), given=given)
    assert value(found, "tester") in (("Anouk", "ask"), ("Anouk Brandt", "ask"), ("Anouk Brandt", "sure"))
    assert value(found, "patient-name") is not None


def test_a_name_at_the_end_of_a_line_above_another_label_is_whole() -> None:
    first = (40.0, 40.0, "Name: Beatriz Quill; Test date: 2021-07-01; Reliability: good; Tested by: Anouk Brandt")
    assert value(read(first, (40.0, 62.0, "DOB: 1977-01-01; MRN: 60-3318")), "tester") == ("Anouk Brandt", "sure")


@pytest.mark.parametrize(("name", "text", "asks"), [
    ("patient-name", "Grenfell", True), ("patient-name", "Grenfell, Ines", False), ("tester", "Grenfell", False),
])  # fmt: skip
def test_a_patients_name_of_one_word_that_was_read_from_a_picture_asks(
    name: FactName, text: str, *, asks: bool
) -> None:
    # common practice: people have two names; a fax had lost the first
    words = tuple(Word(said, (200.0 * i, 0.0, 200.0 * i + 90, 14.0)) for i, said in enumerate(text.split()))
    paper = np.zeros((60, 600), np.bool_)
    draft = Draft(name, text, text, words, None)
    assert bool(facts._doubted(draft, paper, words).why_ask) == asks
