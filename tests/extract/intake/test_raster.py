"""Every kind of picture comes out as a person sees it; expected values stand in the test or come by construction."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest
import tifffile
from handmade import chart_like, encoded, only_page, opened
from PIL import Image
from PIL.TiffImagePlugin import TiffImageFile

from octavo.extract.page import Page
from octavo.interpret.errors import UnreadableFile

LOSSY = 12
"""Largest mean difference, in levels of 255, that JPEG at quality 95 leaves on the test sheet."""


def show(pixels: np.ndarray) -> Image.Image:
    return Image.fromarray(pixels)


# CIPA DC-008-2019 (Exif 2.32), tag 0x0112: which side of the shown picture the stored row 0 and column 0 are.
SIDES = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def stored_as(sheet: np.ndarray, orientation: int) -> np.ndarray:
    row_side, column_side = SIDES[orientation]
    if row_side in ("left", "right"):
        sheet = sheet.transpose(1, 0, 2)
    if row_side in ("bottom", "right"):
        sheet = sheet[::-1]
    if column_side in ("bottom", "right"):
        sheet = sheet[:, ::-1]
    return np.ascontiguousarray(sheet)


@pytest.mark.parametrize("form", ["PNG", "JPEG", "WEBP", "TIFF"])
@pytest.mark.parametrize("orientation", SIDES)
def test_a_turned_picture_is_shown_upright(form: str, orientation: int, tmp_path: Path) -> None:
    sheet = chart_like()
    exif = Image.Exif()
    exif[0x0112] = orientation
    options = {"JPEG": {"quality": 95, "subsampling": 0}, "WEBP": {"lossless": True}}.get(form, {})
    data = encoded(show(stored_as(sheet, orientation)), form, exif=exif, **options)
    page = only_page(tmp_path, data)
    assert page.pixels.shape == sheet.shape
    apart = np.abs(page.pixels.astype(int) - sheet).mean()
    assert apart < LOSSY if form == "JPEG" else apart == 0


@pytest.mark.parametrize("value", [0, 9, 255])
def test_an_orientation_that_does_not_exist_counts_as_upright(value: int, tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = value
    page = only_page(tmp_path, encoded(show(chart_like()), "PNG", exif=exif))
    np.testing.assert_array_equal(page.pixels, chart_like())


def test_the_pixels_cannot_be_changed(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(show(chart_like()), "PNG"))
    with pytest.raises(ValueError, match="read-only"):
        page.pixels[0, 0] = 0


@pytest.mark.parametrize("form", ["PNG", "WEBP", "TIFF"])
def test_black_ink_on_transparent_lies_on_white(form: str, tmp_path: Path) -> None:
    drawn = np.zeros((80, 60, 4), np.uint8)
    drawn[20:30, 10:50, 3] = 255
    drawn[50:60, 10:50, 3] = 128
    options = {"lossless": True, "exact": True} if form == "WEBP" else {}
    pixels = only_page(tmp_path, encoded(show(drawn), form, **options)).pixels
    assert (pixels[:20] == 255).all()
    assert (pixels[20:30, 10:50] == 0).all()
    assert np.abs(pixels[50:60, 10:50].astype(int) - 127).max() <= 1


@pytest.mark.parametrize("form", ["PNG", "GIF"])
def test_a_transparent_palette_entry_lies_on_white(form: str, tmp_path: Path) -> None:
    indexed = Image.fromarray(np.repeat([[0, 1, 2, 3]], 40, axis=0).repeat(10, axis=1).astype(np.uint8), "P")
    indexed.putpalette([0, 0, 0, 255, 0, 0, 0, 0, 255, 9, 9, 9])
    pixels = only_page(tmp_path, encoded(indexed, form, transparency=0)).pixels
    assert pixels[0, [5, 15, 25, 35]].tolist() == [[255, 255, 255], [255, 0, 0], [0, 0, 255], [9, 9, 9]]


def test_grey_with_alpha_lies_on_white(tmp_path: Path) -> None:
    drawn = np.zeros((40, 40, 2), np.uint8)
    drawn[10:20, :, 1] = 255
    pixels = only_page(tmp_path, encoded(Image.fromarray(drawn, "LA"), "PNG")).pixels
    assert (pixels[10:20] == 0).all()
    assert (pixels[:10] == 255).all()


@pytest.mark.parametrize("form", ["PNG", "TIFF"])
def test_twelve_bits_in_sixteen_are_not_black(form: str, tmp_path: Path) -> None:
    levels = np.full((60, 60), 4095, np.uint16)
    levels[20:30] = 0
    levels[40:50] = 2048
    pixels = only_page(tmp_path, encoded(Image.fromarray(levels), form)).pixels
    assert [int(pixels[row, 5, 0]) for row in (5, 25, 45)] == [255, 0, 128]


def test_one_hot_pixel_does_not_darken_a_twelve_bit_page(tmp_path: Path) -> None:
    levels = np.full((100, 100), 4000, np.uint16)
    levels[20:30] = 100
    levels[0, 0] = 65535
    pixels = only_page(tmp_path, encoded(Image.fromarray(levels), "PNG")).pixels
    assert pixels[50, 50, 0] == 255


def test_twelve_bits_of_colour_in_sixteen_are_not_black(tmp_path: Path) -> None:
    levels = np.full((60, 60, 3), 4095, np.uint16)
    levels[20:30] = (3600, 300, 300)
    done, data = cv2.imencode(".png", levels[:, :, ::-1])
    assert done
    red, green, blue = only_page(tmp_path, data.tobytes()).pixels[25, 5].tolist()
    assert abs(red - 222) <= 1  # (3600 - 300) / (4095 - 300) of 255
    assert (green, blue) == (0, 0)


@pytest.mark.parametrize("photometric", ["minisblack", "miniswhite"])
def test_sixteen_bit_grey_of_both_polarities_is_ink_on_white(photometric: str, tmp_path: Path) -> None:
    ink = np.zeros((60, 60), np.uint16)
    ink[20:30] = 60000
    levels = ink if photometric == "miniswhite" else 60000 - ink
    path = tmp_path / "made.tif"
    tifffile.imwrite(path, levels, photometric=photometric)
    pixels = only_page(tmp_path, path.read_bytes()).pixels
    assert int(pixels[25, 5, 0]) == 0
    assert int(pixels[5, 5, 0]) == 255


def test_sixteen_bit_colour_tiff_keeps_its_colours(tmp_path: Path) -> None:
    levels = np.full((60, 60, 3), 65535, np.uint16)
    levels[20:30] = (50000, 0, 0)
    path = tmp_path / "made.tif"
    tifffile.imwrite(path, np.stack([levels, levels[::-1]]), photometric="rgb")
    first, second = (page for page in opened(tmp_path, path.read_bytes()) if isinstance(page, Page))
    assert first.pixels[25, 5].tolist() == [195, 0, 0]
    assert second.pixels[34, 5].tolist() == [195, 0, 0]


@pytest.mark.parametrize("form", ["JPEG", "TIFF"])
def test_inks_of_a_press_become_colours(form: str, tmp_path: Path) -> None:
    inks = np.zeros((64, 64, 4), np.uint8)
    inks[:16] = (0, 255, 255, 0)  # magenta and yellow make red
    inks[16:32] = (0, 0, 0, 255)
    pixels = only_page(tmp_path, encoded(Image.fromarray(inks, "CMYK"), form)).pixels.astype(int)
    assert np.abs(pixels[8, 8] - (255, 0, 0)).max() < LOSSY
    assert pixels[24, 8].max() < LOSSY
    assert pixels[56, 8].min() > 255 - LOSSY


@pytest.mark.parametrize("compression", ["raw", "group3", "group4", "packbits", "tiff_lzw", "tiff_adobe_deflate"])
@pytest.mark.parametrize("photometric", [0, 1])
def test_one_bit_pages_of_both_polarities_are_ink_on_white(compression: str, photometric: int, tmp_path: Path) -> None:
    sheet = chart_like()[:, :, 0] > 100
    data = encoded(Image.fromarray(sheet), "TIFF", compression=compression, tiffinfo={262: photometric})
    with TiffImageFile(io.BytesIO(data)) as stored:
        assert stored.tag_v2[262] == photometric
    pixels = only_page(tmp_path, data).pixels
    np.testing.assert_array_equal(pixels[:, :, 1] > 127, sheet)


@pytest.mark.parametrize("byteorder", ["<", ">"])
@pytest.mark.parametrize("layout", [{"tile": (64, 64)}, {"planarconfig": "separate"}, {"rowsperstrip": 7}])
def test_tiles_planes_and_strips_read_alike(layout: dict[str, Any], byteorder: Any, tmp_path: Path) -> None:
    sheet = chart_like()
    stored = sheet.transpose(2, 0, 1) if "planarconfig" in layout else sheet
    path = tmp_path / "made.tif"
    tifffile.imwrite(path, np.ascontiguousarray(stored), photometric="rgb", byteorder=byteorder, **layout)
    np.testing.assert_array_equal(only_page(tmp_path, path.read_bytes()).pixels, sheet)


def test_a_big_tiff_is_read_and_one_of_the_other_byte_order_refused_by_name(tmp_path: Path) -> None:
    path = tmp_path / "made.tif"
    tifffile.imwrite(path, chart_like(), photometric="rgb", bigtiff=True)
    np.testing.assert_array_equal(only_page(tmp_path, path.read_bytes()).pixels, chart_like())
    tifffile.imwrite(path, chart_like(), photometric="rgb", bigtiff=True, byteorder=">")
    with pytest.raises(UnreadableFile, match="of a form that is not supported"):
        opened(tmp_path, path.read_bytes())


def test_a_tiff_of_floats_is_stretched(tmp_path: Path) -> None:
    levels = np.full((60, 60), 1.0, np.float32)
    levels[20:30] = 0.0
    levels[0, 0] = np.nan
    path = tmp_path / "made.tif"
    tifffile.imwrite(path, levels)
    pixels = only_page(tmp_path, path.read_bytes()).pixels
    assert int(pixels[25, 5, 0]) == 0
    assert int(pixels[40, 5, 0]) == 255


@pytest.mark.parametrize("form", ["BMP", "GIF", "PNG"])
def test_a_palette_gives_its_colours(form: str, tmp_path: Path) -> None:
    sheet = chart_like()
    indexed = show(sheet).quantize(16, method=Image.Quantize.MAXCOVERAGE)
    pixels = only_page(tmp_path, encoded(indexed, form)).pixels
    np.testing.assert_array_equal(pixels, np.asarray(indexed.convert("RGB")))


def test_a_negative_is_left_as_it_is(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(show(255 - chart_like()), "PNG"))
    np.testing.assert_array_equal(page.pixels, 255 - chart_like())


@pytest.mark.parametrize(("form", "options"), [("GIF", {}), ("WEBP", {"lossless": True}), ("PNG", {})])
def test_an_animation_gives_its_first_frame_and_says_so(form: str, options: dict[str, Any], tmp_path: Path) -> None:
    black, white = (Image.new("RGB", (50, 50), colour) for colour in ("black", "white"))
    page = only_page(tmp_path, encoded(black, form, save_all=True, append_images=[white], **options))
    assert page.pixels.max() == 0
    assert "later-frames-unread" in page.notes


def test_a_second_picture_in_one_file_is_said_to_be_unread(tmp_path: Path) -> None:
    first, second = (encoded(Image.new("RGB", (50, 50), colour), "JPEG") for colour in ("black", "white"))
    for data in (
        first + second,
        encoded(Image.new("RGB", (50, 50)), "MPO", save_all=True, append_images=[show(chart_like())]),
    ):
        page = only_page(tmp_path, data)
        assert page.pixels.max() < LOSSY
        assert "second-picture-unread" in page.notes
    assert "second-picture-unread" not in only_page(tmp_path, first + b"\0" * 500).notes


def test_a_camera_is_told_from_a_scanner(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x829D] = 1.8  # the f-number, in the Exif part
    assert only_page(tmp_path, encoded(show(chart_like()), "JPEG", exif=exif)).source.taken_by == "photo"
    assert only_page(tmp_path, encoded(show(chart_like()), "JPEG")).source.taken_by == "scan"


@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_more_than_300_dpi_is_reduced_by_area(form: str, tmp_path: Path) -> None:
    sheet = np.full((7016, 200, 3), 255, np.uint8)
    sheet[1000:1002] = 0  # two rows of 600 dpi make one of 300
    page = only_page(tmp_path, encoded(show(sheet), form, dpi=(600, 600)))
    assert page.pixels.shape == (3508, 100, 3)
    assert page.dpi == pytest.approx(300, abs=0.1)
    assert int(page.pixels[500, 50, 0]) < 3 * LOSSY
    assert int(page.pixels[510, 50, 0]) > 255 - LOSSY


def test_little_more_than_the_limit_loses_little(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(Image.new("L", (400, 4000), 255), "PNG"))
    assert page.pixels.shape == (3600, 360, 3)


def test_the_record_names_the_file_by_its_last_part_and_its_bytes(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(show(chart_like()), "PNG"), "a b.png")
    assert page.source.name == "a b.png"
    assert len(page.source.sha256) == 64
    assert (page.source.page, page.source.pages) == (1, 1)


def test_a_damaged_note_beside_the_picture_does_not_matter(tmp_path: Path) -> None:
    data = encoded(show(chart_like()), "PNG")
    note = b"Exif\0\0II*\0\xff\xff\xff\xff"
    chunk = struct.pack(">I", len(note)) + b"eXIf" + note + struct.pack(">I", zlib.crc32(b"eXIf" + note))
    page = only_page(tmp_path, data[:33] + chunk + data[33:])
    np.testing.assert_array_equal(page.pixels, chart_like())
