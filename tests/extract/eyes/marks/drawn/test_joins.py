"""Lines between marks are no part of them."""

from __future__ import annotations

import numpy as np
from by_hand import mark
from paths_by_hand import BOX, line, ring, saltire

from octavo.extract.eyes.marks.drawn.apart import figures
from octavo.extract.eyes.marks.drawn.arrows import Alone
from octavo.extract.eyes.marks.drawn.joins import without_joins
from octavo.extract.page import DrawnPath
from octavo.interpret.symbols import Glyph


def seen(glyph: Glyph, *paths: DrawnPath) -> Alone:
    (figure,) = figures(paths, BOX)
    middle = (figure.box[0] + figure.box[2]) / 2, (figure.box[1] + figure.box[3]) / 2
    sight = mark(glyph, 1000, 30).sight
    return Alone(figure, type(sight)(0, glyph, middle, figure.size, 0.9, (), 1.0, 0.0, (0, 0, 0), apart=True))


def test_two_joins_that_meet_like_a_vee_are_none_of_the_marks_paths() -> None:
    # seen on a page: joins of 2000, 3000 and 4000 Hz were read as a bone mark of no ear
    marks = [ring(10 + k, 300 + 40 * k, y) for k, y in enumerate((300, 340, 300))]
    joins = [line(1, (300, 300), (340, 340)), line(2, (340, 340), (380, 300))]
    paths = (*joins, *marks)
    left = without_joins(paths, [seen("circle", m) for m in marks])
    assert [p.number for p in left] == [10, 11, 12]


def test_an_arrow_and_the_strokes_of_a_cross_are_no_joins() -> None:
    cross, circle = saltire(1, 300, 300), ring(5, 330, 330)
    arrow = (line(3, (314, 314), (330, 330)), line(4, (330, 322), (330, 330), (322, 330)))
    paths = (*cross, *arrow, circle)
    left = without_joins(paths, [seen("cross", *cross), seen("circle", circle)])
    assert len(left) == len(paths)
    assert np.array_equal(left[0].points, cross[0].points)
