"""A writer's hand strays as much as it should and no more, and pens leave ink as pens do."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from octavo.interpret.symbols import GLYPHS, Glyph
from octavo.tools.painter.hand.filling import any_filling
from octavo.tools.painter.hand.marks import draw_arrow, draw_mark, strike_out
from octavo.tools.painter.hand.motion import Intent, Path, travel
from octavo.tools.painter.hand.nib import Nib, any_nib, inked
from octavo.tools.painter.hand.shapes import intents
from octavo.tools.painter.hand.writer import CrossHabit, any_writer
from octavo.tools.painter.pen import Pen
from octavo.tools.painter.render import render

CORNER = Intent(np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]), 0.0)
SEEDS = range(60)


def nearest(path: Path, at: tuple[float, float]) -> float:
    return float(np.hypot(*(path.points - at).T).min())


def test_a_slow_hand_reaches_its_corners_and_a_hasty_one_cuts_them() -> None:
    missed = [nearest(travel(replace(CORNER, rounding=rounding)), (10.0, 0.0)) for rounding in (0.0, 0.3, 0.6)]
    assert missed[0] < 0.1
    assert missed[0] < missed[1] < missed[2] < 5


def test_a_hand_is_fastest_half_way_and_rests_at_corners() -> None:
    path = travel(CORNER)
    middle = path.speed[np.hypot(*(path.points - (5.0, 0.0)).T).argmin()]
    corner = path.speed[np.hypot(*(path.points - (10.0, 0.0)).T).argmin()]
    assert middle > 1.3
    assert corner < 0.5


def test_a_round_by_hand_stays_near_its_circle_and_rarely_closes() -> None:
    gaps = []
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        points = travel(intents("circle", replace(any_writer(rng), twice=0.0), rng)[0]).points
        radii = np.hypot(*(points - points.mean(axis=0)).T)
        assert 0.25 < np.median(radii) < 0.7
        gaps.append(math.dist(points[0], points[-1]))
    assert np.median(gaps) > 0.05


def test_the_sides_of_a_triangle_by_hand_differ() -> None:
    shares = []
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        writer = replace(any_writer(rng), triangle="apex", haste=0.0, twice=0.0)
        a, b, c, _ = intents("triangle", writer, rng)[0].via
        sides = sorted(math.dist(*pair) for pair in ((a, b), (b, c), (c, a)))
        shares.append(sides[2] / sides[0])
    assert np.median(shares) > 1.1
    assert max(shares) < 3


@pytest.mark.parametrize("glyph", GLYPHS)
def test_a_mark_by_hand_stands_where_it_is_set_at_about_its_height(glyph: Glyph) -> None:
    for seed in range(12):
        rng = np.random.default_rng(seed)
        pen = Pen(100, 100)
        nib = replace(any_nib(rng), skips=0.0, blot=0.0)
        box = draw_mark(pen, glyph, (50, 50), 24, any_writer(rng), nib, (0, 0, 0), rng)
        assert ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2) == pytest.approx((50, 50))
        assert 12 < box[3] - box[1] < 44
        rows, columns = np.nonzero(render(pen.finish(), 144).min(axis=2) < 225)
        ink = np.array([columns.min(), rows.min(), columns.max() + 1, rows.max() + 1]) / 2
        # 0.8 pt, about a pixel and a half: the thin end of a pale stroke fades into the paper
        assert np.abs(ink - box).max() < 0.8


def test_a_line_is_wider_where_the_hand_is_slow_and_never_breaks_by_itself() -> None:
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        nib = Nib("ballpoint", 1.0, yields=0.3, taper=0.0)
        trail = inked(travel(CORNER), nib, rng)
        assert trail.inked.all()
        assert trail.widths.min() > 0.3
        assert trail.widths[trail.widths.argmax()] < 1.6
        assert np.corrcoef(trail.widths, travel(CORNER).speed)[0, 1] < -0.8


def test_a_fountain_pen_is_wide_across_its_edge_and_thin_along_it() -> None:
    nib = Nib("fountain", 1.0, yields=0.0, taper=0.0, edge=0.8, edge_angle=0.0)
    along, across = (
        inked(travel(Intent(np.array([(0.0, 0.0), end]), 0.0)), nib, np.random.default_rng(1)).widths.mean()
        for end in ((20.0, 0.0), (0.0, 20.0))
    )
    assert across > 1.8 * along


def test_the_same_seed_draws_the_same_and_another_does_not() -> None:
    def drawn(seed: int) -> bytes:
        rng = np.random.default_rng(seed)
        pen = Pen(100, 100)
        filling = any_filling(rng, mono=False)
        box = draw_mark(pen, "square", (50, 50), 20, filling.writer, filling.right.nib, (0, 0, 0), rng)
        draw_arrow(pen, box, "down-left", filling.writer, filling.right.nib, (0, 0, 0), rng)
        return pen.finish()

    assert drawn(4) == drawn(4)
    assert drawn(4) != drawn(5)


def test_what_strikes_a_mark_out_covers_its_middle() -> None:
    for seed in range(30):
        rng = np.random.default_rng(seed)
        pen = Pen(100, 100)
        strike_out(pen, (40, 40, 60, 60), any_nib(rng, "ballpoint"), (0, 0, 0), rng)
        assert (render(pen.finish(), 72).min(axis=2)[42:58, 42:58] < 150).sum() > 8


def test_an_arrow_is_flicked_down_and_out_of_its_mark() -> None:
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        tip = draw_arrow(Pen(99, 99), (40, 40, 60, 60), "down-left", any_writer(rng), any_nib(rng), (0, 0, 0), rng)
        assert tip[0] < 50
        assert tip[1] > 60


@pytest.mark.parametrize("cross", ["loop", "loop-left", "foot", "eight"])
def test_a_cross_in_one_go_passes_its_middle_twice(cross: CrossHabit) -> None:
    for seed in SEEDS:
        rng = np.random.default_rng(seed)
        writer = replace(any_writer(rng), cross=cross, twice=0.0)
        (stroke,) = intents("cross", writer, rng)
        near = np.hypot(*travel(stroke).points.T) < 0.3
        assert np.count_nonzero(near[1:] & ~near[:-1]) == 2


def test_hasty_hands_set_arrows_apart_from_their_marks() -> None:
    def start(gap: float) -> float:
        rng = np.random.default_rng(5)
        pen = Pen(100, 100)
        writer = replace(any_writer(rng), arrow="none", arrow_gap=gap)
        draw_arrow(pen, (40, 40, 60, 60), "down", writer, replace(any_nib(rng), skips=0.0), (0, 0, 0), rng)
        return float(np.nonzero(render(pen.finish(), 144).min(axis=2) < 200)[0].min()) / 2

    assert start(0.0) < start(0.5) < 72
