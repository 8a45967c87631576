"""One page covered: what may stay, what must go, and what is in doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np

from ...interpret.errors import MissingProgram
from ..chart import MeasuredChart
from ..choices import Choices
from ..page import Page, Pixels
from ..report.words import report_words
from ..sheet import Sheet
from .again import looked_at_again, writing_in_plots
from .ink import Ink, covering, ink_of, without_rules
from .known import KnownText, known_text
from .places import Box, Mask, fractions_of, holds, on_sheet, pixels_of
from .plots import ChartParts, chart_parts
from .vocabulary import vocabulary

USUAL_HEIGHT = 0.008
"""The height of small print over that of a page: 9 points on A4, where too few words tell it."""
_EDGE = 0.15


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something on a page that may say who somebody is and could not be settled.

    ``box`` are page fractions: left, top, right, bottom. ``what`` says what stands there, never what it reads.
    """

    what: str
    box: Box


@dataclass(frozen=True, slots=True)
class Told:
    """What is known of a page beside its pixels; boxes in page fractions.

    ``names`` are words that are parts of names on the file's pages: never harmless. ``identifiers`` are boxes that were
    read as identifiers. ``also`` are boxes that a person wants to be covered, whatever stands there; they settle what
    is in doubt within them.
    """

    names: tuple[str, ...] = ()
    identifiers: tuple[Box, ...] = ()
    also: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True)
class BlankedPage:
    """A page with everything covered that is not known to be harmless.

    ``pixels`` has shape (height, width, 3), uint8, RGB: the page as displayed. ``covered`` has shape (height, width),
    true where it was blacked out, or taken away at the page's outmost edge; elsewhere the paper is smooth. ``doubts``
    are reasons not to give it out.
    """

    pixels: Pixels
    covered: Mask
    dpi: float | None
    doubts: tuple[Doubt, ...]


def blank_page(
    page: Page, sheet: Sheet, charts: Sequence[MeasuredChart], choices: Choices, told: Told | None = None
) -> BlankedPage:
    """Cover a page.

    Parameters
    ----------
    page : Page
        As displayed.
    sheet : Sheet
        The page straightened.
    charts : sequence of MeasuredChart
        The charts read on it; their plots and labels stay.
    choices : Choices
        The languages to expect.
    told : Told, optional
        What else is known.

    Returns
    -------
    BlankedPage
        The covered page, and what is in doubt.

    Raises
    ------
    MissingProgram
        Text recognition is missing or failed: nobody could take a second look.
    """
    told = told or Told()
    known = vocabulary().without(told.names)
    said = report_words(sheet, tuple(charts), choices)
    if said.unread:
        what = "text recognition is missing or failed, and nothing can be blanked without it"
        raise MissingProgram(what, "Install Tesseract with the languages asked for")
    parts = chart_parts(sheet, charts)
    usual = USUAL_HEIGHT * max(sheet.pixels.shape[:2])
    text = known_text(parts.beside(said.words), known, usual=usual)
    identifiers = [on_sheet(sheet, box) for box in told.identifiers]
    ink = ink_of(sheet.pixels)
    black = _first(ink, text, parts, identifiers)
    black, found = looked_at_again(sheet, charts, parts, black, text.height, known, choices)
    found += writing_in_plots(charts, text.height)
    found += [("what was read as an identifier", box) for box in identifiers if _touches(box, parts.cores)]
    doubts = [Doubt(what, fractions_of(sheet, box)) for what, box in found]
    if ink.grainy:
        doubts.append(Doubt("paper too grainy to tell faint ink from it", (0.0, 0.0, 1.0, 1.0)))
    return _covered(page, sheet, black, replace(ink, mask=ink.mask | parts.plots), doubts, told.also)


def _first(ink: Ink, text: KnownText, parts: ChartParts, identifiers: Sequence[Box]) -> Mask:
    """Cover all ink but what is known."""
    height = text.height
    loose = without_rules(ink.mask, height)
    for box in (*text.kept, *parts.labels):
        loose[pixels_of(box, _EDGE * height, loose)] = False
    loose &= ~parts.plots
    for box in (*text.suspect, *identifiers):
        loose[pixels_of(box, 0.0, loose)] = True
    return covering(loose & ~parts.cores, height, text.kept) & ~_kept_ink(parts, text, identifiers)


def _kept_ink(parts: ChartParts, text: KnownText, identifiers: Sequence[Box]) -> Mask:
    """Give the pixels of plots, without the words that stand in their margins."""
    mask = parts.plots.copy()
    for box in (*text.suspect, *identifiers):
        mask[pixels_of(box, _EDGE * text.height, mask)] = False
    return mask | parts.cores


def _touches(box: Box, mask: Mask) -> bool:
    return bool(mask[pixels_of(box, 0.0, mask)].mean() > 0.1) if mask[pixels_of(box, 0.0, mask)].size else False


def _covered(
    page: Page, sheet: Sheet, black: Mask, ink: Ink, doubts: Sequence[Doubt], also: Sequence[Box]
) -> BlankedPage:
    """Black out the page as displayed, and smooth its paper, so that no faint print from its back can be brought out.

    Plots stay as they are, grey shading and all: they are to be read. What the sheet does not show of the page, its
    outmost edges, is taken away.
    """
    size = sheet.page_size

    def on_page(mask: Mask, flags: int) -> Mask:
        carried = cv2.warpPerspective(mask.astype(np.uint8) * 255, sheet.to_page, size, flags=flags)
        return np.asarray(carried > 0)

    cover, seen = on_page(black, cv2.INTER_LINEAR), on_page(np.ones_like(black), cv2.INTER_NEAREST)
    for left, top, right, bottom in also:
        cover[pixels_of((left * size[0], top * size[1], right * size[0], bottom * size[1]), 0.0, cover)] = True
    inked = on_page(np.asarray(cv2.dilate(ink.mask.astype(np.uint8), np.ones((3, 3), np.uint8)) > 0), cv2.INTER_LINEAR)
    paper = np.asarray(cv2.warpPerspective(ink.paper, sheet.to_page, size, flags=cv2.INTER_LINEAR), np.uint8)
    pixels = np.where(inked[:, :, None], page.pixels, paper)
    pixels[~seen] = 255
    pixels[cover] = 0
    pixels.flags.writeable = False
    open_ = tuple(doubt for doubt in doubts if not any(holds(box, doubt.box, 0.0) for box in also))
    return BlankedPage(pixels, cover | ~seen, page.dpi, open_)
