"""The places of a page that a person must look at, side by side: each value that asks, cut out with its reasons."""

from __future__ import annotations

import cv2
import numpy as np

from ..extract.page import Pixels
from ..interpret.reasons import reason
from ..interpret.record import PageRecord, Point, Threshold
from .lettering import Colour
from .reading_picture import EAR_COLOURS, label_of

SIDE = 0.075
"""How much of the page a cut-out shows, as a share of its width: a mark or a cell with its neighbours."""
CUT_PX, TEXT_PX, MARGIN_PX = 240, 22, 12
COLUMNS = 5
TICK_PX = 14
"""Strokes at the edges of a cut-out that point to its middle, so that nothing is drawn over what is to be looked at."""
_FONT = cv2.FONT_HERSHEY_SIMPLEX
_SMALL = 0.45
_BLACK: Colour = (40, 40, 40)


def draw_asked(pixels: Pixels, record: PageRecord) -> Pixels | None:
    """Draw every value of a record that asks: what stands at its place, what it was read as, and why it asks.

    Parameters
    ----------
    pixels : Pixels
        The page as displayed, shape (height, width, 3), uint8, RGB; left as it is.
    record : PageRecord
        What was read from it.

    Returns
    -------
    Pixels or None
        A picture of cut-outs in the order of the record; None where no value with a place asks.
    """
    asked = [
        (t, t.seen.at)
        for audiogram in record.audiograms
        for t in audiogram.thresholds
        if t.standing == "ask" and t.seen is not None and t.seen.at is not None
    ]
    if not asked:
        return None
    wide, high = CUT_PX + MARGIN_PX, CUT_PX + MARGIN_PX + 3 * TEXT_PX
    columns = min(COLUMNS, len(asked))
    rows = -(-len(asked) // columns)
    picture = np.full((rows * high + MARGIN_PX, columns * wide + MARGIN_PX, 3), 255, np.uint8)
    for number, (threshold, at) in enumerate(asked):
        left, top = MARGIN_PX + number % columns * wide, MARGIN_PX + number // columns * high
        picture[top : top + CUT_PX, left : left + CUT_PX] = _cut_out(pixels, at)
        _describe(picture, threshold, left, top)
    return picture


def _cut_out(pixels: Pixels, at: Point) -> Pixels:
    """Cut a square out around a place; beyond the page's edge it is grey."""
    height, width = pixels.shape[:2]
    half = max(8, round(SIDE * width / 2))
    x, y = round(at[0] * width), round(at[1] * height)
    padded = cv2.copyMakeBorder(pixels, half, half, half, half, cv2.BORDER_CONSTANT, value=(200, 200, 200))
    x, y = min(max(x, 0), width - 1), min(max(y, 0), height - 1)
    cut = padded[y : y + 2 * half, x : x + 2 * half]
    method = cv2.INTER_AREA if 2 * half > CUT_PX else cv2.INTER_CUBIC
    return np.asarray(cv2.resize(cut, (CUT_PX, CUT_PX), interpolation=method), np.uint8)


def _describe(picture: Pixels, threshold: Threshold, left: int, top: int) -> None:
    """Frame a cut-out, point to its middle, and write beneath it what was read there and why it asks."""
    colour, middle = EAR_COLOURS[threshold.ear], CUT_PX // 2
    cv2.rectangle(picture, (left, top), (left + CUT_PX - 1, top + CUT_PX - 1), colour, 1)
    for x0, y0, x1, y1 in ((middle, 0, middle, TICK_PX), (middle, CUT_PX - TICK_PX, middle, CUT_PX),
                           (0, middle, TICK_PX, middle), (CUT_PX - TICK_PX, middle, CUT_PX, middle)):  # fmt: skip
        cv2.line(picture, (left + x0, top + y0), (left + x1, top + y1), colour, 2)
    why = ", ".join(reason(code).name for code in threshold.why_ask)
    said = f"{threshold.ear} {threshold.frequency_hz:g} Hz: {label_of(threshold)}"
    lines = ((said, colour), *((line, _BLACK) for line in _broken(why)))
    for row, (text, ink) in enumerate(lines):
        at = (left, top + CUT_PX + (row + 1) * TEXT_PX - 5)
        cv2.putText(picture, text, at, _FONT, _SMALL, ink, 1, cv2.LINE_AA)


def _broken(text: str) -> list[str]:
    """Break a text into two lines at most that fit beneath a cut-out; what is beyond is left out."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if cv2.getTextSize(longer, _FONT, _SMALL, 1)[0][0] <= CUT_PX:
            lines[-1] = longer
        elif len(lines) == 2:
            break
        else:
            lines.append(word)
    return lines
