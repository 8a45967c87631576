"""Words for a clinician: every finding with its numbers, its rule by name, and what it rests on."""

from __future__ import annotations

import pytest
from any_records import page_records
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import page, rich_page, value

from octavo.interpret.finding_codes import FINDING_CODES
from octavo.interpret.findings import findings
from octavo.interpret.record import Audiogram, Immittance, PageRecord, Reflex
from octavo.interpret.settings import Noise, Settings
from octavo.interpret.words.clinician import WIDTH, for_clinician
from octavo.interpret.words.languages import LANGUAGES

ASKED = Settings("bsa-2018", sex="female", noise=Noise(90, 20))


def told(record: PageRecord, language: str = "en") -> str:
    return " ".join(for_clinician(record, ASKED, LANGUAGES[language]).split())


def test_every_finding_of_the_page_is_told() -> None:
    text = told(rich_page())
    for one in findings(rich_page().audiograms[0], ASKED, rich_page().report).found:
        assert LANGUAGES["en"].title(one.code) in text


@pytest.mark.parametrize(
    "rule",
    ["BSA 2018", "gap over 10 dB", "GENDEAF", "Wilson and McArdle 2013", "NICE NG98, 1.3.2", "ISO 7029:2017",
     "ISO 1999:2013", "AAO/AMA 1979", "BIAP 02/1 bis", "ANSI S3.5-1997", "NAL-R, Byrne and Dillon 1986"],
)  # fmt: skip
def test_rules_are_named_by_their_published_names(rule: str) -> None:
    assert rule in told(rich_page())


def test_the_range_of_what_rests_on_a_value_to_look_at_is_told() -> None:
    # Right 0.5, 1, 2, 4 kHz: 25, 30, 45, 60 dB, the last 10 dB off at most.
    assert "0.5-1-2-4: 40 (37.5 to 42.5; check 4 kHz first)" in told(rich_page())


def test_no_response_is_at_least() -> None:
    assert "0.5-1-2-4: at least 98.8 (no response at 4 kHz)" in told(rich_page())


def test_a_missing_frequency_is_named_where_a_rule_lacks_it() -> None:
    assert "rule 3000, Saliba 2009, AAO-HNS: no value at 3 kHz" in told(rich_page())


def test_the_head_has_age_sex_and_what_is_to_be_checked() -> None:
    assert "Test of 2019-03-14; age 69; female;" in told(rich_page())
    assert "2 of 20 values to be checked" in told(rich_page())


def test_the_normal_limit_and_the_scheme_s_choices_are_told() -> None:
    assert "Normal limit used: 25 dB" in told(rich_page())
    assert "no response counts as 130 dB" in told(rich_page())


def test_the_person_is_not_named() -> None:
    assert "Invented" not in told(rich_page())


def test_a_page_without_an_audiogram_says_so() -> None:
    assert "No audiogram was read from this page." in told(page())


def test_spanish_has_its_words_and_decimals() -> None:
    text = told(rich_page(), "es")
    assert "PTA, dB HL por kHz, derecho: 0.5-1-2: 33,3" in text
    assert "neurosensorial" in text


@given(page_records(), st.sampled_from(sorted(LANGUAGES)))
@settings(max_examples=30, deadline=None)
def test_any_record_can_be_told_within_the_width(record: PageRecord, language: str) -> None:
    lines = for_clinician(record, ASKED, LANGUAGES[language]).splitlines()
    assert max(map(len, lines)) <= WIDTH


def test_one_threshold_is_no_reason_to_fail() -> None:
    assert "1k" in told(page(Audiogram(thresholds=(value("right", 1000, 35),))))


def test_every_code_belongs_to_a_part_with_a_heading() -> None:
    assert {code.part for code in FINDING_CODES.values()} <= set(LANGUAGES["en"].parts)


def test_what_a_pattern_could_be_is_said_where_it_cannot_be_told() -> None:
    tests = (
        Immittance("right", None, tuple(Reflex("right", hz, 85, standing="sure") for hz in (500, 1000)), "sure"),
        Immittance("left", None, tuple(Reflex("left", hz, 110, False, standing="sure") for hz in (500, 1000)), "sure"),
    )
    text = " ".join(for_clinician(page(Audiogram(immittance=tests)), None, LANGUAGES["en"]).split())
    assert "could be whenever the left ear is stimulated or whenever measured in the left ear" in text
