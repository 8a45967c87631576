"""Which marks beside a key's words are its specimens."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from octavo.extract.eyes.specimens import specimens
from octavo.extract.page import Word


@pytest.mark.parametrize(("text", "seen"), [("mm", 2), ("mA", 0), ("00", 0), ("Air", 0)])
def test_a_word_of_one_marks_letter_over_and_over_may_be_specimens_of_both_ears(text: str, seen: int) -> None:
    # "mm seuil d'inconfort" on a scan: what m stood for was not taken from the key
    picture = np.full((200, 400, 3), 255, np.uint8)
    for x in (100, 130):
        cv2.circle(picture, (x, 100), 9, (200, 0, 0), 2, cv2.LINE_AA)
    word = Word(text, (88.0, 88.0, 142.0, 112.0), 0.9, 0)
    assert len(specimens(picture, (50.0, 50.0, 250.0, 150.0), 17.0, (word,))) == seen
