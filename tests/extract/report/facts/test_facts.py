"""Facts of pages written by hand: what is right, and what must ask."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import chart, sheet, x_of
from facts_by_hand import LETTER, printed, read, value, why

from octavo.extract.report.facts import read_facts, report_of
from octavo.extract.report.facts.tested import with_dates
from octavo.extract.report.lines import lines_of
from octavo.extract.report.words import ReportWords
from octavo.interpret.record import Audiogram, Chart, Fact, Standing

HEAD = ((40, 40, "Name: Eklund, Noor"), (400, 40, "Date of birth: 13/02/1969"), (40, 70, "Sex: F"))


def test_labels_with_colons_and_their_values_on_a_line() -> None:
    found = read(
        *HEAD, (400, 70, "Test date: 08/04/2018"), (40, 100, "Tested by: A. Brandt"), (400, 100, "MRN: HL-4711")
    )
    assert value(found, "patient-name") == ("Eklund, Noor", "sure")
    assert value(found, "birth-date") == ("1969-02-13", "sure")
    assert value(found, "test-date") == ("2018-04-08", "sure")
    assert value(found, "sex") == ("female", "sure")
    assert value(found, "tester") == ("A. Brandt", "sure")
    assert value(found, "record-number") == ("HL-4711", "sure")
    assert (report_of(found.facts).patient, report_of(found.facts).born) == ("Eklund, Noor", "1969-02-13")


def test_a_date_that_may_be_either_way_round_asks_and_gives_no_birth_date_to_rules() -> None:
    found = read((40, 40, "Name: Ada Hollis"), (400, 40, "Date of birth: 03/02/1969"), (40, 70, "Date: 08/04/2018"))
    assert why(found, "birth-date") == why(found, "test-date") == ("date-order-unclear",)
    assert report_of(found.facts).born is None


def test_a_hint_beside_a_label_settles_the_order_of_all_dates() -> None:
    found = read((40, 40, "Date of birth (mm/dd/yyyy): 03/02/1969"), (40, 70, "Test date: 08/04/2018"))
    assert value(found, "birth-date") == ("1969-03-02", "sure")
    assert value(found, "test-date") == ("2018-08-04", "sure")


def test_the_language_of_a_page_does_not_settle_the_order_of_a_date() -> None:
    found = read((40, 40, "Fecha de nacimiento: 03/02/1969"), (40, 70, "Sexo: mujer"))
    assert value(found, "birth-date") == ("1969-02-03", "ask")


def test_two_orders_shown_on_one_page_settle_nothing() -> None:
    found = read(
        (40, 40, "Date of birth: 13/02/1969"), (40, 70, "Printed: 04/25/2018"), (40, 100, "Test date: 03/04/2018")
    )
    assert why(found, "test-date") == ("date-order-unclear",)


def test_a_birth_after_the_test_lets_both_ask() -> None:
    found = read((40, 40, "Date of birth: 2019-02-13"), (40, 70, "Test date: 2018-04-08"))
    assert why(found, "birth-date") == why(found, "test-date") == ("dates-disagree",)


def test_a_day_that_the_calendar_lacks_is_told_and_not_given() -> None:
    found = read((40, 40, "Test date: 31.02.2018"))
    assert found.facts == ()
    assert [remark.code for remark in found.remarks] == ["date-impossible"]


def test_a_year_of_two_digits_asks_for_its_century_at_a_birth() -> None:
    assert "century-unclear" in why(read((40, 40, "Born: 13.02.69")), "birth-date")


def test_labels_stand_above_their_values() -> None:
    found = read(
        (40, 40, "Patient name"), (240, 40, "Date of birth"), (440, 40, "Audiometer"), (40, 62, "Ada Hollis"),
        (240, 62, "13.2.1969"), (440, 62, "Skerry 7"),
    )  # fmt: skip
    assert value(found, "patient-name") == ("Ada Hollis", "sure")
    assert value(found, "birth-date") == ("1969-02-13", "sure")
    assert value(found, "audiometer") == ("Skerry 7", "sure")


def test_labels_without_colons_in_a_table_have_their_values_in_the_next_cell() -> None:
    found = read((40, 40, "Patient"), (240, 40, "Ada Hollis"), (40, 70, "Date of birth"), (240, 70, "13.2.1969"))
    assert value(found, "patient-name") == ("Ada Hollis", "sure")
    assert value(found, "birth-date") == ("1969-02-13", "sure")


def test_a_word_of_a_sentence_is_no_label() -> None:
    assert read((40, 40, "The name of the list and the date are printed on the page of the report")).facts == ()


def test_dates_of_other_things_are_no_test_dates() -> None:
    found = read((40, 40, "Printed: 13.5.2018"), (40, 70, "Next visit: 14.5.2019"), (40, 100, "Fax: 555 1234"))
    assert found.facts == ()


def test_surname_and_first_name_make_one_name() -> None:
    found = read((40, 40, "Nachname: Brandt"), (300, 40, "Vorname: Edda"))
    assert value(found, "patient-name") == ("Brandt, Edda", "sure")


def test_date_and_time_after_one_label_are_two_facts() -> None:
    found = read((40, 40, "Date/time: 2018-03-14 2:05 pm"))
    assert value(found, "test-date") == ("2018-03-14", "sure")
    assert value(found, "test-time") == ("14:05", "sure")


@pytest.mark.parametrize(
    ("text", "name", "expected"),
    [
        ("Transducer: insert earphones + bone vibrator", "transducer", "inserts, bone-vibrator"),
        ("Zuverlässigkeit: mäßig", "reliability", "fair"), ("Sexe : féminin", "sex", "female"),
        ("Auriculares: supraaurales", "transducer", "supra-aural"), ("Sex: M", "sex", "male"),
    ],
)  # fmt: skip
def test_choices_are_known_in_every_language(text: str, name: str, expected: str) -> None:
    assert value(read((40, 40, text)), name) == (expected, "sure")


def test_two_names_on_one_page_both_ask() -> None:
    found = read((40, 40, "Name: Ada Hollis"), (40, 70, "Patient: Bruno Jarl"))
    assert [f.standing for f in found.facts if f.name == "patient-name"] == ["ask", "ask"]


def test_words_that_were_read_without_a_second_witness_ask() -> None:
    found = read((40, 40, "Name: Ada Hollis"), given=False)
    assert value(found, "patient-name") == ("Ada Hollis", "ask")


def test_a_value_that_begins_like_a_label_keeps_its_first_word() -> None:
    found = read(*HEAD, (40, 100, "Place:"), (40, 120, "Clinic at the quay"), (40, 150, "Tested by: A. Brandt"))
    assert [f.value for f in found.facts if f.name == "place"] == ["Clinic at the quay"]


def test_a_house_s_name_that_begins_like_a_label_is_not_taken_for_a_place_unasked() -> None:
    found = read(
        (40, 10, "Practice Hollow"), (40, 40, "Name Eklund, Noor"), (40, 70, "Sex F"),
        (40, 100, "Tester A. Brandt"), (40, 130, "Reason tinnitus"), (40, 160, "Audiometer Gannet 12"),
    )  # fmt: skip
    assert value(found, "place") != ("Hollow", "sure")


def test_a_value_below_its_label_goes_on_after_a_wider_space() -> None:
    found = read(*HEAD, (40, 100, "Tested by:"), (40, 120, "Dr."), (84, 120, "Corvey"))
    assert value(found, "tester") == ("Dr. Corvey", "ask")  # the gap may part two columns


def test_a_letter_alone_is_no_label() -> None:
    """The type A of a tympanogram is not the French label of a time."""
    found = read(*HEAD, (40, 100, "A"), (200, 100, "1.59"))
    assert value(found, "test-time") is None


def test_a_tick_box_tells_which_of_the_words_is_meant() -> None:
    words = printed((40, 100, "Reliability:"), (200, 100, "good"), (300, 100, "fair"), (400, 100, "poor"))
    picture = np.full((400, 700, 3), 255, np.uint8)
    for left, ticked in ((178, False), (278, True), (378, False)):
        picture[93:108, left : left + 15] = 0
        picture[95:106, left + 2 : left + 13] = 255
        if ticked:
            for k in range(11):
                picture[95 + k, left + 2 + k : left + 4 + k] = picture[95 + k, left + 11 - k : left + 13 - k] = 0
    one = sheet("drawn", picture, words)
    found = read_facts(one, (), ReportWords(words, given=True), lines_of(words))
    assert value(found, "reliability") == ("fair", "sure")
    picture[93:108, 278:293] = picture[93:108, 178:193]
    found = read_facts(one, (), ReportWords(words, given=True), lines_of(words))
    assert found.facts == ()


def test_the_place_of_a_fact_is_where_its_value_stands() -> None:
    (fact,) = read((40, 40, "Audiometer: Skerry 7")).facts
    assert fact.box is not None
    assert fact.box[0] > (40 + 11 * LETTER) / 1700
    assert fact.written == "Skerry 7"


def test_a_single_date_over_a_chart_is_asked_about() -> None:
    found = read((x_of(700), 130, "2018-03-14"), charts=(chart(),))
    assert why(found, "test-date") == ("label-uncertain",)


def outline(left: float, right: float) -> Chart:
    return Chart(((left, 0.4), (right, 0.4), (right, 0.8), (left, 0.8)), None, None)


def dated(value: str, x: float, standing: Standing = "sure") -> Fact:
    return Fact("test-date", value, value, (x, 0.35, x + 0.1, 0.37), 1.0, standing)


def test_one_test_takes_the_pages_one_sure_date() -> None:
    (one,) = with_dates((Audiogram(),), [dated("2018-03-14", 0.1)])
    assert one.tested_on == "2018-03-14"
    (one,) = with_dates((Audiogram(),), [dated("2018-03-14", 0.1, "ask")])
    assert one.tested_on is None
    (one,) = with_dates((Audiogram(),), [dated("2018-03-14", 0.1), dated("2019-03-14", 0.4)])
    assert one.tested_on is None


def test_where_a_chart_was_not_read_the_only_test_takes_no_date_that_stands_elsewhere() -> None:
    """The page's date was that of the chart that was not read, and dated the other one."""
    left = (Audiogram(charts=(outline(0.05, 0.45),)),)
    assert with_dates(left, [dated("2018-03-14", 0.7)])[0].tested_on == "2018-03-14"
    assert with_dates(left, [dated("2018-03-14", 0.7)], unread=True)[0].tested_on is None
    assert with_dates(left, [dated("2018-03-14", 0.2)], unread=True)[0].tested_on == "2018-03-14"


def test_two_tests_take_the_dates_over_their_charts() -> None:
    tests = (Audiogram(charts=(outline(0.05, 0.45),)), Audiogram(charts=(outline(0.55, 0.95),)))
    one, other = with_dates(tests, [dated("2019-03-14", 0.7), dated("2018-03-14", 0.2)])
    assert (one.tested_on, other.tested_on) == ("2018-03-14", "2019-03-14")


def test_a_date_over_one_of_two_charts_may_be_the_reports_and_dates_neither_test() -> None:
    tests = (Audiogram(charts=(outline(0.05, 0.45),)), Audiogram(charts=(outline(0.55, 0.95),)))
    assert [one.tested_on for one in with_dates(tests, [dated("2019-03-14", 0.2)])] == [None, None]


def test_a_printed_page_number_is_given_with_the_number_of_pages() -> None:
    assert value(read((40, 900, "Page 2 of 3")), "page-number") == ("2/3", "sure")
    assert value(read((40, 900, "Seite 1/2")), "page-number") == ("1/2", "sure")
    assert read((40, 900, "Page 4 of 3"), (40, 950, "List 2 of 3")).facts == ()


def test_a_text_asks_that_took_in_another_fact_behind_a_comma() -> None:
    """ "Two-channel audiometer, calibrated" stood as the audiometer, a tester with "; reliability was fair" as one."""
    found = read(
        *HEAD,
        (40, 100, "Tested by: J. Holloway & student; reliability was fair."),
        (40, 130, "Audiometer: two-channel audiometer, calibrated"),
    )
    assert {(value(found, name) or ("", "sure"))[1] for name in ("tester", "audiometer")} == {"ask"}
    assert value(read(*HEAD, (40, 100, "Tested by: Holloway, O. A.")), "tester") == ("Holloway, O. A.", "sure")


@pytest.mark.parametrize(
    "label",
    [
        "Mother's name: Dora Klint",
        "Hospital name: Quayside",
        "Next visit date: 9 Nov 2028",
        "Father's date of birth: 3 May 1980",
        "Referring audiologist: P. Vale",
        "Hearing aid model: Clarion 5",
    ],
)
def test_a_label_with_another_word_before_it_is_not_the_patient_s(label: str) -> None:
    """A father's birth date stood as the patient's, the next visit's as the test's."""
    assert read((40, 40, label)).facts == ()


@pytest.mark.parametrize("label", ["Patient's name: Dora Klint", "1. Name: Dora Klint", "The name: Dora Klint"])
def test_a_label_with_a_number_or_the_patient_before_it_is_the_patient_s(label: str) -> None:
    assert value(read((40, 40, label)), "patient-name") == ("Dora Klint", "sure")


def test_the_patient_s_own_name_stands_beside_a_mother_s() -> None:
    found = read((40, 40, "Name: Finn Klint"), (40, 70, "Mother's name: Dora Klint"))
    assert [(fact.value, fact.standing) for fact in found.facts] == [("Finn Klint", "sure")]


def test_names_below_their_labels_are_sure_where_their_line_is_set_so() -> None:
    """A head of labels over values beside a page of pairs on lines made the patient's name ask."""
    found = read(
        (40, 40, "Patient:"), (300, 40, "Born:"), (40, 62, "Edda Müller"), (300, 62, "29.01.2002"),
        (40, 120, "Tested by: A. Brandt"), (40, 150, "Audiometer: Gannet 12"), (40, 180, "Place: Quay Clinic"),
        (400, 120, "Record no.: 4711"), (400, 150, "Reason: Tinnitus"),
    )  # fmt: skip
    assert value(found, "patient-name") == ("Edda Müller", "sure")


def test_the_full_stop_of_a_sentence_is_no_part_of_a_name() -> None:
    assert value(read((40, 40, "Name: Ada Robledal.")), "patient-name") == ("Ada Robledal", "sure")
    assert value(read((40, 40, "Name: Ada Robledal Jr.")), "patient-name") == ("Ada Robledal Jr.", "sure")


def test_bars_end_values() -> None:
    found = read((40, 40, "Patient: Dario Quill |  Tested 8 Jul 2030 | DOB 3 Mar 1979"))
    assert value(found, "patient-name") == ("Dario Quill", "sure")
    assert value(found, "test-date") == ("2030-07-08", "sure")
    assert value(found, "birth-date") == ("1979-03-03", "sure")


def test_a_date_alone_behind_its_label_needs_no_colon() -> None:
    assert value(read((40, 40, "DOB 3 Mar 1979")), "birth-date") == ("1979-03-03", "sure")
    assert value(read((40, 40, "Born 3 Mar 1979 in a hurry")), "birth-date") == ("1979-03-03", "ask")


def test_a_letter_s_own_date_is_no_date_of_test() -> None:
    assert value(read((40, 40, "Date 3 May 2031"), (40, 80, "Dear colleague")), "test-date") is None


def test_a_name_with_a_letter_that_its_font_does_not_name_asks_and_keeps_it() -> None:
    found = read((40, 40, "Name: Piers Wei\ufffd, MRN: 60-3318"), (40, 70, "Sex: M"))
    assert value(found, "patient-name") == ("Piers Wei\ufffd", "ask")


@pytest.mark.parametrize("given", [True, False])
def test_the_next_label_of_a_line_is_no_name(given: bool) -> None:
    # the name stands in two lines, above and below the middle of its cell, on which both labels stand
    found = read((200, 30, "TAMSWORTH"), (40, 40, "Name, Vorname:"), (400, 40, "Diagnose:"), (200, 50, "Paloma"),
                 (520, 40, "Presbyakusis"), given=given)  # fmt: skip
    name = value(found, "patient-name")
    assert name is None or name[1] == "ask"


def test_a_piece_of_a_label_before_a_record_number_asks() -> None:
    found = read((40, 40, "Record : no.: 454813"), (40, 70, "Sex: F"))
    assert value(found, "record-number") in (None, ("454813", "sure"), ("no.: 454813", "ask"))
