"""Signs of a drawn page that charts use as marks: where their ink lies, as the file's fonts give it.

A letter's box by its font's size says little of where its ink is, and the rendered page shows what else stands there.
"""

from __future__ import annotations

import ctypes
from collections import defaultdict
from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as pdfium_c

from ...page import SIGNS, Word

Floats = npt.NDArray[np.float64]
Box = tuple[float, float, float, float]

_REACH = 0.35
"""How far the middle of a sign's ink may lie beyond its box by the font's size, in the box's height."""


def with_ink_boxes(words: tuple[Word, ...], page: pypdfium2.PdfPage, to_pixels: Floats) -> tuple[Word, ...]:
    """Give each word that is one sign of ``SIGNS`` the box of its ink, as the renderer takes it from the font.

    Parameters
    ----------
    words : tuple of Word
        The page's words, boxes in page pixels.
    page : pypdfium2.PdfPage
        The page.
    to_pixels : ndarray, shape (2, 3)
        The affine map from raw points to page pixels.

    Returns
    -------
    tuple of Word
        In the same order; a sign whose ink was found is ``tight``.
    """
    wanted = {word.text for word in words if word.text in SIGNS}
    if not wanted:
        return words
    inks = _inks(page, wanted, to_pixels)
    return tuple(
        replace(word, box=ink, tight=True) if (ink := _nearest(word.box, inks.get(word.text, []))) else word
        for word in words
    )


def _inks(page: pypdfium2.PdfPage, wanted: set[str], to_pixels: Floats) -> dict[str, list[Box]]:
    """Give the boxes of the ink of each wanted sign, in page pixels."""
    found: dict[str, list[Box]] = defaultdict(list)
    text = page.get_textpage()
    try:
        for number in range(text.count_chars()):
            sign = chr(max(pdfium_c.FPDFText_GetUnicode(text.raw, number), 0))
            if sign not in wanted:
                continue
            sides = [ctypes.c_double() for _ in range(4)]
            if pdfium_c.FPDFText_GetCharBox(text.raw, number, *map(ctypes.byref, sides)):
                left, right, bottom, top = (side.value for side in sides)
                corners = np.array(((left, bottom), (right, top))) @ to_pixels[:, :2].T + to_pixels[:, 2]
                (x0, y0), (x1, y1) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
                if x1 > x0 and y1 > y0:
                    found[sign].append((x0, y0, x1, y1))
    finally:
        text.close()
    return found


def _nearest(box: Box, inks: list[Box]) -> Box | None:
    """Give the ink whose middle lies in a word's box, or close to it; the nearest to the box's middle."""
    left, top, right, bottom = box
    x, y, reach = (left + right) / 2, (top + bottom) / 2, _REACH * max(right - left, bottom - top)

    def off(ink: Box) -> tuple[float, float]:
        return abs((ink[0] + ink[2]) / 2 - x), abs((ink[1] + ink[3]) / 2 - y)

    near = [ink for ink in inks if off(ink)[0] < x - left + reach and off(ink)[1] < y - top + reach]
    return min(near, key=lambda ink: sum(off(ink)), default=None)
