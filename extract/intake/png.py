"""Whether a PNG holds all the rows that it states: its decoder leaves missing ones black, and says nothing."""

from __future__ import annotations

import struct
import zlib

from PIL import Image

_CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
"""Samples a pixel by colour type (W3C PNG, table 11.1)."""


def png_is_whole(data: bytes, picture: Image.Image) -> bool:
    """Tell whether the picture's data reach its last row.

    Parameters
    ----------
    data : bytes
        The file.
    picture : PIL.Image.Image
        The same picture, decoded. Where its last row has any ink on black, nothing needs to be unpacked again.

    Returns
    -------
    bool
        False when rows are missing. An interlaced picture is always unpacked: its gaps are everywhere.
    """
    width, height, depth, colour, _, _, interlaced = struct.unpack_from(">IIBBBBB", data, 16)
    last = picture.crop((0, height - 1, width, height)).tobytes()
    if not interlaced and any(last):
        return True
    bits = depth * _CHANNELS.get(colour, 1)
    least = height * ((width * bits + 7) // 8 + 1) if not interlaced else width * height * bits // 8
    unpacker = zlib.decompressobj()
    held = 0
    try:
        for body in _image_chunks(data):
            while body and held < least:
                held += len(unpacker.decompress(body, 1 << 20))
                body = unpacker.unconsumed_tail
    except zlib.error:
        return False
    return held >= least


def _image_chunks(data: bytes) -> list[bytes]:
    chunks, at = [], 8
    while at + 8 <= len(data):
        length, kind = struct.unpack_from(">I4s", data, at)
        if kind == b"IDAT":
            chunks.append(data[at + 8 : at + 8 + length])
        at += length + 12
    return chunks
