"""Tables of thresholds are read where a page holds no chart, every value to be looked at; other tables are not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np
import pytest
from by_hand import SIZE, frequency_words, level_words, sheet, word, x_of

from octavo.extract.choices import Choices
from octavo.extract.intake import pages
from octavo.extract.page import Page, Word
from octavo.extract.road import read_page
from octavo.extract.table import read_tables
from octavo.extract.table.rows.layout import layout_of
from octavo.extract.table.rows.lines import frequency_lines
from octavo.interpret.record import Threshold
from octavo.tools.painter import paint, render
from octavo.tools.painter.spoiling import spoil, write_file

HZ = (500, 1000, 2000, 4000)
ROWS = {"Right air": ("25", "30", "45", "60"), "Left air masked": ("20", "20", "110+", "55")}


def table(
    rows: Mapping[str, Sequence[str]], *, down: bool = False, at: tuple[float, float] = (300.0, 300.0)
) -> list[Word]:
    """Print a table: frequencies along the top and ears at the left, or ``down`` the other way round."""
    x0, y0 = at
    words = [word(f"{hz}", x0, y0 + 50 * i) if down else word(f"{hz}", x0 + 100 * i, y0) for i, hz in enumerate(HZ)]
    for number, (label, cells) in enumerate(rows.items(), 1):
        parts = label.split()
        for i, part in enumerate(parts):
            across = x0 + 200 * number + 45 * (i - len(parts) / 2)
            words.append(word(part, across, y0 - 50) if down else word(part, x0 - 220 + 60 * i, y0 + 50 * number))
        for i, text in enumerate(cells):
            if text:
                place = (x0 + 200 * number, y0 + 50 * i) if down else (x0 + 100 * i, y0 + 50 * number)
                words.append(word(text, *place))
    return words


def tables_of(
    words: list[Word],
) -> tuple[tuple[tuple[Threshold, ...], ...], set[tuple[str, str | None, str | None, float | None]]]:
    page = sheet(words=tuple(words), pixels=np.full((SIZE[1], SIZE[0], 3), 255, np.uint8))
    found = read_tables(page, page.words, "one-reading")
    remarks = {(r.code, r.ear, r.conduction, r.frequency_hz) for r in found.remarks}
    return tuple(table.thresholds for table in found.tables), remarks


@pytest.mark.parametrize("down", [False, True])
def test_every_cell_of_a_table_is_a_value_to_look_at(down: bool) -> None:
    (values,), remarks = tables_of(table(ROWS, down=down))
    assert {(t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl, t.response) for t in values} == {
        *(("right", "air", False, hz, level, True) for hz, level in zip(HZ, (25, 30, 45, 60), strict=True)),
        *(("left", "air", True, hz, level, hz != 2000) for hz, level in zip(HZ, (20, 20, 110, 55), strict=True)),
    }
    assert {t.standing for t in values} == {"ask"}
    assert all(t.seen is not None and t.seen.chart is None for t in values)
    assert not remarks


def test_bone_and_words_of_other_languages_name_their_rows() -> None:
    rows = {"Rechts Knochenleitung": ("5", "10", "15", "20"), "Oreille gauche": ("30", "30", "30", "35")}
    (values,), _ = tables_of(table(rows))
    assert {(t.ear, t.conduction) for t in values} == {("right", "bone"), ("left", "air")}


def test_a_row_named_for_the_other_ear_than_its_heading_is_doubted_and_stays_the_headings() -> None:
    # on a coarse fax "CO" (bone, in French) was read as "OD", which names the right ear
    words = [*table({"CA": ("25", "30", "45", "60"), "OD CO": ("20", "25", "40", "55")}), word("Gauche", 80.0, 250.0)]
    (values,), _ = tables_of(words)
    assert {t.ear for t in values} == {"left"}
    (line,) = frequency_lines(words)
    layout = layout_of(words, line, ())
    assert layout is not None
    assert [row.doubtful for row in layout.rows] == [False, True]


def test_a_row_without_values_is_no_heading_of_the_rows_below() -> None:
    rows = {"Right air": ("", "", "", ""), "Right bone": ("5", "10", "10", "5"), "Left air": ("20", "20", "35", "55")}
    (values,), _ = tables_of(table(rows))
    assert {(t.ear, t.conduction) for t in values} == {("right", "bone"), ("left", "air")}


def test_a_named_row_whose_cells_were_not_understood_is_told_and_does_not_end_the_table() -> None:
    # levels in brackets, each read as "(65?": the rows below them were lost without a word
    rows = {
        "Right air": ("25", "30", "45", "60"),
        "Right bone": ("(1?", "(6?", "(5?", "(8?"),
        "Left air": ("20", "20", "35", "55"),
    }
    (values,), remarks = tables_of(table(rows))
    assert {t.ear for t in values if t.conduction == "air"} == {"right", "left"}
    assert "table-row-unread" in {code for code, *_ in remarks}


def test_a_cell_that_is_no_level_is_told() -> None:
    (values,), remarks = tables_of(table({"Right air": ("25", "4%", "45", "60"), "Left air": ("20", "", "20", "20")}))
    assert len(values) == 6
    assert remarks == {("missing-expected", "right", "air", 1000)}


def test_high_levels_at_the_tones_of_reflexes_alone_are_no_thresholds_where_a_title_may_be_lost() -> None:
    # common practice: acoustic reflexes of 70 to 110 dB HL at 500, 1000, 2000 and 4000 Hz
    tables, remarks = tables_of(table({"Right air": ("85", "90", "90", "100"), "Left air": ("80", "85", "95", "95")}))
    assert tables == ()
    assert {code for code, *_ in remarks} == {"table-row-unread"}


def test_two_tables_are_two_tests() -> None:
    tables, _ = tables_of(table(ROWS) + table({"Right air": ("40", "40", "50", "65")}, at=(300.0, 700.0)))
    assert sorted(len(values) for values in tables) == [4, 8]


@pytest.mark.parametrize(
    "words",
    [
        [*table(ROWS), word("Reflex", 200, 120)],
        [*table(ROWS), word("Noise", 200, 120)],
        table({"Price": ("25", "30", "45", "60"), "Tax": ("20", "20", "10", "55")}),
        table({"Right air": ("23", "31", "47", "62"), "Left air": ("21", "28", "17", "53")}),
        table({"Right ipsi": ("85", "85", "90", "90"), "Left ipsi": ("90", "85", "85", "95")}),
        table({"Right masking": ("40", "40", "45", "60"), "Left masking": ("40", "40", "45", "60")}),
    ],
    ids=["reflexes", "noise", "no ears", "no steps of 5 dB", "ipsilateral", "levels of the masking noise"],
)
def test_other_tables_by_frequency_are_not_read(words: list[Word]) -> None:
    tables, remarks = tables_of(words)
    assert tables == ()
    assert {code for code, *_ in remarks} <= {"table-row-unread"}


@pytest.mark.parametrize("family", ["reflexes", "screening", "room-noise", "price-list"])
def test_pages_with_tables_of_other_kinds_give_no_value(family: str, tmp_path: Path) -> None:
    file = tmp_path / "page.pdf"
    for seed in range(2):
        file.write_bytes(paint(family, seed).pdf)
        read = next(iter(pages(file)))
        assert isinstance(read, Page)
        record = read_page(read, Choices())
        assert not [t for a in record.audiograms for t in a.thresholds]


def test_numbers_by_hand_in_a_scanned_table_are_read_or_asked_about(tmp_path: Path) -> None:
    file, right, wrong = tmp_path / "page.png", 0, 0
    for seed in (5, 7):
        page = paint("pen-register", seed)
        write_file(spoil(render(page.pdf, 300), "scan", seed, dpi=300), "scan", file)
        read = next(iter(pages(file)))
        assert isinstance(read, Page)
        record = read_page(read, Choices())
        assert (record.source.taken_by, record.standing) == ("table", "ask")
        said = {
            (t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl)
            for a in record.audiograms
            for t in a.thresholds
        }
        true = {
            (t.ear, t.conduction, t.masked, t.frequency_hz, t.level_db_hl)
            for a in page.record.audiograms
            for t in a.thresholds
        }
        right, wrong = right + len(said & true), wrong + len(said - true)
    assert right > 4 * wrong


def test_the_axes_of_a_chart_are_no_table() -> None:
    title = (word("Left", x_of(500), 100), word("ear", x_of(700), 100))
    tables, _ = tables_of([*title, *frequency_words((250, 500, 1000, 2000)), *level_words(x=x_of(250) + 10)])
    assert tables == ()


def test_a_table_of_which_one_row_is_named_and_the_others_are_not_is_told() -> None:
    # one column of "no response (70)" had a head of its own; the page stood as one without an audiogram, and sure
    words = table({"Right": ("DNT", "", "", "70+"), "Ganz": ("25", "30", "45", "60"), "Halb": ("20", "20", "35", "55")})
    tables, remarks = tables_of(words)
    assert tables == () or all(t.standing == "ask" for one in tables for t in one)
    assert "table-row-unread" in {code for code, *_ in remarks}
