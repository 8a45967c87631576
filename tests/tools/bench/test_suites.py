"""Which page is which number of a suite."""

from __future__ import annotations

import pytest

from octavo.tools.bench.suites import SUITES, families_of, pages_needed, plan
from octavo.tools.painter import FAMILIES

TURNS = ("one", "two", "three")


def test_the_same_number_and_seed_name_the_same_page():
    assert plan(SUITES["scan"], 5, 7, TURNS) == plan(SUITES["scan"], 5, 7, TURNS)


def test_another_seed_another_number_or_another_suite_has_other_pages():
    planned = {plan(SUITES[name], i, k, TURNS).seed for name in SUITES for i in range(20) for k in (1, 2)}
    assert len(planned) == len(SUITES) * 20 * 2


def test_families_take_turns_and_each_comes_in_every_way():
    suite = SUITES["none"]
    planned = [plan(suite, number, 1, TURNS) for number in range(len(TURNS) * len(suite.ways))]
    assert {(one.family, one.way) for one in planned} == {(name, way) for name in TURNS for way in suite.ways}


def test_painting_goes_on_until_there_are_pages_and_thresholds_enough():
    needed = pages_needed(SUITES["drawn"], pages=10, thresholds=100)
    assert [needed(9, 500), needed(10, 99), needed(10, 100)] == [True, True, False]


def test_pages_without_thresholds_are_not_waited_for_beyond_the_number_that_their_bar_asks():
    bar = SUITES["none"].bar.least_pages
    needed = pages_needed(SUITES["none"], pages=10, thresholds=100)
    assert needed(bar - 1, 0)
    assert not needed(bar, 0)
    assert not pages_needed(SUITES["none"], pages=10, thresholds=None)(10, 0)


@pytest.mark.parametrize("name", [name for name, suite in SUITES.items() if suite.tag != "none"])
def test_a_suite_has_families_and_none_that_was_trained_on(name):
    families = families_of(SUITES[name])
    assert len(families) > 0
    assert {FAMILIES[family].split for family in families} == {"bench"}


def test_odd_axes_are_in_the_odd_suite_alone():
    assert not set(families_of(SUITES["scan"])) & set(families_of(SUITES["odd"]))


def test_forms_filled_in_by_hand_are_in_the_suites_for_pens_alone():
    by_hand = {name for name, family in FAMILIES.items() if family.tags & {"pen", "pen-table"}}
    pens = {name for name, suite in SUITES.items() if "pen" in name and suite.facts is None}
    assert {"pen", "one-pen", "pen-copy", "pen-photo", "pen-table"} == pens
    for name, suite in SUITES.items():
        found = set(families_of(suite))
        assert found <= by_hand if name in pens else not found & by_hand


def test_the_suite_of_two_pens_and_that_of_one_share_their_forms_but_no_page():
    two, one = families_of(SUITES["pen"]), families_of(SUITES["one-pen"])
    assert not set(two) & set(one)
    assert {name.removesuffix("-two") for name in two} == {name.removesuffix("-one") for name in one}
    assert set(families_of(SUITES["pen-copy"])) == set(families_of(SUITES["pen-photo"])) == {*two, *one}


@pytest.mark.parametrize(
    ("name", "families"),
    [
        ("scan", "buoy cove ferry harbour lantern ledger mole pier plotted quay"),
        ("odd", "kelp reef spar tide twin"),
        ("several", "ledger pier quay twin"),
    ],
)
def test_the_printed_suites_keep_the_families_that_their_published_figures_were_found_on(name: str, families: str):
    # README.md, the benchmark's table: a family more would give every page of a suite another number
    assert families_of(SUITES[name]) == tuple(families.split())
