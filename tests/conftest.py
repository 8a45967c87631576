"""What several test folders share: records that stand for a reading, made by hand."""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from dataclasses import replace

import pypdfium2.raw as pdfium
import pytest

from octavo.interpret.record import Audiogram, Chart, PageRecord, Seen, Source, Standing, Threshold

_NO_FOLDERS = (ctypes.POINTER(ctypes.c_char) * 1)()


def pytest_configure() -> None:
    """Let the renderer use its own fonts alone, so that pages without embedded ones look the same on every machine.

    Two tests failed where more fonts were installed.
    """
    pdfium.FPDF_DestroyLibrary()
    settings = pdfium.FPDF_LIBRARY_CONFIG(version=2, m_pUserFontPaths=_NO_FOLDERS, m_pIsolate=None, m_v8EmbedderSlot=0)
    pdfium.FPDF_InitLibraryWithConfig(settings)


@pytest.fixture
def make_record() -> Callable[..., PageRecord]:
    """Give a maker of page records: one chart, a right air threshold of 35 dB HL at 1 kHz, and more as asked."""

    def make(
        standing: Standing = "sure",
        *,
        page: int = 1,
        pages: int = 1,
        name: str = "page.pdf",
        thresholds: tuple[Threshold, ...] | None = None,
        empty: bool = False,
    ) -> PageRecord:
        source = Source(name=name, sha256="0" * 64, page=page, pages=pages, taken_by="drawn")
        if empty:
            return PageRecord(source=source, standing=standing)
        chart = Chart(outline=((0.1, 0.2), (0.9, 0.2), (0.9, 0.8), (0.1, 0.8)), frequency_axis=None, level_axis=None)
        if thresholds is None:
            seen = Seen(chart=0, at=(0.5, 0.4), frequency_hz=1001.0, level_db_hl=34.8)
            why_ask = ("faint",) if standing == "ask" else ()
            one = Threshold("right", "air", False, 1000, 35, standing=standing, probability=0.9999, seen=seen)
            thresholds = (replace(one, why_ask=why_ask),)
        audiogram = Audiogram(symbol_set="asha-1990", charts=(chart,), thresholds=thresholds)
        return PageRecord(source=source, standing=standing, audiograms=(audiogram,))

    return make
