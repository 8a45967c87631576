"""Arrows behind the levels of a table, which say no response: no reader of words knows them, so their shape tells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ...page import Pixels, Word
from ...report.growth import ink_of

Mask = npt.NDArray[np.bool_]

LEAST_PX = 8
"""An arrow lower than this has no shape."""
HIGH = (0.6, 1.35)
"""How high an arrow is, in heights of its word."""
WIDE = (0.2, 0.85)
"""How wide, in its own height."""
STEM, STEM_WIDE = 0.5, 0.5
"""Over so much of its height an arrow is a stem, and no wider than so much of it."""
HEAD = (0.45, 0.92)
"""Between these heights it is as wide as it gets."""
TIP, TIP_WIDE = 0.92, 0.7
"""Below this it is a tip again."""
MARK_GAP = 0.5
"""It stands at most so far behind the digits, in heights."""
BEFORE_END = (1.2, 2.2)
"""So far before a word's end it begins, in heights: behind it a sign of masking may stand."""
OPEN_SIGNS = ("*", "m")
SIGNS = (*OPEN_SIGNS, ")", "]")


def with_arrows(grey: Pixels, words: Sequence[Word]) -> tuple[Word, ...]:
    """Read the arrows behind numbers.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    words : sequence of Word
        Its words, read from the picture.

    Returns
    -------
    tuple of Word
        The same; a number behind which an arrow hangs ends with ``↓``, in every reading, and without the sign that it
        was taken for; a sign of masking behind the arrow stays.
    """
    ink = ink_of(grey)
    return tuple(_marked(word) if _may_hold(word) and _arrow_behind(ink, word) else word for word in words)


def _may_hold(word: Word) -> bool:
    return not word.upright and sum(c.isdigit() for c in word.text) >= 1 and len(word.text) <= 6


def _marked(word: Word) -> Word:
    others = tuple((with_arrow(text), chance) for text, chance in word.others)
    return replace(word, text=with_arrow(word.text), others=others)


def with_arrow(text: str) -> str:
    """Put an arrow in the place of the sign that it was read as: levels end with 0 or 5 (steps of 5 dB).

    >>> with_arrow("1051"), with_arrow("80L"), with_arrow("45"), with_arrow("115")
    ('105↓', '80↓', '45↓', '115↓')
    >>> with_arrow("1151*"), with_arrow("[60L]"), with_arrow("60*")
    ('115↓*', '[60↓]', '60↓*')
    """
    found = re.match(r"\s*[>(\[]?\s?-?\s?(?:1[0-3][05]|\d?[05])(?!\d\d|[05])", text)
    if not found:
        return text
    level, behind = found[0].strip(), text[found.end() :].strip()[-1:]
    signed = behind in (SIGNS if level[0] in "([" else OPEN_SIGNS)
    return f"{level}↓{behind if signed else ''}"


def _arrow_behind(ink: Mask, word: Word) -> bool:
    """Say whether the last figure of a word, or the one right behind it, is an arrow that points down.

    Before a sign of masking it is the last figure but one, or the last that is no lower than a digit.
    """
    import cv2

    left, top, right, bottom = word.box
    high = bottom - top
    if high < LEAST_PX:
        return False
    signed = any(text.strip().endswith(SIGNS) for text, _ in word.readings)
    x0, y0 = round(max(right - BEFORE_END[signed] * high, left, 0)), round(max(top - 0.3 * high, 0))
    part = ink[y0 : round(bottom + 0.3 * high) + 1, x0 : round(right + MARK_GAP * high) + 1].astype(np.uint8)
    if not part.size:
        return False
    count, marks, stats, _ = cv2.connectedComponentsWithStats(part, connectivity=8)
    tall = [n for n in range(1, count) if stats[n, cv2.CC_STAT_HEIGHT] >= HIGH[0] * high]
    for figure in sorted(tall, key=lambda n: -stats[n, cv2.CC_STAT_LEFT])[: 1 + signed]:
        x, y, wide, tall_px = (int(v) for v in stats[figure, :4])
        if tall_px <= HIGH[1] * high and _is_arrow(marks[y : y + tall_px, x : x + wide] == figure):
            return True
    return False


def _is_arrow(shape: Mask) -> bool:
    """Say whether a figure is a stem that ends in a head pointing down."""
    high, wide = shape.shape
    if not (WIDE[0] * high <= wide <= WIDE[1] * high and high >= LEAST_PX and wide >= 4):
        return False
    inked = shape.any(axis=1)
    spans = np.where(inked, wide - shape.argmax(axis=1) - shape[:, ::-1].argmax(axis=1), 0)
    middles = np.where(inked, shape @ np.arange(wide) / np.maximum(shape.sum(axis=1), 1), wide / 2)
    stem = spans[: round(STEM * high)]
    widest = int(spans.argmax())
    tip = spans[round(TIP * high) :]
    straight = np.abs(middles[: round(STEM * high)] - (wide - 1) / 2).max() <= max(0.22 * wide, 1.0)
    return bool(
        stem.max(initial=0) <= max(STEM_WIDE * wide, 2.0)
        and HEAD[0] * high <= widest + 0.5 <= HEAD[1] * high
        and spans.max() >= 0.8 * wide
        and tip.max(initial=0) <= max(TIP_WIDE * wide, 2.0)
        and straight
    )
