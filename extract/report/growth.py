"""Boxes of words grown to the whole of their ink: the finder's box may end before a long word does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ..eyes.words.reader import read_labels
from ..page import Pixels, Word
from ..shades import once
from ..spots import spots_in

Box = tuple[float, float, float, float]
Mask = npt.NDArray[np.bool_]
Boxes = npt.NDArray[np.float64]

PAPER = 0.85
"""Share of a sheet that is darker than its paper, or as dark."""
BAND = (0.12, 0.9)
"""The part of a word's height in which ink at its ends is looked for: above and below run rules."""
LETTER_GAP = 0.22
"""Letters of a word are at most so many of its heights apart."""
DIGIT_GAP = 0.32
"""Digits are farther apart, a 1 above all: without it, another date stands there."""
WORD_GAP = 0.62
"""Words of a piece are at most so many apart that one may have been missed between or beside them."""
MOST = 9.0
"""A box grows by at most so many heights to a side: what goes on for longer is no word."""
RULE = 0.8
"""Three columns that are dark over this part of the height, and beyond it, are a rule, be it broken by a fax."""
SAME = 0.6
"""A word whose width lies in another's by so much is a part of it."""
SPECK, MANY_SPECKS = 0.09, 300
"""A speck is at most so many heights of a word wide, a full stop half as wide again; fewer of them do no harm."""
TORN = 0.3
"""Two boxes of a line that share so many heights of width are pieces of one word."""
AT_ONCE = 256
"""So many rows are cleaned at a time: the places of all ink of a photo would fill 20 MB."""
CHANGED = 0.12
"""A box that grew by more than so many heights is read again."""


def ink_of(grey: Pixels) -> Mask:
    """Tell ink from paper, from the paper's own grey.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.

    Returns
    -------
    ndarray, shape (height, width), bool
        Not to be written to.
    """
    return once(grey, _ink)


def _ink(grey: Pixels) -> Mask:
    import cv2

    some = np.ascontiguousarray(grey[::4, ::4])  # sorting a million pixels takes 12 ms
    up_to = np.asarray(cv2.calcHist([some], [0], None, [256], [0, 256])).ravel().astype(np.int64).cumsum()
    place = PAPER * (int(up_to[-1]) - 1)
    low, high = (int(np.searchsorted(up_to, at, side="right")) for at in (int(place), int(place) + 1))
    paper = low + (min(high, 255) - low) * (place - int(place))
    ink = np.asarray(grey < np.uint8(max(np.ceil(min(paper - 45.0, 0.72 * paper)), 0)))
    ink.flags.writeable = False
    return ink


def spots_of(ink: Mask) -> npt.NDArray[np.int32]:
    """Give left, top, width, height and area of each separate spot of ink, the paper first; shape (spots + 1, 5)."""
    return once(ink, _spots)


def _spots(ink: Mask) -> npt.NDArray[np.int32]:
    return spots_in(ink.view(np.uint8))[1]


def without_specks(grey: Pixels, ink: Mask, words: tuple[Word, ...]) -> Pixels:
    """Take off specks much smaller than a full stop: a shaded head of a table is a field of them on a fax.

    Parameters
    ----------
    grey, ink : ndarray, shape (height, width)
        The sheet, uint8, and its ink, bool.
    words : tuple of Word
        Its words: their usual height says how small a speck is.
    """
    import cv2

    usual = float(np.median([w.box[3] - w.box[1] for w in words])) if words else 0.0
    least = (SPECK * usual) ** 2
    if least < 1.0:
        return grey
    small = spots_of(ink)[:, cv2.CC_STAT_AREA] <= least
    small[0] = False
    if small.sum() < MANY_SPECKS:
        return grey
    numbers, clean = spots_in(ink.view(np.uint8))[0], grey.copy()
    for top in range(0, len(grey), AT_ONCE):
        band = slice(top, top + AT_ONCE)
        inked = np.flatnonzero(ink[band])
        clean[band].reshape(-1)[inked[small[numbers[band].reshape(-1)[inked]]]] = 255
    return clean


def grown_words(grey: Pixels, ink: Mask, words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Grow the boxes of words to their ink, and read anew what was cut off.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    ink : ndarray, shape (height, width), bool
        Its ink.
    words : tuple of Word
        Level words, in sheet pixels.

    Returns
    -------
    tuple of Word
        What grew into another word ends there, and what grew over a piece of itself takes its place; pieces of one
        word are put together.
    """
    words = _mended(words)
    gaps = [DIGIT_GAP if any(c.isdigit() for c in word.text) else LETTER_GAP for word in words]
    all_boxes = _boxes(words)
    boxes = [
        _stopped(grown(ink, word.box, gap), number, all_boxes)
        for number, (word, gap) in enumerate(zip(words, gaps, strict=True))
    ]
    found = list(_mended(tuple(_moved(word, box) for word, box in zip(words, boxes, strict=True))))
    changed = [k for k, word in enumerate(found) if not word.text]
    for k, reading in zip(changed, read_labels(grey, [found[k].box for k in changed]), strict=True):
        found[k] = replace(found[k], text=reading.text, confidence=reading.confidence, others=())
    return tuple(word for word, inside in zip(found, _within(_boxes(found)), strict=True) if not inside)


def _boxes(words: Sequence[Word]) -> Boxes:
    return np.array([word.box for word in words], np.float64).reshape(-1, 4)


def _moved(word: Word, box: Box) -> Word:
    """Give a word its grown box, without its text where that must be read anew."""
    more = word.box[0] - box[0] + box[2] - word.box[2]
    return replace(word, text="", box=box, others=()) if more > CHANGED * (word.box[3] - word.box[1]) else word


def _mended(words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Put the boxes together that run into each other on a line; what such a word says must be read anew."""
    whole: list[Word] = []
    boxes = np.empty((len(words), 4))
    for word in sorted(words, key=lambda w: w.box[0]):
        left, top, right, bottom = word.box
        torn = np.flatnonzero(_run_into(boxes[: len(whole)], word.box))
        if not len(torn):
            boxes[len(whole)] = word.box
            whole.append(word)
            continue
        o_left, o_top, o_right, o_bottom = whole[torn[0]].box
        box = (min(left, o_left), min(top, o_top), max(right, o_right), max(bottom, o_bottom))
        boxes[torn[0]], whole[torn[0]] = box, replace(word, text="", box=box, others=())
    return tuple(whole)


def _run_into(before: Boxes, box: Box) -> Mask:
    """Say of each of the boxes before whether it runs into a box."""
    ones, other = before[:, 3] - before[:, 1], box[3] - box[1]
    shared = np.minimum(before[:, 3], box[3]) - np.maximum(before[:, 1], box[1])
    level = shared > 0.7 * np.maximum(ones, other)
    return level & (before[:, 2] - box[0] > TORN * np.minimum(ones, other)) & (before[:, 2] < box[2])


def _within(boxes: Boxes) -> Mask:
    """Say of each word whether it is a part of another one, which grew over it."""
    left, top, right, bottom = (boxes[:, None, side] for side in range(4))
    o_left, o_top, o_right, o_bottom = (boxes[None, :, side] for side in range(4))
    wide, o_wide = right - left, o_right - o_left
    shared = np.minimum(right, o_right) - np.maximum(left, o_left)
    lower = np.minimum(bottom - top, o_bottom - o_top)
    level = np.minimum(bottom, o_bottom) - np.maximum(top, o_top) > 0.5 * lower
    number = np.arange(len(boxes))
    smaller = (wide < o_wide) | ((wide == o_wide) & (number[:, None] < number))
    return np.asarray((level & (shared > SAME * wide) & smaller).any(axis=1))


def grown(ink: Mask, box: Box, gap: float) -> Box:
    """Grow a box to both sides over ink that goes on without a wider gap, in heights of the box."""
    high = box[3] - box[1]
    top, bottom = int(max(box[1] + BAND[0] * high, 0)), int(min(box[1] + BAND[1] * high, ink.shape[0] - 1)) + 1
    rows = ink[top:bottom]
    tall = ink[int(max(box[1] - 0.6 * high, 0)) : int(box[3] + 0.6 * high)]
    left = _end(rows, tall, int(max(box[0], 0)), -1, high, gap)
    right = _end(rows, tall, int(min(box[2], ink.shape[1] - 1)), 1, high, gap)
    return min(box[0], float(left)), box[1], max(box[2], float(right)), box[3]


def _end(rows: Mask, tall: Mask, start: int, way: int, high: float, gap: float) -> int:
    """Follow ink from a column to one side; give the last column that belongs to it."""
    last, at, reach = start, start, int(MOST * high)
    first = max(start - reach, 0)
    inked = np.asarray(rows[:, first : start + reach + 1].any(axis=0))
    while 0 <= at < rows.shape[1] and abs(at - start) <= reach and abs(at - last) <= gap * high + 1:
        if inked[at - first]:
            if np.count_nonzero(tall[:, max(at - 1, 0) : at + 2].any(axis=1)) > RULE * len(tall):
                break
            last = at
        at += way
    return last if abs(last - start) < reach else start


def _stopped(box: Box, number: int, boxes: Boxes) -> Box:
    """End the grown box of a word where another word of its line begins."""
    left, top, right, bottom = box
    own_left, _, own_right, _ = (float(side) for side in boxes[number])
    level = np.minimum(bottom, boxes[:, 3]) - np.maximum(top, boxes[:, 1]) >= 0.4 * (bottom - top)
    level[number] = False
    for o_left, _, o_right, _ in boxes[level].tolist():
        if o_left >= own_right - 2:
            right = min(right, max(o_left - 1, own_right))
        elif o_right <= own_left + 2:
            left = max(left, min(o_right + 1, own_left))
    return left, top, right, bottom
