"""The words of a page told apart: those that may stay, and the celles that must go."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from ..page import Word
from ..report.lines import lines_of
from .places import Box
from .vocabulary import Kind, Vocabulary

LEAST_CONFIDENCE = 0.5
"""A word read with less is not known, whatever it says."""
_TALLEST, _WIDEST, _NARROWEST = 2.2, 1.3, 0.15


@dataclass(frozen=True, slots=True)
class KnownText:
    """What the words of a sheet say about it; boxes in sheet pixels.

    ``kept`` are words that may stay, ``suspect`` are celles of words that must go, ``height`` is the usual height of
    a word.
    """

    kept: tuple[Box, ...]
    suspect: tuple[Box, ...]
    height: float


def known_text(words: Sequence[Word], known: Vocabulary, *, usual: float) -> KnownText:
    """Tell the words that may stay from those that must go.

    Parameters
    ----------
    words : sequence of Word
        As OCR read them outside the plots, boxes in sheet pixels.
    known : Vocabulary
        The harmless words.
    usual : float
        The height of a word to be taken where there are too few words, sheet pixels.

    Returns
    -------
    KnownText
        A word stays only where its whole cell (words with no wide gap between them) is harmless. A number stays only
        in a cell with a word of a test, or in a row that starts with one. What follows a label such as "Name" goes, to
        the next cell, whatever it says.
    """
    sound = [word for word in words if word.text.strip()]
    heights = [word.box[3] - word.box[1] for word in sound if word.confidence >= LEAST_CONFIDENCE]
    height = min(max(median(heights), 0.6 * usual), 1.6 * usual) if len(heights) >= 5 else usual
    kept: list[Box] = []
    suspect: list[Box] = []
    for line in lines_of(sound):
        _sort_out([cell.words for cell in line.cells], known, height, kept, suspect)
    return KnownText(tuple(kept), tuple(suspect), height)


def _sort_out(
    line: Sequence[Sequence[Word]], known: Vocabulary, height: float, kept: list[Box], suspect: list[Box]
) -> None:
    labelled, row = False, False
    for cell in line:
        kinds = {_kind(word, known, height) for word in cell}
        if labelled or "identifying" in kinds or "unknown" in kinds:
            suspect.append(_around(word.box for word in cell))
            labelled, row = "identifying" in kinds, False
            continue
        row = row or "test" in kinds
        if "number" in kinds and not row:
            suspect.append(_around(word.box for word in cell))
        else:
            kept += [word.box for word in cell]


def _kind(word: Word, known: Vocabulary, height: float) -> Kind:
    """Give a word's kind; one of a size that no such word has is a guess of the program, and unknown."""
    left, top, right, bottom = word.box
    tall, wide, letters = bottom - top, right - left, len(word.text)
    if word.confidence < LEAST_CONFIDENCE or tall > _TALLEST * height:
        return "unknown"
    if not _NARROWEST * letters * tall <= wide <= _WIDEST * max(letters, 2) * max(tall, 0.7 * height):
        return "unknown"
    return known.kind(word.text)


def _around(boxes: Iterable[Box]) -> Box:
    left, top, right, bottom = zip(*boxes, strict=True)
    return min(left), min(top), max(right), max(bottom)
