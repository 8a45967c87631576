"""Marks that lie on one another are read one by one from a drawn page, and whose an arrow is."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from by_hand import LEVELS, OCTAVES, x_of, y_of
from reportlab.pdfgen.canvas import Canvas

import octavo
from octavo.extract.eyes.marks.crops import ChartCrop
from octavo.extract.eyes.marks.drawn.apart import Box
from octavo.extract.eyes.marks.drawn.parted import Place, parted
from octavo.extract.eyes.marks.network import marks_in
from octavo.extract.sightings import MarkSight
from octavo.interpret.record import Threshold

WIDTH, HEIGHT = 1000.0, 1200.0


class Chart:
    """A page of 1000 x 1200 points with a chart on it, y down."""

    def __init__(self, file: Path) -> None:
        self.canvas = Canvas(str(file), pagesize=(WIDTH, HEIGHT), invariant=1)
        self.canvas.setFont("Helvetica", 14)
        self.canvas.setStrokeGray(0.6)
        for hz in OCTAVES:
            self.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(-18), f"{hz}")
            self.line((x_of(hz), y_of(-10)), (x_of(hz), y_of(120)))
        for level in LEVELS:
            self.canvas.drawRightString(x_of(125) - 40, HEIGHT - y_of(level) - 5, f"{level}")
            self.line((x_of(125), y_of(level)), (x_of(8000), y_of(level)))
        self.canvas.setLineWidth(2)

    def line(self, *points: tuple[float, float], close: bool = False) -> None:
        path = self.canvas.beginPath()
        path.moveTo(points[0][0], HEIGHT - points[0][1])
        for x, y in points[1:]:
            path.lineTo(x, HEIGHT - y)
        if close:
            path.close()
        self.canvas.drawPath(path)

    def ink(self, red: float, green: float, blue: float) -> None:
        self.canvas.setStrokeColorRGB(red, green, blue)

    def circle(self, hz: float, level: float) -> None:
        self.canvas.circle(x_of(hz), HEIGHT - y_of(level), 13)

    def cross(self, hz: float, level: float) -> None:
        x, y = x_of(hz), y_of(level)
        self.line((x - 12, y - 12), (x + 12, y + 12))
        self.line((x - 12, y + 12), (x + 12, y - 12))

    def angle(self, hz: float, level: float, side: int) -> None:
        x, y = x_of(hz) + side * 22, y_of(level)
        self.line((x - side * 8, y - 12), (x + side * 8, y), (x - side * 8, y + 12))

    def arrow(self, hz: float, level: float, side: int) -> None:
        x, y = x_of(hz) + side * 14, y_of(level) + 14
        tip = (x + side * 20, y + 20)
        self.line((x, y), tip)
        self.line((tip[0] - side * 10, tip[1] - 3), tip, (tip[0] - side * 3, tip[1] - 10))

    def read(self, file: Path) -> dict[tuple[str, str, float], Threshold]:
        self.canvas.save()
        (record,) = octavo.read(file)
        (audiogram,) = record.audiograms
        return {(t.ear, t.conduction, t.frequency_hz): t for t in audiogram.thresholds}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "drawn.pdf"


def test_black_circles_under_crosses_at_every_frequency_are_all_read_for_sure(file: Path) -> None:
    chart = Chart(file)
    chart.ink(0, 0, 0)
    levels = dict(zip(OCTAVES[1:], (20, 25, 30, 45, 60, 65), strict=True))
    for hz, level in levels.items():
        chart.circle(hz, level)
    for hz, level in levels.items():
        chart.cross(hz, level)
    read = chart.read(file)
    assert {key: t.level_db_hl for key, t in read.items()} == {
        (ear, "air", hz): level for ear in ("right", "left") for hz, level in levels.items()
    }
    assert all(t.standing == "sure" for t in read.values())


def test_pieces_are_looked_at_once_also_where_joins_are_taken_out_between_them(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The network was run anew on the same figures: a seventh of a drawn page's time."""
    looks: list[object] = []

    def counted(crop: ChartCrop, area: int) -> tuple[MarkSight, ...]:
        looks.append(crop)
        return marks_in(crop, area)

    monkeypatch.setattr("octavo.extract.eyes.marks.drawn.alone.marks_in", counted)
    chart = Chart(file)
    chart.ink(0.8, 0, 0)
    levels = dict(zip(OCTAVES[1:], (20, 25, 30, 45, 60, 65), strict=True))
    for hz, level in levels.items():
        chart.circle(hz, level)
    for one, other in pairwise(levels.items()):
        chart.line(*((x_of(hz), y_of(level)) for hz, level in (one, other)))
    assert {key[2]: t.level_db_hl for key, t in chart.read(file).items()} == levels
    assert len(looks) == 1


def test_the_arrow_at_a_place_of_two_marks_is_that_of_the_mark_whose_ink_it_has(file: Path) -> None:
    chart = Chart(file)
    for hz in OCTAVES[1:]:
        chart.ink(0.85, 0, 0)
        chart.circle(hz, 100)
    for hz in OCTAVES[1:]:
        chart.ink(0, 0, 0.85)
        chart.cross(hz, 100)
        chart.arrow(hz, 100, 1)
    read = chart.read(file)
    assert {key: t.response for key, t in read.items()} == {
        (ear, "air", hz): ear == "right" for ear in ("right", "left") for hz in OCTAVES[1:]
    }
    # what one ear heard where the other did not is asked about whatever the page shows
    assert {t.why_ask for t in read.values()} == {(), ("implausible",)}


def test_marks_and_arrows_set_as_letters_are_read(file: Path) -> None:
    chart = Chart(file)
    chart.canvas.setFont("Helvetica", 24)
    for hz, level in zip(OCTAVES[2:6], (30, 35, 45, 50), strict=True):
        chart.canvas.setFillColorRGB(0.85, 0, 0)
        chart.canvas.drawCentredString(x_of(hz) - 24, HEIGHT - y_of(level) - 6, "<")
        chart.canvas.setFillColorRGB(0, 0, 0.85)
        chart.canvas.drawCentredString(x_of(hz) + 24, HEIGHT - y_of(level + 10) - 6, ">")
        chart.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(level + 20) - 8, "X")
        chart.canvas.setFillColorRGB(0.85, 0, 0)
        chart.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(level + 15) - 8, "O")
    chart.canvas.drawString(x_of(500), HEIGHT - y_of(0), "X the left ear, O the right")
    read = chart.read(file)
    assert {key: t.level_db_hl for key, t in read.items()} == {
        (ear, way, hz): level + more
        for hz, level in zip(OCTAVES[2:6], (30, 35, 45, 50), strict=True)
        for ear, way, more in (("right", "bone", 0), ("left", "bone", 10), ("left", "air", 20), ("right", "air", 15))
    }


def test_small_letters_of_loudspeaker_and_loudness_are_read_as_the_file_has_them(file: Path) -> None:
    # seen on a page: two of four letters S were missed, and nothing asked
    chart = Chart(file)
    chart.ink(0.85, 0, 0)
    for hz in OCTAVES[1:]:
        chart.circle(hz, 60)
    chart.canvas.setFont("Helvetica", 8)
    chart.canvas.setFillColorRGB(0, 0, 0)
    for hz in OCTAVES[2:6]:
        chart.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(35) - 3, "S")
    chart.canvas.setFillColorRGB(0.85, 0, 0)
    for hz in OCTAVES[2:6]:
        chart.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(95) - 3, "U")
        chart.canvas.drawCentredString(x_of(hz), HEIGHT - y_of(145), "M")  # a row below the chart, of masked values
    chart.canvas.save()
    (record,) = octavo.read(file)
    (audiogram,) = record.audiograms
    found = {(t.ear, t.conduction, t.measure, t.frequency_hz): t.level_db_hl for t in audiogram.thresholds}
    assert found == {
        **{("right", "air", "threshold", hz): 60 for hz in OCTAVES[1:]},
        **{("both", "field", "threshold", hz): 35 for hz in OCTAVES[2:6]},
        **{("right", "air", "ucl", hz): 95 for hz in OCTAVES[2:6]},
    }


def test_one_ink_without_arrows_between_marks_and_arrows_of_their_own(file: Path) -> None:
    chart = Chart(file)
    chart.ink(0, 0, 0)
    for hz in OCTAVES[1:]:
        chart.circle(hz, 60)
    for hz in OCTAVES[1:]:
        chart.cross(hz, 110)
        chart.arrow(hz, 110, 1)
    read = chart.read(file)
    assert {key: (t.level_db_hl, t.response) for key, t in read.items()} == {
        **{("right", "air", hz): (60, True) for hz in OCTAVES[1:]},
        **{("left", "air", hz): (110, False) for hz in OCTAVES[1:]},
    }


def cross_at(x: float, score: float, arrow: float) -> list[MarkSight]:
    return [MarkSight(0, "cross", (x, 100.0), (50.0, 50.0), score, (), 0.0, 1.0, (0.02, arrow, 0.02), apart=True)]


def filled_cross_at(x: float) -> list[MarkSight]:
    return [replace(cross_at(x, 0.88, 0.02)[0], glyph="cross-filled")]


def boxes_of(seen: dict[Place, list[MarkSight]]) -> dict[Place, Box]:
    """Where pieces stand that reach no farther than their marks."""
    lefts = {
        place: [(m.at[0] - m.size[0] / 2, m.at[0] + m.size[0] / 2) for m in marks] for place, marks in seen.items()
    }
    return {place: (min(a for a, _ in x), 75.0, max(b for _, b in x), 125.0) for place, x in lefts.items()}


def test_two_crosses_whose_arrows_touch_keep_an_arrow_each() -> None:
    # eight paths: two strokes, a shaft and a head of each; a stroke with its arrow looks a little like a cross
    seen = {
        (0, 2): cross_at(100, 0.89, 0.05), (0, 4): cross_at(100, 0.85, 0.81), (1, 4): cross_at(100, 0.5, 0.81),
        (2, 8): cross_at(160, 0.85, 0.83), (4, 6): cross_at(160, 0.89, 0.05), (4, 8): cross_at(160, 0.85, 0.81),
        (5, 8): cross_at(160, 0.5, 0.81),
    }  # fmt: skip
    assert parted(8, seen, set(), boxes_of(seen)) == ((0, 4), (4, 8))


def round_at(x: float, score: float, *, filled: bool = True) -> list[MarkSight]:
    glyph = "circle-filled" if filled else "circle"
    return [MarkSight(0, glyph, (x, 100.0), (70.0, 70.0), score, (), 1.0, 0.0, (0.02, 0.02, 0.02), apart=True)]


def test_two_half_filled_circles_that_touch_are_both_filled() -> None:
    # an outline and its filled half of each: the first outline alone stood as a hollow circle, its half as none
    seen = {
        (0, 1): round_at(100, 0.86, filled=False), (0, 2): round_at(100, 0.87), (1, 2): round_at(96, 0.6),
        (1, 3): round_at(170, 0.86, filled=False), (1, 4): [*round_at(170, 0.86), *round_at(96, 0.46)],
        (2, 3): round_at(170, 0.86, filled=False), (2, 4): round_at(170, 0.87), (3, 4): round_at(166, 0.6),
    }  # fmt: skip
    assert parted(4, seen, set(), boxes_of(seen)) == ((0, 2), (2, 4))


def test_two_filled_crosses_that_touch_are_both_filled() -> None:
    # two wedges and two strokes of each: with the next one's first wedge the first was as clear, and the rest of that
    # stood as a triangle and an empty cross, which is unmasked, surely
    seen = {
        (0, 2): filled_cross_at(100), (0, 3): filled_cross_at(100), (0, 4): filled_cross_at(100),
        (0, 5): filled_cross_at(100), (1, 2): [replace(filled_cross_at(100)[0], glyph="triangle-filled", score=0.8)],
        (2, 4): cross_at(100, 0.88, 0.02), (4, 6): filled_cross_at(150), (4, 8): filled_cross_at(150),
        (5, 6): [replace(filled_cross_at(150)[0], glyph="triangle-filled", score=0.8)],
        (6, 8): cross_at(150, 0.88, 0.02),
    }  # fmt: skip
    boxes = {**boxes_of(seen), (0, 5): (75.0, 75.0, 175.0, 125.0)}
    assert parted(8, seen, set(), boxes) == ((0, 4), (4, 8))


def test_the_open_head_of_an_arrow_straight_down_is_no_mark_of_its_own(file: Path) -> None:
    # seen on a page: the head was read as a forehead bone mark, and the bone above it as heard, surely
    chart = Chart(file)
    chart.canvas.setLineWidth(1)
    chart.ink(0.85, 0, 0)
    for hz in OCTAVES[1:]:
        chart.circle(hz, 60)
    for hz in OCTAVES[2:6]:
        x, y = x_of(hz) - 22, y_of(40)
        chart.line((x + 4.2, y - 8.4), (x - 4.2, y), (x + 4.2, y + 8.4))
        chart.line((x, y + 10.5), (x, y + 24))
        chart.line((x - 3.6, y + 17.3), (x, y + 24), (x + 3.6, y + 17.3))
    read = chart.read(file)
    assert {key: t.response for key, t in read.items()} == {
        **{("right", "air", hz): True for hz in OCTAVES[1:]},
        **{("right", "bone", hz): False for hz in OCTAVES[2:6]},
    }


def bracket(score: float, arrow: float = 0.05) -> list[MarkSight]:
    size = (17.0, 44.0)
    return [MarkSight(0, "bracket-right", (100.0, 100.0), size, score, (), 0.0, 1.0, (0.0, 0.0, arrow), apart=True)]


def test_an_arrow_that_is_hardly_seen_beside_its_bracket_is_an_arrow_all_the_same() -> None:
    # seen on a page: a small arrow hung from a bracket, and its bone stood as half heard
    seen = {(0, 1): bracket(0.86), (0, 2): bracket(0.79), (0, 3): bracket(0.87, 0.31)}
    assert parted(3, seen, {(1, 3)}, boxes_of(seen)) == ((0, 1), (1, 3))
    assert parted(3, seen | {(0, 3): bracket(0.87, 0.8)}, {(1, 3)}, boxes_of(seen)) == ((0, 3),)


def test_a_bracket_with_its_arrow_is_no_longer_arrow_of_the_mark_beside_it(file: Path) -> None:
    # seen on a page: a thick arrow's bracket was taken for its shaft, and the air beside it stood as not heard, surely
    chart = Chart(file)
    chart.ink(0, 0, 0.85)
    for hz in OCTAVES[1:]:
        chart.cross(hz, 70)
    x, y = x_of(4000) + 20, y_of(65)
    chart.line((x - 6, y - 16), (x + 6, y - 16), (x + 6, y + 16), (x - 6, y + 16))
    chart.line((x + 13, y + 13), (x + 13, y + 45))
    chart.canvas.setFillColorRGB(0, 0, 0.85)
    path = chart.canvas.beginPath()
    for i, (right, down) in enumerate(((-5, 20), (13, 54), (31, 20))):
        (path.lineTo if i else path.moveTo)(x + right, HEIGHT - y - down)
    path.close()
    chart.canvas.drawPath(path, stroke=0, fill=1)
    read = chart.read(file)
    assert {key: t.response for key, t in read.items()} == {
        **{("left", "air", hz): True for hz in OCTAVES[1:]},
        ("left", "bone", 4000): False,
    }
