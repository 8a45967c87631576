"""Scans inside PDFs: taken at their own resolution, and the same sheet whatever its encoding."""

from __future__ import annotations

import io
import zlib
from pathlib import Path

import numpy as np
import pytest
from handmade import chart_like, encoded, image, only_page, pdf, scanned
from PIL import Image
from PIL.TiffImagePlugin import TiffImageFile


def test_an_invisible_layer_of_recognised_text_is_not_trusted(tmp_path: Path) -> None:
    sheet = np.asarray(Image.fromarray(chart_like()).resize((827, 1170)))
    body = image(
        827, 1170, zlib.compress(sheet.tobytes()), b"/ColorSpace/DeviceRGB/BitsPerComponent 8/Filter/FlateDecode"
    )
    content = b"q 595 0 0 842 0 0 cm /I Do Q BT 3 Tr /F 20 Tf 90 300 Td (500) Tj ET"
    page = only_page(tmp_path, pdf(content, resources=b"/XObject<</I 6 0 R>>", more=[body]))
    assert page.words is None
    assert "text-layer-distrusted" in page.notes


@pytest.mark.parametrize("dpi", [100, 150, 200, 300])
def test_a_scan_is_taken_at_its_own_resolution(dpi: int, tmp_path: Path) -> None:
    height, width = round(842 / 72 * dpi), round(595 / 72 * dpi)
    sheet = np.asarray(Image.fromarray(chart_like()).resize((width, height), Image.Resampling.NEAREST))
    page = only_page(tmp_path, scanned(sheet))
    assert page.source.taken_by == "scan"
    assert abs(page.pixels.shape[0] - height) <= 2
    assert page.dpi == pytest.approx(dpi, rel=0.005)
    # All but the rims of blocks, which fall between pixels, are the picture's own samples.
    same = page.pixels[: height - 3, : width - 3] == sheet[: height - 3, : width - 3]
    assert same.all(axis=2).mean() > 0.9


def test_a_grey_scan_comes_as_one_channel_and_a_coloured_one_whole(tmp_path: Path) -> None:
    """Three equal samples of each pixel were carried over from the process that renders, and looked through there."""
    grey = np.repeat(np.asarray(Image.fromarray(chart_like()).convert("L").resize((1000, 1400)))[..., None], 3, axis=2)
    page = only_page(tmp_path, scanned(grey))
    assert np.shares_memory(page.pixels[..., 0], page.pixels[..., 2])
    coloured = grey.copy()
    coloured[900:910, 500:510] = (200, 40, 40)
    other = only_page(tmp_path, scanned(coloured))
    assert not np.shares_memory(other.pixels[..., 0], other.pixels[..., 2])
    same = (other.pixels == page.pixels).all(axis=2)
    assert 0 < (~same).sum() < 2000


def test_a_scan_finer_than_300_dpi_is_taken_at_300(tmp_path: Path) -> None:
    page = only_page(tmp_path, scanned(np.full((4677, 3306, 3), 255, np.uint8)))
    assert page.dpi == pytest.approx(300, rel=0.001)
    assert page.pixels.shape[0] == pytest.approx(842 / 72 * 300, abs=1)


def test_a_photo_on_a_sheet_of_a_point_a_pixel_keeps_its_pixels_and_claims_no_resolution(tmp_path: Path) -> None:
    sheet = np.asarray(Image.fromarray(chart_like()).resize((1500, 2100)))
    page = only_page(tmp_path, scanned(sheet, matrix=b"1500 0 0 2100 0 0", page=b"/MediaBox[0 0 1500 2100]"))
    assert page.pixels.shape[:2] == (2100, 1500)
    assert page.dpi is None


SHEET = np.asarray(Image.fromarray(chart_like()).resize((1000, 1400), Image.Resampling.NEAREST))
BITS = Image.fromarray(SHEET[:, :, 1] > 100)


def fax_data() -> bytes:
    """Take the group 4 data out of a TIFF of one strip."""
    data = encoded(BITS, "TIFF", compression="group4", tiffinfo={278: 1400, 262: 0})
    with TiffImageFile(io.BytesIO(data)) as stored:
        (offset,), (count,) = stored.tag_v2[273], stored.tag_v2[279]
    return data[offset : offset + count]


RGB = b"/ColorSpace/DeviceRGB/BitsPerComponent 8"
GREY = b"/ColorSpace/DeviceGray/BitsPerComponent 8"
FAX = b"/BitsPerComponent 1/Filter/CCITTFaxDecode/DecodeParms<</K -1/Columns 1000/Rows 1400/BlackIs1 false>>"
WHOLE = b"595 0 0 842 0 0 cm /I6 Do"
STRIPS = b" ".join(b"q 595 0 0 210.5 0 %.1f cm /I%d Do Q" % (631.5 - 210.5 * n, 6 + n) for n in range(4))


def deflated(samples: np.ndarray, entries: bytes) -> bytes:
    height, width = samples.shape[:2]
    data = zlib.compress(np.ascontiguousarray(samples).tobytes())
    return image(width, height, data, entries + b"/Filter/FlateDecode")


def indexed() -> bytes:
    few = Image.fromarray(SHEET).quantize(16)
    palette = bytes(few.getpalette() or ()).hex().encode()
    space = b"/ColorSpace[/Indexed/DeviceRGB %d<%s>]/BitsPerComponent 8" % (len(palette) // 6 - 1, palette)
    return deflated(np.asarray(few), space)


def pictures(kind: str) -> tuple[bytes, list[bytes]]:
    """Give the content of a page that shows the sheet, and the image objects it uses."""
    picture = Image.fromarray(SHEET)
    if kind == "strips":
        return STRIPS, [deflated(SHEET[at : at + 350], RGB) for at in range(0, 1400, 350)]
    if kind == "upside down":
        return b"-595 0 0 -842 595 842 cm /I6 Do", [deflated(SHEET[::-1, ::-1], RGB)]
    if kind == "lying":  # the matrix turns the picture a quarter against the clock
        return b"0 842 -595 0 595 0 cm /I6 Do", [deflated(np.rot90(SHEET, -1), RGB)]
    inks = np.concatenate((255 - SHEET, np.zeros_like(SHEET[:, :, :1])), axis=2)
    return WHOLE, [
        {
            "flate": lambda: deflated(SHEET, RGB),
            "flate grey": lambda: deflated(SHEET[:, :, 1], GREY),
            "jpeg": lambda: image(1000, 1400, encoded(picture, "JPEG", quality=95), RGB + b"/Filter/DCTDecode"),
            "jpeg 2000": lambda: image(1000, 1400, encoded(picture, "JPEG2000"), b"/Filter/JPXDecode"),
            "cmyk": lambda: deflated(inks, b"/ColorSpace/DeviceCMYK/BitsPerComponent 8"),
            "indexed": indexed,
            "inverted decode": lambda: deflated(255 - SHEET, RGB + b"/Decode[1 0 1 0 1 0]"),
            "fax": lambda: image(1000, 1400, fax_data(), b"/ColorSpace/DeviceGray" + FAX),
            "stencil": lambda: image(1000, 1400, fax_data(), b"/ImageMask true" + FAX),
        }[kind]()
    ]


@pytest.mark.parametrize("kind", [
    "flate", "flate grey", "jpeg", "jpeg 2000", "cmyk", "indexed", "inverted decode", "fax", "stencil", "strips",
    "upside down", "lying",
])  # fmt: skip
def test_scans_of_every_encoding_show_the_same_sheet(kind: str, tmp_path: Path) -> None:
    content, objects = pictures(kind)
    names = b"".join(b"/I%d %d 0 R" % (number, number) for number in range(6, 6 + len(objects)))
    page = only_page(tmp_path, pdf(content, resources=b"/XObject<<" + names + b">>", more=objects))
    assert (page.source.taken_by, page.words, page.paths) == ("scan", None, ())
    shown = np.asarray(Image.fromarray(page.pixels).resize((1000, 1400), Image.Resampling.BOX)).astype(int)
    wanted = SHEET.astype(int)
    if kind in ("fax", "stencil", "flate grey"):
        shown, wanted = shown[:, :, 1], wanted[:, :, 1]
    if kind in ("fax", "stencil"):
        wanted = np.where(wanted > 100, 255, 0)
    # Grid lines fall between pixels of the page by a fraction; a tenth of the sheet is lines and rims.
    assert np.abs(shown - wanted).mean() < 6
