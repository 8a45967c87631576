"""Arrows behind levels, set by Pillow in a face that has one, and drawn by OpenCV as faxes leave them."""

from __future__ import annotations

from pathlib import Path

import matplotlib
import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.page import Pixels, Word
from octavo.extract.shades import grey_of
from octavo.extract.table.cells.arrows import with_arrows

FACE = Path(matplotlib.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"


def printed(text: str, size: int) -> tuple[Pixels, tuple[float, float, float, float]]:
    picture = Image.new("RGB", (300, 100), "white")
    draw = ImageDraw.Draw(picture)
    draw.text((60, 30), text, font=ImageFont.truetype(str(FACE), size), fill="black")
    box = draw.textbbox((60, 30), text, font=ImageFont.truetype(str(FACE), size))
    left, top, right, bottom = (float(v) for v in box)
    return np.array(picture), (left, top, right, bottom)


@pytest.mark.parametrize("size", [18, 24, 36])
@pytest.mark.parametrize(("text", "read", "told"), [
    ("105\u2193", "1051", "105\u2193"), ("80\u2193", "80L", "80\u2193"), ("45\u2193", "45", "45\u2193"),
    ("115\u2193", "115v", "115\u2193"), ("115\u2193*", "1151*", "115\u2193*"), ("70\u2193*", "701*", "70\u2193*"),
    ("[60\u2193]", "[60L]", "[60\u2193]"), ("(105\u2193)", "(1051)", "(105\u2193)"),
])  # fmt: skip
def test_an_arrow_behind_a_level_is_read_whatever_letter_it_was_taken_for(
    size: int, text: str, read: str, told: str
) -> None:
    pixels, box = printed(text, size)
    (word,) = with_arrows(grey_of(pixels), (Word(read, box, 0.8, others=((read, 0.7),)),))
    assert (word.text, word.others[0][0]) == (told, told)


@pytest.mark.parametrize("size", [18, 24, 36])
@pytest.mark.parametrize(
    "text",
    [
        "105",
        "110",
        "75",
        "40+",
        "35*",
        "71",
        "14",
        "55m",
        "90V",
        "60Y",
        "20T",
        "45!",
        "70+*",
        "[115]",
        "(71)",
        "40*",
        "75m",
    ],
)
def test_digits_letters_and_signs_are_no_arrows(size: int, text: str) -> None:
    pixels, box = printed(text, size)
    word = Word(text, box, 0.8)
    assert with_arrows(grey_of(pixels), (word,)) == (word,)
