"""One chart: marks and joining lines of one or several tests over a frame."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ...record import Audiogram, Side, Threshold
from ...rules.doubt import Level, row_of
from .axes import Plot
from .marks import LEFT, RIGHT, mark, reach_of
from .scene import At, Colour, Item, Lettering, Line, Stroke, tinted

_COLOURS: dict[Side, Colour] = {"right": RIGHT, "left": LEFT}
_SOLID: tuple[float, ...] = ()
_DASHED, _DOTTED = (6.0, 3.5), (1.0, 3.0)
_DASHES: dict[Side, tuple[float, ...]] = {"right": _SOLID, "left": _DASHED}
_AGES: tuple[tuple[float, float, tuple[float, ...]], ...] = (
    (0.0, 1.5, _SOLID), (0.35, 1.1, (7.0, 3.0)), (0.5, 1.0, (3.0, 2.5)), (0.6, 0.9, (7.0, 2.5, 1.5, 2.5)),
)  # fmt: skip
"""Of the latest test, the one before it, and so on: how far it fades, how wide and how dashed its lines are."""


def age_style(age: int) -> tuple[float, float, tuple[float, ...]]:
    """Give the fading, the width and the dashes of the test that lies so many tests before the latest."""
    return _AGES[min(age, len(_AGES) - 1)]


def one_test(plot: Plot, audiogram: Audiogram) -> Iterator[Item]:
    """Draw one test, both ears on one chart: the right ear's line solid, the left one's dashed."""
    for side, dash in _DASHES.items():
        yield from _joined(plot, audiogram, side, Stroke(_COLOURS[side], 1.3, dash))
    # Circles first: where both ears are equal, the cross stands inside of the circle.
    for threshold in sorted(audiogram.thresholds, key=lambda t: t.ear != "right"):
        yield from mark(threshold, plot.at(threshold.frequency_hz, threshold.level_db_hl), plot.octave, plot.scale)


def serial_tests(plot: Plot, tests: Sequence[Audiogram], side: Side) -> Iterator[Item]:
    """Draw one ear's tests over each other, the latest last and in full colour, each line numbered at its end."""
    taken: list[At] = []
    for number, audiogram in enumerate(tests, 1):
        fade, width, dash = age_style(len(tests) - number)
        yield from _joined(plot, audiogram, side, Stroke(tinted(_COLOURS[side], fade), width, dash))
        here = [t for t in audiogram.thresholds if t.ear in (side, "both", "unspecified")]
        for threshold in here:
            place = plot.at(threshold.frequency_hz, threshold.level_db_hl)
            yield from mark(threshold, place, plot.octave, plot.scale, fade)
        last = max((t for t in here if t.ear == side and t.conduction == "air"), key=_by_frequency, default=None)
        if last is not None:
            x, y = plot.at(last.frequency_hz, last.level_db_hl)
            where = (x + (15 if last.standing == "ask" else 10) * plot.scale, y + 3)
            while any(abs(where[0] - x) < 8 and abs(where[1] - y) < 7 for x, y in taken):
                where = (where[0] + 8, where[1])
            taken.append(where)
            yield Lettering(where, f"{number}", 8, tinted(_COLOURS[side], fade * 0.5), bold=fade == 0)


def _by_frequency(threshold: Threshold) -> float:
    return threshold.frequency_hz


def _joined(plot: Plot, audiogram: Audiogram, ear: Side, stroke: Stroke) -> Iterator[Line]:
    """Join an ear's air thresholds; a level that was not heard is joined to nothing, one open to question by dots."""
    row = row_of(audiogram.thresholds, ear)
    for (hz, level), (next_hz, next_level) in pairwise(row.items()):
        if not (level.response and next_level.response):
            continue
        asks = level.ask or next_level.ask
        dotted = Stroke(stroke.colour, stroke.width, _DOTTED) if asks else stroke
        yield from _between(plot, (hz, level), (next_hz, next_level), dotted)


def _between(plot: Plot, one: tuple[float, Level], other: tuple[float, Level], stroke: Stroke) -> Iterator[Line]:
    start, end = plot.at(one[0], one[1].db_hl), plot.at(other[0], other[1].db_hl)
    length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    reach = reach_of(plot.scale)
    if length <= 2 * reach:
        return
    share = reach / length

    def along(part: float) -> At:
        return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part

    yield Line((along(share), along(1 - share)), stroke)
