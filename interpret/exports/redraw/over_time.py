"""Thresholds over time: one field for each ear, a line for each frequency, readable without colours."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...record import Ear
from ...rules.change.comparison import Sitting
from ...rules.degree import EARS
from ...rules.doubt import Level, row_of
from ...settings import day
from ...words.languages.language import Language
from ..threshold_table import frequency_label
from .lettering import width_of
from .scene import BLACK, At, Circle, Colour, Item, Lettering, Line, Scene, Stroke

FREQUENCIES_HZ = (500.0, 1000.0, 2000.0, 3000.0, 4000.0, 6000.0, 8000.0)
_WIDTH, _HEIGHT = 760.0, 400.0
_TOP, _BOTTOM, _LEFT, _APART, _FIELD = 64.0, 340.0, 46.0, 64.0, 296.0
_LEAST_DB, _MOST_DB, _STEP_DB = -10, 120, 10
_SIZE, _SMALL = 9.0, 7.5
_GRID, _FRAME = Stroke((0.8, 0.8, 0.8), 0.5), Stroke(BLACK, 0.9)
# Seven inks that people with any colour vision tell apart, from an open list for scientific figures; the name of the
# frequency at the end of each line and its dashes say the same without colour.
_INKS: tuple[Colour, ...] = (
    (0.0, 0.0, 0.0), (0.0, 0.45, 0.7), (0.84, 0.37, 0.0), (0.0, 0.62, 0.45), (0.8, 0.47, 0.65), (0.34, 0.71, 0.91),
    (0.6, 0.45, 0.0),
)  # fmt: skip
_DASHES: tuple[tuple[float, ...], ...] = ((), (6, 2), (2, 2), (8, 2, 2, 2), (4, 3), (1, 2), (10, 3))
_MARK = 2.6


@dataclass(frozen=True, slots=True)
class _Axis:
    """Where a test and a level stand in one field."""

    left: float
    at: tuple[float, ...]

    def x(self, test: int) -> float:
        return self.left + 14 + self.at[test] * (_FIELD - 44)

    def y(self, level_db: float) -> float:
        return _TOP + (level_db - _LEAST_DB) / (_MOST_DB - _LEAST_DB) * (_BOTTOM - _TOP)


def over_time(tests: Sequence[Sitting], language: Language) -> Scene:
    """Draw the air thresholds of several tests over time.

    Parameters
    ----------
    tests : sequence of Sitting
        At least two, the earliest first; spaced by their dates where all have one, else evenly.
    language : Language
        Of the words on the drawing.

    Returns
    -------
    Scene
        Right ear on the left. A value to look at stands as an open ring with a question mark; an arrow says that
        nothing was heard at that level.
    """
    places = _places(tests)
    items: list[Item] = [Lettering((_LEFT, 24), language.phrases["plot_title"], 13, bold=True)]
    items.append(Lettering((_LEFT, _HEIGHT - 14), language.phrases["plot_legend"], _SMALL))
    told: list[str] = []
    for number, ear in enumerate(EARS):
        axis = _Axis(_LEFT + number * (_FIELD + _APART), places)
        items += _field(axis, ear, tests, language)
        for order, hz in enumerate(FREQUENCIES_HZ):
            levels = {at: level for at, test in enumerate(tests) if (level := _level(test, ear, hz)) is not None}
            items += _curve(axis, levels, order)
            if levels:
                values = ", ".join(f"{level.db_hl:g}" for level in levels.values())
                told.append(f"{language.ears[ear]} {hz:g} Hz: {values}")
        items += _names(axis, ear, tests)
    return Scene(_WIDTH, _HEIGHT, tuple(items), language.phrases["plot_title"], "; ".join(told), language.id)


def _places(tests: Sequence[Sitting]) -> tuple[float, ...]:
    """Give each test its place from 0 to 1."""
    dates = [date for test in tests if (date := day(test.tested_on)) is not None]
    last = max(len(tests) - 1, 1)
    if len(dates) < len(tests) or dates[0] == dates[-1]:
        return tuple(number / last for number in range(len(tests)))
    days = (dates[-1] - dates[0]).days
    return tuple((date - dates[0]).days / days for date in dates)


def _level(test: Sitting, ear: Ear, hz: float) -> Level | None:
    return row_of(test.audiogram.thresholds, ear).get(hz)


def _field(axis: _Axis, ear: Ear, tests: Sequence[Sitting], language: Language) -> Iterator[Item]:
    right = axis.left + _FIELD
    name = language.ears[ear]
    yield Lettering((axis.left, _TOP - 10), f"{name[:1].upper()}{name[1:]}", 11, bold=True)
    for level in range(_LEAST_DB, _MOST_DB + 1, _STEP_DB):
        y = axis.y(level)
        yield Line(((axis.left, y), (right, y)), _FRAME if level == 0 else _GRID)
        if level % 20 == 0:
            yield Lettering((axis.left - 5, y + 3), f"{level}", _SMALL, anchor="end")
    corners = ((axis.left, _TOP), (right, _TOP), (right, _BOTTOM), (axis.left, _BOTTOM))
    yield Line(corners, _FRAME, closed=True)
    yield Lettering((axis.left - 28, (_TOP + _BOTTOM) / 2), "dB HL", _SMALL, anchor="middle", turned=True)
    free_from = axis.left - 30.0
    for at, test in enumerate(tests):
        x, text = axis.x(at), test.tested_on or f"{at + 1}"
        half = width_of(text, _SMALL) / 2
        yield Line(((x, _BOTTOM), (x, _BOTTOM + 4)), _FRAME)
        if x - half >= free_from:
            yield Lettering((x, _BOTTOM + 14), text, _SMALL, anchor="middle")
            free_from = x + half + 6


def _curve(axis: _Axis, levels: dict[int, Level], order: int) -> Iterator[Item]:
    ink, dash = _INKS[order], _DASHES[order]
    places = {at: (axis.x(at), axis.y(level.db_hl)) for at, level in levels.items()}
    for before, after in pairwise(levels):
        # As on a chart, no line leads to or from what was not heard.
        if levels[before].response and levels[after].response:
            yield Line((places[before], places[after]), Stroke(ink, 1.3, dash))
    for at, level in levels.items():
        yield from _mark(places[at], level, ink)


def _mark(place: At, level: Level, ink: Colour) -> Iterator[Item]:
    x, y = place
    fill = (1.0, 1.0, 1.0) if level.ask else ink
    yield Circle(place, _MARK, Stroke(ink, 1), fill)
    if level.ask:
        yield Lettering((x - 4, y + 9), "?", _SIZE, anchor="end", bold=True)
    if not level.response:
        tip = (x, y + 13)
        yield Line(((x, y + _MARK), tip), Stroke(ink, 1.2))
        yield Line(((x - 2.5, y + 9.5), tip, (x + 2.5, y + 9.5)), Stroke(ink, 1.2))


def _names(axis: _Axis, ear: Ear, tests: Sequence[Sitting]) -> Iterator[Item]:
    """Name each line at its end; names that would touch move down, each with a hair line to its own."""
    ends: list[tuple[float, float, int]] = []
    for order, hz in enumerate(FREQUENCIES_HZ):
        last = next((at for at in reversed(range(len(tests))) if _level(tests[at], ear, hz) is not None), None)
        if last is not None:
            level = _level(tests[last], ear, hz)
            assert level is not None
            ends.append((axis.y(level.db_hl), axis.x(last), order))
    ends.sort()
    free_from = _TOP
    for number, (y, x, order) in enumerate(ends):
        room = _BOTTOM - (len(ends) - number - 1) * _SIZE
        name_y = min(max(y, free_from), room)
        free_from = name_y + _SIZE
        name_x = axis.left + _FIELD - 24
        yield Line(((x + _MARK + 1, y), (name_x - 2, name_y)), Stroke(_INKS[order], 0.4))
        yield Lettering((name_x, name_y + 3), frequency_label(FREQUENCIES_HZ[order]), _SMALL, _INKS[order], bold=True)
