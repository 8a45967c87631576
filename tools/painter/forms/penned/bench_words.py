"""What people write on the benchmark's forms: other fields and other words than on those for training."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...chart.chance import pick
from ...hand.filling import Filling
from ...hand.words.notes import hand_date
from ...hand.words.writing import write
from ...sheet import Sheet

OVER_THE_GRID = (
    "not sure", "again", "blocked", "asleep", "m 55", "m 70", "with mask", "vib", "same as 2012", "lost card", "TTS?",
    "hearing loop", "shouted", "bad day", "no show x2", "phone L", "see 4k", "both", "+5", "-10", "fast", "wait 14 d",
)  # fmt: skip
_PEOPLE = (
    "Ilse Marlow",
    "Piet Orrin",
    "Runa Fjell",
    "Tomas Quill",
    "Uma Wren",
    "Viggo Stone",
    "Yara Finch",
    "Zeno Pike",
)
_BOX = tuple[float, float, float, float]


def fill_lines(
    sheet: Sheet, rng: np.random.Generator, box: _BOX, face: str, size: float, filling: Filling, date: str
) -> None:
    """Print lines for name, birth, date and tester into a box, two to a row, and fill them in."""
    pen, tool = sheet.pen, filling.dark
    left, top, right, bottom = box
    name = pick(rng, _PEOPLE)
    born = f"{int(rng.integers(1929, 2012))}-{int(rng.integers(1, 13)):02d}-{int(rng.integers(1, 29)):02d}"
    fields = (("Patient", name), ("Tested", hand_date(rng, date)), ("Born", hand_date(rng, born)),
              ("By", pick(rng, ("EH", "R. Kern", "dm", "TO"))))  # fmt: skip
    pitch = (bottom - top) / 2
    for k, (what, value) in enumerate(fields):
        x0 = left + (right - left) * 0.5 * (k % 2)
        x1, y = x0 + (right - left) * 0.47, top + pitch * (k // 2 + 0.75)
        start = x0 + pen.text((x0, y), what, face, size) + 5
        pen.line((start, y + 2), (x1, y + 2), (0.3, 0.3, 0.3), 0.5)
        if k == 1 or rng.random() < 0.9:
            write(pen, (start + float(rng.uniform(2, 14)), y + float(rng.normal(-0.5, 0.8))), value, size * 1.05,
                  (filling.writer, filling.script), tool.nib, tool.colour, rng)  # fmt: skip
    sheet.report = replace(sheet.report, patient=name)


def fill_table(
    sheet: Sheet, rng: np.random.Generator, at: tuple[float, float], face: str, size: float, filling: Filling
) -> None:
    """Print a table for speech results and fill its numbers in."""
    pen = sheet.pen
    wide, high = 34.0, size * 2.4
    rows = [("", "SRT", "WRS", "dB"), ("R", *_speech(rng)), ("L", *_speech(rng))]
    for r, row in enumerate(rows):
        tool = (filling.dark, filling.right, filling.left)[r]
        for c, text in enumerate(row):
            x, y = at[0] + c * wide, at[1] + r * high
            pen.rect((x, y, x + wide, y + high), (0.2, 0.2, 0.2), 0.5)
            middle = (x + wide / 2, y + high * 0.68)
            if r == 0 or c == 0:
                pen.text(middle, text, face, size, anchor=0.5)
            elif rng.random() < 0.9:
                write(pen, middle, text, size * 1.2, (filling.writer, filling.script), tool.nib, tool.colour, rng,
                      anchor=0.5)  # fmt: skip


def _speech(rng: np.random.Generator) -> tuple[str, str, str]:
    return str(5 * int(rng.integers(1, 15))), f"{4 * int(rng.integers(10, 26))}%", str(5 * int(rng.integers(9, 19)))
