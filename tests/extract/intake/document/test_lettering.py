"""Letters become words: what stands apart stays apart, whatever the order and the tricks of the drawing program."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from handmade import only_page, pdf
from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from octavo.extract.page import Word


def words(folder: Path, content: bytes) -> tuple[Word, ...]:
    found = only_page(folder, pdf(content)).words
    assert found is not None
    return found


def texts(folder: Path, content: bytes) -> list[str]:
    return sorted(word.text for word in words(folder, content))


def test_axis_labels_on_one_line_are_words_of_their_own(tmp_path: Path) -> None:
    labels = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
    content = b"".join(b"BT /F 8 Tf 1 0 0 1 %d 700 Tm (%d) Tj ET " % (60 + 40 * i, hz) for i, hz in enumerate(labels))
    assert [word.text for word in words(tmp_path, content)] == [str(hz) for hz in labels]


def test_labels_half_a_letter_apart_stay_apart(tmp_path: Path) -> None:
    # "6000" in Helvetica 8 is 4 x 0.556 x 8 = 17.8 pt wide (Adobe core font metrics); the next begins 4 pt later.
    content = b"BT /F 8 Tf 1 0 0 1 60 700 Tm (6000) Tj ET BT /F 8 Tf 1 0 0 1 81.8 700 Tm (8000) Tj ET"
    assert texts(tmp_path, content) == ["6000", "8000"]


def test_labels_one_above_the_other_stay_apart(tmp_path: Path) -> None:
    content = b"BT /F 8 Tf 8 TL 60 700 Td (-10) Tj T* (0) Tj T* (10) Tj T* (20) Tj ET"
    assert texts(tmp_path, content) == ["-10", "0", "10", "20"]


def test_a_mark_close_beside_a_label_stands_apart_from_it(tmp_path: Path) -> None:
    # seen on a page: the arrow at 8000 Hz became one word with the label beside the axis, and its mark stood as heard
    content = b"BT /F 8 Tf 1 0 0 1 60 700 Tm (]) Tj ET BT /F 8 Tf 1 0 0 1 63.2 700 Tm (100) Tj ET"
    assert texts(tmp_path, content) == ["100", "]"]
    assert texts(tmp_path, b"BT /F 8 Tf 60 700 Td ([100] <20) Tj ET") == ["<20", "[100]"]


def test_a_sentence_falls_into_its_words(tmp_path: Path) -> None:
    assert texts(tmp_path, b"BT /F 10 Tf 60 700 Td (Harbour Lane clinic) Tj ET") == ["Harbour", "Lane", "clinic"]


def test_a_space_narrower_than_any_gap_still_breaks(tmp_path: Path) -> None:
    # Helvetica's space is 0.278 wide; -1.5 of word spacing at 10 pt leaves 0.128.
    assert texts(tmp_path, b"BT /F 10 Tf -1.5 Tw 60 700 Td (Frequency in Hz) Tj ET") == ["Frequency", "Hz", "in"]


def test_kerning_within_a_word_does_not_break_it(tmp_path: Path) -> None:
    assert texts(tmp_path, b"BT /F 10 Tf 60 700 Td [(1) 80 (0) -90 (0) 30 (0)] TJ ET") == ["1000"]


def test_a_gap_without_a_space_breaks(tmp_path: Path) -> None:
    assert texts(tmp_path, b"BT /F 10 Tf 60 700 Td [(20) -300 (dB)] TJ ET") == ["20", "dB"]


def test_letters_drawn_one_by_one_and_out_of_order_are_joined(tmp_path: Path) -> None:
    spots = ((b"0", 71.12), (b"1", 60), (b"0", 65.56), (b"5", 120))
    content = b"".join(b"BT /F 10 Tf 1 0 0 1 %.2f 700 Tm (%b) Tj ET " % (x, letter) for letter, x in spots)
    assert texts(tmp_path, content) == ["100", "5"]


def test_a_word_drawn_twice_to_look_bold_is_one_word(tmp_path: Path) -> None:
    content = b"BT /F 10 Tf 60 700 Td (500) Tj ET BT /F 10 Tf 60.3 700 Td (500) Tj ET"
    assert texts(tmp_path, content) == ["500"]


def test_a_small_sign_beside_a_large_number_is_no_part_of_it(tmp_path: Path) -> None:
    content = b"BT /F 16 Tf 60 700 Td (40) Tj /F 8 Tf (dB) Tj ET"
    assert texts(tmp_path, content) == ["40", "dB"]


@pytest.mark.parametrize(("matrix", "upright"), [
    (b"1 0 0 1", 0), (b"0 1 -1 0", 90), (b"-1 0 0 -1", 180), (b"0 -1 1 0", 270),
])  # fmt: skip
def test_text_in_every_direction_is_read_along_its_own_line(matrix: bytes, upright: int, tmp_path: Path) -> None:
    content = b"BT /F 10 Tf " + matrix + b" 300 400 Tm (Hearing level 500) Tj ET"
    found = words(tmp_path, content)
    assert sorted(word.text for word in found) == ["500", "Hearing", "level"]
    assert {word.upright for word in found} == {upright}


def test_size_may_come_from_the_font_the_matrix_or_the_page(tmp_path: Path) -> None:
    ways = (
        b"BT /F 10 Tf 1 0 0 1 60 700 Tm (500) Tj ET",
        b"BT /F 1 Tf 10 0 0 10 60 700 Tm (500) Tj ET",
        b"q 10 0 0 10 60 700 cm BT /F 1 Tf 0 0 Td (500) Tj ET Q",
        b"q 1 0 0 -1 0 842 cm BT /F 10 Tf 1 0 0 -1 60 142 Tm (500) Tj ET Q",
    )
    boxes = [words(tmp_path, way)[0].box for way in ways]
    for box in boxes[1:]:
        assert box == pytest.approx(boxes[0], abs=0.01)


def test_stretched_and_raised_text_keeps_its_place(tmp_path: Path) -> None:
    (plain,) = words(tmp_path, b"BT /F 10 Tf 60 700 Td (500) Tj ET")
    (wide,) = words(tmp_path, b"BT 200 Tz /F 10 Tf 60 700 Td (500) Tj ET")
    (raised,) = words(tmp_path, b"BT 5 Ts /F 10 Tf 60 700 Td (500) Tj ET")
    assert wide.box[2] - wide.box[0] == pytest.approx(2 * (plain.box[2] - plain.box[0]), rel=1e-6)
    assert plain.box[1] - raised.box[1] == pytest.approx(5 * 200 / 72, abs=0.01)


def test_a_thousand_words_are_grouped_in_a_moment(tmp_path: Path) -> None:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4)
    canvas.setFont("Helvetica", 6)
    for row in range(50):
        for column in range(20):
            canvas.drawString(30 + 27 * column, 30 + 15 * row, str(row * 20 + column))
    canvas.save()
    found = only_page(tmp_path, out.getvalue()).words
    assert sorted(int(word.text) for word in found or ()) == list(range(1000))


def test_a_narrow_space_behind_a_comma_parts_two_numbers(tmp_path: Path) -> None:
    """Of "List 2, 25 words" the list was 2.25, and the words were 2."""
    content = b"BT /F 10 Tf 60 700 Td [(2,) -190 (25)] TJ ET"
    assert texts(tmp_path, content) == ["2,", "25"]
    assert texts(tmp_path, b"BT /F 10 Tf 60 700 Td (2,25) Tj ET") == ["2,25"]


def test_marks_of_two_inks_at_one_place_are_two(tmp_path: Path) -> None:
    # seen on a page: a blue triangle over a red one was taken for the same letter drawn twice, and bone was missed
    twice = b"BT /F 8 Tf 60 700 Td 1 0 0 rg (%b) Tj ET BT /F 8 Tf 60 700 Td 0 0 1 rg (%b) Tj ET"
    assert texts(tmp_path, twice % (b"O", b"O")) == ["O", "O"]
    assert texts(tmp_path, twice % (b"Hz", b"Hz")) == ["Hz"]
