"""The summary for a person: all values, what to check and why, averages with their frequencies, cautions once."""

from __future__ import annotations

from dataclasses import replace

from any_records import page_records
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import asked, page, rich_page, value

from octavo.interpret.reasons import REASONS, remark
from octavo.interpret.record import Audiogram, Fact, PageRecord, Remark, Report
from octavo.interpret.rules.degree import SCHEMES
from octavo.interpret.settings import Settings
from octavo.interpret.words.cautions import CAUTIONS
from octavo.interpret.words.summary import summary


def one_line(text: str) -> str:
    return " ".join(text.split())


def lines_of(text: str, start: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip().startswith(start)]


def test_the_head_names_file_page_and_standing() -> None:
    head = summary(rich_page()).splitlines()[:3]
    assert head == [
        "harbour-lane-07.tif, page 2 of 3",
        "Read from a scanned picture; to check: 2 of 24 values, marked ? below",
        "Earphone: inserts; Reliability as stated: good",
    ]


def test_a_sure_page_says_that_there_is_nothing_to_check() -> None:
    text = summary(page(Audiogram(thresholds=(value("right", 1000, 35),))))
    assert "Read from a scanned picture; sure: nothing to check" in text
    assert "To check" not in text


def test_the_table_shows_every_value_in_its_row() -> None:
    text = summary(rich_page())
    assert lines_of(text, "Hz")[0].split() == ["Hz", "250", "500", "1k", "2k", "3k", "4k", "8k"]
    assert lines_of(text, "air  ")[0].split() == ["air", "20", "25", "30", "45", "55", "60?", "70"]
    assert lines_of(text, "bone  ")[0].split() == ["bone", "·", "20", "30", "45", "·", "·", "·"]
    assert lines_of(text, "bone, masked")[0].split() == ["bone,", "masked", "·", "60↓", "70↓", "·", "·", "·"]


def test_the_legend_explains_the_signs_that_occur() -> None:
    assert "? a person must check this value; ↓ no response at this level; · no value read" in summary(rich_page())
    assert "? a person" not in summary(page(Audiogram(thresholds=(value("right", 1000, 35),))))


def test_every_value_to_check_has_its_place_and_its_reasons_in_words() -> None:
    text = one_line(summary(rich_page()))
    assert "To check (2 of 20 values)" in text
    assert "- Right ear, air, 4000 Hz, 60 dB HL (chart 1, 31% across, 37% down): marks overlap; faint mark" in text
    assert "- Left ear, air, 8000 Hz, 100 dB HL (chart 1, 31% across, 37% down): arrow uncertain" in text
    assert f"- arrow uncertain: {REASONS['arrow-uncertain'].text}. {REASONS['arrow-uncertain'].do}." in text


def test_a_value_to_check_without_a_code_is_still_explained() -> None:
    text = one_line(summary(page(Audiogram(thresholds=(asked("left", 500, 40),)))))
    assert "Left ear, air, 500 Hz, 40 dB HL (31% across, 37% down): not certain enough" in text


def test_a_code_from_a_newer_record_is_shown_as_it_is() -> None:
    text = summary(page(Audiogram(thresholds=(asked("left", 500, 40, "from-the-future"),))))
    assert "from-the-future" in text


def test_averages_name_their_frequencies_and_the_degree_its_scheme() -> None:
    text = summary(rich_page())
    assert "PTA, air, 0.5, 1 and 2 kHz: 33.3 dB HL" in text
    assert "PTA, air, 0.5, 1, 2 and 4 kHz: 40.0 dB HL; to check first: 4000 Hz" in text
    assert "at least 98.8 dB HL (no response at 4000 Hz); masked at 1000 Hz" in text
    assert "Degree, Clark 1981, as used by ASHA: mild (from 33.3 dB HL at 0.5, 1 and 2 kHz)" in text


def test_an_average_that_lacks_a_value_says_which() -> None:
    text = one_line(summary(page(Audiogram(thresholds=(value("right", 500, 35),)))))
    assert "PTA, air, 0.5, 1 and 2 kHz: not given, no value at 1000 and 2000 Hz" in text
    assert "Degree, Clark 1981, as used by ASHA: not given, no value at 1000 and 2000 Hz" in text


def test_a_scheme_of_the_better_ear_grades_the_person() -> None:
    text = summary(rich_page(), Settings("who-2021"))
    assert "This ear alone, WHO 2021: complete (from 98.8 dB HL" in text
    assert "Degree of the person, WHO 2021: moderate; to check first: 4000 Hz" in text
    one_ear = page(Audiogram(thresholds=tuple(value("right", hz, 20) for hz in (500, 1000, 2000, 4000))))
    assert "Degree of the person, WHO 2021: not given" in summary(one_ear, Settings("who-2021"))


def test_no_response_that_a_scheme_counts_is_told() -> None:
    assert "no response at 4000 Hz counted as 130 dB" in one_line(summary(rich_page(), Settings("bsa-2018")))


def test_an_ear_without_a_value_is_named() -> None:
    assert "Left ear: no value read" in summary(page(Audiogram(thresholds=(value("right", 500, 35),))))


def test_a_remark_has_its_place_and_what_to_do() -> None:
    text = one_line(summary(rich_page()))
    assert "- Left ear, bone, 2000 Hz, chart 2: A mark is expected here and none was read. Look whether a mark" in text


def test_the_cautions_stand_once_at_the_end() -> None:
    text = one_line(summary(rich_page()))
    for caution in CAUTIONS:
        assert text.count(caution) == 1
    assert text.endswith(CAUTIONS[-1])
    assert CAUTIONS[0] not in one_line(summary(rich_page(), with_cautions=False))


def test_the_patient_is_not_named() -> None:
    assert "Invented" not in summary(rich_page())
    assert "1950" not in summary(rich_page())


def test_a_page_without_an_audiogram_says_so_in_one_sentence() -> None:
    text = summary(page(remarks=(remark("no-audiogram"),)), with_cautions=False)
    assert text.splitlines()[-1] == "No audiogram was found on this page."
    assert text.count("No audiogram") == 1


def test_a_page_where_a_chart_was_not_read_does_not_claim_that_there_is_none() -> None:
    text = summary(replace(page(remarks=(remark("chart-not-read", at=(0.3, 0.4)),)), standing="ask"))
    assert "No audiogram was read from this page; one may stand there unread." in text
    assert "- 30% across, 40% down: Something like a chart stands here" in one_line(text)


def test_two_values_for_one_place_are_both_shown() -> None:
    values = (value("right", 1000, 35), asked("right", 1000, 60, "two-readings"))
    assert "35/60?" in summary(page(Audiogram(thresholds=values)))


def test_a_name_cannot_steer_the_terminal() -> None:
    record = page()
    named = replace(record, source=replace(record.source, name="a\x1b[2Jb\n\udcff.tif"))
    assert summary(named).splitlines()[0] == r"a\x1b[2Jb\n\udcff.tif, page 2 of 3"


def test_a_long_name_is_wrapped() -> None:
    record = page()
    named = replace(record, source=replace(record.source, name="x" * 300))
    assert max(map(len, summary(named).splitlines())) <= 100


def test_ascii_signs_stand_for_the_others() -> None:
    text = summary(rich_page(), ascii_only=True)
    assert text.isascii()
    assert lines_of(text, "bone, masked")[0].split() == ["bone,", "masked", ".", "60v", "70v", ".", ".", "."]
    assert "v no response at this level; . no value read" in text


def test_a_remark_s_text_of_another_hand_is_shown_safely() -> None:
    assert r"red\x1b[31m" in summary(page(remarks=(Remark("from-the-future", "red\x1b[31m"),)))


@given(page_records(), st.sampled_from(sorted(SCHEMES)), st.booleans())
@settings(max_examples=60, deadline=None)
def test_any_record_has_a_summary_that_fits_the_width(record: PageRecord, scheme: str, ascii_only: bool) -> None:
    text = summary(record, Settings(scheme), ascii_only=ascii_only)
    assert max(map(len, text.splitlines())) <= 100
    assert all(letter == "\n" or letter.isprintable() for letter in text)
    assert text.isascii() or not ascii_only


@given(page_records())
@settings(max_examples=40, deadline=None)
def test_every_value_of_any_record_stands_in_its_summary(record: PageRecord) -> None:
    words = summary(record).replace("/", " ").split()
    for audiogram in record.audiograms:
        for t in audiogram.thresholds:
            cell = f"{t.level_db_hl:g}{'' if t.response else '↓'}{'?' if t.standing == 'ask' else ''}"
            assert cell in words


def test_facts_are_told_without_the_patients_and_those_to_check_are_marked() -> None:
    box = (0.1, 0.2, 0.3, 0.22)
    facts = (
        Fact("patient-name", "Invented Hollis", "Invented Hollis", box, 0.6, "ask", ("text-uncertain",)),
        Fact("tester", "A. Brandt", "A. Brandt", box, 0.99, "sure"),
        Fact("test-date", "2018-04-08", "08/04/2018", box, 0.9, "ask", ("date-order-unclear",)),
    )
    text = one_line(summary(replace(page(), report=Report(facts=facts)), ascii_only=True))
    assert "Test date: 2018-04-08?; Tester: A. Brandt" in text
    assert "Patient's name (10% across, 20% down): letters uncertain" in text
    assert "Test date, 2018-04-08 (10% across, 20% down): order of the date unclear" in text
    assert "Hollis" not in text


def test_what_may_be_missing_in_one_row_is_told_once_with_its_frequencies_and_places() -> None:
    gaps = [
        remark("missing-expected", ear="right", conduction="bone", frequency_hz=hz) for hz in (2000, 500, 500, 1000)
    ]
    weak = [remark("missing-expected", ear="right", conduction="bone", at=(0.1 * k, 0.5)) for k in range(1, 6)]
    other = remark("missing-expected", ear="left", conduction="bone", frequency_hz=4000)
    text = " ".join(summary(page(remarks=(*gaps, other, *weak)), with_cautions=False).split())
    assert text.count("Right ear, bone, 500, 1000 and 2000 Hz") == 1
    assert "10% across, 50% down; 20% across, 50% down; 30% across, 50% down; and 2 more" in text
    assert text.count("A mark is expected here") == 2
