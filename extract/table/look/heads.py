"""Find the frequencies of a table that were not read: numbers stand in a column or row that has none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from statistics import median

import numpy as np
import numpy.typing as npt

from ...eyes.words.numbers import STANDARD_HZ
from ...page import Pixels, Word
from ..rows.lines import Line
from ..rows.slant import Slant
from .shaded import in_cell
from .weigh import Box, weigh

NEAR = 0.3
"""A number belongs to a frequency that stands so near it along the line, in distances of numbers."""
BEYOND = 1.4
"""A lost frequency stands at most so many distances before the first that was read, or after the last."""
MOST_LOST = 4
"""Several may be lost in a row: each look finds the next."""
FEWEST_BESIDE = 2
"""So many numbers beside one, under frequencies that were read, make it one of the table."""
LEAST_FIT, LEAST_LEAD = -14.0, 2.0
"""How well a frequency must explain the picture by both networks together, and by how much better than any other."""
INK = 0.75
"""Ink is darker than this part of the paper's grey."""
FORMS = ("{0:g}", "{0:g} Hz", "{0:g}Hz", "{1:g}", "{1:g}k", "{1:g} kHz", "{1:g} k")


def with_lost_heads(
    grey: Pixels, words: Sequence[Word], line: Line, others: Sequence[Line], slant: Slant
) -> Line:  # fmt: skip
    """Give a table's line of frequencies with those that were not read.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    words : sequence of Word
        Its words, levelled by ``slant``.
    line : Line
        The frequencies that were read, levelled too.
    others : sequence of Line
        The page's other lines of frequencies: what stands under one of those has its frequency.
    slant : Slant
        What the words were levelled by.

    Returns
    -------
    Line
        The same where every number stands under a frequency. A frequency that only the picture tells, once it is known
        between which others it stands, is doubtful.
    """
    high = line.height
    beside = [at for o in others if o.along == line.along and abs(o.across - line.across) < high for at in o.at]
    for _ in range(MOST_LOST):
        more = _with_more(grey, words, line, beside, slant)
        if more is line:
            break
        line = more
    return line


def _with_more(
    grey: npt.NDArray[np.uint8], words: Sequence[Word], line: Line, beside: Sequence[float], slant: Slant
) -> Line:
    """Give a line with the frequencies that are lost between its own, and beside its first and last."""
    numbers = [w for w in words if _counts(w) and not any(w is head for head in line.words)]
    heads = list(zip(line.hz, line.at, line.words, strict=True))
    doubtful = {id(line.words[i]) for i in line.doubtful}
    contradicted = {id(line.words[i]) for i in line.contradicted}
    for at, width in _bare_places(numbers, line):
        if any(abs(place - at) < 0.5 * width for place in beside):
            continue
        below = max((hz for hz, place, _ in heads if place < at), default=0.0)
        above = min((hz for hz, place, _ in heads if place > at), default=max(STANDARD_HZ) + 1)
        found = _head(grey, _box(line, at, width), slant, (below, above))
        if found is not None:
            heads.append((found[0], at, found[1]))
            doubtful.add(id(found[1]))
    heads.sort(key=lambda head: head[1])
    if len(heads) == len(line.hz) or any(b[0] <= a[0] for a, b in pairwise(heads)):
        return line
    return replace(
        line, hz=tuple(h[0] for h in heads), at=tuple(h[1] for h in heads), words=tuple(h[2] for h in heads),
        doubtful=frozenset(i for i, h in enumerate(heads) if id(h[2]) in doubtful),
        contradicted=frozenset(i for i, h in enumerate(heads) if id(h[2]) in contradicted),
    )  # fmt: skip


def _counts(word: Word) -> bool:
    """Say whether a word may be what a cell says: a level, or that none was measured."""
    return any(in_cell(text) for text, _ in word.readings)


def _bare_places(numbers: Sequence[Word], line: Line) -> list[tuple[float, float]]:
    """Find where along a line numbers stand without a frequency, and how far apart numbers stand there."""
    along, across, high = line.along, 1 - line.along, line.height
    beyond = [w for w in numbers if w.middle[across] > line.across + 0.6 * high]
    held: list[tuple[Word, list[float]]] = []
    for word in beyond:
        row = [o.middle[along] for o in beyond if abs(o.middle[across] - word.middle[across]) < 0.6 * high]
        if sum(_off(x, line) < 0.5 * high for x in row) >= FEWEST_BESIDE:
            held.append((word, sorted(row)))
    steps = [b - a for _, row in held for a, b in pairwise(row) if b - a > 0.9 * high]
    if not steps:
        return []
    pitch = min(float(np.percentile(steps, 20)), min(b - a for a, b in pairwise(line.at)) * (1 + NEAR))
    low, end = line.at[0] - BEYOND * pitch, line.at[-1] + BEYOND * pitch
    places = sorted(word.middle[along] for word, _ in held)
    clusters: list[list[float]] = []
    for x in (x for x in places if low < x < end and _off(x, line) > NEAR * pitch):
        if clusters and x - clusters[-1][-1] < NEAR * pitch:
            clusters[-1].append(x)
        else:
            clusters.append([x])
    rows = max(sum(abs(x - at) < 0.5 * high for x in places) for at in line.at)
    return [(median(cluster), pitch) for cluster in clusters if len(cluster) > 1 or rows == 1]


def _off(x: float, line: Line) -> float:
    """Say how far a place is from the nearest frequency of a line."""
    return min(abs(x - at) for at in line.at)


def _box(line: Line, at: float, width: float) -> Box:
    """Give the box in which a frequency is looked for, on the level page."""
    low, high = line.sides
    half = 0.5 * width if line.along == 0 else 0.6 * line.height
    return (at - half, low, at + half, high) if line.along == 0 else (low, at - half, high, at + half)


def _head(
    grey: npt.NDArray[np.uint8], box: Box, slant: Slant, between: tuple[float, float]
) -> tuple[float, Word] | None:  # fmt: skip
    """Read a frequency between two others in a box; None where none of them is likely enough.

    Where any other frequency is likelier, one of the two beside it was misread.
    """
    tight = _tightened(grey, slant.box_done(box))
    if tight is None:
        return None
    texts = [(form.format(hz, hz / 1000), hz) for hz in STANDARD_HZ for form in FORMS]
    weights = weigh(grey, [tight], [text for text, _ in texts])
    fits = np.maximum(weights.as_print[0], -40.0) + np.maximum(weights.as_label[0], -40.0)
    best = int(fits.argmax())
    rival = max(float(f) for f, (_, hz) in zip(fits, texts, strict=True) if hz != texts[best][1])
    if fits[best] < LEAST_FIT or fits[best] - rival < LEAST_LEAD or not between[0] < texts[best][1] < between[1]:
        return None
    dx, dy = box[0] - slant.box_done(box)[0], box[1] - slant.box_done(box)[1]
    place = (tight[0] + dx, tight[1] + dy, tight[2] + dx, tight[3] + dy)
    return texts[best][1], Word(f"{texts[best][1]:g}", place, 0.5)


def _tightened(grey: npt.NDArray[np.uint8], box: Box) -> Box | None:
    """Give the box of the ink in a box, specks smoothed away; None where there is none."""
    import cv2

    left, top, right, bottom = (max(round(side), 0) for side in box)
    part = grey[top:bottom, left:right]
    if min(part.shape) < 4:
        return None
    smooth = cv2.GaussianBlur(part, (0, 0), max(0.09 * part.shape[0], 0.8))
    dark = smooth < INK * np.percentile(smooth, 75)
    columns = np.nonzero(dark.sum(axis=0) > 0.12 * len(dark))[0]
    if len(columns) < 2:
        return None
    return float(left + columns[0]), float(top), float(left + columns[-1] + 1), float(bottom)
