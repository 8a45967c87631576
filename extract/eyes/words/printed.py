"""Read printed words letter by letter, capitals and accents included, with a small network of their own.

The reader of labels (``reader``) knows small letters alone and is at home with numbers. This one reads the words around
the charts, as a second reader beside Tesseract: each word as high as its line stands, so that capitals show.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from ..networks import said_by
from .reader import LOOKALIKES, LabelReading, Logits, decode_all

HEIGHT, WIDEST = 32, 256
WIDTHS = (64, 96, 128, 192, WIDEST)
"""A word is read in the narrowest picture that holds it; a longer one is squeezed."""
BAND_PX = 20.0
"""How high the line that a word belongs to stands in its picture."""
LEFT_PX, SIDES_PX = 8, 15
"""Where a word begins in its picture, and what paper stands beside it altogether."""
CHARSET = (
    "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
    " .,:;-/%()+'\"&#*=<>[]!?_|°±"
    "ÄÖÜäöüßÀÂÇÈÉÊËÎÏÔÙÛàâçèéêëîïôùûœÁÍÑÓÚáíñóúº~"
)
"""What the network can say; ``~`` stands for any other character. Class 0 is the CTC blank."""
OTHER = "~"
WORDS_A_RUN = 64

Box = tuple[float, float, float, float]


def classes_of(text: str) -> list[int]:
    """Give the class numbers of a text; a dash of any length is a hyphen, an unknown character ``~``."""
    return [1 + CHARSET.index(c if c in CHARSET else OTHER) for c in text.translate(LOOKALIKES)]


def printed_crop(grey: npt.NDArray[np.uint8], box: Box) -> npt.NDArray[np.uint8]:
    """Cut one word out of a page at the size that the network expects.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    box : tuple of float
        Left and right of the word's ink, top and bottom of its line's, in sheet pixels.

    Returns
    -------
    ndarray, shape (32, one of ``WIDTHS``), uint8
        The word, its line 20 pixels high, starting 8 pixels from the left; darkest 0, lightest 255.
    """
    import cv2

    left, top, right, bottom = box
    fy = BAND_PX / max(bottom - top, 4.0)
    fx = min(fy, (WIDEST - SIDES_PX) / max(right - left, 4.0))
    wide = (right - left) * fx + SIDES_PX
    width = next(w for w in WIDTHS if w >= min(wide, WIDEST) - 0.5)
    x0, y0 = int(max(left - 10 / fx, 0)), int(max(top - 8 / fy, 0))
    x1, y1 = int(min(right + 10 / fx, grey.shape[1])) + 1, int(min(bottom + 8 / fy, grey.shape[0])) + 1
    part = grey[y0:y1, x0:x1]
    if not part.size:  # a box beside the page
        return np.full((HEIGHT, WIDTHS[0]), 255, np.uint8)
    sx = sy = 1.0
    if fy < 0.7:  # an area is shrunk by its mean, then only moved
        size = (max(1, round(part.shape[1] * fx)), max(1, round(part.shape[0] * fy)))
        sx, sy = size[0] / part.shape[1], size[1] / part.shape[0]
        part = cv2.resize(part, size, interpolation=cv2.INTER_AREA)
    middle = ((top + bottom) / 2 - y0) * fy
    matrix = np.array([[fx / sx, 0, LEFT_PX - (left - x0) * fx], [0, fy / sy, HEIGHT / 2 - middle]], np.float64)
    crop = cv2.warpAffine(
        part, matrix, (width, HEIGHT), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255
    )
    keep = min(width, int(wide))
    crop[:, keep:] = 255
    levels = np.sort(crop[:, :keep], axis=None, kind="stable")
    low, high = (float(levels[round(share * (len(levels) - 1))]) for share in (0.01, 0.8))
    low = min(low, high - 40.0)
    return np.clip((crop.astype(np.float32) - low) * (255.0 / (high - low)), 0, 255).astype(np.uint8)


def printed_logits(grey: npt.NDArray[np.uint8], boxes: Sequence[Box]) -> list[Logits]:
    """Run the network on the words in the given boxes (``printed_crop``).

    Returns
    -------
    list of ndarray, shape (steps, characters + 1), float32
        For each box what ``decode_all`` takes.
    """
    crops = [printed_crop(grey, box) for box in boxes]
    found: list[Logits] = [np.zeros((0, len(CHARSET) + 1), np.float32)] * len(crops)
    for width in WIDTHS:
        places = [i for i, crop in enumerate(crops) if crop.shape[1] == width]
        for start in range(0, len(places), WORDS_A_RUN):
            some = places[start : start + WORDS_A_RUN]
            seen = 1.0 - np.stack([crops[i] for i in some])[:, None].astype(np.float32) / 255.0
            for i, said in zip(some, said_by("words/printed", seen)[:, 0], strict=True):
                found[i] = said
    return found


def read_printed(grey: npt.NDArray[np.uint8], boxes: Sequence[Box]) -> tuple[LabelReading, ...]:
    """Read the words in the given boxes, each by its best path."""
    return tuple(decode_all(one[None], CHARSET)[0] for one in printed_logits(grey, boxes))
