"""A writer's hand strays as much as it should, and no more; the truth says where the ink stands."""

from __future__ import annotations

import math

import numpy as np

from octavo.tools.painter import paint
from octavo.tools.painter.chart.glyphs import Part
from octavo.tools.painter.chart.writer import any_writer, hand_drawn, joined, widths

RING = Part(radius=10.0)
STROKES = [Part(((-10.0, -10.0), (10.0, 10.0))), Part(((-10.0, 10.0), (10.0, -10.0)))]


def test_a_round_by_hand_stays_near_its_circle_and_rarely_closes() -> None:
    gaps = []
    for seed in range(60):
        rng = np.random.default_rng(seed)
        (ring,) = hand_drawn([RING], 20.0, any_writer(rng), rng)
        points = np.array(ring.points)
        radii = np.hypot(*(points - points.mean(axis=0)).T)
        assert 4 < np.median(radii) < 18
        gaps.append(math.dist(ring.points[0], ring.points[-1]))
    assert np.median(gaps) > 0.5


def test_the_same_seed_draws_the_same_and_another_does_not() -> None:
    def drawn(seed: int) -> list[Part]:
        rng = np.random.default_rng(seed)
        return hand_drawn(STROKES, 20.0, any_writer(rng), rng)

    assert drawn(4) == drawn(4)
    assert drawn(4) != drawn(5)


def test_pressure_never_breaks_a_line() -> None:
    for seed in range(40):
        rng = np.random.default_rng(seed)
        wide = widths(25, 1.0, any_writer(rng), rng)
        assert (wide > 0.3).all()
        assert (wide < 1.5).all()


def test_a_join_by_hand_ends_near_its_marks() -> None:
    line = [(0.0, 0.0), (100.0, 40.0), (200.0, 30.0)]
    for seed in range(40):
        rng = np.random.default_rng(seed)
        done = joined(line, any_writer(rng), 20.0, rng)
        # a normal deviation of at most 0.11 x 1.5 marks: five times that is never passed in 40 draws
        assert max(math.dist(done[0], line[0]), math.dist(done[-1], line[-1])) < 20


def test_marks_by_hand_miss_their_level_by_two_decibels_at_the_most() -> None:
    misses = [
        t.seen.level_db_hl - t.level_db_hl
        for seed in range(10)
        for a in paint("penned", seed).record.audiograms
        for t in a.thresholds
        if t.seen is not None and t.seen.level_db_hl is not None
    ]
    assert 0.2 < np.std(misses) < 1.1
    assert np.abs(misses).max() <= 2.01
