"""Small tables and lines of a report's results, with the place of every cell."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from .....interpret.record import Audiogram, Box
from ... import fonts
from ...pen import BLACK, XY, Colour
from ...sheet import Sheet
from ..scribe import Setting, write

_HEAD: Colour = (0.9, 0.92, 0.95)


def draw_rows(
    sheet: Sheet,
    rng: np.random.Generator,
    setting: Setting,
    at: XY,
    rows: Sequence[Sequence[str]],
    *,
    title: str | None = None,
    room: float | None = None,
) -> tuple[list[list[Box | None]], float]:
    """Draw a table and tell where its words came to stand.

    Parameters
    ----------
    at : tuple
        The top left corner in points.
    rows : sequence of sequences of str
        The cells, the first row being the head; an empty cell holds nothing.
    title : str, optional
        Printed above.
    room : float, optional
        The greatest width in points: the words are set smaller where they need more.

    Returns
    -------
    boxes : list of lists
        The ink of every cell in page fractions, None for an empty one.
    y : float
        Below the table, in points.
    """
    (left, top), size = at, setting.size
    if title is not None:
        write(sheet, (left, top + size), title, setting.bold, size)
        top += size * 1.6
    head = setting.bold if rng.random() < 0.5 else setting.face
    wide = _widths(rows, head, setting.face, size)
    if room is not None and sum(wide) > room:
        size *= room / sum(wide)
        wide = _widths(rows, head, setting.face, size)
    pitch, ruled, shaded = size * 1.75, rng.random() < 0.55, rng.random() < 0.3
    centred = rng.random() < 0.5
    if shaded:
        sheet.pen.rect((left, top, left + sum(wide), top + pitch), None, fill=_HEAD)
    boxes = [
        _write_row(sheet, row, wide, (left, top + r * pitch), setting.face if r else head, size, centred=centred)
        for r, row in enumerate(rows)
    ]
    if ruled:
        _rule(sheet, (left, top), wide, len(rows), pitch)
    else:
        sheet.pen.line((left, top + pitch), (left + sum(wide), top + pitch), BLACK, 0.6)
    return boxes, top + len(rows) * pitch + size * 0.4


def _write_row(
    sheet: Sheet, row: Sequence[str], widths: Sequence[float], at: XY, face: str, size: float, *, centred: bool
) -> list[Box | None]:
    """Write the cells of one row, all but the first in the middle where centred; give their boxes."""
    x, boxes = at[0], []
    for c, (text, wide) in enumerate(zip(row, widths, strict=True)):
        middle = centred and c > 0
        start = (x + (wide / 2 if middle else size * 0.6), at[1] + size * 1.25)
        boxes.append(write(sheet, start, text, face, size, anchor=0.5 if middle else 0.0) if text else None)
        x += wide
    return boxes


def _widths(rows: Sequence[Sequence[str]], head: str, face: str, size: float) -> list[float]:
    wide = []
    for column in range(len(rows[0])):
        first = fonts.width(head, rows[0][column], size)
        wide.append(max([first, *(fonts.width(face, row[column], size) for row in rows[1:])]) + size * 1.4)
    return wide


def _rule(sheet: Sheet, at: XY, widths: Sequence[float], rows: int, pitch: float) -> None:
    (left, top), total = at, sum(widths)
    for r in range(rows + 1):
        sheet.pen.line((left, top + r * pitch), (left + total, top + r * pitch), BLACK, 0.4)
    x = left
    for wide in (0.0, *widths):
        x += wide
        sheet.pen.line((x, top), (x, top + rows * pitch), BLACK, 0.4)


def draw_words(
    sheet: Sheet,
    setting: Setting,
    at: XY,
    words: Sequence[str],
    margins: tuple[float, float],
    *,
    label: bool = False,
) -> tuple[list[Box], XY]:
    """Write words one after the other, turning to a new line at the right margin; give their boxes and the next place.

    ``margins`` are the x of the line's start and end in points; later lines are indented. ``label`` sets the words as
    a label.
    """
    (x, y), size, boxes = at, setting.size, []
    face, colour = (setting.label_face, setting.label_colour) if label else (setting.face, BLACK)
    for text in words:
        width = fonts.width(face, text, size)
        if x > margins[0] and x + width > margins[1]:
            x, y = margins[0] + size, y + size * 1.5
        boxes.append(write(sheet, (x, y), text, face, size, colour))
        x += width + fonts.width(face, " ", size)
    return boxes, (x, y)


def put(sheet: Sheet, audiogram: int, record: Audiogram) -> None:
    """Put an audiogram with more results in the place of the one before."""
    sheet.audiograms[audiogram] = record
