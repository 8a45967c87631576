"""Notice a page that one coloured pen filled in: its ink names no ear."""

from __future__ import annotations

from dataclasses import replace

from ....interpret.symbols import Glyph
from ...chart import Mark, MeasuredChart

CLEAR = 0.5
"""Score from which a mark counts."""
FEWEST = 3
"""So many marks of each ear's shapes, all in one ink, are by one pen."""
STRAYS = 0.1
"""Share of them that may be seen in the other ink."""
SHAPES: tuple[frozenset[Glyph], frozenset[Glyph]] = (
    frozenset({"circle", "circle-filled"}),
    frozenset({"cross", "cross-filled"}),
)
"""What every symbol set gives to the right ear, and to the left."""


def without_one_ink(charts: tuple[MeasuredChart, ...]) -> tuple[MeasuredChart, ...]:
    """Take the colour from the marks of a page where circles and crosses have the same.

    Parameters
    ----------
    charts : tuple of MeasuredChart
        The page's charts.

    Returns
    -------
    tuple of MeasuredChart
        The same, without red or blue in any mark where one pen wrote them all.
    """
    clear = [m.sight for chart in charts for m in chart.marks if m.sight.score >= CLEAR]
    inks = [[s.ink for s in clear if s.glyph in shapes] for shapes in SHAPES]
    if not any(min(map(len, inks)) >= FEWEST and _all_in(ink, inks) for ink in ("red", "blue")):
        return charts
    return tuple(replace(chart, marks=tuple(_plain(m) for m in chart.marks)) for chart in charts)


def _all_in(ink: str, inks: list[list[str]]) -> bool:
    return all(sum(i != ink for i in of_ear) <= STRAYS * len(of_ear) for of_ear in inks)


def _plain(mark: Mark) -> Mark:
    return replace(mark, sight=replace(mark.sight, red=0.0, blue=0.0))
