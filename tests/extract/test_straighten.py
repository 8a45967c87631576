"""Page to sheet: the words read upright, and every position still known on the page."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest
from by_hand import OCTAVES, frequency_words, grid_picture, level_words, page
from drawn_by_hand import LEVELS, plotted, plotted_y, turned

from octavo.extract import straighten as straightening
from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.words import read_words
from octavo.extract.page import Word
from octavo.extract.sheet import Sheet
from octavo.extract.straighten import straighten
from octavo.extract.tilt import find_tilt
from octavo.tools.painter import paint, render

PAINTED = paint("wide", 3)
PICTURE = render(PAINTED.pdf, 110)
LABELS = {w.text for w in PAINTED.words if w.role == "frequency-label"}


def test_a_drawn_page_with_words_of_its_own_is_taken_as_it_is() -> None:
    words = frequency_words() + level_words()
    sheet = straighten(page(grid_picture(), words))
    assert sheet.words == words
    assert sheet.turn_deg == 0
    assert sheet.on_page(499.5, 599.5) == pytest.approx((0.5, 0.5))
    np.testing.assert_array_equal(sheet.pixels, grid_picture())


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_scan_fed_in_sideways_is_turned_until_its_numbers_read(quarters: int) -> None:
    sheet = straighten(page(np.rot90(PICTURE, quarters)))
    assert sheet.pixels.shape == PICTURE.shape
    assert np.abs(sheet.pixels.astype(int) - PICTURE).mean() < 12
    assert len(LABELS & {w.text for w in sheet.words}) >= 0.7 * len(LABELS)


@pytest.mark.parametrize(("quarters", "degrees"), [(0, 2.5), (1, 0.0), (2, -1.5), (3, 0.0)])
def test_a_place_on_the_sheet_is_known_on_the_page_however_that_lay(quarters: int, degrees: float) -> None:
    marked = PICTURE.copy()
    height, width = marked.shape[:2]
    x, y = round(0.85 * width), round(0.9 * height)
    marked[y - 9 : y + 10, x - 9 : x + 10] = (0, 160, 0)
    turn = cv2.getRotationMatrix2D(((width - 1) / 2, (height - 1) / 2), -degrees, 1.0)
    lain = cv2.warpAffine(marked, turn, (width, height), borderValue=(255, 255, 255))
    lain = np.rot90(lain, quarters)
    sheet = straighten(page(np.asarray(lain, np.uint8)))

    def green(picture: np.ndarray) -> tuple[float, float]:
        most = np.maximum(picture[:, :, 0], picture[:, :, 2]).astype(int)
        rows, columns = np.nonzero(picture[:, :, 1] - most > 80)
        return float(columns.mean()), float(rows.mean())

    there, here = green(lain), green(sheet.pixels)
    on_page = sheet.on_page(*here)
    assert on_page[0] * lain.shape[1] - 0.5 == pytest.approx(there[0], abs=0.6)
    assert on_page[1] * lain.shape[0] - 0.5 == pytest.approx(there[1], abs=0.6)
    assert here == pytest.approx((x, y), abs=4)


def test_a_page_without_lines_or_words_is_left_as_it_is() -> None:
    blank = np.full((500, 400, 3), 255, np.uint8)
    sheet = straighten(page(blank))
    np.testing.assert_array_equal(sheet.pixels, blank)
    assert sheet.words == ()
    assert sheet.notes == ()


def test_a_page_that_had_to_be_turned_says_so() -> None:
    assert "skewed" in straighten(page(np.rot90(PICTURE, 2))).notes
    assert "skewed" not in straighten(page(PICTURE)).notes


STEEP = [[10.0 * i for i in range(7)], [10.0 * i + 15 for i in range(7)]]
"""Two curves that fall by 10 dB an octave."""
DOTTED = plotted(STEEP, grid=":", frame=False)


def texts(sheet: Sheet) -> set[str]:
    return {w.text for w in sheet.words}


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_page_whose_only_long_lines_are_steep_joins_is_turned_by_no_more_than_quarters(quarters: int) -> None:
    lain = np.rot90(DOTTED, quarters)
    assert abs(find_tilt(page(lain).pixels).skew_deg) > 20  # what the lines alone would say
    sheet = straighten(page(lain))
    assert sheet.turn_deg == 90 * (-quarters % 4)
    assert ("skewed" in sheet.notes) == bool(quarters)
    np.testing.assert_array_equal(sheet.pixels, DOTTED)
    assert {str(hz) for hz in OCTAVES} <= texts(sheet)


@pytest.mark.parametrize("degrees", [5.0, 12.0, -5.0, -12.0])
def test_a_page_that_truly_lies_turned_is_laid_straight(degrees: float) -> None:
    sheet = straighten(page(turned(plotted(STEEP), degrees)))
    assert sheet.turn_deg == pytest.approx(degrees, abs=0.1)
    assert len({str(hz) for hz in OCTAVES} & texts(sheet)) >= 5
    assert ("skewed" in sheet.notes) == (abs(sheet.turn_deg) > 5)


FEW = [((500, 1000, 2000), (0, 40, 80)), ((1000, 6000, 8000), (0, 10, 60, 80, 100))]
"""Frequencies and levels of two charts; the second's have digits alone that read upside down as well, 0, 1, 6, 8."""


@pytest.mark.parametrize(("hz", "levels"), FEW)
@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_page_with_few_numbers_is_turned_until_they_read(
    hz: tuple[int, ...], levels: tuple[int, ...], quarters: int
) -> None:
    upright = plotted([[20, 30, 45]], hz=hz, levels=levels)
    sheet = straighten(page(np.rot90(upright, quarters)))
    assert sheet.pixels.shape == upright.shape
    assert np.abs(sheet.pixels.astype(int) - upright).mean() < 1
    assert {str(v) for v in (*hz, *levels) if v} <= texts(sheet)


@pytest.mark.parametrize(("level_turn", "upright"), [(90, 90), (270, 270)])
def test_levels_written_on_their_side_are_read_and_make_a_chart(level_turn: int, upright: int) -> None:
    picture = plotted(STEEP, level_turn=level_turn)
    sheet = straighten(page(picture))
    assert sheet.turn_deg == pytest.approx(0, abs=0.05)
    assert {str(v) for v in LEVELS} <= {w.text for w in sheet.words if w.upright == upright}
    (area,) = chart_areas(sheet.words, (picture.shape[1], picture.shape[0]))
    assert area.level.values == LEVELS
    assert area.frequency.values == OCTAVES
    assert area.level.at == pytest.approx([plotted_y(v) for v in LEVELS], abs=2)


def test_words_on_their_side_are_not_looked_for_where_the_levels_stand_upright() -> None:
    assert {w.upright for w in straighten(page(plotted(STEEP))).words} == {0}


LETTER = render(paint("letter", 8).pdf, 150)
"""A page of text, without a chart."""


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_page_of_text_is_turned_until_it_reads(quarters: int) -> None:
    sheet = straighten(page(np.rot90(LETTER, quarters)))
    assert sheet.pixels.shape == LETTER.shape
    assert np.abs(sheet.pixels.astype(int) - LETTER).mean() < 12


def test_an_upright_page_of_text_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    read = []

    def counted(pixels: np.ndarray) -> tuple[Word, ...]:
        read.append(pixels.shape)
        return read_words(pixels)

    monkeypatch.setattr(straightening, "read_words", counted)
    straighten(page(LETTER))
    assert len(read) == 1


def test_a_page_turned_to_see_which_way_is_up_is_not_read_again_for_labels_on_their_side(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It was read six times where a chart had few labels: on a phone's photo each reading takes a fifth of a second."""
    asked: list[tuple[int, ...]] = []

    def reading(grey: np.ndarray) -> tuple[Word, ...]:
        asked.append(grey.shape)
        return frequency_words(OCTAVES[:4]) if len(asked) == 1 else ()

    monkeypatch.setattr(straightening, "read_words", reading)
    assert straighten(page(grid_picture())).words == frequency_words(OCTAVES[:4])
    assert len(asked) == 4


def test_a_page_with_five_labels_in_line_is_not_turned_to_see_which_way_is_up(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[tuple[int, ...]] = []

    def reading(grey: np.ndarray) -> tuple[Word, ...]:
        asked.append(grey.shape)
        return frequency_words(OCTAVES[:5])

    monkeypatch.setattr(straightening, "read_words", reading)
    pixels = np.full((1200, 1000, 3), 255, np.uint8)
    assert straightening._upright(pixels, pixels, np.eye(3), frequency_words(OCTAVES[:5]))[2] == 0
    assert not asked


def test_labels_in_line_in_the_pattern_of_a_table_do_not_say_which_way_is_up(monkeypatch: pytest.MonkeyPatch) -> None:
    # a sheet on its side on a cloth was taken to lie upside down: by chance the cloth's pattern had labels in line
    photo = np.full((1200, 1000, 3), 90, np.uint8)
    photo[200:900, 200:800] = 225
    pattern = tuple(Word("o", (x, y, x + 6.0, y + 6.0), 0.3) for x in range(10, 180, 12) for y in range(10, 1190, 12))
    chance = tuple(replace(w, box=(w.box[0], 1190.0, w.box[2], 1199.0), confidence=0.6) for w in frequency_words())
    labels = frequency_words(y=400)
    read = iter([(*pattern, *chance), (*pattern, *labels)])  # upside down, then turned against the clock
    monkeypatch.setattr(straightening, "read_words", lambda _: next(read))
    assert straightening._upright(photo, photo, np.eye(3), pattern)[2:] == (1, labels)
