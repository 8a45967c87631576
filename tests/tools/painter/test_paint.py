from __future__ import annotations

import subprocess
import sys
from collections import Counter

import numpy as np
import pytest

from octavo.interpret.errors import MisuseError
from octavo.interpret.symbols import GLYPHS, SYMBOL_SETS
from octavo.tools.painter import FAMILIES, PaintedPage, paint, render

WITH_CHARTS = [name for name, family in FAMILIES.items() if not family.tags & {"none", "table", "chartless"}]
OF_ONE_SET = [name for name in WITH_CHARTS if "wild" not in FAMILIES[name].tags]
WILD = [name for name in WITH_CHARTS if "wild" in FAMILIES[name].tags]


def pages(seeds: range) -> list[PaintedPage]:
    return [paint(name, seed) for name in OF_ONE_SET for seed in seeds]


def test_there_are_ten_families_with_charts_for_training_and_ten_others_for_the_benchmark() -> None:
    splits = Counter(FAMILIES[name].split for name in WITH_CHARTS)
    assert splits["train"] >= 10
    assert splits["bench"] >= 10


def test_the_same_family_and_seed_give_the_same_page_in_another_process() -> None:
    code = (
        "import hashlib; from octavo.tools.painter import paint;"
        "print(*(hashlib.sha256(paint(n, 5).pdf).hexdigest() for n in ('keyed', 'quay')))"
    )
    other = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONHASHSEED": "7"}
    ).stdout.split()
    assert other == [paint(name, 5).record.source.sha256 for name in ("keyed", "quay")]


def test_another_seed_gives_another_page() -> None:
    assert paint("harbour", 1).record.audiograms != paint("harbour", 2).record.audiograms


def test_a_family_that_is_not_there_is_a_misuse() -> None:
    with pytest.raises(MisuseError, match="there is no family 'nowhere'"):
        paint("nowhere", 1)


@pytest.mark.parametrize("name", OF_ONE_SET)
def test_every_true_value_is_in_range_on_a_5_db_step_and_stands_alone(name: str) -> None:
    for seed in range(3):
        page = paint(name, seed)
        for audiogram in page.record.audiograms:
            assert audiogram.thresholds
            keys = Counter(
                (t.ear, t.conduction, t.masked, t.aided, t.measure, t.frequency_hz) for t in audiogram.thresholds
            )
            assert max(keys.values()) == 1
            for threshold in audiogram.thresholds:
                assert threshold.seen is not None
                assert threshold.seen.chart is not None
                axis = audiogram.charts[threshold.seen.chart].level_axis
                assert axis is not None
                assert axis.db_hl[0] <= threshold.level_db_hl <= axis.db_hl[1]
                assert threshold.level_db_hl % 5 == 0


@pytest.mark.parametrize("name", OF_ONE_SET)
def test_every_mark_is_a_glyph_of_its_pages_symbol_set_and_belongs_to_a_threshold(name: str) -> None:
    page = paint(name, 11)
    values = [t for a in page.record.audiograms for t in a.thresholds]
    assert [m.threshold for m in page.marks if not m.in_key] == values
    for mark in page.marks:
        symbol_set = page.record.audiograms[mark.audiogram].symbol_set
        assert symbol_set is not None
        assert mark.glyph in SYMBOL_SETS[symbol_set].meanings
        assert (mark.threshold is None) == mark.in_key


def test_every_glyph_that_a_symbol_set_knows_gets_painted_for_training() -> None:
    known = {glyph for symbols in SYMBOL_SETS.values() for glyph in symbols.meanings}
    seen: set[str] = set()
    for seed in range(60):
        for name in ("strip", "keyed", "single", "dates"):
            seen |= {mark.glyph for mark in paint(name, seed).marks}
        if seen >= known:
            break
    assert seen >= known
    assert known <= set(GLYPHS)


def test_freely_drawn_pages_are_for_training_alone() -> None:
    assert {FAMILIES[name].split for name in WILD} == {"train"}


@pytest.mark.parametrize("name", WILD)
def test_every_mark_of_a_freely_drawn_page_belongs_to_a_value_or_a_legend(name: str) -> None:
    for seed in range(4):
        page = paint(name, seed)
        values = [t for a in page.record.audiograms for t in a.thresholds]
        assert [m.threshold for m in page.marks if not m.in_key] == values
        for mark in page.marks:
            assert (mark.threshold is None) == mark.in_key
            assert (mark.arrow is None) == (mark.threshold is None or mark.threshold.response)


def test_every_glyph_is_at_least_a_seventieth_of_the_marks_painted_for_training() -> None:
    # pages with all their facts or printed tables are none that the marks are trained on (tools/train/marks/crops.py)
    fit = [name for name in WITH_CHARTS if not FAMILIES[name].tags & {"facts", "facts-pen", "printed-table"}]
    training = [name for name in fit if FAMILIES[name].split == "train"]
    counts = Counter(mark.glyph for name in training for seed in range(12) for mark in paint(name, seed).marks)
    assert min(counts[glyph] for glyph in GLYPHS) >= counts.total() / 70


def test_a_no_response_mark_has_an_arrow_and_no_joining_line_ends_there() -> None:
    checked = 0
    for page in pages(range(4)):
        ends = {point for join in page.joins for point in join}
        for mark in page.marks:
            if mark.threshold is None:
                continue
            assert (mark.arrow is None) == mark.threshold.response
            if mark.arrow is not None:
                assert mark.arrow_tip is not None
                assert mark.arrow_tip[1] > mark.at[1]
                assert mark.at not in ends or _shared(page, mark.at)
                checked += 1
    assert checked > 50


def _shared(page: PaintedPage, at: tuple[float, float]) -> bool:
    """Tell whether a mark that was heard has its centre on the same point."""
    return any(m.at == at and m.threshold is not None and m.threshold.response for m in page.marks)


def test_arrows_point_outward_by_ear_and_straight_down_in_japan() -> None:
    # references/audiometric_symbols.csv, rows nr_r, nr_l (ASHA 1990) and nr (Japan)
    outward = {"right": "down-left", "left": "down-right"}
    found: Counter[str] = Counter()
    for page in [*pages(range(4)), *(paint("kelp", seed) for seed in range(20))]:
        for mark in page.marks:
            if mark.arrow is None or mark.threshold is None:
                continue
            symbols = page.record.audiograms[mark.audiogram].symbol_set
            wanted = "down" if symbols == "jis-t-1201" else outward.get(mark.threshold.ear)
            if wanted is not None:
                assert mark.arrow == wanted
                found[f"{wanted}"] += 1
    assert all(found[arrow] > 5 for arrow in ("down-left", "down-right", "down"))


def test_bone_marks_beside_the_line_stand_on_the_side_that_asha_names() -> None:
    # references/audiometric_symbols.csv: right-ear bone left of the line, left-ear bone right of it
    checked = 0
    for seed in range(6):
        for mark in paint("harbour", seed).marks:
            if mark.glyph in ("angle-left", "bracket-left", "angle-right", "bracket-right") and mark.threshold:
                seen = mark.threshold.seen
                assert seen is not None
                assert seen.frequency_hz is not None
                left = seen.frequency_hz < mark.threshold.frequency_hz
                assert left == (mark.threshold.ear == "right")
                checked += 1
    assert checked > 20


def test_a_black_british_triangle_names_no_ear_but_a_coloured_one_does() -> None:
    ears: dict[bool, set[str]] = {True: set(), False: set()}
    for seed in range(12):
        for mono in (True, False):
            for mark in paint("lantern", seed, mono=mono).marks:
                if mark.glyph == "triangle" and mark.threshold is not None:
                    ears[mark.ink == "neutral"].add(mark.threshold.ear)
    assert ears == {True: {"unspecified"}, False: {"right", "left"}}


def test_a_triangle_on_a_chart_for_one_ear_is_of_that_ear_in_any_ink() -> None:
    found = [
        m.threshold.ear
        for s in range(4)
        for m in paint("twin", s, mono=True).marks
        if m.threshold and m.glyph == "triangle"
    ]
    assert set(found) == {"right", "left"}


@pytest.mark.parametrize("name", ["harbour", "single", "keyed", "report", "kelp", "spar"])
def test_a_page_asked_for_without_colour_has_none(name: str) -> None:
    pixels = render(paint(name, 3, mono=True).pdf, 60).astype(int)
    assert np.ptp(pixels, axis=2).max() == 0
    assert {mark.ink for mark in paint(name, 3, mono=True).marks} == {"neutral"}


def test_no_mark_is_hidden_exactly_beneath_one_of_its_own_shape() -> None:
    for page in pages(range(3)):
        places = Counter((mark.glyph, mark.at) for mark in page.marks)
        assert max(places.values()) == 1


def test_marks_of_both_ears_often_fall_together() -> None:
    together = total = 0
    for seed in range(10):
        places = Counter(mark.at for mark in paint("mole", seed).marks if mark.glyph in ("circle", "cross"))
        total += 1
        together += any(count > 1 for count in places.values())
    assert together / total > 0.4


def test_several_dates_are_several_audiograms_and_two_ears_of_one_test_are_one() -> None:
    assert [len(a.charts) for a in paint("ledger", 1).record.audiograms] == [1, 1, 1]
    assert [len(a.charts) for a in paint("quay", 1).record.audiograms] == [2]


def test_the_right_ear_is_on_the_left_half() -> None:
    # references.md, section 1: with two charts side by side the right ear is at the left of the page
    page = paint("quay", 2)
    assert all((m.at[0] < 0.5) == (m.threshold.ear == "right") for m in page.marks if m.threshold)
