"""Asymmetry by several criteria: the worked case gives three answers, and that is shown."""

from __future__ import annotations

import pytest
from invented_pages import asked, value

from octavo.interpret.finding import Finding
from octavo.interpret.record import Ear, Threshold
from octavo.interpret.rules.doubt import row_of
from octavo.interpret.rules.shape.symmetry import SYMMETRY_RULES, symmetry

HZ = (500, 1000, 2000, 3000, 4000, 8000)
RIGHT, LEFT = (10, 15, 20, 25, 30, 40), (10, 15, 35, 45, 40, 45)


def ear(name: Ear, levels: tuple[float, ...]) -> tuple[Threshold, ...]:
    return tuple(value(name, hz, db) for hz, db in zip(HZ, levels, strict=True))


def judged(values: tuple[Threshold, ...]) -> dict[str, Finding]:
    return {one.rule: one for one in symmetry(row_of(values, "right"), row_of(values, "left"))}


WORKED = (*ear("right", RIGHT), *ear("left", LEFT))


# Differences by hand: 0 0 15 20 10 5. Saliba 2009: abstract. NICE NG98 and CNS 2017: as quoted. J Med Genet: a table.
# AAO-HNS (mean 8.75), Sunderland, DOH [memory].
@pytest.mark.parametrize(
    ("rule", "word"),
    [
        ("rule 3000, Saliba 2009", "met"),
        ("NICE NG98, 1.3.2", "not met"),
        ("15 dB at two frequencies, J Med Genet", "not met"),
        ("vestibular schwannoma guideline 2017, CNS", "met"),
        ("AAO-HNS", "not met"),
        ("Sunderland", "not met"),
        ("DOH, United Kingdom", "not met"),
    ],
)
def test_the_worked_case_has_several_answers(rule: str, word: str) -> None:
    assert judged(WORKED)[rule].word == word


def test_what_is_met_names_the_worse_ear() -> None:
    assert judged(WORKED)["rule 3000, Saliba 2009"].ear == "left"


def test_the_mean_of_aao_hns_is_reached_at_15() -> None:
    found = judged((*ear("right", (10,) * 6), *ear("left", (25,) * 6)))["AAO-HNS"]
    assert (found.word, found.ear, found.number) == ("met", "left", 15)


def test_two_adjacent_octaves_15_db_apart_meet_ng98() -> None:
    values = (*ear("right", RIGHT), *ear("left", (10, 30, 35, 25, 30, 40)))
    assert judged(values)["NICE NG98, 1.3.2"].word == "met"


def test_swapped_ears_are_the_other_ear_s_finding() -> None:
    swapped = judged((*ear("left", RIGHT), *ear("right", LEFT)))
    assert {rule: one.word for rule, one in swapped.items()} == {rule: one.word for rule, one in judged(WORKED).items()}
    assert swapped["rule 3000, Saliba 2009"].ear == "right"


def test_a_missing_frequency_is_named_and_leaves_ng98_open() -> None:
    values = tuple(t for t in WORKED if t.frequency_hz not in (3000, 8000))
    found = judged(values)
    assert (found["rule 3000, Saliba 2009"].word, found["rule 3000, Saliba 2009"].missing_hz) == (None, (3000,))
    assert (found["NICE NG98, 1.3.2"].word, found["NICE NG98, 1.3.2"].missing_hz) == (None, (8000,))


def test_an_ear_that_did_not_hear_is_worse_at_least() -> None:
    values = (*ear("right", (10,) * 6), *(value("left", hz, 110, response=False) for hz in HZ))
    assert {one.word for one in judged(values).values()} == {"met"}


def test_both_ears_silent_leave_it_open() -> None:
    values = tuple(value(name, hz, 110, response=False) for name in ("right", "left") for hz in HZ)
    assert {one.word for one in symmetry(row_of(values, "right"), row_of(values, "left"))} == {None}


def test_a_value_to_look_at_could_turn_the_word() -> None:
    values = (*ear("right", (10,) * 6), *ear("left", (10,) * 6)[:3], asked("left", 3000, 20, "faint"))
    found = judged(values)["rule 3000, Saliba 2009"]
    assert (found.word, found.could_be, found.rests_on) == ("not met", ("not met", "met"), (3000,))


def test_every_criterion_has_a_name_of_its_own() -> None:
    assert len({rule.name for rule in SYMMETRY_RULES}) == len(SYMMETRY_RULES)
