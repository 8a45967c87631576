"""Read the shaded head of a table anew: specks of a fax hide its words, or they are light on dark."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

import numpy as np
import numpy.typing as npt

from ...eyes.words import finder
from ...eyes.words.printed import read_printed
from ...eyes.words.reader import read_labels
from ...page import Pixels, Word
from ...report.growth import ink_of
from ..cells.numbers import said_by
from ..cells.readings import serves
from ..rows.lines import height, text_lines

Box = tuple[int, int, int, int]
Grey = npt.NDArray[np.uint8]

FEWEST_ROWS, FEWEST_LEVELS = 2, 2
"""So many lines with so many levels under each other are the numbers of a table."""
NEXT_ROW = 5.0
"""Its rows follow each other within so many heights of a word."""
ABOVE = (7.0, 0.6)
"""Its head stands so far above its first numbers, in heights of a word, at most and at least."""
BESIDE = 25.0
"""The names of its rows stand at most so many heights beside its numbers."""
TILE, WINDOW = 0.6, 0.45
"""Paper is looked at in tiles so wide, and so far up and down, in heights of a word."""
FILLED = 0.85
"""Share of the tiles that hold ink in a shaded line: between the words of another one stands none."""
BAND = (1.1, 5.0)
"""How high a shaded head is, in heights of a word."""
RULED = 0.55
"""A row of pixels that is dark over more than this share is a rule."""
BOLD_RULED = 0.85
"""The same in a dark head, whose letters are bold and stand close."""
UPRIGHT = 0.7
"""A column of pixels that is dark over more than this share of the band is a rule."""
EDGE = 0.3
"""So much beyond the rows that hold specks nearly everywhere the band is read, in heights of a word."""
SMOOTH = 0.09
"""The width of the blur that turns specks into a shade, in heights of a word."""
PAPER = 60
"""Percentile of a smoothed head that counts as its paper."""
MARGIN_PX = 30
DARK = 0.6
"""A dark head is less light than this share of the paper below it."""
LEAST_DARK = 0.3
"""Share of a row, or of a column, of a dark head that is dark."""
LEAST_READ = 0.3
"""Words that our network reads with less confidence are left-over specks."""


def with_shaded_heads(grey: Pixels, words: Sequence[Word]) -> tuple[Word, ...]:
    """Give the words of a page with those in shaded heads of its tables read anew.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    words : sequence of Word
        Its words, read from the picture.

    Returns
    -------
    tuple of Word
        The same where no head is shaded; else those in the heads as our networks for print and for labels read them
        once the specks are smoothed into a shade.
    """
    level = [w for w in words if not w.upright]
    grids = number_blocks(level)
    if not grids:
        return tuple(words)
    ink = ink_of(grey)
    high = median(height(w) for w in level)
    found = list(words)
    for grid in grids:
        dark = _dark_band(grey, grid, high)
        band = dark or _band(ink, grid, high)
        if band is None:
            continue
        before = [w for w in found if not w.upright and _inside(w, band)]
        anew = _read(255 - grey, band, high, ruled=BOLD_RULED) if dark else _read(grey, band, high)
        if _worth(anew) > _worth(before):
            found = [w for w in found if not any(w is other for other in before)] + anew
    return tuple(found)


def _worth(words: Sequence[Word]) -> float:
    """Count the words that serve in a head, those fully that both readings agree on."""
    return sum(
        0.5 + 0.5 * (len(w.others) > 0 and w.others[0][0].casefold() == w.text.casefold())
        for w in words if serves(w.text)
    )  # fmt: skip


def number_blocks(words: Sequence[Word], *, worded: bool = False) -> list[Box]:
    """Give the boxes of blocks of lines that hold several levels each, which may be those of tables.

    With ``worded``, what stands for a level counts as well: "NR", "CNT".
    """
    if not words:
        return []
    high = median(height(w) for w in words)
    blocks: list[list[list[Word]]] = []
    last = -np.inf
    for text in text_lines(words, high):
        levels = [w for w in text if any(_counts(t, worded=worded) for t, _ in w.readings)]
        if len(levels) < FEWEST_LEVELS:
            continue
        y = median(w.middle[1] for w in levels)
        if y - last > NEXT_ROW * high:
            blocks.append([])
        blocks[-1].append(levels)
        last = y
    return [_around([w for row in block for w in row]) for block in blocks if len(block) >= FEWEST_ROWS]


def _counts(text: str, *, worded: bool) -> bool:
    return in_cell(text) if worded else said_by(text).kind == "level"


def in_cell(text: str) -> bool:
    """Say whether a text is a level, or stands for one: "NR", "CNT"."""
    kind = said_by(text).kind
    return kind == "level" or (kind in ("unheard", "untested") and any(c.isalpha() for c in text))


def _around(words: Sequence[Word]) -> Box:
    return (
        round(min(w.box[0] for w in words)), round(min(w.box[1] for w in words)),
        round(max(w.box[2] for w in words)), round(max(w.box[3] for w in words)),
    )  # fmt: skip


def _band(ink: npt.NDArray[np.bool_], grid: Box, high: float) -> Box | None:
    """Find the shaded head over a block of numbers: rows of pixels that hold ink nearly everywhere."""
    left, top, right, _ = grid
    y0, y1 = max(round(top - ABOVE[0] * high), 0), max(round(top - ABOVE[1] * high), 0)
    x0, x1 = max(left, 0), min(right, ink.shape[1])
    part = ink[y0:y1, x0:x1]
    tile = max(round(TILE * high), 2)
    if part.shape[0] < BAND[0] * high or part.shape[1] < 4 * tile:
        return None
    part = part & (part.mean(axis=1, keepdims=True) <= RULED)
    columns = part.shape[1] // tile
    tiles: npt.NDArray[np.bool_] = np.logical_or.reduce(
        part[:, : columns * tile].reshape(len(part), columns, tile), axis=2
    )  # fmt: skip
    window = max(round(WINDOW * high), 1)
    tops = np.array([tiles[max(i - window, 0) : i + 1].any(axis=0).mean() for i in range(len(tiles))])
    downs = np.array([tiles[i : i + window + 1].any(axis=0).mean() for i in range(len(tiles))])
    rows = np.nonzero((tops > FILLED) & (downs > FILLED))[0]
    if not len(rows):
        return None
    run = max(np.split(rows, np.nonzero(np.diff(rows) > window)[0] + 1), key=len)
    if not BAND[0] * high <= np.ptp(run) + 1 <= BAND[1] * high:
        return None
    wide = max(round(left - BESIDE * high), 0), min(round(right + 2 * high), ink.shape[1])
    edge = round(EDGE * high)
    return wide[0], max(y0 + int(run[0]) - edge, 0), wide[1], y0 + int(run[-1]) + 1 + edge


def _dark_band(grey: Grey, grid: Box, high: float) -> Box | None:
    """Find a head with light letters on a dark ground over a block of numbers; None where there is none."""
    # what a photo shows as words beside its sheet may stand beyond the straightened picture
    (left, right), (top, bottom) = (np.clip(grid[k::2], 0, grey.shape[1 - k]).tolist() for k in (0, 1))
    if right <= left or bottom <= top:
        return None
    y0, y1 = max(round(top - ABOVE[0] * high), 0), round(top + BAND[1] * high)  # of its letters, levels may be read
    paper = float(np.percentile(grey[top:bottom, left:right], PAPER))
    dark: npt.NDArray[np.bool_] = grey[y0:y1] < DARK * paper
    rows = np.nonzero(dark[:, left:right].mean(axis=1) > LEAST_DARK)[0]
    run = max(np.split(rows, np.nonzero(np.diff(rows) > 1)[0] + 1), key=len)
    if not BAND[0] * high <= len(run) <= BAND[1] * high:
        return None
    columns = np.nonzero(dark[run].mean(axis=0) > LEAST_DARK)[0]
    near = columns[(columns > left - BESIDE * high) & (columns < right + BESIDE * high)]
    return (int(near[0]), y0 + int(run[0]), int(near[-1]) + 1, y0 + int(run[-1]) + 1) if len(near) else None


def _read(grey: Grey, band: Box, high: float, *, ruled: float = RULED) -> list[Word]:
    """Read the words of a band whose specks are smoothed."""
    import cv2

    left, top, right, bottom = band
    part = cv2.GaussianBlur(grey[top:bottom, left:right], (0, 0), max(SMOOTH * high, 0.8))
    low, paper = np.percentile(part, 2), np.percentile(part, PAPER)
    if paper - low < 40:
        return []
    plain = np.clip((part.astype(np.float32) - low) * (255.0 / (paper - low)), 0, 255).astype(np.uint8)
    plain[(plain < 128).mean(axis=1) > ruled] = 255
    plain[:, (plain < 128).mean(axis=0) > UPRIGHT] = 255
    sheet = np.full((plain.shape[0] + 2 * MARGIN_PX, plain.shape[1] + 2 * MARGIN_PX), 255, np.uint8)
    sheet[MARGIN_PX:-MARGIN_PX, MARGIN_PX:-MARGIN_PX] = plain
    boxes = [box for box in finder.word_boxes(sheet) if 0.45 * high < box[3] - box[1] < 1.8 * high]
    found: list[Word] = []
    for box, print_, label in zip(boxes, read_printed(sheet, boxes), read_labels(sheet, boxes), strict=True):
        agreed = print_.text.casefold() == label.text.casefold()
        if max(print_.confidence, label.confidence) < LEAST_READ or not (serves(print_.text) or serves(label.text)):
            continue
        if not agreed and len(print_.text) == 1 and print_.text.isalpha():  # a rule, or specks
            continue
        x, y = left - MARGIN_PX, top - MARGIN_PX
        place = (box[0] + x, box[1] + y, box[2] + x, box[3] + y)
        found.append(Word(print_.text, place, print_.confidence, others=((label.text, label.confidence),)))
    return found


def _inside(word: Word, band: Box) -> bool:
    x, y = word.middle
    return band[0] < x < band[2] and band[1] < y < band[3]
