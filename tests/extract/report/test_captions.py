"""What stands over and beside a chart: an ear's name, or another quantity than hearing thresholds."""

from __future__ import annotations

import numpy as np
import pytest
from by_hand import LEFT, SIZE, TOP, chart, row, sheet, word, x_of, y_of
from matplotlib import get_data_path
from PIL import Image, ImageDraw, ImageFont

from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.page import Word
from octavo.extract.report.layout.wording.captions import upward_words, with_captions
from octavo.interpret.record import Threshold

MIDDLE = (LEFT + x_of(8000)) / 2
LEVELS = {250: 20, 500: 20, 1000: 25, 2000: 40, 4000: 40, 8000: 50}


def line(text: str, x: float = MIDDLE, y: float = TOP - 75) -> tuple[Word, ...]:
    """Print a line of words with its middle at (x, y)."""
    start = x - 0.28 * 14 * len(text)
    return tuple(word(part, start + 0.56 * 14 * (text.index(part) + len(part) / 2), y) for part in text.split())


def upward(text: str, x: float = LEFT - 110) -> tuple[Word, ...]:
    """Print words upward beside the levels."""
    return tuple(word(part, x, y_of(90) - 70 * i, upright=90) for i, part in enumerate(text.split()))


def read(words: tuple[Word, ...]) -> list[Threshold]:
    charts = with_captions((chart(*row("circle", LEVELS, "red")),), words)
    reading = mean(sheet(), (), charts, Choices())
    return [t for audiogram in reading.audiograms for t in audiogram.thresholds]


@pytest.mark.parametrize(
    "title",
    ["Acoustic reflex thresholds", "Attenuation of the ear muff", "Masking level used", "Insertion gain", "DPOAE",
     "Temporary threshold shift", "Schalldämmung", "Atténuation du casque", "Réflexes acoustiques",
     "Reflejos acústicos"],
)  # fmt: skip
def test_a_chart_of_another_quantity_stands_in_doubt(title: str) -> None:
    found = read(line(title))
    assert len(found) == len(LEVELS)
    assert all(t.standing == "ask" and "other-quantity" in t.why_ask for t in found)


@pytest.mark.parametrize("caption", ["Sound pressure level (dB SPL)", "Reflex level (dB HL)", "Schalldruckpegel (dB)"])
def test_a_level_axis_of_another_quantity_puts_its_chart_in_doubt(caption: str) -> None:
    assert all("other-quantity" in t.why_ask for t in read(upward(caption)))


@pytest.mark.parametrize(
    "words",
    [
        line("Pure tone audiogram"),
        line("Audiogram and acoustic reflexes"),
        line("Acoustic reflexes: present"),
        line("He was tested for noise and masking level of speech in quiet rooms"),
        line("Masking level used", x=x_of(8000) + 400),
        line("Masking level used", y=y_of(120) + 80),
        upward("Hearing level (dB HL)"),
    ],
)
def test_an_audiogram_stands_as_it_is(words: tuple[Word, ...]) -> None:
    assert read(words) == read(())


@pytest.mark.parametrize("title", ["Left ear", "LEFT", "Linkes Ohr", "Oreille gauche", "Oído izquierdo", "L", "(AS)"])
def test_circles_under_the_left_ears_name_ask_whose_they_are(title: str) -> None:
    # a stranger's pair of charts, both of circles, stood as two tests of the right ear, surely
    assert all("ear-uncertain" in t.why_ask for t in read(line(title)))


@pytest.mark.parametrize("title", ["Right ear", "Rechts", "R", "Right and left ear", "Patient: L. Ear"])
def test_circles_under_the_right_ears_name_or_both_are_the_right_ears(title: str) -> None:
    assert {t.standing for t in read(line(title))} == {"sure"}


@pytest.mark.parametrize("left", ["Left ear", "Leftear AC"])
def test_a_key_over_the_plot_that_names_both_ears_is_no_title_of_the_one_in_its_middle(left: str) -> None:
    # seen on pages of charting programs: half of every such chart asked whose it was
    over = line("Right ear", MIDDLE - 200), line(left), line("Hearing aid", MIDDLE + 200)
    assert {t.standing for t in read(sum(over, ()))} == {"sure"}
    assert {t.standing for t in read(line("Left ear"))} == {"ask"}


@pytest.mark.parametrize(("height", "titled"), [(30.0, "left"), (14.0, None)])
def test_the_title_of_a_small_chart_stands_more_octaves_over_its_plot(height: float, titled: str | None) -> None:
    # seen on pages for the screen: charts of an ear each whose triangles asked whose they are
    title = word("Left", MIDDLE, TOP - 140, height=height)
    (one,) = with_captions((chart(*row("circle", LEVELS, "red")),), (title,))
    assert one.titled == titled


def test_an_l_among_half_read_labels_over_the_plot_is_no_title() -> None:
    # seen on a coarse fax: all values of the right ear asked for what was left of a rule
    labels = line("L", LEFT), line("1000", MIDDLE - 60), line("2000", MIDDLE + 80)
    assert {t.standing for t in read(sum(labels, ()))} == {"sure"}
    assert {t.standing for t in read(line("L"))} == {"ask"}


@pytest.mark.parametrize(("name", "other"), [("Attenuation (dB)", True), ("Hearing level (dB)", False)])
def test_the_name_of_a_level_axis_is_read_from_a_picture_too(name: str, *, other: bool) -> None:
    # on a photo what ear muffs take away stood as hearing: no pass over level words saw what stood upward
    writing = Image.new("L", (SIZE[1], SIZE[0]), 255)
    font = ImageFont.truetype(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf", 22)
    ImageDraw.Draw(writing).text((SIZE[1] - y_of(55), LEFT - 110), name, font=font, fill=0, anchor="mm")
    pixels = np.repeat(np.rot90(np.asarray(writing))[:, :, None], 3, axis=2)
    charts = (chart(*row("circle", LEVELS, "red")),)
    words = upward_words(sheet("photo", np.ascontiguousarray(pixels)), charts)
    assert words[0].upright == 90
    assert all(abs((w.box[0] + w.box[2]) / 2 - LEFT + 110) < 6 for w in words)
    (told,) = with_captions(charts, words)
    assert ("other-quantity" in told.doubts) == other
