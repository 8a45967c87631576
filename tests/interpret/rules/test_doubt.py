"""How far a value may be off, and which value stands for a frequency."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_pages import asked, value

from octavo.interpret.reasons import REASONS
from octavo.interpret.record import Threshold
from octavo.interpret.rules.doubt import ARROW_CODE, NO_LIMIT, Span, asking, row_of, span_of


def test_a_sure_value_is_exact() -> None:
    assert span_of(value("right", 1000, 40)) == Span(40, 40)


def test_a_value_to_look_at_is_10_db_off_at_most() -> None:
    # Common practice: 5 dB repeatability and a step misread.
    assert span_of(asked("right", 1000, 40, "faint")) == Span(30, 50)


def test_no_response_is_open_above() -> None:
    assert span_of(value("right", 1000, 110, response=False)) == Span(110, NO_LIMIT)


def test_an_arrow_to_look_at_leaves_it_open_above() -> None:
    assert ARROW_CODE in REASONS
    assert span_of(asked("right", 1000, 100, ARROW_CODE)) == Span(90, NO_LIMIT)


@pytest.mark.parametrize("conduction", ["air", "bone"])
def test_the_masked_value_stands_before_the_unmasked_one(conduction: str) -> None:
    kind = "air" if conduction == "air" else "bone"
    values = (value("right", 1000, 40, kind), value("right", 1000, 60, kind, masked=True))
    assert row_of(values, "right", kind)[1000].db_hl == 60
    assert row_of(values, "right", kind, masked=False)[1000].db_hl == 40


def test_two_values_for_one_place_are_asked_about_and_the_range_holds_both() -> None:
    level = row_of((value("right", 1000, 40), asked("right", 1000, 60, "two-readings")), "right")[1000]
    assert (level.db_hl, level.ask, level.span) == (40, True, Span(40, 70))


def test_aided_values_and_comfortable_levels_stay_out() -> None:
    one = value("right", 1000, 40)
    assert row_of((replace(one, aided=True), replace(one, measure="mcl")), "right") == {}


VALUES = st.builds(
    Threshold, st.just("right"), st.just("air"), st.booleans(), st.sampled_from((500.0, 1000.0)),
    st.integers(-2, 22).map(lambda steps: steps * 5.0), standing=st.sampled_from(("sure", "ask")),
    probability=st.sampled_from((0.5, 0.9)), response=st.booleans(),
)  # fmt: skip


@given(st.lists(VALUES, max_size=6))
def test_the_order_of_the_values_decides_nothing(values: list[Threshold]) -> None:
    shuffled = sorted(values, key=lambda one: (one.level_db_hl, one.masked))
    one, other = row_of(tuple(values), "right"), row_of(tuple(shuffled), "right")
    assert {hz: (level.db_hl, level.span, level.ask) for hz, level in one.items()} == {
        hz: (level.db_hl, level.span, level.ask) for hz, level in other.items()
    }
    assert asking(one) == asking(other)
