"""What ink that nothing explains says: a mark may have been missed there, or an arrow that hangs from one."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...interpret.reasons import remark
from ...interpret.record import Conduction, Ear, Remark, Threshold
from ...interpret.symbols import Glyph
from ..chart import MeasuredChart, Unexplained
from ..sheet import Sheet
from ..sightings import MarkSight
from .doubts.arrow import ends_above, loudest_heard
from .frequencies import by_hand
from .slots import asked

COLOURED = 0.6
"""Share of the ink from which its colour names an ear, where no more than ``OTHER`` of it has the other colour."""
OTHER = 0.15
BELOW = 0.3
"""How far below a mark's centre the middle of its arrow lies at least, in marks."""
OWN = 0.5
"""Within so many of a mark's sizes are peaks of its own strokes."""
HEADS: frozenset[Glyph] = frozenset({
    "vee", "caret", "triangle", "triangle-filled", "square", "square-filled", "circle-filled", "cross-filled",
})  # fmt: skip
STRAIGHT, STRAIGHT_REACH, LARGEST_HEAD = 0.3, 2.4, 1.2
"""What an arrow's head alone looks like; how far aside and down from its mark it stands at most, and how large it is,
in sizes of the mark."""
CROSS_DOUBTS = frozenset({"colour-and-shape-differ", "two-readings"})
MOST_BONE_HZ = 6500.0
"""Above this no bone mark is missed: bone is tested up to 4000 Hz, 6000 Hz at the most (ASHA 2005)."""


@dataclass(frozen=True, slots=True)
class MayHang:
    """What may be an arrow that hangs from a mark.

    ``near`` is how far from a mark's centre it lies, in marks, ``mass`` how heavy a stroke is that hangs from one,
    over a typical mark, and ``unread`` the peak of what was seen and not read.
    """

    near: float
    mass: float
    unread: float


PRINTED = MayHang(near=1.6, mass=0.0, unread=0.3)
BY_HAND = MayHang(near=1.1, mass=0.4, unread=0.45)
"""A hand's joins waver and leave strokes beside the straight way between marks: of 366 values of painted pages by hand
that asked by what is held to print, not one had an arrow."""


def maybe_missed(sheet: Sheet, number: int, chart: MeasuredChart, thresholds: list[Threshold]) -> tuple[Remark, ...]:
    """Name the ears and conductions of which a mark may have been missed.

    Parameters
    ----------
    sheet : Sheet
        For positions on the page.
    number : int
        The chart's number in its audiogram.
    chart : MeasuredChart
        The chart with its unexplained ink.
    thresholds : list of Threshold
        The chart's values.

    Returns
    -------
    tuple of Remark
        ``unexplained-ink`` at the ink, and ``missing-expected`` for each ear, conduction and printed frequency that it
        may be a mark of. Colour names the ear [common practice: right red, left blue]; without it both are named, and
        for bone none.
    """
    found: list[Remark] = []
    for ink in (ink for ink in chart.unexplained if ink.hangs_from is None):
        hz, at = _printed(chart, ink), sheet.on_page(*ink.at)
        found.append(remark("unexplained-ink", frequency_hz=hz, chart=number, at=at))
        found += [
            remark("missing-expected", ear=ear, conduction=conduction, frequency_hz=hz, chart=number, at=at)
            for ear in _ears(ink)
            for conduction in _conductions(hz, thresholds)
            if ear != "unspecified" or conduction == "bone"
        ]
    return tuple(found)


def arrows_doubted(sheet: Sheet, chart: MeasuredChart, thresholds: list[Threshold]) -> list[Threshold]:
    """Ask about values that stand as heard although ink hangs from their mark that may be an arrow.

    So may what looks like a mark and was not read as one: two arrows that cross look like a cross. What was seen apart
    shows its own arrow.
    """
    read = {t.seen.at for t in thresholds if t.seen is not None} - _perhaps_arrows(sheet, chart, thresholds)
    may = BY_HAND if by_hand(chart) else PRINTED
    hung = {sheet.on_page(*at) for at in (*_hung(chart, may), *_hung_unread(sheet, chart, read, may))}
    sure = [t for t in thresholds if t.standing == "sure" and t.response and t.seen and t.seen.at not in hung]
    loudest = loudest_heard((t.conduction, t.frequency_hz, t.level_db_hl) for t in sure if t.measure == "threshold")

    def soft(t: Threshold) -> bool:
        return t.measure == "threshold" and ends_above(t.conduction, t.frequency_hz, t.level_db_hl, loudest)

    return [
        asked(t, "arrow-uncertain") if t.response and t.seen is not None and t.seen.at in hung and not soft(t) else t
        for t in thresholds
    ]


def _perhaps_arrows(sheet: Sheet, chart: MeasuredChart, thresholds: list[Threshold]) -> set[tuple[float, float] | None]:
    """Give the places of values that two crossed arrows may have made: crosses of which ink or shape is in doubt."""
    crosses = {sheet.on_page(*m.sight.at) for m in chart.marks if m.sight.glyph.startswith("cross")}
    asked = (t for t in thresholds if t.seen is not None and not CROSS_DOUBTS.isdisjoint(t.why_ask))
    return {t.seen.at for t in asked if t.seen is not None and t.seen.at in crosses}


def _hung(chart: MeasuredChart, may: MayHang) -> list[tuple[float, float]]:
    """Give the places of marks from which unexplained ink hangs, or below which it lies close by, unless seen apart."""
    found = [ink.hangs_from for ink in chart.unexplained if ink.hangs_from is not None and ink.mass >= may.mass]
    for ink in (ink for ink in chart.unexplained if ink.hangs_from is None):
        for sight in (mark.sight for mark in chart.marks):
            size = max(sight.size)
            below = ink.at[1] - sight.at[1] > BELOW * size
            if below and math.dist(ink.at, sight.at) < may.near * size:
                found.append(sight.at)
    apart = {mark.sight.at for mark in chart.marks if mark.sight.apart}
    return [at for at in found if at not in apart]


def _hung_unread(
    sheet: Sheet, chart: MeasuredChart, read: set[tuple[float, float] | None], may: MayHang
) -> list[tuple[float, float]]:
    """Give the places of marks close below which something was seen that no value was read from."""
    together = [mark.sight for mark in chart.marks if not mark.sight.apart]
    values = [sight for sight in together if sheet.on_page(*sight.at) in read]
    found: list[tuple[float, float]] = []
    for stray in (s for s in together if s.striking > PRINTED.unread and sheet.on_page(*s.at) not in read):
        if any(math.dist(stray.at, sight.at) < OWN * max(sight.size) for sight in values):
            continue
        for sight in values:
            size = max(sight.size)
            below = stray.at[1] - sight.at[1] > BELOW * size
            near = stray.striking > may.unread and math.dist(stray.at, sight.at) < may.near * size
            if below and (near or _straight_below(stray, sight)):
                found.append(sight.at)
    return found


def _straight_below(stray: MarkSight, sight: MarkSight) -> bool:
    """Say whether something stands so straight below a mark that it may be the head of its arrow, a little apart."""
    size = max(sight.size)
    across, down = abs(stray.at[0] - sight.at[0]) / size, (stray.at[1] - sight.at[1]) / size
    head = stray.glyph in HEADS and max(stray.size) < LARGEST_HEAD * size
    return head and across < STRAIGHT and down < STRAIGHT_REACH


def _printed(chart: MeasuredChart, ink: Unexplained) -> float:
    """Give the printed frequency nearest to the ink."""
    return min((hz for hz, _ in chart.frequency.anchors), key=lambda hz: abs(math.log2(hz / ink.frequency_hz)))


def _ears(ink: Unexplained) -> tuple[Ear, ...]:
    if ink.red >= COLOURED and ink.blue <= OTHER:
        return ("right",)
    if ink.blue >= COLOURED and ink.red <= OTHER:
        return ("left",)
    return ("right", "left", "unspecified")


def _conductions(hz: float, thresholds: list[Threshold]) -> tuple[Conduction, ...]:
    """Give air, bone where it is tested, and what else the chart holds."""
    usual: tuple[Conduction, ...] = ("air", "bone") if hz <= MOST_BONE_HZ else ("air",)
    return tuple(dict.fromkeys((*usual, *(t.conduction for t in thresholds if t.conduction == "field"))))
