"""A row of frequencies that nobody can read word by word is read as a whole, and never so that its values stand."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from by_hand import LEFT, OCTAVES, SIZE, TOP, frequency_words, level_words, x_of
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.eyes.axes.level import level_runs
from octavo.extract.eyes.words.jointly import with_joint_rows
from octavo.extract.measure import SURE_LABELS
from octavo.extract.page import Pixels, Word

HEIGHT, Y = 12.0, TOP - 30
COARSE = 2.4
"""Pixels of the picture for each of the fax that it went through."""


def faxed_row(texts: dict[int, str]) -> tuple[Pixels, tuple[Word, ...]]:
    """Print texts where frequencies stand, send them through a fax too coarse to read them, and box them unread."""
    picture = Image.new("L", SIZE, 255)
    draw = ImageDraw.Draw(picture)
    font = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", 1.37 * HEIGHT)
    words = []
    for hz, text in texts.items():
        draw.text((x_of(hz), Y), text, font=font, fill=0, anchor="mm")
        half = font.getlength(text) / 2
        words.append(Word("?", (x_of(hz) - half, Y - HEIGHT / 2, x_of(hz) + half, Y + HEIGHT / 2), 0.2))
    whole = np.asarray(picture)
    small = cv2.resize(whole, None, fx=1 / COARSE, fy=1 / COARSE, interpolation=cv2.INTER_AREA)
    coarse = np.where(small < 150, 0, 255).astype(np.uint8)
    return np.asarray(cv2.resize(coarse, SIZE, interpolation=cv2.INTER_NEAREST), np.uint8), tuple(words)


def jointly_read(texts: dict[int, str]) -> tuple[Word, ...]:
    picture, row = faxed_row(texts)
    words = level_words(x=LEFT - 50) + row
    assert chart_areas(words, SIZE) == ()
    return with_joint_rows(picture, words, frequency_runs(words), level_runs(words), ())


def test_labels_that_a_coarse_fax_leaves_unreadable_are_read_by_their_places_together() -> None:
    words = jointly_read({hz: str(hz) for hz in OCTAVES})
    (run,) = frequency_runs(words)
    assert len(run.values) >= len(OCTAVES) - 1  # one at an end may tell nothing
    assert run.at == pytest.approx([x_of(hz) for hz in run.values])
    assert len(chart_areas(words, SIZE)) == 1
    assert sum(run.confidences) < SURE_LABELS  # every value on such an axis asks


@pytest.mark.parametrize("texts", [
    dict(zip(OCTAVES, ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul"), strict=True)),
    dict(zip(OCTAVES, ("10", "20", "30", "40", "50", "60", "70"), strict=True)),
    dict(zip(OCTAVES, ("8000", "4000", "2000", "1000", "500", "250", "125"), strict=True)),
])  # fmt: skip
def test_a_row_of_other_words_below_or_above_a_column_of_numbers_is_no_axis(texts: dict[int, str]) -> None:
    assert {w.text for w in jointly_read(texts)} == {"?", *(w.text for w in level_words())}


def test_labels_of_one_chart_are_read_beside_another_whose_row_is_in_the_same_line() -> None:
    # of three charts side by side one was lost: its labels and its neighbours' were taken for one line
    away = 850.0
    picture, row = faxed_row({hz: str(hz) for hz in OCTAVES})
    neighbours = tuple(
        Word(w.text, (w.box[0] + away, w.box[1], w.box[2] + away, w.box[3]), w.confidence)
        for w in (*frequency_words(y=Y), *level_words())
    )
    words = level_words() + row + neighbours
    size = (2 * SIZE[0], SIZE[1])
    wide = np.pad(picture, ((0, 0), (0, SIZE[0])), constant_values=255)
    areas = chart_areas(words, size)
    assert len(areas) == 1
    read = with_joint_rows(wide, words, frequency_runs(words), level_runs(words), areas)
    assert read[-len(neighbours) :] == neighbours
    assert len(chart_areas(read, size)) == 2
