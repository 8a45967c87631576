"""Spoiled pages as files: their form, resolution and turn."""

from __future__ import annotations

from pathlib import Path

import cv2
import numpy as np
import pdfplumber
import pytest
from PIL import Image
from PIL.TiffImagePlugin import TiffImageFile

from octavo.tools.painter.spoiling import Spoiled, spoil, write_file, write_pages


def page_with_a_corner() -> np.ndarray:
    page = np.full((585, 414, 3), 255, np.uint8)
    page[40:90, 30:150] = (210, 20, 20)
    return page


@pytest.mark.parametrize(("kind", "dpi"), [("fax-fine", (204, 196)), ("fax-coarse", (204, 98))])
def test_a_fax_is_a_group_4_tiff_with_its_two_resolutions(tmp_path: Path, kind: str, dpi: tuple[int, int]):
    fax = spoil(page_with_a_corner(), kind, 1, dpi=50)
    write_file(fax, kind, tmp_path / "fax.tif")
    with Image.open(tmp_path / "fax.tif") as picture:
        assert isinstance(picture, TiffImageFile)
        assert picture.info["compression"] == "group4"
        # TIFF 6.0: XResolution 282, YResolution 283, ResolutionUnit 296 (2 is the inch), Compression 259 (4 is Group 4)
        tags = picture.tag_v2
        assert (float(tags[282]), float(tags[283]), tags[296], tags[259]) == (*dpi, 2, 4)
        assert np.array_equal(np.array(picture) * np.uint8(255), fax.pixels)


def test_a_fax_of_two_pages_is_one_tiff(tmp_path: Path):
    pages = [spoil(page_with_a_corner(), "fax-fine", seed, dpi=50) for seed in (1, 2)]
    write_pages(pages, "fax-fine", tmp_path / "fax.tif")
    with Image.open(tmp_path / "fax.tif") as picture:
        assert isinstance(picture, TiffImageFile)
        assert picture.n_frames == 2
        for number, page in enumerate(pages):
            picture.seek(number)
            assert picture.info["compression"] == "group4"
            assert np.array_equal(np.array(picture) * np.uint8(255), page.pixels)


@pytest.mark.parametrize("exif_turn", [1, 3, 6, 8])
def test_a_photo_opens_as_displayed_whatever_way_its_pixels_lie(tmp_path: Path, exif_turn: int):
    shown = Spoiled(page_with_a_corner(), None, lambda points: points)
    write_file(shown, "photo", tmp_path / "photo.jpg", exif_turn=exif_turn)
    data = np.fromfile(tmp_path / "photo.jpg", np.uint8)
    opened = cv2.imdecode(data, cv2.IMREAD_COLOR_RGB)
    assert opened is not None
    assert opened.shape == shown.pixels.shape
    assert np.abs(opened.astype(int) - shown.pixels).mean() < 2  # JPEG at quality 90
    with Image.open(tmp_path / "photo.jpg") as picture:
        assert picture.getexif()[0x0112] == exif_turn
        lies = picture.size[0] > picture.size[1]
    assert lies == (exif_turn in (6, 8))


@pytest.mark.parametrize("kind", ["scan", "copy"])
def test_a_scanned_pdf_is_one_picture_the_size_of_the_sheet(tmp_path: Path, kind: str):
    scan = Spoiled(np.full((1100, 850), 200, np.uint8), (100.0, 100.0), lambda points: points)
    write_pages([scan, scan], kind, tmp_path / "scan.pdf")
    with pdfplumber.open(tmp_path / "scan.pdf") as document:
        assert len(document.pages) == 2
        page = document.pages[1]
        assert (page.width, page.height) == (612, 792)
        assert [image["srcsize"] for image in page.images] == [(850, 1100)]
        assert not page.chars


@pytest.mark.parametrize("suffix", [".png", ".jpg", ".tif"])
def test_a_scan_keeps_its_resolution_in_every_picture_form(tmp_path: Path, suffix: str):
    scan = Spoiled(page_with_a_corner(), (240.0, 240.0), lambda points: points)
    write_file(scan, "scan", tmp_path / f"scan{suffix}")
    with Image.open(tmp_path / f"scan{suffix}") as picture:
        assert [float(v) for v in picture.info["dpi"]] == pytest.approx([240, 240], abs=0.02)  # PNG counts per metre
        assert picture.size == (414, 585)


def test_a_photo_is_not_written_as_tiff(tmp_path: Path):
    shown = Spoiled(page_with_a_corner(), None, lambda points: points)
    with pytest.raises(ValueError, match=r"kind photo is written as \.jpg, not \.tif"):
        write_file(shown, "photo", tmp_path / "photo.tif")


def test_two_pages_do_not_go_into_one_png(tmp_path: Path):
    scan = Spoiled(page_with_a_corner(), (240.0, 240.0), lambda points: points)
    with pytest.raises(ValueError, match="holds one page"):
        write_pages([scan, scan], "scan", tmp_path / "scan.png")
