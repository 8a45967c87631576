"""Strokes that hang from marks and lead nowhere are the shafts of arrows whose heads are not to be seen."""

from __future__ import annotations

import pytest
from paths_by_hand import BLUE, RED, Ink, line, ring

from octavo.extract.eyes.marks.drawn.apart import Figure
from octavo.extract.eyes.marks.drawn.arrows import Alone
from octavo.extract.eyes.marks.drawn.headless import with_headless
from octavo.extract.page import DrawnPath
from octavo.extract.sightings import MarkSight

Place = tuple[float, float]


def figure(path: DrawnPath) -> Figure:
    (left, top), (right, bottom) = path.points.min(axis=0).tolist(), path.points.max(axis=0).tolist()
    return Figure((path,), (path.points,), (left, top, right, bottom), path.stroke or (0, 0, 0))


def circle(number: int, x: float, y: float) -> Alone:
    sight = MarkSight(0, "circle", (x, y), (30.0, 30.0), 0.9, (), 1.0, 0.0, (0.0, 0.0, 0.0), apart=True)
    return Alone(figure(ring(number, x, y)), sight)


def arrows_with(first: Place, last: Place, ink: Ink = RED) -> list[tuple[float, float, float]]:
    """The arrows of two circles, 30 pixels wide, at (300, 300) and (360, 340), and a stroke."""
    marks = [circle(1, 300, 300), circle(2, 360, 340)]
    return [m.sight.arrows for m in with_headless(marks, [figure(line(3, first, last, ink=ink))])]


@pytest.mark.parametrize(("tip", "way"), [((255.0, 345.0), 0), ((285.0, 350.0), 2)])
def test_a_stroke_from_a_marks_corner_that_leads_nowhere_is_half_an_arrow(tip: Place, way: int) -> None:
    # seen on a page: the heads lay beyond the foot of the sheet, and a row of masked air stood as heard, surely
    first, second = arrows_with((287.0, 316.0), tip)
    assert [score > 0 for score in first] == [way == w for w in range(3)]
    assert max(first) < 0.5
    assert second == (0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("first", "last", "ink"),
    [
        ((300, 300), (250, 350), RED),
        ((313, 309), (347, 331), RED),
        ((287, 316), (255, 345), BLUE),
        ((287, 284), (255, 255), RED),
        ((287, 316), (284, 320), RED),
        ((287, 316), (190, 400), RED),
        ((250, 350), (220, 390), RED),
    ],
    ids=["from the middle", "to the next mark", "of another ink", "upward", "a dash", "long", "away from all marks"],
)
def test_other_strokes_are_none(first: Place, last: Place, ink: Ink) -> None:
    assert arrows_with(first, last, ink) == [(0.0, 0.0, 0.0)] * 2
