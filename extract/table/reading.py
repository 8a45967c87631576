"""The steps of reading tables, in order: lines of frequencies, rows, cells, and what stands as sure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...interpret.reasons import remark
from ...interpret.record import Remark, Seen, Threshold
from ..eyes.axes.level import without_level_axes
from ..meaning.expected import on_lost_chart
from ..page import Word
from ..report.facts.values.dates import dates_in
from ..shades import grey_of
from ..sheet import Sheet
from .cells.arrows import with_arrows
from .cells.cells import Cell, Key, cells_of, in_steps
from .cells.ink import inked, printed, signs_doubted, struck_doubted
from .cells.legend import masking_by_notes
from .cells.readings import prepared, without_debris
from .certainty import Way, evidence_of, fitted
from .look.heads import with_lost_heads
from .look.levels import look_at
from .look.lost_heads import lost_heads
from .look.names import with_names
from .look.shaded import with_shaded_heads
from .rows.inherited.heirs import heirs_doubted
from .rows.layout import LEAST_REFLEX_DB, REFLEX_HZ, by_date, layout_of, listed_layouts
from .rows.lines import frequency_lines
from .rows.row import Layout
from .rows.slant import Slant, slant_of
from .unread import looks_like_table, may_hold_table, too_poor_to_tell

Box = tuple[float, float, float, float]
FEWEST_VALUES = 3
ON_STEP = 0.8
"""Share of a table's numbers that must be levels in steps of 5 dB."""


@dataclass(frozen=True, slots=True)
class Table:
    """The values of one table.

    ``thresholds`` stand as ``sure`` where they are certain on the table's own word. ``untested`` are the cells that
    say that nothing was measured, ``unheard`` those that say no response and no level. ``tells_masking`` is false where
    the table may leave masking untold, ``rows_by_masking`` true where masked values have rows of their own. ``box`` is
    where its numbers and frequencies stand, in sheet pixels: left, top, right, bottom; ``numbers`` is where each word
    of its cells stands; ``date`` is a date in its title.
    """

    thresholds: tuple[Threshold, ...]
    untested: tuple[Key, ...]
    unheard: tuple[Key, ...]
    tells_masking: bool
    rows_by_masking: bool
    box: Box
    numbers: tuple[Box, ...]
    date: str | None
    tested_on: str | None = None


@dataclass(frozen=True, slots=True)
class Tables:
    """The tables of a sheet in reading order, and what they leave to say; where those of reflexes stand."""

    tables: tuple[Table, ...] = ()
    remarks: tuple[Remark, ...] = ()
    reflexes: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True)
class SeenTable:
    """One table as seen: its rows, its cells row by row, the evidence for each (``certainty.EVIDENCE``), by whom."""

    layout: Layout
    cells: tuple[Cell, ...]
    evidence: tuple[tuple[float, ...], ...]
    by_hand: bool


@dataclass(frozen=True, slots=True)
class SeenTables:
    """The tables of levels on a sheet; ``layouts`` also of those whose numbers are none, ``words`` as levelled."""

    tables: tuple[SeenTable, ...]
    layouts: tuple[Layout, ...]
    words: tuple[Word, ...]
    slant: Slant
    notes: dict[str, bool]


def read_tables(sheet: Sheet, words: Sequence[Word], way: Way) -> Tables:
    """Read the tables of thresholds on a sheet.

    Parameters
    ----------
    sheet : Sheet
        The page.
    words : sequence of Word
        Its words, without those inside charts; read by two readers, the second one's text is the first of ``others``.
    way : str
        How they were read.

    Returns
    -------
    Tables
        Remarks are ``missing-expected`` for a cell that holds something that was not understood,
        ``no-response-without-level`` for one that names no level, ``table-row-unread`` for a row of numbers whose name
        was not understood, or where something looks like a table and none could be read.
    """
    found = seen_tables(sheet, words, way)
    tables: list[Table] = []
    remarks: list[Remark] = []
    for seen in found.tables:
        if way != "given" and _like_reflexes(seen.cells):
            remarks.append(_unread(sheet, seen.layout))
            continue
        _add(tables, _table(sheet, seen, found, way))
        remarks += _remarks(sheet, seen.cells)
        if seen.layout.unnamed or (way != "given" and lost_heads(seen.layout, found.words)):
            remarks += [_unread(sheet, seen.layout), *on_lost_chart()]
    nameless = any(layout.unnamed for layout in found.layouts)
    poor = way == "two-readings" and too_poor_to_tell(found.words)
    if not tables and (looks_like_table(found.words) or nameless or poor):
        remarks.append(remark("table-row-unread"))
    reflexes = tuple(_around(layout, found.slant) for layout in found.layouts if layout.of_reflexes)
    return Tables(tuple(tables), tuple(remarks), reflexes)


def seen_tables(sheet: Sheet, words: Sequence[Word], way: Way) -> SeenTables:
    """Find the tables of levels on a sheet and read their cells; the arguments are those of ``read_tables``."""
    grey, kept = grey_of(sheet.pixels), without_level_axes(words)
    if way == "two-readings":
        kept = without_debris(kept)
    if not may_hold_table(kept, FEWEST_VALUES):
        return SeenTables((), (), tuple(kept), Slant(0.0), {})
    if way != "given":
        kept = with_shaded_heads(grey, kept)
        kept = with_arrows(grey, with_names(grey, kept))
    ready = prepared(kept, way)
    slant = slant_of(ready)
    upright = slant.level(ready)
    listed = listed_layouts(upright)
    used = {id(word) for layout in listed for word in layout.line.words}
    lines = frequency_lines([w for w in upright if id(w) not in used])
    if way == "two-readings":
        lines = [
            with_lost_heads(grey, upright, line, [one for one in lines if one is not line], slant) for line in lines
        ]
    notes = masking_by_notes(upright)
    found: list[Layout] = listed
    for line in sorted(lines, key=lambda one: (min(w.box[1] for w in one.words), min(w.box[0] for w in one.words))):
        layout = layout_of(upright, line, [other for other in lines if other is not line])
        found += by_date(layout) if layout is not None else []
    tables: list[SeenTable] = []
    for layout in found if way == "given" else heirs_doubted(found):
        looks = look_at(grey, layout, slant) if way == "two-readings" else {}
        cells = struck_doubted(grey, [_on_sheet(cell, slant) for cell in cells_of(layout, notes, looks)])
        cells = signs_doubted(grey, cells, words, drawn=way == "given")
        if sum(cell.kind == "level" for cell in cells) >= FEWEST_VALUES and in_steps(cells, ON_STEP):
            by_hand = way != "given" and not printed(layout)
            tables.append(SeenTable(layout, cells, tuple(evidence_of(cells)), by_hand))
    return SeenTables(tuple(tables), tuple(found), tuple(upright), slant, notes)


def _around(layout: Layout, slant: Slant) -> Box:
    boxes = [slant.box_done(w.box) for w in (*layout.line.words, *layout.left_over)]
    return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)


def _unread(sheet: Sheet, layout: Layout) -> Remark:
    line = layout.line
    place = (line.at[0], line.across) if line.along == 0 else (line.across, line.at[0])
    return remark("table-row-unread", at=sheet.on_page(*place))


def _like_reflexes(cells: Sequence[Cell]) -> bool:
    """Say whether a table whose title may be lost looks like acoustic reflexes: high levels at their tones alone."""
    levels = [cell.level_db_hl for cell in cells if cell.level_db_hl is not None]
    return {cell.key.frequency_hz for cell in cells} <= REFLEX_HZ and min(levels, default=0.0) >= LEAST_REFLEX_DB


def _on_sheet(cell: Cell, slant: Slant) -> Cell:
    return replace(cell, at=slant.done(*cell.at), boxes=tuple(slant.box_done(box) for box in cell.boxes))


def _add(tables: list[Table], new: Table) -> None:
    """Add a table, or its rows to one of the same test: one that has none of its rows, and no other date."""
    rows = {(t.ear, t.conduction, t.aided, t.measure) for t in new.thresholds}
    for number, old in enumerate(tables):
        apart = not rows & {(t.ear, t.conduction, t.aided, t.measure) for t in old.thresholds}
        if apart and (old.date is None or new.date is None or old.date == new.date):
            box = (min(old.box[0], new.box[0]), min(old.box[1], new.box[1]),
                   max(old.box[2], new.box[2]), max(old.box[3], new.box[3]))  # fmt: skip
            tables[number] = Table(
                (*old.thresholds, *new.thresholds), (*old.untested, *new.untested),
                (*old.unheard, *new.unheard), old.tells_masking or new.tells_masking,
                old.rows_by_masking or new.rows_by_masking, box, (*old.numbers, *new.numbers), old.date or new.date,
                old.tested_on or new.tested_on,
            )  # fmt: skip
            return
    tables.append(new)


def _table(sheet: Sheet, seen: SeenTable, found: SeenTables, way: Way) -> Table:
    cells, layout = seen.cells, seen.layout
    told = zip(cells, seen.evidence, strict=True)
    values = tuple(
        _threshold(sheet, cell, evidence, way, by_hand=seen.by_hand) for cell, evidence in told if cell.kind == "level"
    )
    untested = tuple(c.key for c in cells if c.kind == "untested" and not (not c.boxes and inked(sheet, c)))
    tells = any(cell.key.masked for cell in cells) or any(found.notes.values())
    numbers = tuple(box for cell in cells for box in cell.boxes)
    numbers += tuple(found.slant.box_done(w.box) for w in layout.left_over)
    boxes = [*(found.slant.box_done(w.box) for w in layout.line.words), *numbers]
    box = (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))
    unheard = tuple(c.key for c in cells if c.kind == "unheard")
    by_rows = any(row.name.masked for row in layout.rows)
    tested_on = _day(layout) if way == "given" else None
    return Table(values, untested, unheard, tells, by_rows, box, numbers, layout.date, tested_on)


def _day(layout: Layout) -> str | None:
    """Give the day that the rows of a table are named by; None where none is, or where it may be two days."""
    dates = {row.date for row in layout.rows}
    days = {day for date in dates if date for found in dates_in(date)[:1] for day in found.possible}
    return days.pop().isoformat() if len(dates) == len(days) == 1 else None


def _threshold(sheet: Sheet, cell: Cell, evidence: Sequence[float], way: Way, *, by_hand: bool) -> Threshold:
    key, level = cell.key, cell.level_db_hl
    assert level is not None
    fit = fitted()
    if way == "two-readings":
        weighing = fit.by_hand if by_hand else fit.in_print
        chance = min(weighing.chance_of(evidence), fit.doubted if cell.doubts else 1.0)
        doubts = cell.doubts if chance >= weighing.sure_from else cell.doubts + cell.slips or ("low-certainty",)
    else:
        doubts = cell.doubts + cell.slips or (() if way == "given" else ("low-certainty",))
        chance = fit.doubted if doubts else fit.given
    doubts = tuple(dict.fromkeys(doubts))
    return Threshold(
        key.ear, key.conduction, key.masked, key.frequency_hz, level, aided=key.aided, measure=key.measure,
        response=cell.response, standing="ask" if doubts else "sure", probability=chance, why_ask=doubts,
        seen=Seen(None, sheet.on_page(*cell.at), key.frequency_hz, level),
    )  # fmt: skip


def _remarks(sheet: Sheet, cells: Sequence[Cell]) -> list[Remark]:
    found: list[Remark] = []
    for cell in cells:
        key = cell.key
        unread = cell.kind in ("unclear", "off-step") or (not cell.boxes and inked(sheet, cell))
        code = "missing-expected" if unread else "no-response-without-level" if cell.kind == "unheard" else None
        if code:
            at = sheet.on_page(*cell.at)
            found.append(
                remark(code, ear=key.ear, conduction=key.conduction, frequency_hz=key.frequency_hz, at=at)
            )  # fmt: skip
    return found
