"""Page records from files of JSON: read before, checked or corrected by a person, or typed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from ...interpret.errors import MissingFile, OctavoError, UnreadableFile
from ...interpret.record import PageRecord

_LINES, _ONE = ".jsonl", ".json"


def holds_records(file: Path) -> bool:
    """Tell by a file's name whether it holds records instead of pages."""
    return file.suffix.lower() in (_LINES, _ONE)


def records_in(file: Path) -> Iterator[PageRecord]:
    """Give the records of a file: one a line (``.jsonl``), or one in any layout (``.json``).

    Raises
    ------
    OctavoError
        When it cannot be opened, or holds anything else; the file is named.
    """
    from ...interpret.exports.as_json import from_json

    try:
        text = file.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        raise UnreadableFile("the file is not UTF-8 text", "Give the JSON that octavo wrote", file=str(file)) from fault
    except OSError as fault:
        what = f"the file cannot be opened ({fault.strerror})"
        raise MissingFile(what, "Check the name and the right to read it", file=str(file)) from fault
    lines = [line for line in text.split("\n") if line.strip()]
    try:
        for one in lines if file.suffix.lower() == _LINES else [text]:
            yield from_json(one)
    except OctavoError as error:
        raise error.at(file=str(file)) from error
