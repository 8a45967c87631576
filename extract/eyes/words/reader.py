"""Read printed words, above all axis numbers and units, with a small network, many in one pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ..networks import said_by

HEIGHT, WIDTH = 32, 128
STEP_PX = 4
"""The network says a character or a blank for so many pixels of width."""
NARROWER_PX, SPARE_PX = 16, 20
"""Pictures are cut to a multiple of so many pixels that leaves so much paper behind the word: the network, which looks
no farther than that beside a character, says of 1,177 words the same, in less than two thirds of the time."""
TEXT_HEIGHT = 18.0
"""How high a word's own box stands in the crop, in pixels of the crop."""

CHARSET = "0123456789.,-/%()+:'& abcdefghijklmnopqrstuvwxyzäöüßéèêëçáíóúñàâîïôûùœ?"
"""What the network can say: letters in lower case alone, ``?`` for any other character. Class 0 is the CTC blank."""

LOOKALIKES = str.maketrans("\u2212\u2013\u2014\u2018\u2019", "---''")
"""Minus sign, dashes and quotation marks, and what stands for them."""
WORDS_A_RUN = 64
NEVER = -20.0
"""Logarithm of the chance that anything stands behind a word's picture."""
LEAST_LOG = -640.0
"""Logarithm of the least chance of a path: the product over all steps then stays within what a float64 can hold."""

Logits = npt.NDArray[np.float32]
Box = tuple[float, float, float, float]
"""Left, top, right, bottom in sheet pixels."""


@dataclass(frozen=True, slots=True)
class LabelReading:
    """What one word says and how sure the network is (the least probability along the best path)."""

    text: str
    confidence: float


def label_crop(grey: npt.NDArray[np.uint8], box: Box) -> npt.NDArray[np.uint8]:
    """Cut one word out of a page at the size the network expects.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    box : tuple of float
        The word's ink box (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    ndarray, shape (32, 128), uint8
        The word, its box 18 pixels high, starting 8 pixels from the left; darkest 0, lightest 255.
    """
    import cv2

    left, top, right, bottom = box
    scale = _scale(box)
    pad = 10.0 / scale
    x0, y0 = int(max(left - pad, 0)), int(max(top - pad, 0))
    x1, y1 = int(min(right + pad, grey.shape[1])) + 1, int(min(bottom + pad, grey.shape[0])) + 1
    part = grey[y0:y1, x0:x1]
    if not part.size:  # a box beside the page
        return np.full((HEIGHT, WIDTH), 255, np.uint8)
    if scale < 0.7:
        size = (max(1, round(part.shape[1] * scale)), max(1, round(part.shape[0] * scale)))
        fx, fy = size[0] / part.shape[1], size[1] / part.shape[0]
        part = cv2.resize(part, size, interpolation=cv2.INTER_AREA)
    else:
        fx = fy = 1.0
    middle = ((top + bottom) / 2 - y0) * fy
    matrix = np.array(
        [[scale / fx, 0, 8 - (left - x0) * scale], [0, scale / fy, HEIGHT / 2 - middle * scale / fy]], np.float64
    )
    crop = cv2.warpAffine(
        part, matrix, (WIDTH, HEIGHT), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255
    )
    keep = _kept(box)
    crop[:, keep:] = 255
    levels = np.sort(crop[:, :keep], axis=None, kind="stable")  # much quicker than np.percentile
    low, high = (float(levels[round(share * (len(levels) - 1))]) for share in (0.01, 0.85))
    low = min(low, high - 40.0)
    return np.clip((crop.astype(np.float32) - low) * (255.0 / (high - low)), 0, 255).astype(np.uint8)


def _scale(box: Box) -> float:
    """Give the pixels of a word's picture per sheet pixel."""
    return min(TEXT_HEIGHT / max(box[3] - box[1], 4.0), (WIDTH - 12.0) / max(box[2] - box[0], 4.0))


def _kept(box: Box) -> int:
    """Give where the sheet ends in a word's picture: beyond is white."""
    return min(WIDTH, int(8 + (box[2] - box[0]) * _scale(box) + 7))


def _width(box: Box) -> int:
    """Give the width that a word's picture is cut to."""
    return min(NARROWER_PX * -(-(_kept(box) + SPARE_PX) // NARROWER_PX), WIDTH)


def classes_of(text: str, charset: str = CHARSET) -> list[int]:
    """Give the class numbers of a text (1 is the first character of ``charset``; 0 is the CTC blank).

    A letter that the network knows in lower case alone stands as that, a minus sign or a dash as a hyphen; any other
    character that it cannot say stands as ``?``.
    """
    known = _numbers_of(charset)
    rest = known["?"]
    return [known.get(one) or known.get(one.lower(), rest) for one in text.translate(LOOKALIKES)]


@lru_cache(maxsize=2)
def _numbers_of(charset: str) -> dict[str, int]:
    return {one: number for number, one in enumerate(charset, 1)}


def decode(logits: Logits, charset: str = CHARSET) -> LabelReading:
    """Turn one word's outputs, shape (steps, characters + 1), into text by the best path of CTC."""
    return decode_all(logits[None], charset)[0]


def decode_all(logits: Logits, charset: str = CHARSET) -> tuple[LabelReading, ...]:
    """Turn the outputs of several words, shape (words, steps, characters + 1), into texts, each by its best path."""
    if not len(logits):
        return ()
    best = logits.argmax(axis=2)
    sums = np.exp(logits - logits.max(axis=2, keepdims=True)).sum(axis=2)  # one over the best character's chance
    sure = 1.0 / sums.max(axis=1)
    said = best != 0
    said[:, 1:] &= best[:, 1:] != best[:, :-1]
    return tuple(
        LabelReading("".join(charset[i - 1] for i in one[new]).strip(), float(least))
        for one, new, least in zip(best, said, sure, strict=True)
    )


def chances(logits: Logits, texts: Sequence[str], charset: str = CHARSET) -> npt.NDArray[np.float64]:
    """Say how probable each of some texts is for each word.

    Parameters
    ----------
    logits : ndarray, shape (words, steps, characters + 1), float32
        What the network gave (``label_logits``).
    texts : sequence of str
        What a word may say; the empty text is allowed.
    charset : str, optional
        The characters of the network.

    Returns
    -------
    ndarray, shape (words, texts), float64
        Natural logarithms of the CTC probabilities, each the sum over all paths that spell the text;
        ``-inf`` for a text that has no path in so few steps.

    Notes
    -----
    The forward sums of Graves et al. 2006 (connectionist temporal classification), computed once for each common
    beginning of the texts and without logarithms. No character at any step counts as less probable than
    ``exp(LEAST_LOG / steps)``, 2e-9 with 32 steps, so that no sum runs out of range.
    """
    words, steps, _ = logits.shape
    parents, chars, repeats, ends = _beginnings(tuple(texts), charset)
    shifted = logits.astype(np.float64) - logits.max(axis=2, keepdims=True)
    shifted -= np.log(np.exp(shifted).sum(axis=2, keepdims=True))
    given = np.exp(np.maximum(shifted, LEAST_LOG / steps)).transpose(1, 2, 0).copy()
    nodes = len(parents)
    # Row n of ``char``: paths that end in the last character of beginning n; of ``blank``: in a blank after it.
    both = np.zeros((2 * nodes, words))
    either, blank = both[:nodes], both[nodes:]
    char, come, emitted = np.zeros((nodes, words)), np.empty((nodes, words)), np.empty((nodes, words))
    blank[0] = 1.0
    before = np.where(repeats, nodes + parents, parents)  # a repeated character needs a blank between
    for step in given:
        np.add(char, blank, out=either)
        np.take(both, before, axis=0, out=come, mode="clip")
        come += char
        np.take(step, chars, axis=0, out=emitted, mode="clip")
        np.multiply(come, emitted, out=char)
        char[0] = 0.0
        np.multiply(either, step[0], out=blank)
    with np.errstate(divide="ignore"):
        return np.log((char + blank)[ends].T)


@lru_cache(maxsize=8)  # the same few lists of texts are weighed on every page, and one has 4,000
def _beginnings(
    texts: tuple[str, ...], charset: str
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp], npt.NDArray[np.bool_], npt.NDArray[np.intp]]:
    """List the distinct beginnings of the texts, the empty one first.

    Of each: the beginning one character shorter, its last character, and whether that repeats the one before it. Then
    for each text its place in the list.
    """
    known: dict[tuple[int, ...], int] = {(): 0}
    rows = [(0, 0, False)]
    classes = [classes_of(text, charset) for text in texts]
    for text in classes:
        for end in range(1, len(text) + 1):
            begin = tuple(text[:end])
            if begin not in known:
                known[begin] = len(rows)
                rows.append((known[begin[:-1]], begin[-1], end > 1 and begin[-1] == begin[-2]))
    ends = [known[tuple(text)] for text in classes]
    return (
        np.array([r[0] for r in rows], np.intp), np.array([r[1] for r in rows], np.intp),
        np.array([r[2] for r in rows], np.bool_), np.array(ends, np.intp),
    )  # fmt: skip


def label_logits(grey: npt.NDArray[np.uint8], boxes: Sequence[Box]) -> Logits:
    """Run the network on the words in the given boxes.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    boxes : sequence of tuple of float
        Ink boxes (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    ndarray, shape (words, steps, characters + 1), float32
        What ``decode_all`` and ``chances`` take, in the order of the boxes; the blank is class 0.
    """
    if not boxes:
        return np.zeros((0, WIDTH // 4, len(CHARSET) + 1), np.float32)
    found = np.full((len(boxes), WIDTH // STEP_PX, len(CHARSET) + 1), NEVER, np.float32)
    found[..., 0] = 0.0  # behind the end of its picture a word has only blanks
    widths = np.array([_width(box) for box in boxes])
    for width in np.unique(widths):
        places = np.flatnonzero(widths == width)
        for start in range(0, len(places), WORDS_A_RUN):
            some = places[start : start + WORDS_A_RUN]
            crops = np.stack([label_crop(grey, boxes[i])[:, :width] for i in some])
            said = said_by("words/labels", 1.0 - crops[:, None].astype(np.float32) / 255.0)
            found[some, : width // STEP_PX] = said[:, 0]
    return found


def read_labels(grey: npt.NDArray[np.uint8], boxes: Sequence[Box]) -> tuple[LabelReading, ...]:
    """Read the words in the given boxes.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    boxes : sequence of tuple of float
        Ink boxes (left, top, right, bottom) in sheet pixels.

    Returns
    -------
    tuple of LabelReading
        One for each box, in the order given; ``label_logits`` serves a caller that wants other texts weighed as well.
    """
    return decode_all(label_logits(grey, boxes))
