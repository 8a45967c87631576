"""PDF pages: where things stand on the shown page, what is drawn and what is scanned."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from handmade import A4, image, only_page, opened, pdf
from reportlab.lib.pagesizes import A4 as A4_POINTS
from reportlab.pdfgen.canvas import Canvas

from octavo.extract.intake import PageFailure
from octavo.extract.page import Page, Word

# A green bar, a red stroke and a blue word, far from each other and from every edge.
SCENE = (
    b"0 0.6 0 rg 150 520 60 9 re f "
    b"1 0 0 RG 3 w 140.5 300.25 m 330.5 300.25 l S "
    b"0 0 1 rg BT /F 24 Tf 1 0 0 1 180 400 Tm (HEHE) Tj ET"
)
VIEWS = {
    "plain": A4,
    "origin elsewhere": b"/MediaBox[-100 -200 495 642]",
    "origin above": b"/MediaBox[37.5 12.25 632.5 854.25]",
    "corners swapped": b"/MediaBox[595 842 0 0]",
    "cropped": b"/MediaBox[0 0 595 842]/CropBox[90 200 500 700]",
    "cropped and elsewhere": b"/MediaBox[-100 -200 495 842]/CropBox[-20 150 450 610]",
    "crop box beyond the page": b"/MediaBox[0 0 595 842]/CropBox[-500 -500 450 2000]",
}


def form(content: bytes, entries: bytes = b"") -> bytes:
    head = b"<</Type/XObject/Subtype/Form/BBox[0 0 900 900]" + entries
    return head + b"/Length %d>>stream\n" % len(content) + content + b"\nendstream"


def ink(pixels: np.ndarray, channel: int) -> np.ndarray:
    """Give the box (left, top, right, bottom) of the ink whose strongest channel is this one."""
    levels = pixels.astype(int)
    others = [levels[:, :, other] for other in range(3) if other != channel]
    rows, columns = np.nonzero((levels[:, :, channel] - np.maximum(*others)) > 60)
    assert len(rows) > 50
    return np.array([columns.min() - 0.5, rows.min() - 0.5, columns.max() + 0.5, rows.max() + 0.5])


def box_of(points: np.ndarray) -> np.ndarray:
    return np.array([*points.min(0), *points.max(0)])


@pytest.mark.parametrize("turn", [0, 90, 180, 270, -90, 450])
@pytest.mark.parametrize("view", VIEWS)
def test_paths_and_words_stand_where_the_page_shows_them(view: str, turn: int, tmp_path: Path) -> None:
    page = only_page(tmp_path, pdf(SCENE, page=VIEWS[view] + b"/Rotate %d" % turn))
    assert page.words is not None
    (bar,) = (path for path in page.paths if path.fill == (0, 153, 0))
    (stroke,) = (path for path in page.paths if path.stroke == (255, 0, 0))
    (word,) = page.words
    # Half-covered pixels at the rim count or not: each side of an ink box is sure to a pixel.
    np.testing.assert_allclose(box_of(bar.points), ink(page.pixels, 1), atol=1.0)
    half = stroke.width_px / 2
    across = box_of(stroke.points) + ([0, -half, 0, half] if turn % 180 == 0 else [-half, 0, half, 0])
    np.testing.assert_allclose(across, ink(page.pixels, 0), atol=1.0)
    assert stroke.width_px == pytest.approx(3 * 200 / 72, rel=0.002)
    # The height of Helvetica's capitals is 0.718 of its size and H's side bearing 0.08 (Adobe core font metrics):
    # of 24 pt at 200 dpi that is 5 px at the sides.
    np.testing.assert_allclose(word.box, ink(page.pixels, 2), atol=6.0)
    assert word.upright == -turn % 360


def test_every_corner_of_the_page_is_half_a_pixel_outside_the_outermost_centres(tmp_path: Path) -> None:
    page = only_page(tmp_path, pdf(b"0.5 w 0 0 595 842 re 0 0 m 595 842 l S"))
    (frame, _) = page.paths
    height, width = page.pixels.shape[:2]
    np.testing.assert_allclose(box_of(frame.points), [-0.5, -0.5, width - 0.5, height - 0.5], atol=1e-6)


def test_a_page_in_larger_units_is_as_large_as_it_is_shown(tmp_path: Path) -> None:
    small, usual = (only_page(tmp_path, pdf(SCENE, page=box)) for box in (b"/MediaBox[0 0 59.5 84.2]/UserUnit 10", A4))
    assert small.pixels.shape == usual.pixels.shape
    assert small.dpi == usual.dpi == 200


def test_forms_within_forms_are_placed_through_all_their_matrices(tmp_path: Path) -> None:
    inner = form(b"4 w 0 50 m 100 50 l S", b"/Matrix[1 0 0 1 10 20]")
    outer = form(b"/N Do", b"/Matrix[2 0 0 2 0 0]/Resources<</XObject<</N 6 0 R>>>>")
    page = only_page(
        tmp_path, pdf(b"q 1 0 0 RG 1 0 0 1 100 300 cm /O Do Q", resources=b"/XObject<</O 7 0 R>>", more=[inner, outer])
    )
    (stroke,) = page.paths
    assert stroke.width_px == pytest.approx(8 * 200 / 72, rel=0.01)
    np.testing.assert_allclose(box_of(stroke.points)[[0, 2]], ink(page.pixels, 0)[[0, 2]], atol=1.0)


def test_what_follows_a_form_is_placed_by_the_page_again(tmp_path: Path) -> None:
    mark = form(b"0 0 9 9 re f", b"/Matrix[5 0 0 5 100 100]")
    content = b"/M Do 1 0 0 RG 40 600 m 240 600 l S"
    page = only_page(tmp_path, pdf(content, resources=b"/XObject<</M 6 0 R>>", more=[mark]))
    stroke = page.paths[-1]
    np.testing.assert_allclose(box_of(stroke.points)[[0, 2]], ink(page.pixels, 0)[[0, 2]], atol=1.0)


def test_a_line_whose_width_is_never_set_is_one_unit_wide(tmp_path: Path) -> None:
    (stroke,) = only_page(tmp_path, pdf(b"100 100 m 300 100 l S")).paths
    assert stroke.width_px == pytest.approx(200 / 72, rel=0.002)


def test_colours_widths_dashes_and_curves_come_with_the_paths(tmp_path: Path) -> None:
    drawn = (
        b"0.5 G 2 w [3 2] 0 d 50 50 m 200 50 l S [] 0 d "
        b"0 1 1 0 K 50 100 m 60 160 120 160 200 100 c S "
        b"1 0 0 RG 0 0 1 rg 300 300 50 40 re B"
    )
    line, curve, box = only_page(tmp_path, pdf(drawn)).paths
    assert (line.stroke, line.fill, line.dashed, line.on_curve.all()) == ((128, 128, 128), None, True, True)
    assert (curve.stroke, curve.dashed, curve.on_curve.tolist()) == ((255, 0, 0), False, [True, False, False, True])
    assert (box.stroke, box.fill, len(box.points)) == ((255, 0, 0), (0, 0, 255), 5)


def test_a_spot_colour_is_the_one_that_the_page_shows(tmp_path: Path) -> None:
    space = b"/ColorSpace<</S[/Separation/Harbour/DeviceRGB<</FunctionType 2/Domain[0 1]/C0[1 1 1]/C1[0 0 1]/N 1>>]>>"
    (box,) = only_page(tmp_path, pdf(b"/S cs 1 scn 100 100 200 50 re f", resources=space)).paths
    assert box.fill == (0, 0, 255)


def test_what_the_page_does_not_show_is_not_drawn(tmp_path: Path) -> None:
    hidden = {
        "invisible text": b"BT 3 Tr /F 20 Tf 100 100 Td (500) Tj ET",
        "white text": b"1 g BT /F 20 Tf 100 100 Td (500) Tj ET",
        "clipped away": b"q 300 300 10 10 re W n 0 0 0 rg BT /F 20 Tf 100 100 Td (500) Tj ET 50 50 m 200 50 l S Q",
        "covered": b"BT /F 20 Tf 100 100 Td (500) Tj ET 50 50 m 200 50 l S 1 g 0 0 400 400 re f",
        "off the page": b"BT /F 20 Tf 700 100 Td (500) Tj ET 700 50 m 900 50 l S",
        "layer off": b"/OC /L BDC BT /F 20 Tf 100 100 Td (500) Tj ET 50 50 m 200 50 l S EMC",
    }
    catalog = b"/OCProperties<</OCGs[6 0 R]/D<</OFF[6 0 R]>>>>"
    for how, content in hidden.items():
        data = pdf(content, catalog=catalog, resources=b"/Properties<</L 6 0 R>>", more=[b"<</Type/OCG/Name(notes)>>"])
        page = only_page(tmp_path, data)
        assert page.words == (), how
        assert page.paths == (), how


def test_a_drawn_page_keeps_its_words_beside_a_logo(tmp_path: Path) -> None:
    logo = image(200, 80, bytes(200 * 80 * 3), b"/ColorSpace/DeviceRGB/BitsPerComponent 8")
    content = SCENE + b" q 90 0 0 36 30 780 cm /I Do Q"
    page = only_page(tmp_path, pdf(content, resources=b"/XObject<</I 6 0 R>>", more=[logo]))
    assert page.source.taken_by == "drawn"
    assert [word.text for word in page.words or ()] == ["HEHE"]


def test_a_page_with_a_large_picture_beside_drawing_is_read_from_its_pixels(tmp_path: Path) -> None:
    chart = image(400, 400, bytes(400 * 400 * 3), b"/ColorSpace/DeviceRGB/BitsPerComponent 8")
    content = SCENE + b" q 250 0 0 250 30 30 cm /I Do Q"
    page = only_page(tmp_path, pdf(content, resources=b"/XObject<</I 6 0 R>>", more=[chart]))
    assert (page.source.taken_by, page.words, page.paths) == ("scan", None, ())
    assert page.dpi == pytest.approx(200, rel=0.001)


def test_pages_of_one_file_keep_their_own_pixels(tmp_path: Path) -> None:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4_POINTS)
    for grey in (0.0, 0.4, 0.8):
        canvas.setFillGray(grey)
        canvas.rect(0, 0, 900, 900, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    read = [page for page in opened(tmp_path, out.getvalue()) if isinstance(page, Page)]
    assert [int(page.pixels[900, 900, 0]) for page in read] == [0, 102, 204]
    assert [(page.source.page, page.source.pages) for page in read] == [(1, 3), (2, 3), (3, 3)]


def test_a_page_that_is_missing_does_not_take_the_others(tmp_path: Path) -> None:
    read = opened(tmp_path, pdf(SCENE, tree=b"/Kids[3 0 R 99 0 R]/Count 2"))
    assert isinstance(read[0], Page)
    if len(read) == 2:
        assert isinstance(read[1], PageFailure)
        assert "page 2" in str(read[1].error)


def test_shown_annotations_and_filled_fields_are_on_the_page(tmp_path: Path) -> None:
    stamp = b"<</Type/Annot/Subtype/Square/Rect[100 100 300 200]/IC[1 0 0]/C[1 0 0]/AP<</N 7 0 R>>>>"
    look = form(b"1 0 0 rg 0 0 900 900 re f")
    page = only_page(tmp_path, pdf(SCENE, page=A4 + b"/Annots[6 0 R]", more=[stamp, look]))
    assert page.pixels[2339 - 420, 500].tolist() == [255, 0, 0]


def test_letters_without_a_map_are_not_taken_for_words(tmp_path: Path) -> None:
    lines = b"".join(b"50 %d m 500 %d l S " % (y, y) for y in range(100, 600, 20))
    font = b"/Font<</F 6 0 R>>"
    odd = b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding<</Differences[48/g1/g2/g3/g4/g5/g6/g7/g8/g9/g10]>>>>"
    data = pdf(lines + b"BT /F 12 Tf 50 650 Td (1000) Tj ET", more=[odd]).replace(b"/Font<</F 5 0 R>>", font)
    page = only_page(tmp_path, data)
    assert page.words is None or page.words == ()
    assert page.source.taken_by == "drawn"


def test_a_chart_whose_words_hold_no_number_is_read_from_its_pixels(tmp_path: Path) -> None:
    lines = b"".join(b"50 %d m 500 %d l S " % (y, y) for y in range(100, 600, 20))
    page = only_page(tmp_path, pdf(lines + b"BT /F 12 Tf 50 650 Td (qpzz) Tj ET"))
    assert page.words is None
    assert "text-layer-distrusted" in page.notes
    with_number = only_page(tmp_path, pdf(lines + b"BT /F 12 Tf 50 650 Td (qpzz 500) Tj ET"))
    assert [word.text for word in with_number.words or ()] == ["qpzz", "500"]
    assert isinstance(with_number.words and with_number.words[0], Word)


def test_without_fork_the_same_pages_come(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    forked = only_page(tmp_path, pdf(SCENE))
    monkeypatch.delattr("os.fork")
    here = only_page(tmp_path, pdf(SCENE))
    np.testing.assert_array_equal(here.pixels, forked.pixels)
    assert here.words == forked.words
    assert [path.stroke for path in here.paths] == [path.stroke for path in forked.paths]
