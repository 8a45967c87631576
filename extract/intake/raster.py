"""Pictures to pages: PNG, JPEG, WebP, BMP, GIF, and TIFF of any number of pages."""

from __future__ import annotations

import io
import struct
import warnings

import cv2
import numpy as np
from PIL import ExifTags, Image, UnidentifiedImageError

from ...interpret.errors import OversizeFile, UnreadableFile
from ...interpret.record import Source, TakenBy
from ..limits import PICTURE_PIXELS, PICTURE_SIDE_LEAST, PICTURE_SIDE_MOST
from ..page import Page, Pixels
from ..shades import locked, of_plain, plain_of
from .kind import kind_of
from .png import png_is_whole
from .resolution import credible, densities, fax_stretch
from .samples import reduced, rgb_of, rgb_of_deep, whole_reduction
from .stored import Stored
from .tiff import count_pages, single_page

_CAMERA_TAGS = (ExifTags.Base.FNumber, ExifTags.Base.ExposureTime, ExifTags.Base.FocalLength)
_TOO_LARGE = "Scan it at 300 dpi"
_AGAIN = "Scan or copy it again"
_BROKEN = (OSError, SyntaxError, ValueError, TypeError, KeyError, EOFError, IndexError, struct.error, OverflowError,
           ZeroDivisionError, AttributeError, NotImplementedError, RuntimeError)  # fmt: skip
"""All that Pillow raises on damaged files, found by cutting and by mutating them."""


class RasterFile:
    """A picture file, its pages decoded one at a time.

    Parameters
    ----------
    stored : Stored
        The bytes of a PNG, JPEG, WebP, BMP, GIF or TIFF file.

    Raises
    ------
    UnreadableFile
        The file is damaged, or of a form within its kind that is not supported.
    OversizeFile
        The header states more pixels or pages than the limits allow.
    """

    def __init__(self, stored: Stored) -> None:
        self._stored = stored
        self._kind = kind_of(stored.data)
        self.pages = count_pages(stored.data) if self._kind == "tiff" else 1
        self._picture = _header(stored.data)

    def close(self) -> None:
        """Let go of the picture."""
        self._picture.close()

    def page(self, number: int) -> Page:
        """Decode one page, counted from 1; see ``intake.pages`` for the errors."""
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # damaged notes beside a picture are no reason to speak
            return self._page(number)

    def _page(self, number: int) -> Page:
        self._seek(number)
        picture = self._picture
        _check_size(picture.size)
        notes = self._other_pictures()
        dpi_x, dpi_y, ratio = densities(picture)
        if _orientation(picture) >= 5:
            dpi_x, dpi_y, ratio = dpi_y, dpi_x, 1 / ratio
        taken_by: TakenBy = "photo" if _from_camera(picture) else "scan"
        full = max(picture.size)
        pixels = self._decode(number)
        scale = max(pixels.shape[:2]) / full
        if ratio == 1.0 and fax_stretch(pixels.shape[1] / scale, pixels.shape[0] / scale) != 1.0:
            ratio = fax_stretch(pixels.shape[1] / scale, pixels.shape[0] / scale)
        if ratio != 1.0:
            pixels, notes = _square(pixels, ratio), (*notes, "fax-stretched")
        dpi = credible(max(dpi_x, dpi_y) if ratio != 1.0 else dpi_x, full)
        if dpi is None:
            notes = (*notes, "resolution-unknown")
        else:
            dpi = dpi * scale
        if self.pages == 1:
            self._picture.close()  # else it is held, four bytes a pixel, for as long as the page is read
        plain = plain_of(locked(pixels))
        pixels = locked(np.ascontiguousarray(pixels)) if plain is None else of_plain(plain)
        source = Source(self._stored.name, self._stored.sha256, number, self.pages, taken_by)
        return Page(source, pixels, dpi, notes=notes)

    def _seek(self, number: int) -> None:
        try:
            if self._kind == "tiff":
                self._picture.seek(number - 1)
        except _BROKEN as error:
            raise UnreadableFile("this page's entry in the file is damaged", _AGAIN) from error

    def _decode(self, number: int) -> Pixels:
        picture = self._picture
        try:
            if _deep_colour(self._stored.data, picture):
                data = single_page(self._stored.data, number) if self._kind == "tiff" else self._stored.data
                pixels = rgb_of_deep(data)
                if pixels is not None:
                    return _turned(pixels, _orientation(picture))
            if self._kind == "jpeg" and (whole := whole_reduction(max(picture.size))) > 1:
                picture.draft("RGB", (picture.width // whole, picture.height // whole))
            turn = 1 if self._kind == "tiff" else _orientation(picture)  # Pillow turns a TIFF while it loads it
            picture.load()
            if self._kind == "png" and not png_is_whole(self._stored.data, picture):
                raise UnreadableFile("the picture is cut short or damaged", _AGAIN)
            return _turned(rgb_of(picture), turn)
        except MemoryError as error:
            raise OversizeFile("the picture does not fit into memory", _TOO_LARGE) from error
        except _BROKEN as error:
            raise UnreadableFile(f"the picture {_how_broken(error)}", _AGAIN) from error

    def _other_pictures(self) -> tuple[str, ...]:
        if self._kind == "tiff":
            return ()
        if self._kind == "jpeg":
            # The second half of a stereo or burst shot: listed by the file, or simply written behind the first.
            another = getattr(self._picture, "n_frames", 1) > 1 or b"\xff\xd9\xff\xd8\xff" in self._stored.data
            return ("second-picture-unread",) if another else ()
        return ("later-frames-unread",) if getattr(self._picture, "is_animated", False) else ()


def _header(data: bytes) -> Image.Image:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of sizes below our own limit, and of odd metadata
            return Image.open(io.BytesIO(data))
    except Image.DecompressionBombError as error:
        raise OversizeFile(f"the picture has more than {PICTURE_PIXELS:,} pixels", _TOO_LARGE) from error
    except UnidentifiedImageError as error:
        raise UnreadableFile("the picture is cut short, or of a form that is not supported", _AGAIN) from error
    except _BROKEN as error:
        raise UnreadableFile(f"the picture {_how_broken(error)}", _AGAIN) from error


def _how_broken(error: Exception) -> str:
    said = str(error).lower()
    if "too large" in said:
        return "carries more text or colour data than a page does"
    cut = ("truncated", "broken", "eof", "not enough", "decoder error", "unpack", "cut", "buffer", "bytes")
    return "is cut short or damaged" if any(word in said for word in cut) else "is damaged, or of an unsupported form"


def _check_size(size: tuple[int, int]) -> None:
    width, height = size
    stated = f"the picture is {width:,} × {height:,} pixels"
    if width * height > PICTURE_PIXELS or max(size) > PICTURE_SIDE_MOST:
        raise OversizeFile(f"{stated}, more than a page can have", _TOO_LARGE)
    if min(size) < PICTURE_SIDE_LEAST:
        raise UnreadableFile(f"{stated}, too small to hold a chart", "Scan the page at 300 dpi")


def _deep_colour(data: bytes, picture: Image.Image) -> bool:
    if picture.format == "PNG":
        return data[24] == 16 and data[25] in (2, 4, 6)  # the header's bit depth and colour type
    bits = getattr(picture, "tag_v2", {}).get(258, (8,))
    return len(bits) >= 3 and max(bits) > 8


def _orientation(picture: Image.Image) -> int:
    try:
        value = picture.getexif().get(ExifTags.Base.Orientation, 1)
    except _BROKEN:
        return 1  # a damaged note beside the picture is no reason to refuse the picture
    return value if value in range(1, 9) else 1


def _from_camera(picture: Image.Image) -> bool:
    try:
        exif = picture.getexif()
        shot = exif.get_ifd(ExifTags.IFD.Exif)
    except _BROKEN:
        return False
    return any(tag in exif or tag in shot for tag in _CAMERA_TAGS)


def _turned(pixels: Pixels, orientation: int) -> Pixels:
    """Turn as the EXIF orientation says (CIPA DC-008, tag 0x0112)."""
    if orientation == 1:
        return pixels  # the same one: what is known of it stays known
    if orientation >= 5:
        pixels = pixels.transpose(1, 0, 2)
    mirror_x, mirror_y = {2: (1, 0), 3: (1, 1), 4: (0, 1), 6: (1, 0), 7: (1, 1), 8: (0, 1)}.get(orientation, (0, 0))
    return pixels[:: -1 if mirror_y else 1, :: -1 if mirror_x else 1]


def _square(pixels: Pixels, ratio: float) -> Pixels:
    """Stretch the coarser direction; ``ratio`` is by how much the height must grow against the width."""
    height, width = pixels.shape[:2]
    size = (width, round(height * ratio)) if ratio > 1 else (round(width / ratio), height)
    plain = plain_of(locked(pixels))
    part = pixels if plain is None else plain
    square = reduced(np.asarray(cv2.resize(part, size, interpolation=cv2.INTER_LINEAR), dtype=np.uint8))
    return square if plain is None else of_plain(square)
