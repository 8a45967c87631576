"""A second look: what can still be read on a covered sheet, and writing within its plots."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...interpret.errors import MissingProgram
from ..chart import MeasuredChart, Unexplained
from ..choices import Choices
from ..intake.words import read_strip
from ..page import Word
from ..sheet import Sheet
from .known import known_text
from .places import Box, Mask, holds, pixels_of
from .plots import ChartParts, in_plot
from .vocabulary import Vocabulary

SPARSE = 11
"""Tesseract's page segmentation mode for words anywhere on a page."""
ROUNDS = 3
"""So often the page is read again after more was covered; what is still read then is a doubt."""
STILL_READ = "words that are not known to be harmless"
WRITTEN = "something like handwriting in a chart"
_READ_AGAIN, _OPEN = 0.3, 0.3
_IN_PLOT = 0.6
_LEAST_LETTERS, _LEAST_DIGITS = 3, 4
_LIKE_MARKS = frozenset("oxaesmulvwcknyz°")
_CLUSTER, _BESIDE, _BELOW = 3, 2.5, 1.5

Found = list[tuple[str, Box]]


def looked_at_again(
    sheet: Sheet,
    charts: Sequence[MeasuredChart],
    parts: ChartParts,
    black: Mask,
    height: float,
    known: Vocabulary,
    choices: Choices,
) -> tuple[Mask, Found]:
    """Read the covered sheet as a stranger would, and cover what can still be read and is not known.

    Parameters
    ----------
    sheet, charts, parts
        The sheet, its charts, and what stays of them.
    black : Mask
        What is covered already, shape of the sheet.
    height : float
        The usual height of a word, sheet pixels.
    known, choices
        The harmless words, and the languages to expect.

    Returns
    -------
    black : Mask
        What is covered now.
    left : list of (str, Box)
        What remains to be doubted, and where, sheet pixels.

    Raises
    ------
    MissingProgram
        Text recognition is missing or failed.
    """
    left: Found = []
    for _ in range(ROUNDS):
        pixels = sheet.pixels.copy()
        pixels[black] = 0
        words = read_strip(pixels, psm=SPARSE, languages=choices.languages)
        if words is None:
            what = "text recognition failed, and nothing can be blanked without it"
            raise MissingProgram(what, "Try again, or install Tesseract anew")
        within = [word for word in words if any(in_plot(word, chart) for chart in charts)]
        outside = parts.beside(word for word in words if word not in within)
        left = [(STILL_READ, word.box) for word in within if _is_writing(word, known)]
        told = known_text(outside, known, usual=height)
        fresh = [box for box in told.suspect if _still_seen(box, black | parts.cores, outside)]
        if not fresh:
            return black, left
        more = np.zeros_like(black)
        for box in fresh:
            more[pixels_of(box, 0.4 * height, black)] = True
        black = black | (more & ~parts.cores)
        left += [(STILL_READ, box) for box in fresh]
    return black, left


def _still_seen(box: Box, closed: Mask, words: Sequence[Word]) -> bool:
    """Say whether a cell of words was read from ink that is open to see."""
    told = (word for word in words if word.confidence >= _READ_AGAIN and holds(box, word.box))
    if not any(_is_readable(word.text) for word in told):
        return False
    return bool((~closed[pixels_of(box, 0.0, closed)]).mean() > _OPEN)


def _is_readable(text: str) -> bool:
    return sum(map(str.isalpha, text)) >= _LEAST_LETTERS or sum(map(str.isdigit, text)) >= _LEAST_DIGITS


def _is_writing(word: Word, known: Vocabulary) -> bool:
    """Say whether a word within a plot is writing, and not marks and lines that the program took for letters."""
    letters = [letter for letter in word.text.casefold() if letter.isalpha()]
    if word.confidence < _IN_PLOT or len(letters) < _LEAST_LETTERS or set(letters) <= _LIKE_MARKS:
        return False
    return known.kind(word.text) not in ("test", "plain")


def writing_in_plots(charts: Sequence[MeasuredChart], height: float) -> Found:
    """Find where in plots several pieces of ink that nothing explains stand in a row, as handwriting does."""
    found: Found = []
    for chart in charts:
        run: list[Unexplained] = []
        for piece in sorted(chart.unexplained, key=lambda one: one.at[0]):
            if run and not _goes_on(run[-1], piece, height):
                found += _written(run, height)
                run = []
            run.append(piece)
        found += _written(run, height)
    return found


def _goes_on(last: Unexplained, piece: Unexplained, height: float) -> bool:
    across, down = abs(piece.at[0] - last.at[0]), abs(piece.at[1] - last.at[1])
    return across < _BESIDE * height and down < _BELOW * height


def _written(run: Sequence[Unexplained], height: float) -> Found:
    if len(run) < _CLUSTER:
        return []
    xs, ys = [piece.at[0] for piece in run], [piece.at[1] for piece in run]
    return [(WRITTEN, (min(xs) - height, min(ys) - height, max(xs) + height, max(ys) + height))]
