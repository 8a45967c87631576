"""The words of a sheet that has no text of its own, with what else each may say where that is in doubt."""

from __future__ import annotations

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


def _others(text: str, chance: np.ndarray) -> tuple[tuple[str, float], ...]:
    """Give the likeliest axis texts besides the text read."""
    order = [int(i) for i in np.argsort(-chance) if chance[i] >= LEAST_CHANCE and AXIS_TEXTS[i] != text]
    return tuple((AXIS_TEXTS[i], float(chance[i])) for i in order[:MOST_OTHERS])
