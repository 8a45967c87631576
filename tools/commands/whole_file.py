"""Files that are written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from ...interpret.errors import CannotWrite


def write_whole(contents: Mapping[Path, bytes]) -> None:
    """Write files so that each is there whole or, after any fault, as it was before.

    Parameters
    ----------
    contents : mapping of pathlib.Path to bytes
        What is to stand in each file. All are written beside their places first, and take their places at the end.

    Raises
    ------
    CannotWrite
        When one cannot be written; it names the file.
    """
    ready: dict[Path, Path] = {}
    try:
        for path, content in contents.items():
            # A link stays a link: the file that it points at is written.
            place = Path(os.path.realpath(path))
            ready[path] = place.with_name(f".{place.name}.{os.getpid()}.part")
            _write(ready[path], content, path)
        for path, part in ready.items():
            _move(part, path)
    finally:
        for part in ready.values():
            part.unlink(missing_ok=True)


def check_place(path: Path) -> None:
    """Complain before a long run about a file that could not be written at its end (CannotWrite)."""
    folder = Path(os.path.realpath(path)).parent
    if not folder.is_dir():
        raise CannotWrite("the folder for this file does not exist", "Make the folder first", file=str(path))
    if path.is_dir():
        raise CannotWrite("a folder has this name", "Choose another name", file=str(path))
    if not os.access(folder, os.W_OK | os.X_OK):
        raise CannotWrite("the folder does not take new files", "Choose another folder", file=str(path))


def _write(part: Path, content: bytes, path: Path) -> None:
    try:
        with part.open("wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
    except OSError as fault:
        raise _cannot(fault, path) from fault


def _move(part: Path, path: Path) -> None:
    try:
        part.replace(os.path.realpath(path))
    except OSError as fault:
        raise _cannot(fault, path) from fault


def _cannot(fault: OSError, path: Path) -> CannotWrite:
    what = f"the file cannot be written ({fault.strerror})"
    return CannotWrite(what, "Free some space or choose another place", file=str(path))
