"""Marks too small to be seen in the whole chart's crop, drawn here by hand."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
from by_hand import OCTAVES, frequency_words, level_words, sheet, x_of, y_of

from octavo.extract.eyes import see
from octavo.extract.page import Pixels, Word

TIMES = 2
LEVELS = {250: 20, 500: 30, 1000: 40, 2000: 55, 4000: 70}


def chart_picture(*, marks: bool) -> Pixels:
    """Draw a large chart's lines, and on them small crosses and circles with a thin pencil."""
    picture = np.full((1200 * TIMES, 1000 * TIMES, 3), 255, np.uint8)
    places = {hz: round(TIMES * x_of(hz)) for hz in OCTAVES}
    top, bottom = (round(TIMES * y_of(db)) for db in (-10, 120))
    for x in places.values():
        cv2.line(picture, (x, top), (x, bottom), (190, 190, 190), 1)
    for db in range(-10, 121, 10):
        y = round(TIMES * y_of(db))
        cv2.line(picture, (places[OCTAVES[0]], y), (places[OCTAVES[-1]], y), (190, 190, 190), 1)
    for hz, db in LEVELS.items() if marks else ():
        x, y = places[hz], round(TIMES * y_of(db))
        cv2.circle(picture, (x, y), 6, (150, 150, 150), 1, cv2.LINE_AA)
        cv2.line(picture, (x - 5, y + 65), (x + 5, y + 75), (150, 150, 150), 1, cv2.LINE_AA)
        cv2.line(picture, (x + 5, y + 65), (x - 5, y + 75), (150, 150, 150), 1, cv2.LINE_AA)
    return picture


def large(word: Word) -> Word:
    left, top, right, bottom = word.box
    return replace(word, box=(TIMES * left, TIMES * top, TIMES * right, TIMES * bottom))


def test_small_thin_marks_of_a_large_chart_are_seen() -> None:
    # a pencil on a large form: two of its 25 marks were seen, and none read
    words = tuple(map(large, (*frequency_words(), *level_words())))
    seen = see(sheet(pixels=chart_picture(marks=True), words=words))
    glyphs = [m.glyph for m in seen.marks if m.score > 0.45]
    assert (glyphs.count("circle"), glyphs.count("cross")) == (len(LEVELS), len(LEVELS))


def test_a_large_chart_without_marks_has_none() -> None:
    words = tuple(map(large, (*frequency_words(), *level_words())))
    seen = see(sheet(pixels=chart_picture(marks=False), words=words))
    assert not [m for m in seen.marks if m.score > 0.45]
