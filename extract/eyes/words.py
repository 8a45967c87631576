"""The words of a sheet that has no text of its own."""

from __future__ import annotations

import numpy as np

from ..page import Pixels, Word
from .labels import read_labels
from .text import word_boxes


def read_words(pixels: Pixels, *, most: int | None = None) -> tuple[Word, ...]:
    """Find the words of a sheet and read those that say numbers; with ``most``, about so many from all over it."""
    import cv2

    grey = np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY), np.uint8)
    boxes = word_boxes(grey)
    if most is not None:
        boxes = [b for b in boxes if 1.1 < (b[2] - b[0]) / (b[3] - b[1]) < 4]  # numbers of two digits or more
        boxes = boxes[:: max(1, len(boxes) // most)]
    readings = read_labels(grey, boxes)
    return tuple(Word(r.text, box, r.confidence) for r, box in zip(readings, boxes, strict=True))
