"""Page to Sheet: quarter turns and skew undone, so that rows run along the picture's rows."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from .eyes.words import read_words
from .eyes.words.numbers import frequency_values, level_value
from .page import Page, Pixels, Word
from .sheet import Sheet
from .tilt import find_tilt

LEAST_MOVE_PX = 1.0
"""A page whose corners would move by less is left as it is."""
SAMPLE = 90
"""So many words are read to see whether a page turned otherwise makes sense."""
MOST_GROWTH = 1.6
"""The straight picture has at most so many times the pixels of the page."""


def straighten(page: Page) -> Sheet:
    """Turn a page upright.

    Parameters
    ----------
    page : Page
        The page as displayed.

    Returns
    -------
    Sheet
        A drawn page with words of its own is taken as it is; any other is turned by what its lines and words show.
    """
    height, width = page.pixels.shape[:2]
    if page.words is not None:
        return Sheet(
            page.pixels, np.eye(3), (width, height), page.source.taken_by, page.words, page.paths, 0.0, page.notes
        )
    tilt = find_tilt(page.pixels)
    matrix, size = tilt.matrix, (width, height)
    if tilt.perspective or abs(tilt.skew_deg) > 3:
        matrix, size = _fitted(matrix, size)
    corners = np.array([[0, 0, 1], [width, 0, 1], [width, height, 1], [0, height, 1]], float) @ matrix.T
    moved_by = np.abs(corners[:, :2] / corners[:, 2:] - [[0, 0], [width, 0], [width, height], [0, height]]).max()
    still = size == (width, height) and moved_by < LEAST_MOVE_PX
    matrix = np.eye(3) if still else matrix
    pixels = page.pixels if still else _moved(page.pixels, matrix, size)
    quarters, words = _upright(pixels)
    if quarters:
        pixels = np.ascontiguousarray(np.rot90(pixels, quarters))
        matrix = _quarter_matrix(quarters, size) @ matrix
    notes = page.notes + (("skewed",) if abs(tilt.skew_deg) > 5 or quarters else ())
    pixels.flags.writeable = False
    taken_by = "photo" if tilt.perspective else page.source.taken_by
    return Sheet(
        pixels,
        np.asarray(np.linalg.inv(matrix), np.float64),
        (width, height),
        taken_by,
        words,
        (),
        tilt.skew_deg + 90 * quarters,
        notes,
    )


def _fitted(matrix: npt.NDArray[np.float64], size: tuple[int, int]) -> tuple[npt.NDArray[np.float64], tuple[int, int]]:
    """Shift a homography so that the whole page stays in the picture, and give the picture's size."""
    width, height = size
    corners = np.array([[0, 0, 1], [width - 1, 0, 1], [width - 1, height - 1, 1], [0, height - 1, 1]], float) @ matrix.T
    places = corners[:, :2] / corners[:, 2:]
    low, high = places.min(axis=0), places.max(axis=0)
    wanted = high - low + 1
    scale = min(1.0, math.sqrt(MOST_GROWTH * width * height / float(wanted[0] * wanted[1])))
    shift = np.array([[scale, 0, -low[0] * scale], [0, scale, -low[1] * scale], [0, 0, 1]])
    return shift @ matrix, (math.ceil(wanted[0] * scale), math.ceil(wanted[1] * scale))


def _moved(pixels: Pixels, matrix: npt.NDArray[np.float64], size: tuple[int, int]) -> Pixels:
    import cv2

    moved = cv2.warpPerspective(
        pixels, matrix, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=(255, 255, 255)
    )
    return np.asarray(moved, np.uint8)


def _quarter_matrix(quarters: int, size: tuple[int, int]) -> npt.NDArray[np.float64]:
    """Give the map of pixel positions that ``numpy.rot90(pixels, quarters)`` makes."""
    width, height = size
    if quarters == 1:
        return np.array([[0.0, 1, 0], [-1, 0, width - 1], [0, 0, 1]])
    if quarters == 2:
        return np.array([[-1.0, 0, width - 1], [0, -1, height - 1], [0, 0, 1]])
    return np.array([[0.0, -1, height - 1], [1, 0, 0], [0, 0, 1]])


ENOUGH_NUMBERS = 4.5
"""So many numbers read with certainty settle that a page is upright; an axis pair alone has about 12 of this kind."""


def _upright(pixels: Pixels) -> tuple[int, tuple[Word, ...]]:
    """Tell how many quarter turns against the clock make the page's numbers readable, and read its words so turned."""
    words = read_words(pixels)
    worth = _numbers_read(words)
    if worth >= ENOUGH_NUMBERS:
        return 0, words
    best, best_worth = 0, 1.25 * worth + 0.5
    for quarters in (2, 1, 3):
        turned = np.ascontiguousarray(np.rot90(pixels, quarters))
        worth = _numbers_read(read_words(turned, most=SAMPLE)) * max(1.0, len(words) / SAMPLE)
        if worth > best_worth:
            best, best_worth = quarters, worth
    return best, read_words(np.ascontiguousarray(np.rot90(pixels, best))) if best else words


def _numbers_read(words: tuple[Word, ...]) -> float:
    """Count the axis numbers of two digits or more; upside down, 0, 1 and 8 read alike, but most others do not."""
    good = [w for w in words if len(w.text) >= 2 and (frequency_values(w.text) or level_value(w.text) is not None)]
    unlike = [w for w in good if set(w.text) & set("23457")]
    return sum(w.confidence for w in unlike if w.confidence > 0.5)
