"""What reaches the person: results on standard output, one line an error on standard error, a bar on a terminal."""

from __future__ import annotations

import os
import sys
import time
from typing import TextIO

from ...interpret.errors import CannotWrite, OctavoError

_BAR_WIDTH = 24
_FEWEST_PAGES = 4
"""Below this a bar would be gone before it is seen."""


def show(text: str) -> None:
    """Write a result to standard output at once, so that a reader at the other end of a pipe need not wait.

    Parameters
    ----------
    text : str
        The text, without its last line end.

    Raises
    ------
    CannotWrite
        When the disk is full or the output is gone; ``BrokenPipeError`` passes, it is no fault.
    """
    try:
        sys.stdout.write(text + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as fault:
        abandon_output()
        raise CannotWrite(
            f"the output cannot be written ({fault.strerror})", "Free some space or choose another place"
        ) from fault


def abandon_output() -> None:
    """Send the rest of standard output nowhere: Python flushes it once more at its end and must not fail again."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, sys.stdout.fileno())
    except (OSError, ValueError):
        pass  # a stand-in without a file beneath it has nothing to flush
    finally:
        os.close(nowhere)


def complain(error: OctavoError) -> None:
    """Write an error to standard error as one line, whatever characters a file's name holds."""
    say(str(error))


def say(text: str) -> None:
    """Write one line to standard error; what would move the cursor or break the line is shown as an escape."""
    line = "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text)
    sys.stderr.write(f"octavo: {line}\n")
    sys.stderr.flush()


class Progress:
    """How far a long run is: one line on standard error, rewritten after every page; nothing unless it is a terminal.

    Parameters
    ----------
    files : int
        How many files the run has.
    stream : TextIO, optional
        Where the line goes, standard error by default.
    """

    def __init__(self, files: int, stream: TextIO | None = None) -> None:
        self._stream = stream if stream is not None else sys.stderr
        self._files, self._shown, self._began = files, False, time.monotonic()

    def page(self, file: int, page: int, pages: int) -> None:
        """Show that ``page`` of ``pages`` (from 1) of the ``file``-th file (from 0) has been read."""
        if not self._stream.isatty() or self._files * pages < _FEWEST_PAGES:
            return
        done = (file + page / pages) / self._files
        left_min, left_s = divmod(round((time.monotonic() - self._began) / done * (1 - done)), 60)
        bar = "#" * round(done * _BAR_WIDTH)
        place = f"file {file + 1} of {self._files}, page {page} of {pages}"
        self._stream.write(f"\r\x1b[K[{bar:<{_BAR_WIDTH}}] {place}, {left_min} min {left_s} s left")
        self._stream.flush()
        self._shown = True

    def clear(self) -> None:
        """Take the line away, before something else is written to the terminal."""
        if self._shown:
            self._stream.write("\r\x1b[K")
            self._stream.flush()
            self._shown = False
