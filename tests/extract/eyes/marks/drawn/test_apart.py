"""Drawn charts are taken apart into the figures that their paths draw."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from paths_by_hand import BLUE, BOX, RED, WHITE, line, ring, saltire

from octavo.extract.eyes.marks.drawn.apart import Figure, figures, flattened
from octavo.extract.eyes.marks.drawn.spread import MARGIN_PX, spread
from octavo.extract.page import DrawnPath


def numbers(found: tuple[Figure, ...]) -> list[list[int]]:
    return [[path.number for path in figure.paths] for figure in found]


def test_two_strokes_drawn_one_after_the_other_that_cross_are_one_figure() -> None:
    assert numbers(figures(saltire(1, 300, 300), BOX)) == [[1, 2]]


def test_marks_at_one_place_in_two_inks_are_two_figures() -> None:
    paths = (ring(1, 300, 300), *saltire(2, 300, 300, ink=BLUE))
    assert numbers(figures(paths, BOX)) == [[1], [2, 3]]


def test_marks_of_one_ink_at_one_place_are_two_figures_where_others_were_drawn_between() -> None:
    paths = (ring(1, 300, 300), ring(2, 500, 300), *saltire(3, 300, 300))
    assert numbers(figures(paths, BOX)) == [[1], [2], [3, 4]]


def test_two_letters_at_one_place_are_two_figures() -> None:
    paths = (line(-1, (310, 290), (290, 310)), line(-2, (290, 290), (310, 310)))
    assert numbers(figures(paths, BOX)) == [[-1], [-2]]


def test_grid_lines_joins_and_what_lies_outside_are_no_figures() -> None:
    paths = (
        line(1, (0, 500), (1000, 500), ink=BLUE),
        line(2, (300, 300), (500, 340), (700, 420)),
        ring(3, 300, 1400),
    )
    assert not figures(paths, BOX)


def test_a_figure_looks_the_same_wherever_it_stands() -> None:
    drawn = (ring(1, 300.3, 410.7), ring(7, 612.2, 333.9), ring(8, 300, 700, 11.0), ring(9, 500, 600, ink=BLUE))
    one, other, larger, blue = figures(drawn, BOX)
    assert one.look(0.2) == other.look(0.2)
    assert one.look(0.2) != larger.look(0.2)
    assert one.look(0.2) != blue.look(0.2)


def test_the_dashes_of_a_join_drawn_one_by_one_are_no_part_of_the_mark_at_its_end() -> None:
    dashes = tuple(line(k, (300 + 9 * k, 300 + k), (306 + 9 * k, 300 + 2 / 3 + k)) for k in range(12))
    mark = ring(40, 410, 312)
    assert numbers(figures((*dashes, mark), BOX)) == [[40]]


def test_a_row_of_crosses_drawn_as_one_path_is_no_dashed_line() -> None:
    crosses = [replace(s, number=7) for k in range(4) for s in saltire(0, 300 + 60 * k, 300)]
    (found,) = figures(tuple(crosses), BOX)
    assert len(found.paths) == 8


def test_white_paths_only_cover() -> None:
    cover = DrawnPath(np.array([(280, 280), (320, 280), (320, 320.0)]), np.ones(3, bool), None, WHITE, 0.0, False, 2)
    assert numbers(figures((ring(1, 300, 300), cover), BOX)) == [[1]]


def test_a_circle_of_four_curves_is_followed() -> None:
    outline = flattened(ring(1, 300, 300, 15.0)) - (300, 300)
    # eight chords a quarter stay within 1 - cos(pi / 32) of the radius
    assert np.abs(np.hypot(*outline.T) / 15 - 1).max() < 0.005


@pytest.mark.parametrize("scale", [0.5, 1.3])
def test_a_figure_stands_on_the_spread_where_the_sheet_says(scale: float) -> None:
    found = figures((ring(1, 300.3, 410.7), *saltire(2, 512.2, 333.9, ink=BLUE)), BOX)
    picture = spread(found, scale)
    for i, (left, top, right, bottom) in enumerate(picture.cells):
        ink = 255.0 - picture.pixels[top:bottom, left:right].min(axis=2)
        rows, columns = np.indices(ink.shape)
        middle = np.array([(columns * ink).sum(), (rows * ink).sum()]) / ink.sum() - MARGIN_PX
        wanted = (300.3, 410.7) if i == 0 else (512.2, 333.9)
        # a tenth of a pixel of the picture: half a grey level of antialiasing
        assert np.abs(middle / scale + found[i].box[:2] - wanted).max() < 0.1 / scale


def test_a_ring_drawn_as_two_outlines_of_one_path_is_not_filled() -> None:
    outer, inner = ring(1, 300, 300, 15.0), ring(1, 300, 300, 12.0)
    both = tuple(DrawnPath(p.points, p.on_curve, None, RED, 0.0, False, 1) for p in (outer, inner))
    (figure,) = figures(both, BOX)
    picture = spread((figure,), 1.0)
    left, top, right, bottom = picture.cells[0]
    assert picture.pixels[(top + bottom) // 2, (left + right) // 2].min() == 255


def filled(number: int, *points: tuple[float, float]) -> DrawnPath:
    return DrawnPath(np.array(points, float), np.ones(len(points), bool), None, RED, 0.0, False, number)


def test_a_wedge_painted_twice_is_one_filled_area_and_a_triangle_with_a_hole_is_none() -> None:
    wedge = ((300, 300), (330, 315), (300, 330), (300, 300))
    (twice,) = figures((filled(1, *wedge), filled(2, *wedge)), BOX)
    assert twice.solid
    outer, inner = ((300, 330), (315, 300), (330, 330), (300, 330)), ((311, 324), (315, 316), (319, 324), (311, 324))
    (hollow,) = figures((filled(1, *outer), filled(1, *inner)), BOX)
    assert not hollow.solid


def test_a_ring_of_a_thick_line_is_hollow_and_a_painted_or_hatched_one_is_not() -> None:
    # seen on a form with heavy small circles: each might have been a filled one, and asked
    thick = replace(ring(1, 300, 300), width_px=5.0)
    (one,) = figures((thick,), BOX)
    assert one.hollow
    (on_white,) = figures((replace(thick, fill=WHITE),), BOX)
    assert on_white.hollow
    (painted,) = figures((replace(thick, fill=RED),), BOX)
    assert not painted.hollow
    (hatched,) = figures((thick, replace(ring(2, 300, 300, 2.0), width_px=5.0)), BOX)
    assert not hatched.hollow


def test_a_wedge_painted_with_an_edge_of_its_own_colour_is_one_filled_area_and_one_on_white_is_none() -> None:
    wedge = filled(1, (300, 300), (330, 315), (300, 330), (300, 300))
    (edged,) = figures((replace(wedge, stroke=RED, width_px=2.0),), BOX)
    assert edged.solid
    (open_one,) = figures((replace(wedge, stroke=RED, fill=(255, 255, 255), width_px=2.0),), BOX)
    assert not open_one.solid


@pytest.mark.parametrize("in_one_path", [True, False])
def test_the_dots_of_a_grid_are_no_figures_and_hide_no_marks(*, in_one_path: bool) -> None:
    # seen on a page: each dotted line was one path of 200 small squares, the chart was taken for a picture full of
    # paths and seen as a whole, and 27 of 30 values were missed or wrong
    square = np.array([(0, 0), (2, 0), (2, 1.3), (0, 1.3)])
    dots = tuple(
        DrawnPath(
            square + np.array((200 + 6 * k, 300)), np.ones(4, bool), None, RED, 0.0, False, 1 if in_one_path else k
        )
        for k in range(40)
    )
    assert numbers(figures((*dots, ring(90, 310, 300)), BOX)) == [[90]]
