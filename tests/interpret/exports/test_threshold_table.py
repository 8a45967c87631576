"""The table of one ear."""

from __future__ import annotations

from dataclasses import replace

import pytest
from any_records import threshold
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import value

from octavo.interpret.exports.threshold_table import EAR_NAMES, frequency_label, kind_label, threshold_table
from octavo.interpret.record import Ear, Threshold


@pytest.mark.parametrize(
    ("hz", "label"), [(125, "125"), (750, "750"), (1000, "1k"), (1500, "1.5k"), (8000, "8k"), (12500, "12.5k")]
)
def test_frequencies_are_written_as_on_a_chart(hz: float, label: str) -> None:
    assert frequency_label(hz) == label


def test_numbers_of_a_column_stand_below_one_another() -> None:
    values = (
        value("right", 1000, 5),
        value("right", 1000, 110, "bone", response=False),
        value("right", 1000, 35, masked=True),
    )
    lines = threshold_table(values, "right")
    units = [line.index(text) + len(text) for line, text in zip(lines, ("1k", " 5", "35", "110"), strict=True)]
    assert len(set(units)) == 1


def test_rows_stand_air_before_bone_and_unmasked_before_masked() -> None:
    values = (
        value("left", 500, 50, "bone", masked=True),
        value("left", 500, 40, "bone"),
        value("left", 500, 70, masked=True),
        replace(value("left", 500, 30), aided=True),
        replace(value("left", 500, 100), measure="ucl"),
        value("left", 500, 60),
    )
    rows = [line.split("  ")[0] for line in threshold_table(values, "left")]
    assert rows == ["Hz", "air", "air, masked", "air, aided", "air, uncomfortable", "bone", "bone, masked"]


def test_only_the_ear_asked_for_is_shown() -> None:
    assert threshold_table((value("left", 500, 50),), "right") == []


def test_the_octaves_stand_even_where_no_value_was_read() -> None:
    assert threshold_table((value("left", 3000, 50),), "left")[0].split() == [
        "Hz", "250", "500", "1k", "2k", "3k", "4k", "8k",
    ]  # fmt: skip


def test_more_frequencies_than_fit_continue_in_a_second_block() -> None:
    wide = [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000, 9000, 10000, 11200, 12500, 14000, 16000]
    lines = threshold_table([value("left", hz, 20) for hz in wide], "left")
    heads = [line.split()[1:] for line in lines if line.startswith("Hz")]
    assert len(heads) == 2
    assert [label for head in heads for label in head] == [frequency_label(hz) for hz in wide]


@given(st.lists(threshold(), max_size=12), st.sampled_from(sorted(EAR_NAMES)))
@settings(max_examples=50, deadline=None)
def test_every_row_names_a_kind_of_value_that_was_read(values: list[Threshold], ear: Ear) -> None:
    kinds = {kind_label(t) for t in values if t.ear == ear}
    assert {line.split("  ")[0] for line in threshold_table(values, ear) if line} - {"Hz"} == kinds
