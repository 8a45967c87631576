"""The redrawn chart as a file: SVG that any program reads, PDF that opens, values that come through."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pypdfium2
import pytest
from any_records import page_records
from hypothesis import given, settings
from invented_pages import page, rich_page, value

from octavo.interpret.errors import MisuseError
from octavo.interpret.exports.redraw import redrawn_pdf, redrawn_svg, scene_of
from octavo.interpret.exports.redraw.axes import Plot
from octavo.interpret.exports.redraw.chart import one_test
from octavo.interpret.exports.redraw.lettering import width_of
from octavo.interpret.exports.redraw.scene import Circle, Lettering, Line
from octavo.interpret.record import Audiogram, PageRecord, Threshold

PLOT = Plot(0, 0, 60)


def lines(*values: Threshold) -> list[Line]:
    """The joining lines: two points, no mark."""
    drawn = one_test(PLOT, Audiogram(thresholds=values))
    return [item for item in drawn if isinstance(item, Line) and item.stroke and item.stroke.width == 1.3]


def texts(record: PageRecord, language: str = "en") -> list[str]:
    return [item.text for item in scene_of(record, language=language).items if isinstance(item, Lettering)]


def test_neighbouring_air_thresholds_are_joined_and_bone_is_not() -> None:
    air = [value("right", hz, 20) for hz in (500, 1000, 2000)]
    assert len(lines(*air, *(value("right", hz, 10, "bone") for hz in (500, 1000)))) == 2


def test_no_line_runs_to_a_level_that_was_not_heard() -> None:
    assert len(lines(value("left", 1000, 90), value("left", 2000, 110), value("left", 4000, 120, response=False))) == 1


def test_the_right_ear_s_line_is_solid_and_the_left_one_s_dashed() -> None:
    [right] = lines(value("right", 500, 20), value("right", 1000, 20))
    [left] = lines(value("left", 500, 20), value("left", 1000, 20))
    assert right.stroke
    assert left.stroke
    assert (right.stroke.dash, len(left.stroke.dash)) == ((), 2)


def test_the_masked_value_is_joined_where_both_stand() -> None:
    [line] = lines(value("left", 500, 60), value("left", 1000, 60), value("left", 1000, 80, masked=True))
    assert line.points[1][1] > PLOT.y(75)


def test_one_test_gives_one_chart_and_several_give_one_for_each_ear() -> None:
    one, two = (Audiogram(day, thresholds=(value("right", 1000, 20),)) for day in ("2019-01-01", "2021-01-01"))
    assert scene_of(page(one)).width < scene_of(page(one)).height
    assert {"right ear", "left ear"} <= set(texts(page(one, two)))


def test_serial_tests_are_overlaid_by_date_the_latest_in_full_colour() -> None:
    late = Audiogram("2021-01-01", thresholds=(value("right", 1000, 40),))
    early = Audiogram("2019-01-01", thresholds=(value("right", 1000, 20),))
    scene = scene_of(page(late, early))
    rings = [item for item in scene.items if isinstance(item, Circle)][:2]
    assert rings[0].at[1] < rings[1].at[1]
    assert all(a.stroke and b.stroke and a.stroke.colour[1] > b.stroke.colour[1] for a, b in [rings])
    told = texts(page(late, early))
    assert {"1: tested on 2019-01-01", "2: tested on 2021-01-01"} <= set(told)


def test_the_key_names_what_stands_on_the_chart_and_nothing_else() -> None:
    told = texts(page(Audiogram(thresholds=(value("left", 1000, 20, "bone", masked=True, response=False),))))
    assert {"left ear, bone, masked", "no response at this level"} <= set(told)
    assert "right ear, air" not in told
    assert "open to question: look at the original" not in told


def test_nobody_is_named_on_the_sheet() -> None:
    assert "Invented" not in redrawn_svg(rich_page())


def test_the_caution_stands_on_every_sheet() -> None:
    assert any("not a diagnosis" in text for text in texts(rich_page()))


def test_the_sheet_speaks_spanish() -> None:
    assert {"Audiograma", "oído derecho, vía aérea"} <= set(texts(page(rich_page().audiograms[0]), "es"))
    with pytest.raises(MisuseError, match="there are no words in 'la'"):
        scene_of(rich_page(), language="la")


def test_svg_is_sound_and_says_every_value_in_words() -> None:
    root = ElementTree.fromstring(redrawn_svg(page(rich_page().audiograms[0])))
    space = "{http://www.w3.org/2000/svg}"
    described = root.findtext(f"{space}desc") or ""
    assert "right ear, air: 250 Hz 20 dB HL" in described
    assert "4000 Hz 60 dB HL (to check)" in described
    assert "4000 Hz not heard at 120 dB HL" in described


def test_a_file_s_name_cannot_write_into_the_svg() -> None:
    record = rich_page()
    hostile = replace(record, source=replace(record.source, name='</text><script>"&\x1b\udc80.pdf'))
    svg = redrawn_svg(hostile)
    assert "<script" not in svg
    ElementTree.fromstring(svg.encode("utf-8"))


def test_a_pdf_has_a_page_for_each_record_and_is_the_same_every_time() -> None:
    pdf = redrawn_pdf([rich_page(), page(rich_page().audiograms[1])])
    document = pypdfium2.PdfDocument(pdf)
    try:
        assert len(document) == 2
        text = document[0].get_textpage().get_text_range()
    finally:
        document.close()
    assert "harbour-lane-07.tif, page 2 of 3" in text
    assert redrawn_pdf([rich_page(), page(rich_page().audiograms[1])]) == pdf


def test_brackets_and_letters_beyond_latin_do_not_break_a_pdf() -> None:
    record = page(rich_page().audiograms[1])
    named = replace(record, source=replace(record.source, name=r"(a\ b) 日本 é.pdf"))
    document = pypdfium2.PdfDocument(redrawn_pdf([named]))
    try:
        text = document[0].get_textpage().get_text_range()
    finally:
        document.close()
    assert r"(a\ b) ?? é.pdf" in text


def test_the_pdf_s_table_of_objects_points_at_them() -> None:
    pdf = redrawn_pdf([rich_page()])
    start = int(re.findall(rb"startxref\n(\d+)", pdf)[0])
    assert pdf[start : start + 4] == b"xref"
    for number, place in enumerate(re.findall(rb"(\d{10}) 00000 n", pdf), 1):
        assert pdf[int(place) :].startswith(b"%d 0 obj" % number)


def test_words_are_as_wide_as_the_font_says() -> None:
    # Adobe's metrics of Helvetica: A 667, space 278, i 222.
    assert width_of("A i", 10) == pytest.approx(11.67)


def test_a_page_without_values_cannot_be_drawn() -> None:
    with pytest.raises(MisuseError, match="holds no threshold to draw"):
        redrawn_svg(page(Audiogram()))


@given(page_records())
@settings(max_examples=40, deadline=None)
def test_any_record_with_values_can_be_drawn(record: PageRecord) -> None:
    if any(one.thresholds for one in record.audiograms):
        ElementTree.fromstring(redrawn_svg(record).encode("utf-8"))
        assert redrawn_pdf([record]).startswith(b"%PDF-1.4")


def test_tests_without_a_date_are_not_called_the_latest() -> None:
    tests = [Audiogram(day, thresholds=(value("right", 1000, 20),)) for day in ("2021-01-01", None)]
    told = texts(page(*tests))
    assert any("in the order of the page" in text for text in told)
    assert not any("latest" in text for text in told)


def test_numbers_of_lines_that_end_together_stand_side_by_side() -> None:
    tests = [Audiogram(f"20{n}-01-01", thresholds=(value("right", 1000, 20),)) for n in (18, 19, 20)]
    scene = scene_of(page(*tests))
    ends = [item.at for item in scene.items if isinstance(item, Lettering) and item.text in ("1", "2", "3")]
    assert len({x for x, _ in ends}) == 3


def test_a_long_key_stays_above_the_caution() -> None:
    kinds = [
        value(ear, 1000, 20, conduction, masked=masked)
        for ear in ("right", "left")
        for conduction in ("air", "bone")
        for masked in (False, True)
    ]
    more = [value("both", 1000, 20, "field"), value("unspecified", 500, 10, "bone")]
    loud = [replace(value(ear, 1000, 90), measure=measure) for ear in ("right", "left") for measure in ("mcl", "ucl")]
    tests = [Audiogram(f"20{n}-01-01", thresholds=(*kinds, *more, *loud)) for n in (17, 18, 19, 20)]
    scene = scene_of(page(*tests))
    caution = min(i.at[1] for i in scene.items if isinstance(i, Lettering) and "not a diagnosis" in i.text)
    key = max(i.at[1] for i in scene.items if isinstance(i, Lettering) and i.size == 8.5)
    assert key < caution - 8
