"""Ink beside a text that no word explains: a part of the text that was lost or cut off."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..page import Word
from .growth import Mask
from .lines import Box

REACH = 3.5
"""So far to either side of a text ink is looked for, in heights of its letters."""
CLEAR = 0.2
"""What is nearer belongs to the letters at its ends."""
BAND = (0.1, 0.85)
"""The part of the letters' height that is looked at: below run underlines."""
RULE = 0.75
"""A row or column that is dark over this part is a printed rule."""
SPACE, OVER_GAPS = 0.28, 2.5
"""A gap so wide, in the letters' height, and so many times the word's usual ones, is a space within a word."""
OVER = 0.4
"""An accent stands at most so far above its capital, in the letters' height, with nothing but paper over it."""
LEAST_PX, STACKED = 14, 0.5
"""Lower words show no stroke within a letter; holes of one letter share so much of the narrower one's width."""
TWICE_HOLED = frozenset("aegB8&")
"""Letters that have two holes, or seem to where the print runs together."""
LETTER = 0.14
"""Letters darken so much of a square as high as they are."""


def ink_beside(ink: Mask, box: Box, words: Sequence[Word]) -> bool:
    """Say whether letters that are no word's seem to stand right before or behind a text.

    Parameters
    ----------
    ink : ndarray, shape (height, width), bool
        The sheet's ink.
    box : tuple of float
        Around one line of the text, in sheet pixels.
    words : sequence of Word
        All words of the sheet.
    """
    left, top, right, bottom = box
    high = bottom - top
    beside = [w.box for w in words if min(w.box[3], bottom) - max(w.box[1], top) > 0.3 * min(high, w.box[3] - w.box[1])]
    before = max((b[2] for b in beside if b[2] <= left + 1), default=0.0)
    after = min((b[0] for b in beside if b[0] >= right - 1), default=float(ink.shape[1]))
    rows = slice(max(round(top - 0.5 * high), 0), round(bottom + 0.5 * high))
    spans = (
        (max(before + CLEAR * high, left - REACH * high), left - CLEAR * high),
        (right + CLEAR * high, min(after - CLEAR * high, right + REACH * high)),
    )
    return any(_letters(ink[rows, max(round(a), 0) : max(round(b), 0)], high) for a, b in spans)


def _letters(part: Mask, high: float) -> bool:
    """Say whether a strip, twice as high as letters, holds some."""
    wide = round(0.8 * high)
    if part.shape[1] < wide or part.shape[0] < high:
        return False
    part = part & ~(part.mean(axis=1) > RULE)[:, None] & ~(part.mean(axis=0) > RULE)[None, :]
    top = 0.5 * high
    band = part[round(top + BAND[0] * high) : round(top + BAND[1] * high)]
    dark = np.cumsum(np.pad(band.mean(axis=0), (1, 0)))
    return bool(((dark[wide:] - dark[:-wide]) / wide).max(initial=0.0) > LETTER)


def holds_space(ink: Mask, box: Box) -> bool:
    """Say whether a gap as wide as a space stands within a word: two were read as one, "VANDOORN" for "VAN DOORN"."""
    left, top, right, bottom = (round(side) for side in box)
    columns = ink[max(top, 0) : bottom, max(left, 0) : right].any(axis=0)
    inked = np.flatnonzero(columns)
    gaps = np.diff(inked)[np.diff(inked) > 1] - 1
    return bool(gaps.size) and gaps.max() > max(SPACE * (bottom - top), OVER_GAPS * float(np.median(gaps)))


def loses_accents(ink: Mask, word: Word) -> bool:
    """Say whether small ink stands right over capitals read without accents: "IBANEZ" for "IBÁÑEZ"."""
    if not (word.text.isascii() and word.text.isupper()):
        return False
    left, top, right, bottom = (round(side) for side in word.box)
    first = max(top - round(OVER * (bottom - top)), 1)
    rows = ink[first:top, max(left, 0) : right].sum(axis=1)
    return rows.size > 0 and rows[0] == 0 and 0 < rows.max() <= RULE * (right - left)


def crosses_letters(ink: Mask, word: Word) -> bool:
    """Say whether an "o" of a word is crossed, as no reader of four languages knows it: "SORBY" for "SØRBY".

    A stroke parts the paper within it into two, one over the other.
    """
    import cv2

    left, top, right, bottom = (round(side) for side in word.box)
    part = np.pad(ink[max(top - 1, 0) : bottom + 2, max(left, 0) : right + 1], 1)
    if bottom - top < LEAST_PX or not {"o", "O"} & set(word.text):
        return False
    count, _, stats, _ = cv2.connectedComponentsWithStats((~part).astype(np.uint8), connectivity=4)
    holes = [tuple(int(v) for v in stats[n]) for n in range(1, count)]
    holes = [(x, y, w, h) for x, y, w, h, area in holes if area > 1 and x > 0 and y > 0 and w < part.shape[1] / 2]
    for one in holes:
        for other in holes:
            shared = min(one[0] + one[2], other[0] + other[2]) - max(one[0], other[0])
            if one[1] < other[1] and shared >= STACKED * min(one[2], other[2]):
                at = (one[0] + one[2] / 2) / part.shape[1] * len(word.text)
                near = set(word.text[max(int(at - 1), 0) : int(at + 1) + 1])
                if near & {"o", "O"} and not near & TWICE_HOLED:
                    return True
    return False
