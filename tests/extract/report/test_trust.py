"""How probable words are by three readers: what the order of chances must be, whatever the fit."""

from __future__ import annotations

import pytest

from octavo.extract.page import Word
from octavo.extract.report.trust import UNSEEN, UNTOLD, Said, chance_of, trust_in


def chance(text: str, print_: str, label: str, recognised: str, sure: float = 0.97) -> float:
    return trust_in(text, (Said(print_, sure), Said(label, sure), Said(recognised, sure)))


@pytest.mark.parametrize("text", ["95", "Hollis", "-0.85"])
def test_each_reader_that_agrees_makes_a_word_likelier(text: str) -> None:
    label = text.lower()
    three, two, one = chance(text, text, label, text), chance(text, text, label, "80"), chance(text, text, "80", "30")
    assert three > 0.99 > two > one


def test_what_all_read_weakly_is_less_likely_than_what_they_read_well() -> None:
    assert chance("95", "95", "95", "95", 0.5) < chance("95", "95", "95", "95", 0.97)


def test_english_data_need_not_see_an_accent_and_the_network_for_labels_neither() -> None:
    assert chance("Müller", "Müller", "muller", "Muller") > 0.99


def test_capitals_that_may_be_digits_are_never_certain() -> None:
    """All readers take the 5 of "AC5" for an S, since a word of capitals is likelier."""
    assert chance("ACS", "ACS", "acs", "ACS", 0.999) <= UNTOLD
    assert chance("Smith", "Smith", "smith", "Smith") > UNTOLD


def test_a_word_without_readers_is_certain_only_where_the_file_gave_it() -> None:
    assert chance_of(Word("Ada", (0, 0, 1, 1))) == 1
    assert chance_of(Word("Ada", (0, 0, 1, 1), 0.99)) <= UNSEEN


def test_an_accent_that_print_alone_saw_weakly_is_not_certain() -> None:
    assert chance("aíds.", "aíds.", "aids.", "aids.", 0.75) <= UNTOLD


def test_capitals_that_are_a_label_are_no_digits() -> None:
    """ "PASS" beside every band of an emission was held for a possible "PA55", and made all emissions of scans ask."""
    assert chance("PASS", "PASS", "pass", "PASS", 0.999) > UNTOLD
    assert chance("PASO", "PASO", "paso", "PASO", 0.999) <= UNTOLD
