"""Dotted lines between labels and values: taken off, and nothing else with them."""

from __future__ import annotations

import cv2
import numpy as np

from octavo.extract.page import Word
from octavo.extract.report.growth import ink_of
from octavo.extract.report.leaders import without_leaders

HIGH = 28


def drawn(*, dots: int, step: int = 10) -> np.ndarray:
    """Draw "Sex", a dotted line at its foot from x = 140 on, and "min" with the point of its i behind it."""
    picture = np.full((120, 700), 250, np.uint8)
    cv2.putText(picture, "Sex", (40, 70), cv2.FONT_HERSHEY_SIMPLEX, 1.0, 20, 3)
    cv2.putText(picture, "min", (500, 70), cv2.FONT_HERSHEY_SIMPLEX, 1.0, 20, 3)
    for k in range(dots):
        cv2.circle(picture, (140 + step * k, 68), 1, 60, -1)
    return picture


def test_a_dotted_line_is_taken_off_and_words_are_cut_to_their_letters() -> None:
    """A form's dots were read as "es" and "eee", and its tick boxes behind them were lost."""
    picture = drawn(dots=34)
    words = (
        Word("sexes", (38, 44, 300, 74)),
        Word("eee", (310, 50, 420, 74)),
        Word("min", (440, 44, 570, 74)),
    )
    clean, kept = without_leaders(picture, ink_of(picture), words)
    assert [(word.text, word.box[0] < 140) for word in kept] == [("sexes", True), ("min", False)]
    assert kept[0].box[2] < 140
    assert not ink_of(clean)[:, 130:480].any()
    beside = np.r_[0:125, 490:700]
    assert (clean[:, beside] == picture[:, beside]).all()


def test_three_dots_are_no_line() -> None:
    picture = drawn(dots=3)
    words = (Word("Sex...", (38, 44, 170, 74)), Word("min", (498, 44, 570, 74)))
    clean, kept = without_leaders(picture, ink_of(picture), words)
    assert clean is picture
    assert kept == words
