"""One PDF page from bytes to its parts: drawn or scanned, its pixels, its words and its paths."""

from __future__ import annotations

import contextlib
import io
import itertools
import logging
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
import pdfplumber
import pypdfium2
import pypdfium2.raw as pdfium_c
from pdfminer.pdfpage import PDFPage
from pdfminer.pdftypes import resolve1
from pdfplumber.pdf import PDF
from pdfplumber.utils.exceptions import PdfminerException

from ....interpret.errors import LockedFile, OversizeFile, PageGivenUp, UnreadableFile
from ...limits import DRAWN_DPI, PDF_PAGES, PICTURE_SIDE_LEAST, SCAN_DPI, SCAN_DPI_LEAST
from ...page import Pixels, Word
from .contents import Contents, Picture, read_contents
from .fonts import Fonts
from .glyphs import with_ink_boxes
from .lettering import unmapped_share, visible, words_of
from .rendering import Room, View, render, view_of
from .shapes import Packed, pack

_PICTURE_SHARE = 0.08
"""A picture over so much of the page can hold a chart: per-ear charts on A4 take about 9%, a letterhead's logo 2%."""

_PICTURE_SIDE_PX = 150
"""Pictures with fewer samples than a square of this side hold no legible chart."""

_FULL_SHARE = 0.9
_UNMAPPED_MOST = 0.3
_CHART_PATHS = 20
"""A page with fewer paths shows no lattice, so that words without one number are no sign of a broken font."""

_NO_PAGES: Iterator[PDFPage] = iter(())


@dataclass(frozen=True, slots=True)
class Parts:
    """What a page gives: as ``Page``, with the paths still packed (None where there are none)."""

    pixels: Pixels
    taken_by: Literal["drawn", "scan"]
    dpi: float
    words: tuple[Word, ...] | None
    paths: Packed | None
    notes: tuple[str, ...]


class Reader:
    """A PDF opened by its renderer and its parser.

    Parameters
    ----------
    data : bytes
        The whole file.
    room : writable buffer, optional
        Memory that every page is rendered into, one over the other.

    Raises
    ------
    LockedFile
        It needs a password or a certificate.
    UnreadableFile
        It is damaged beyond reading, has no page, or is an XFA form.
    OversizeFile
        It states more pages than the limit.
    """

    def __init__(self, data: bytes, room: Room | None = None) -> None:
        self._room = room
        try:
            self._shown = _opened(data)
        except LockedFile:
            raise
        except UnreadableFile:
            data = _with_trailer(data)
            self._shown = _opened(data)
        self._resources = Fonts()
        self._parsed: PDF | None = None
        with contextlib.suppress(PdfminerException, RecursionError):  # then the pages are taken from their pixels alone
            self._parsed = pdfplumber.open(io.BytesIO(data))
        self._refuse_forms()
        if self._shown.get_formtype() != pdfium_c.FORMTYPE_NONE:
            self._shown.init_forms()
        self.pages = len(self._shown)
        if self.pages == 0:
            raise UnreadableFile("the PDF has no page", "Export or scan it again")
        if self.pages > PDF_PAGES:
            raise OversizeFile(f"the PDF states more than {PDF_PAGES:,} pages", "Split it into smaller ones")
        self._next = 0
        self._tree = _NO_PAGES

    def page(self, number: int) -> Parts:
        """Read one page, counted from 1.

        Raises
        ------
        UnreadableFile
            The page is damaged, missing or shows nothing.
        PageGivenUp
            It needs more memory than the limit.
        """
        try:
            return self._page(number)
        except MemoryError as error:
            raise PageGivenUp("the page needs more memory than a page should", "Print it to a new PDF") from error
        except pypdfium2.PdfiumError as error:
            raise UnreadableFile("the page is damaged or missing", "Export or scan it again") from error

    def _page(self, number: int) -> Parts:
        parsed = self._parsed_page(number)
        attributes: dict[str, Any] = parsed.attrs if parsed is not None else {}
        page = self._shown[number - 1]
        try:
            notes = () if parsed is None or _box_stands(attributes) else ("page-box-repaired",)
            view = view_of(page, _user_unit(attributes))
            if view is None:
                page.set_cropbox(*(page.get_mediabox() or (0, 0, 612, 792)))
                page.close()
                page = self._shown[number - 1]
                view = view_of(page, _user_unit(attributes))
                notes = ("page-box-repaired",)
            if view is None:
                raise UnreadableFile("the page has no size", "Print it to a new PDF")
            if min(view.size()) * view.scale(DRAWN_DPI) < PICTURE_SIDE_LEAST:
                raise UnreadableFile("the page is too small or too narrow to hold a chart", "Print it to a new PDF")
            with ThreadPoolExecutor(1) as beside:  # the renderer is not Python, and leaves the parser its own core
                drawn = beside.submit(render, page, view.scale(DRAWN_DPI), self._room) if _drawn(parsed) else None
                contents = self._contents(parsed)
                pixels = drawn.result() if drawn is not None else None
            return _parts(page, view, contents, notes, self._room, pixels)
        finally:
            page.close()

    def _contents(self, parsed: PDFPage | None) -> Contents | None:
        if parsed is None:
            return None
        try:
            return read_contents(parsed, self._resources)
        except MemoryError:
            raise
        except Exception:  # noqa: BLE001  # the parser lets any exception out of a damaged page; its pixels remain
            return None

    def _parsed_page(self, number: int) -> PDFPage | None:
        if self._parsed is None:
            return None
        try:
            if self._next != number:
                self._tree = itertools.islice(PDFPage.create_pages(self._parsed.doc), number - 1, None)
            self._next = number + 1
            return next(self._tree, None)
        except MemoryError:
            raise
        except Exception:  # noqa: BLE001  # as above, for a damaged page tree
            self._next = 0
            return None

    def _refuse_forms(self) -> None:
        """Refuse a form that only one vendor's viewer draws (/NeedsRendering: ISO 32000-1, 12.7.8)."""
        try:
            waits = self._parsed is not None and resolve1(self._parsed.doc.catalog.get("NeedsRendering")) is True
        except Exception:  # noqa: BLE001  # a damaged catalogue says nothing
            waits = False
        if waits:
            raise UnreadableFile("this is an XFA form, whose pages are not in the file", "Print it to a new PDF")


def _with_trailer(data: bytes) -> bytes:
    """Give a file that lost its end a trailer again, so that the pages before the cut can be found."""
    catalog = re.search(rb"(\d+)\s+(\d+)\s+obj\s*<<[^>]{0,500}?/Type\s*/Catalog", data)
    return data + b"\ntrailer<</Root %b %b R>>\n" % catalog.groups() if catalog else data


def _opened(data: bytes) -> pypdfium2.PdfDocument:
    logging.getLogger("pdfminer").setLevel(logging.CRITICAL)  # it would write its findings on the person's terminal
    try:
        return pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as error:
        code = getattr(error, "err_code", None)
        if code == pdfium_c.FPDF_ERR_PASSWORD:
            raise LockedFile("the PDF needs a password", "Open it, save it without a password and try again") from error
        if code == pdfium_c.FPDF_ERR_SECURITY:
            raise LockedFile("the PDF is locked in a way that is not supported", "Print it to a new PDF") from error
        raise UnreadableFile("the PDF is cut short or damaged", "Export or scan it again") from error


def _parts(
    page: pypdfium2.PdfPage,
    view: View,
    contents: Contents | None,
    notes: tuple[str, ...],
    room: Room | None,
    drawn: Pixels | None,
) -> Parts:
    """Put a page's parts together; ``drawn`` is the page as a drawn one is rendered, where that was done already."""
    picture_dpi, share = _pictures(contents.pictures if contents else [], view)
    if contents is None or share > 0:
        least = SCAN_DPI_LEAST if share >= _FULL_SHARE else DRAWN_DPI
        if share >= _FULL_SHARE and picture_dpi * max(view.size()) * view.unit_inch > 1000:
            least = 1.0  # the picture is the page and is fine enough by itself: keep its own samples
        dpi = min(SCAN_DPI, max(least, picture_dpi))
        if share >= _FULL_SHARE and max(view.size()) * view.unit_inch > 20:
            dpi = max(least, picture_dpi)  # a picture on an outsize sheet: its stated inches mean nothing
        scale = view.scale(dpi)
        notes = (*notes, "text-layer-distrusted") if contents is None or contents.letters else notes
        return Parts(render(page, scale, room), "scan", scale / view.unit_inch, None, None, notes)
    scale = view.scale(DRAWN_DPI)
    pixels = render(page, scale, room) if drawn is None else drawn
    to_pixels = view.to_pixels(pixels.shape[1], pixels.shape[0])
    words = with_ink_boxes(visible(words_of(contents.letters, to_pixels), pixels), page, to_pixels)
    paths = pack(contents.shapes, to_pixels, pixels)
    charted = len(paths.first) >= _CHART_PATHS
    mute = charted and not any(c.isdigit() for word in words for c in word.text)
    if mute or unmapped_share(words) > _UNMAPPED_MOST:
        return Parts(pixels, "drawn", scale / view.unit_inch, None, paths, (*notes, "text-layer-distrusted"))
    return Parts(pixels, "drawn", scale / view.unit_inch, words, paths, notes)


def _drawn(parsed: PDFPage | None) -> bool:
    """Say whether a page uses neither pictures nor forms, in which pictures may be."""
    try:
        return parsed is not None and not resolve1(parsed.resources.get("XObject"))
    except Exception:  # noqa: BLE001  # as above: what is damaged is told by reading it
        return False


def _pictures(pictures: list[Picture], view: View) -> tuple[float, float]:
    """Give the finest resolution, and the share of the page covered, of the pictures that may hold a chart."""
    cells = np.zeros((64, 64), bool)
    finest = 0.0
    affine = view.to_pixels(64, 64)
    for picture in pictures:
        a, b, c, d, e, f = picture.matrix
        corners = np.array(((e, f), (e + a, f + b), (e + c, f + d), (e + a + c, f + b + d))) @ affine[:, :2].T
        low, high = np.clip(np.array((corners.min(0), corners.max(0))) + affine[:, 2] + 0.5, 0, 64)
        inches = np.hypot(a, b) * view.unit_inch, np.hypot(c, d) * view.unit_inch
        if min(inches) <= 0 or (high - low).min() <= 0:
            continue
        (left, top), (right, bottom) = np.floor(low).astype(int), np.ceil(high).astype(int)
        cells[top:bottom, left:right] = True
        finest = max(finest, picture.size[0] / inches[0], picture.size[1] / inches[1])
    share = float(cells.mean())
    legible = sum(picture.size[0] * picture.size[1] for picture in pictures) >= _PICTURE_SIDE_PX**2
    return (finest, share) if share >= _PICTURE_SHARE and legible else (0.0, 0.0)


def _user_unit(attributes: dict[str, Any]) -> float:
    try:
        value = float(resolve1(attributes.get("UserUnit", 1)))
    except (TypeError, ValueError):
        return 1.0
    return value if 0 < value <= 1e6 else 1.0


def _box_stands(attributes: dict[str, Any]) -> bool:
    """Tell whether the page's media box is stated and has an area."""
    try:
        stated: Any = resolve1(attributes.get("MediaBox"))
        x0, y0, x1, y1 = (float(resolve1(value)) for value in stated)
    except (TypeError, ValueError):
        return False
    return abs(x1 - x0) > 0 and abs(y1 - y0) > 0
