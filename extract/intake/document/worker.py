"""A process of its own for a PDF, so that no page can take the run's time or memory.

The process is a fork: it has the modules loaded already and starts in a few milliseconds. Where there is no fork
(Windows) the reading runs in this process, without a bound.
"""

from __future__ import annotations

import contextlib
import functools
import gc
import logging
import math
import mmap
import os
import signal
import warnings
from dataclasses import replace
from multiprocessing import Pipe
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

import numpy as np

from ....interpret.errors import OctavoError, PageGivenUp
from ...limits import PAGE_BYTES, PAGE_SECONDS, PAGE_SIDE_PX
from ...page import Pixels
from ...shades import channel_of, of_plain
from .reader import Parts, Reader

_NO_PIXELS: Pixels = np.empty((0, 0, 3), np.uint8)
_ONE_LETTER = b"""%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>endobj
4 0 obj<</Length 28>>stream
BT /F 8 Tf 1 1 Td (a) Tj ET
endstream endobj
5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>endobj
trailer<</Root 1 0 R>>
"""
_ROOM = 3 * PAGE_SIDE_PX * PAGE_SIDE_PX


class BoundedReader:
    """``Reader``, with every answer bounded in time and memory.

    Parameters
    ----------
    data : bytes
        The whole file.

    Raises
    ------
    OctavoError
        As ``Reader``; PageGivenUp where opening the file goes past a limit.
    """

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._child: _Child | None = None
        self._here: Reader | None = None
        if not hasattr(os, "fork"):
            self._here = Reader(data)
            self.pages = self._here.pages
            return
        _warm_renderer()
        self._room = mmap.mmap(-1, _ROOM)
        try:
            self.pages = int(self._ask(0))
        except BaseException:
            self.close()
            raise

    def page(self, number: int) -> Parts:
        """Read one page, counted from 1; a page past its limits ends its process and raises PageGivenUp."""
        if self._here is not None:
            return self._here.page(number)
        parts, shape = self._ask(number)
        pixels = np.frombuffer(self._room, np.uint8, math.prod(shape)).reshape(shape)
        # The room is written again for the next page; that of a single page is the page's own for good.
        pixels = pixels if self.pages == 1 else pixels.copy()
        return replace(parts, pixels=of_plain(pixels) if pixels.ndim == 2 else pixels)

    def close(self) -> None:
        """End the process."""
        if self._child is not None:
            self._child.end()
            self._child = None

    def _ask(self, number: int) -> Any:
        if self._child is None or self._child.leaves:
            self.close()
            self._child = _Child(self._data, self._room)
        try:
            answer = self._child.ask(number)
        except PageGivenUp:
            self.close()
            raise
        if isinstance(answer, OctavoError):
            if isinstance(answer, PageGivenUp):
                self.close()  # what ran out of memory once is not trusted with the next page
            raise answer
        self._child.leaves = number > 0 and number == self.pages
        return answer


class _Child:
    """The other process: it is asked for page numbers, 0 for their count, and answers until the pipe closes."""

    def __init__(self, data: bytes, room: mmap.mmap) -> None:
        self.leaves = False
        """It has given the last page, and goes by itself: to be waited for, not to be asked."""
        self._pipe, theirs = Pipe()
        with warnings.catch_warnings():
            # Python 3.12 warns of a fork beside other threads. The child takes no lock that they could hold: it
            # runs the parser and the renderer alone, and leaves by _exit.
            warnings.simplefilter("ignore", DeprecationWarning)
            self._pid = os.fork()
        if self._pid == 0:
            self._pipe.close()
            _serve(theirs, data, room)
        theirs.close()

    def ask(self, number: int) -> Any:
        try:
            self._pipe.send(number)
            if self._pipe.poll(PAGE_SECONDS):
                return self._pipe.recv()
        except (EOFError, ConnectionError) as error:
            raise PageGivenUp("the page needs more memory than a page should, or breaks the reader",
                              "Print it to a new PDF") from error  # fmt: skip
        raise PageGivenUp(f"the page takes longer than {PAGE_SECONDS:.0f} seconds", "Print it to a new PDF")

    def end(self) -> None:
        self._pipe.close()
        with contextlib.suppress(ProcessLookupError):
            os.kill(self._pid, signal.SIGKILL)
        with contextlib.suppress(ChildProcessError):
            os.waitpid(self._pid, 0)


@functools.cache
def _warm_renderer() -> None:
    """Have the renderer look for the system's fonts once, before the fork, and not once a file: it takes 50 ms."""
    with contextlib.suppress(OctavoError):
        Reader(_ONE_LETTER).page(1)


def _serve(pipe: Connection, data: bytes, room: mmap.mmap) -> None:
    """Answer until the pipe closes, then leave without running anything that belongs to the parent."""
    code = 1
    try:
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the parent's to handle, and it ends this process
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        logging.disable(logging.CRITICAL)
        gc.freeze()  # else a collection walks, and so copies, all that was inherited
        _bound_memory()
        reader: Reader | None = None
        while True:
            number = pipe.recv()
            signal.alarm(int(2 * PAGE_SECONDS))  # should the parent be killed while this page never ends
            try:
                reader = reader or Reader(data, room)
                answer: Any = reader.pages if number == 0 else _without_pixels(reader.page(number), room)
            except OctavoError as error:
                answer = error
            except (MemoryError, RecursionError):
                answer = PageGivenUp("the file needs more memory than a page should", "Print it to a new PDF")
            signal.alarm(0)
            pipe.send(answer)
            if reader is not None and number == reader.pages:
                break  # to be gone while the parent is still busy with the page
        code = 0
    except EOFError:
        code = 0
    finally:
        os._exit(code)


def _without_pixels(parts: Parts, room: mmap.mmap) -> tuple[Parts, tuple[int, ...]]:
    """Give what fits through the pipe: all but the pixels, and their shape as they lie in the room.

    Of a page without colours one channel alone is left there: the other process then touches a third of the memory.
    """
    pixels = channel_of(parts.pixels)
    if pixels is None:
        pixels = parts.pixels
    else:
        np.frombuffer(room, np.uint8, pixels.size)[:] = pixels.reshape(-1)
    return replace(parts, pixels=_NO_PIXELS), pixels.shape


def _bound_memory() -> None:
    import resource  # not on Windows

    with contextlib.suppress(OSError, ValueError), Path("/proc/self/statm").open("rb") as sizes:
        held = int(sizes.read().split()[0]) * resource.getpagesize()
        most = resource.getrlimit(resource.RLIMIT_AS)[1]
        resource.setrlimit(resource.RLIMIT_AS, (held + PAGE_BYTES, most))
