"""Facts and other tests held against their truth: what counts as right, missed, invented and silent."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from octavo.interpret.record import (
    Audiogram,
    EmissionBand,
    Fact,
    FactName,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Reflex,
    Report,
    Source,
    Speech,
    Standing,
    Tympanogram,
)
from octavo.tools.bench.facts import compare_facts, items_of
from octavo.tools.painter import FAMILIES, paint


def fact(name: FactName, value: str, standing: Standing = "sure") -> Fact:
    return Fact(name, value, value, None, 0.9, standing)


def page(*facts: Fact, **tests: Any) -> PageRecord:
    audiograms = (Audiogram(**tests),) if tests else ()
    return PageRecord(Source("p.pdf", "0" * 64, 1, 1, "drawn"), "ask", audiograms, Report(facts=facts))


def verdicts(truth: PageRecord, read: PageRecord | None) -> list[tuple[str, str, bool]]:
    return sorted((f.kind, f.verdict, f.silent) for f in compare_facts(truth, read))


def one(truth: Fact, read: Fact) -> tuple[str, bool]:
    (finding,) = compare_facts(page(truth), page(read))
    return finding.verdict, finding.silent


@pytest.mark.parametrize(
    ("name", "printed", "read", "verdict"),
    [
        ("patient-name", "Ashdown, Ada", "ashdown,  ada", "right"),
        ("patient-name", "Ashdown, Ada", "Ada Ashdown", "right"),
        ("patient-name", "Ashdown, Ada", "Ashdown, Eda", "wrong"),
        ("patient-name", "Ashdown, Ada", "Ashdown", "wrong"),
        ("tester", "M. Jarl", "M Jarl", "right"),
        ("record-number", "HL-10042", "hl-10042", "right"),
        ("record-number", "HL-10042", "HL-10O42", "wrong"),
        ("note", "Ringing in both ears.", "Ringing in both ears", "right"),
        ("birth-date", "1960-03-04", "1960-04-03", "wrong"),
        ("test-time", "09:05", "9:05", "wrong"),
        ("transducer", "inserts, bone-vibrator", "inserts", "wrong"),
    ],
)
def test_each_kind_of_fact_has_its_rule_of_comparison(name: FactName, printed: str, read: str, verdict: str) -> None:
    assert one(fact(name, printed), fact(name, read)) == (verdict, verdict == "wrong")


def test_an_accent_in_two_encodings_is_one_letter() -> None:
    # Unicode, annex 15: e with acute as one character and as two are canonically equivalent
    assert one(fact("patient-name", "Lef\u00e8vre"), fact("patient-name", "Lefe\u0300vre")) == ("right", False)


def test_only_a_sure_value_is_silent() -> None:
    assert one(fact("sex", "female"), fact("sex", "male")) == ("wrong", True)
    assert one(fact("sex", "female"), fact("sex", "male", "ask")) == ("wrong", False)


def test_a_missed_fact_is_no_silent_error_and_an_invented_sure_one_is() -> None:
    truth, read = page(fact("sex", "female")), page(fact("tester", "M. Jarl"))
    assert verdicts(truth, read) == [("sex", "missed", False), ("tester", "invented", True)]


def test_a_refused_page_misses_all() -> None:
    assert verdicts(page(fact("sex", "female")), None) == [("sex", "missed", False)]


def test_what_the_page_leaves_open_is_wrong_only_where_a_wrong_value_is_sure() -> None:
    truth = fact("test-date", "2019-03-04", "ask")
    assert one(truth, fact("test-date", "2019-04-03", "ask")) == ("left-open", False)
    assert one(truth, fact("test-date", "2019-03-04", "sure")) == ("left-open", False)
    assert one(truth, fact("test-date", "2019-04-03", "sure")) == ("wrong", True)
    (finding,) = compare_facts(page(truth), page())
    assert (finding.verdict, finding.counted) == ("left-open", False)


def test_a_value_given_twice_is_not_invented_and_a_second_other_one_is() -> None:
    truth = page(fact("place", "Booth 2"))
    assert verdicts(truth, page(fact("place", "Booth 2"), fact("place", "booth 2"))) == [("place", "right", False)]
    twice = verdicts(truth, page(fact("place", "Room 14"), fact("place", "Booth 2")))
    assert twice == [("place", "invented", True), ("place", "right", False)]


SCORE = Speech("right", "word-recognition", 65.0, 96.0, 25, "List 1", standing="sure")


def test_every_number_of_a_speech_test_counts_by_itself() -> None:
    found = compare_facts(page(speech=(SCORE,)), page(speech=(replace(SCORE, score_percent=90.0),)))
    assert sorted((f.truth.what, f.verdict) for f in found if f.truth) == [
        ("level_db_hl", "right"),
        ("score_percent", "wrong"),
        ("word_list", "right"),
        ("words", "right"),
    ]


def test_a_list_keeps_its_name_with_and_without_the_word_for_it() -> None:
    short, other = replace(SCORE, word_list="1"), replace(SCORE, word_list="List 2")
    assert {f.verdict for f in compare_facts(page(speech=(SCORE,)), page(speech=(short,)))} == {"right"}
    assert ("word-recognition", "wrong", True) in verdicts(page(speech=(SCORE,)), page(speech=(other,)))


def test_speech_of_the_other_ear_is_missed_and_invented() -> None:
    threshold = Speech("right", "srt", 25.0, standing="sure")
    read = page(speech=(replace(threshold, ear="left"),))
    assert verdicts(page(speech=(threshold,)), read) == [
        ("speech-threshold", "invented", True),
        ("speech-threshold", "missed", False),
    ]


def test_masking_that_nobody_printed_is_invented() -> None:
    found = verdicts(page(speech=(SCORE,)), page(speech=(replace(SCORE, masked=True),)))
    assert ("word-recognition", "invented", True) in found


def test_scores_at_two_levels_are_told_apart_by_level() -> None:
    loud = replace(SCORE, level_db_hl=80.0, score_percent=88.0)
    found = compare_facts(page(speech=(SCORE, loud)), page(speech=(loud, SCORE)))
    assert {f.verdict for f in found} == {"right"}
    assert len(found) == 8


def test_a_score_that_was_left_out_makes_no_error_of_the_one_that_was_read() -> None:
    loud = replace(SCORE, level_db_hl=80.0, score_percent=88.0)
    found = compare_facts(page(speech=(SCORE, loud)), page(speech=(loud,)))
    assert sorted(f.verdict for f in found) == ["missed"] * 4 + ["right"] * 4


def test_a_printed_pressure_is_exact_and_one_on_a_curve_alone_is_near() -> None:
    trace = Tympanogram(True, -35.0, 0.65)
    near = Immittance("left", Tympanogram(True, -45.0, 0.6), standing="sure")
    printed = compare_facts(page(immittance=(Immittance("left", trace, standing="sure"),)), page(immittance=(near,)))
    assert {(f.verdict, f.silent) for f in printed} == {("wrong", True)}
    drawn = page(immittance=(Immittance("left", trace, standing="ask"),))
    assert {f.verdict for f in compare_facts(drawn, page(immittance=(near,)))} == {"left-open"}
    far = replace(near, tympanogram=Tympanogram(True, -90.0, 0.65))
    assert sum(f.silent for f in compare_facts(drawn, page(immittance=(far,)))) == 1


def test_no_peak_need_not_be_told_beside_a_type_that_says_so() -> None:
    def of(**numbers: Any) -> PageRecord:
        return page(immittance=(Immittance("left", Tympanogram(**numbers), standing="sure"),))

    silent_on_it, told = of(printed_type="B"), of(has_peak=False, printed_type="B")
    assert sorted(f.verdict for f in compare_facts(told, silent_on_it)) == ["left-open", "right"]
    assert sorted(f.verdict for f in compare_facts(told, told)) == ["left-open", "right"]
    untyped = of(has_peak=False)
    assert [f.verdict for f in compare_facts(untyped, of(has_peak=True))] == ["missed"]


def test_a_reflex_is_right_in_level_and_response_together() -> None:
    def of(reflex: Reflex) -> PageRecord:
        return page(immittance=(Immittance("right", None, (reflex,), standing="sure"),))

    true = Reflex("left", 1000.0, 95.0, standing="sure")
    assert verdicts(of(true), of(true)) == [("reflex", "right", False)]
    assert verdicts(of(true), of(replace(true, response=False))) == [("reflex", "wrong", True)]
    assert verdicts(of(true), of(replace(true, stimulus_ear="right"))) == [
        ("reflex", "invented", True),
        ("reflex", "missed", False),
    ]


def test_bands_of_emissions_and_printed_averages_are_compared() -> None:
    emission = OtoacousticEmission("right", "dpoae", (EmissionBand(2000.0, 5.0, -12.0, 17.0, "pass"),), standing="sure")
    average = PrintedAverage("right", (500.0, 1000.0, 2000.0), 28.0, standing="sure")
    truth = page(otoacoustic=(emission,), printed_averages=(average,))
    read = page(
        otoacoustic=(replace(emission, bands=(EmissionBand(2000.0, 5.0, -12.0, 17.0, "refer"),)),),
        printed_averages=(replace(average, level_db_hl=23.0, standing="ask"),),
    )
    found = verdicts(truth, read)
    assert found.count(("emission", "right", False)) == 3
    assert ("emission", "wrong", True) in found
    assert ("average", "wrong", False) in found


@pytest.mark.parametrize("name", [name for name, family in FAMILIES.items() if "facts" in family.tags])
def test_a_perfect_reading_of_a_painted_page_is_all_right(name: str) -> None:
    for seed in range(3):
        truth = paint(name, seed).record
        found = compare_facts(truth, truth)
        assert len(found) == len(items_of(truth))
        assert {f.verdict for f in found} <= {"right", "left-open"}
        assert {f.verdict for f in found if f.counted} <= {"right"}
