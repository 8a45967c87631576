"""``octavo read``: files in, summaries or records out, page by page."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from ...interpret.errors import InternalFault, OctavoError
from ...interpret.record import Audiogram, PageRecord
from ...interpret.symbols import SYMBOL_SETS
from .asked.identity import add_identity_arguments, hiding
from .asked.listener import add_listener_arguments, settings_from
from .asked.text import add_text_arguments, choices_from
from .asked.wording import add_wording_arguments, closing_of, tells_whose, whose_pages, writer
from .files import named_files
from .keeping import Kept, add_keeping_arguments
from .output import Progress, complain, say, show
from .records import holds_records, records_in

if TYPE_CHECKING:
    from ...interpret.reports.groups import ReportGroup
    from ..show_work import WorkFolder

SUMMARY = "read audiograms from files and folders"
DESCRIPTION = """\
Reads every page of every file: PDF, TIFF, PNG, JPEG, WebP, BMP, GIF. A folder means all such files in it and below it.
Values that a person must look at before they are used are marked as such; the others stand as sure. A file that ends in
.jsonl holds records as --json writes them, checked or corrected by a person if need be, and is worded anew."""

_ReadPages = Callable[..., Iterator[PageRecord | OctavoError]]
ALL_SURE, SOMETHING_TO_ASK, NO_AUDIOGRAM = 0, 1, 2
MOST_TOLD = 1000
"""Of a file with more pages it is not told which belong together: each is held against each."""


def add_arguments(parser: ArgumentParser) -> None:
    """Declare the options of ``octavo read``."""
    parser.add_argument("files", metavar="FILE", nargs="+", help="a file, or a folder of files")
    parser.add_argument("--json", action="store_true", help="print the page records, one JSON object a line and page")
    parser.add_argument("--show-work", metavar="DIR", help="leave a picture of every step in this folder")
    parser.add_argument(
        "--symbols",
        metavar="SET",
        choices=list(SYMBOL_SETS),
        help=f"the symbol set where a page prints no key: {', '.join(SYMBOL_SETS)}",
    )
    add_text_arguments(parser)
    add_keeping_arguments(parser)
    add_listener_arguments(parser)
    add_wording_arguments(parser)
    add_identity_arguments(parser)


def run(arguments: Namespace) -> int:
    """Read all that is named and give the exit code, the highest over the files."""
    from ..reading import read_pages

    choices, settings = choices_from(arguments), settings_from(arguments)
    hide = hiding(arguments, settings)
    kept = Kept(arguments, settings)
    files = list(named_files(arguments.files))
    pictures = None
    if arguments.show_work is not None:
        from ..show_work import WorkFolder

        pictures = WorkFolder(Path(arguments.show_work))
    write = writer(arguments, settings)
    progress, code, shown = Progress(len(files)), ALL_SURE, 0
    for number, file in enumerate(files):
        tally = _Tally()
        readings = _readings(file, partial(read_pages, choices=choices), pictures)
        for reading in readings if hide is None else hide.readings(readings):
            text = _text_of(reading, write, file)
            progress.clear()
            if isinstance(text, str):
                show(text)
                shown += 1
            else:
                complain(text)
            tally.add(reading if isinstance(text, str) else text)
            if isinstance(reading, PageRecord):
                if isinstance(text, str):
                    kept.add(reading)
                progress.page(number, reading.source.page, reading.source.pages)
        code = max(code, tally.exit_code)
        if tells_whose(arguments):
            for text in whose_pages(tally.files() if hide is None else hide.files):
                show(text)
    progress.clear()
    last = closing_of(arguments)
    if shown and last is not None:
        show(last)
    for note in kept.write():
        say(note)
    return code


def _text_of(
    reading: PageRecord | OctavoError, write: Callable[[PageRecord], str], file: Path | OctavoError
) -> str | OctavoError:
    """Put a reading into words; a fault in doing so costs this page alone."""
    if isinstance(reading, OctavoError):
        return reading
    try:
        return write(reading)
    except OctavoError as error:
        return error.at(file=str(file), page=reading.source.page)
    except Exception as fault:  # noqa: BLE001  # the next page is still shown
        what = f"octavo failed to word this page ({type(fault).__name__})"
        return InternalFault(what, "Report this", file=str(file), page=reading.source.page)


def _readings(
    file: Path | OctavoError, read_pages: _ReadPages, pictures: WorkFolder | None
) -> Iterator[PageRecord | OctavoError]:
    """Give each page's record or error, and the error that ends a file as its last."""
    if isinstance(file, OctavoError):
        yield file
        return
    work = pictures.work_of(file) if pictures is not None else None
    try:
        # Records were judged when they were read, or by a person since.
        for reading in records_in(file) if holds_records(file) else read_pages(file, observer=work):
            if work is not None and isinstance(reading, PageRecord):
                work.reading(reading)
            yield reading
    except OctavoError as error:
        yield error
    if work is not None and work.failure is not None:
        yield work.failure


class _Tally:
    """What one file gave, for its exit code."""

    def __init__(self) -> None:
        self._error, self._asks, self._audiograms = 0, False, 0
        self._records: list[PageRecord] = []

    def add(self, reading: PageRecord | OctavoError) -> None:
        if isinstance(reading, OctavoError):
            self._error = max(self._error, reading.exit_code)
        else:
            self._keep(reading)
            self._asks = self._asks or reading.standing == "ask"
            self._audiograms += len(reading.audiograms)

    def _keep(self, record: PageRecord) -> None:
        """Keep what tells whose a page is, without its values: of a file of thousands of pages, nothing."""
        if len(self._records) <= MOST_TOLD:
            dates = tuple(Audiogram(tested_on=audiogram.tested_on) for audiogram in record.audiograms)
            self._records.append(replace(record, audiograms=dates, remarks=()))

    def files(self) -> tuple[tuple[ReportGroup, ...], ...]:
        """Give the reports of the file, or of each file that its records are of; none of too many pages."""
        from ...interpret.reports.groups import group_pages, of_one_file

        if len(self._records) > MOST_TOLD:
            return ()
        return tuple(map(group_pages, of_one_file(self._records)))

    @property
    def exit_code(self) -> int:
        """A page that stands as ``ask`` without an audiogram may hold one: that is something to ask, not nothing."""
        if self._error:
            return self._error
        if self._asks:
            return SOMETHING_TO_ASK
        return ALL_SURE if self._audiograms else NO_AUDIOGRAM
