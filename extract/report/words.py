"""The words of a sheet outside its charts: the file's own where it has them, else read from the picture.

A picture is read three times, at the cost of one reading. Our own network for labels has already read every word for
the sake of the axes (in lower case, and best at numbers). Tesseract reads the same words from one small picture into
which they are pasted: it holds one piece of a line a row, with its letters at one height and its paper white, costs
less than half of a full-page pass, and is read better, since no rule, grid or second column stands beside it. While
Tesseract works in its own process, our network for print reads the words in this one.
"""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace

from ...interpret.errors import MissingProgram
from ..chart import MeasuredChart
from ..choices import Choices
from ..eyes.words.printed import read_printed
from ..page import Pixels, Word
from ..shades import grey_of
from ..sheet import Sheet
from .axes import outside_charts
from .growth import grown_words, ink_of, without_specks
from .leaders import without_leaders
from .pieces import Piece, Strip, paste, pieces_of
from .ticks import tick_boxes, without_boxes
from .witnesses import Look, put_together

ONE_BLOCK = 6
"""Tesseract's page segmentation mode for rows of text under each other."""


@dataclass(frozen=True, slots=True)
class ReportWords:
    """The words outside the charts' plots and without their axis labels.

    Attributes
    ----------
    words : tuple of Word
        In sheet pixels, no order. From a picture, ``text`` is the likelier reading and ``others`` holds first what
        another reader read at the same place.
    given : bool
        They are the file's own words, which nobody had to read.
    languages : tuple of str
        The languages that text recognition was told to expect.
    unread : bool
        Text recognition is missing or failed: what ``words`` holds then is our own network's reading alone.
    """

    words: tuple[Word, ...] = ()
    given: bool = False
    unread: bool = False
    languages: tuple[str, ...] = ("eng",)


@dataclass(frozen=True, slots=True)
class Begun:
    """A reading of words by Tesseract that is under way, in a process of its own.

    ``outside`` are the words that are read, as our own network read them; ``grey`` is the cleaned sheet, ``boxes`` are
    its tick boxes.
    """

    outside: tuple[Word, ...]
    grey: Pixels
    boxes: tuple[Word, ...]
    strip: Strip
    read: Future[tuple[Word, ...] | None]


def begin_words(sheet: Sheet, charts: tuple[MeasuredChart, ...], choices: Choices) -> Begun | None:
    """Have Tesseract begin with the words of a sheet outside its charts, while something else is done.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.
    charts : tuple of MeasuredChart
        Its charts; their axes tell what is left out.
    choices : Choices
        The languages to expect.

    Returns
    -------
    Begun or None
        For ``report_words``; None where there is nothing to be read.
    """
    outside = outside_charts(sheet.words, charts)
    level = tuple(w for w in outside if not w.upright)
    if sheet.words_given or not level:
        return None

    from ..intake.words import read_strip  # here, since what it needs is not loaded before a page is read

    grey = grey_of(sheet.pixels)
    grey, level = without_leaders(grey, ink_of(grey), level)
    grey = without_specks(grey, ink_of(grey), level)
    ink = ink_of(grey)
    boxes = tick_boxes(ink, level)
    if boxes:
        grey, level = without_boxes(grey, level, boxes)
        ink = ink_of(grey)
    strip = paste(grey, ink, pieces_of(grown_words(grey, ink, level)))
    beside = ThreadPoolExecutor(1)
    read = beside.submit(read_strip, strip.pixels, psm=ONE_BLOCK, languages=choices.languages)
    beside.shutdown(wait=False)
    return Begun(outside, grey, boxes, strip, read)


def report_words(
    sheet: Sheet,
    charts: tuple[MeasuredChart, ...],
    choices: Choices,
    *,
    look: Look | None = None,
    begun: Begun | None = None,
) -> ReportWords:
    """Read the words of a sheet that stand outside its charts.

    Parameters
    ----------
    sheet : Sheet
        The straightened page.
    charts : tuple of MeasuredChart
        Its charts; what stands in their plots, and the labels of their axes, is left out.
    choices : Choices
        The languages to expect.
    look : callable, optional
        Called with each word and what the three readers said of it (``put_together``).
    begun : Begun, optional
        What Tesseract began with; it counts only where the same words turn out to stand outside the charts.

    Returns
    -------
    ReportWords
        The words; no text recognition runs where the file has words of its own.
    """
    outside = outside_charts(sheet.words, charts)
    if sheet.words_given:
        return ReportWords(outside, given=True)
    if begun is None or begun.outside != outside:
        begun = begin_words(sheet, charts, choices)
    if begun is None:
        return ReportWords(outside)
    strip = replace(begun.strip, pieces=_in_print(begun.grey, begun.strip.pieces))
    try:
        read = begun.read.result()
    except MissingProgram:
        read = None
    if read is None:
        return ReportWords(outside, unread=True)
    sideways = tuple(w for w in outside if w.upright)
    return ReportWords((*_joined(strip, read, look), *begun.boxes, *sideways), languages=choices.languages)


def _in_print(grey: Pixels, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Read the words of pieces as print; what the network for labels read is the first of their ``others``."""
    said = iter(read_printed(grey, [box for piece in pieces for box in piece.on_line()]))
    return tuple(
        replace(piece, words=tuple(
            replace(word, text=one.text, confidence=one.confidence, others=((word.text, word.confidence),))
            for word in piece.words for one in [next(said)]
        ))
        for piece in pieces
    )  # fmt: skip


def _joined(strip: Strip, read: tuple[Word, ...], look: Look | None = None) -> list[Word]:
    """Give the words of every piece, from both readings."""
    of_row: dict[int, list[Word]] = {}
    for word in read:
        row = strip.row_of((word.box[1] + word.box[3]) / 2)
        if row is not None:
            of_row.setdefault(row, []).append(replace(word, box=strip.on_sheet(row, word.box)))
    found: list[Word] = []
    for row, piece in enumerate(strip.pieces):
        found += put_together(piece.words, tuple(of_row.get(row, ())), look)
    return found
