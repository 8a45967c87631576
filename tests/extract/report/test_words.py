"""The words of painted pages, read from the file and from pictures, against what the painter wrote."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from by_hand import LEVELS, chart, level_words, page, sheet, word, x_of, y_of

from octavo.extract.choices import Choices
from octavo.extract.eyes import see
from octavo.extract.intake import pages
from octavo.extract.intake import words as recognition
from octavo.extract.measure import measure
from octavo.extract.page import Page, Word
from octavo.extract.report.axes import outside_charts
from octavo.extract.report.pieces import paste, pieces_of
from octavo.extract.report.witnesses import put_together
from octavo.extract.report.words import ReportWords, begin_words, report_words
from octavo.extract.straighten import straighten
from octavo.tools.painter import PaintedPage, paint, render


def words_of(one: Page) -> ReportWords:
    laid = straighten(one)
    return report_words(laid, measure(laid, see(laid)), Choices())


def written(painted: PaintedPage) -> Counter[str]:
    around = (w for w in painted.words if w.role == "other" and w.chart is None and not w.upright)
    return Counter(text for w in around for text in w.text.split())


def share_found(painted: PaintedPage, found: ReportWords) -> float:
    true = written(painted)
    read = Counter(text for w in found.words for text in w.text.split())
    return (read & true).total() / true.total()


def test_a_drawn_page_gives_its_own_words_and_no_text_recognition_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(recognition.pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    painted = paint("report", 5)
    (tmp_path / "page.pdf").write_bytes(painted.pdf)
    (one,) = pages(tmp_path / "page.pdf")
    assert isinstance(one, Page)
    found = words_of(one)
    assert found.given
    assert not found.unread
    assert share_found(painted, found) == 1


def test_words_of_a_picture_are_read_in_their_own_case_at_their_place() -> None:
    painted = paint("single", 3)
    found = words_of(page(render(painted.pdf, 300)))
    assert not found.given
    assert share_found(painted, found) > 0.9
    true = next(w for w in painted.words if w.text.startswith("Name"))
    read = next(w for w in found.words if w.text.startswith("Name"))
    size = np.array(painted.size_pt) * 300 / 72
    assert np.allclose(np.array(read.box[:2]) / size, true.box[:2], atol=0.004)


def test_without_the_program_the_own_reading_remains_and_is_marked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recognition.pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    found = words_of(page(render(paint("single", 3).pdf, 200)))
    assert found.unread
    assert found.words


def test_labels_of_the_axes_and_what_stands_in_the_plot_are_left_out() -> None:
    kept = word("1000", x_of(1000), y_of(120) + 400)
    words = (
        word("1000", x_of(1000), y_of(-10) - 20), word("40", x_of(125) - 30, y_of(40)),
        word("repeat!", x_of(700), y_of(60)), kept,
    )  # fmt: skip
    assert report_words(sheet("drawn", words=words), (chart(),), Choices()).words == (kept,)


def test_labels_of_an_axis_far_beyond_the_last_labelled_frequency_are_left_out() -> None:
    labels = level_words(x=x_of(8000) + 160)
    text = (word("40", 900, 700), word("dB", 925, 700))
    assert outside_charts((*labels, *text), (chart(),)) == text


def test_labels_of_an_axis_are_left_out_though_its_chart_was_not_measured() -> None:
    values = (word("45", 400, 900), word("60", 400, 930), word("60", 400, 960))
    assert outside_charts((*level_words(LEVELS), *values), ()) == values


def test_levels_that_rise_under_each_other_in_a_table_are_no_axis() -> None:
    column = tuple(word(str(10 * k), 300, 100 + 30 * k) for k in range(1, 7))
    assert outside_charts(column, ()) == column


def test_a_level_at_the_beginning_of_a_line_beside_a_chart_is_no_label() -> None:
    high = y_of(45)
    line = (word("45", 950, high), word("dB", 976, high), word("HL;", 1000, high), word("Words", 1040, high))
    assert outside_charts(line, (chart(),)) == line


def test_a_table_of_reflexes_that_was_taken_for_a_chart_keeps_its_levels() -> None:
    table = replace(chart(), level=replace(chart().level, printed=(75.0, 105.0)))
    inside = (word("85", x_of(500), y_of(80)), word("90", x_of(1000), y_of(90)))
    assert outside_charts(inside, (table,)) == inside


def test_a_page_without_words_needs_no_program(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recognition.pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    assert report_words(sheet(), (), Choices()) == ReportWords()


def test_words_of_one_column_are_one_piece_and_the_next_column_is_another() -> None:
    one, two, three = word("Name:", 100, 50), word("Ada", 148, 51), word("Born:", 400, 50)
    assert [[w.text for w in piece.words] for piece in pieces_of((three, two, one))] == [["Name:", "Ada"], ["Born:"]]


def test_a_box_of_the_strip_is_carried_back_to_its_place() -> None:
    one, two = word("above", 200, 100), word("below", 240, 300, height=28)
    blank = np.full((400, 500), 255, np.uint8)
    strip = paste(blank, blank < 0, pieces_of((one, two)))
    assert strip.row_of(strip.tops[1] + 5) == 1
    row = strip.row_of(strip.tops[1] + 5)
    assert row is not None
    corner, scale, top = strip.corners[1], strip.scales[1], strip.tops[1]
    x, y = 20 + (two.box[0] - corner[0]) * scale, top + (two.box[1] - corner[1]) * scale
    assert strip.on_sheet(row, (x, y, x, y))[:2] == pytest.approx(two.box[:2])


def own(text: str, left: float, right: float, confidence: float = 0.95) -> Word:
    return Word(text, (left, 0, right, 20), confidence)


def test_a_text_that_runs_over_two_words_is_cut_where_they_part() -> None:
    put = put_together((own("a.", 0, 20), own("s.", 26, 46)), (own("A.S.", 0, 46),))
    assert [w.text for w in put] == ["A.", "S."]


def test_a_word_that_was_read_in_two_is_one() -> None:
    put = put_together((own("2011-01-23", 0, 100),), (own("201", 0, 30), own("1-01-23", 34, 100)))
    assert [w.text for w in put] == ["2011-01-23"]


def read_as(text: str, confidence: float, label: str, label_confidence: float = 0.95) -> Word:
    """A word as our two networks read it, as print and as a label."""
    return Word(text, (0, 0, 40, 20), confidence, others=((label, label_confidence),))


def test_where_the_readings_of_a_number_differ_print_is_believed_and_the_other_kept() -> None:
    (one,) = put_together((read_as("-400", 0.97, "-406", 0.5),), (own("406", 0, 40, 0.22),))
    assert (one.text, one.others) == ("-400", (("406", 0.22),))


def test_a_number_that_both_of_our_networks_read_needs_no_third_reader() -> None:
    (one,) = put_together((read_as("-17.9", 0.999, "-17.9"),), (own("179", 0, 40, 0.51),))
    assert (one.text, one.others[0][0]) == ("-17.9", "-17.9")


def test_the_first_letter_of_the_next_word_is_no_part_of_a_word() -> None:
    (one,) = put_together((read_as("Reasonf", 0.999, "reasonf"),), (own("Reason", 0, 40, 0.96),))
    assert one.text == "Reason"
    (two,) = put_together((read_as("20", 0.999, "20"),), (own("2", 0, 40, 0.77),))
    assert two.text == "20"  # a digit may well be a part of a number


def test_accents_that_english_data_cannot_read_are_kept() -> None:
    (one,) = put_together((read_as("Überweisung.", 0.8, "überweisung."),), (own("Uberweisung.", 0, 40, 0.97),))
    assert (one.text, one.others[0][0]) == ("Überweisung.", "Überweisung.")


def test_a_digit_that_two_readers_take_for_a_letter_stays_in_doubt() -> None:
    (one,) = put_together((read_as("ACS", 0.95, "ac5"),), (own("ACS", 0, 40, 0.97),))
    assert one.others[0][0] == "ac5"


def test_specks_are_no_words() -> None:
    assert put_together((own("", 0, 9, 0.3),), (own("|", 0, 9, 0.6),)) == []
    assert put_together((own("", 0, 9, 0.3),), ()) == []


def test_no_word_is_lost_where_text_recognition_sees_nothing() -> None:
    (one,) = put_together((own("right", 0, 50),), ())
    assert one.text == "right"
    assert one.confidence < 0.5


def test_the_words_stand_where_their_texts_were_found() -> None:
    word_one = own("name:", 0, 50)
    assert put_together((word_one,), (replace(word_one, text="Name:"),))[0].box == word_one.box


def test_a_word_that_the_recognition_puts_beside_itself_does_not_stand_there_twice() -> None:
    """ "Room 4" became "Room 4 4": the recognition's box met less than half of the found one."""
    found = (own("Room", 875, 1001), own("4", 1020, 1042))
    read = (own("Room", 876, 1000), own("4", 1003, 1026))
    assert [one.text for one in put_together(found, read)] == ["Room", "4"]


def test_a_text_read_with_the_end_of_the_word_before_it_does_not_give_that_twice() -> None:
    """ "Oct 23, 2016" became "Oct 23, 23,2016", and the date was lost."""
    found = (own("Oct 23,", 1594, 1720), own("2016", 1721, 1807))
    read = (own("Oct", 1595, 1655), own("23,2016", 1665, 1809))
    assert [one.text for one in put_together(found, read)] == ["Oct 23,", "2016"]


def test_words_begun_before_the_marks_were_seen_are_read_once_where_the_guess_was_right(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    laid = straighten(page(render(paint("single", 3).pdf, 200)))
    charts = measure(laid, see(laid))
    asked: list[tuple[int, ...]] = []

    def counted(pixels: np.ndarray, **more: object) -> tuple[Word, ...]:
        asked.append(pixels.shape)
        return ()

    monkeypatch.setattr(recognition, "read_strip", counted)
    begun = begin_words(laid, charts, Choices())
    right = report_words(laid, charts, Choices(), begun=begun)
    assert len(asked) == 1
    assert right == report_words(laid, charts, Choices())


def test_words_begun_on_a_wrong_guess_are_read_anew() -> None:
    laid = straighten(page(render(paint("single", 3).pdf, 200)))
    begun = begin_words(laid, measure(laid, see(laid)), Choices())
    assert report_words(laid, (), Choices(), begun=begun) == report_words(laid, (), Choices())
