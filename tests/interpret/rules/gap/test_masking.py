"""Where masking is due: the BSA's rules [memory] and the worked case."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.record import Threshold
from octavo.interpret.rules.gap.masking import attenuation_of, masking_due

# Air right 65, left 20, unmasked bone 20 at 1 kHz: worked by hand with the rules of the BSA [memory].
WORKED = (value("right", 1000, 65), value("left", 1000, 20), value("left", 1000, 20, "bone"))


def due(values: tuple[Threshold, ...], earphone: str) -> list[tuple[str, str, str]]:
    found = masking_due(values, attenuation_of(earphone))
    return [(one.rule, one.ear, one.conduction) for one in found if one.rule.startswith("BSA")]


def test_with_earphones_on_the_ear_rule_1_asks_for_masking() -> None:
    assert due(WORKED, "supra-aural") == [("BSA rule 1", "right", "air"), ("BSA rule 2", "right", "bone")]


def test_with_inserts_neither_rule_1_nor_rule_3_does() -> None:
    assert due(WORKED, "Inserts") == [("BSA rule 2", "right", "bone")]


def test_rule_3_takes_the_other_ear_s_bone_where_rule_1_does_not_apply() -> None:
    # Air 30 dB apart, but the better ear's bone lies 50 dB below the worse ear's air.
    values = (value("right", 1000, 60), value("left", 1000, 30), value("left", 1000, 10, "bone", masked=True))
    assert due(values, "supra-aural") == [("BSA rule 3", "right", "air")]


def test_masked_values_need_no_masking() -> None:
    masked = (value("right", 1000, 65, masked=True), value("right", 1000, 60, "bone", masked=True), *WORKED[1:])
    assert due(masked, "supra-aural") == []


def test_what_was_not_heard_is_no_shadow() -> None:
    assert due((value("right", 1000, 110, response=False), value("left", 1000, 20)), "supra-aural") == []


@pytest.mark.parametrize(("apart", "is_due"), [(35, False), (40, True)])
def test_the_edge_of_rule_1(apart: float, is_due: bool) -> None:
    assert bool(due((value("right", 1000, 20 + apart), value("left", 1000, 20)), "supra-aural")) is is_due


def test_a_value_to_look_at_may_call_for_masking() -> None:
    found = masking_due((asked("right", 1000, 55, "faint"), value("left", 1000, 20)), attenuation_of(None))
    assert [(one.truth.possibly, one.doubted.possibly, one.ask) for one in found] == [(False, True, True)]


def test_an_earphone_that_is_not_named_is_taken_for_the_one_with_less_attenuation() -> None:
    assert (attenuation_of(None).db, attenuation_of(None).assumed) == (40, True)
    assert (attenuation_of("insert earphones").db, attenuation_of("circumaural").db) == (55, 40)


def test_asha_2005_stands_beside_them() -> None:
    # ASHA 2005 [memory]: bone is masked where the gap exceeds 10 dB in the test ear, air where it exceeds the other
    # ear's bone by more than the attenuation. Right: gap 45 dB, 45 dB over the other ear's bone; left: no gap.
    found = masking_due(WORKED, attenuation_of("supra-aural"))
    told = [(one.ear, one.conduction) for one in found if one.rule == "ASHA 2005"]
    assert told == [("right", "air"), ("right", "bone")]


def test_a_gap_of_exactly_10_db_is_due_by_the_bsa_and_not_by_asha() -> None:
    values = (value("left", 1000, 35), value("left", 1000, 25, "bone"))
    assert [one.rule for one in masking_due(values, attenuation_of(None))] == ["BSA rule 2"]
