"""Every language says everything that English says, and every word that a rule can find."""

from __future__ import annotations

import re

import pytest

from octavo.interpret.errors import MisuseError
from octavo.interpret.finding_codes import FINDING_CODES, Part
from octavo.interpret.rules.audibility.audible_speech import HEARD, NOT_HEARD, PARTLY
from octavo.interpret.rules.audibility.gain import NOT_FOR_CONDUCTIVE
from octavo.interpret.rules.change.retest import WORDS as CHANGES
from octavo.interpret.rules.degree import NORMAL_LIMITS, SCHEMES, UNILATERAL, bands
from octavo.interpret.rules.gap.loss_type import AT_LIMIT, KINDS, NO_BONE, NO_MASKING
from octavo.interpret.rules.immittance.reflexes import ABSENT, ELEVATED, NO_PATTERN, PATTERNS, PRESENT
from octavo.interpret.rules.immittance.tympanogram import TYPES
from octavo.interpret.rules.plausibility_of_tests import AT_THE_LIMIT, WORSE_THAN_AIR
from octavo.interpret.rules.shape.configuration import GENDEAF_RULE, GENES_RULE, OCTAVO_RULE
from octavo.interpret.rules.speech.agreement import AGREEMENT_RULES
from octavo.interpret.rules.speech.critical_difference import DIFFERENCES
from octavo.interpret.rules.speech.recognition import GRADES
from octavo.interpret.rules.truth import MET, NOT_MET
from octavo.interpret.words.languages import LANGUAGES, language
from octavo.interpret.words.languages.language import Language, plain

OTHERS = [one for one in LANGUAGES.values() if one.id != "en"]
ENGLISH = LANGUAGES["en"]
FOUND_WORDS = sorted(
    {
        MET, NOT_MET, UNILATERAL, HEARD, PARTLY, NOT_HEARD, NOT_FOR_CONDUCTIVE, *KINDS, NO_BONE, NO_MASKING, AT_LIMIT,
        *CHANGES, *OCTAVO_RULE.words, *GENES_RULE.words, *GENDEAF_RULE.words,
        *(band.grade for scheme in SCHEMES for band in bands(scheme)),
        *(word for rule in AGREEMENT_RULES for word, _ in rule.edges), *(word for word, _ in GRADES), *DIFFERENCES,
        *TYPES, *PATTERNS, NO_PATTERN, PRESENT, ELEVATED, ABSENT, WORSE_THAN_AIR, AT_THE_LIMIT,
    }
)  # fmt: skip


def fields(template: str) -> set[str]:
    return set(re.findall(r"\{(\w+)\}", template))


@pytest.mark.parametrize("code", FINDING_CODES)
@pytest.mark.parametrize("name", LANGUAGES)
def test_every_finding_has_a_title_and_its_part_a_heading(name: str, code: str) -> None:
    assert code in LANGUAGES[name].titles
    part: Part = FINDING_CODES[code].part
    assert part in LANGUAGES[name].parts


@pytest.mark.parametrize("other", OTHERS, ids=lambda one: one.id)
@pytest.mark.parametrize(
    "table", ["titles", "parts", "numbers", "phrases", "patient", "terms", "ears", "in_ears", "conductions"]
)
def test_a_translation_has_every_entry_with_its_fields(other: Language, table: str) -> None:
    ours, theirs = getattr(ENGLISH, table), getattr(other, table)
    assert theirs.keys() == ours.keys()
    assert {key: fields(theirs[key]) for key in ours} == {key: fields(ours[key]) for key in ours}


@pytest.mark.parametrize("other", OTHERS, ids=lambda one: one.id)
@pytest.mark.parametrize("table", ["tips", "questions", "cautions"])
def test_a_translation_has_every_item(other: Language, table: str) -> None:
    assert len(getattr(other, table)) == len(getattr(ENGLISH, table))


@pytest.mark.parametrize("other", OTHERS, ids=lambda one: one.id)
@pytest.mark.parametrize("word", FOUND_WORDS)
def test_every_word_of_a_rule_is_translated(other: Language, word: str) -> None:
    assert word in other.words


@pytest.mark.parametrize("other", OTHERS, ids=lambda one: one.id)
def test_every_note_on_a_scheme_or_limit_is_translated(other: Language) -> None:
    assert set(other.notes) == {*SCHEMES, *NORMAL_LIMITS}


@pytest.mark.parametrize("word", [*KINDS, NO_BONE, NO_MASKING, AT_LIMIT])
def test_every_type_has_its_sentence_for_patients(word: str) -> None:
    assert f"loss-type:{word}" in ENGLISH.patient


def test_numbers_are_written_as_the_language_does() -> None:
    assert (ENGLISH.number(33.333), ENGLISH.number(40.0), ENGLISH.number(-0.04)) == ("33.3", "40", "0")
    assert LANGUAGES["es"].number(33.333) == "33,3"


def test_words_are_joined_as_the_language_does() -> None:
    assert ENGLISH.listed(["a", "b", "c"]) == "a, b and c"
    assert LANGUAGES["es"].listed(["a", "b"], "or") == "a o b"


def test_ascii_keeps_the_letters() -> None:
    assert plain("¿Oído izquierdo? 120↓") == "Oido izquierdo? 120v"


def test_an_unknown_language_is_refused_with_the_ones_there_are() -> None:
    with pytest.raises(MisuseError, match=r"there are no words in 'xx'\. Choose one of en, es"):
        language("xx")
