"""One file from end to end: its pages through the road, in page order."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence

from ..extract.choices import Choices
from ..extract.intake import PageFailure, pages
from ..extract.page import Page
from ..extract.road import Observer, read_page
from ..interpret.errors import InternalFault, MissingProgram, MisuseError, OctavoError, PageGivenUp, PagesLeftUnread
from ..interpret.findings import with_findings
from ..interpret.record import PageRecord
from ..interpret.reports.groups import ReportGroup, group_pages
from ..interpret.rules.plausibility import with_doubts
from ..interpret.symbols import SYMBOL_SETS


def read(
    path: str | os.PathLike[str],
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
        One record a page, in page order, with the findings by the default scheme.

    Raises
    ------
    MisuseError
        When there is no such symbol set.
    PagesLeftUnread
        When some pages gave no record: it holds the records of the others and the error of each.
    OctavoError
        Another one, when the file as a whole, or its only page, cannot be read: missing, locked, damaged, too large.
    """
    if symbols is not None and symbols not in SYMBOL_SETS:
        raise MisuseError(f"there is no symbol set {symbols!r}", f"Choose one of {', '.join(SYMBOL_SETS)}")
    readings = list(read_pages(path, Choices(symbols, report, tuple(languages))))
    records = [with_findings(reading) for reading in readings if isinstance(reading, PageRecord)]
    errors = tuple(reading for reading in readings if isinstance(reading, OctavoError))
    if errors and len(readings) == 1:
        raise errors[0]
    if errors:
        raise PagesLeftUnread(errors, tuple(records), file=os.fsdecode(path)) from errors[0]
    return records


def reports(path: str | os.PathLike[str], *, symbols: str | None = None) -> list[ReportGroup]:
    """Read one file, and put its pages together by patient; as ``read``.

    Returns
    -------
    list of ReportGroup
        Each with the records of its pages, what they say of the patient, and its tests by date. Every page that was
        read is in exactly one.
    """
    return list(group_pages(read(path, symbols=symbols)))


def read_pages(
    path: str | os.PathLike[str], choices: Choices, *, observer: Observer | None = None
) -> Iterator[PageRecord | OctavoError]:
    """Read one file page by page; one page's trouble does not end the others'.

    Parameters
    ----------
    path : str or os.PathLike
        The file.
    choices : Choices
        What the person asked for.
    observer : callable, optional
        Called after each step of the road with its name and its result.

    Yields
    ------
    PageRecord or OctavoError
        In page order, one for each page: its record, with values that hardly can be so standing as ``ask``, or why it
        has none.

    Raises
    ------
    OctavoError
        When the file as a whole cannot be read.
    """
    name = os.fsdecode(path)
    try:
        for page in pages(path):
            if isinstance(page, PageFailure):
                yield page.error.at(file=name)
            else:
                yield _record_of(page, choices, observer, name)
            del page  # else it is held while the next is decoded
    except OctavoError as error:
        raise error.at(file=name) from error
    except Exception as fault:
        raise own_fault(fault).at(file=name) from fault


def _record_of(page: Page, choices: Choices, observer: Observer | None, name: str) -> PageRecord | OctavoError:
    number = page.source.page if page.source.pages > 1 else None
    try:
        return with_doubts(read_page(page, choices, observer=observer))
    except OctavoError as error:
        return error.at(file=name, page=number)
    except Exception as fault:  # noqa: BLE001  # whatever a page does to the reader, the next page is still read
        error = own_fault(fault).at(file=name, page=number)
        error.__cause__ = fault
        return error


def own_fault(fault: Exception) -> OctavoError:
    """Give the error by which a fault that no step foresaw is told."""
    if isinstance(fault, MemoryError):
        return PageGivenUp("there is not enough memory to read it", "Save it with fewer dots per inch")
    if isinstance(fault, ImportError) and not (fault.name or "").startswith("octavo"):
        what = f"a package that octavo needs cannot be loaded ({fault})"
        return MissingProgram(what, "Install octavo anew, or run sh tools/fresh.sh demo in its folder")
    # The library's own text may quote what stands on the page, so only the kind of the fault is told.
    return InternalFault(f"octavo failed here ({type(fault).__name__})", "Report this; other pages are not affected")
