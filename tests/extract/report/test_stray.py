"""Ink beside a text that no word explains: what was lost of it is noticed, rules are not taken for it."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.page import Word
from octavo.extract.report.stray import crosses_letters, holds_space, ink_beside, loses_accents

WORDS = {"Eklund,": (100, 170), "Luca": (180, 225)}
"""Left and right end of each word as it stands in the picture, in pixels."""


def picture() -> np.ndarray:
    """A name of two words between the lines of a form: an upright rule at each side and one below."""
    paper = np.full((200, 500), 255, np.uint8)
    for text, (left, right) in WORDS.items():
        (wide, _), _ = cv2.getTextSize(text, cv2.FONT_HERSHEY_SIMPLEX, 0.7, 2)
        assert abs(wide - (right - left)) < 8
        cv2.putText(paper, text, (left, 110), cv2.FONT_HERSHEY_SIMPLEX, 0.7, 0, 2)
    paper[60:140, 80:83] = paper[60:140, 300:303] = 0
    paper[118:120, 60:340] = 0
    return paper < 128


def words(*texts: str) -> list[Word]:
    return [Word(text, (WORDS[text][0], 92, WORDS[text][1], 112), 0.9) for text in texts]


def test_where_all_words_were_found_nothing_is_left_over() -> None:
    assert not ink_beside(picture(), (100, 92, 225, 112), words("Eklund,", "Luca"))


@pytest.mark.parametrize("kept", ["Luca", "Eklund,"])
def test_a_lost_word_beside_a_text_is_noticed(kept: str) -> None:
    left, right = WORDS[kept]
    assert ink_beside(picture(), (left, 92, right, 112), words(kept))


def test_the_lost_end_of_a_word_is_noticed() -> None:
    cut = Word("Lu", (180, 92, 203, 112), 0.9)
    assert ink_beside(picture(), (100, 92, 203, 112), [*words("Eklund,"), cut])


def test_a_space_within_a_word_is_seen_and_the_gaps_of_its_letters_are_not() -> None:
    """A surname of two words stood as sure though its space was lost."""
    ink = np.zeros((40, 200), bool)
    for left in (10, 24, 38, 60, 74, 88):  # letters 12 px wide, 2 px apart, and 10 px in the middle
        ink[10:30, left : left + 12] = True
    assert holds_space(ink, (10, 10, 100, 30))
    assert not holds_space(ink, (10, 10, 50, 30))


def test_ink_right_over_capitals_is_an_accent_that_was_lost() -> None:
    """A surname in capitals stood as sure without its accents."""
    ink = np.zeros((60, 120), bool)
    ink[20:40, 10:100] = True
    assert not loses_accents(ink, Word("IBANEZ", (10, 20, 100, 40), 0.9))
    ink[14:17, 50:56] = True
    assert loses_accents(ink, Word("IBANEZ", (10, 20, 100, 40), 0.9))
    assert not loses_accents(ink, Word("Ibanez", (10, 20, 100, 40), 0.9))
    ink[14:17] = True  # a rule
    assert not loses_accents(ink, Word("IBANEZ", (10, 20, 100, 40), 0.9))


@pytest.mark.parametrize("bold", [False, True])
def test_a_crossed_o_is_no_o_and_other_letters_are_as_they_were(bold: bool) -> None:
    face = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans{'-Bold' if bold else ''}.ttf", 26)
    for printed, read, crossed in (("Sørby", "Sorby", True), ("Sorby", "Sorby", False), ("Soeren", "Soeren", False),
                                   ("Brandtner", "Brandtner", False), ("Ågot", "Agot", False)):  # fmt: skip
        paper = Image.new("L", (300, 60), 255)
        ImageDraw.Draw(paper).text((20, 15), printed, fill=0, font=face)
        dark = np.asarray(paper) < 150
        rows, columns = np.nonzero(dark)
        box = (float(columns.min()), float(rows.min()), float(columns.max()), float(rows.max()))
        assert crosses_letters(dark, Word(read, box, 0.9)) is crossed
