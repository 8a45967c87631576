"""Words not read for certain carry the axis texts that they may say, on coarse pictures of painted pages."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.words import AXIS_TEXTS, read_words
from octavo.extract.page import Pixels, Word
from octavo.extract.shades import grey_of
from octavo.tools.painter import paint, render

PAINTED = paint("single", 5)


def coarse(dpi: int, blur: float) -> Pixels:
    """Render the painted page coarsely, blur it, and enlarge it twice, as a bad fax machine may."""
    picture = cv2.GaussianBlur(render(PAINTED.pdf, dpi), (0, 0), blur)
    return np.asarray(cv2.resize(picture, None, fx=2, fy=2, interpolation=cv2.INTER_CUBIC), np.uint8)


COARSE = coarse(70, 1.0)
WORDS = read_words(grey_of(COARSE))


def read_at_labels(words: tuple[Word, ...], picture: Pixels) -> list[tuple[str, Word]]:
    height, width = picture.shape[:2]
    found = []
    for label in PAINTED.words:
        x, y = (label.box[0] + label.box[2]) / 2 * width, (label.box[1] + label.box[3]) / 2 * height
        here = [w for w in words if w.box[0] < x < w.box[2] and w.box[1] < y < w.box[3]]
        found += [(label.text, here[0])] if label.role != "other" and here else []
    return found


def test_coarse_labels_say_what_was_printed_among_their_readings_far_oftener_than_as_the_first() -> None:
    labels = read_at_labels(WORDS, COARSE)
    first = sum(w.text == text for text, w in labels)
    among = sum(text in [t for t, _ in w.readings] for text, w in labels)
    assert len(labels) >= 20
    assert among >= first + 4
    assert among >= 0.75 * len(labels)


def test_a_doubtful_words_other_texts_are_axis_texts_that_it_may_well_say_the_likeliest_first() -> None:
    doubtful = [w for w in WORDS if w.others]
    assert len(doubtful) >= 10
    for w in doubtful:
        texts, chances = [t for t, _ in w.others], [c for _, c in w.others]
        assert set(texts) <= set(AXIS_TEXTS)
        assert w.text not in texts
        assert len(set(texts)) == len(texts) <= 4
        assert chances == sorted(chances, reverse=True)
        assert all(0.02 <= c <= 1 for c in chances)
        # texts exclude one another
        assert sum(chances) <= 1 + 1e-6


def test_a_word_read_with_certainty_has_no_other_texts() -> None:
    words = read_words(grey_of(render(PAINTED.pdf, 200)))
    labels = read_at_labels(words, render(PAINTED.pdf, 200))
    sure = [w for _, w in labels if w.confidence >= 0.985]
    assert len(sure) >= 15
    assert all(w.others == () for w in sure)


def test_an_empty_sheet_has_no_words() -> None:
    assert read_words(np.full((300, 200), 255, np.uint8)) == ()


@pytest.mark.parametrize("text", ["125", "750", "1000", "8000", "12500", "0.25", "0,5", "1.5", "8", "1k", "12.5k",
                                  "-10", "-20", "0", "65", "120", "140"])  # fmt: skip
def test_what_axes_of_audiograms_usually_print_is_among_the_axis_texts(text: str) -> None:
    # ISO 8253-1 and clinical forms: Hz or kHz, with a decimal point or comma; levels by 5 dB (common practice)
    assert text in AXIS_TEXTS


def test_no_axis_text_stands_twice_so_that_none_crowds_out_others() -> None:
    assert len(set(AXIS_TEXTS)) == len(AXIS_TEXTS)
