"""File to pages: whatever a clinic hands over becomes RGB pixels as displayed, one page after the other."""

from __future__ import annotations

import os
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from typing import Protocol

from ...interpret.errors import OctavoError, PageGivenUp
from ..limits import GIVEN_UP_IN_A_ROW
from ..page import Page
from .kind import kind_of
from .stored import Stored, read_stored, shown

__all__ = ["PageFailure", "pages"]


@dataclass(frozen=True, slots=True)
class PageFailure:
    """A page of a file with several that could not be opened; the others are not lost by it.

    ``page`` counts from 1. ``error`` names the file and the page.
    """

    page: int
    pages: int
    error: OctavoError


class Opened(Protocol):
    """A file that was opened, and gives its pages one at a time."""

    @property
    def pages(self) -> int:
        """How many pages the file has."""
        ...

    def page(self, number: int) -> Page:
        """Give one page, counted from 1; raises OctavoError when that page cannot be had."""
        ...

    def close(self) -> None:
        """Let go of all that the file holds."""
        ...


def pages(path: str | os.PathLike[str]) -> Generator[Page | PageFailure, None, None]:
    """Open a file and give its pages in order, each as it is asked for.

    Parameters
    ----------
    path : str or os.PathLike
        A PDF, TIFF, PNG, JPEG, WebP, BMP or GIF file; what it is, is told by its bytes.

    Yields
    ------
    Page or PageFailure
        Each page, or the reason why that one of several pages cannot be had. Only one page is held at a time.

    Raises
    ------
    OctavoError
        The file as a whole has no page to give; for a file with a single page, also whatever is wrong with that page.
        The error names the file as it was given.
    """
    given = shown(path) or "''"
    try:
        stored = read_stored(path)
        opened = _open(stored)
    except OctavoError as error:
        raise error.at(file=given) from error
    try:
        yield from _each(opened, given)
    finally:
        opened.close()


def _open(stored: Stored) -> Opened:
    # The readers are imported late: a PDF needs no picture library, and asking for the version needs neither.
    if kind_of(stored.data) == "pdf":
        from .pdf import PdfFile

        return PdfFile(stored)
    from .raster import RasterFile

    return RasterFile(stored)


def _each(opened: Opened, given: str) -> Iterator[Page | PageFailure]:
    given_up = 0
    for number in range(1, opened.pages + 1):
        try:
            if given_up >= GIVEN_UP_IN_A_ROW:
                raise PageGivenUp("not tried, as the pages before it were given up", "Split the file and try again")
            page = opened.page(number)
        except OctavoError as error:
            given_up += isinstance(error, PageGivenUp)
            placed = error.at(file=given, page=number if opened.pages > 1 else None)
            if opened.pages == 1:
                raise placed from error
            yield PageFailure(number, opened.pages, placed)
        else:
            given_up = 0
            yield page
            del page  # else it is held while the next is decoded
