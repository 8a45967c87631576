"""Print a table of thresholds: its lines and names, and the number of every cell with its truth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import Literal

from ... import fonts
from ...patient import Tone
from ...pen import BLACK, XY, Colour, Pen
from .wording import Row, Signs, Tongue, added, cell_text, ear_name, way_name

Layout = Literal["rows", "sections", "two-heads", "columns", "spanned"]
"""Frequencies across with ear and conduction in one name, the ear as a line of its own, or in a column of its own;
frequencies down with one line of names, or with the ear spanning its columns."""
Heads = Literal["hz", "unit", "khz", "k"]


@dataclass(frozen=True, slots=True)
class TableLook:
    """How a table is printed; ``cell`` is the width and height of a cell in points.

    ``form`` says how long its names are (0 the longest), ``named`` which of ear and conduction its rows name: where a
    table is one ear's, or of one conduction, its title says the other.
    """

    face: str
    bold: str
    size: float
    cell: tuple[float, float]
    tongue: Tongue
    layout: Layout = "rows"
    form: int = 0
    heads: Heads = "hz"
    signs: Signs = field(default_factory=Signs)
    rules: Literal["all", "rows", "head", "none"] = "all"
    line: Colour = (0.3, 0.3, 0.3)
    shade: Colour | None = None
    names_bold: bool = False
    named: tuple[bool, bool] = (True, True)
    colours: tuple[Colour, Colour] | None = None
    """Of the right and the left ear's numbers."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell as printed: its text, the middle of it in points, and the result that it states (None for none)."""

    text: str
    at: XY
    row: Row
    frequency_hz: float
    tone: Tone | None


def rows_for(tones: Sequence[Tone], *, apart: bool, ears: Sequence[str] = ("right", "left")) -> list[Row]:
    """Name the rows that some results need, ear by ear; ``apart`` gives masked results rows of their own."""
    rows: list[Row] = []
    for ear in (*ears, "both"):
        for conduction in ("air", "bone", "field"):
            for masked, aided in ((False, False), (True, False), (False, True)):
                found = [t for t in tones if (t.ear, t.conduction, t.aided) == (ear, conduction, aided)]
                found = [t for t in found if t.masked == masked or not apart]
                if (found and (apart or not masked)) or (ear != "both" and conduction == "air" and not masked | aided):
                    rows.append((ear, conduction, masked, aided))
    return rows


def tone_of(tones: Sequence[Tone], row: Row, hz: float, *, apart: bool) -> Tone | None:
    """Give the result that belongs into a cell: of a masked and an unmasked one in one row, the masked."""
    ear, conduction, masked, aided = row
    found = [
        t for t in tones
        if (t.ear, t.conduction, t.aided, t.frequency_hz, t.measure) == (ear, conduction, aided, hz, "threshold")
        and (t.masked == masked or not apart)
    ]  # fmt: skip
    return max(found, key=lambda t: t.masked, default=None)


def head_text(hz: float, heads: Heads) -> str:
    """Write a frequency as a head of a column or row."""
    if heads in ("khz", "k"):
        return f"{hz / 1000:g}" + ("k" if heads == "k" and hz >= 1000 else "")
    return f"{hz:g}" + (" Hz" if heads == "unit" else "")


def draw_printed_table(
    pen: Pen, at: XY, look: TableLook, frequencies: Sequence[float], rows: Sequence[Row], tones: Sequence[Tone]
) -> tuple[list[Cell], tuple[float, float]]:
    """Print a table.

    Parameters
    ----------
    pen : Pen
        The page.
    at : tuple
        Its upper left corner in points.
    look : TableLook
        How it is printed.
    frequencies, rows : sequence
        What it has room for.
    tones : sequence of Tone
        The results; what has no cell is left out.

    Returns
    -------
    list of Cell
        Every cell.
    tuple of float
        Its right and lower edge in points.
    """
    apart = look.signs.masked == "row"
    grid = _grid(look, at, frequencies, rows)
    _lines(pen, look, grid)
    _names(pen, look, grid, frequencies, rows)
    cells: list[Cell] = []
    for r, row in enumerate(rows):
        for f, hz in enumerate(frequencies):
            tone = tone_of(tones, row, hz, apart=apart)
            text, middle = cell_text(tone, look.signs), grid.cell(f, r)
            colour = look.colours[0 if row[0] == "right" else 1] if look.colours and row[0] != "both" else BLACK
            if text:
                pen.text((middle[0], middle[1] + look.size * 0.36), text, look.face, look.size, colour, anchor=0.5)
            cells.append(Cell(text, middle, row, hz, tone))
    return cells, grid.end


def table_size(look: TableLook, frequencies: Sequence[float], rows: Sequence[Row]) -> tuple[float, float]:
    """Give the width and height of a table in points."""
    return _grid(look, (0.0, 0.0), frequencies, rows).end


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where a table's parts stand: ``first`` is the width of its names, ``lines`` the y of each row of cells."""

    at: XY
    first: float
    head: float
    wide: float
    lines: tuple[float, ...]
    sections: tuple[tuple[str, float], ...]
    down: bool
    high: float
    columns: int

    def cell(self, frequency: int, row: int) -> XY:
        """Give the middle of a cell."""
        column, line = (row, frequency) if self.down else (frequency, row)
        return self.at[0] + self.first + (column + 0.5) * self.wide, self.lines[line]

    @property
    def end(self) -> XY:
        return self.at[0] + self.first + self.columns * self.wide, self.lines[-1] + self.high / 2


def _name(look: TableLook, row: Row, *, ear: bool) -> str:
    parts = [
        ear_name(look.tongue, row[0], look.form) if ear and look.named[0] else "",
        way_name(look.tongue, row, look.form) if look.named[1] else "",
        added(look.tongue, row, look.form),
    ]
    return " ".join(part for part in parts if part) or "dB HL"


def _grid(look: TableLook, at: XY, frequencies: Sequence[float], rows: Sequence[Row]) -> _Grid:
    wide, high = look.cell
    down = look.layout in ("columns", "spanned")
    if down:
        head = high * (2 if look.layout == "spanned" else 1)
        lines = tuple(at[1] + head + (i + 0.5) * high for i in range(len(frequencies)))
        first = fonts.width(look.face, look.tongue.frequency + " (kHz)", look.size) + 10
        return _Grid(at, first, head, wide, lines, (), down, high, len(rows))
    whole = [_name(look, row, ear=look.layout == "rows") for row in rows]
    first = max(fonts.width(look.bold if look.names_bold else look.face, name, look.size) for name in whole) + 10
    first = max(first, fonts.width(look.face, look.tongue.frequency + " (kHz)", look.size) + 10)
    if look.layout == "two-heads":
        first += max(fonts.width(look.bold, ear_name(look.tongue, r[0], look.form), look.size) for r in rows) + 10
    places: list[float] = []
    sections: list[tuple[str, float]] = []
    y, ear = at[1] + high, ""
    for row in rows:
        if look.layout == "sections" and row[0] != ear and row[0] != "both":
            sections.append((row[0], y + high / 2))
            y += high
        ear = row[0]
        places.append(y + high / 2)
        y += high
    return _Grid(at, first, high, wide, tuple(places), tuple(sections), down, high, len(frequencies))


def _lines(pen: Pen, look: TableLook, grid: _Grid) -> None:
    (x, y), (right, bottom) = grid.at, grid.end
    if look.shade is not None:
        pen.rect((x, y, right, y + grid.head), None, fill=look.shade)
    if look.rules == "none":
        return
    pen.turns(0, 0)
    pen.line((x, y + grid.head), (right, y + grid.head), look.line, 0.9)
    if look.rules == "head":
        return
    for line in (y, *(middle + grid.high / 2 for middle in (*grid.lines, *(s for _, s in grid.sections)))):
        pen.line((x, line), (right, line), look.line, 0.5)
    if look.rules == "all":
        for edge in (0.0, *(grid.first + grid.wide * c for c in range(grid.columns + 1))):
            pen.line((x + edge, y), (x + edge, bottom), look.line, 0.5)


def _names(pen: Pen, look: TableLook, grid: _Grid, frequencies: Sequence[float], rows: Sequence[Row]) -> None:
    low = look.size * 0.36
    names = look.bold if look.names_bold else look.face
    unit = "kHz" if look.heads in ("khz", "k") else "Hz"
    corner = look.tongue.frequency + f" ({unit})" if look.form < 2 else unit
    heads = [head_text(hz, look.heads) for hz in frequencies]
    x, y = grid.at
    pen.text((x + 4, y + grid.head - grid.high / 2 + low), corner, names, look.size)
    if grid.down:
        for head, line in zip(heads, grid.lines, strict=True):
            pen.text((x + 4, line + low), head, names, look.size)
        _column_names(pen, look, grid, rows, names, low)
        return
    for f, head in enumerate(heads):
        pen.text((grid.cell(f, 0)[0], y + grid.head / 2 + low), head, names, look.size, anchor=0.5)
    for ear, line in grid.sections:
        pen.text((x + 4, line + low), ear_name(look.tongue, ear, look.form), look.bold, look.size)
    ear = ""
    for row, line in zip(rows, grid.lines, strict=True):
        left = x + 4
        if look.layout == "two-heads":
            title = ear_name(look.tongue, row[0], look.form)
            if row[0] != ear:
                pen.text((left, line + low), title, look.bold, look.size)
            left += max(fonts.width(look.bold, ear_name(look.tongue, r[0], look.form), look.size) for r in rows) + 10
            ear = row[0]
        pen.text((left, line + low), _name(look, row, ear=look.layout == "rows"), names, look.size)


def _column_names(pen: Pen, look: TableLook, grid: _Grid, rows: Sequence[Row], names: str, low: float) -> None:
    """Print the names over the columns; with ``spanned``, the ear over all of its columns."""
    y = grid.at[1]
    for c, row in enumerate(rows):
        name = _name(look, row, ear=look.layout == "columns" or row[0] == "both")
        size = min(look.size, look.size * 0.92 * grid.wide / fonts.width(names, name, look.size))
        pen.text((grid.cell(0, c)[0], y + grid.head - grid.high / 2 + low), name, names, size, anchor=0.5)
    if look.layout != "spanned":
        return
    c = 0
    for ear, group in groupby(rows, key=lambda row: row[0]):
        count = len(list(group))
        middle = (grid.cell(0, c)[0] + grid.cell(0, c + count - 1)[0]) / 2
        pen.text((middle, y + grid.high / 2 + low), ear_name(look.tongue, ear, look.form), look.bold, look.size,
                 anchor=0.5)  # fmt: skip
        c += count
