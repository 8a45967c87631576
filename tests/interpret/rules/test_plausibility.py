"""Suspicious values are pointed at and never changed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from any_records import page_records, threshold
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import asked, page, rich_page, value

from octavo.interpret.reasons import REASONS
from octavo.interpret.record import Audiogram, Conduction, PageRecord, Seen, Threshold
from octavo.interpret.rules.plausibility import implausible, with_doubts


def indexes(*values: Threshold) -> list[int]:
    return [doubt.index for doubt in implausible(values)]


# Common practice: bone worse than air by more than test-retest cannot be.
@pytest.mark.parametrize(("bone_db", "doubted"), [(35, []), (40, [1]), (20, [])])
def test_bone_worse_than_air_by_10_db_is_doubted(bone_db: float, doubted: list[int]) -> None:
    assert indexes(value("right", 1000, 30), value("right", 1000, bone_db, "bone")) == doubted


def test_bone_is_held_against_the_same_ear_s_air_only() -> None:
    assert indexes(value("right", 1000, 10), value("left", 1000, 50, "bone")) == []


def test_bone_is_held_against_the_masked_air_value_where_there_is_one() -> None:
    values = (value("right", 1000, 30), value("right", 1000, 60, masked=True), value("right", 1000, 55, "bone"))
    assert indexes(*values) == []


def test_unheard_bone_below_a_heard_air_value_is_doubted() -> None:
    # Not heard at 45 dB means 50 dB or more by bone, 10 dB worse than the 40 dB by air.
    bone = value("right", 250, 45, "bone", response=False)
    assert indexes(value("right", 250, 40), bone) == [1]
    assert indexes(value("right", 250, 60), bone) == []


def test_unheard_air_raises_no_doubt_on_bone() -> None:
    assert indexes(value("left", 1000, 60, response=False), value("left", 1000, 70, "bone")) == []


# BSA 2018, rules for masking: noise in the other ear leaves a threshold or raises it; 10 dB is test and retest.
@pytest.mark.parametrize(("masked_db", "doubted"), [(80, []), (60, []), (50, []), (45, [0, 1])])
def test_masked_better_than_unmasked_by_15_db_is_doubted_both(masked_db: float, doubted: list[int]) -> None:
    # a number in a ring, on a copy, stood as air at 90 dB where the masked value was 50
    assert indexes(value("right", 1000, 60), value("right", 1000, masked_db, masked=True)) == doubted
    assert indexes(value("right", 1000, 60), value("left", 1000, masked_db, masked=True)) == []
    assert indexes(value("right", 1000, 60), value("right", 2000, masked_db, masked=True)) == []


# BSA, rules for masking [memory]: a tone 55 dB louder than the other ear's threshold reaches it through any earphone.
@pytest.mark.parametrize(
    ("other_db", "hz", "doubted"), [(45, 1000, [0]), (50, 1000, []), (10, 250, []), (10, 4000, [])]
)
def test_air_that_is_not_masked_between_masked_values_though_the_other_ear_hears_it_is_doubted(
    other_db: float, hz: float, doubted: list[int]
) -> None:
    # seen on a form: a triangle with round corners stood as a circle in a row of triangles
    masked = (value("right", beside, 100, masked=True) for beside in (500, 2000))
    assert indexes(value("right", hz, 100), value("left", hz, other_db), *masked) == doubted
    both = value("right", hz, 100, masked=True)
    assert indexes(value("right", hz, 100), both, value("left", hz, other_db)) == []


@pytest.mark.parametrize(("high_db", "doubted"), [(65, []), (70, [0, 1])])
def test_neighbouring_octaves_50_db_apart_are_doubted_both(high_db: float, doubted: list[int]) -> None:
    assert indexes(value("right", 1000, 20), value("right", 2000, high_db)) == doubted


def test_two_octaves_may_lie_50_db_apart() -> None:
    assert indexes(value("right", 1000, 20), value("right", 4000, 70)) == []


def test_octaves_of_different_rows_are_not_compared() -> None:
    assert indexes(value("right", 1000, 20), value("right", 2000, 80, masked=True), value("left", 2000, 80)) == []


# Limits: trade practice and the minimum ranges of IEC 60645-1, with the stated allowance.
@pytest.mark.parametrize(
    ("hz", "level", "conduction", "doubted"),
    [(250, 50, "bone", []), (250, 55, "bone", [0]), (250, 110, "air", []), (250, 115, "air", [0]),
     (1000, 75, "bone", []), (1000, 80, "bone", [0]), (6000, 55, "bone", []), (6000, 60, "bone", [0]),
     (1000, 120, "air", []), (1000, 135, "air", [0]), (8000, 110, "air", []), (8000, 115, "air", [0])],
)  # fmt: skip
def test_a_level_beyond_reach_is_doubted(hz: float, level: float, conduction: str, doubted: list[int]) -> None:
    one = value("left", hz, level, "bone" if conduction == "bone" else "air")
    assert indexes(one) == doubted


# Common practice: a device ends at one level at a frequency, for both ears; an arrow seen wrongly shows against it.
@pytest.mark.parametrize(("heard_db", "doubted"), [(85, []), (90, [0]), (95, [0, 1])])
def test_no_response_is_held_against_what_was_heard_at_its_frequency(heard_db: float, doubted: list[int]) -> None:
    assert indexes(value("right", 250, heard_db), value("left", 250, 90, response=False)) == doubted


@pytest.mark.parametrize(
    ("level", "conduction", "doubted"), [(50, "air", [0]), (55, "air", []), (20, "bone", [0]), (25, "bone", [])]
)
def test_no_response_where_no_audiometer_ends_is_doubted(
    level: float, conduction: Conduction, doubted: list[int]
) -> None:
    assert indexes(value("right", 4000, level, conduction, response=False)) == doubted


def test_no_response_by_bone_says_nothing_of_the_end_by_air() -> None:
    assert indexes(value("right", 1000, 80), value("left", 1000, 70, "bone", response=False)) == []


@given(st.lists(threshold(), max_size=12).map(tuple))
@settings(max_examples=50, deadline=None)
def test_every_doubt_names_a_value_and_a_registered_code(values: tuple[Threshold, ...]) -> None:
    for doubt in implausible(values):
        assert 0 <= doubt.index < len(values)
        assert REASONS[doubt.code].kind in ("ask", "either")


@given(page_records())
@settings(max_examples=50, deadline=None)
def test_a_doubt_lowers_the_standing_and_changes_nothing_else(record: PageRecord) -> None:
    doubted = with_doubts(record)
    for before, after in zip(record.audiograms, doubted.audiograms, strict=True):
        for old, new in zip(before.thresholds, after.thresholds, strict=True):
            assert replace(new, standing=old.standing, why_ask=old.why_ask) == old
            assert old.standing == "sure" or new.standing == "ask"
            assert new.why_ask[: len(old.why_ask)] == old.why_ask
    assert record.standing == "sure" or doubted.standing == "ask"


def on_a_chart(one: Threshold, chart: int | None = 0) -> Threshold:
    """Let a value have been seen at a place of a chart, or of a table."""
    return replace(one, seen=Seen(chart, (0.31, 0.37), one.frequency_hz, one.level_db_hl))


STEEP = (value("left", 1000, 10), value("left", 2000, 35), value("left", 4000, 90), value("left", 8000, 95))


def test_hearing_that_falls_by_55_db_an_octave_on_a_clear_chart_does_not_ask_and_is_pointed_at_all_the_same() -> None:
    steep = tuple(map(on_a_chart, STEEP))
    record = page(Audiogram(thresholds=steep))
    assert with_doubts(record) == record
    assert indexes(*steep) == [1, 2]


@pytest.mark.parametrize(
    "other",
    [
        replace(STEEP[3], standing="ask", why_ask=("faint",)),
        replace(STEEP[3], probability=0.98),
        replace(STEEP[3], level_db_hl=120.0),
    ],
)
def test_a_jump_asks_where_anything_in_its_row_is_doubtful(other: Threshold) -> None:
    (audiogram,) = with_doubts(page(Audiogram(thresholds=(*map(on_a_chart, (*STEEP[:3], other)),)))).audiograms
    assert [t.standing for t in audiogram.thresholds[:3]] == ["sure", "ask", "ask"]


@pytest.mark.parametrize("chart", [None, 0])
def test_a_jump_between_numbers_of_a_table_asks(chart: int | None) -> None:
    rows = tuple(on_a_chart(t, chart) for t in STEEP)
    (audiogram,) = with_doubts(page(Audiogram(thresholds=rows))).audiograms
    assert [t.standing == "ask" for t in audiogram.thresholds] == [False, chart is None, chart is None, False]


def test_a_doubted_value_makes_its_page_ask() -> None:
    record = page(Audiogram(thresholds=(value("right", 1000, 20), value("right", 2000, 80))))
    assert record.standing == "sure"
    doubted = with_doubts(record)
    assert doubted.standing == "ask"
    assert all(t.why_ask == ("implausible",) for t in doubted.audiograms[0].thresholds)


def test_doubting_twice_is_doubting_once() -> None:
    record = page(Audiogram(thresholds=(asked("right", 1000, 20, "faint"), value("right", 2000, 80))))
    assert with_doubts(with_doubts(record)) == with_doubts(record)


def test_a_plausible_page_stays_as_it_is() -> None:
    assert with_doubts(rich_page()) == rich_page()


# IEC 60645-1 asks for as much at 4 kHz as at any frequency; audiometers end sooner at 6 and 8 kHz (common practice).
@pytest.mark.parametrize(
    ("heard_db", "hz", "doubted"), [(85, 6000, [1]), (90, 8000, [1]), (75, 6000, []), (85, 2000, [1])]
)
def test_air_unheard_well_below_what_was_given_where_audiometers_end_sooner_is_doubted(
    heard_db: float, hz: float, doubted: list[int]
) -> None:
    # the arrow is of a bone bracket that lies hidden on the masked air mark
    unheard = value("left", 4000, 70, masked=True, response=False)
    assert indexes(value("right", hz, heard_db), unheard) == doubted


@pytest.mark.parametrize(
    ("level", "hz", "doubted"), [(100, 8000, [1]), (75, 8000, []), (75, 4000, [1]), (70, 4000, [])]
)
def test_air_unheard_below_what_was_given_unheard_is_doubted(level: float, hz: float, doubted: list[int]) -> None:
    # seen on a page: bone hid in the masked square at 70 dB, its arrow was taken for the square's, and the ear's other
    # arrows hung at 100 dB
    unheard = value("left", 4000, 70, masked=True, response=False)
    assert indexes(value("left", hz, level, masked=hz != 4000, response=False), unheard) == doubted


@pytest.mark.parametrize(("bone_hz", "doubted"), [((500,), [2]), ((500, 1000), []), ((), [])])
def test_air_unheard_a_step_below_what_was_given_is_doubted_where_bone_may_hide(
    bone_hz: tuple[int, ...], doubted: list[int]
) -> None:
    # seen on a form: a bracket touched a square, and its arrow was taken for the square's
    heard, unheard = (value("left", hz, db, masked=True, response=db > 70) for hz, db in ((2000, 75), (1000, 70)))
    bone = [value("left", hz, 60 if hz == 500 else 70, "bone", masked=True, response=False) for hz in bone_hz]
    assert indexes(heard, value("left", 4000, 75, masked=True), unheard, *bone) == doubted


# Common practice: one loudspeaker gives the levels with hearing aids and without.
@pytest.mark.parametrize(("plain_db", "doubted"), [(65, [0, 1]), (45, [0]), (40, [])])
def test_loudspeaker_unheard_at_what_was_heard_without_hearing_aids_is_doubted(
    plain_db: float, doubted: list[int]
) -> None:
    # seen on a fax: a tick below an aided mark at 45 dB looked like an arrow
    aided = replace(value("both", 2000, 45, "field", response=False), aided=True)
    assert indexes(value("both", 2000, plain_db, "field"), aided) == doubted


def test_unheard_at_8_khz_below_what_was_given_at_4_khz_is_no_matter() -> None:
    assert indexes(value("left", 4000, 115), value("left", 8000, 95, response=False)) == []


def test_bone_that_no_vibrator_gives_tells_nothing_of_where_the_vibrator_ends() -> None:
    # one mark misread as bone at 110 dB let all unheard bone of a deaf person's page ask
    deaf = (value("right", 250, 45, "bone", response=False), value("right", 1000, 70, "bone", response=False))
    assert set(indexes(*deaf, value("left", 250, 110, "bone"))) == {2}
    assert set(indexes(*deaf, value("left", 1000, 75, "bone"))) == {1, 2}
