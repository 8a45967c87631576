"""Words for the person: plain, calm, no diagnosis, terms once, doubts told, nobody named."""

from __future__ import annotations

import re

import pytest
from any_records import page_records
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_pages import asked, page, rich_page, value

from octavo.interpret.record import Audiogram, PageRecord, Threshold
from octavo.interpret.settings import Settings
from octavo.interpret.words.languages import LANGUAGES
from octavo.interpret.words.patient import WIDTH, for_patient

ENGLISH, SPANISH = LANGUAGES["en"], LANGUAGES["es"]
HZ = (250, 500, 1000, 2000, 4000, 8000)


def row(ear: str, *levels: float) -> tuple[Threshold, ...]:
    name = "right" if ear == "right" else "left"
    return tuple(value(name, hz, db) for hz, db in zip(HZ, levels, strict=True))


def told(record: PageRecord, asked_for: Settings | None = None, language: str = "en") -> str:
    return " ".join(for_patient(record, asked_for, LANGUAGES[language]).split())


def sentences(text: str) -> list[str]:
    return [one for one in re.split(r"(?<=[.!?])\s", text) if re.search("[a-z]", one)]


def syllables(word: str) -> int:
    groups = len(re.findall("[aeiouy]+", word.lower().removesuffix("e")))
    return max(groups, 1)


LOSS = page(
    Audiogram("2019-03-14", thresholds=(*row("right", 10, 15, 20, 40, 60, 70), *row("left", 10, 10, 10, 10, 10, 15)))
)


def test_it_reads_at_the_level_of_a_12_year_old() -> None:
    # Flesch-Kincaid grade (Kincaid 1975): 0.39 words a sentence + 11.8 syllables a word - 15.59; grade 6 is 11 to 12
    # years.
    text = " ".join((told(LOSS, Settings(age_years=50, sex="female")), told(rich_page())))
    prose = re.sub(r"\(\?\)|\"[^\"]*\"", " ", text)
    found = sentences(prose)
    words = [word for one in found for word in re.findall(r"[A-Za-z']+", one)]
    grade = 0.39 * len(words) / len(found) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
    assert grade <= 6


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sentence_is_long(language: str) -> None:
    for template in LANGUAGES[language].patient.values():
        for sentence in sentences(re.sub(r"\{term_\w+\}", "", template)):
            assert len(sentence.split()) <= 20, sentence


@pytest.mark.parametrize("word", ["disease", "deaf", "damage", "abnormal", "suffer", "danger", "tumour", "patholog"])
def test_nothing_alarms_or_diagnoses(word: str) -> None:
    assert word not in told(rich_page()).lower()


def test_the_levels_of_each_pitch_stand_in_it() -> None:
    text = told(LOSS)
    assert "Low sounds, like a drum or a deep voice: you need 10 to 15 dB." in text
    assert "High sounds, like birds or the letters s and f: you need 60 to 70 dB." in text


def test_the_scale_is_named_with_its_word() -> None:
    assert 'The scale "WHO 2021" calls this: mild' in told(LOSS, Settings("who-2021"))


@pytest.mark.parametrize("term", ["your threshold", "the degree of hearing loss", "audibility"])
def test_a_term_stands_in_brackets_once(term: str) -> None:
    assert told(rich_page()).count(f"({term})") == 1


def test_what_rests_on_a_value_to_look_at_is_marked_and_the_other_words_are_named() -> None:
    values = (*row("right", 10, 15, 20, 40, 60, 70)[:3], asked("right", 2000, 40, "faint"), value("right", 4000, 60))
    text = told(page(Audiogram("2019-03-14", thresholds=values)))
    # The average is 21.7 to 28.3 dB, slight or mild by Clark 1981.
    assert "calls this: slight (the degree of hearing loss). (?)" in text
    assert "Until the numbers are checked it could also be: mild." in text
    assert "A person has to check some of the numbers first." in text


def test_without_doubt_nothing_is_marked() -> None:
    assert "(?)" not in told(LOSS)


def test_the_better_ear_is_the_tip() -> None:
    text = told(LOSS)
    assert "Your right ear hears less than the other one" in text
    assert "Sit so that your left ear is toward the person who talks." in text


def test_ears_that_are_alike_are_said_to_be() -> None:
    both = page(
        Audiogram(
            "2019-03-14", thresholds=(*row("right", 10, 10, 10, 10, 10, 10), *row("left", 10, 10, 10, 10, 10, 10))
        )
    )
    assert "Your two ears hear about the same." in told(both)


def test_sounds_that_do_not_reach_the_ear_are_named() -> None:
    assert re.search(r"Your right ear does not get these sounds well: [^.]*f, s and th", told(LOSS))


def test_tips_questions_and_cautions_close_it_once() -> None:
    text = told(rich_page())
    for one in (*ENGLISH.tips, *ENGLISH.questions, *ENGLISH.cautions):
        assert text.count(one) == 1


@pytest.mark.parametrize("word", ["not a hearing test", "doctor", "professional", "scale"])
def test_the_cautions_of_the_trade_are_there(word: str) -> None:
    assert word in " ".join(ENGLISH.cautions)


def test_the_person_is_not_named() -> None:
    assert "Invented" not in told(rich_page())


def test_a_page_without_a_chart_says_so() -> None:
    assert "No hearing chart was found on this page." in told(page())


def test_spanish_is_spanish() -> None:
    text = told(LOSS, language="es")
    assert 'La escala "Clark 1981, as used by ASHA" llama a esto: ligera (el grado de la pérdida auditiva).' in text
    assert "Siéntese con su oído izquierdo hacia la persona que habla." in text


@given(page_records(), st.sampled_from(sorted(LANGUAGES)))
@settings(max_examples=30, deadline=None)
def test_any_record_can_be_told_within_the_width(record: PageRecord, language: str) -> None:
    lines = for_patient(record, Settings(age_years=60, sex="male"), LANGUAGES[language]).splitlines()
    assert max(map(len, lines)) <= WIDTH


def test_nobody_asks_which_part_of_a_normal_ear_is_concerned() -> None:
    # 8 kHz alone is beyond normal, where bone is not tested.
    normal = page(Audiogram("2019-03-14", thresholds=row("left", 10, 10, 10, 15, 20, 30)))
    assert "which part of the ear" not in told(normal)
    loss = page(Audiogram("2019-03-14", thresholds=row("left", 40, 40, 40, 40, 40, 40)))
    assert "which part of the ear" in told(loss)
