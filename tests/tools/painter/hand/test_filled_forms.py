"""Forms filled in by hand: marks near their place, wrong ones no part of the truth, ink where the truth says."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from octavo.tools.painter import FAMILIES, PaintedMark, PaintedPage, paint, render
from octavo.tools.painter.chart.axes import Scale, place
from octavo.tools.painter.chart.look import Lettering, Look, Rule, Ruling, Strokes
from octavo.tools.painter.hand.chart import draw_hand_chart
from octavo.tools.painter.hand.filling import any_filling
from octavo.tools.painter.hand.people import PEOPLE
from octavo.tools.painter.hand.writer import any_writer
from octavo.tools.painter.patient import Tone
from octavo.tools.painter.pen import Pen
from octavo.tools.painter.sheet import Sheet

BENCH = [name for name, family in FAMILIES.items() if "pen" in family.tags]
TRAINING = ["penned", "jotted", "filled-in", "pen-notes", "pen-card", "pen-dates"]
DPI = 150


def box_of(mark: PaintedMark, page: PaintedPage) -> np.ndarray:
    (x, y), (w, h) = mark.at, mark.size
    return np.array([x - w / 2, y - h / 2, x + w / 2, y + h / 2]) * (page.size_pt * 2)


def test_no_form_of_the_benchmark_is_for_training_and_none_of_training_for_the_benchmark() -> None:
    assert len(BENCH) >= 4
    assert {FAMILIES[name].split for name in BENCH} == {"bench"}
    assert {FAMILIES[name].split for name in TRAINING} == {"train"}


def test_the_benchmarks_marks_miss_their_level_by_0_9_db_cut_at_2_and_their_frequency_by_3_percent() -> None:
    # the issue's own figures; a normal deviation of 0.9 dB cut at 2 dB has one of 0.79 dB
    levels, octaves = [], []
    for name in BENCH:
        for seed in range(4):
            page = paint(name, seed)
            for mark in page.marks:
                if mark.threshold is None or mark.threshold.seen is None:
                    continue
                seen = mark.threshold.seen
                assert seen.level_db_hl is not None
                assert seen.frequency_hz is not None
                levels.append(seen.level_db_hl - mark.threshold.level_db_hl)
                if mark.threshold.conduction == "air" and mark.threshold.frequency_hz in (500, 1000, 2000, 4000):
                    octaves.append(np.log2(seen.frequency_hz / mark.threshold.frequency_hz))
    assert np.abs(levels).max() <= 2.0
    assert 0.7 < np.std(levels) < 0.95
    # hz_at runs evenly between the printed lines: half-way drawn ones stretch an octave's half by 1.17
    assert np.abs(octaves).max() <= 0.03 * 1.17
    assert np.std(octaves) > 0.008


@pytest.mark.parametrize("name", [*BENCH, *TRAINING])
def test_the_ink_of_a_mark_by_hand_reaches_the_sides_of_its_box(name: str) -> None:
    checked = 0
    for seed in range(3):
        page = paint(name, seed)
        dark = render(page.pdf, DPI).min(axis=2)
        paper = np.median(dark)
        for mark in page.marks:
            if mark.in_key:
                continue
            left, top, right, bottom = np.round(box_of(mark, page) * DPI / 72).astype(int)
            inside = dark[max(top, 0) : bottom + 1, max(left, 0) : right + 1] < paper - 25
            if inside.size == 0:
                continue
            assert inside[:4].any()
            assert inside[-4:].any()
            assert inside[:, :4].any()
            assert inside[:, -4:].any()
            checked += 1
    assert checked > 15


def chart_with(wrong: float) -> Sheet:
    rng = np.random.default_rng(5)
    scale = Scale((250, 500, 1000, 2000, 4000, 8000), (-10, 120), margin=(0.5, 0.5, 0.0, 0.0))
    line = Rule(0.5)
    look = Look("asha-1990", Lettering("Helvetica", 8), Ruling(line, line, line, line), Strokes())
    tones = [Tone("right", "air", False, hz, 20.0) for hz in scale.printed]
    sheet = Sheet(Pen(500, 600))
    filling = replace(any_filling(rng, mono=False, one_pen=0.0), wrong=wrong)
    axes = place(scale, (50, 50, 450, 550))
    draw_hand_chart(sheet, sheet.open_audiogram("asha-1990", None), axes, look, filling, tones, rng)
    return sheet


def test_a_mark_that_was_struck_out_leaves_ink_and_is_nothing_in_the_truth() -> None:
    right, struck = chart_with(0.0).finish("x", 1), chart_with(1.0).finish("x", 1)
    assert struck.marks == right.marks
    assert struck.record.audiograms == right.record.audiograms
    more = (render(struck.pdf, 72).min(axis=2) < 150).sum() - (render(right.pdf, 72).min(axis=2) < 150).sum()
    assert more > 50
    new = (render(struck.pdf, 72).astype(int) - render(right.pdf, 72)).min(axis=2) < -60
    for mark in struck.marks:
        left, top, r, bottom = np.round(box_of(mark, struck)).astype(int)
        assert not new[top:bottom, left:r].any()


def test_one_pen_has_one_ink_and_two_pens_name_the_ears() -> None:
    for name in BENCH:
        inks: Counter[tuple[str, str]] = Counter()
        for seed in range(4):
            page = paint(name, seed)
            own = {m.ink for m in page.marks if not m.in_key}
            if "one-pen" in FAMILIES[name].tags:
                assert len(own) == 1
            for mark in page.marks:
                if mark.threshold is not None and mark.threshold.conduction == "air":
                    inks[mark.threshold.ear, mark.ink] += 1
        if "two-pens" in FAMILIES[name].tags:
            assert set(inks) == {("right", "red"), ("left", "blue")}


def test_one_blue_pen_gives_no_ear_to_a_british_triangle() -> None:
    ears = {
        (mark.ink, mark.threshold.ear)
        for seed in range(12)
        for mark in paint("beacon-one", seed).marks
        if mark.glyph == "triangle" and mark.threshold is not None
    }
    assert {ear for _, ear in ears} == {"unspecified"}
    assert "blue" in {ink for ink, _ in ears}


def test_the_benchmarks_people_have_habits_that_no_writer_of_training_has() -> None:
    habits = ("cross", "triangle", "square", "bracket", "circle")
    taught = {(h, getattr(any_writer(np.random.default_rng(seed)), h)) for seed in range(200) for h in habits}
    for person in PEOPLE:
        assert {(h, getattr(person, h)) for h in habits} - taught


def test_written_words_have_their_ink_in_their_box() -> None:
    page = paint("slip-one", 3)
    dark = render(page.pdf, DPI).min(axis=2)
    hand = [w for w in page.words if w.role == "other" and w.box[1] < 0.16 and w.box[0] > 0.12 and w.text.isalpha()]
    names = [w for w in hand if w.text not in ("Audiometry", "slip", "Patient", "Tested", "Born", "By")]
    assert names
    for word in names:
        left, top, right, bottom = np.round(np.array(word.box) * (dark.shape[1::-1] * 2)).astype(int)
        assert (dark[top : bottom + 1, left : right + 1] < 170).any()
        assert (dark[top - 5 : top - 2, left : right + 1] > 150).all()


@pytest.mark.parametrize("name", ["register", "tally", "pen-register"])
def test_a_page_with_a_table_alone_has_its_thresholds_where_their_digits_are_written(name: str) -> None:
    checked = 0
    for seed in range(6):
        page = paint(name, seed)
        assert not page.marks
        for audiogram in page.record.audiograms:
            assert not audiogram.charts
            for threshold in audiogram.thresholds:
                seen = threshold.seen
                assert seen is not None
                assert seen.chart is None
                assert seen.at is not None
                text = f"{threshold.level_db_hl:g}".replace("-0", "0") + "+" * (not threshold.response)
                at = seen.at
                here = [w for w in page.words if w.box[0] <= at[0] <= w.box[2] and w.box[1] <= at[1] <= w.box[3]]
                assert text in {w.text for w in here}
                checked += 1
    assert checked > 30


def test_a_table_beside_a_chart_holds_the_charts_own_numbers() -> None:
    for seed in range(4):
        page = paint("berth", seed)
        written = Counter(w.text for w in page.words if 130 < w.box[1] * page.size_pt[1] < 245)
        for threshold in page.record.audiograms[0].thresholds:
            if threshold.conduction == "air" and threshold.frequency_hz in (250, 500, 1000, 2000, 4000, 8000):
                text = str(round(threshold.level_db_hl)) + "+" * (not threshold.response)
                assert written[text] > 0
                written[text] -= 1


def test_a_hand_sets_the_leaflets_angle_marks_on_their_line() -> None:
    # references.md section 2: the German leaflet draws them on the line, and no text read turns them beside it
    misses = []
    for seed in range(400):
        page = paint("penned", 8_000_000 + seed) if len(misses) < 5 else None
        if page is None or page.record.audiograms[0].symbol_set != "leaflet-de":
            continue
        for threshold in page.record.audiograms[0].thresholds:
            seen = threshold.seen
            if threshold.conduction == "bone" and threshold.frequency_hz in (500, 1000, 2000) and seen is not None:
                assert seen.frequency_hz is not None
                misses.append(abs(np.log2(seen.frequency_hz / threshold.frequency_hz)))
    assert len(misses) >= 5
    assert max(misses) <= 0.05 * 1.2  # the hand's own miss, and half-way drawn lines stretch half an octave by 1.17


def test_a_mark_whose_ear_only_ink_names_is_not_of_no_ear_in_an_ears_ink() -> None:
    for name in [name for name in BENCH if "two-pens" in FAMILIES[name].tags]:
        for seed in range(12):
            page = paint(name, seed)
            assert not any(
                m.glyph == "triangle" and m.ink != "neutral" and m.threshold is not None
                and m.threshold.ear == "unspecified" and page.record.audiograms[m.audiogram].symbol_set == "bsa-2018"
                for m in page.marks
            )  # fmt: skip


def test_a_form_without_any_mark_has_none_struck_out_either() -> None:
    # failed with "high <= 0"
    assert paint("filled-in", 9_607_909).record.audiograms
