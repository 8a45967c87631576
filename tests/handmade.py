"""PDFs and pictures written byte by byte, so that each test says all that its file holds."""

from __future__ import annotations

import io
import zlib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image

from octavo.extract.intake import PageFailure, pages
from octavo.extract.page import Page

A4 = b"/MediaBox[0 0 595 842]"
Pixels = npt.NDArray[np.uint8]


def pdf(
    content: bytes = b"",
    *,
    page: bytes = A4,
    resources: bytes = b"",
    catalog: bytes = b"",
    tree: bytes = b"/Kids[3 0 R]/Count 1",
    stream: bytes = b"",
    more: Sequence[bytes] = (),
) -> bytes:
    """Write a PDF of one page: object 3 is the page, 4 its content, 5 Helvetica, 6 and on are ``more``."""
    objects = (
        b"<</Type/Catalog/Pages 2 0 R " + catalog + b">>",
        b"<</Type/Pages " + tree + b">>",
        b"<</Type/Page/Parent 2 0 R " + page + b"/Contents 4 0 R/Resources<</Font<</F 5 0 R>>" + resources + b">>>>",
        b"<<" + stream + b"/Length %d>>stream\n" % len(content) + content + b"\nendstream",
        b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
        *more,
    )
    out = b"%PDF-1.7\n"
    offsets = []
    for number, body in enumerate(objects, 1):
        offsets.append(len(out))
        out += b"%d 0 obj" % number + body + b"\nendobj\n"
    table = b"".join(b"%010d 00000 n \n" % offset for offset in offsets)
    size = len(objects) + 1
    out += b"xref\n0 %d\n0000000000 65535 f \n" % size + table
    return out + b"trailer<</Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n" % (size, out.index(b"xref\n0 "))


def image(width: int, height: int, data: bytes, entries: bytes) -> bytes:
    """Write an image object for ``pdf(more=...)``."""
    head = b"<</Type/XObject/Subtype/Image/Width %d/Height %d" % (width, height)
    return head + entries + b"/Length %d>>stream\n" % len(data) + data + b"\nendstream"


def scanned(picture: Pixels, *, matrix: bytes = b"595 0 0 842 0 0", **parts: bytes) -> bytes:
    """Write a PDF that shows an RGB picture over the whole A4 page."""
    height, width = picture.shape[:2]
    entries = b"/ColorSpace/DeviceRGB/BitsPerComponent 8/Filter/FlateDecode"
    body = image(width, height, zlib.compress(picture.tobytes()), entries)
    return pdf(b"q " + matrix + b" cm /I Do Q", resources=b"/XObject<</I 6 0 R>>", more=[body], **parts)


def chart_like(width: int = 400, height: int = 560) -> Pixels:
    """Draw a sheet that tells its corners, axes and colours apart: grid, a red and a blue block, a black bar."""
    sheet = np.full((height, width, 3), 255, np.uint8)
    sheet[100:460:40, 60:340] = 120
    sheet[100:460, 60:340:40] = 120
    sheet[40:70, 30:150] = (210, 30, 30)
    sheet[500:540, 250:370] = (30, 40, 200)
    sheet[130:150, 70:330] = 0
    return sheet


def encoded(picture: Image.Image, form: str, **options: Any) -> bytes:
    """Encode a picture with Pillow."""
    out = io.BytesIO()
    picture.save(out, form, **options)
    return out.getvalue()


def opened(folder: Path, data: bytes, name: str = "page") -> list[Page | PageFailure]:
    """Write a file and open all of its pages."""
    path = folder / name
    path.write_bytes(data)
    return list(pages(path))


def only_page(folder: Path, data: bytes, name: str = "page") -> Page:
    """Write a file, open it, and give its one page."""
    (page,) = opened(folder, data, name)
    assert isinstance(page, Page)
    return page
