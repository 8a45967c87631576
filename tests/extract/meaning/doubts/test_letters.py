"""Words that a hand writes over the grid: their letters look like marks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import DECIBEL, OCTAVE, chart, mark, row, sheet

from octavo.extract.chart import Mark, Unexplained
from octavo.extract.choices import Choices
from octavo.extract.meaning import mean
from octavo.extract.page import Word
from octavo.extract.sightings import KeyLine
from octavo.interpret.record import Threshold
from octavo.interpret.symbols import Glyph

RIGHT = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 40, 4000: 45}, "red")
LEFT_AT = {250: 5, 500: 10, 1000: 15, 2000: 30, 4000: 45}
LEFT = row("cross", LEFT_AT, "blue")
HIGH = 14.0
"""How high the marks made here are, in pixels."""


def beside(one: Mark, heights: float) -> Mark:
    """Move a mark along its line, away from every frequency."""
    x, y = one.x + heights * HIGH, one.y
    return replace(one, sight=replace(one.sight, at=(x, y)), x=x, frequency_hz=one.frequency_hz * 2 ** (HIGH / OCTAVE))


def value(hz: float, *marks: Mark, ink: tuple[Unexplained, ...] = ()) -> Threshold:
    measured = replace(chart(*RIGHT, *LEFT, *marks), unexplained=ink)
    (reading,) = mean(sheet(), (), (measured,), Choices("asha-1990")).audiograms
    (one,) = [t for t in reading.thresholds if (t.ear, t.frequency_hz) == ("left", hz)]
    return one


def remains(one: Mark, down_db: float = 0.0) -> Unexplained:
    """Leave the ink of a letter, as high as a mark, to the right of one."""
    at = one.x + HIGH, one.y + down_db * DECIBEL
    return Unexplained(at, (10.0, HIGH), one.frequency_hz, one.level_db_hl, 0.0, 0.0, 0.7)


@pytest.mark.parametrize(("hz", "level", "asks"), [(3000, 90, True), (125, 10, True), (3000, 40, False)])
def test_a_cross_beside_unread_ink_asks_unless_it_lies_in_its_row(hz: float, level: float, asks: bool) -> None:
    # "X2" beside the chart's marks stood as a sure threshold
    cross = mark("cross", hz, level)
    assert ("two-readings" in value(hz, cross, ink=(remains(cross),)).why_ask) == asks


def test_ink_above_or_below_a_cross_is_no_letter_beside_it() -> None:
    cross = mark("cross", 3000, 90)
    assert "two-readings" not in value(3000, cross, ink=(remains(cross, down_db=5),)).why_ask


def test_a_cross_in_one_line_with_a_circle_that_stands_at_no_frequency_asks() -> None:
    # "XO" over the grid
    cross = mark("cross", 3000, 90)
    assert "two-readings" in value(3000, cross, beside(mark("circle", 3000, 90), 1.0)).why_ask
    assert "two-readings" not in value(3000, cross).why_ask


@pytest.mark.parametrize(
    ("words", "asks"), [(("left", "air"), True), (("R,", "air"), True), (("retest", "soon"), False), ((), False)]
)
def test_a_lone_specimen_of_a_key_printed_in_the_chart_asks(words: tuple[str, ...], asks: bool) -> None:
    # the key's one line, "X left air", in the corner of a chart with one ear stood as a sure threshold
    cross = mark("cross", 8000, 0)
    x = cross.x + HIGH
    printed = []
    for text in words:
        printed.append(Word(text, (x, cross.y - HIGH / 2, x + 8 * len(text), cross.y + HIGH / 2)))
        x += 8 * len(text) + 5
    (reading,) = mean(sheet("drawn", words=tuple(printed)), (), (chart(*LEFT, cross),), Choices("asha-1990")).audiograms
    found = {t.frequency_hz: "two-readings" in t.why_ask for t in reading.thresholds}
    assert found == dict.fromkeys((250, 500, 1000, 2000, 4000), False) | {8000: asks}


@pytest.mark.parametrize("caption", ["2000", "HL", "(dB"])
def test_a_digit_of_a_frequency_or_a_letter_of_a_unit_above_the_plot_is_no_mark(caption: str) -> None:
    # seen on a picture: one 0 of "2000" stood as air at 1500 Hz and -15 dB, the L of "dB HL" as loudness
    stray = mark("circle", 1500, -15, "red")
    x, y = stray.sight.at
    word = Word(caption, (x - 20, y - 7, x + 20, y + 7), 0.9)
    page = replace(sheet(), words=(word,))
    (reading,) = mean(page, (), (chart(*RIGHT, *LEFT, stray),), Choices("asha-1990")).audiograms
    assert 1500 not in {t.frequency_hz for t in reading.thresholds}
    (without,) = mean(sheet(), (), (chart(*RIGHT, *LEFT, stray),), Choices("asha-1990")).audiograms
    assert 1500 in {t.frequency_hz for t in without.thresholds}


@pytest.mark.parametrize(("free", "asks"), [((), True), ((2000,), False)])
def test_letters_of_a_loudspeaker_that_all_stand_upon_marks_ask(free: tuple[int, ...], *, asks: bool) -> None:
    # seen on a stranger's fax: brackets of both ears over a cross stood as a sure value of the loudspeaker
    over = {hz: LEFT_AT[hz] for hz in (500, 1000)} | dict.fromkeys(free, 5)
    (reading,) = mean(sheet(), (), (chart(*RIGHT, *LEFT, *row("letter-s", over)),), Choices("asha-1990")).audiograms
    field = [t for t in reading.thresholds if t.conduction == "field"]
    assert {t.frequency_hz: "two-readings" in t.why_ask for t in field} == dict.fromkeys(over, asks)


@pytest.mark.parametrize(("levels", "asks"), [((90, 95, 100), True), ((65, 70, 90), False)])
def test_letters_m_that_are_all_as_loud_as_uncomfortable_sound_ask_what_they_mean(
    levels: tuple[int, ...], *, asks: bool
) -> None:
    # beside ASHA's brackets, and without a word of the key on m that was understood, m was the most comfortable level
    air = row("circle", {250: 10, 500: 15, 1000: 20, 2000: 30, 4000: 40, 8000: 45}, "red")
    bone = row("bracket-left", {500: 15, 1000: 20, 2000: 30}, "red", beside=-0.12)
    loud = row("letter-m", dict(zip((500, 1000, 2000), levels, strict=True)), "red")
    said: tuple[tuple[Glyph, str], ...] = (
        ("circle", "right air"), ("cross", "left air"), ("triangle", "right air masked"), ("square", "left air masked"),
        ("bracket-left", "right bone masked"), ("bracket-right", "left bone masked"),
    )  # fmt: skip
    key = tuple(KeyLine(glyph, "neutral", text, 0.9) for glyph, text in said)
    reading = mean(sheet(), key, (chart(*air, *bone, *loud),), Choices())
    found = [t for a in reading.audiograms for t in a.thresholds if t.measure == "mcl"]
    assert [("symbol-set-unknown" in t.why_ask) for t in found] == [asks] * 3
