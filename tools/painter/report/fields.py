"""Layouts of a report's labels and values: columns, ruled boxes, labels above, a table, running lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from ..pen import Colour
from .cells import Cell
from .scribe import Scribe

Layout = Literal["columns", "aligned", "boxed", "above", "table", "running", "dotted", "ruled"]
Frame = tuple[float, float, float, float]
"""Left, top, right, bottom in points; the bottom is not kept to."""

_LINE: Colour = (0.45, 0.45, 0.45)


def draw_cells(scribe: Scribe, cells: Sequence[Cell], frame: Frame, layout: Layout, *, columns: int = 2) -> float:
    """Write cells into a frame.

    Parameters
    ----------
    scribe : Scribe
        Who writes, and how.
    cells : sequence of Cell
        In reading order; a long one gets lines of its own.
    frame : tuple
        The left, top and right edges in points.
    layout : str
        ``columns`` label and value side by side, row by row; ``aligned`` the same with all values of a column in
        line; ``boxed`` a small label over its value in a ruled box; ``above`` the same without boxes; ``table`` two
        ruled columns; ``running`` one after the other along a line; ``dotted`` values at the right end of dots;
        ``ruled`` values on a line to write on.
    columns : int
        How many there are at most; fewer where values would not fit.

    Returns
    -------
    float
        The y below all, in points.
    """
    short, long = [cell for cell in cells if not cell.long], [cell for cell in cells if cell.long]
    y = _DRAWERS[layout](scribe, short, frame, columns)
    for cell in long:
        y = _draw_long(scribe, cell, (frame[0], y, frame[2], frame[3]), over=layout in ("boxed", "above"))
    return y


def _draw_long(scribe: Scribe, cell: Cell, frame: Frame, *, over: bool) -> float:
    size = scribe.setting.size
    left, y, right, _ = frame
    y += size * 1.3
    along = scribe.label((left, y), cell.label)
    start = left if over else left + along + size * 0.8
    y += size * 1.5 if over else 0.0
    return scribe.value((start, y), cell, width=right - start) + size * 0.9


def _fitting(scribe: Scribe, cells: Sequence[Cell], width: float, columns: int, need: Callable[[Cell], float]) -> int:
    gap = scribe.setting.size
    while columns > 1 and any(need(cell) + gap > width / columns for cell in cells):
        columns -= 1
    return columns


def _beside(scribe: Scribe, cell: Cell) -> float:
    return scribe.label_width(cell.label) + scribe.setting.size * 0.6 + scribe.value_width(cell)


def _over(scribe: Scribe, cell: Cell) -> float:
    return max(scribe.label_width(cell.label, scribe.setting.size * 0.75), scribe.value_width(cell)) + 6


def _columns(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    columns = _fitting(scribe, cells, right - left, columns, lambda cell: _beside(scribe, cell))
    pitch, wide = size * 1.65, (right - left) / columns
    for k, cell in enumerate(cells):
        x, y = left + wide * (k % columns), top + pitch * (k // columns) + size * 1.2
        along = scribe.label((x, y), cell.label)
        scribe.value((x + along + size * 0.6, y), cell)
    return top + pitch * -(-len(cells) // columns) + size * 0.6


def _tab(scribe: Scribe, cells: Sequence[Cell]) -> float:
    return max((scribe.label_width(cell.label) for cell in cells), default=0.0) + scribe.setting.size


def _aligned(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    tab = _tab(scribe, cells)
    columns = _fitting(scribe, cells, right - left, columns, lambda cell: tab + scribe.value_width(cell))
    rows = -(-len(cells) // columns)
    pitch, wide = size * 1.6, (right - left) / columns
    for k, cell in enumerate(cells):
        x, y = left + wide * (k // max(rows, 1)), top + pitch * (k % max(rows, 1)) + size * 1.2
        scribe.label((x, y), cell.label)
        scribe.value((x + tab, y), cell)
    return top + pitch * rows + size * 0.6


def _stacked(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int, *, ruled: bool) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    columns = _fitting(scribe, cells, right - left, columns, lambda cell: _over(scribe, cell))
    pitch, wide = size * (2.7 if ruled else 2.9), (right - left) / columns
    for k, cell in enumerate(cells):
        x, y = left + wide * (k % columns), top + pitch * (k // columns)
        if ruled:
            scribe.sheet.pen.rect((x, y, x + wide, y + pitch), _LINE, 0.5)
        scribe.label((x + 3, y + size * 0.95), cell.label, size * 0.75)
        scribe.value((x + 3, y + size * 2.15), cell)
    return top + pitch * -(-len(cells) // columns) + size * 0.5


def _boxed(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    return _stacked(scribe, cells, frame, columns, ruled=True)


def _above(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    return _stacked(scribe, cells, frame, columns, ruled=False)


def _table(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    tab = _tab(scribe, cells)
    columns = _fitting(scribe, cells, right - left, columns, lambda cell: tab + scribe.value_width(cell) + 8)
    rows, wide, pitch = -(-len(cells) // columns), (right - left) / columns, size * 1.75
    pen = scribe.sheet.pen
    for k, cell in enumerate(cells):
        x, y = left + wide * (k % columns), top + pitch * (k // columns)
        pen.rect((x, y, x + wide, y + pitch), _LINE, 0.5)
        pen.line((x + tab, y), (x + tab, y + pitch), _LINE, 0.5)
        scribe.label((x + 3, y + size * 1.25), cell.label)
        scribe.value((x + tab + 4, y + size * 1.25), cell)
    return top + pitch * rows + size * 0.6


def _running(scribe: Scribe, cells: Sequence[Cell], frame: Frame) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    x, y = left, top + size * 1.2
    for cell in cells:
        width = _beside(scribe, cell)
        if x > left and x + width > right:
            x, y = left, y + size * 1.6
        along = scribe.label((x, y), cell.label)
        scribe.value((x + along + size * 0.5, y), cell)
        x += width + size * 2.2
    return y + size


def _dotted(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    tab = _tab(scribe, cells) + size * 4
    columns = _fitting(scribe, cells, right - left, min(columns, 2), lambda cell: tab + scribe.value_width(cell))
    wide, pitch, pen = (right - left) / columns, size * 1.6, scribe.sheet.pen
    for k, cell in enumerate(cells):
        x, y = left + wide * (k % columns), top + pitch * (k // columns) + size * 1.2
        along = scribe.label((x, y), cell.label)
        pen.line((x + along + 3, y - 0.6), (x + tab - 4, y - 0.6), _LINE, 0.7, (0.7, 2.2))
        scribe.value((x + tab, y), cell)
    return top + pitch * -(-len(cells) // columns) + size * 0.6


def _ruled(scribe: Scribe, cells: Sequence[Cell], frame: Frame, columns: int) -> float:
    size, (left, top, right, _) = scribe.setting.size, frame
    columns = _fitting(scribe, cells, right - left, columns, lambda cell: _beside(scribe, cell))
    wide, pitch, pen = (right - left) / columns, size * 1.9, scribe.sheet.pen
    for k, cell in enumerate(cells):
        x, y = left + wide * (k % columns), top + pitch * (k // columns) + size * 1.3
        along = scribe.label((x, y), cell.label)
        start = x + along + size * 0.5
        pen.line((start, y + size * 0.32), (x + wide - size * 0.8, y + size * 0.32), _LINE, 0.5)
        scribe.value((start + 2, y), cell)
    return top + pitch * -(-len(cells) // columns) + size * 0.6


_DRAWERS: dict[str, Callable[[Scribe, Sequence[Cell], Frame, int], float]] = {
    "columns": _columns,
    "aligned": _aligned,
    "boxed": _boxed,
    "above": _above,
    "table": _table,
    "running": lambda scribe, cells, frame, _: _running(scribe, cells, frame),
    "dotted": _dotted,
    "ruled": _ruled,
}
