"""Speech results in tables and lines, in four languages; the truth is what the text says, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from printed_by_hand import read, sheet_of, words_of

from octavo.extract.page import Word
from octavo.extract.report.lines import lines_of
from octavo.extract.report.other_tests import read_other_tests
from octavo.extract.report.other_tests.speech_checks import whole_words
from octavo.interpret.record import Speech

TABLES = {
    "en": ("Speech audiometry", "Right", "Left", "SRT (dB HL)", "WRS (%)", "Level (dB HL)", "Word list"),
    "de": ("Sprachaudiometrie", "Rechts", "Links", "Sprachverständlichkeitsschwelle (dB HL)", "Einsilberverstehen (%)",
           "Pegel (dB HL)", "Liste"),
    "es": ("Logoaudiometría", "OD", "OI", "Umbral de recepción verbal (dB HL)", "Discriminación (%)", "Nivel (dB HL)",
           "Lista"),
    "fr": ("Audiométrie vocale", "Droite", "Gauche", "Seuil d'intelligibilité (dB HL)", "Intelligibilité (%)",
           "Niveau (dB HL)", "Liste"),
}  # fmt: skip


def facts(one: Speech) -> tuple[object, ...]:
    return one.ear, one.measure, one.level_db_hl, one.score_percent, one.word_list


TRUE = [
    ("right", "srt", 25, None, None),
    ("left", "srt", 30, None, None),
    ("right", "word-recognition", 65, 92, "3A"),
    ("left", "word-recognition", 70, 88, "4B"),
]


@pytest.mark.parametrize("language", TABLES)
def test_a_table_with_the_ears_as_columns_is_read_in_every_language(language: str) -> None:
    title, right, left, srt, score, level, words = TABLES[language]
    rows = [(srt, "25", "30"), (score, "92", "88"), (level, "65", "70"), (words, "3A", "4B")]
    page = "\n".join([title, f"{'':44}{right:14}{left}", *(f"{a:44}{b:14}{c}" for a, b, c in rows)])
    found = read(page).speech
    assert [facts(one) for one in found] == TRUE
    assert all(one.standing == "sure" for one in found)


@pytest.mark.parametrize("language", TABLES)
def test_a_table_with_the_ears_as_rows_is_read_in_every_language(language: str) -> None:
    _, right, left, srt, score, level, words = TABLES[language]
    page = "\n".join(
        f"{a:14}{b:46}{c:30}{d:20}{e}"
        for a, b, c, d, e in (
            ("", srt, score, level, words), (right, "25", "92", "65", "3A"), (left, "30", "88", "70", "4B")
        )
    )  # fmt: skip
    assert sorted(facts(one) for one in read(page).speech) == sorted(TRUE)


def test_lines_with_the_ear_before_each_value_are_read() -> None:
    found = read("""
SRT R: 25 dB HL   L: 30 dB HL
WRS: right 92 % at 65 dB HL (25 words), left 88 % at 70 dB HL, masked
""").speech
    assert [(one.ear, one.level_db_hl, one.score_percent, one.words, one.masked) for one in found] == [
        ("right", 25, None, None, False), ("left", 30, None, None, False),
        ("right", 65, 92, 25, False), ("left", 70, 88, None, True),
    ]  # fmt: skip


def test_a_text_that_runs_over_lines_keeps_its_ear() -> None:
    found = read("""
Right: SRT 25 dB HL; WRS
92 % at 65 dB HL
Left: SRT 30 dB HL; WRS
88 % at 70 dB HL
""").speech
    assert [(one.ear, one.level_db_hl) for one in found] == [("right", 25), ("right", 65), ("left", 30), ("left", 70)]


@pytest.mark.parametrize(("confidence", "standing"), [(1.0, "sure"), (0.9, "ask")])
def test_a_sentence_that_names_each_value_s_ear_behind_it_is_clear_where_no_word_was_misread(
    confidence: float, standing: str
) -> None:
    text = "The speech recognition threshold was 45 dB HL on the right and 50 dB HL on the left."
    found = read(text, confidence=confidence).speech
    assert [(one.ear, one.level_db_hl) for one in found] == [("right", 45), ("left", 50)]
    assert {one.standing for one in found} == {standing}


@pytest.mark.parametrize(
    "text",
    [
        "The speech recognition threshold was 45 dB HL on the right.",
        "The SRT was 45 dB HL with 60 dB HL of masking on the right and 50 dB HL on the left.",
    ],
)
def test_a_sentence_in_which_an_ear_may_belong_to_another_value_asks(text: str) -> None:
    assert all(one.standing == "ask" for one in read(text).speech)


def test_aided_results_by_loudspeaker_are_told_apart() -> None:
    (one,) = read("Aided SRT in sound field: 20 dB HL").speech
    assert (one.ear, one.aided, one.conduction) == ("both", True, "field")


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("SRT right: 25", "unit-missing"),
        ("SRT right: 25 dB SPL", "unit-differs"),
        ("SRT right: 185 dB HL", "implausible"),
        ("SRT: 25 dB HL", "ear-uncertain"),
        ("WRS right: 93 % (25 words)", "numbers-differ"),
        ("WRS right: 88 % in noise", "conditions-unclear"),
    ],
)
def test_what_the_page_leaves_open_asks_with_its_reason(line: str, code: str) -> None:
    (one,) = read(line).speech
    assert one.standing == "ask"
    assert code in one.why_ask


def test_two_thresholds_that_share_an_ear_s_name_ask() -> None:
    found = read("Right: SRT 25 dB HL\nLcft: SRT 40 dB HL").speech
    assert [one.standing for one in found] == ["ask", "ask"]


def test_a_number_that_nothing_is_made_of_lets_its_score_ask() -> None:
    page = "Speech\n          WRS (%)   Level (dB HL)   Frobs\nRight     92        65              45"
    (one,) = read(page).speech
    assert (one.score_percent, one.standing) == (92, "ask")


@pytest.mark.parametrize("text", ["SRT", "SRT:        WRS:", "Speech audiometry", "SRT DNT", "MCL  UCL  WRS"])
def test_labels_without_values_give_nothing(text: str) -> None:
    assert read(text).speech == ()


@given(st.sampled_from((10, 20, 25, 50)), st.data())
@settings(max_examples=60, deadline=None)
def test_every_score_of_whole_words_fits_its_list(words: int, data: st.DataObject) -> None:
    right = data.draw(st.integers(0, words))
    assert whole_words(round(100 * right / words), words)


@given(st.integers(-10, 24), st.sampled_from((" dB HL", "dB HL", " dBHL", " dB")))
@settings(max_examples=60, deadline=None)
def test_a_level_is_read_as_it_is_printed(steps: int, unit: str) -> None:
    level = 5 * (steps % 25) - 10
    (one,) = read(f"SRT left: {level}{unit}").speech
    assert (one.ear, one.level_db_hl, one.standing) == ("left", level, "sure")


def test_a_text_that_breaks_off_at_a_comma_asks_how_the_test_was_done() -> None:
    (one,) = read("Right: WRS 96 % at 50 dB HL, 25 words,").speech
    assert "conditions-unclear" in one.why_ask


def test_a_comma_at_a_line_s_end_before_the_next_ear_asks_too() -> None:
    right, left = read("Right: WRS 96 % at 50 dB HL,\nLeft: WRS 88 % at 60 dB HL").speech
    assert "conditions-unclear" in right.why_ask
    assert "conditions-unclear" not in left.why_ask


@pytest.mark.parametrize(("count", "percent"), [("0", "92"), ("25", "920")])
def test_numbers_that_the_record_has_no_room_for_are_none_and_ask(count: str, percent: str) -> None:
    page = f"Speech\n          WRS (%)   Level (dB HL)   Words\nRight     {percent}       65              {count}"
    (one,) = read(page).speech
    assert (one.words is None, one.score_percent is None) == (count == "0", percent == "920")
    assert one.standing == "ask"


def test_a_label_that_lost_its_space_still_names_its_column() -> None:
    page = "        Speechrecognition threshold   WRS\nRight   30 dB HL                      90 %"
    found = {one.measure: one for one in read(page).speech}
    assert found["srt"].level_db_hl == 30
    assert found["word-recognition"].score_percent == 90


def test_a_serial_number_is_no_ratio_of_signal_to_noise() -> None:
    page = "Skerry 7, S/N 69459\nNext visit 2.6.2021\nSpeech\nRight: WRS 90 % at 60 dB HL"
    assert [one.snr_db for one in read(page).speech] == [None]


@pytest.mark.parametrize(("unit", "standing"), [("dB HL", "sure"), ("dB", "ask")])
def test_a_german_speech_level_in_plain_db_may_be_sound_pressure_level(unit: str, standing: str) -> None:
    """65 dB of the Freiburg test are dB SPL, and were taken for 65 dB HL."""
    (one,) = read(f"Rechts: Einsilberverstehen 95 % bei 65 {unit}").speech
    assert (one.standing, "reference-unclear" in one.why_ask) == (standing, standing == "ask")


def test_a_german_loss_for_numbers_has_the_normal_ear_for_its_reference() -> None:
    (one,) = read("Rechts: Hörverlust für Zahlen 25 dB").speech
    assert (one.measure, one.level_db_hl, one.standing) == ("srt", 25, "sure")


def test_an_english_speech_level_in_plain_db_is_hearing_level() -> None:
    (one,) = read("Right: Word recognition 95 % at 65 dB").speech
    assert one.standing == "sure"


def test_a_head_whose_space_was_lost_within_a_label_is_a_head_still() -> None:
    """Where "No. of words" was read as "No. ofwords", its "No" passed for a value, and the whole table was lost."""
    page = "\n".join(
        [
            "Speech tests",
            f"{'Ear':12}{'SRT (dB HL)':18}{'WRS (%)':14}{'Level (dB HL)':18}{'No. ofwords':14}",
            f"{'Right':12}{'20':18}{'98':14}{'60':18}{'50':14}",
        ]
    )
    srt, score = read(page).speech
    assert (srt.ear, srt.level_db_hl) == ("right", 20)
    assert (score.score_percent, score.level_db_hl, score.words) == (98, 60, 50)


def test_the_number_in_a_list_s_name_is_no_score() -> None:
    (one,) = read("Right ear: WRS 88% at 70 dB HL (NU-6, List 1A, 25 words)").speech
    assert (one.score_percent, one.level_db_hl, one.words, one.word_list) == (88, 70, 25, "List 1A")


def test_a_list_s_name_ends_before_its_score() -> None:
    (one,) = read("Right: WRS List 3 = 88 % @ 60 dB HL").speech
    assert (one.word_list, one.score_percent) == ("List 3", 88)


def test_thresholds_obtained_at_levels_in_a_sentence_are_read_and_ask() -> None:
    page = "Speech reception thresholds were obtained at 25 dB in the right ear and 40 dB in the left ear."
    found = read(f"{page} Tympanograms were flat.").speech
    assert [(one.ear, one.measure, one.level_db_hl) for one in found] == [("right", "srt", 25), ("left", "srt", 40)]


def test_a_head_s_first_line_is_no_end_of_the_text_above_it() -> None:
    page = "Seen with a friend\n       SRT\n       (dB HL)\nRight  25\nLeft   30"
    assert [(one.ear, one.level_db_hl) for one in read(page).speech] == [("right", 25), ("left", 30)]


def test_a_line_of_which_no_letter_was_read_does_no_harm() -> None:
    words = (*words_of("SRT right 25 dB HL"), Word("", (30, 60, 40, 70)))
    (one,) = read_other_tests(lines_of(words), sheet_of(words)).speech
    assert (one.ear, one.level_db_hl) == ("right", 25)
