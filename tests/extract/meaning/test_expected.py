"""What is missing from a row of marks, or too weak to be one."""

from __future__ import annotations

import pytest
from by_hand import SIZE, mark, sheet, x_of, y_of

from octavo.extract.meaning.convention import Convention
from octavo.extract.meaning.expected import gaps, weak_marks
from octavo.interpret.record import Conduction, Ear, Threshold
from octavo.interpret.symbols import SYMBOL_SETS

ASHA = Convention(SYMBOL_SETS["asha-1990"], frozenset(), False)
BSA = Convention(SYMBOL_SETS["bsa-2018"], frozenset(), False)


def row_of(ear: Ear, *frequencies: float, conduction: Conduction = "air") -> tuple[Threshold, ...]:
    return tuple(Threshold(ear, conduction, False, hz, 30.0) for hz in frequencies)


def named(thresholds: tuple[Threshold, ...]) -> set[tuple[object, ...]]:
    remarks = gaps(thresholds)
    assert all(r.code == "missing-expected" for r in remarks)
    return {(r.ear, r.conduction, r.frequency_hz) for r in remarks}


def test_an_octave_left_out_between_two_others_may_be_missing() -> None:
    assert named(row_of("right", 250, 500, 2000, 4000)) == {("right", "air", 1000)}


def test_a_row_that_only_ends_early_is_no_gap() -> None:
    assert named(row_of("right", 500, 1000, 2000)) == set()


def test_inter_octaves_are_not_expected_of_themselves() -> None:
    # ASHA 2005: 750 and 1500 Hz only where octaves differ by 20 dB or more
    assert named(row_of("right", 500, 1000, 2000, 4000, 8000)) == set()


def test_what_only_the_other_ear_has_may_be_missing() -> None:
    thresholds = row_of("right", 500, 1000, 2000, 3000, 4000) + row_of("left", 500, 1000, 2000, 4000)
    assert named(thresholds) == {("left", "air", 3000)}


def test_air_and_bone_are_rows_of_their_own() -> None:
    thresholds = row_of("right", 250, 500, 1000, 2000, 4000, 8000) + row_of("right", 500, 1000, 2000, conduction="bone")
    assert named(thresholds) == set()


def test_nothing_is_missing_where_nothing_was_read() -> None:
    assert gaps(()) == ()


def test_a_weak_mark_is_named_with_its_ear_conduction_and_place() -> None:
    (said,) = weak_marks(sheet(), 0, (mark("angle-left", 1000, 20),), ASHA)
    assert (said.code, said.ear, said.conduction) == ("missing-expected", "right", "bone")
    assert said.at == pytest.approx(((x_of(1000) + 0.5) / SIZE[0], (y_of(20) + 0.5) / SIZE[1]))


def test_a_weak_mark_that_may_be_of_either_ear_is_named_for_both() -> None:
    assert [r.ear for r in weak_marks(sheet(), 0, (mark("triangle", 1000, 20),), BSA)] == ["right", "left"]
    assert [r.ear for r in weak_marks(sheet(), 0, (mark("triangle", 1000, 20, "blue"),), BSA)] == ["left"]
