"""Tables whose rows name an ear alone: thresholds by air, where nothing on the page lets it be anything else."""

from __future__ import annotations

import pytest
from printed_rows import LEFT, RIGHT, Printed, values

HZ = ("1000", "2000", "4000", "8000")
ROWS: list[list[Printed]] = [["", *HZ], ["Right", *RIGHT], ["Left", *LEFT]]
TITLE: list[Printed] = [("Thresholds in dB HL", 2.0, 0.0)]


def standings(rows: list[list[Printed]]) -> set[tuple[str, str]]:
    return {(t.conduction, t.standing) for t in values(rows)}


def test_ears_alone_with_levels_at_8_khz_are_by_air() -> None:
    # bone vibrators are specified to 4000 Hz (ISO 389-3:2016)
    assert standings([TITLE, *ROWS]) == {("air", "sure")}


@pytest.mark.parametrize(
    ("title", "below"),
    [
        ("Results", ""),  # of what?
        ("Thresholds in dB HL", "Bone: not done"),
        ("Aided thresholds in dB HL", ""),
        ("Thresholds in dB HL", "with hearing aids"),
        ("Thresholds in dB HL", "free field"),
    ],
)
def test_ears_alone_ask_where_it_may_be_something_else(title: str, below: str) -> None:
    assert {standing for _, standing in standings([[(title, 2.0, 0.0)], *ROWS, [(below, 2.0, 1.0)]])} == {"ask"}


def test_ears_alone_ask_without_a_level_where_bone_is_not_tested() -> None:
    rows: list[list[Printed]] = [["", "500", *HZ[:3]], *ROWS[1:]]
    assert standings([TITLE, *rows]) == {("air", "ask")}
    silent: list[list[Printed]] = [["", *HZ], ["Right", *RIGHT[:3], "DNT"], ["Left", *LEFT]]
    assert {t.standing for t in values([TITLE, *silent]) if t.ear == "right"} == {"ask"}
