"""Spoiled pages as files, in the form that goes with their way: PDF, PNG, JPEG or TIFF."""

from __future__ import annotations

import io
from collections.abc import Sequence
from os import PathLike
from pathlib import Path
from zlib import crc32

import numpy as np
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from .sheet import Spoiled
from .warp import Pixels

SUFFIXES: dict[str, tuple[str, ...]] = {
    "clean": (".png", ".pdf", ".jpg", ".tif"),
    "scan": (".pdf", ".png", ".jpg", ".tif"),
    "scan-300": (".pdf", ".png", ".jpg", ".tif"),
    "copy": (".pdf", ".png", ".jpg", ".tif"),
    "fax-fine": (".tif",),
    "fax-coarse": (".tif",),
    "photo": (".jpg",),
}
"""File endings that go with a kind, the most usual one first."""

_PUT_BACK = {1: 0, 3: 2, 6: 3, 8: 1}
"""EXIF orientation (Exif 2.3, tag 0x0112) to the clockwise quarter turns from displayed to stored pixels."""


def write_file(
    spoiled: Spoiled, kind: str, path: str | PathLike[str], *, exif_turn: int | None = None, quality: int = 90
) -> None:
    """Write one page.

    Parameters
    ----------
    spoiled : Spoiled
        The page.
    kind : str
        The way it went (``SPOILINGS``).
    path : str or os.PathLike
        Where to; the ending chooses among the kind's forms (``SUFFIXES``).
    exif_turn : int, optional
        For a photo the EXIF orientation 1, 3, 6 or 8 in which the pixels are stored; by default one that follows from
        the pixels.
    quality : int
        Of JPEG, alone or in a PDF, 1 to 100.

    Raises
    ------
    ValueError
        When the ending does not go with the kind.
    """
    write_pages([spoiled], kind, path, exif_turn=exif_turn, quality=quality)


def write_pages(
    pages: Sequence[Spoiled],
    kind: str,
    path: str | PathLike[str],
    *,
    exif_turn: int | None = None,
    quality: int = 90,
) -> None:
    """Write several pages into one PDF or TIFF; see `write_file`."""
    path = Path(path)
    suffix = path.suffix.lower()
    if suffix not in SUFFIXES[kind]:
        raise ValueError(f"a page of kind {kind} is written as {' or '.join(SUFFIXES[kind])}, not {suffix}")
    if len(pages) > 1 and suffix not in (".pdf", ".tif"):
        raise ValueError(f"{suffix} holds one page")
    if suffix == ".pdf":
        path.write_bytes(_pdf(pages, quality))
    elif suffix == ".tif":
        path.write_bytes(_tiff(pages, one_bit=kind.startswith("fax")))
    elif kind == "photo":
        path.write_bytes(_photo_jpeg(pages[0].pixels, exif_turn, quality))
    else:
        path.write_bytes(_picture(pages[0], suffix, quality))


def _dpi_of(page: Spoiled) -> tuple[float, float]:
    return page.dpi or (72.0, 72.0)


def _is_one_bit(pixels: Pixels) -> bool:
    return pixels.ndim == 2 and not np.any((pixels != 0) & (pixels != 255))


def _image(pixels: Pixels) -> Image.Image:
    picture = Image.fromarray(pixels)
    return picture.convert("1", dither=Image.Dither.NONE) if _is_one_bit(pixels) else picture


def _picture(page: Spoiled, suffix: str, quality: int) -> bytes:
    out = io.BytesIO()
    picture = _image(page.pixels)
    if suffix == ".png":
        picture.save(out, "PNG", dpi=_dpi_of(page))
    else:
        (picture.convert("L") if picture.mode == "1" else picture).save(out, "JPEG", quality=quality, dpi=_dpi_of(page))
    return out.getvalue()


def _tiff(pages: Sequence[Spoiled], *, one_bit: bool) -> bytes:
    """Write each page in Group 4 where it is black and white, else in LZW, with its resolution in dots an inch."""
    out = io.BytesIO()
    pictures = [_image(page.pixels) for page in pages]
    if one_bit and any(picture.mode != "1" for picture in pictures):
        raise ValueError("a fax page holds black and white alone")
    with_tags = [
        (picture, {"dpi": _dpi_of(page), "compression": "group4" if picture.mode == "1" else "tiff_lzw"})
        for picture, page in zip(pictures, pages, strict=True)
    ]
    for picture, tags in with_tags:
        picture.encoderinfo = tags
    first, tags = with_tags[0]
    first.save(out, "TIFF", save_all=True, append_images=[picture for picture, _ in with_tags[1:]], **tags)
    return out.getvalue()


def _pdf(pages: Sequence[Spoiled], quality: int) -> bytes:
    """Write a PDF of one picture a page, the size of the sheet that was scanned."""
    out = io.BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    for page in pages:
        across, down = _dpi_of(page)
        height, width = page.pixels.shape[:2]
        size = (width * 72 / across, height * 72 / down)
        canvas.setPageSize(size)
        if _is_one_bit(page.pixels):
            reader = ImageReader(_image(page.pixels))
        else:
            reader = ImageReader(io.BytesIO(_picture(page, ".jpg", quality)))
        canvas.drawImage(reader, 0, 0, *size)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _photo_jpeg(pixels: Pixels, exif_turn: int | None, quality: int) -> bytes:
    """Write a JPEG whose pixels lie turned, and the EXIF orientation that turns them right."""
    if exif_turn is None:
        exif_turn = (1, 6, 6, 8, 3, 6)[crc32(pixels[::97].tobytes()) % 6]
    stored = np.rot90(pixels, -_PUT_BACK[exif_turn])
    exif = Image.Exif()
    exif[0x0112] = exif_turn
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(stored)).save(out, "JPEG", quality=quality, exif=exif.tobytes())
    return out.getvalue()
