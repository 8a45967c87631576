"""Notice what pens tell of ears: a chart that one coloured pen filled in, shapes that a pen without colour drew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ....interpret.symbols import Glyph, Ink
from ...chart import Mark, MeasuredChart
from ..nearby import another, same_place
from .lent_ink import INK_STRAYS

CLEAR = 0.5
"""Score from which a mark counts."""
FEWEST = 3
"""So many marks that name the other ear than their ink does are by one pen."""
FEW = 2
"""So many do where no mark at all is seen in another ink."""
STRAYS = 0.1
"""Share of the chart's marks that may be seen in another ink."""
SHAPES: dict[Ink, frozenset[Glyph]] = {
    "red": frozenset({"circle", "circle-filled", "bracket-left", "foot-right"}),
    "blue": frozenset({"cross", "cross-filled", "bracket-right", "foot-left"}),
}
"""What every symbol set that has it gives to the ear of an ink: red is right, blue is left."""
OTHER: dict[Ink, Ink] = {"red": "blue", "blue": "red"}
REACH = 0.8
"""How near another mark may stand, in sizes, before its ink may be taken for this one's."""
PLAIN, NO_COLOUR = 0.6, 0.3
"""Share of a mark's ink without colour from which, and of a colour up to which, a pen without colour drew it."""
OWN = 0.3
"""Share of the ink that a shape names, up to which none of it is there, whatever stands beside it: of painted circles
and crosses beside marks of the other colour those by one pen have up to 0.15, those in their own colour from 0.5."""

BOTH_INKS = 0.45
"""Share of a mark's ink in the weaker colour up to which the other is its own, the weaker that of a mark or line upon
it: of 95 values on 75 painted pages that asked for a weaker colour from 0.25 all had the right ear, as had 230 with
less; from 0.6 every fourth had the wrong one."""


def without_one_ink(charts: tuple[MeasuredChart, ...]) -> tuple[MeasuredChart, ...]:
    """Take the colour from the marks of charts where the shapes of both ears have the same.

    Parameters
    ----------
    charts : tuple of MeasuredChart
        The page's charts.

    Returns
    -------
    tuple of MeasuredChart
        The same, without red or blue in any mark of a chart that one pen filled in. Charts of a page may be filled in
        on several days, with other pens, so each is judged by itself; then those that do not tell together, and by
        the pen that drew another.
    """
    pens = [one_pen(chart.marks) for chart in charts]
    rest = [chart for chart, pen in zip(charts, pens, strict=True) if pen is None]
    pens += [one_pen(mark for chart in rest for mark in chart.marks)] if len(rest) > 1 else []
    single = {pen for pen in pens if pen is not None}
    return tuple(
        replace(chart, marks=tuple(map(plain, chart.marks))) if pen or _only_ink(chart.marks) in single else chart
        for chart, pen in zip(charts, pens, strict=False)
    )


def in_colour(charts: tuple[MeasuredChart, ...]) -> bool:
    """Say whether clear marks of a page are red or blue, so that a pen without colour is known to have none."""
    return sum(m.sight.ink != "neutral" for c in charts for m in c.marks if m.sight.score >= CLEAR) >= FEWEST


def in_both_colours(charts: tuple[MeasuredChart, ...]) -> bool:
    """Say whether clear marks of a page are red and others blue: it was filled in with a pen for each ear."""
    inks = [m.sight.ink for c in charts for m in c.marks if m.sight.score >= CLEAR]
    return min(inks.count("red"), inks.count("blue")) >= FEW


def one_pen(marks: Iterable[Mark]) -> Ink | None:
    """Give the ink of the one coloured pen that drew all marks: shapes stand in it that name the other ear."""
    clear = [m for m in marks if m.sight.score >= CLEAR]
    ink = _only_ink(clear) or _faint_ink(clear)
    others = sum(_names_other(m, ink, clear) or _lacks_own(m, ink) for m in clear) if ink else 0
    return ink if others >= (FEW if all(m.sight.ink == ink for m in clear) else FEWEST) else None


def _only_ink(marks: Iterable[Mark]) -> Ink | None:
    """Give the colour that all clear marks have, but for a few strays."""
    inks = [m.sight.ink for m in marks if m.sight.score >= CLEAR]
    return next((ink for ink in OTHER if inks and len(inks) - inks.count(ink) <= STRAYS * len(inks)), None)


def _faint_ink(clear: list[Mark]) -> Ink | None:
    """Give the colour of some marks where the others have none: a pencil on warm paper looks blue here and there."""
    inks = {m.sight.ink for m in clear}
    return next((ink for ink in OTHER if ink in inks and OTHER[ink] not in inks), None)


def denied_inks(marks: Iterable[Mark]) -> frozenset[Ink]:
    """Give the inks that clear marks of the other ear's shape have too: they hardly name an ear."""
    clear = [m for m in marks if m.sight.score >= CLEAR]
    return frozenset[Ink](ink for ink in OTHER if any(_names_other(m, ink, clear) for m in clear))


def shapes_without_colour(marks: Iterable[Mark]) -> frozenset[Glyph]:
    """Give the shapes that a pen without colour drew, on a chart where some stand clear: then it drew all of them.

    Of 104 painted charts in colour with such a triangle and marks of both ears, printed or by hand, none has one in
    colour, whatever lies on it.
    """
    clear = [m for m in marks if m.sight.score >= CLEAR]
    black: set[Glyph] = {m.sight.glyph for m in clear if (m.sight.plain or 0.0) >= PLAIN and _colour(m) <= NO_COLOUR}
    coloured: set[Glyph] = {
        m.sight.glyph
        for m in clear
        if _colour(m) > NO_COLOUR
        and (m.sight.apart or not any(another(o, m) and same_place(o, m, INK_STRAYS) for o in clear))
    }
    return frozenset(black - coloured)


def _colour(mark: Mark) -> float:
    return max(mark.sight.red, mark.sight.blue)


def _names_other(mark: Mark, ink: Ink, clear: list[Mark]) -> bool:
    """Say whether a mark in an ink has a shape of the other ear, and no mark beside it that may lend it the ink."""
    if mark.sight.ink != ink or mark.sight.glyph not in SHAPES[OTHER[ink]]:
        return False
    return not any(another(o, mark) and same_place(o, mark, REACH) and o.sight.glyph in SHAPES[ink] for o in clear)


def _lacks_own(mark: Mark, ink: Ink) -> bool:
    """Say whether a mark in an ink has a shape of the other ear and nothing of that ear's ink.

    One such may be made of another mark's strokes; several are not, whatever they stand on.
    """
    own = mark.sight.red if ink == "blue" else mark.sight.blue
    return mark.sight.ink == ink and mark.sight.glyph in SHAPES[OTHER[ink]] and own <= OWN


def plain(mark: Mark) -> Mark:
    """Take the colour from a mark."""
    return replace(mark, sight=replace(mark.sight, red=0.0, blue=0.0))
