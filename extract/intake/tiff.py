"""The chain of directories in a TIFF: how many pages there are, without decoding any (TIFF 6.0, section 2)."""

from __future__ import annotations

import struct

from ...interpret.errors import OversizeFile, UnreadableFile
from ..limits import TIFF_PAGES


def count_pages(data: bytes) -> int:
    """Count the pages of a TIFF or BigTIFF.

    A directory that points to one seen before, or outside the file, ends the chain.

    Raises
    ------
    UnreadableFile
        There is not one directory.
    OversizeFile
        There are more pages than the limit.
    """
    count = len(_directories(data))
    if count == 0:
        raise UnreadableFile("the TIFF is cut short: it holds no page", "Scan or copy it again")
    if count > TIFF_PAGES:
        raise OversizeFile(f"the file has more than {TIFF_PAGES:,} pages", "Split it into smaller ones")
    return count


def single_page(data: bytes, number: int) -> bytes:
    """Give the file with its header pointing at one page, counted from 1, for a decoder that knows only the first."""
    at = struct.pack(f"{_order(data)}{'Q' if _big(data) else 'I'}", _directories(data)[number - 1])
    start = 8 if _big(data) else 4
    return data[:start] + at + data[start + len(at) :]


def _order(data: bytes) -> str:
    return "<" if data[:2] == b"II" else ">"


def _big(data: bytes) -> bool:
    return data[2:4] in (b"+\0", b"\0+")


def _directories(data: bytes) -> list[int]:
    order, big = _order(data), _big(data)
    entries, entry_bytes, link = (f"{order}Q", 20, f"{order}Q") if big else (f"{order}H", 12, f"{order}I")
    found: list[int] = []
    seen: set[int] = set()
    try:
        (at,) = struct.unpack_from(link, data, 8 if big else 4)
        while at and at not in seen and len(found) <= TIFF_PAGES:
            (count,) = struct.unpack_from(entries, data, at)
            if at + struct.calcsize(entries) + count * entry_bytes > len(data):
                break  # cut within the directory: the page is not there
            found.append(at)
            seen.add(at)
            (at,) = struct.unpack_from(link, data, at + struct.calcsize(entries) + count * entry_bytes)
    except struct.error:
        pass  # the chain leads out of the file: what was found before is good
    return found
