"""PDFs made to hurt: each ends in a reading or in one sentence, within its bounds of time and memory."""

from __future__ import annotations

import io
import os
import re
import resource
import time
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from handmade import A4, image, only_page, opened, pdf
from reportlab.lib.pagesizes import A4 as A4_POINTS
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

from octavo.extract.intake import PageFailure, pages
from octavo.extract.intake.document import worker
from octavo.extract.page import Page
from octavo.interpret.errors import LockedFile, OversizeFile, PageGivenUp, UnreadableFile

LINE = b"100 100 m 300 100 l S"
DEFLATED = b"/Filter/FlateDecode"


@pytest.fixture(autouse=True)
def short() -> Iterator[None]:
    """Every file here must be done with in ten seconds, whatever it holds, and leave no process behind."""
    start = time.monotonic()
    yield
    assert time.monotonic() - start < 10
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


def grown_kb() -> int:
    """Give how much larger than this process the largest of its children grew, in kB.

    A forked process counts what its parent holds, and other tests have filled that.
    """
    own, children = (resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return children - own


def document(count: int, encrypt: StandardEncryption | None = None) -> bytes:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4_POINTS, encrypt=encrypt)
    for number in range(count):
        canvas.drawString(100, 500, f"page {number + 1}")
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def read_or_refused(folder: Path, data: bytes) -> list[Page | PageFailure] | None:
    try:
        return opened(folder, data)
    except UnreadableFile as error:
        text = str(error)
    assert re.fullmatch(r"[^\n]+: [^\n]+\. [^\n]+\.", text)
    return None


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.99])
def test_a_pdf_that_is_cut_is_read_as_far_as_it_goes_or_refused(share: float, tmp_path: Path) -> None:
    data = document(3)
    read_or_refused(tmp_path, data[: int(len(data) * share)])


def test_a_pdf_without_its_trailer_is_read(tmp_path: Path) -> None:
    data = pdf(LINE)
    assert only_page(tmp_path, data[: data.index(b"xref\n0")]).pixels.min() < 255


def test_pages_before_a_cut_are_read_and_those_after_it_named(tmp_path: Path) -> None:
    parts = [b"<</Type/Page/Parent 2 0 R" + A4 + b"/Contents 4 0 R/Resources<<>>>>"] * 2
    data = pdf(LINE, tree=b"/Kids[3 0 R 6 0 R 7 0 R]/Count 3", more=parts)
    one, two, three = opened(tmp_path, data[: data.index(b"7 0 obj")], "cut.pdf")
    assert isinstance(one, Page)
    assert isinstance(two, Page)
    assert isinstance(three, PageFailure)
    said = "the page is damaged or missing. Export or scan it again."
    assert str(three.error) == f"{tmp_path}/cut.pdf, page 3: {said}"


def test_a_pdf_with_a_wrong_table_is_read(tmp_path: Path) -> None:
    data = re.sub(rb"\d{10} 00000 n", b"0000000007 00000 n", pdf(LINE))
    assert only_page(tmp_path, data).pixels.min() < 255


def test_a_header_alone_is_cut_short(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"the PDF is cut short or damaged\. Export or scan it again\.$"):
        opened(tmp_path, b"%PDF-1.7\n")


def test_a_pdf_without_pages_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"(the PDF has no page|cut short or damaged)\. Export or scan it again"):
        opened(tmp_path, pdf(tree=b"/Kids[]/Count 0"))


def test_a_count_that_lies_is_refused_or_its_true_page_read(tmp_path: Path) -> None:
    for tree in (b"/Kids[3 0 R]/Count 7", b"/Kids[3 0 R]/Count -1", b"/Kids[3 0 R 2 0 R]/Count 2"):
        read = read_or_refused(tmp_path, pdf(LINE, tree=tree))
        assert read is None or isinstance(read[0], Page)


def test_a_count_beyond_all_measure_is_refused(tmp_path: Path) -> None:
    read = []
    try:
        for page in pages(_written(tmp_path, pdf(LINE, tree=b"/Kids[3 0 R]/Count 2000000000"))):
            read.append(page)
            assert len(read) < 3
    except (OversizeFile, UnreadableFile):
        return
    assert len(read) == 1


def _written(folder: Path, data: bytes) -> Path:
    (folder / "page.pdf").write_bytes(data)
    return folder / "page.pdf"


def test_a_form_that_draws_itself_ends(tmp_path: Path) -> None:
    loop = b"<</Type/XObject/Subtype/Form/BBox[0 0 900 900]/Resources<</XObject<</X 6 0 R>>>>/Length 5>>"
    loop += b"stream\n/X Do\nendstream"
    read_or_refused(tmp_path, pdf(LINE + b" /X Do", resources=b"/XObject<</X 6 0 R>>", more=[loop]))


def test_two_hundred_thousand_nested_saves_end(tmp_path: Path) -> None:
    read_or_refused(tmp_path, pdf(b"q " * 200_000 + LINE))


def test_deep_arrays_end(tmp_path: Path) -> None:
    read_or_refused(tmp_path, pdf(LINE, page=A4 + b"/X " + b"[" * 50_000 + b"]" * 50_000))


@pytest.mark.parametrize("content", [
    b"\xff" * 5000, b"<<<<<<<<", b"(" * 5000, b"BT /F Tf Td Tj ET",
    b"1 2 3 4 5 6 7 8 re re re S", b"1e999 0 m 99999999999999999999 nan l S", b"/Nothing Do /None gs /None cs 9 sc",
    b"ET Q Q Q EMC BI ID EI",
])  # fmt: skip
def test_rubbish_in_the_content_leaves_the_rest_of_the_page(content: bytes, tmp_path: Path) -> None:
    assert only_page(tmp_path, pdf(LINE + b" " + content)).pixels.min() < 255


def test_a_content_stream_that_is_cut_leaves_a_page(tmp_path: Path) -> None:
    packed = zlib.compress(LINE + b" " + os.urandom(3000).hex().encode())
    read = read_or_refused(tmp_path, pdf(packed[:500], stream=DEFLATED))
    assert read is not None


def test_a_bomb_of_path_operators_is_given_up_in_time(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "PAGE_SECONDS", 2.0)
    bomb = zlib.compress(b"1 1 m 2 2 l S " * 4_000_000, 9)
    assert len(bomb) < 200_000
    with pytest.raises(PageGivenUp, match=r"the page takes longer than 2 seconds\. Print it to a new PDF\.$"):
        opened(tmp_path, pdf(bomb, stream=DEFLATED))


def test_a_bomb_within_a_bomb_is_given_up_in_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "PAGE_BYTES", 400_000_000)
    inner = zlib.compress(b" " * 1_000_000_000, 9)
    bomb = zlib.compress(inner, 9)
    assert len(bomb) < 5_000
    with pytest.raises(PageGivenUp, match=r"needs more memory than a page should.*\. Print it to a new PDF\.$"):
        opened(tmp_path, pdf(bomb, stream=b"/Filter[/FlateDecode/FlateDecode]"))
    assert grown_kb() < 900_000


def test_a_bomb_on_one_page_leaves_the_others(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "PAGE_SECONDS", 1.5)
    bomb = zlib.compress(b"1 1 m 2 2 l S " * 4_000_000, 9)
    body = b"<<" + DEFLATED + b"/Length %d>>stream\n" % len(bomb) + bomb + b"\nendstream"
    second = b"<</Type/Page/Parent 2 0 R" + A4 + b"/Contents 7 0 R/Resources<<>>>>"
    one, two, three = opened(
        tmp_path, pdf(LINE, tree=b"/Kids[3 0 R 6 0 R 3 0 R]/Count 3", more=[second, body]), "a.pdf"
    )
    assert isinstance(one, Page)
    assert isinstance(two, PageFailure)
    assert isinstance(two.error, PageGivenUp)
    assert str(two.error).startswith(f"{tmp_path}/a.pdf, page 2: the page takes longer")
    assert isinstance(three, Page)


def test_a_file_of_bombs_is_not_tried_to_its_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "PAGE_SECONDS", 0.7)
    bomb = zlib.compress(b"1 1 m 2 2 l S " * 4_000_000, 9)
    read = opened(tmp_path, pdf(bomb, stream=DEFLATED, tree=b"/Kids[" + b"3 0 R " * 500 + b"]/Count 500"))
    assert len(read) == 500
    assert all(isinstance(page, PageFailure) and isinstance(page.error, PageGivenUp) for page in read)
    assert isinstance(read[-1], PageFailure)
    assert "not tried, as the pages before it were given up" in str(read[-1].error)


def test_a_process_that_dies_while_it_reads_is_one_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Dying(worker.Reader):
        def page(self, number: int) -> worker.Parts:
            os.kill(os.getpid(), 9)
            return super().page(number)

    monkeypatch.setattr(worker, "Reader", Dying)
    monkeypatch.setattr(worker, "_warm_renderer", lambda: None)
    with pytest.raises(PageGivenUp, match=r"or breaks the reader\. Print it to a new PDF\.$"):
        opened(tmp_path, pdf(LINE))


def test_a_picture_of_900_million_pixels_inside_is_bounded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "PAGE_BYTES", 500_000_000)
    data = zlib.compress(bytes(30_000 * 30_000 // 8), 9)
    body = image(30_000, 30_000, data, b"/ColorSpace/DeviceGray/BitsPerComponent 1/Filter/FlateDecode")
    read_or_refused(tmp_path, pdf(b"595 0 0 842 0 0 cm /I Do", resources=b"/XObject<</I 6 0 R>>", more=[body]))
    assert grown_kb() < 900_000


def test_ten_thousand_pictures_end(tmp_path: Path) -> None:
    dot = image(2, 2, bytes(12), b"/ColorSpace/DeviceRGB/BitsPerComponent 8")
    content = b"".join(b"q 5 0 0 8 %d %d cm /I Do Q " % (x * 6, y * 8) for x in range(100) for y in range(100))
    read_or_refused(tmp_path, pdf(content, resources=b"/XObject<</I 6 0 R>>", more=[dot]))


@pytest.mark.parametrize(
    "box", [b"/MediaBox[0 0 14400 14400]", b"/MediaBox[0 0 1000000 1000000]", b"/MediaBox[-1e9 0 1e9 9]"]
)
def test_a_huge_page_is_shown_within_the_limit_or_refused(box: bytes, tmp_path: Path) -> None:
    read = read_or_refused(tmp_path, pdf(LINE, page=box))
    if read is not None:
        assert isinstance(read[0], Page)
        assert max(read[0].pixels.shape) <= 3600


@pytest.mark.parametrize("box", [
    b"", b"/MediaBox[0 0 0 0]", b"/MediaBox[0 0 1e3 842]", b"/MediaBox[0 0]", b"/MediaBox 7", b"/MediaBox[0 0 595 abc]",
    b"/MediaBox[0 0 595 842]/CropBox[0 0 0 0]", b"/MediaBox[0 0 595 842]/CropBox[2000 2000 3000 3000]",
    b"/MediaBox[0 0 nan inf]", b"/MediaBox[0 0 595 842]/Rotate 45", b"/MediaBox[0 0 595 842]/UserUnit -3",
    b"/MediaBox[0 0 595 842]/UserUnit/None", b"/MediaBox[0 0 595 842]/Rotate/None",
])  # fmt: skip
def test_a_box_that_makes_no_sense_is_repaired(box: bytes, tmp_path: Path) -> None:
    page = only_page(tmp_path, pdf(LINE, page=box))
    assert min(page.pixels.shape[:2]) > 1000
    assert page.pixels.min() < 255


@pytest.mark.parametrize("box", [b"/MediaBox[0 0 595 842]/CropBox[2000 2000 3000 3000]", b"/MediaBox[0 0 0 0]"])
def test_a_repaired_box_is_said(box: bytes, tmp_path: Path) -> None:
    assert "page-box-repaired" in only_page(tmp_path, pdf(LINE, page=box)).notes


@pytest.mark.parametrize("box", [b"/MediaBox[0 0 1 1]", b"/MediaBox[0 0 100000 20]"])
def test_a_page_without_room_for_a_chart_is_refused(box: bytes, tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match=r"too small or too narrow to hold a chart\. Print it to a new PDF\.$"):
        opened(tmp_path, pdf(LINE, page=box))


def test_a_password_is_asked_for_by_name(tmp_path: Path) -> None:
    data = document(1, StandardEncryption("secret", "owner", strength=128))
    with pytest.raises(
        LockedFile, match=r"the PDF needs a password\. Open it, save it without a password and try again\.$"
    ):
        opened(tmp_path, data)


def test_a_page_locked_for_its_owner_alone_is_read(tmp_path: Path) -> None:
    page = only_page(tmp_path, document(1, StandardEncryption("", "owner", canPrint=0, canCopy=0, strength=128)))
    assert [word.text for word in page.words or ()] == ["page", "1"]


def test_a_lock_of_an_unknown_make_is_refused(tmp_path: Path) -> None:
    data = pdf(LINE).replace(b"trailer<<", b"trailer<</Encrypt<</Filter/Unheard/V 9/R 9>>/ID[<00><00>]")
    with pytest.raises(LockedFile, match=r"the PDF (is locked in a way that is not supported|needs a password)\. "):
        opened(tmp_path, data)


def test_a_form_that_one_viewer_alone_draws_is_refused_by_name(tmp_path: Path) -> None:
    with pytest.raises(
        UnreadableFile, match=r"this is an XFA form, whose pages are not in the file\. Print it to a new PDF\.$"
    ):
        opened(tmp_path, pdf(LINE, catalog=b"/NeedsRendering true"))


def test_nothing_is_written_on_the_terminal(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    read_or_refused(tmp_path, pdf(LINE + b" /None cs 1 sc /F 1 Tf (a Tj", page=b"/MediaBox[0 0 x y]"))
    read_or_refused(tmp_path, document(2)[:900])
    assert capfd.readouterr() == ("", "")


def test_pages_do_not_pile_up_in_memory(tmp_path: Path) -> None:
    path = _written(tmp_path, document(60))
    giver = pages(path)
    for _ in range(10):
        next(giver)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert sum(isinstance(page, Page) for page in giver) == 50
    # A page is 11 MB; that of the turn before may still be held.
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 25_000
