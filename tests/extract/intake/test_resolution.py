"""Resolution tags: believed where they can be true, and used to make pixels square."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from handmade import encoded, only_page
from PIL import Image

from octavo.extract.intake.resolution import credible, fax_stretch


def sheet(width: int, height: int) -> Image.Image:
    pixels = np.full((height, width), 255, np.uint8)
    pixels[height // 2] = 0
    return Image.fromarray(pixels)


@pytest.mark.parametrize("dpi", [0, 1, 72, 96, 5, 50_000])
def test_a_resolution_that_programs_invent_is_not_believed(dpi: float) -> None:
    assert credible(dpi, 2339) is None


def test_a_resolution_is_believed_where_the_sheet_has_a_sane_size() -> None:
    assert credible(200, 2339) == 200
    assert credible(2400, 2339) is None  # a sheet of one inch
    assert credible(150, 30_000) is None  # a sheet of 200 inches


@pytest.mark.parametrize("form", ["PNG", "JPEG", "TIFF", "BMP"])
def test_a_stated_resolution_comes_with_the_page(form: str, tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(827, 1169), form, dpi=(100, 100)))
    assert page.dpi == pytest.approx(100, abs=0.1)
    assert "resolution-unknown" not in page.notes


@pytest.mark.parametrize("dpi", [None, (0, 0), (1, 1), (72, 72), (96, 96)])
def test_a_page_without_a_credible_resolution_says_so(dpi: tuple[int, int] | None, tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(1240, 1754), "TIFF", **({} if dpi is None else {"dpi": dpi})))
    assert page.dpi is None
    assert "resolution-unknown" in page.notes


@pytest.mark.parametrize("form", ["TIFF", "PNG", "JPEG"])
def test_pixels_of_a_coarse_fax_are_made_square(form: str, tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(1728, 1145), form, dpi=(204, 98)))
    height, width = page.pixels.shape[:2]
    assert width == 1728
    # The header may round its numbers (JPEG to whole ones, PNG to dots a metre); half a percent is 6 of 1145 lines.
    assert height == pytest.approx(1145 * 204 / 98, rel=0.005)
    assert page.dpi == pytest.approx(204, abs=0.5)
    assert "fax-stretched" in page.notes


def test_a_line_stays_in_the_middle_when_pixels_are_made_square(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(1728, 1145), "TIFF", dpi=(204, 98)))
    ink = 255 - page.pixels[:, 100, 0].astype(float)
    middle = (ink * np.arange(len(ink))).sum() / ink.sum()
    # Row 572 has its centre at (572 + 0.5) of 1145 rows.
    assert middle == pytest.approx(572.5 / 1145 * len(ink) - 0.5, abs=0.3)


def test_pixels_denser_down_the_page_are_made_square_in_width(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(800, 2200), "TIFF", dpi=(100, 200)))
    assert page.pixels.shape[:2] == (2200, 1600)
    assert page.dpi == pytest.approx(200, abs=0.1)


def test_a_turned_fax_is_stretched_along_the_right_side(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    page = only_page(tmp_path, encoded(sheet(1000, 600), "JPEG", dpi=(200, 100), exif=exif))
    assert page.pixels.shape[:2] == (1000, 1200)


def test_a_bare_ratio_without_a_unit_is_used(tmp_path: Path) -> None:
    data = encoded(sheet(600, 400), "TIFF", tiffinfo={282: 2.0, 283: 1.0, 296: 1})
    assert only_page(tmp_path, data).pixels.shape[:2] == (800, 600)


def test_a_fax_without_tags_is_known_by_its_size(tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(1728, 1100), "PNG"))
    assert page.pixels.shape[0] == round(1100 * 204 / 98)
    assert "fax-stretched" in page.notes
    assert page.dpi is None


# ITU-T T.4, table 1: 1728, 2048 and 2432 elements a line; A4 of 3.85 lines a mm has 1143 lines.
@pytest.mark.parametrize("size", [(1728, 1143), (2048, 1250)])
def test_the_sizes_of_a_coarse_fax_are_known(size: tuple[int, int]) -> None:
    assert fax_stretch(*size) == 204 / 98


@pytest.mark.parametrize("size", [(1728, 2292), (1700, 1100), (1728, 700), (2200, 1700)])
def test_other_sizes_are_not_taken_for_a_fax(size: tuple[int, int]) -> None:
    assert fax_stretch(*size) == 1


@pytest.mark.parametrize("dpi", [(204, 196), (200, 200), (300, 299)])
def test_pixels_that_are_nearly_square_are_left_or_hardly_moved(dpi: tuple[int, int], tmp_path: Path) -> None:
    page = only_page(tmp_path, encoded(sheet(850, 1100), "TIFF", dpi=dpi))
    expected = 1100 * dpi[0] / dpi[1] if dpi == (204, 196) else 1100
    assert page.pixels.shape[0] == round(expected)


def test_a_ratio_that_no_machine_has_is_ignored(tmp_path: Path) -> None:
    assert only_page(tmp_path, encoded(sheet(850, 1100), "TIFF", dpi=(300, 1))).pixels.shape[:2] == (1100, 850)
