"""The truth against pixels that another program (the PDF renderer) made, and against geometry."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import pytest

from octavo.interpret.record import Chart, Point
from octavo.tools.painter import PaintedMark, PaintedPage, paint, render
from octavo.tools.painter.spoiling import Spoiled, shown

DPI = 200
CONFORMING = ("harbour", "quay", "lantern", "mole", "ledger", "pier", "buoy", "cove", "plotted")


def coloured(pixels: npt.NDArray[np.uint8]) -> npt.NDArray[np.bool_]:
    """Red or blue ink, of at least a third of full strength."""
    return np.ptp(pixels.astype(int), axis=2) > 60


def alone(page: PaintedPage, mark: PaintedMark, spare: float) -> bool:
    """No other mark and no joining line comes within ``spare`` points of the mark's box."""
    wide, high = page.size_pt
    reach = (mark.size[0] / 2 + spare / wide, mark.size[1] / 2 + spare / high)

    def near(at: Point, more: Point = (0.0, 0.0)) -> bool:
        return abs(at[0] - mark.at[0]) < reach[0] + more[0] and abs(at[1] - mark.at[1]) < reach[1] + more[1]

    for other in page.marks:
        half = (other.size[0] / 2, other.size[1] / 2)
        if other is not mark and near(other.at, half):
            return False
    steps = np.linspace(0, 1, 60)[:, None]
    arrows = [(other.at, other.arrow_tip) for other in page.marks if other.arrow_tip is not None]
    for join in (*page.joins, *arrows):
        for a, b in pairwise(join):
            for x, y in np.array(a) * (1 - steps) + np.array(b) * steps:
                if near((float(x), float(y))):
                    return False
    return mark.arrow is None


def ink_box(pixels: npt.NDArray[np.uint8], page: PaintedPage, mark: PaintedMark) -> npt.NDArray[np.float64]:
    """Left, top, right, bottom of the coloured ink round a mark, in pixels."""
    scale = np.array(pixels.shape[1::-1])
    half = np.array(mark.size) / 2 * scale + 5
    low = np.floor(np.array(mark.at) * scale - half).astype(int).clip(0)
    high = np.ceil(np.array(mark.at) * scale + half).astype(int)
    rows, columns = np.nonzero(coloured(pixels[low[1] : high[1], low[0] : high[0]]))
    return np.array(
        [columns.min() + low[0], rows.min() + low[1], columns.max() + 1 + low[0], rows.max() + 1 + low[1]], dtype=float
    )


@pytest.mark.parametrize("name", ["harbour", "lantern", "buoy", "plotted", "kelp", "twin", "ferry", "keyed", "wide"])
def test_an_isolated_mark_has_its_ink_where_the_truth_says_within_a_pixel(name: str) -> None:
    # 1 px: the renderer's anti-aliasing may lose up to a half pixel of a thin stroke's edge on either side
    checked = 0
    for seed in range(5):
        page = paint(name, seed)
        pixels = render(page.pdf, DPI)
        scale = np.array(pixels.shape[1::-1] * 2)
        for mark in page.marks:
            if mark.ink == "neutral" or not alone(page, mark, 3.0):
                continue
            (x, y), (w, h) = mark.at, mark.size
            truth = np.array([x - w / 2, y - h / 2, x + w / 2, y + h / 2]) * scale
            box = ink_box(pixels, page, mark)
            assert np.abs(box - truth).max() <= 1.3
            assert abs((box[0] + box[2]) / 2 - x * scale[0]) <= 1
            assert abs((box[1] + box[3]) / 2 - y * scale[1]) <= 1
            checked += 1
    assert checked >= 3


def _axes(chart: Chart, page: PaintedPage) -> tuple[float, float, float, float]:
    """First frequency's x, octave width, lowest level's y, height of one dB, all in points."""
    frequency, level = chart.frequency_axis, chart.level_axis
    assert frequency is not None
    assert level is not None
    octaves = math.log2(frequency.hz[1] / frequency.hz[0])
    wide, high = page.size_pt
    octave = (frequency.at[1][0] - frequency.at[0][0]) * wide / octaves
    decibel = (level.at[1][1] - level.at[0][1]) * high / (level.db_hl[1] - level.db_hl[0])
    return frequency.at[0][0] * wide, octave, level.at[0][1] * high, decibel


@pytest.mark.parametrize("name", CONFORMING)
def test_an_octave_is_as_wide_as_20_db_is_high_on_a_conforming_form(name: str) -> None:
    # ISO 8253-1:2010, audiogram form [memory in references.md section 1]
    page = paint(name, 4)
    for audiogram in page.record.audiograms:
        for chart in audiogram.charts:
            _, octave, _, decibel = _axes(chart, page)
            assert octave == pytest.approx(20 * decibel, rel=1e-9)


def test_the_grid_is_drawn_where_the_axes_say() -> None:
    page = paint("mole", 1)
    pixels = render(page.pdf, DPI).min(axis=2)
    x0, octave, y0, decibel = _axes(page.record.audiograms[0].charts[0], page)
    scale = DPI / 72
    rows = slice(int((y0 + 85 * decibel) * scale), int((y0 + 99 * decibel) * scale))
    for octaves in range(1, 6):
        column = (x0 + octaves * octave) * scale
        dark = [float((pixels[rows, int(column) + d] < 140).mean()) for d in range(-4, 5)]
        assert max(dark[3:6]) > 0.8
        assert max(dark[:2] + dark[7:]) < 0.5


def test_marks_stand_at_their_level_and_frequency_by_the_records_own_axes() -> None:
    page = paint("harbour", 7)
    x0, octave, y0, decibel = _axes(page.record.audiograms[0].charts[0], page)
    for mark in page.marks:
        if mark.threshold is None:
            continue
        level = (mark.at[1] * page.size_pt[1] - y0) / decibel - 10
        assert level == pytest.approx(mark.threshold.level_db_hl, abs=1e-6)
        if mark.glyph in ("circle", "cross", "triangle", "square"):
            hz = 125 * 2 ** ((mark.at[0] * page.size_pt[0] - x0) / octave)
            assert hz == pytest.approx(mark.threshold.frequency_hz, rel=1e-6)


def test_a_form_that_draws_inter_octaves_half_way_puts_3_khz_at_half_the_octave() -> None:
    # references.md, section 1: 0.585 of the octave on a true log axis, half way on many forms
    places = {"harbour": math.log2(1.5), "lantern": 0.5}
    for name, share in places.items():
        for seed in range(8):
            page = paint(name, seed)
            x0, octave, _, _ = _axes(page.record.audiograms[0].charts[0], page)
            for mark in page.marks:
                if mark.glyph == "circle" and mark.threshold and mark.threshold.frequency_hz == 3000:
                    assert (mark.at[0] * page.size_pt[0] - x0) / octave == pytest.approx(4 + share, abs=1e-6)


def test_marks_by_hand_miss_their_step_but_never_by_more_than_2_db() -> None:
    # trade.md: hand-drawn marks miss their step by about 1 dB, at times by 2
    off = []
    for seed in range(6):
        for mark in paint("ferry", seed).marks:
            if mark.threshold is not None:
                seen = mark.threshold.seen
                assert seen is not None
                assert seen.level_db_hl is not None
                off.append(seen.level_db_hl - mark.threshold.level_db_hl)
    assert np.abs(off).max() <= 2
    assert 0.4 < np.std(off) < 1


def test_the_outline_starts_at_the_lowest_frequency_and_level_and_runs_along_the_frequencies() -> None:
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = paint("quay", 1).record.audiograms[0].charts[0].outline
    assert x0 == x3 < x1 == x2
    assert y0 == y1 < y2 == y3


def test_every_label_of_an_axis_is_a_word_and_is_counted() -> None:
    for name in ("harbour", "tide", "twin"):
        page = paint(name, 2)
        charts = [chart for audiogram in page.record.audiograms for chart in audiogram.charts]
        for number, chart in enumerate(charts):
            texts = {
                role: {w.text for w in page.words if w.chart == number and w.role == role}
                for role in ("frequency-label", "level-label")
            }
            assert chart.frequency_axis is not None
            assert chart.level_axis is not None
            assert len(texts["frequency-label"]) == chart.frequency_axis.labels_read
            assert len(texts["level-label"]) == chart.level_axis.labels_read


@pytest.mark.parametrize("name", ["harbour", "lantern", "twin", "ferry", "keyed", "figure"])
def test_a_words_box_holds_its_ink_and_little_else(name: str) -> None:
    page = paint(name, 6)
    pixels = render(page.pdf, DPI).min(axis=2)
    scale = np.array(pixels.shape[1::-1] * 2)
    checked = 0
    for word in page.words:
        if word.role != "frequency-label":
            continue
        box = np.array(word.box) * scale
        left, top = np.floor(box[:2]).astype(int) - 3
        right, bottom = np.ceil(box[2:]).astype(int) + 3
        rows, columns = np.nonzero(pixels[top:bottom, left:right] < 150)
        ink = np.array([columns.min() + left, rows.min() + top, columns.max() + 1 + left, rows.max() + 1 + top])
        # 2 px: thin strokes of small digits fade at the edge
        assert np.abs(ink - box).max() <= 2
        checked += 1
    assert checked >= 5


def test_moved_carries_every_position_through_the_warp() -> None:
    page = paint("keyed", 4)
    turned = page.moved(lambda points: np.stack([1 - points[:, 1], points[:, 0]], axis=1))
    back = turned.moved(lambda points: np.stack([points[:, 1], 1 - points[:, 0]], axis=1))
    first, there, again = page.marks[0], turned.marks[0], back.marks[0]
    assert there.at == pytest.approx((1 - first.at[1], first.at[0]))
    assert there.size == pytest.approx((first.size[1], first.size[0]))
    assert again.at == pytest.approx(first.at)
    assert again.size == pytest.approx(first.size)
    assert back.joins == tuple(tuple(pytest.approx(p) for p in join) for join in page.joins)
    seen = turned.record.audiograms[0].thresholds[0].seen
    assert seen is not None
    assert seen.at == there.at
    outline = page.record.audiograms[0].charts[0].outline
    assert turned.record.audiograms[0].charts[0].outline[0] == pytest.approx((1 - outline[0][1], outline[0][0]))
    assert {(w.upright + 270) % 360 for w in page.words} == {w.upright for w in turned.words}
    assert [w.upright for w in back.words] == [w.upright for w in page.words]


def test_a_crop_holds_the_very_pixels_of_the_page() -> None:
    page = paint("harbour", 1)
    whole = render(page.pdf, 100)
    part = render(page.pdf, 100, crop=(0.2, 0.3, 0.7, 0.6))
    top, left = math.floor(0.3 * whole.shape[0]), math.floor(0.2 * whole.shape[1])
    same = whole[top : top + part.shape[0], left : left + part.shape[1]]
    assert part.shape[0] == math.ceil(0.6 * whole.shape[0]) - top
    assert np.abs(part.astype(int) - same.astype(int)).max() <= 8


def test_in_greys_no_ear_is_named_that_ink_alone_named() -> None:
    named = unnamed = 0
    for seed in range(12):
        page = paint("ledger", seed)
        grey = page.without_colour()
        for before, after in zip(page.marks, grey.marks, strict=True):
            if before.threshold is None or before.threshold.ear not in ("right", "left"):
                continue
            assert after.threshold is not None
            if before.glyph in ("letter-m", "letter-u"):
                assert after.threshold.ear == "unspecified"
                unnamed += 1
            elif before.glyph in ("circle", "cross", "bracket-left", "bracket-right"):
                assert after.threshold.ear == before.threshold.ear
                named += 1
        values = [t for a in grey.record.audiograms for t in a.thresholds]
        assert sorted(values, key=repr) == sorted((m.threshold for m in grey.marks if m.threshold), key=repr)
    assert named > 100
    assert unnamed > 10


def test_colour_that_stays_names_the_ears_still() -> None:
    page = paint("ledger", 3)
    kept = shown(page, Spoiled(render(page.pdf, 60), (60.0, 60.0), lambda points: points))
    assert kept.record == page.record
