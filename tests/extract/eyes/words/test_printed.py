"""The reader of print on words set by Pillow in a face of Matplotlib's own."""

from __future__ import annotations

from pathlib import Path

import matplotlib
import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes.words.printed import CHARSET, HEIGHT, WIDEST, classes_of, printed_crop, read_printed

FACE = Path(matplotlib.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"


def printed(text: str, size: int = 30) -> tuple[np.ndarray, tuple[float, float, float, float]]:
    """Set a text among others on its line; give the page, and the word's sides with its line's height."""
    font = ImageFont.truetype(str(FACE), size)
    picture = Image.new("L", (800, 120), 255)
    draw = ImageDraw.Draw(picture)
    draw.text((150, 40), text, font=font, fill=0)
    left, _, right, _ = draw.textbbox((150, 40), text, font=font)
    _, top, _, bottom = draw.textbbox((150, 40), "Ag", font=font)
    return np.array(picture), (float(left), float(top), float(right), float(bottom))


@pytest.mark.parametrize("text", ["Müller,", "Überweisung", "GOOD", "vos", "VOS", "-17.5", "105", "14.11.1979"])
def test_words_are_read_with_their_capitals_accents_and_signs(text: str) -> None:
    grey, box = printed(text)
    assert read_printed(grey, [box])[0].text == text


def test_a_word_is_as_high_as_its_line_and_a_long_one_is_squeezed() -> None:
    grey, box = printed("one")
    crop = printed_crop(grey, box)
    rows = np.nonzero((crop < 128).any(axis=1))[0]
    assert crop.shape[0] == HEIGHT
    assert 8 < np.ptp(rows) < 16  # small letters in a line 20 pixels high
    grey, box = printed("Sprachverständlichkeitsschwelle")
    assert printed_crop(grey, box).shape == (HEIGHT, WIDEST)


def test_words_of_many_widths_come_back_in_their_order_and_none_costs_nothing() -> None:
    one, other = printed("Datum"), printed("Sprachaudiometrie")
    grey = np.vstack([one[0], other[0]])
    boxes = [(b[0], b[1] + shift, b[2], b[3] + shift) for (_, b), shift in ((other, 120), (one, 0), (other, 120))]
    assert [r.text for r in read_printed(grey, boxes)] == ["Sprachaudiometrie", "Datum", "Sprachaudiometrie"]
    assert read_printed(grey, []) == ()


def test_every_sign_has_a_class_of_its_own() -> None:
    assert len(set(CHARSET)) == len(CHARSET)
    assert classes_of("a\u2212\u2013") == classes_of("a--")
    assert classes_of("\u03a9") == classes_of("~")
