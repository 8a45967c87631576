"""Charts against tables: agreement makes sure, disagreement makes ask and names both levels, nothing is repaired."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.extract.crosscheck import against_tables
from octavo.extract.table import Table
from octavo.extract.table.cells.cells import Key
from octavo.interpret.record import Audiogram, Seen, Threshold

HZ = (500.0, 1000.0, 2000.0, 4000.0)
SEEN = Seen(0, (0.5, 0.5), 1000.0, 30.0)


def value(level: float = 30.0, hz: float = 1000.0, **changes: object) -> Threshold:
    base = Threshold("right", "air", False, hz, level, standing="sure", probability=0.99, seen=SEEN)
    return replace(base, **changes)


def asking(one: Threshold, *codes: str) -> Threshold:
    return replace(one, standing="ask", probability=0.6, why_ask=codes or ("faint",))


def table(*values: Threshold, untested: tuple[Key, ...] = (), unheard: tuple[Key, ...] = (), masking: bool = True,
          rows: bool = True) -> Table:  # fmt: skip
    stated = tuple(replace(t, seen=Seen(None, (0.2, 0.8), t.frequency_hz, t.level_db_hl)) for t in values)
    return Table(stated, untested, unheard, masking, rows, (0, 0, 1, 1), (), None)


def held(
    chart: tuple[Threshold, ...], against: Table, *, check: bool = True
) -> tuple[tuple[Threshold, ...], list[str]]:
    found = against_tables((Audiogram(thresholds=chart),), (against,), check=check)
    return found.audiograms[0].thresholds, [r.text for r in found.remarks]


def test_a_doubtful_value_that_a_sure_one_repeats_is_sure() -> None:
    (after,), said = held((asking(value()),), table(value()))
    assert (after.standing, after.why_ask, said) == ("sure", (), [])
    assert after.probability > 0.9


def test_a_doubtful_number_confirms_nothing() -> None:
    (after,), _ = held((asking(value()),), table(asking(value())))
    assert after == asking(value())


def test_a_value_that_differs_asks_and_both_levels_are_named() -> None:
    (after,), said = held((value(30),), table(value(45)))
    assert (after.level_db_hl, after.standing, after.why_ask) == (30, "ask", ("chart-and-table-differ",))
    assert said == ["The chart shows 30 dB HL, the table 45 dB HL."]


def test_a_response_that_differs_asks() -> None:
    (after,), said = held((value(100),), table(value(100, response=False)))
    assert after.standing == "ask"
    assert said == ["The chart shows 100 dB HL, the table 100 dB HL, not heard."]


def test_what_the_chart_lacks_is_added_to_be_looked_at() -> None:
    (kept, added), _ = held((value(),), table(value(), value(40, 2000.0)))
    assert kept.standing == "sure"
    assert (added.frequency_hz, added.level_db_hl, added.standing) == (2000, 40, "ask")
    assert added.why_ask == ("missing-expected",)
    assert added.seen is not None
    assert added.seen.chart is None


@pytest.mark.parametrize("code", ["masking-uncertain", "symbol-set-unknown"])
def test_a_table_that_tells_no_masking_confirms_none(code: str) -> None:
    doubted = asking(value(masked=True), code)
    (after,), _ = held((doubted,), table(value(), masking=False, rows=False))
    assert (after.standing, after.why_ask) == ("ask", (code,))


def test_a_table_of_one_row_may_state_the_masked_value_alone() -> None:
    shadow, masked = value(30), value(60, masked=True)
    (one, other), said = held((shadow, masked), table(value(60), masking=False, rows=False))
    assert (one.standing, other.standing, said) == ("sure", "sure", [])


def test_a_mark_taken_for_unmasked_that_the_table_calls_masked_asks() -> None:
    (after,), said = held((value(),), table(value(masked=True)))
    assert after.standing == "ask"
    assert said == ["The chart shows 30 dB HL, the table 30 dB HL, masked."]


def test_a_mark_where_the_table_says_not_tested_asks() -> None:
    blank = Key("right", "air", False, False, "threshold", 1000.0)
    (after, _), said = held((value(), value(20, 500.0)), table(value(20, 500.0), untested=(blank,)))
    assert after.standing == "ask"
    assert said == ["The chart shows 30 dB HL, the table no such value."]


def test_a_heard_mark_where_the_table_says_no_response_asks() -> None:
    unheard = Key("right", "air", False, False, "threshold", 1000.0)
    (heard,), _ = held((value(),), table(unheard=(unheard,)))
    (silent,), _ = held((value(response=False),), table(unheard=(unheard,)))
    assert (heard.standing, silent.standing) == ("ask", "sure")


def test_a_table_without_signs_of_masking_confirms_neither_of_two_marks_that_it_may_repeat() -> None:
    # seen on a fax: a cross heard at 120 dB HL on a square that was not heard; the table's "120+" is the square's
    unheard = value(120, response=False)
    cross, square = asking(unheard, "arrow-uncertain"), replace(unheard, masked=True)
    found, _ = held((cross, square), table(unheard, masking=False))
    assert [t.standing for t in found] == ["ask", "sure"]


def test_a_date_in_doubt_stays_in_doubt() -> None:
    (after,), _ = held((asking(value(), "test-date-uncertain", "faint"),), table(value()))
    assert (after.standing, after.why_ask) == ("ask", ("test-date-uncertain",))


def test_of_several_tests_the_table_checks_the_one_that_it_repeats() -> None:
    old = Audiogram(thresholds=tuple(value(20.0 + i, hz) for i, hz in enumerate(HZ)))
    new = Audiogram(thresholds=tuple(value(60.0 + 5 * i, hz) for i, hz in enumerate(HZ)))
    stated = table(*(value(60.0 + 5 * i, hz) for i, hz in enumerate(HZ[:3])), value(40, 4000.0))
    found = against_tables((old, new), (stated,)).audiograms
    assert found[0] == old
    assert [t.standing for t in found[1].thresholds] == ["sure", "sure", "sure", "ask"]


ROW = st.lists(st.tuples(st.sampled_from(HZ), st.integers(0, 20)), max_size=6, unique_by=lambda one: one[0])


@given(ROW, ROW)
def test_no_value_is_changed_or_lost_by_a_check(
    chart: list[tuple[float, int]], stated: list[tuple[float, int]]
) -> None:
    marks = tuple(value(5.0 * level, hz) for hz, level in chart)
    after, _ = held(marks, table(*(value(5.0 * level, hz) for hz, level in stated)))
    assert [(t.frequency_hz, t.level_db_hl) for t in after[: len(marks)]] == [
        (t.frequency_hz, t.level_db_hl) for t in marks
    ]
    said = dict(stated)
    assert all((t.standing == "sure") == (said.get(t.frequency_hz, level) == level)
               for t, (_, level) in zip(after, chart, strict=False))  # fmt: skip


def test_without_the_check_all_stays() -> None:
    chart = (value(30), asking(value(40, 2000.0)))
    assert held(chart, table(value(45), value(40, 2000.0)), check=False) == (chart, [])


def test_a_table_without_masking_leaves_open_which_symbol_set_the_marks_are_of() -> None:
    """What is masked in one symbol set is unmasked in another, and the table does not tell."""
    (after,), _ = held((asking(value(), "symbol-set-unknown"),), table(value(), masking=False))
    assert (after.standing, after.why_ask) == ("ask", ("symbol-set-unknown",))
    (told,), _ = held((asking(value(), "symbol-set-unknown"),), table(value()))
    assert told.standing == "sure"


def test_a_table_of_another_date_confirms_no_value_that_is_equal_by_chance() -> None:
    chart = (asking(value(30, 500.0)), value(40, 1000.0), value(50, 2000.0), value(60, 4000.0))
    earlier = table(value(30, 500.0), value(35, 1000.0), value(40, 2000.0), value(45, 4000.0))
    after, _ = held(chart, earlier)
    assert after[0] == chart[0]
    assert {t.standing for t in after[1:]} == {"ask"}


def test_a_table_of_an_earlier_test_beside_the_charts_own_is_a_test_to_look_at_and_doubts_no_value() -> None:
    chart = tuple(value(20.0 + 5 * i, hz) for i, hz in enumerate(HZ))
    earlier = table(*(value(5.0 + 5 * i, hz) for i, hz in enumerate(HZ)))
    found = against_tables((Audiogram(thresholds=chart),), (earlier, table(*chart)))
    now, before = found.audiograms
    assert {t.standing for t in now.thresholds} == {"sure"}
    assert [(t.level_db_hl, t.standing, t.why_ask) for t in before.thresholds] == [
        (5.0 + 5 * i, "ask", ("test-date-uncertain",)) for i in range(len(HZ))
    ]
    assert not found.remarks


def test_a_table_of_a_third_test_beside_two_charts_is_not_lost() -> None:
    charts = tuple(Audiogram(thresholds=tuple(value(low + 5 * i, hz) for i, hz in enumerate(HZ))) for low in (20, 60))
    found = against_tables(charts, (table(*(value(40.0, hz) for hz in HZ)),))
    assert found.audiograms[:2] == charts
    assert {t.standing for t in found.audiograms[2].thresholds} == {"ask"}


def test_a_lost_mark_whose_number_is_in_doubt_is_asked_for() -> None:
    # on a fax all bone marks of an ear were lost, the table stated them with doubts, and nobody was told
    bone = replace(asking(value(5.0), "masking-uncertain"), conduction="bone", masked=True)
    (_, added), _ = held((value(),), table(value(), bone))
    assert (added.conduction, added.standing, added.why_ask) == (
        "bone",
        "ask",
        ("missing-expected", "masking-uncertain"),
    )


def test_a_number_in_doubt_adds_nothing_where_the_chart_shows_a_value() -> None:
    (after,), _ = held((value(),), table(asking(value(45))))
    assert after == value()


def test_a_number_that_asks_makes_no_mark_sure_that_it_repeats_however_likely_it_is() -> None:
    by_hand = replace(asking(value(30), "low-certainty"), probability=0.98)
    doubted = asking(value(30))
    (after,), said = held((doubted,), table(by_hand))
    assert (after, said) == (doubted, [])


def test_a_likely_number_by_hand_that_differs_makes_the_mark_ask() -> None:
    by_hand = replace(asking(value(45), "low-certainty"), probability=0.98)
    (after,), said = held((value(30),), table(by_hand))
    assert (after.standing, said) == ("ask", ["The chart shows 30 dB HL, the table 45 dB HL."])


@pytest.mark.parametrize("code", ["masking-uncertain", "missing-expected"])
def test_a_number_whose_place_in_the_table_is_in_doubt_confirms_nothing(code: str) -> None:
    doubtful = replace(asking(value(30), code), probability=0.98)
    (after,), _ = held((asking(value(30)),), table(doubtful))
    assert after.standing == "ask"


def test_an_unmasked_mark_stays_where_the_table_says_no_response_with_masking_as_the_masked_mark_does() -> None:
    # "NR*" in a row that prints the masked value alone was held against the shadow response beside it
    chart = (value(15), value(120, masked=True, response=False))
    told = Key("right", "air", True, False, "threshold", 1000.0)
    after, said = held(chart, table(value(20, 500.0, masked=True), unheard=(told,), rows=False))
    assert ([t.standing for t in after if t.frequency_hz == 1000], said) == (["sure", "sure"], [])


def test_a_masked_mark_asks_where_a_table_with_signs_has_the_unmasked_value_alone() -> None:
    chart = (value(70), value(40, masked=True))
    after, _ = held(chart, table(value(70), value(20, 500.0, masked=True), rows=False))
    assert [(t.level_db_hl, t.standing) for t in after[:2]] == [(70, "sure"), (40, "ask")]


def test_a_number_that_asks_contradicts_in_a_table_that_repeats_the_rest() -> None:
    chart = tuple(value(level, hz) for level, hz in zip((20, 25, 30, 45), HZ, strict=True))
    doubtful = replace(asking(value(60, 4000.0), "two-readings"), probability=0.7)
    after, _ = held(chart, table(*chart[:3], doubtful))
    assert [t.standing for t in after] == ["sure", "sure", "sure", "ask"]
    unlikely = replace(doubtful, probability=0.3)
    after, _ = held(chart, table(*chart[:3], unlikely))
    assert {t.standing for t in after} == {"sure"}


def test_a_masked_number_that_asks_is_looked_for_in_a_table_that_repeats_the_rest() -> None:
    chart = tuple(value(level, hz) for level, hz in zip((20, 25, 30, 45), HZ, strict=True))
    masked = replace(asking(value(70, 4000.0, masked=True), "two-readings"), probability=0.7)
    after, _ = held(chart, table(*chart, masked))
    assert [(t.masked, t.standing) for t in after if t.frequency_hz == 4000] == [(False, "sure"), (True, "ask")]


@pytest.mark.parametrize(("masking", "stated"), [(False, 60.0), (True, 30.0)])
def test_a_masked_mark_may_be_missing_where_the_table_has_its_value(masking: bool, stated: float) -> None:
    listed = table(value(stated, masked=masking), value(20, 500.0, masked=masking), masking=masking, rows=False)
    (after, *_), _ = held((value(30),), listed)
    assert (after.standing, set(after.why_ask)) == ("ask", {"chart-and-table-differ", "missing-expected"})


def test_no_response_in_the_table_where_the_chart_shows_nothing_is_a_mark_that_may_be_missing() -> None:
    told = Key("left", "air", False, False, "threshold", 1000.0)
    found = against_tables((Audiogram(thresholds=(value(),)),), (table(value(), unheard=(told,)),))
    assert [(r.code, r.ear, r.frequency_hz) for r in found.remarks] == [("missing-expected", "left", 1000.0)]


def test_of_two_marks_of_one_level_that_a_table_states_both_the_lost_one_is_told() -> None:
    # masked and unmasked stood at the limit, not heard, on each other; the chart showed one, and nothing was said
    unheard = value(70, response=False)
    after, _ = held((unheard,), table(unheard, replace(unheard, masked=True)))
    assert [(t.masked, t.standing, t.why_ask) for t in after] == [
        (False, "sure", ()),
        (True, "ask", ("missing-expected",)),
    ]
