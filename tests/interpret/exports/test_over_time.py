"""The plot over time: where tests stand, what is joined, what is marked, and that every line is named."""

from __future__ import annotations

from itertools import pairwise
from xml.etree import ElementTree

import pytest
from invented_pages import asked, page, value

from octavo.interpret.exports.redraw import svg_of
from octavo.interpret.exports.redraw.over_time import over_time
from octavo.interpret.exports.redraw.scene import Circle, Lettering, Line, Scene
from octavo.interpret.record import Audiogram, Threshold
from octavo.interpret.rules.change.comparison import Sitting, sittings_of
from octavo.interpret.words.languages import LANGUAGES


def sittings(*tests: tuple[str | None, tuple[Threshold, ...]]) -> tuple[Sitting, ...]:
    return tuple(one for date, values in tests for one in sittings_of((page(Audiogram(date, thresholds=values)),)))


def drawn(*tests: tuple[str | None, tuple[Threshold, ...]], language: str = "en") -> Scene:
    return over_time(sittings(*tests), LANGUAGES[language])


def marks(scene: Scene) -> list[Circle]:
    return [item for item in scene.items if isinstance(item, Circle)]


def words(scene: Scene) -> list[str]:
    return [item.text for item in scene.items if isinstance(item, Lettering)]


def joins(scene: Scene) -> int:
    return sum(isinstance(item, Line) and item.stroke is not None and item.stroke.width == 1.3 for item in scene.items)


def at(hz: float, level: float) -> tuple[Threshold, ...]:
    return (value("right", hz, level),)


def test_tests_stand_by_their_dates() -> None:
    scene = drawn(("2010-01-01", at(1000, 10)), ("2011-01-01", at(1000, 20)), ("2014-01-01", at(1000, 30)))
    first, second, third = (mark.at[0] for mark in marks(scene))
    assert (third - second) / (second - first) == pytest.approx(3, abs=0.01)  # three years after one; a leap day


def test_without_every_date_they_stand_evenly() -> None:
    scene = drawn(("2010-01-01", at(1000, 10)), (None, at(1000, 20)), ("2014-01-01", at(1000, 30)))
    first, second, third = (mark.at[0] for mark in marks(scene))
    assert third - second == pytest.approx(second - first)


def test_worse_hearing_stands_lower() -> None:
    first, second = marks(drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", at(1000, 30))))
    third, fourth = marks(drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", at(1000, 50))))
    assert fourth.at[1] - third.at[1] == pytest.approx(2 * (second.at[1] - first.at[1]))


def test_the_ears_have_a_field_each() -> None:
    scene = drawn(("2010-01-01", (*at(1000, 10), value("left", 1000, 10))), ("2014-01-01", at(1000, 30)))
    right, left = marks(scene)[0], marks(scene)[-1]
    assert left.at[0] > right.at[0] + 200


def test_a_value_to_look_at_is_open_and_has_a_question_mark() -> None:
    scene = drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", (asked("right", 1000, 30, "faint"),)))
    assert [mark.fill == (1.0, 1.0, 1.0) for mark in marks(scene)] == [False, True]
    assert words(scene).count("?") == 1


def test_no_line_leads_to_what_was_not_heard() -> None:
    heard = drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", at(1000, 30)))
    silent = drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", (value("right", 1000, 110, response=False),)))
    assert (joins(heard), joins(silent)) == (1, 0)


def test_every_line_is_named_at_its_end_and_names_do_not_touch() -> None:
    hertz = (500, 1000, 2000, 3000, 4000, 6000, 8000)
    values = tuple(value("right", hz, 20) for hz in hertz)
    scene = drawn(("2010-01-01", values), ("2014-01-01", values))
    names = [
        item
        for item in scene.items
        if isinstance(item, Lettering) and item.text in ("500", "1k", "2k", "3k", "4k", "6k", "8k")
    ]
    assert len(names) == len(hertz)
    heights = sorted(item.at[1] for item in names)
    assert min(b - a for a, b in pairwise(heights)) >= 9


def test_the_plot_is_well_formed_svg_with_words_for_who_cannot_see_it() -> None:
    svg = svg_of(drawn(("2010-01-01", at(1000, 10)), ("2014-01-01", at(1000, 30)), language="es"))
    root = ElementTree.fromstring(svg)
    assert "derecho 1000 Hz: 10, 30" in "".join(root.itertext())
