"""Pictures made to hurt: refused from the header, or read; never decoded beyond the limits, never a traceback."""

from __future__ import annotations

import re
import resource
import struct
import time
import zlib
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from handmade import chart_like, encoded, only_page, opened, pdf
from PIL import Image

from octavo.extract.intake import PageFailure, pages
from octavo.extract.page import Page
from octavo.interpret.errors import OctavoError, OversizeFile, UnreadableFile

FORMS = {"PNG": {}, "JPEG": {}, "TIFF": {}, "WEBP": {}, "BMP": {}, "GIF": {}, "G4": {"compression": "group4"}}


@pytest.fixture(scope="module", autouse=True)
def loaded(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Load what reads pictures before memory is measured."""
    only_page(tmp_path_factory.mktemp("first"), sample("PNG"))


@pytest.fixture(autouse=True)
def short() -> Iterator[None]:
    """Every file here must be done with in ten seconds."""
    start = time.monotonic()
    yield
    assert time.monotonic() - start < 10


def sample(form: str) -> bytes:
    picture = Image.fromarray(chart_like())
    return encoded(picture.convert("1") if form == "G4" else picture, "TIFF" if form == "G4" else form, **FORMS[form])


def png(width: int, height: int, *chunks: tuple[bytes, bytes], data: bytes = b"") -> bytes:
    """Write a grey PNG of one bit chunk by chunk (W3C PNG, section 5)."""
    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    out = b"\x89PNG\r\n\x1a\n"
    for kind, body in ((b"IHDR", header), *chunks, (b"IDAT", data), (b"IEND", b"")):
        out += struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
    return out


def sheet_of(width: int, height: int) -> bytes:
    packer = zlib.compressobj(9)
    row = b"\0" + b"\xff" * ((width + 7) // 8)
    return b"".join(packer.compress(row) for _ in range(height)) + packer.flush()


@pytest.mark.parametrize(
    "size", [(20_000, 20_000), (40_000, 40_000), (60_000, 60_000), (10_001, 10_000), (2**31 - 1, 2**31 - 1)]
)
def test_a_picture_beyond_the_limit_is_refused_from_its_header(size: tuple[int, int], tmp_path: Path) -> None:
    before, start = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.monotonic()
    with pytest.raises(OversizeFile, match=r"pixels.*\. Scan it at 300 dpi\.$"):
        opened(tmp_path, png(*size))
    assert time.monotonic() - start < 1
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 20_000


def test_a_small_file_of_four_hundred_million_pixels_is_never_decoded(tmp_path: Path) -> None:
    data = png(20_000, 20_000, data=sheet_of(20_000, 20_000))
    assert len(data) < 100_000
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with pytest.raises(OversizeFile):
        opened(tmp_path, data)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 20_000


@pytest.mark.parametrize(("form", "at"), [("BMP", 18), ("TIFF", None), ("GIF", 6)])
def test_other_headers_that_state_too_much_are_refused(form: str, at: int | None, tmp_path: Path) -> None:
    data = bytearray(sample(form))
    if at is None:
        first = struct.unpack_from("<I", data, 4)[0]
        for entry in range(2):  # the width and the height come first
            struct.pack_into("<HHII", data, first + 2 + 12 * entry, 256 + entry, 4, 1, 60_000)
    else:
        struct.pack_into("<HH" if form == "GIF" else "<ii", data, at, 60_000, 60_000)
    with pytest.raises(UnreadableFile):
        opened(tmp_path, bytes(data))


@pytest.mark.parametrize("size", [(1, 1), (31, 500), (500, 31)])
def test_a_picture_too_small_for_a_chart_is_refused(size: tuple[int, int], tmp_path: Path) -> None:
    stated = rf"the picture is {size[0]} × {size[1]} pixels, too small to hold a chart\. Scan the page at 300 dpi\.$"
    with pytest.raises(UnreadableFile, match=stated):
        opened(tmp_path, encoded(Image.new("L", size), "PNG"))


def test_a_thread_of_a_picture_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"1 × 100,000 pixels"):
        opened(tmp_path, png(1, 100_000))


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("share", [0.02, 0.3, 0.5, 0.8])
def test_a_picture_that_is_cut_is_said_to_be(form: str, share: float, tmp_path: Path) -> None:
    data = sample(form)
    with pytest.raises(
        UnreadableFile, match=r"(cut short|damaged|of a form that is not supported)[^\n]*\. Scan or copy it again\.$"
    ):
        opened(tmp_path, data[: int(len(data) * share)])


def test_a_header_that_promises_more_than_there_is_is_cut_short(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"the picture is cut short or damaged\. Scan or copy it again\.$"):
        opened(tmp_path, png(5_000, 5_000, data=sheet_of(5_000, 10)))


def test_a_black_sheet_is_not_taken_for_a_cut_one(tmp_path: Path) -> None:
    black = Image.new("RGB", (300, 300))
    for interlace in (False, True):
        assert only_page(tmp_path, encoded(black, "PNG", interlace=interlace)).pixels.max() == 0


@pytest.mark.parametrize("kind", [b"zTXt", b"iCCP", b"iTXt"])
def test_notes_that_unpack_to_gigabytes_are_not_unpacked(kind: bytes, tmp_path: Path) -> None:
    bomb = zlib.compress(bytes(300_000_000), 9)
    body = {b"zTXt": b"note\0\0", b"iCCP": b"profile\0\0", b"iTXt": b"note\0\1\0\0\0"}[kind] + bomb
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    data = png(100, 100, (kind, body), data=sheet_of(100, 100))
    made = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    try:
        assert only_page(tmp_path, data).pixels.min() == 255
    except UnreadableFile as error:
        said = str(error)
    else:
        said = ""
    assert not said or said.endswith("carries more text or colour data than a page does. Scan or copy it again.")
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - max(before, made) < 100_000


def test_extra_bytes_after_a_picture_do_not_matter(tmp_path: Path) -> None:
    for form in FORMS:
        assert isinstance(only_page(tmp_path, sample(form) + b"\0extra" * 100), Page)


def test_a_jpeg_of_twelve_bits_is_refused(tmp_path: Path) -> None:
    data = bytearray(sample("JPEG"))
    frame = data.index(b"\xff\xc0")
    data[frame + 1], data[frame + 4] = 0xC1, 12
    with pytest.raises(UnreadableFile, match=r"not supported|damaged"):
        opened(tmp_path, bytes(data))


def test_a_tiff_whose_sizes_lie_is_refused(tmp_path: Path) -> None:
    data = bytearray(sample("TIFF"))
    first = struct.unpack_from("<I", data, 4)[0]
    count = struct.unpack_from("<H", data, first)[0]
    for entry in range(count):
        at = first + 2 + 12 * entry
        if struct.unpack_from("<H", data, at)[0] == 273:  # where the strips are
            struct.pack_into("<I", data, at + 8, 0x7FFFFFFF)
    with pytest.raises(UnreadableFile, match=r"(cut short|damaged)"):
        opened(tmp_path, bytes(data))


@pytest.mark.parametrize("form", [*FORMS, "PDF"])
def test_no_mutation_of_a_file_gets_past_the_named_errors(form: str, tmp_path: Path) -> None:
    """A small fuzz: whatever bytes change, pages or one sentence come out."""
    rng = np.random.default_rng([2, sorted([*FORMS, "PDF"]).index(form)])
    whole = pdf(b"100 100 m 300 100 l S BT /F 9 Tf 50 50 Td (500) Tj ET") if form == "PDF" else sample(form)
    path = tmp_path / "page"
    outcomes = {"read": 0, "refused": 0}
    for _ in range(20 if form == "PDF" else 60):
        data = bytearray(whole)
        for at in rng.integers(0, min(len(data), 3_000), rng.integers(1, 12)):
            data[at] = rng.integers(0, 256)
        path.write_bytes(data)
        try:
            for page in pages(path):
                if isinstance(page, PageFailure):
                    raise page.error
            outcomes["read"] += 1
        except OctavoError as error:
            outcomes["refused"] += 1
            said = str(error)
            if not re.fullmatch(r"[^\n]+: [^\n]+\. [^\n]+\.", said):
                pytest.fail(f"not one sentence: {said!r}")
    assert sum(outcomes.values()) in (20, 60)
