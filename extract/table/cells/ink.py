"""What the ink of a table tells: whether a cell without a word holds something, and how even its numbers stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from statistics import median

import numpy as np
import numpy.typing as npt

from ...page import Pixels, Word
from ...sheet import Sheet
from ..rows.lines import height
from ..rows.row import Layout
from .cells import Cell

INKED = 0.006
"""Share of dark pixels from which a cell holds something."""
INK = 0.75
"""Ink is darker than this part of the paper's grey."""
DASH = 1.8
"""A dash is at least so many times as wide as high."""
MOST_SPECKS = 0.25
"""So much ink beside a dash, in parts of its own, is dirt."""
MOST_DASH = 0.6
"""A line that crosses more of a cell is ruled."""
FEWEST_SIGNLESS = 4
"""So many numbers without a sign tell it without the others: brackets stand higher than digits."""
UNEVEN_HEIGHT, UNEVEN_LINE, AS_HEADS = 0.06, 0.035, 0.15
"""Mean differences of printed numbers' heights, of their middles from those of their lines, and from the height of the
printed frequencies, in heights; by hand numbers are 0.07 and more off their line (painted training pages)."""
STRAIGHT, UNEVEN_STRAIGHT = 0.02, 0.1
"""On lines so straight no hand writes; rules that touch a row may make all its boxes higher than those of the next."""
MOST_LEAN = 0.003
"""What a straightened page may still lean: a pixel in 330, 1 mm over the width of a sheet of A4 and more."""
FEWEST_TELLING, MIDDLING, FAR_OFF, MOST_OFF, NEARLY_AS_HEADS = 6, 0.075, 0.05, 0.25, 0.35
"""Where specks spoil some boxes, so many numbers still are print whose median height differs by less, and of which no
larger share stands so far off its line; of ten tables by hand, 53% and more of each did."""

STRUCK, STRUCK_BEYOND = 0.97, 0.86
"""A row of pixels in the middle of a number that is ink over so much of its width, and over so much of what is a little
wider, is a line through it. Of 942 numbers that nobody struck through, on 29 scans and faxes, the bars of "5" alone
come up to the first, and none comes further than 0.84 in the second."""
STRUCK_WITHIN, BESIDE = 0.3, 0.12
"""How far from a number's top and bottom that is looked for, and how far beside it, in heights."""
LEAST_SIGN, LETTERED, RULE = 0.4, 0.5, 0.9
"""A sign is at least so high, in heights of a number, at most so much of it lies in the boxes of words, and ink along
so much of a cell is ruled."""
THIN, THIN_HIGH = 0.2, 0.6
"""So is what is no wider, in heights of a number, and at least so high, in that of the room: a rule that ends there."""
AROUND, SIGN_ROOM = 1.25, 1.6
"""The room that a sign is looked for in: so many times as wide and high as a cell, and at least so many heights."""
LEAST_PX = 18
"""The digits of lower numbers, on coarse faxes, run together."""


def struck_doubted(grey: Pixels, cells: Sequence[Cell]) -> tuple[Cell, ...]:
    """Doubt the numbers of a table that are struck through, as one is that another replaces."""
    return tuple(
        replace(cell, doubts=tuple(dict.fromkeys((*cell.doubts, "marks-overlap"))))
        if cell.kind == "level" and any(_struck(grey, box) for box in cell.boxes)
        else cell
        for cell in cells
    )


def _struck(grey: Pixels, box: tuple[float, float, float, float]) -> bool:
    left, top, right, bottom = box
    high = bottom - top
    rows = slice(max(round(top + STRUCK_WITHIN * high), 0), round(bottom - STRUCK_WITHIN * high) + 1)
    wide = grey[rows, max(round(left - BESIDE * high), 0) : round(right + BESIDE * high) + 1]
    inner = grey[rows, max(round(left), 0) : round(right) + 1]
    if not inner.size or high < LEAST_PX:
        return False
    dark = INK * np.percentile(wide, 90)
    struck = ((inner < dark).mean(axis=1) > STRUCK) & ((wide < dark).mean(axis=1) > STRUCK_BEYOND)
    return bool(struck.any())


def signs_doubted(grey: Pixels, cells: Sequence[Cell], words: Sequence[Word], *, drawn: bool) -> tuple[Cell, ...]:
    """Doubt the numbers of a table at which a sign is drawn that is no word: an arrow, a ring, a frame.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet's brightness.
    cells : sequence of Cell
        The table's cells.
    words : sequence of Word
        All words of the sheet.
    drawn : bool
        Whether the page was drawn and has no specks; in a scan only what goes round a number is a sign.
    """
    return tuple(
        replace(cell, doubts=tuple(dict.fromkeys((*cell.doubts, "unexplained-ink"))))
        if cell.kind == "level" and _signed(grey, cell, words, drawn=drawn)
        else cell
        for cell in cells
    )


def _signed(grey: Pixels, cell: Cell, words: Sequence[Word], *, drawn: bool) -> bool:
    """Say whether a cell holds ink that ends within it and is neither letters nor a rule."""
    import cv2

    high = max(box[3] - box[1] for box in cell.boxes)
    (x, y), (wide, tall) = cell.at, (AROUND * cell.size[0], max(AROUND * cell.size[1], SIGN_ROOM * high))
    left, top = max(round(x - wide / 2), 0), max(round(y - tall / 2), 0)
    part = grey[top : round(y + tall / 2), left : round(x + wide / 2)]
    if not part.size:
        return False
    within = tuple(edge([box[i] for box in cell.boxes]) for i, edge in enumerate((min, min, max)))
    lettered = np.zeros(part.shape, bool)
    for a, b, c, d in (w.box for w in words):
        lettered[max(round(b) - top - 1, 0) : max(round(d) - top + 2, 0),
                 max(round(a) - left - 1, 0) : max(round(c) - left + 2, 0)] = True  # fmt: skip
    dark = (part < INK * np.percentile(part, 90)).astype(np.uint8)
    rules = dark.mean(axis=1) > RULE, dark.mean(axis=0) > RULE
    dark[rules[0]], dark[:, rules[1]] = 0, 0
    count, marks, stats, _ = cv2.connectedComponentsWithStats(dark, connectivity=8)
    for n in range(1, count):
        a, b, w, h = (int(v) for v in stats[n, :4])
        inside = a > 0 and b > 0 and a + w < part.shape[1] and b + h < part.shape[0]
        inside &= drawn or (a + left < within[0] and b + top < within[1] and a + left + w > within[2])
        ruled = w < THIN * high and h > THIN_HIGH * tall
        if inside and not ruled and h >= LEAST_SIGN * high and lettered[marks == n].mean() < LETTERED:
            return True
    return False


def inked(sheet: Sheet, cell: Cell) -> bool:
    """Say whether the middle of a cell holds ink, other than a dash."""
    (x, y), (wide, high) = cell.at, cell.size
    part = sheet.pixels[
        max(round(y - 0.3 * high), 0) : round(y + 0.3 * high), max(round(x - 0.35 * wide), 0) : round(x + 0.35 * wide)
    ]
    if not part.size:
        return False
    grey = part.min(axis=2).astype(float)
    dark = grey < 0.6 * np.median(grey)
    return float(dark.mean()) > INKED and not _is_dash(dark)


def _is_dash(dark: npt.NDArray[np.bool_]) -> bool:
    """Say whether ink is one short stroke that lies: what stands for "not tested"."""
    import cv2

    count, _, stats, _ = cv2.connectedComponentsWithStats(dark.astype(np.uint8), connectivity=8)
    largest = max(range(1, count), key=lambda n: stats[n, cv2.CC_STAT_AREA], default=0)
    wide, high, area = (int(stats[largest, i]) for i in (cv2.CC_STAT_WIDTH, cv2.CC_STAT_HEIGHT, cv2.CC_STAT_AREA))
    specks = int(dark.sum()) - area
    return bool(wide >= DASH * high and wide < MOST_DASH * dark.shape[1] and specks < MOST_SPECKS * area)


def _signless(word: Word) -> bool:
    return word.text.lstrip("-").isdigit()


def printed(layout: Layout) -> bool:
    """Say whether a table's numbers are printed: of one height, that of its frequencies, and on straight lines."""
    signless = sum(_signless(w) for row in layout.rows for cell in row.cells for w in cell) >= FEWEST_SIGNLESS
    numbers = [
        [[w for w in cell if (_signless(w) if signless else any(c.isdigit() for c in w.text))] for cell in row.cells]
        for row in layout.rows
    ]
    if layout.line.along == 0:
        lines = [[w for cell in row for w in cell] for row in numbers]
    else:
        lines = [[head, *(w for row in numbers for w in row[i])] for i, head in enumerate(layout.line.words)]
    highs = np.array([height(w) for row in numbers for cell in row for w in cell])
    off = _off_lines(lines)
    if not len(highs) or not len(off):
        return False
    usual = float(np.median(highs))
    unlike, off_by = np.abs(highs / usual - 1), off / usual
    heads = abs(usual / layout.line.height - 1)
    limits = (UNEVEN_STRAIGHT, STRAIGHT), (UNEVEN_HEIGHT, UNEVEN_LINE)
    if heads < AS_HEADS and any(unlike.mean() < most and off_by.mean() < far for most, far in limits):
        return True
    few_off = float(np.mean(off_by > FAR_OFF)) < MOST_OFF
    return len(highs) >= FEWEST_TELLING and heads < NEARLY_AS_HEADS and bool(np.median(unlike) < MIDDLING) and few_off


def _off_lines(lines: Sequence[Sequence[Word]]) -> npt.NDArray[np.float64]:
    """Say how far each number stands off its line, in pixels, once the lean that all lines share is taken off."""
    found = [
        (w.middle[0] - median(o.middle[0] for o in line), w.middle[1] - median(o.middle[1] for o in line))
        for line in lines
        if len(line) > 1
        for w in line
    ]
    x, y = np.array(found, np.float64).reshape(-1, 2).T
    lean = float(x @ y / (x @ x)) if x.any() else 0.0
    return np.abs(y - np.clip(lean, -MOST_LEAN, MOST_LEAN) * x)
