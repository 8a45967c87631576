"""Marks by hand: noticed by their sizes and places, and seen in two looks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from by_hand import LEVELS, level_run, mark, y_of

from octavo.extract.eyes.marks.hand import agreed, by_hand
from octavo.extract.sightings import LabelRun, MarkSight

STEPS = (10, 15, 25, 40, 55, 60, 45, 35)
FREQUENCIES = (250, 500, 750, 1000, 2000, 3000, 4000, 8000)


def levels() -> LabelRun:
    return level_run(LEVELS, map(y_of, LEVELS))


def drawn(spread_db: float, spread_size: float, shift_db: float = 0.0) -> tuple[MarkSight, ...]:
    """Set circles with normal misses of their steps and normal logarithms of their sizes."""
    rng = np.random.default_rng(4)
    marks = []
    for hz, step in zip(FREQUENCIES, STEPS, strict=True):
        sight = mark("circle", hz, step + shift_db + rng.normal(0, spread_db)).sight
        wide, high = (14 * float(np.exp(rng.normal(0, spread_size))) for _ in range(2))
        marks.append(replace(sight, size=(wide, high)))
    return tuple(marks)


def test_marks_that_miss_their_steps_by_0_9_db_and_differ_in_size_are_by_hand() -> None:
    # 0.9 dB: the standard deviation of hand-drawn marks that the benchmark asks for (issue 4)
    assert by_hand(drawn(0.9, 0.1), levels())


def test_printed_marks_are_not_by_hand_though_all_stand_off_their_steps_together() -> None:
    assert not by_hand(drawn(0.05, 0.02), levels())
    assert not by_hand(drawn(0.05, 0.02, shift_db=2.0), levels())


def test_four_marks_are_too_few_to_tell_a_hand() -> None:
    assert not by_hand(drawn(0.9, 0.1)[:4], levels())


def test_what_both_looks_see_has_the_mean_of_their_scores_and_places() -> None:
    one = mark("circle", 1000, 40, score=0.9).sight
    other = replace(one, at=(one.at[0] + 2, one.at[1]), score=0.7)
    (both,) = agreed((one,), (other,), 5.0)
    assert both.score == pytest.approx(0.8)
    assert both.at[0] == pytest.approx(one.at[0] + 1)


def test_what_one_look_sees_counts_for_half() -> None:
    one = mark("circle", 1000, 40, score=0.9).sight
    (alone,) = agreed((one,), (), 5.0)
    (other,) = agreed((), (one,), 5.0)
    assert 0.45 <= alone.score < 0.55
    assert alone == other


def test_another_shape_at_a_marks_place_is_its_rival_after_both_looks() -> None:
    circle, cross = mark("circle", 1000, 40, score=0.9).sight, mark("cross", 1000, 40, score=0.6).sight
    far = mark("cross", 4000, 40, score=0.6).sight
    seen = agreed((circle, cross, far), (circle, cross, far), 5.0)
    assert next(m for m in seen if m.glyph == "circle").rivals == (("cross", pytest.approx(0.6)),)
    assert next(m for m in seen if m.at == far.at).rivals == ()
