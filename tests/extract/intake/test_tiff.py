"""TIFF of many pages: each is given, one at a time, and a bad one takes no other with it."""

from __future__ import annotations

import resource
import struct
import time
from itertools import islice
from pathlib import Path

import numpy as np
import pytest
from handmade import encoded, opened
from PIL import Image

from octavo.extract.intake import PageFailure, pages
from octavo.extract.page import Page
from octavo.interpret.errors import UnreadableFile


def marked(page: int, width: int = 64, height: int = 64) -> Image.Image:
    """Draw a page that tells its number by its grey."""
    return Image.fromarray(np.full((height, width), page % 251, np.uint8))


def chained(count: int, side: int = 40, *, loop: bool = False) -> bytes:
    """Write a TIFF of ``count`` pages directory by directory (TIFF 6.0, section 2), each with its number as grey."""
    out = bytearray(b"II*\0\0\0\0\0")
    link = 4
    for page in range(count):
        strip = len(out)
        out += bytes([page % 251]) * (side * side)
        struct.pack_into("<I", out, link, len(out))
        tags = (
            (256, side),
            (257, side),
            (258, 8),
            (259, 1),
            (262, 1),
            (273, strip),
            (277, 1),
            (278, side),
            (279, side * side),
        )
        out += struct.pack("<H", len(tags))
        for tag, value in tags:
            out += struct.pack("<HHII", tag, 4, 1, value)
        link = len(out)
        out += struct.pack("<I", 0)
    if loop:
        struct.pack_into("<I", out, link, 8 + side * side)
    return bytes(out)


def test_every_page_comes_in_order_and_counted(tmp_path: Path) -> None:
    data = encoded(marked(0), "TIFF", save_all=True, append_images=[marked(page) for page in range(1, 7)])
    read = [page for page in opened(tmp_path, data) if isinstance(page, Page)]
    assert [int(page.pixels[0, 0, 0]) for page in read] == list(range(7))
    assert [(page.source.page, page.source.pages) for page in read] == [(page, 7) for page in range(1, 8)]


def test_pages_of_different_kinds_share_a_file(tmp_path: Path) -> None:
    fax = Image.fromarray(np.eye(50, dtype=bool))
    data = encoded(marked(9), "TIFF", save_all=True, append_images=[fax, Image.new("RGB", (70, 50), (200, 0, 0))])
    grey, bits, colour = (page.pixels for page in opened(tmp_path, data) if isinstance(page, Page))
    assert grey[0, 0].tolist() == [9, 9, 9]
    assert (bits[:, :, 0] == np.eye(50, dtype=np.uint8) * 255).all()
    assert colour[0, 0].tolist() == [200, 0, 0]


def test_each_page_of_a_fax_has_its_own_stretch(tmp_path: Path) -> None:
    fine, coarse = encoded(marked(1), "TIFF", dpi=(204, 196)), encoded(marked(1), "TIFF", dpi=(204, 98))
    (one,), (two,) = opened(tmp_path, fine), opened(tmp_path, coarse)
    assert isinstance(one, Page)
    assert isinstance(two, Page)
    assert (one.pixels.shape[0], two.pixels.shape[0]) == (67, 133)


def test_ten_thousand_pages_are_given_one_by_one_in_flat_memory(tmp_path: Path) -> None:
    path = tmp_path / "many.tif"
    path.write_bytes(chained(10_000))
    giver = pages(path)
    for page in islice(giver, 500):
        assert isinstance(page, Page)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    numbers = [int(page.pixels[0, 0, 0]) for page in islice(giver, 2000) if isinstance(page, Page)]
    assert numbers == [page % 251 for page in range(500, 2500)]
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 2_000 * 2  # KiB: under 2 a page
    giver.close()


def test_the_first_of_ten_thousand_pages_comes_at_once(tmp_path: Path) -> None:
    path = tmp_path / "many.tif"
    path.write_bytes(chained(10_000))
    start = time.monotonic()
    first = next(pages(path))
    assert isinstance(first, Page)
    assert first.source.pages == 10_000
    assert time.monotonic() - start < 2


def test_directories_that_point_in_a_circle_end(tmp_path: Path) -> None:
    assert len(opened(tmp_path, chained(3, loop=True))) == 3


def test_a_chain_that_leads_out_of_the_file_keeps_what_was_found(tmp_path: Path) -> None:
    data = bytearray(chained(3))
    struct.pack_into("<I", data, len(data) - 4, 1 << 30)
    assert [type(page) for page in opened(tmp_path, bytes(data))] == [Page] * 3


def test_one_bad_page_does_not_take_the_others(tmp_path: Path) -> None:
    data = bytearray(chained(3))
    second = struct.unpack_from("<I", data, 8 + 1600 + 2 + 9 * 12)[0]
    struct.pack_into("<H", data, second + 2 + 3 * 12, 259)
    struct.pack_into("<I", data, second + 2 + 3 * 12 + 8, 60_000)  # a compression that does not exist
    one, two, three = opened(tmp_path, bytes(data), "fax.tif")
    assert isinstance(one, Page)
    assert isinstance(two, PageFailure)
    assert isinstance(three, Page)
    assert (two.page, two.pages) == (2, 3)
    said = "this page's entry in the file is damaged. Scan or copy it again."
    assert str(two.error) == f"{tmp_path}/fax.tif, page 2: {said}"
    assert int(three.pixels[0, 0, 0]) == 2


def test_a_page_without_directory_is_cut_short(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"the TIFF is cut short: it holds no page\. Scan or copy it again\."):
        opened(tmp_path, b"II*\0\x08\0\0\0")
