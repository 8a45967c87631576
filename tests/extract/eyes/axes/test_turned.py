"""Frequencies printed on their side, as programs set them where they would touch: one row, read at their places."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from by_hand import LEFT, OCTAVES, TOP, frequency_words, grid_picture, level_words, mark, page, word, x_of, y_of
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.eyes import see
from octavo.extract.eyes.axes.areas import chart_areas
from octavo.extract.eyes.axes.frequency import frequency_runs
from octavo.extract.page import Word
from octavo.extract.sheet import Sheet
from octavo.extract.straighten import straighten

HEIGHT = 14.0
WAYS = (90, 270)
SIZE = (1000, 1200)


def sideways(text: str, x: float, y: float, upright: int, share: float) -> Word:
    """Print a word on its side, so much of it above ``y``: each box is as wide as the text is high."""
    long = 0.56 * HEIGHT * len(text)
    box = (x - HEIGHT / 2, y - share * long, x + HEIGHT / 2, y + (1 - share) * long)
    return Word(text, box, 0.99, upright)


def row_of(texts: list[str], upright: int, share: float) -> tuple[Word, ...]:
    return tuple(sideways(text, x_of(hz), TOP - 10, upright, share) for text, hz in zip(texts, OCTAVES, strict=True))


@pytest.mark.parametrize("upright", WAYS)
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0], ids=["begin at the axis", "centred", "end at the axis"])
@pytest.mark.parametrize(
    "texts", [[str(hz) for hz in OCTAVES], [f"{hz / 1000:g}".replace(".", ",") for hz in OCTAVES]], ids=["Hz", "kHz"]
)
def test_frequencies_on_their_side_are_a_row_at_their_places(upright: int, share: float, texts: list[str]) -> None:
    (run,) = frequency_runs(row_of(texts, upright, share))
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES])
    assert run.across == pytest.approx(TOP - 10)
    assert run.text_height == pytest.approx(HEIGHT)


@pytest.mark.parametrize("upright", WAYS)
def test_a_unit_behind_a_frequency_on_its_side_belongs_to_it(upright: int) -> None:
    way = -1 if upright == 90 else 1
    numbers = tuple(sideways(str(hz), x_of(hz), TOP, upright, 0.5) for hz in OCTAVES)
    units = tuple(
        sideways("Hz", x_of(hz), TOP + way * (0.28 * HEIGHT * (len(str(hz)) + 2) + 5), upright, 0.5) for hz in OCTAVES
    )
    (run,) = frequency_runs(numbers + units)
    assert run.values == OCTAVES


def test_frequencies_that_lie_differently_are_no_row() -> None:
    words = [sideways(str(hz), x_of(hz), TOP, WAYS[i % 2], 0.0) for i, hz in enumerate((500, 1000, 2000, 4000))]
    assert frequency_runs(tuple(words)) == ()


@pytest.mark.parametrize("upright", WAYS)
def test_a_row_on_its_side_and_a_column_make_a_chart(upright: int) -> None:
    (area,) = chart_areas((*row_of([str(hz) for hz in OCTAVES], upright, 1.0), *level_words()), SIZE)
    assert area.frequency.values == OCTAVES


def scan(clockwise: int) -> np.ndarray:
    """Draw a chart whose frequencies stand on their side above it."""
    picture = Image.fromarray(grid_picture())
    font = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", 20)
    draw = ImageDraw.Draw(picture)
    for one in level_words():
        draw.text((one.box[2], (one.box[1] + one.box[3]) / 2), one.text, font=font, fill=(0, 0, 0), anchor="rm")
    for hz in OCTAVES:
        label = Image.new("L", (100, 24), 255)
        ImageDraw.Draw(label).text((0, 12), str(hz), font=font, fill=0, anchor="lm")
        turned = label.crop((0, 0, int(font.getlength(str(hz))) + 1, 24)).rotate(-clockwise, expand=True)
        picture.paste(turned.convert("RGB"), (round(x_of(hz)) - 12, round(TOP) - 12 - turned.height))
    return np.asarray(picture)


@pytest.mark.parametrize("clockwise", [90, 270])
def test_a_scan_whose_frequencies_stand_on_their_side_is_not_turned_and_has_them_all(clockwise: int) -> None:
    sheet = straighten(page(scan(clockwise)))
    assert sheet.turn_deg == pytest.approx(0, abs=0.01)
    (run,) = frequency_runs(sheet.words)
    assert run.values == OCTAVES
    assert run.at == pytest.approx([x_of(hz) for hz in OCTAVES], abs=2)


@pytest.mark.parametrize(("at", "size", "kept"), [
    ((x_of(1000), TOP - 28), 16, False),  # two noughts of "1000" together
    ((x_of(1000), TOP - 25), 26, False),  # all three together
    ((x_of(1000), TOP - 14), 12, False),
    ((x_of(1000), TOP + 4), 16, True),  # a mark at the axis
    ((x_of(1000) + 25, TOP - 28), 16, True),
    ((x_of(1000), TOP - 28), 40, True),
    ((x_of(1000), y_of(60)), 16, True),
])  # fmt: skip
def test_the_noughts_of_a_frequency_on_its_side_are_no_circles(
    at: tuple[float, float], size: float, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    circle = replace(mark("circle", 1000, 40).sight, at=at, size=(size, size))
    monkeypatch.setattr("octavo.extract.eyes.marks_in", lambda *_: (circle,))
    words = (*row_of([str(hz) for hz in OCTAVES], 270, 1.0), *level_words())
    sheet = Sheet(grid_picture(), np.eye(3), SIZE, "drawn", words, (), 0.0)
    assert bool(see(sheet).marks) == kept


def test_a_table_on_its_side_changes_nothing_for_upright_labels() -> None:
    upright = (*frequency_words(), *level_words())
    aside = word("Left", LEFT, TOP - 80, upright=270)
    assert frequency_runs((*upright, aside)) == frequency_runs(upright)
