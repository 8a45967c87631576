"""The words of a sheet that has no text of its own, with what else each may say where that is in doubt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...page import Pixels, Word
from .finder import word_boxes
from .numbers import STANDARD_HZ
from .reader import chances, decode_all, label_logits

AXIS_TEXTS: tuple[str, ...] = tuple(
    dict.fromkeys(
        [f"{hz:g}" for hz in STANDARD_HZ if hz == int(hz)]
        + [f"{hz / 1000:g}" for hz in STANDARD_HZ]
        + [f"{hz / 1000:g}k" for hz in STANDARD_HZ if hz >= 1000]
        + [f"{hz / 1000:g}".replace(".", ",") for hz in STANDARD_HZ if hz < 2000]
        + [str(level) for level in range(-20, 145, 5)]
    )
)
"""What the labels of audiometric axes say, as they are usually printed."""
LEAST_CHANCE = 0.02
CERTAIN = 0.985
"""A word read with this confidence has no other readings."""
MOST_OTHERS = 4
LEAST_PART_PX = 8


def read_words(grey: Pixels) -> tuple[Word, ...]:
    """Find the level words of a sheet, given by its brightness, and read them."""
    boxes = word_boxes(grey)
    if not boxes:
        return ()
    logits = label_logits(grey, boxes)
    readings = decode_all(logits)
    doubtful = [i for i, r in enumerate(readings) if r.confidence < CERTAIN]
    others: dict[int, tuple[tuple[str, float], ...]] = {}
    if doubtful:
        for i, row in zip(doubtful, chances(logits[doubtful], AXIS_TEXTS), strict=True):
            others[i] = _others(readings[i].text, np.exp(row))
    return tuple(
        Word(r.text, box, r.confidence, others=others.get(i, ()))
        for i, (r, box) in enumerate(zip(readings, boxes, strict=True))
    )


def read_upward(grey: Pixels, box: tuple[float, float, float, float]) -> tuple[Word, ...]:
    """Find and read the words of a part of a sheet that are printed upward, as names of level axes are.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    box : tuple of float
        The part: left, top, right, bottom in pixels.

    Returns
    -------
    tuple of Word
        In sheet pixels, each to be turned by 90 degrees clockwise to be read.
    """
    left, top = max(round(box[0]), 0), max(round(box[1]), 0)
    part = grey[top : max(round(box[3]), 0), left : max(round(box[2]), 0)]
    if min(part.shape) < LEAST_PART_PX:
        return ()
    end = top + part.shape[0] - 1
    return tuple(
        replace(w, box=(left + w.box[1], end - w.box[2], left + w.box[3], end - w.box[0]), upright=90)
        for w in read_words(np.ascontiguousarray(np.rot90(part, -1)))
    )


def _others(text: str, chance: np.ndarray) -> tuple[tuple[str, float], ...]:
    """Give the likeliest axis texts besides the text read."""
    order = [int(i) for i in np.argsort(-chance) if chance[i] >= LEAST_CHANCE and AXIS_TEXTS[i] != text]
    return tuple((AXIS_TEXTS[i], float(chance[i])) for i in order[:MOST_OTHERS])
