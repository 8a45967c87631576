"""What speaks for and against a mark, as numbers."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from by_hand import chart, mark, row, sheet

from octavo.extract.chart import Mark
from octavo.extract.meaning.certainty import NAMES, Surroundings, certainty, evidence, probability
from octavo.interpret.record import TakenBy

ROW = row("circle", {500: 20, 1000: 25, 2000: 40}, "red")


def numbers(one: Mark, *others: Mark, weak: tuple[Mark, ...] = ()) -> dict[str, float]:
    return on_page("scan", one, *others, weak=weak)


def on_page(taken_by: TakenBy, one: Mark, *others: Mark, weak: tuple[Mark, ...] = ()) -> dict[str, float]:
    taken = [one, *others]
    around = Surroundings.of(sheet(taken_by), chart(*taken), taken, list(weak))
    return dict(zip(NAMES, evidence(around, one, "right", 0.5, 0.01), strict=True))


def test_every_number_has_a_fitted_weight() -> None:
    assert len(certainty().weights) == len(NAMES)
    assert 0 < probability((0.0,) * len(NAMES)) < 1


def test_a_lone_clear_mark_has_nothing_against_it() -> None:
    found = numbers(*ROW)
    against = {"crowd", "rival", "off_colour", "outshone", "odd_size", "near", "weak_near", "jump", "few_labels"}
    assert {name: found[name] for name in against} == dict.fromkeys(against, 0.0)
    assert found["level_miss"] == pytest.approx(0.25)
    assert found["frequency_miss"] == pytest.approx(0.01)
    assert found["score"] == pytest.approx(math.log(0.97 / 0.03))


def test_a_mark_weaker_than_its_chart_says_so() -> None:
    weaker = mark("circle", 4000, 40, score=0.485)
    assert numbers(weaker, *ROW)["relative_score"] == pytest.approx(math.log(0.5))


def test_a_mark_beside_a_stronger_shape_is_outshone_by_the_difference() -> None:
    assert numbers(mark("circle", 4000, 40, score=0.6, rivals=(("cross", 0.9),)), *ROW)["outshone"] == pytest.approx(
        0.3
    )


def test_a_mark_twice_as_large_as_its_like_is_odd() -> None:
    large = mark("circle", 4000, 40)
    large = replace(large, sight=replace(large.sight, size=(28.0, 28.0)))
    assert numbers(large, *ROW)["odd_size"] == pytest.approx(math.log(2))


def test_the_nearer_the_next_mark_the_larger_the_number() -> None:
    near = [numbers(ROW[0], mark("cross", 500, 20 + db))["near"] for db in (0, 1, 2, 40)]
    assert near == sorted(near, reverse=True)
    assert (near[0], near[-1]) == (1.5, 0.0)


def test_a_weak_peak_of_another_shape_beside_a_mark_counts_and_one_of_its_own_does_not() -> None:
    assert numbers(*ROW, weak=(mark("cross", 500, 22, score=0.3),))["weak_near"] == pytest.approx(0.3)
    assert numbers(*ROW, weak=(mark("circle-filled", 500, 22, score=0.3),))["weak_near"] == 0.0


@pytest.mark.parametrize(("level", "jump"), [(45, 0.0), (85, 2.0), (-35, 2.0)])
def test_a_mark_that_juts_out_of_its_row_by_more_than_40_db_an_octave_says_so(level: float, jump: float) -> None:
    others = row("circle", {500: 25, 2000: 25})
    assert numbers(mark("circle", 1000, level), *others)["jump"] == pytest.approx(jump)


def test_a_slope_however_steep_is_no_jump() -> None:
    assert numbers(mark("circle", 1000, 60), *row("circle", {500: 10, 2000: 115}))["jump"] == 0.0


def test_how_the_page_was_taken_and_whether_it_has_colour_count() -> None:
    drawn, photo = on_page("drawn", *ROW), on_page("photo", *ROW)
    assert [drawn[n] for n in ("scanned", "photographed", "grey")] == [0.0, 0.0, 0.0]
    assert [photo[n] for n in ("scanned", "photographed")] == [0.0, 1.0]
    assert on_page("scan", mark("circle", 500, 20))["grey"] == 1.0


def test_few_labels_a_bad_fit_and_a_lattice_without_lines_count() -> None:
    made = chart(*ROW)
    poor = replace(
        made,
        frequency=replace(made.frequency, labels_read=3, worst_misfit=0.05),
        bend=replace(made.bend, lines_found=2),
    )
    found = dict(
        zip(NAMES, evidence(Surroundings.of(sheet(), poor, [*ROW], []), ROW[0], "right", 0.0, 0.0), strict=True)
    )
    assert (found["few_labels"], found["misfit"], found["no_grid"]) == (3.0, 0.5, 1.0)
