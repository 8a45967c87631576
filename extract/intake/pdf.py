"""PDF pages, drawn or scanned, as ``Page``."""

from __future__ import annotations

from ...interpret.record import Source
from ..page import Page
from .document.worker import BoundedReader
from .resolution import credible
from .stored import Stored


class PdfFile:
    """An opened PDF.

    Parameters
    ----------
    stored : Stored
        The bytes of the file.

    Raises
    ------
    OctavoError
        See ``document.reader.Reader``.
    """

    def __init__(self, stored: Stored) -> None:
        self._stored = stored
        self._reader = BoundedReader(stored.data)
        self.pages = self._reader.pages

    def page(self, number: int) -> Page:
        """Read one page, counted from 1; see ``intake.pages`` for the errors."""
        parts = self._reader.page(number)
        source = Source(self._stored.name, self._stored.sha256, number, self.pages, parts.taken_by)
        parts.pixels.setflags(write=False)
        dpi = parts.dpi if parts.taken_by == "drawn" else credible(parts.dpi, max(parts.pixels.shape[:2]))
        paths = parts.paths.paths() if parts.paths is not None else ()
        return Page(source, parts.pixels, dpi, parts.words, paths, parts.notes)

    def close(self) -> None:
        """End the process that reads."""
        self._reader.close()
