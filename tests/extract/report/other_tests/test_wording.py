"""Words around a value that say it is of another day, a norm or another matter; the truth is what the text says."""

from __future__ import annotations

import tomllib
from typing import get_args

import pytest
from printed_by_hand import read

from octavo.extract.report.layout.vocabulary import LABELS
from octavo.extract.report.layout.wording.phrases import Meaning


def sure(text: str) -> list[tuple[str, str, float | None, float | None]]:
    """Give what stands as sure of a page's speech tests."""
    return [
        (one.ear, one.measure, one.level_db_hl, one.score_percent)
        for one in read(text).speech
        if one.standing == "sure"
    ]


def why(text: str) -> set[str]:
    return {code for one in read(text).speech for code in one.why_ask}


def test_every_wording_is_given_in_four_languages() -> None:
    told = tomllib.loads((LABELS / "wording.toml").read_text("utf-8"))
    assert set(told) == set(get_args(Meaning))
    assert all(set(languages) == {"en", "de", "es", "fr"} and all(languages.values()) for languages in told.values())


@pytest.mark.parametrize(
    "text",
    [
        "Compared with the last visit: right SRT 25 dB HL, left SRT 30 dB HL",
        "Vorbefund: rechts SRT 25 dB HL, links SRT 30 dB HL",
        "Prueba anterior: OD SRT 25 dB HL, OI SRT 30 dB HL",
        "Examen précédent : OD SRT 25 dB HL, OG SRT 30 dB HL",
    ],
)
def test_a_value_of_an_earlier_visit_does_not_stand_as_sure(text: str) -> None:
    assert read(text).speech
    assert sure(text) == []
    assert "test-date-uncertain" in why(text)


def test_a_head_that_says_previous_makes_its_column_ask_and_not_the_one_beside_it() -> None:
    text = "\n".join(
        [
            f"{'':20}{'Previous right':24}{'Right':24}",
            f"{'SRT (dB HL)':20}{'25':24}{'35':24}",
        ]
    )
    assert [(one.level_db_hl, "test-date-uncertain" in one.why_ask) for one in read(text).speech] == [
        (25, True),
        (35, False),
    ]


def test_two_thresholds_of_an_ear_that_differ_both_ask() -> None:
    """A page with two visits gave both of them as sure."""
    text = "Right SRT 25 dB HL\n\n\nRight SRT 40 dB HL\n\n\nLeft SRT 20 dB HL"
    assert sure(text) == [("left", "srt", 20, None)]


def test_two_scores_at_two_levels_are_no_contradiction() -> None:
    text = "Right WRS 92 % at 60 dB HL\n\n\nRight WRS 100 % at 75 dB HL"
    assert sure(text) == [("right", "word-recognition", 60, 92), ("right", "word-recognition", 75, 100)]


@pytest.mark.parametrize(
    "text",
    ["Normal range: right SRT 20 dB HL", "Right SRT improved by 10 dB HL", "Criterion: right SRT 60 dB HL"],
)
def test_a_norm_or_a_change_is_no_threshold(text: str) -> None:
    assert sure(text) == []


def test_greater_than_is_no_response_at_that_level() -> None:
    (one,) = read("Right UCL greater than 100 dB HL").speech
    assert (one.level_db_hl, one.response, one.standing) == (100, False, "ask")


def test_an_ear_named_behind_its_value_wins_over_one_named_before_the_last() -> None:
    """The left ear's threshold was given the right one's level: the ear named last before it was taken."""
    (first, second) = read("The left ear SRT was 50 dB HL. On that day his SRT was 30 dB HL in the right ear.").speech
    assert (first.ear, first.level_db_hl) == ("left", 50)
    assert (second.ear, second.level_db_hl, second.standing) == ("right", 30, "ask")


def test_a_list_named_a_is_no_word_before_the_next_line_s_ear() -> None:
    right, left = read("Right: WRS 92 % at 50 dB HL, List 3 A\nLeft: WRS 88 % at 60 dB HL, List 5").speech
    assert (right.ear, right.word_list) == ("right", "List 3 A")
    assert (left.ear, left.word_list) == ("left", "List 5")


def test_heads_that_name_no_ear_beside_such_that_do_leave_no_ear_sure_between_columns() -> None:
    """Under "Unaided", "Aided R" and "Aided L" the left ear's threshold stood as the right one's."""
    text = "\n".join(
        [
            "                    Without  aid  Aided ear R  Aided ear L  Aided both",
            "SRT (dB HL)           45            25            30        20",
        ]
    )
    assert sure(text) == []


def test_heads_that_stand_right_over_their_columns_name_each_its_ear() -> None:
    text = "\n".join(
        [
            "                    Without  aid  Aided ear R  Aided ear L  Aided both",
            "SRT (dB HL)         45            25           30           20",
        ]
    )
    assert [(one.ear, one.level_db_hl) for one in read(text).speech if one.standing == "sure"] == [
        ("right", 25), ("left", 30), ("both", 20),
    ]  # fmt: skip


def test_an_emission_s_level_in_a_sentence_on_another_matter_asks() -> None:
    text = "TEOAE: right PASS, left REFER (SNR > 6 dB)\nHearing aid fitting: right ear gain 20 dB at 1000 Hz"
    assert all(one.standing == "ask" for one in read(text).otoacoustic if one.bands)
