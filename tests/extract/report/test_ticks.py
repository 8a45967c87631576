"""Tick boxes between words, drawn by OpenCV."""

from __future__ import annotations

import cv2
import numpy as np

from octavo.extract.page import Pixels, Word
from octavo.extract.report.growth import ink_of
from octavo.extract.report.ticks import tick_boxes, without_boxes

SIDE, TOP = 24, 40


def page(*places: tuple[int, bool]) -> Pixels:
    """A page with boxes at these places from the left, ticked or not, and a letter behind each."""
    grey = np.full((110, 700), 250, np.uint8)
    for left, ticked in places:
        cv2.rectangle(grey, (left, TOP), (left + SIDE, TOP + SIDE), 20, 2)
        if ticked:
            cv2.line(grey, (left + 5, TOP + 5), (left + SIDE - 5, TOP + SIDE - 5), 20, 3)
            cv2.line(grey, (left + 5, TOP + SIDE - 5), (left + SIDE - 5, TOP + 5), 20, 3)
        cv2.putText(grey, "M", (left + SIDE + 12, TOP + SIDE - 2), cv2.FONT_HERSHEY_SIMPLEX, 0.9, 20, 2, cv2.LINE_AA)
    return grey


def word(left: float, right: float, text: str = "M") -> Word:
    return Word(text, (left, TOP + 2, right, TOP + SIDE), 0.9)


def test_of_boxes_in_a_line_the_ticked_one_is_told_from_the_empty_ones() -> None:
    grey = page((100, False), (250, True), (400, False))
    words = tuple(word(left + SIDE + 12, left + SIDE + 36) for left in (100, 250, 400))
    found = sorted(tick_boxes(ink_of(grey), words), key=lambda w: w.box[0])
    assert [w.text for w in found] == ["☐", "☒", "☐"]
    assert all(abs(w.box[0] - left) <= 1 for w, left in zip(found, (100, 250, 400), strict=True))  # lines are 2 px


def test_a_box_that_was_taken_for_a_letter_is_taken_off_the_word() -> None:
    grey = page((100, False), (250, True))
    words = (word(99, 160, "OM"), word(249, 310, "XM"))
    boxes = tick_boxes(ink_of(grey), words)
    clean, kept = without_boxes(grey, words, boxes)
    assert not ink_of(clean)[:, 90:130].any()
    assert all(w.box[0] > left + SIDE for w, left in zip(kept, (100, 250), strict=True))


def test_letters_with_round_insides_and_cells_of_tables_are_no_tick_boxes() -> None:
    grey = np.full((110, 700), 250, np.uint8)
    cv2.putText(grey, "O D 0 B 8", (60, TOP + SIDE), cv2.FONT_HERSHEY_SIMPLEX, 1.0, 20, 2, cv2.LINE_AA)
    for left in range(400, 560, SIDE):  # a ruled row
        cv2.rectangle(grey, (left, TOP), (left + SIDE, TOP + SIDE), 20, 2)
    words = (word(60, 220, "OD0B8"), word(590, 620))
    assert tick_boxes(ink_of(grey), words) == ()
