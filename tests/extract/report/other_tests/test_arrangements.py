"""Results in arrangements that other hands print; the truth is what the text says, by hand."""

from __future__ import annotations

import pytest
from by_hand import sheet
from printed_by_hand import read

from octavo.extract.page import Word
from octavo.extract.report.lines import lines_of
from octavo.extract.report.other_tests import read_other_tests
from octavo.interpret.record import Speech


def speech(text: str) -> list[tuple[object, ...]]:
    """Give ear, measure, level, score, masked and standing of what is read of speech."""
    return [_of(one) for one in read(text).speech]


def _of(one: Speech) -> tuple[object, ...]:
    return one.ear, one.measure, one.level_db_hl, one.score_percent, one.masked, one.standing


def test_labels_between_the_ears_columns_name_the_values_on_both_sides() -> None:
    """The right ear's values, before their labels, were left out."""
    text = """
RIGHT                                              LEFT
15        Speech recognition threshold (dB HL)     20
100       Word recognition (%)                     96
50        Presentation level (dB HL)               55
"""
    assert speech(text) == [
        ("right", "srt", 15, None, False, "sure"), ("left", "srt", 20, None, False, "sure"),
        ("right", "word-recognition", 50, 100, False, "sure"), ("left", "word-recognition", 55, 96, False, "sure"),
    ]  # fmt: skip


def test_values_before_a_label_without_heads_of_both_ears_are_not_given_to_it() -> None:
    text = "15        Speech recognition threshold (dB HL)     20"
    assert all(standing == "ask" for *_, standing in speech(text))


def test_a_column_of_norms_beside_the_ears_is_nobody_s() -> None:
    """The left ear had two peak pressures, its own and that of the column of norms."""
    text = """
Tympanometry               Right     Left      Normal range
Type                       A         C
Peak pressure (daPa)       -15       -210      -100 to +50
Static admittance (mmho)   0.9       0.4       0.3 - 1.6
"""
    found = [(i.ear, i.tympanogram.peak_pressure_dapa, i.standing) for i in read(text).immittance if i.tympanogram]
    assert found == [("right", -15, "sure"), ("left", -210, "sure")]


def test_a_table_s_line_that_is_named_like_a_title_does_not_part_it_from_its_heads() -> None:
    text = """
                 Right           Left
SRT              25 dB HL        40 dB HL
Tympanogram      A               As
Canal volume     1.2 ml          1.1 ml
"""
    found = [(i.ear, i.tympanogram.printed_type, i.standing) for i in read(text).immittance if i.tympanogram]
    assert found == [("right", "A", "sure"), ("left", "As", "sure")]


def test_a_note_on_both_ears_above_a_table_is_no_head_of_its_columns() -> None:
    text = """
Notes  Ringing in both ears.
Ear          SRT (dB HL)
Right        25
Left         40
"""
    assert [(ear, level, standing) for ear, _, level, *_, standing in speech(text)] == [
        ("right", 25, "sure"), ("left", 40, "sure"),
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["Tested by: L. Orne", "Tested by: L. O.", "Re: Ada Hollis"])
def test_a_letter_of_a_name_is_no_ear(name: str) -> None:
    """The left ear's initial over a table gave its ear to what stood below, and to the other ear's line a doubt."""
    assert [(one[0], one[-1]) for one in speech(f"{name}\nSRT 25 dB HL")] == [("unspecified", "ask")]


def test_a_title_with_its_day_is_a_title() -> None:
    text = """
Born 3 May 2029
Transient evoked otoacoustic emissions, 6 May 2030
             Right ear    Left ear
Result       Pass         Refer
"""
    assert [(one.ear, one.result) for one in read(text).otoacoustic] == [("right", "pass"), ("left", "refer")]


def test_the_numbers_of_a_date_are_no_levels() -> None:
    assert speech("Right: SRT 6 May 2030") == []


@pytest.mark.parametrize("text", ["On 4 May 2027 the right SRT was 25 dB HL", "Her SRT in 2027 was 25 dB HL right"])
def test_a_value_whose_sentence_names_a_day_may_be_of_another_test(text: str) -> None:
    (one,) = read(text).speech
    assert one.standing == "ask"
    assert "test-date-uncertain" in one.why_ask


@pytest.mark.parametrize(
    ("legend", "masked", "standing"), [("* masked", True, "sure"), ("* not repeated", False, "ask"), ("", False, "ask")]
)
def test_a_star_says_what_the_page_says_that_it_does(legend: str, masked: bool, standing: str) -> None:
    text = f"SRT right 25 dB HL\nSRT left 50 dB HL *\n\n{legend}"
    assert [(one[4], one[5]) for one in speech(text)] == [(False, "sure"), (masked, standing)]


def test_a_level_in_brackets_with_mask_behind_it_is_the_masking_s() -> None:
    """The 50 dB of the masking stood beside 85 dB as the level of the words."""
    text = """
             Word recognition                    Words    List
Right ear    88% @ 70 dB HL                      25       4
Left ear     76% @ 85 dB HL (50 dB mask)         25       5
"""
    assert speech(text) == [
        ("right", "word-recognition", 70, 88, False, "sure"), ("left", "word-recognition", 85, 76, True, "sure"),
    ]  # fmt: skip


def test_a_level_in_a_line_s_label_is_both_ears() -> None:
    text = """
                               Right     Left
Word recognition at 65 dB HL (%)   76        60
"""
    assert [(one[0], one[2], one[3]) for one in speech(text)] == [("right", 65, 76), ("left", 65, 60)]


def test_what_stands_behind_an_empty_box_was_not_chosen() -> None:
    text = "Tympanogram right: \u2612 A \u2610 B \u2610 C      Tympanogram left: \u2610 A \u2612 B \u2610 C"
    found = [(i.ear, i.tympanogram.printed_type) for i in read(text).immittance if i.tympanogram]
    assert found == [("right", "A"), ("left", "B")]


def test_masked_behind_a_list_with_a_number_is_said_of_its_score() -> None:
    text = "Right: WRS 100 % at 35 dB HL, List Phon. bal. 2, masked\nLeft: WRS 96 % at 30 dB HL, List 3"
    assert [(one[0], one[4]) for one in speech(text)] == [("right", True), ("left", False)]


def test_a_word_of_the_file_itself_is_not_corrected_to_a_label() -> None:
    """ "Asking" was taken for a misread "masking"."""
    (one,) = read("Thank you for asking. Right SRT 25 dB HL").speech
    assert not one.masked


def test_numbers_of_another_test_in_one_text_are_no_averages() -> None:
    text = "Pure tone averages (500, 1000, 2000 Hz): right 28 dB HL, left 43 dB HL. SRT right 25 dB HL, left 40 dB HL."
    assert [(one.ear, one.level_db_hl) for one in read(text).printed_averages] == [("right", 28), ("left", 43)]


def test_a_type_that_both_ears_have_is_each_one_s() -> None:
    found = read("Tympanograms: type A in both ears").immittance
    found = [(i.ear, i.tympanogram.printed_type) for i in found if i.tympanogram]
    assert found == [("right", "A"), ("left", "A")]


@pytest.mark.parametrize(
    "heads", ["07/21/2016    12/25/2017", "25.12.2017    21.07.2016", "2017          2016", "21 July 2016  6 May 2017"]
)
def test_scores_in_columns_of_several_dates_are_no_sure_scores_of_this_test(heads: str) -> None:
    page = f"Speech testing\n              {heads}\nWRS Right     92%           84%\nWRS Left      52%           48%"
    assert {one.standing for one in read(page).speech} == {"ask"}
    assert all("test-date-uncertain" in one.why_ask for one in read(page).speech)


def test_a_table_below_one_of_several_dates_is_of_this_test() -> None:
    page = """Speech testing
              07/21/2016    12/25/2017
WRS Right     92%           84%

Tympanometry
              Right         Left
Type          A             As
"""
    assert {one.standing for one in read(page).immittance} == {"sure"}


def test_dates_with_labels_of_their_own_head_no_columns() -> None:
    page = "DOB: 04/11/1953      Test date: 12/25/2017\nWRS right: 92% at 60 dB HL"
    assert {one.standing for one in read(page).speech} == {"sure"}


def test_an_ear_in_a_cell_merged_over_two_rows_is_not_surely_that_of_the_second_alone() -> None:
    # "RIGHT" stood between its two rows and "LEFT" between the next two, half a line from each
    def line(y: float, *cells: tuple[float, str]) -> list[Word]:
        return [Word(text, (x, y - 7, x + 8 * len(text), y + 7)) for x, text in cells]

    words = [*line(20, (40, "Acoustic"), (110, "reflexes")), *line(46, (260, "1000"), (300, "Hz")),
             *line(72, (120, "Ipsilateral"), (260, "110")), *line(84, (40, "RIGHT")),
             *line(96, (120, "Contralateral"), (260, "absent")), *line(120, (120, "Ipsilateral"), (260, "80")),
             *line(132, (40, "LEFT")), *line(144, (120, "Contralateral"), (260, "85"))]  # fmt: skip
    found = read_other_tests(lines_of(words), sheet("drawn", words=tuple(words))).immittance
    assert not [one for ear in found for one in ear.reflexes if one.standing == "sure"]
