"""The redrawn chart: a record's thresholds on a clean chart of our own, as SVG or PDF, from the record alone."""

from __future__ import annotations

from collections.abc import Iterable

from ...record import PageRecord
from .page import scene_of, scene_of_tests
from .pdf import pdf_of
from .scene import Scene
from .svg import svg_of

__all__ = ["Scene", "pdf_of", "redrawn_pdf", "redrawn_svg", "scene_of", "scene_of_tests", "svg_of"]


def redrawn_svg(record: PageRecord, *, language: str = "en") -> str:
    """Draw a record's thresholds anew as SVG.

    Parameters
    ----------
    record : PageRecord
        The reading of one page; one test gives one chart of both ears, several tests one chart for each ear with the
        tests overlaid.
    language : str
        Of the words, by its id ("en", "es") on the chart.

    Raises
    ------
    MisuseError
        When the record holds no threshold, or there are no words in that language.
    """
    return svg_of(scene_of(record, language=language))


def redrawn_pdf(records: Iterable[PageRecord], *, language: str = "en") -> bytes:
    """Draw the thresholds of records anew as a PDF, a page each; as ``redrawn_svg``."""
    return pdf_of(scene_of(record, language=language) for record in records)
