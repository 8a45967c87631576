"""A file's bytes, read once and whole; whatever is no plain file is never opened."""

from __future__ import annotations

import errno
import hashlib
import os
import stat
import time
from dataclasses import dataclass
from pathlib import Path

from ...interpret.errors import MissingFile, MisuseError, OversizeFile, UnreadableFile
from ..limits import FILE_BYTES, STILL_SECONDS


@dataclass(frozen=True, slots=True)
class Stored:
    """The bytes of a file as they were at one moment, the name for records and messages, and their SHA-256."""

    name: str
    data: bytes
    sha256: str


def shown(path: str | bytes | os.PathLike[str]) -> str:
    """Give a path as text that any terminal and any JSON takes: one line, no broken characters."""
    text = os.fsdecode(path).encode("utf-8", "backslashreplace").decode("utf-8")
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def read_stored(path: str | os.PathLike[str]) -> Stored:
    """Read a whole file, and wait for one that still grows.

    Parameters
    ----------
    path : str or os.PathLike
        A plain file, or a link to one.

    Returns
    -------
    Stored
        Its bytes; ``name`` is the last part of the path.

    Raises
    ------
    MisuseError
        The path is ``-``.
    MissingFile
        There is no such file, or it may not be read.
    UnreadableFile
        It is a folder, a pipe or a device, or it did not stop growing.
    OversizeFile
        It has more bytes than the limit.
    """
    name = os.fsdecode(path)
    if name == "-":
        raise MisuseError("a page cannot be read from the standard input", "Give the name of a file", file="-")
    if not name:
        raise MissingFile("there is no such file", "Check the name", file="''")
    try:
        _refuse_what_is_no_file(Path(name).stat().st_mode, path)
        data = _read_still(path)
    except ValueError as error:  # a zero byte in the name
        raise MissingFile("there is no such file", "Check the name", file=shown(path)) from error
    except PermissionError as error:
        raise MissingFile("you may not read this file", "Ask for the right to read it", file=shown(path)) from error
    except OSError as error:
        what = {errno.ELOOP: "the link points to itself", errno.ENAMETOOLONG: "the name is too long"}
        said = what.get(error.errno or 0, "there is no such file")
        raise MissingFile(said, "Check the name", file=shown(path)) from error
    return Stored(shown(Path(name).name), data, hashlib.sha256(data).hexdigest())


def _refuse_what_is_no_file(mode: int, path: str | os.PathLike[str]) -> None:
    if stat.S_ISREG(mode):
        return
    what = "a folder" if stat.S_ISDIR(mode) else "a pipe, a device or a socket"
    raise UnreadableFile(f"this is {what}, not a file", "Give the name of a file", file=shown(path))


def _read_still(path: str | os.PathLike[str]) -> bytes:
    deadline = time.monotonic() + STILL_SECONDS
    while True:
        with Path(path).open("rb") as file:
            before = os.fstat(file.fileno())
            if before.st_size > FILE_BYTES:
                raise OversizeFile(
                    f"the file has more than {FILE_BYTES // 1_000_000:,} million bytes",
                    "Split it into smaller ones",
                    file=shown(path),
                )
            data = file.read(FILE_BYTES)
            after = os.fstat(file.fileno())
        if (before.st_size, before.st_mtime_ns) == (after.st_size, after.st_mtime_ns) and len(data) == after.st_size:
            return data
        if time.monotonic() > deadline:
            raise UnreadableFile("the file is still being written", "Try again when it is complete", file=shown(path))
        time.sleep(0.2)
