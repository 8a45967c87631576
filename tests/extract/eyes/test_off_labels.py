"""The characters of a chart's labels are no marks: a nought printed large is a small circle to the network."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from by_hand import LEFT, LEVELS, OCTAVES, grid_picture, mark, word, x_of, y_of
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes import see
from octavo.extract.page import Word
from octavo.extract.sheet import Sheet
from octavo.extract.sightings import KeyLine
from octavo.interpret.symbols import Glyph

HEIGHT = 30
"""How high the digits are; the marks below are as high."""
THRESHOLDS = dict(zip(OCTAVES, (25, 15, 35, 45, 65, 75, 85), strict=True))


def large_labels() -> Sheet:
    """Draw a chart with large labels, the frequencies along the line of 0 dB, and seven circles."""
    picture = Image.fromarray(grid_picture())
    draw = ImageDraw.Draw(picture)
    font = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", round(1.37 * HEIGHT))
    words: list[Word] = []
    for hz in OCTAVES:
        at = x_of(hz), y_of(0) - 0.8 * HEIGHT
        draw.text(at, str(hz), font=font, fill=(0, 0, 0), anchor="mm")
        words.append(word(str(hz), *at, height=HEIGHT))
    for level in LEVELS:
        draw.text((LEFT - 20, y_of(level)), str(level), font=font, fill=(0, 0, 0), anchor="rm")
        words.append(word(str(level), LEFT - 20 - 0.28 * HEIGHT * len(str(level)), y_of(level), height=HEIGHT))
    for hz, level in THRESHOLDS.items():
        x, y = x_of(hz), y_of(level)
        draw.ellipse([x - 14, y - 14, x + 14, y + 14], outline=(200, 0, 0), width=3)
    return Sheet(np.asarray(picture), np.eye(3), picture.size, "drawn", tuple(words), (), 0.0)


@pytest.mark.parametrize(("at", "size", "kept"), [
    ((x_of(1000) + 20, y_of(0) - 24), 16, False),  # a nought of "1000", printed above the line of 0 dB
    ((LEFT - 30, y_of(60)), 16, False),  # the nought of "60"
    ((x_of(1000), y_of(0) - 24), 44, True),  # a mark larger than the labels' characters, over one
    ((x_of(1000), y_of(15)), 16, True),
    ((x_of(1000) + 50, y_of(0) - 24), 16, True),
    ((x_of(1000), y_of(60)), 16, True),
    ((LEFT - 28, y_of(0)), 16, False),  # the lone nought, right of the column's middle
    ((LEFT - 130, y_of(60)), 44, False),  # a letter of the axis' title, left of the column
])  # fmt: skip
def test_what_is_as_small_as_a_label_and_stands_in_one_is_no_mark(
    at: tuple[float, float], size: float, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    circle = replace(mark("circle", 1000, 40).sight, at=at, size=(size, size))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (circle,))
    assert bool(see(large_labels()).marks) == kept


@pytest.mark.parametrize(("below", "kept"), [(126, False), (122, True)], ids=["beneath the plot", "on its edge"])
def test_a_specimen_of_a_key_beneath_the_plot_is_no_mark(
    below: float, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    # the cross of a key under a form's plot stood for the left ear's value, and its threshold was dropped for it
    sight = replace(mark("cross", 1000, below).sight, size=(16.0, 16.0))
    line = KeyLine("cross", "neutral", "left air", 0.9, (sight.at[0] + 3, sight.at[1]))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (sight,))
    monkeypatch.setattr("octavo.extract.eyes.key_lines", lambda *_: (line,))
    assert bool(see(large_labels()).marks) == kept


def test_the_noughts_of_large_labels_are_no_circles_and_circles_beside_them_are() -> None:
    seen = see(large_labels())
    clear = [m for m in seen.marks if m.score > 0.4]
    assert {m.glyph for m in clear} == {"circle"}
    places = sorted(m.at for m in clear)
    wanted = [(x_of(hz), y_of(level)) for hz, level in THRESHOLDS.items()]
    assert len(places) == len(wanted)
    for here, there in zip(places, wanted, strict=True):
        assert here == pytest.approx(there, abs=3)


@pytest.mark.parametrize(("level", "kept"), [(120, True), (150, False)])
def test_the_specimens_of_a_key_below_the_row_of_frequencies_are_no_marks(
    level: float, monkeypatch: pytest.MonkeyPatch, *, kept: bool
) -> None:
    # seen on a page: the circle and the cross of its key were read at 125 Hz, beyond the last level
    words = [word(str(hz), x_of(hz), y_of(135)) for hz in OCTAVES]
    words += [word(str(db), LEFT - 40, y_of(db)) for db in LEVELS]
    below = Sheet(grid_picture(), np.eye(3), (1000, 1200), "drawn", tuple(words), (), 0.0)
    circle = replace(mark("circle", 1000, 40).sight, at=(x_of(OCTAVES[0]), y_of(level)))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (circle,))
    assert bool(see(below).marks) == kept


@pytest.mark.parametrize(("glyph", "kept"), [("bracket-left", True), ("circle", False)])
def test_bone_beside_the_first_frequency_is_kept_where_it_reaches_past_the_levels(
    glyph: Glyph, monkeypatch: pytest.MonkeyPatch, *, kept: bool
) -> None:
    # seen on scans: large brackets at 250 Hz covered the printed levels, and were missed without a word
    bone = replace(mark("circle", 1000, 40).sight, glyph=glyph, at=(x_of(OCTAVES[0]) - 64, y_of(45)), size=(40, 60))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (bone,))
    assert bool(see(large_labels()).marks) == kept


@pytest.mark.parametrize(("x", "kept"), [(x_of(1000) + 40, False), (x_of(2000) + 20, False), (x_of(1000) + 80, True)])
def test_the_noughts_of_a_label_in_groups_of_digits_are_no_circles_whether_its_first_digit_was_read_or_not(
    x: float, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    circle = replace(mark("circle", 1000, 40).sight, at=(x, y_of(-10) - 40), size=(16, 24))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (circle,))
    row = [word(str(hz), x_of(hz), y_of(-10) - 40, height=HEIGHT) for hz in OCTAVES if hz not in (1000, 2000)]
    row += [word("1 000", x_of(1000), y_of(-10) - 40, height=HEIGHT)]
    row += [word("000", x_of(2000) + 12, y_of(-10) - 40, height=HEIGHT)]
    levels = [word(str(v), LEFT - 20 - 0.28 * HEIGHT * len(str(v)), y_of(v), height=HEIGHT) for v in LEVELS]
    sheet = Sheet(grid_picture(), np.eye(3), (1000, 1200), "drawn", (*row, *levels), (), 0.0)
    assert bool(see(sheet).marks) == kept
