"""Tick boxes between the words of a picture: found, told from letters, and taken off before the words are read.

A box that stands close before a word is read as a letter of it. Of the boxes of a line at least one is empty, and its
inside is a clean square; the others, with something put into them, are of its size and on its height.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from ..page import Pixels, Word

Box = tuple[float, float, float, float]
Mask = npt.NDArray[np.bool_]

SIDES = (0.6, 1.7)
"""How large the inside of an empty box is, in the usual height of the page's words."""
SQUARE = 1.2
"""Its sides differ by at most so much."""
CLEAN = 0.93
"""So much of its bounding box is empty: letters such as D and O have rounder insides."""
FRAME = 0.8
"""Each of a ticked box's sides is ink over at least this part."""
ALONG = 30.0
"""So many sides to the left and right of an empty box, others of its line are looked for."""
OFF_LINE = 0.35
"""So far above or below its height, in sides."""
BEFORE = 1.6
"""A word begins at most so many sides behind its box, and no farther before the box's end than it."""
INNER = 0.2
FILLED, EMPTY = 0.1, 0.04
"""A box is ticked from this share of ink inside on, and empty up to the other."""


def tick_boxes(ink: Mask, words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Find the tick boxes that stand before words.

    Parameters
    ----------
    ink : ndarray, shape (height, width), bool
        The sheet's ink.
    words : tuple of Word
        Its level words outside the charts.

    Returns
    -------
    tuple of Word
        One for each box, ``☐`` or ``☒``, in sheet pixels; a box of which neither can be said has confidence 0.5.
    """
    if not words:
        return ()
    usual = float(np.median([w.box[3] - w.box[1] for w in words]))
    found: list[Word] = []
    for empty in _empty_squares(ink, usual):
        if not _before_a_word(empty, words) or any(_meet(empty, w.box) for w in found):
            continue
        found.append(Word("☐", empty, 1.0))
        found += [one for one in _beside(ink, empty) if not any(_meet(one.box, w.box) for w in found)]
    return tuple(one for one in found if _before_a_word(one.box, words))


def without_boxes(grey: Pixels, words: tuple[Word, ...], boxes: tuple[Word, ...]) -> tuple[Pixels, tuple[Word, ...]]:
    """Take tick boxes off a sheet and out of the words that they were taken for a part of."""
    if not boxes:
        return grey, words
    clean = grey.copy()
    paper = np.uint8(np.percentile(grey[::4, ::4], 85))
    for box in boxes:
        left, top, right, bottom = (round(v) for v in box.box)
        spare = max(2, round(0.12 * (right - left)))
        clean[max(top - spare, 0) : bottom + spare + 1, max(left - spare, 0) : right + spare + 1] = paper
    kept = []
    for word in words:
        over = [b.box for b in boxes if _meet(b.box, word.box)]
        left = max((b[2] + 0.2 * (b[2] - b[0]) for b in over if b[2] < word.box[2]), default=word.box[0])
        if over and word.box[2] - left < 0.25 * (word.box[3] - word.box[1]):
            continue  # the box alone
        kept.append(replace(word, box=(max(left, word.box[0]), *word.box[1:])) if over else word)
    return clean, tuple(kept)


def _empty_squares(ink: Mask, usual: float) -> list[Box]:
    """Give the clean squares of paper that ink encloses, with their frames."""
    import cv2

    contours, tree = cv2.findContours(ink.view(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_SIMPLE)
    parents: list[int] = [] if tree is None else np.asarray(tree).reshape(-1, 4)[:, 3].tolist()
    found: list[Box] = []
    for contour, parent in zip(contours, parents, strict=True):
        if parent < 0:
            continue
        x, y, wide, high = cv2.boundingRect(contour)
        if not SIDES[0] * usual <= min(wide, high) <= max(wide, high) <= SIDES[1] * usual:
            continue
        if max(wide, high) > SQUARE * min(wide, high) or cv2.contourArea(contour) < CLEAN * (wide - 1) * (high - 1):
            continue
        inside = ink[y + 2 : y + high - 2, x + 2 : x + wide - 2]
        outer = cv2.boundingRect(contours[parent])
        if inside.size and inside.mean() <= EMPTY and max(outer[2:]) < 1.7 * max(wide, high):  # no cell of a table
            left, top = float(outer[0]), float(outer[1])
            found.append((left, top, left + outer[2] - 1, top + outer[3] - 1))
    return sorted(found)


def _beside(ink: Mask, empty: Box) -> list[Word]:
    """Give the boxes of an empty one's size on its line, each with what stands in it."""
    side = round(max(empty[2] - empty[0], empty[3] - empty[1]))
    shift = max(2, round(OFF_LINE * side))
    top, left = max(round(empty[1]) - shift, 0), max(round(empty[0] - ALONG * side), 0)
    part = ink[top : round(empty[3]) + shift + 2, left : round(empty[2] + ALONG * side)]
    worth = _framed(part, side)
    found: list[Word] = []
    while worth.size and worth.max() >= FRAME:
        y, x = (int(v) for v in np.unravel_index(int(worth.argmax()), worth.shape))
        worth[:, max(x - side, 0) : x + side] = 0.0
        edge = max(2, round(INNER * side))
        share = float(part[y + edge : y + side - edge + 1, x + edge : x + side - edge + 1].mean())
        box = (float(left + x), float(top + y), float(left + x + side), float(top + y + side))
        if part[y : y + side + 1, x : x + side + 1].mean() < 0.9:
            clear = share >= FILLED or share <= EMPTY
            found.append(Word("☒" if share >= FILLED else "☐", box, 1.0 if clear else 0.5))
    return found


def _framed(part: Mask, side: int) -> npt.NDArray[np.float64]:
    """Say how well each place's square is drawn: the least covered of its four sides, by ink a pixel wide or two."""
    if part.shape[0] <= side or part.shape[1] <= side:
        return np.zeros((0, 0))
    padded = np.pad(part, 1)
    thick = padded[1:-1, 1:-1] | padded[:-2, 1:-1] | padded[2:, 1:-1] | padded[1:-1, :-2] | padded[1:-1, 2:]
    rows = np.pad(np.cumsum(thick, axis=1, dtype=np.int32), ((0, 0), (1, 0)))
    columns = np.pad(np.cumsum(thick, axis=0, dtype=np.int32), ((1, 0), (0, 0)))
    along = (rows[:, side + 1 :] - rows[:, : -side - 1]) / (side + 1)
    down = (columns[side + 1 :] - columns[: -side - 1]) / (side + 1)
    high, wide = part.shape[0] - side, part.shape[1] - side
    return np.minimum(np.minimum(along[:high], along[side:]), np.minimum(down[:, :wide], down[:, side:])).astype(float)


def _before_a_word(box: Box, words: tuple[Word, ...]) -> bool:
    side, middle = box[2] - box[0], (box[1] + box[3]) / 2
    return any(
        w.box[1] - 0.3 * side < middle < w.box[3] + 0.3 * side
        and w.box[2] > box[2] + 0.3 * side
        and w.box[0] < box[2] + BEFORE * side
        and w.box[0] > box[0] - 0.5 * side
        for w in words
    )


def _meet(one: Box, other: Box) -> bool:
    """Say whether the middle of a box lies in another one."""
    x, y = (one[0] + one[2]) / 2, (one[1] + one[3]) / 2
    return other[0] <= x <= other[2] and other[1] - 2 <= y <= other[3] + 2
