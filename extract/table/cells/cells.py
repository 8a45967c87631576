"""From the words of a table's cells to values: one a cell, each with what makes it doubtful."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

from ....interpret.reach import LEAST_END_DB
from ....interpret.record import Conduction, Ear, Measure
from ..look.levels import Look, Looks
from ..rows.lines import Line
from ..rows.row import Layout, Row
from .legend import PLAIN_SIGNS, STYLE
from .numbers import Kind, said_by, same_text

SIGNS = ("*", "m", "[]", "()")
LEAST_PX = 13.0
"""The brackets of lower print run into rules and digits: 5 points at 200 dpi are 10 pixels high, 7 points 14."""
ASIDE = 0.6
"""So far from its frequency, in halves of the way to the next, a number may be of a column between the two."""


@dataclass(frozen=True, slots=True)
class Key:
    """Which value a cell holds; ``masked`` is false where the table does not tell it."""

    ear: Ear
    conduction: Conduction
    masked: bool
    aided: bool
    measure: Measure
    frequency_hz: float


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell as read.

    ``at`` is its place in sheet pixels, ``text`` its words; ``level_db_hl`` is None unless ``kind`` is ``level``.
    ``doubts`` are codes of ``interpret.reasons`` that no clear print removes; ``slips`` those of readings that differ,
    in the cell, its name or its frequency, which count in the chance. ``look`` is what our networks say of the cell.
    """

    key: Key
    at: tuple[float, float]
    size: tuple[float, float]
    text: str
    kind: Kind
    level_db_hl: float | None
    response: bool
    doubts: tuple[str, ...]
    boxes: tuple[tuple[float, float, float, float], ...]
    slips: tuple[str, ...] = ()
    look: Look | None = None
    head_slips: bool = False
    name_slips: bool = False


def cells_of(layout: Layout, notes: dict[str, bool], looks: Looks | None = None) -> tuple[Cell, ...]:
    """Read all cells of a table.

    Parameters
    ----------
    layout : Layout
        Where its cells are and what they belong to.
    notes : dict
        What the page's notes say of the signs (``masking_by_notes``).
    looks : mapping, optional
        What our networks say of the cells; where they know better, their text stands.

    Returns
    -------
    tuple of Cell
        Row by row; two that say to be the same value doubt one another. Where words were read twice and the readings
        differ, the value is doubtful.
    """
    pitch = _pitch(layout)
    looks = looks or {}
    cells = [
        _cell(layout, row, i, pitch, notes, looks.get((number, i)))
        for number, row in enumerate(layout.rows)
        for i in range(len(layout.line.hz))
    ]
    counted = Counter(cell.key for cell in cells if cell.kind == "level")
    cells = [_doubted(cell, "two-readings") if counted[cell.key] > 1 else cell for cell in cells]
    cells = [_doubted(cell, "masking-uncertain") if _may_lose_sign(cell, cells, notes) else cell for cell in cells]
    arrows = any(not cell.response for cell in cells)
    return tuple(_doubted(cell, "arrow-uncertain") if arrows and _may_lose_arrow(cell) else cell for cell in cells)


def _may_lose_arrow(cell: Cell) -> bool:
    """Say whether a level may have an arrow behind it, in a picture of a table that has arrows.

    Its readers differ, as where one takes the arrow for a bracket or a figure: "110" and "110]" for "110↓".
    """
    loud = cell.kind == "level" and (cell.level_db_hl or 0.0) >= LEAST_END_DB.get(cell.key.conduction, math.inf)
    return loud and cell.response and "two-readings" in cell.slips


def _may_lose_sign(cell: Cell, cells: Sequence[Cell], notes: dict[str, bool]) -> bool:
    """Say whether a level without a sign may have had one, in a picture of a table that has signs of masking.

    Its print is too small for them, or the likelier reading holds more than the level: "55]" for "[55]". The other
    reader takes many a "0" for "0)".
    """
    if cell.kind != "level" or cell.look is None or said_by(cell.look.text).sign or cell.key.masked:
        return False
    signed = any(notes.get(sign) for sign in SIGNS) or any(
        said_by(other.look.text).sign for other in cells if other.look is not None
    )
    more = len(cell.text.replace(" ", "")) > len(cell.look.text.replace(" ", ""))
    small = max(bottom - top for _, top, _, bottom in cell.boxes) < LEAST_PX
    return signed and (small or more)


def _doubted(cell: Cell, code: str) -> Cell:
    return replace(cell, doubts=tuple(dict.fromkeys((*cell.doubts, code))))


def _pitch(layout: Layout) -> float:
    across = sorted({layout.line.across, *(row.across for row in layout.rows)})
    return min((b - a for a, b in pairwise(across)), default=layout.line.step)


def _cell(
    layout: Layout, row: Row, number: int, pitch: float, notes: dict[str, bool], look: Look | None
) -> Cell:  # fmt: skip
    line, words = layout.line, row.cells[number]
    text = " ".join(w.text for w in words)
    said = said_by(look.text if look else text)
    two_meanings = row.doubtful or number in line.contradicted or number in misplaced(row, line)
    name, doubts, slips = row.name, ["low-certainty"] if two_meanings else [], list[str]()
    head = number in layout.line.doubtful
    if head or name.slips:
        slips.append("low-certainty")
    if any(w.others for w in words) and not same_text(text, " ".join(w.others[0][0] for w in words if w.others)):
        slips.append("two-readings")
    masked = bool(name.masked)
    if said.sign:
        told = notes.get(said.sign)
        if told is False or (told is None and said.sign not in PLAIN_SIGNS):
            doubts.append("masking-uncertain")
        masked |= told is not False
    elif (notes.get(STYLE) and not masked) or (masked and notes.get("m") is False):
        doubts.append("masking-uncertain")  # told by what no reader of words sees; or "M" is the noise of masking
    ear: Ear = name.ear or "both"
    way: Conduction = name.conduction or ("field" if name.aided else "air")
    at, across = line.at[number], row.across
    place = (at, across) if line.along == 0 else (across, at)
    if words:
        places = [w.middle for w in words]
        place = (sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places))
    size = (line.step, pitch) if line.along == 0 else (pitch, line.step)
    key = Key(ear, way, masked, bool(name.aided), name.measure or "threshold", line.hz[number])
    return Cell(
        key, place, size, text, said.kind, said.level_db_hl, said.response, tuple(doubts),
        tuple(w.box for w in words), tuple(slips), look, head, name.slips,
    )  # fmt: skip


def misplaced(row: Row, line: Line) -> frozenset[int]:
    """Say which cells of a row hold what stands between two frequencies: a column of averages may stand there.

    A hand writes so too: what stands aside of the row's other numbers is looked at.
    """
    off: dict[int, float] = {}
    for number, words in enumerate(row.cells):
        if words:
            x = sum(w.middle[line.along] for w in words) / len(words) - line.at[number]
            low, high = line.edges[number]
            off[number] = x / (high - line.at[number] if x > 0 else line.at[number] - low)
    usual = median(off.values()) if off else 0.0
    return frozenset(number for number, x in off.items() if abs(x - usual) > ASIDE and abs(x) > ASIDE)


def in_steps(cells: Sequence[Cell], least: float) -> bool:
    """Say whether at least this share of the numbers are levels in steps of 5 dB, as those of thresholds are."""
    numbers = [cell for cell in cells if cell.kind in ("level", "off-step")]
    return bool(numbers) and sum(cell.kind == "level" for cell in numbers) >= least * len(numbers)
