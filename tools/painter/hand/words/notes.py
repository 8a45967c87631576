"""What people write on a form besides its marks: the fields of its head, and words and numbers over the chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ... import fonts
from ...chart.chance import grey, pick
from ...pen import BLACK, XY, Colour, Pen
from ...sheet import Sheet
from ..filling import Filling, Tool
from ..marks import InkBox, draw_stroke
from .writing import write

SAYINGS = (
    "repeat", "see notes", "insert phones", "NR", "masked 60", "mask 45 dB", "ok", "good", "cold today", "retest",
    "?", "?!", "check", "seen by KL", "both ears", "no masking", "tired", "1 of 2", "L better", "R = L", "+10", "-5",
    "wax R", "nurse", "fair", "after op", "old", "new", "tinnitus L", "no change", "HA", "BC", "AC", "PTA 35", "SRT 40",
    "\N{CHECK MARK}", "\N{RIGHTWARDS ARROW} 55", "WRS 88%", "tymp A", "noise", "ref. ENT", "aided", "6 weeks", "vib.",
)  # fmt: skip
"""What is written over training charts, besides numbers."""
_NAMES = ("Ashdown", "Brandt", "Corvey", "Dunmore", "Eklund", "Farrow", "Grenfell", "Hollis", "Jarl", "Kestrel")
_FIRST = ("Ada", "Bruno", "Carla", "Dov", "Edda", "Femi", "Greta", "Hugo", "Ines", "Jonas", "Kira", "Luca", "Mina")
_FIELDS = ("Name", "Date", "Born", "Tested by", "Reliability", "Audiometer", "Ref.")
Frame = tuple[float, float, float, float]


def hand_date(rng: np.random.Generator, iso: str) -> str:
    """Write a date the way people do by hand."""
    year, month, day = iso.split("-")
    return pick(
        rng,
        (f"{day}/{month}/{year}", f"{int(day)}.{int(month)}.{year[2:]}", f"{int(day)}-{int(month)}-{year}",
         f"{int(month)}/{int(day)}/{year[2:]}", iso),
    )  # fmt: skip


def draw_fields(
    sheet: Sheet, rng: np.random.Generator, box: Frame, face: str, size: float, filling: Filling, date: str
) -> float:
    """Print the fields of a form's head and fill them in by hand; give the y below them."""
    pen, tool = sheet.pen, filling.dark
    left, top, right, _ = box
    name = f"{pick(rng, _FIRST)} {pick(rng, _NAMES)}"
    born = f"{int(rng.integers(1931, 2015))}-{int(rng.integers(1, 13)):02d}-{int(rng.integers(1, 29)):02d}"
    values = {
        "Name": name,
        "Date": hand_date(rng, date),
        "Born": hand_date(rng, born),
        "Tested by": pick(rng, ("M.O.", "J. K.", "A. S.", "kl")),
        "Reliability": pick(rng, ("good", "fair", "ok")),
        "Audiometer": str(int(rng.integers(1, 9))),
        "Ref.": str(int(rng.integers(1000, 99999))),
    }
    columns = int(rng.integers(2, 4))
    asked = _FIELDS[: int(rng.integers(2, 8))]
    pitch = size * float(rng.uniform(2.0, 2.8))
    rule = pick(rng, ("line", "dots", "box"), (0.6, 0.25, 0.15))
    shade = grey(rng, 0.0, 0.5)
    for k, field in enumerate(asked):
        x0 = left + (right - left) * (k % columns) / columns
        x1 = left + (right - left) * (k % columns + 0.93) / columns
        y = top + pitch * (k // columns + 0.8)
        start = x0 + pen.text((x0, y), f"{field}:", face, size) + 4
        if rule == "box":
            pen.rect((x0 - 2, y - pitch * 0.7, x1, y + pitch * 0.28), shade, 0.5)
        else:
            pen.line((start, y + 1.5), (x1, y + 1.5), shade, 0.5, (0.5, 1.5) if rule == "dots" else ())
        if rng.random() < 0.88:
            height = size * float(rng.uniform(0.8, 1.25))
            spot = (start + float(rng.uniform(1, 8)), y + float(rng.normal(0, 1.2)))
            write(pen, spot, values[field], height, (filling.writer, filling.script), tool.nib, tool.colour, rng)
    sheet.report = replace(sheet.report, patient=name if "Name" in asked else None)
    return top + pitch * ((len(asked) + columns - 1) // columns) + size


def scrawl(
    sheet: Sheet,
    rng: np.random.Generator,
    frame: Frame,
    filling: Filling,
    taken: Sequence[InkBox],
    chart: int | None,
    count: int,
    *,
    sayings: Sequence[str] = SAYINGS,
) -> None:
    """Write words and numbers over a chart where its marks leave room; underline some and strike some out."""
    boxes = list(taken)
    hand = (filling.writer, filling.script)
    for _ in range(count):
        tool = pick(rng, (filling.dark, filling.left, filling.right))
        height = float(rng.uniform(5, 11))
        text = pick(rng, sayings) if rng.random() < 0.5 else str(5 * int(rng.integers(2, 24)))
        wide, high = 0.75 * height * len(text) + 8, 1.6 * height
        near = taken[int(rng.integers(len(taken)))] if taken and rng.random() < 0.3 else None
        spot = _free(rng, frame, boxes, wide, high) if near is None else _beside(rng, near, boxes, wide, high)
        if spot is None:
            continue
        box = write(sheet.pen, (spot[0] + 3, spot[1] + high - 0.3 * height), text, height, hand, tool.nib, tool.colour,
                    rng, chart=chart)  # fmt: skip
        if box is not None:
            boxes.append(box)
            _flourish(sheet.pen, rng, box, tool)


def _free(rng: np.random.Generator, frame: Frame, boxes: Sequence[InkBox], wide: float, high: float) -> XY | None:
    """Find room for a piece of writing by trying a few places."""
    left, top, right, bottom = frame
    if right - left < wide or bottom - top < high:
        return None
    for _ in range(14):
        x, y = float(rng.uniform(left, right - wide)), float(rng.uniform(top, bottom - high))
        if not any(b[0] < x + wide + 2 and b[2] > x - 2 and b[1] < y + high + 2 and b[3] > y - 2 for b in boxes):
            return x, y
    return None


def _beside(rng: np.random.Generator, mark: InkBox, boxes: Sequence[InkBox], wide: float, high: float) -> XY | None:
    """Find room right beside a mark, where its masking level or a remark about it is written."""
    gap = float(rng.uniform(1, 5))
    spots = [(mark[2] + gap, (mark[1] + mark[3] - high) / 2), ((mark[0] + mark[2] - wide) / 2, mark[3] + gap),
             ((mark[0] + mark[2] - wide) / 2, mark[1] - high - gap)]  # fmt: skip
    for number in rng.permutation(3):
        x, y = spots[int(number)]
        if not any(b[0] < x + wide and b[2] > x and b[1] < y + high and b[3] > y for b in boxes):
            return x, y
    return None


def _flourish(pen: Pen, rng: np.random.Generator, box: InkBox, tool: Tool) -> None:
    left, _, right, bottom = box
    how = rng.random()
    if how < 0.15:
        y = bottom + 2
        draw_stroke(pen, [(left - 2, y), ((left + right) / 2, y + float(rng.normal(0, 1))), (right + 3, y - 1)], 0.4,
                    tool.nib, tool.colour, rng)  # fmt: skip
    elif how < 0.22 and right - left > 25:
        # struck out again
        y = (box[1] + bottom) / 2
        draw_stroke(pen, [(left - 2, y + 1), (right + 2, y - 1)], 0.2, tool.nib, tool.colour, rng)


def jot(
    sheet: Sheet, rng: np.random.Generator, box: Frame, filling: Filling, lines: Sequence[str], height: float
) -> None:
    """Write lines of words by hand into a box, as far as there is room."""
    left, top, right, bottom = box
    y = top + 1.4 * height
    for line in lines:
        if y > bottom:
            return
        room = (right - left) / (0.75 * height)
        write(sheet.pen, (left + float(rng.uniform(0, 6)), y), line[: int(room)], height,
              (filling.writer, filling.script), filling.dark.nib, filling.dark.colour, rng)  # fmt: skip
        y += height * float(rng.uniform(1.8, 2.4))


def print_title(pen: Pen, rng: np.random.Generator, box: Frame, face: str, size: float, titles: Sequence[str]) -> float:
    """Print a form's title, now and then with a rule below; give the y below it."""
    left, top, right, _ = box
    bold = fonts.load(fonts.FACES[face].bold)
    y = top + size * 1.5
    anchor = pick(rng, (0.0, 0.5))
    colour: Colour = pick(rng, (BLACK, (0.2, 0.2, 0.3)))
    pen.text((left + anchor * (right - left), y), pick(rng, titles), bold, size * 1.5, colour, anchor=anchor)
    if rng.random() < 0.5:
        pen.line((left, y + size * 0.6), (right, y + size * 0.6), colour, float(rng.uniform(0.5, 1.5)))
    return y + size * 1.4
