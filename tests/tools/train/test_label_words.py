"""Words painted for the label reader: what they say, how they lie, and that a seed is enough to have them again."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from octavo.extract.eyes.labels import CHARSET, HEIGHT, TEXT_HEIGHT, WIDTH
from octavo.tools.painter.fonts import collect
from octavo.tools.train.label_words import FREQUENCIES, WORDS, paint_word, target, word_text


@pytest.fixture(scope="module")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    return sorted(p for p in collect(tmp_path_factory.mktemp("fonts")) if p.suffix in (".ttf", ".otf"))


def texts(count: int) -> list[str]:
    rng = np.random.default_rng(5)
    return [word_text(rng) for _ in range(count)]


def test_targets_fit_the_characters_of_the_network():
    for text in texts(2000):
        classes = target(text)
        assert len(classes) == len(text)
        assert all(1 <= c <= len(CHARSET) for c in classes)  # 0 is the blank


def test_a_target_spells_the_text_with_question_marks_for_what_the_network_cannot_say():
    spelled = {
        text: "".join(CHARSET[c - 1] for c in target(text)) for text in ("-10", "1.5 kHz", "2K", "Left", "dB HL")
    }
    assert spelled == {"-10": "-10", "1.5 kHz": "1.5 kHz", "2K": "2k", "Left": "L???", "dB HL": "dB HL"}


def test_a_target_fits_the_steps_of_the_network():
    # CTC needs a step for each character and a blank between equal ones (Graves et al. 2006); the network gives one
    # for each 4 of 128 pixels.
    for text in texts(2000):
        classes = target(text)
        assert len(classes) + sum(a == b for a, b in pairwise(classes)) <= WIDTH // 4


def test_every_audiometric_frequency_is_painted_both_in_hertz_and_in_kilohertz():
    said = set(texts(8000))
    for hz in FREQUENCIES:
        assert str(hz) in said
        assert {f"{hz / 1000:g}", f"{hz / 1000:g}".replace(".", ","), f"{hz / 1000:g}k"} & said


def test_every_level_from_minus_20_to_120_in_steps_of_5_is_painted():
    assert {str(level) for level in range(-20, 121, 5)} <= set(texts(8000))


def test_words_that_are_no_labels_are_painted_too():
    assert set(WORDS) <= set(texts(20_000))


def test_a_painted_word_lies_in_the_crop_as_the_reader_cuts_it(fonts: list[Path]):
    rng = np.random.default_rng(8)
    tops, bottoms, lefts = [], [], []
    for _ in range(200):
        crop, text = paint_word(fonts, rng, "500")
        assert (text, crop.shape, crop.dtype) == ("500", (HEIGHT, WIDTH), np.uint8)
        rows, columns = np.nonzero(crop[:, :60] < 128)
        if len(rows):
            tops.append(rows.min())
            bottoms.append(rows.max() + 1)
            lefts.append(columns.min())
    assert len(tops) >= 190  # pale ones are lost where a page is made black and white, as on a bad fax
    # By the middle one of 200, since lines that are not the word's stand near some of them.
    assert np.median(bottoms) - np.median(tops) == pytest.approx(TEXT_HEIGHT, abs=2)
    assert np.median(lefts) == pytest.approx(8, abs=1.5)


def test_the_same_seed_paints_the_same_words_and_another_seed_others(fonts: list[Path]):
    def some(seed: int) -> list[tuple[bytes, str]]:
        rng = np.random.default_rng(seed)
        return [(crop.tobytes(), text) for crop, text in (paint_word(fonts, rng) for _ in range(20))]

    assert some(1) == some(1)
    assert not set(some(1)) & set(some(2))
