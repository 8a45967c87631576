"""From the words on the command line to the files that are to be read."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from ...interpret.errors import MissingFile, MisuseError, OctavoError

SUFFIXES = frozenset({".pdf", ".tif", ".tiff", ".png", ".jpg", ".jpeg", ".jpe", ".webp", ".bmp", ".gif"})
"""What is taken up from a folder, by the end of its name in any case. A file named outright is read whatever its
name."""


def named_files(names: Sequence[str]) -> Iterator[Path | OctavoError]:
    """Find the files that the given names mean.

    Parameters
    ----------
    names : sequence of str
        Files and folders as the person gave them.

    Yields
    ------
    pathlib.Path or OctavoError
        Files in the order of the names, those of a folder and of the folders in it in the order of their names,
        hidden ones left out; or what is wrong with a name or folder, in its place.
    """
    for name in names:
        if name == "-":
            yield MisuseError("octavo reads files, not standard input", "Save the page to a file and name it")
        elif os.path.isdir(name):  # noqa: PTH112  # Path.is_dir raises where a name is too long
            yield from _in_folder(name)
        else:
            yield Path(name)


def _in_folder(folder: str) -> Iterator[Path | OctavoError]:
    found = False
    refused: list[OSError] = []
    for place, folders, files in os.walk(folder, onerror=refused.append):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            path = Path(place, name)
            if not name.startswith(".") and path.suffix.lower() in SUFFIXES:
                found = True
                yield path
    for fault in refused:
        found = True
        what = f"the folder cannot be opened ({fault.strerror})"
        yield MissingFile(what, "Ask for the right to read it", file=fault.filename)
    if not found:
        what = "the folder holds no PDF, TIFF, PNG, JPEG, WebP, BMP or GIF file"
        yield MissingFile(what, "Name another folder", file=folder)
