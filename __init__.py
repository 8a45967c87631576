"""octavo reads hearing tests: charts on paper, scans, faxes, photos and PDFs become thresholds in dB HL."""

from __future__ import annotations

from os import PathLike
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from .interpret.record import PageRecord
    from .interpret.reports.groups import ReportGroup

__all__ = ["__version__", "read", "reports"]

__version__ = "0.1.0"


def read(
    path: str | PathLike[str],
    *,
    symbols: str | None = None,
    report: bool = True,
    languages: Sequence[str] = ("eng",),
) -> list[PageRecord]:
    """Read every page of one file.

    Parameters
    ----------
    path : str or os.PathLike
        A PDF, TIFF, PNG, JPEG, WebP or BMP file.
    symbols : str, optional
        The symbol set to assume where a page prints no key, by its id (``octavo.interpret.symbols``).
    report : bool
        Read what stands around the charts as well; without it the charts alone, and no text recognition runs.
    languages : sequence of str
        The languages of the text around the charts, by the names of Tesseract's data.

    Returns
    -------
    list of PageRecord
        One record a page, in page order.

    Raises
    ------
    OctavoError
        When there is no record to give: the file is missing, unreadable, locked or too large.
    """
    from .tools.reading import read as read_file

    return read_file(path, symbols=symbols, report=report, languages=languages)


def reports(path: str | PathLike[str], *, symbols: str | None = None) -> list[ReportGroup]:
    """Read every page of one file, and put the pages together by patient and test.

    Parameters
    ----------
    path, symbols
        As of ``read``.

    Returns
    -------
    list of ReportGroup
        One for each patient's report, by their first pages: its records, what they say of the patient, its tests by
        date, and whether all of this is certain.

    Raises
    ------
    OctavoError
        As ``read``.
    """
    from .tools.reading import reports as read_reports

    return read_reports(path, symbols=symbols)
