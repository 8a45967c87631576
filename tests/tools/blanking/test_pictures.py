"""Pictures of pages as files: what other programs find in them is the picture and nothing else."""

from __future__ import annotations

import io
import re

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from PIL import Image
from PIL.TiffImagePlugin import TiffImageFile

from octavo.tools.blanking.pictures import file_of, picture_of

CHANCE = np.random.default_rng(3)
FLAT = np.full((300, 200, 3), 255, np.uint8)
FLAT[50:90, 20:150] = (200, 30, 40)
GREY = np.full((200, 300, 3), 255, np.uint8)
GREY[20:60] = 0
NOISY = CHANCE.integers(0, 255, (200, 160, 3)).astype(np.uint8)
PAGES = (FLAT, GREY, NOISY)


def whole(ending: str, *pages: np.ndarray, dpi: float | None = 144.0) -> bytes:
    return file_of([picture_of(page, dpi, ending) for page in pages], ending)


def test_a_pdf_shows_every_page_at_its_size_and_holds_nothing_else() -> None:
    data = whole(".pdf", *PAGES)
    document = pypdfium2.PdfDocument(data)
    assert document.get_metadata_dict(skip_empty=True) == {}
    for page, wanted in zip(document, PAGES, strict=True):
        assert page.get_size() == pytest.approx((wanted.shape[1] * 72 / 144, wanted.shape[0] * 72 / 144), abs=0.01)
        shown = np.asarray(page.render(scale=2).to_pil().convert("RGB"), int)
        # JPEG of quality 92 on noise.
        assert np.abs(shown - wanted).mean() < (12 if wanted is NOISY else 1)
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        assert pdf.metadata == {}
        assert [(len(page.chars), len(page.images), len(page.annots)) for page in pdf.pages] == [(0, 1, 0)] * 3
    for key in (b"/Info", b"/Metadata", b"/ID", b"/Thumb", b"/Names", b"/EmbeddedFiles", b"/PieceInfo", b"/Font"):
        assert key not in re.sub(rb"stream\n.*?endstream", b"", data, flags=re.DOTALL)


def test_a_tiff_holds_every_page_and_only_the_tags_of_its_pixels() -> None:
    with Image.open(io.BytesIO(whole(".tif", *PAGES))) as picture:
        assert getattr(picture, "n_frames", 1) == 3
        for number, wanted in enumerate(PAGES):
            picture.seek(number)
            assert (np.asarray(picture.convert("RGB")) == wanted).all()
            # TIFF 6.0, baseline: sizes, bits, compression, strips, resolution, planes; nothing that is text.
            assert isinstance(picture, TiffImageFile)
            tags = set(picture.tag_v2)
            assert tags <= {
                254,
                256,
                257,
                258,
                259,
                262,
                273,
                277,
                278,
                279,
                282,
                283,
                284,
                296,
                297,
                317,
                339,
            }


def test_a_png_has_no_chunk_but_those_of_the_picture() -> None:
    data = whole(".png", FLAT)
    chunks, at = [], 8
    while at < len(data):
        size = int.from_bytes(data[at : at + 4])
        chunks.append(data[at + 4 : at + 8])
        at += size + 12
    assert set(chunks) == {b"IHDR", b"pHYs", b"IDAT", b"IEND"}
    assert (np.asarray(Image.open(io.BytesIO(data)).convert("RGB")) == FLAT).all()


def test_a_jpeg_has_no_exif_and_no_comment() -> None:
    data = whole(".jpg", FLAT)
    segments, at = [], 2
    while data[at + 1] != 0xDA:  # start of scan, ITU-T T.81 table B.1
        segments.append(data[at + 1])
        at += 2 + int.from_bytes(data[at + 2 : at + 4])
    assert set(segments) <= {0xE0, 0xDB, 0xC0, 0xC4}
    with Image.open(io.BytesIO(data)) as picture:
        assert not picture.getexif()
        assert picture.info["dpi"] == (144, 144)


def test_a_page_of_unknown_resolution_is_as_long_as_a4() -> None:
    assert pypdfium2.PdfDocument(whole(".pdf", FLAT, dpi=None))[0].get_height() == pytest.approx(842, abs=0.1)
