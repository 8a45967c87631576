"""Printed tables whose numbers are written in by hand: the thresholds of a test, beside a chart or without one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ...patient import Tone
from ...pen import XY, Colour, Pen
from ..filling import Filling
from ..marks import draw_stroke
from .writing import InkBox, write

Row = tuple[str, str, bool]
"""Ear, conduction, masked."""
_LABELS: dict[str, dict[Row, str]] = {
    "full": {
        ("right", "air", False): "Right air", ("right", "air", True): "Right air, masked",
        ("left", "air", False): "Left air", ("left", "air", True): "Left air, masked",
        ("right", "bone", False): "Right bone", ("right", "bone", True): "Right bone, masked",
        ("left", "bone", False): "Left bone", ("left", "bone", True): "Left bone, masked",
    },
    "trade": {
        ("right", "air", False): "AC R", ("right", "air", True): "AC R m",
        ("left", "air", False): "AC L", ("left", "air", True): "AC L m",
        ("right", "bone", False): "BC R", ("right", "bone", True): "BC R m",
        ("left", "bone", False): "BC L", ("left", "bone", True): "BC L m",
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class TableLook:
    """How a table of thresholds is printed.

    Attributes
    ----------
    face, size : str, float
        The printed words.
    wording : str
        How its rows are called: "full" or "trade".
    cell : tuple of float
        Width and height of a cell in points.
    down : bool
        The frequencies run down, the ears across.
    rules : str
        Which lines are printed: all, those between rows, or none but under the head.
    shade : Colour or None
        What is behind the head.
    line : Colour
        The lines.
    digits : float
        Height of a digit as a share of the cell's height.
    khz : bool
        Frequencies in kHz.
    """

    face: str
    size: float
    wording: str
    cell: tuple[float, float]
    down: bool = False
    rules: Literal["all", "rows", "head"] = "all"
    shade: Colour | None = None
    line: Colour = (0.2, 0.2, 0.2)
    digits: float = 0.5
    khz: bool = False


def rows_for(tones: Sequence[Tone], *, bone: bool = True) -> list[Row]:
    """Name the rows that a table needs for some results: air of both ears always, the rest where there is any."""
    rows: list[Row] = []
    for conduction in ("air", "bone") if bone else ("air",):
        for masked in (False, True):
            for ear in ("right", "left"):
                found = any((t.ear, t.conduction, t.masked) == (ear, conduction, masked) for t in tones)
                if found or (conduction == "air" and not masked):
                    rows.append((ear, conduction, masked))
    return rows


def draw_value_table(
    pen: Pen,
    rng: np.random.Generator,
    at: XY,
    look: TableLook,
    filling: Filling,
    frequencies: Sequence[float],
    rows: Sequence[Row],
    tones: Sequence[Tone],
    *,
    corrected: float = 0.03,
) -> list[tuple[Tone, XY]]:
    """Print a table and write the thresholds into it.

    Parameters
    ----------
    pen : Pen
        The page.
    rng : numpy.random.Generator
        All chance comes from it.
    at : tuple
        The table's upper left corner in points.
    look, filling : TableLook, Filling
        How it is printed, and who fills it in.
    frequencies, rows : sequence
        What the table has room for.
    tones : sequence of Tone
        The results; what the table has no row or no frequency for is left out.
    corrected : float
        The odds that a number was written wrong, struck out, and written anew beside.

    Returns
    -------
    list of tuple
        Every result that stands in the table, with the middle of its number in points.
    """
    heads = [f"{hz / 1000:g}" if look.khz else f"{hz:g}" for hz in frequencies]
    names = [_LABELS[look.wording][row] for row in rows]
    across, along = (names, heads) if look.down else (heads, names)
    first = _print(pen, at, look, along, across)
    wide, high = look.cell
    found: list[tuple[Tone, XY]] = []
    for tone in tones:
        key = (tone.ear, tone.conduction, tone.masked)
        if tone.measure != "threshold" or key not in rows or tone.frequency_hz not in frequencies:
            continue
        place = (frequencies.index(tone.frequency_hz), rows.index(key))
        column, row = place[::-1] if look.down else place
        middle = (at[0] + first + (column + 0.5) * wide, at[1] + (row + 1.5) * high)
        box = _fill_cell(pen, rng, middle, look, filling, tone, wrong=bool(rng.random() < corrected))
        found.append((tone, _middle(box) if box is not None else middle))
    return found


def _fill_cell(
    pen: Pen, rng: np.random.Generator, middle: XY, look: TableLook, filling: Filling, tone: Tone, *, wrong: bool
) -> InkBox | None:
    """Write one number into its cell, after a wrong one that is struck out where there is room for both."""
    (wide, high), tool, hand = look.cell, filling.tool(tone.ear), (filling.writer, filling.script)
    text = f"{round(tone.level_db_hl)}" + ("" if tone.response else "+")
    height = min(look.digits * high * float(rng.uniform(0.85, 1.15)), 0.86 * wide / (0.72 * len(text)))
    off = rng.normal(0, 1, 2) * (0.05 * wide, 0.07 * high)
    spot = (middle[0] + float(off[0]), middle[1] + height / 2 + float(off[1]))
    if wrong and len(text) < 3:
        height *= 0.8
        other = str(5 * int(rng.integers(2, 20)))
        left = (spot[0] - 0.24 * wide, spot[1])
        box = write(pen, left, other, height, hand, tool.nib, tool.colour, rng, anchor=0.5)
        if box is not None:
            draw_stroke(pen, [(box[0] - 2, box[3]), (box[2] + 2, box[1])], 0.2, tool.nib, tool.colour, rng)
        spot = (spot[0] + 0.24 * wide, spot[1])
    return write(pen, spot, text, height, hand, tool.nib, tool.colour, rng, anchor=0.5)


def _middle(box: InkBox) -> XY:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def table_size(look: TableLook, frequencies: Sequence[float], rows: Sequence[Row]) -> tuple[float, float]:
    """Give the width and height of a table in points."""
    lines, columns = (len(frequencies), len(rows)) if look.down else (len(rows), len(frequencies))
    return _first(look) + columns * look.cell[0], (lines + 1) * look.cell[1]


def _first(look: TableLook) -> float:
    """Give the width of the column of row names."""
    return look.size * (3.5 if look.down else 4.5 if look.wording == "trade" else 9.5)


def _print(pen: Pen, at: XY, look: TableLook, along: Sequence[str], across: Sequence[str]) -> float:
    """Print the table's lines and names, and give the width of its first column."""
    first, (wide, high) = _first(look), look.cell
    total, depth = first + wide * len(across), high * (len(along) + 1)
    x, y = at
    if look.shade is not None:
        pen.rect((x, y, x + total, y + high), None, fill=look.shade)
    pen.turns(0, 0)
    for r in range(len(along) + 2):
        if look.rules != "head" or r in (0, 1, len(along) + 1):
            pen.line((x, y + r * high), (x + total, y + r * high), look.line, 0.9 if r == 1 else 0.5)
    if look.rules == "all":
        for edge in (0.0, *(first + wide * c for c in range(len(across) + 1))):
            pen.line((x + edge, y), (x + edge, y + depth), look.line, 0.5)
    pen.text((x + 3, y + high * 0.66), "dB HL" if look.down else "Hz" if not look.khz else "kHz", look.face, look.size)
    for c, head in enumerate(across):
        size = min(look.size, 0.9 * wide / (0.55 * max(len(head), 1)))
        pen.text((x + first + (c + 0.5) * wide, y + high * 0.66), head, look.face, size, anchor=0.5)
    for r, name in enumerate(along):
        pen.text((x + 3, y + (r + 1.66) * high), name, look.face, look.size)
    return first
