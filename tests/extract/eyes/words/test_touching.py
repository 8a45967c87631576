"""Labels that touch on a narrow chart: each octave is read where the clear ones say that it stands."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import OCTAVES, frequency_words, x_of
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.eyes.words.touching import with_heads, with_touching
from octavo.extract.page import Word

HEIGHT, Y = 16.0, 100
REACH = 23
"""How far a clear label reaches from its middle, in pixels, and a little more."""
CLEAR = (125, 250, 500)
BETWEEN = (750, 1500, 3000, 6000)


def font_of(size: float) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", size)


def row_picture(rest: dict[float, str]) -> np.ndarray:
    """Print 125, 250 and 500 and after them other texts, inter-octaves smaller, so that those touch."""
    picture = Image.new("L", (1100, 200), 255)
    draw = ImageDraw.Draw(picture)
    for hz, text in ({hz: str(hz) for hz in CLEAR} | rest).items():
        size = 1.37 * HEIGHT * (0.8 if hz in BETWEEN else 1.0)
        draw.text((x_of(hz), Y), text, font=font_of(size), fill=0, anchor="mm")
    return np.asarray(picture)


def words_of(picture: np.ndarray) -> tuple[Word, ...]:
    """Give the clear labels as read, and all the rest as one long word that nobody could read."""
    dark = np.flatnonzero((picture < 128).any(axis=0))
    top, bottom = Y - HEIGHT / 2, Y + HEIGHT / 2
    clear = []
    for hz in CLEAR:
        own = dark[np.abs(dark - x_of(hz)) < REACH]
        clear.append(Word(str(hz), (float(own.min()), top, float(own.max()), bottom), 0.99))
    rest = dark[dark > x_of(500) + REACH]
    return (*clear, Word("oo40006or8000", (float(rest.min()), top, float(rest.max()), bottom), 0.4))


def test_octaves_that_touch_smaller_labels_between_them_are_read() -> None:
    picture = row_picture({hz: str(hz) for hz in (750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)})
    words = words_of(picture)
    (before,) = frequency_runs(words)
    assert before.values == CLEAR
    (run,) = frequency_runs(with_touching(picture, words, (before,)))
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES], abs=3)  # set by the clear three


@pytest.mark.parametrize(
    "rest",
    [
        {1000: "1500", 2000: "3000", 4000: "6000", 8000: "9000"},
        {2000: "Frequency in Hertz"},
        {1000: "750", 1400: "1000", 2000: "1500", 2800: "2000", 4000: "3000"},
    ],
    ids=["other frequencies", "words", "equal steps"],
)
def test_what_stands_where_octaves_are_expected_and_says_something_else_is_left_as_it_was(rest: dict) -> None:
    picture = row_picture(rest)
    words = words_of(picture)
    assert with_touching(picture, words, frequency_runs(words)) == words


def test_a_row_without_a_long_word_is_not_looked_at() -> None:
    words = frequency_words()
    assert with_touching(np.zeros((1, 1), np.uint8), words, frequency_runs(words)) == words


def test_a_box_without_text_where_a_label_stands_stops_nothing() -> None:
    # on a copy of a copy it did: a text's width was shared out among no characters
    picture = row_picture({hz: str(hz) for hz in (750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)})
    words = words_of(picture)
    (before,) = frequency_runs(words)
    words = (*words, Word("", words[0].box, 0.1))
    (run,) = frequency_runs(with_touching(picture, words, (before,)))
    assert run.values == OCTAVES


def test_labels_of_which_the_noughts_alone_were_seen_are_read_with_their_head() -> None:
    # on faxes "2 000" was seen as "000", for the space after its first figure
    texts = {500: "500", 1000: "1 000", 2000: "2 000", 4000: "4 000", 8000: "8 000"}
    picture = Image.new("L", (1100, 200), 255)
    draw = ImageDraw.Draw(picture)
    words = []
    for hz, text in texts.items():
        font = font_of(1.37 * HEIGHT)
        draw.text((x_of(hz), Y), text, font=font, fill=0, anchor="mm")
        right = x_of(hz) + font.getlength(text) / 2 - 1
        left = right - font.getlength("000") + 2
        words.append(Word(text[-3:], (left, Y - HEIGHT / 2, right, Y + HEIGHT / 2), 0.9))
    read = with_heads(np.asarray(picture), tuple(words))
    assert [w.text for w in read] == list(texts.values())
    assert [(w.box[0] + w.box[2]) / 2 for w in read] == pytest.approx([x_of(hz) for hz in texts], abs=0.3 * HEIGHT)
