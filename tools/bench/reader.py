"""Read one painted file the public way, and measure the reading's time and memory beside the yardsticks."""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from time import perf_counter

from ...interpret.errors import InternalFault, OctavoError, PagesLeftUnread
from ...interpret.record import PageRecord
from .memory import MemoryWatch

Read = Callable[[str], Sequence[PageRecord]]


@dataclass(frozen=True, slots=True)
class Errand:
    """A file to read; ``yardstick`` is the picture for Tesseract, ``parse`` asks for pdfplumber's time as well.

    ``warm_up`` has the file read once unmeasured before: loading the packages belongs to no page. ``report`` has the
    text around the charts read as well, which the chart suites neither need nor time.
    """

    path: str
    yardstick: str | None = None
    parse: bool = False
    warm_up: bool = False
    report: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """What came of one file.

    ``record`` is None where octavo refused the file (``refusal``, its message) or failed (``crash``: a traceback, a
    death, no answer, not one record for the one page). ``seconds`` is the reading alone; ``tesseract_s`` and
    ``parse_s`` are the yardsticks' times on the same page; ``peak_mb`` is the largest memory (``MemoryWatch``).
    """

    record: PageRecord | None
    seconds: float | None = None
    peak_mb: float = 0.0
    tesseract_s: float | None = None
    parse_s: float | None = None
    refusal: str | None = None
    crash: str | None = None


def read_file(errand: Errand) -> Reading:
    """Read a file in this process and time it, then time the yardsticks on the same page."""
    from ..reading import read

    return measure(errand, partial(read, report=errand.report))


def measure(errand: Errand, read: Read) -> Reading:
    """Read a file with ``read`` and measure it; an exception that is not octavo's own is left to rise."""
    memory = MemoryWatch.start()
    if errand.warm_up:
        with suppress(OctavoError):
            read(errand.path)
    started = perf_counter()
    try:
        records = read(errand.path)
    except OctavoError as error:
        causes = error.errors if isinstance(error, PagesLeftUnread) else (error,)
        if any(isinstance(cause, InternalFault) for cause in causes):
            return Reading(None, crash=str(error), peak_mb=memory.peak_mb())
        return Reading(None, refusal=str(error), peak_mb=memory.peak_mb())
    seconds = perf_counter() - started
    peak_mb = memory.peak_mb()
    if len(records) != 1:
        return Reading(None, seconds, peak_mb, crash=f"{len(records)} records for one page")
    return Reading(
        records[0],
        seconds,
        peak_mb,
        tesseract_s=_time_tesseract(errand.yardstick) if errand.yardstick else None,
        parse_s=_time_parse(errand.path) if errand.parse else None,
    )


def _time_tesseract(picture: str) -> float:
    """Time a full-page pass, single-threaded (the process's environment says so), from a picture file to words."""
    started = perf_counter()
    subprocess.run(["tesseract", picture, "-", "tsv"], check=True, capture_output=True)
    return perf_counter() - started


def _time_parse(path: str) -> float:
    """Time pdfplumber's own parse of the first page into characters and drawn objects."""
    import pdfplumber

    started = perf_counter()
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[0]
        for kind in (page.chars, page.lines, page.curves, page.rects):
            len(kind)
    return perf_counter() - started
