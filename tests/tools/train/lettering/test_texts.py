"""Words for the label reader: which there are, and how they are spelled for the network."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from octavo.extract.eyes.words.reader import CHARSET, WIDTH, classes_of
from octavo.tools.train.lettering.texts import FREQUENCIES, LEVELS, WORDS, word_text


@cache
def texts(count: int) -> list[str]:
    rng = np.random.default_rng(5)
    return [word_text(rng) for _ in range(count)]


def spelled(text: str) -> str:
    return "".join(CHARSET[c - 1] for c in classes_of(text)).strip()


def test_every_character_of_the_alphabet_is_there_once_and_letters_are_small():
    assert len(set(CHARSET)) == len(CHARSET)
    assert CHARSET.lower() == CHARSET


def test_targets_fit_the_characters_of_the_network():
    for text in texts(2000):
        classes = classes_of(text)
        assert len(classes) == len(text)
        assert all(1 <= c <= len(CHARSET) for c in classes)  # 0 is the blank


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("-10", "-10"), ("\u221210", "-10"), ("\u201310", "-10"), ("1.5 kHz", "1.5 khz"), ("2K", "2k"),
        ("Right ear,", "right ear,"), ("dB (HL)", "db (hl)"), ("VERTÄUBT", "vertäubt"), ("ÓSEA:", "ósea:"),
        ("l\u2019oreille", "l'oreille"), ("20°", "20?"), ("[dB]", "?db?"),
    ],
)  # fmt: skip
def test_a_target_spells_the_text_in_small_letters_with_question_marks_for_what_the_network_cannot_say(
    text: str, said: str
):
    assert spelled(text) == said


def test_a_target_fits_the_steps_of_the_network():
    # CTC needs a step for each character and a blank between equal ones (Graves et al. 2006); the network gives one
    # for each 4 of 128 pixels.
    for text in texts(20_000):
        classes = classes_of(text)
        assert len(classes) + sum(a == b for a, b in pairwise(classes)) <= WIDTH // 4


def test_every_audiometric_frequency_is_painted_both_in_hertz_and_in_kilohertz():
    said = set(texts(20_000))
    for hz in FREQUENCIES:
        assert str(hz) in said
        assert {f"{hz / 1000:g}", f"{hz / 1000:g}".replace(".", ","), f"{hz / 1000:g}k"} & said


def test_every_level_from_minus_20_to_140_in_steps_of_5_is_painted():
    assert list(LEVELS) == list(range(-20, 141, 5))
    assert {str(level) for level in LEVELS} <= {spelled(t) for t in texts(20_000)}


def test_words_of_all_four_languages_are_painted():
    parts = {part for t in texts(20_000) for part in spelled(t).strip("().,:").replace("/", " ").split()}
    assert len(WORDS) > 250
    assert {spelled(w).strip("().,:") for w in WORDS if "/" not in w} <= parts
    assert {"unmasked", "vertäubt", "aérienne", "derecho"} <= parts


def test_most_words_are_numbers_and_about_three_in_ten_have_a_letter_besides_units():
    units = ("db hl", "dbhl", "db spl", "khz", "hz", "db", "hl", "k")
    plain = [spelled(t) for t in texts(20_000)]
    for unit in units:
        plain = [t.replace(unit, "") for t in plain]
    assert 0.24 < np.mean([any(c.isalpha() for c in t) for t in plain]) < 0.32
