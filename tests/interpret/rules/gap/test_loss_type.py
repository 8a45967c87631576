"""The type of a loss: worked examples, both rules, masking, limits, and what doubt does to it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from invented_pages import asked, value

from octavo.interpret.record import Ear, Threshold
from octavo.interpret.rules.doubt import Span
from octavo.interpret.rules.gap.air_bone_gap import gaps
from octavo.interpret.rules.gap.loss_type import (
    AT_LIMIT,
    GAP_RULES,
    KINDS,
    NO_BONE,
    NO_MASKING,
    GapRule,
    LossType,
    kinds,
    loss_type,
    type_at,
)
from octavo.interpret.rules.gap.masking import attenuation_of, masking_due

THREE = (500, 1000, 2000)


def ear_of(
    air: tuple[float, ...], bone: tuple[float, ...], ear: Ear = "right", *, masked: bool = True
) -> tuple[Threshold, ...]:
    return (
        *(value(ear, hz, db) for hz, db in zip(THREE, air, strict=False)),
        *(value(ear, hz, db, "bone", masked=masked) for hz, db in zip(THREE, bone, strict=False)),
    )


def type_of(values: tuple[Threshold, ...], rule: str = "gap-10", ear: Ear = "right", normal_db: float = 25) -> LossType:
    due = masking_due(values, attenuation_of("supra-aural"))
    found = loss_type(gaps(values, ear, due), GAP_RULES[rule], normal_db)
    assert found is not None
    return found


# Rule gap-10: a textbook chapter on audiologic evaluation. Rule gap-15: GENDEAF [memory]. Means worked by hand.
@pytest.mark.parametrize("rule", GAP_RULES)
@pytest.mark.parametrize(
    ("air", "bone", "word", "gap"),
    [
        ((50, 50, 55), (10, 15, 15), "conductive", 38.33),
        ((60, 65, 70), (30, 35, 40), "mixed", 30),
        ((40, 45, 50), (35, 40, 45), "sensorineural", 5),
    ],
)
def test_the_worked_types(rule: str, air: tuple[float, ...], bone: tuple[float, ...], word: str, gap: float) -> None:
    found = type_of(ear_of(air, bone), rule)
    assert found.word == word
    assert found.air_db is not None
    assert found.bone_db is not None
    assert found.air_db - found.bone_db == pytest.approx(gap, abs=0.005)  # the worked mean is rounded to 0.01 dB


def test_the_textbook_s_single_gap_is_conductive() -> None:
    # A textbook chapter: air 55, bone 10, gap 45, conductive.
    found = gaps(ear_of((55,), (10,)), "right", ())
    assert found[0].db == 45
    assert type_at(found[0], GAP_RULES["gap-10"], 25)[0] == "conductive"


def test_a_mean_gap_of_12_db_shows_the_two_rules_in_conflict() -> None:
    # Gap 12 dB on average with bone near 30 dB: mixed by 10 dB, sensorineural by 15 dB.
    values = ear_of((42, 42, 42), (30, 30, 30))
    assert [type_of(values, rule).word for rule in GAP_RULES] == ["mixed", "sensorineural"]


@pytest.mark.parametrize(("gap", "word"), [(10, "sensorineural"), (11, "mixed")])
def test_a_gap_of_exactly_10_db_is_none(gap: float, word: str) -> None:
    assert type_of(ear_of((50, 50, 50), (50 - gap,) * 3)).word == word


def test_without_bone_the_type_cannot_be_told() -> None:
    assert type_of(ear_of((40, 40, 40), ())).word == NO_BONE


def test_air_within_normal_limits_needs_no_bone() -> None:
    assert type_of(ear_of((20, 25, 25), ())).word == "within normal limits"


def test_a_child_s_limit_is_another() -> None:
    assert type_of(ear_of((20, 20, 20), (15, 15, 15)), normal_db=15).word == "sensorineural"
    assert type_of(ear_of((20, 20, 20), (15, 15, 15)), normal_db=25).word == "within normal limits"


def test_a_loss_at_4_khz_alone_has_its_type_from_there() -> None:
    values = (*ear_of((10, 10, 15), (10, 10, 15)), value("right", 4000, 60), value("right", 4000, 55, "bone"))
    found = type_of(values)
    assert (found.word, found.frequencies_hz) == ("sensorineural", (4000,))


def test_an_unmasked_gap_cannot_be_placed() -> None:
    assert type_of(ear_of((50, 50, 55), (10, 15, 15), masked=False)).word == NO_MASKING


def test_an_unmasked_bone_without_a_gap_needs_no_masking() -> None:
    # Whichever ear answered, this ear's bone is no better: the gap can only be smaller.
    assert type_of(ear_of((40, 45, 50), (35, 40, 45), masked=False)).word == "sensorineural"


def test_the_other_ear_s_masked_bone_places_an_unmasked_one() -> None:
    right = ear_of((50, 50, 55), (10, 15, 15), masked=False)
    left = ear_of((60, 60, 60), (55, 55, 55), "left")
    assert type_of((*right, *left)).word == "conductive"


def test_a_bone_mark_that_names_no_ear_is_taken_like_an_unmasked_one() -> None:
    unnamed = tuple(replace(value("right", hz, 35, "bone"), ear="unspecified") for hz in THREE)
    assert type_of((*ear_of((40, 45, 45), ()), *unnamed)).word == "sensorineural"
    assert type_of((*ear_of((60, 60, 60), ()), *unnamed)).word == NO_MASKING


def test_an_air_threshold_that_may_be_a_shadow_leaves_the_type_open() -> None:
    # Right 55 dB against left 10 dB: 45 dB apart, BSA rule 1 [memory] asks for masking from 40 dB on.
    values = (*ear_of((55, 55, 55), (50, 50, 50)), *ear_of((10, 10, 10), (10, 10, 10), "left"))
    assert type_of(values).word == NO_MASKING


def test_bone_not_heard_at_the_vibrator_s_limit_leaves_the_type_open() -> None:
    silent = tuple(value("right", hz, 70, "bone", masked=True, response=False) for hz in THREE)
    assert type_of((*ear_of((95, 95, 95), ()), *silent)).word == AT_LIMIT


def test_bone_not_heard_with_air_just_above_it_is_no_gap() -> None:
    silent = tuple(value("right", hz, 70, "bone", masked=True, response=False) for hz in THREE)
    assert type_of((*ear_of((80, 80, 80), ()), *silent)).word == "sensorineural"


def test_air_not_heard_far_above_bone_is_a_gap() -> None:
    silent = tuple(value("right", hz, 110, response=False) for hz in THREE)
    assert type_of((*silent, *ear_of((), (50, 50, 50)))).word == "mixed"


def test_a_value_to_look_at_gives_every_type_that_could_be() -> None:
    values = (
        *(value("right", hz, 40) for hz in THREE),
        *(value("right", hz, 30, "bone", masked=True) for hz in (500, 1000)),
        asked("right", 2000, 30, "faint", conduction="bone", masked=True),
    )
    found = type_of(values)
    # Bone at 2 kHz is 20 to 40 dB, so the mean gap is 6.7 to 13.3 dB with bone at 26.7 dB on average at least.
    assert (found.word, found.could_be) == ("sensorineural", ("sensorineural", "mixed"))
    assert found.ask_hz == (2000,)


@pytest.mark.parametrize("rule", GAP_RULES.values(), ids=lambda rule: rule.id)
def test_exact_levels_have_one_type(rule: GapRule) -> None:
    for air in range(0, 121, 5):
        for bone in range(0, 71, 5):
            found = kinds(Span(air, air), Span(bone, bone), rule, 25)
            assert len(found) == 1
            assert found[0] in KINDS
