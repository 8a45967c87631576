"""Memory of a process that opens large pages, measured from outside."""

from __future__ import annotations

import subprocess
import sys
import zlib
from pathlib import Path

import cv2
import numpy as np
import pytest
from handmade import encoded, image, pdf
from PIL import Image

WIDTH, HEIGHT = 4960, 7016
"""A4 at 600 dpi."""

MEASURE = """
import resource, sys
from octavo.extract.intake import pages
(page,) = pages(sys.argv[1])
print(*page.pixels.shape, round(page.dpi or 0))
# Its own peak since it began: getrusage would give that of the process it was forked from, if larger.
own = next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(max(own, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss))
"""


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("large")
    pixels = np.full((HEIGHT, WIDTH, 3), 255, np.uint8)
    pixels[::100] = 90
    pixels[:, ::100] = (200, 40, 40)
    sheet = Image.fromarray(pixels)
    for form, options in {"jpeg": {"quality": 90}, "png": {"compress_level": 1}, "tiff": {}}.items():
        (folder / form).write_bytes(encoded(sheet, form, dpi=(600, 600), **options))
    entries = b"/ColorSpace/DeviceRGB/BitsPerComponent 8/Filter/FlateDecode"
    body = image(WIDTH, HEIGHT, zlib.compress(pixels.tobytes(), 1), entries)
    (folder / "pdf").write_bytes(pdf(b"595 0 0 842 0 0 cm /I Do", resources=b"/XObject<</I 6 0 R>>", more=[body]))
    deep = np.repeat((pixels[:, :, :1].astype(np.uint16) << 4), 3, axis=2)
    del pixels
    (folder / "deep").write_bytes(cv2.imencode(".png", deep, [cv2.IMWRITE_PNG_COMPRESSION, 1])[1].tobytes())
    return folder


@pytest.mark.parametrize("form", ["jpeg", "png", "tiff", "pdf", "deep"])
def test_a_page_of_a4_at_600_dpi_stays_within_its_memory(form: str, files: Path) -> None:
    done = subprocess.run([sys.executable, "-c", MEASURE, files / form], capture_output=True, text=True, check=True)
    shape, kib = done.stdout.splitlines()
    height, width, _, dpi = (int(value) for value in shape.split())
    assert abs(height - HEIGHT // 2) <= 2
    assert abs(width - WIDTH // 2) <= 2
    assert dpi == (0 if form == "deep" else 300)
    # Colours of 16 bits are six bytes a pixel, and the only decoder for them holds the page twice.
    most = 650_000 if form == "deep" else 600_000
    assert 100_000 < int(kib) < most  # the libraries alone take 100 MB: less was not measured


IN_A_ROW = """
import sys
from octavo.extract.choices import Choices
from octavo.tools.reading import read_pages
for name in sys.argv[1:]:
    list(read_pages(name, Choices(report=False)))
print(next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM")))
"""


def test_pages_at_600_dpi_read_in_a_row_stay_within_the_memory_of_one(tmp_path: Path) -> None:
    # a scanner's noise makes large files; Letter is a little too small to be halved while it is decoded
    noise = np.random.default_rng(3).integers(-6, 7, (6600, 5100, 3), np.int8)
    pixels = np.full((6600, 5100, 3), 240, np.uint8)
    pixels[1000:5000:200, 1000:4000] = pixels[1000:5000, 1000:4000:200] = 90
    pixels += noise.view(np.uint8)
    page = tmp_path / "page.png"
    page.write_bytes(cv2.imencode(".png", pixels, [cv2.IMWRITE_PNG_COMPRESSION, 1])[1].tobytes())
    assert page.stat().st_size > 40_000_000
    done = subprocess.run(
        [sys.executable, "-c", IN_A_ROW, page, page, page], capture_output=True, text=True, check=True
    )
    # the networks that see marks, which this page has no use for, take the rest of 600 MB
    assert 200_000 < int(done.stdout) < 530_000
