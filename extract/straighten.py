"""Page to Sheet: quarter turns and skew undone, so that rows run along the picture's rows."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

import numpy as np
import numpy.typing as npt

from .eyes.axes.areas import chart_areas, heads_table
from .eyes.axes.frequency import frequency_runs
from .eyes.axes.leftover import LINES
from .eyes.axes.level import level_runs
from .eyes.axes.ruling import ruling_of
from .eyes.negative import positive
from .eyes.words import read_words
from .eyes.words.jointly import with_joint_rows
from .eyes.words.numbers import frequency_values, level_value
from .eyes.words.touching import with_heads, with_touching
from .page import Page, Pixels, Word
from .paper import off_ground
from .shades import grey_of, locked, of_plain, once, plain_of
from .sheet import Sheet
from .tilt import Tilt, find_tilt

LEAST_MOVE_PX = 1.0
"""A page whose corners would move by less is left as it is."""
BOLD_DEG = 3.0
"""A greater skew is held against the page as it lies."""
BOLD_SHEAR = 0.04
"""So is a greater shear: joining lines of marks may be taken for level ones where a chart has none."""
FLAT = Tilt(np.eye(3), 0.0, False)
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
        Light ink on a dark ground is dark on light then. A drawn page with words of its own is else taken as it is; any
        other is turned by what its lines and words show.
    """
    page = positive(page)
    height, width = page.pixels.shape[:2]
    if page.words is not None:
        return Sheet(
            page.pixels, np.eye(3), (width, height), page.source.taken_by, page.words, page.paths, 0.0, page.notes, True
        )
    tilt = find_tilt(page.pixels)
    pixels, matrix, quarters, words = _upright(page.pixels, *_laid(page.pixels, tilt))
    if abs(tilt.skew_deg) > BOLD_DEG or tilt.shear > BOLD_SHEAR:
        # the lines of a chart without a grid run askew on an upright page: its words tell
        flat = _upright(page.pixels, *_laid(page.pixels, FLAT))
        if _labels_in_long_lines(flat[3]) > _labels_in_long_lines(words):
            tilt, (pixels, matrix, quarters, words) = FLAT, flat
    words = _with_sideways(pixels, words)
    words = with_heads(grey_of(pixels), words)
    words = with_touching(grey_of(pixels), words, frequency_runs(words))
    areas = chart_areas(words, (pixels.shape[1], pixels.shape[0]))
    words = with_joint_rows(grey_of(pixels), words, frequency_runs(words), level_runs(words), areas)
    notes = page.notes + (("skewed",) if abs(tilt.skew_deg) > 5 or quarters else ())
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


def _laid(pixels: Pixels, tilt: Tilt) -> tuple[Pixels, npt.NDArray[np.float64], tuple[Word, ...]]:
    """Lay a page as a tilt says; give its pixels, the map from the page's pixels to them, and the words then read."""
    height, width = pixels.shape[:2]
    matrix, size = tilt.matrix, (width, height)
    if tilt.perspective or abs(tilt.skew_deg) > 3:
        matrix, size = _fitted(matrix, size)
    corners = np.array([[0, 0, 1], [width, 0, 1], [width, height, 1], [0, height, 1]], float) @ matrix.T
    moved_by = np.abs(corners[:, :2] / corners[:, 2:] - [[0, 0], [width, 0], [width, height], [0, height]]).max()
    if size == (width, height) and moved_by < LEAST_MOVE_PX:
        return pixels, np.eye(3), off_ground(read_words(grey_of(pixels)), pixels, np.eye(3))
    moved = _moved(pixels, matrix, size)
    return moved, matrix, off_ground(read_words(grey_of(moved)), pixels, matrix)


def _labels_in_line(words: tuple[Word, ...]) -> int:
    """Count the words that stand in line as the labels of axes do."""
    return sum(len(run.values) for run in (*frequency_runs(words), *level_runs(words)))


def _labels_in_long_lines(words: tuple[Word, ...]) -> int:
    """Count labels as often as others stand in line with them: an axis seen askew breaks into short runs."""
    return sum(len(run.values) ** 2 for run in (*frequency_runs(words), *level_runs(words)))


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

    plain = plain_of(pixels)
    part = pixels if plain is None else plain
    white = {"flags": cv2.INTER_LINEAR, "borderMode": cv2.BORDER_CONSTANT, "borderValue": (255, 255, 255)}
    if matrix[2, 0] == matrix[2, 1] == 0.0:  # a turn: it takes a sixth less, and gives the same
        moved = cv2.warpAffine(part, matrix[:2] / matrix[2, 2], size, **white)
    else:
        moved = cv2.warpPerspective(part, matrix, size, **white)
    return locked(np.asarray(moved, np.uint8)) if plain is None else of_plain(np.asarray(moved, np.uint8))


def _turned(pixels: Pixels, quarters: int) -> Pixels:
    """Turn a picture, or its brightness, by quarter turns against the clock."""
    import cv2

    ways = {1: cv2.ROTATE_90_COUNTERCLOCKWISE, 2: cv2.ROTATE_180, 3: cv2.ROTATE_90_CLOCKWISE}
    return locked(np.asarray(cv2.rotate(pixels, ways[quarters]), np.uint8))


def _words_turned(grey: Pixels, quarters: int) -> tuple[Word, ...]:
    return read_words(_turned(grey, quarters))


WORDS_TURNED = {quarters: partial(_words_turned, quarters=quarters) for quarters in (1, 2, 3)}
"""For ``once``: whether a page lies on its side, and what is printed on its side, is asked of the same turns."""


def _quarter_matrix(quarters: int, size: tuple[int, int]) -> npt.NDArray[np.float64]:
    """Give the map of pixel positions that ``_turned`` makes."""
    width, height = size
    if quarters == 1:
        return np.array([[0.0, 1, 0], [-1, 0, width - 1], [0, 0, 1]])
    if quarters == 2:
        return np.array([[-1.0, 0, width - 1], [0, -1, height - 1], [0, 0, 1]])
    return np.array([[0.0, -1, height - 1], [1, 0, 0], [0, 0, 1]])


ENOUGH_LABELS = 5
"""So many labels in line settle that a page is upright: of 120 looks at painted pages turned otherwise one found 3, all
others none."""
ENOUGH_WORDS, ENOUGH_OF_ALL = 10, 0.15
"""So many words read surely, and such a share of all, settle it as well where no grid is: of 23 painted pages, those of
text have a quarter of such words where they are upright, and 7 in 100 at the most where they are not."""
FEW_WORDS = 20
"""A page on its side shows hardly any level words, upside down it shows as many: it says where to look first."""
SURE_WORD, LONG_WORD = 0.9, 4
"""The confidence and the letters of such a word."""


def _upright(
    page: Pixels, pixels: Pixels, matrix: npt.NDArray[np.float64], words: tuple[Word, ...]
) -> tuple[Pixels, npt.NDArray[np.float64], int, tuple[Word, ...]]:
    """Turn a laid page by the quarter turns that make it readable; ``page`` is the picture before it was laid.

    Give its pixels, the map from the page's pixels to them, the quarter turns against the clock, and its words.
    """
    if _labels_in_line(words) >= ENOUGH_LABELS or _is_text(words, pixels):
        return pixels, matrix, 0, words
    best, best_worth = (0, matrix, words), 1.25 * _readable(words) + 0.5
    for quarters in (2, 1, 3) if len(words) >= FEW_WORDS else (1, 3, 2):
        way = _quarter_matrix(quarters, (pixels.shape[1], pixels.shape[0])) @ matrix
        turned = off_ground(once(grey_of(pixels), WORDS_TURNED[quarters]), page, way)
        if _readable(turned) > best_worth:
            best, best_worth = (quarters, way, turned), _readable(turned)
        if _labels_in_line(turned) >= ENOUGH_LABELS or _is_text(turned, pixels):
            break
    quarters, matrix, words = best
    return _turned(pixels, quarters) if quarters else pixels, matrix, quarters, words


def _is_text(words: tuple[Word, ...], pixels: Pixels) -> bool:
    """Say whether the words of a page of text read as it lies, and it shows no grid, which might lie otherwise.

    The picture may lie by quarter turns otherwise than the words: a grid has lines both ways.
    """
    sure = sum(len(w.text) >= LONG_WORD and w.text.isalpha() and w.confidence > SURE_WORD for w in words)
    return sure >= ENOUGH_WORDS and sure > ENOUGH_OF_ALL * len(words) and min(once(pixels, ruling_of).counts()) < LINES


def _readable(words: tuple[Word, ...]) -> float:
    """Count labels in line, and axis numbers of two digits or more a little.

    Upside down, 0, 1 and 8 read alike, but most other digits do not.
    """
    good = [w for w in words if len(w.text) >= 2 and (frequency_values(w.text) or level_value(w.text) is not None)]
    unlike = [w for w in good if set(w.text) & set("23457")]
    return 3.0 * _labels_in_line(words) + sum(w.confidence for w in unlike if w.confidence > 0.5)


def _with_sideways(pixels: Pixels, words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Add the numbers that stand on their side, where only one of a chart's axes has labels that stand upright."""
    rows = [row for row in frequency_runs(words) if not heads_table(row, words)]
    columns = level_runs(words)
    if bool(rows) == bool(columns):
        return words
    missing = level_runs if rows else frequency_runs
    height, width = pixels.shape[:2]
    for quarters, upright in ((3, 90), (1, 270)):
        turned = once(grey_of(pixels), WORDS_TURNED[quarters])
        back = np.asarray(np.linalg.inv(_quarter_matrix(quarters, (width, height))), np.float64)
        more = tuple(replace(w, box=_turned_box(w.box, back), upright=upright) for w in turned)
        if missing(more):
            return words + more
    return words


def _turned_box(
    box: tuple[float, float, float, float], matrix: npt.NDArray[np.float64]
) -> tuple[float, float, float, float]:
    """Carry a box through a quarter turn."""
    corners = np.array([[box[0], box[1], 1], [box[2], box[3], 1]]) @ matrix.T
    (x0, y0), (x1, y1) = corners[:, :2]
    return float(min(x0, x1)), float(min(y0, y1)), float(max(x0, x1)), float(max(y0, y1))
