"""Words painted for the label reader: how they lie, that they are there, and that a seed gives them again."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from octavo.extract.eyes.words.reader import HEIGHT, TEXT_HEIGHT, WIDTH
from octavo.tools.painter.fonts import FACES, collect
from octavo.tools.train.lettering import legible_faces, paint_word, paint_words
from octavo.tools.train.lettering.word import NOT_WORDS


@pytest.fixture(scope="module")
def fonts(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("fonts")
    collect(folder)
    return legible_faces(folder)


def test_faces_of_the_benchmark_are_left_out_and_no_other_of_the_painter(fonts: list[Path]):
    files = {f.file: f.split for f in FACES.values() if f.file is not None}
    assert {p.name for p in fonts} == {name for name, split in files.items() if split != "bench"}


def test_a_painted_word_lies_in_the_crop_as_the_reader_cuts_it(fonts: list[Path], monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("octavo.tools.train.lettering.word.OVERLAPPED", 0.0)
    rng = np.random.default_rng(8)
    tops, bottoms, lefts = [], [], []
    for _ in range(200):
        crop, text = paint_word(fonts, rng, "500")
        assert (text, crop.shape, crop.dtype) == ("500", (HEIGHT, WIDTH), np.uint8)
        dark = crop < 128
        rows, columns = np.flatnonzero(dark[:, 8:44].sum(axis=1) > 2), np.flatnonzero(dark[8:24, :60].sum(axis=0) > 1)
        tops.append(rows.min(initial=16))
        bottoms.append(rows.max(initial=16) + 1)
        lefts.append(columns.min(initial=60))
    # By the middle one of 200, since lines and other print that are not the word's stand near some of them.
    assert np.median(bottoms) - np.median(tops) == pytest.approx(TEXT_HEIGHT, abs=2.5)
    assert np.median(lefts) == pytest.approx(8, abs=1.5)


def test_no_word_is_blank(fonts: list[Path]):
    for crop, text in paint_words(fonts, np.random.default_rng(3), 1500):
        if text:
            assert np.count_nonzero(crop[6:26] < 140) >= 8, text


def test_some_crops_show_nothing_or_parts_of_words(fonts: list[Path]):
    said = [text for _, text in paint_words(fonts, np.random.default_rng(4), 2000)]
    nothing, parts = said.count(""), said.count("?")
    assert 0.6 * NOT_WORDS < (nothing + parts) / len(said) < 1.4 * NOT_WORDS
    assert min(nothing, parts) > 10


def test_the_same_seed_paints_the_same_words_and_another_seed_others(fonts: list[Path]):
    def some(seed: int) -> list[tuple[bytes, str]]:
        return [(crop.tobytes(), text) for crop, text in paint_words(fonts, np.random.default_rng(seed), 20)]

    assert some(1) == some(1)
    assert not set(some(1)) & set(some(2))
