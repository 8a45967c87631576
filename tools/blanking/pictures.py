"""Pictures of pages as files that hold nothing but the picture: PDF, TIFF, PNG, JPEG."""

from __future__ import annotations

import io
import zlib
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from PIL import Image

PICTURE_ENDINGS = (".pdf", ".tif", ".tiff", ".png", ".jpg", ".jpeg")
SEVERAL_PAGES = (".pdf", ".tif", ".tiff")
"""Endings of files that hold several pages."""
_QUALITY = 92
_USUAL_LONG_PT = 842.0
"""The long side of A4, for pages whose resolution is not known."""
_WORTH = 2.0


@dataclass(frozen=True, slots=True)
class PagePicture:
    """A page ready for a file: ``data`` is compressed, ``size`` its width and height in pixels."""

    data: bytes
    size: tuple[int, int]
    dpi: float
    grey: bool
    jpeg: bool


def picture_of(pixels: npt.NDArray[np.uint8], dpi: float | None, ending: str) -> PagePicture:
    """Compress a page for a kind of file.

    Parameters
    ----------
    pixels : NDArray
        Shape (height, width, 3), uint8, RGB.
    dpi : float or None
        Where it is not known, the page is taken to be as long as A4.
    ending : str
        One of ``PICTURE_ENDINGS``.
    """
    height, width = pixels.shape[:2]
    known = dpi or max(height, width) * 72 / _USUAL_LONG_PT
    grey = bool((pixels == pixels[:, :, :1]).all())
    flat = np.ascontiguousarray(pixels[:, :, 0] if grey else pixels)
    picture = Image.fromarray(flat)
    if ending in (".jpg", ".jpeg"):
        return PagePicture(_jpeg(picture, known), picture.size, known, grey, True)
    if ending == ".pdf":
        lossless, lossy = zlib.compress(flat.tobytes(), 6), _jpeg(picture, known)
        jpeg = len(lossless) > _WORTH * len(lossy)
        return PagePicture(lossy if jpeg else lossless, picture.size, known, grey, jpeg)
    out = io.BytesIO()
    picture.save(out, "PNG", dpi=(known, known))
    return PagePicture(out.getvalue(), picture.size, known, grey, False)


def _jpeg(picture: Image.Image, dpi: float) -> bytes:
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=_QUALITY, subsampling=0, dpi=(round(dpi), round(dpi)))
    return out.getvalue()


def file_of(pages: Sequence[PagePicture], ending: str) -> bytes:
    """Put pages into one file without any note beside them: no EXIF, no names, no dates, no text, no thumbnails.

    Parameters
    ----------
    pages : sequence of PagePicture
        Made for the same ending; one alone for PNG and JPEG.
    ending : str
        One of ``PICTURE_ENDINGS``.
    """
    if ending == ".pdf":
        return _pdf(pages)
    if ending not in SEVERAL_PAGES:
        (page,) = pages
        return page.data
    out = io.BytesIO()
    first, *others = pages
    opened = (Image.open(io.BytesIO(page.data)) for page in others)
    with Image.open(io.BytesIO(first.data)) as start:
        start.save(
            out, "TIFF", save_all=True, append_images=opened, compression="tiff_deflate", dpi=(first.dpi, first.dpi)
        )
    return out.getvalue()


def _pdf(pages: Sequence[PagePicture]) -> bytes:
    """Write a PDF 1.4 of one picture a page, with nothing else in it (ISO 32000-1, 7.5 and 8.9)."""
    kids = " ".join(f"{3 + 3 * number} 0 R" for number in range(len(pages)))
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        f"<< /Type /Pages /Count {len(pages)} /Kids [{kids}] >>".encode("ascii"),
    ]
    for number, page in enumerate(pages):
        objects += _page_objects(page, 3 + 3 * number)
    out = bytearray(b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n")
    starts: list[int] = []
    for number, body in enumerate(objects, 1):
        starts.append(len(out))
        out += f"{number} 0 obj\n".encode("ascii") + body + b"\nendobj\n"
    table = len(out)
    out += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode("ascii")
    out += "".join(f"{start:010d} 00000 n \n" for start in starts).encode("ascii")
    out += f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{table}\n%%EOF\n".encode("ascii")
    return bytes(out)


def _page_objects(page: PagePicture, number: int) -> tuple[bytes, bytes, bytes]:
    width, height = (side * 72 / page.dpi for side in page.size)
    draw = f"q {width:.3f} 0 0 {height:.3f} 0 0 cm /P Do Q".encode("ascii")
    kind = (
        f"<< /Type /XObject /Subtype /Image /Width {page.size[0]} /Height {page.size[1]} /BitsPerComponent 8"
        f" /ColorSpace {'/DeviceGray' if page.grey else '/DeviceRGB'}"
        f" /Filter {'/DCTDecode' if page.jpeg else '/FlateDecode'} /Length {len(page.data)} >>\nstream\n"
    )
    return (
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width:.3f} {height:.3f}] /Contents {number + 1} 0 R"
        f" /Resources << /XObject << /P {number + 2} 0 R >> >> >>".encode("ascii"),
        f"<< /Length {len(draw)} >>\nstream\n".encode("ascii") + draw + b"\nendstream",
        kind.encode("ascii") + page.data + b"\nendstream",
    )
