"""Read a table of thresholds: frequencies along one side, ears along the other, levels as numbers between them.

It serves pages that hold no chart. Every value stands as ``ask``: a number by hand is easily misread, and nothing else
on such a page says it twice.
"""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

import numpy as np

from ..interpret.reasons import remark
from ..interpret.record import Conduction, Ear, Remark, Seen, Threshold
from .eyes.words.numbers import frequency_values, level_value
from .page import Word
from .sheet import Sheet

FEWEST_FREQUENCIES = 4
FEWEST_VALUES = 3
ON_STEP = 0.8
"""Share of a table's numbers that must be levels in steps of 5 dB."""
REACH = 0.45
"""Share of the way to the next row or column that still belongs to a cell."""
LABELS_WITHIN = 2.5
"""Ears stand at most so many columns before the first frequency, or rows above it."""
INKED = 0.006
"""Share of dark pixels from which a cell holds something."""
SIDES: dict[Ear, tuple[str, ...]] = {
    "right": ("right", "r", "re", "rt", "rechts", "droite", "derecho", "derecha"),
    "left": ("left", "l", "le", "lt", "links", "gauche", "izquierdo", "izquierda"),
}
BONE = ("bone", "bc", "knochen", "knochenleitung", "os", "osseuse", "osseux", "ósea", "óseo")
MASKED = ("masked", "m", "vertäubt", "masqué", "masquée", "enmascarado", "enmascarada")
NOT = ("not", "un", "nicht", "non", "sin")
LABEL_WORDS = (
    *SIDES["right"], *SIDES["left"], *BONE, *MASKED, *NOT, "air", "ac", "ear", "unmasked", "luft", "luftleitung", "ohr",
    "oreille", "aérien", "aérienne", "oído", "aérea", "aéreo", "vía", "conduction",
)  # fmt: skip
TOLD = 0.6
"""Share of the words beside a row that must be such as name an ear and a conduction."""
SAME_LINE = 0.5
"""Lines so near one another, in steps, head one table."""
OTHER_TESTS = (
    "reflex", "reflexes", "stapedius", "ipsi", "contra", "ipsilateral", "contralateral", "emission", "emissions",
    "dpoae", "teoae", "noise", "tympanogram", "tympanometry", "gain", "output", "snr", "lärm", "reflexe",
)  # fmt: skip
"""Words of tables that are by frequency and ear too, and hold no thresholds."""
SLIPS = str.maketrans({"i": "1", "l": "1", "|": "1", "o": "0", "s": "5", "z": "2", "(": "1", ")": ""})
"""What the digits of a hand are read as."""


@dataclass(frozen=True, slots=True)
class _Line:
    """Frequencies in a row or a column: ``along`` their direction, ``at`` their places, ``across`` that of the line."""

    along: int
    hz: tuple[float, ...]
    at: tuple[float, ...]
    across: float

    @property
    def step(self) -> float:
        return median(b - a for a, b in pairwise(self.at))


@dataclass(frozen=True, slots=True)
class _Label:
    ear: Ear
    conduction: Conduction
    masked: bool
    across: float


Table = tuple[Threshold, ...]


def read_tables(sheet: Sheet) -> tuple[tuple[Table, ...], tuple[Remark, ...]]:
    """Read the tables of thresholds on a sheet.

    Parameters
    ----------
    sheet : Sheet
        A page without a chart that could be read.

    Returns
    -------
    tuple of tuple of Threshold
        The values of each table, one a cell, all standing as ``ask``; empty where there is no such table.
    tuple of Remark
        ``missing-expected`` for every cell that holds something else.
    """
    if any(_is(part, OTHER_TESTS) for word in sheet.words for part in _parts(word)):
        return (), ()
    tables: list[Table] = []
    remarks: list[Remark] = []
    taken: list[_Line] = []
    lines = _lines(sheet.words)
    for line in lines:
        if any(
            line.along == other.along and abs(line.across - other.across) < SAME_LINE * other.step for other in taken
        ):
            continue
        next_one = [o.across for o in lines if o.along == line.along and o.across > line.across + SAME_LINE * line.step]
        labels = [label for label in _labels(sheet.words, line) if label.across < min(next_one, default=math.inf)]
        values, unread = _cells(sheet, line, labels)
        if len(values) >= FEWEST_VALUES:
            tables.append(values)
            remarks += unread
            taken.append(line)
    return tuple(tables), tuple(remarks)


def _parts(word: Word) -> list[str]:
    return re.findall(r"[^\W\d_]+", word.text.casefold())


def _is(part: str, known: Iterable[str]) -> bool:
    """Say whether a word is one of those known, but for a slip in a long one."""
    return part in known or (len(part) > 4 and bool(difflib.get_close_matches(part, list(known), n=1, cutoff=0.84)))


def _middle(word: Word) -> tuple[float, float]:
    return (word.box[0] + word.box[2]) / 2, (word.box[1] + word.box[3]) / 2


def _lines(words: tuple[Word, ...]) -> list[_Line]:
    """Find rows and columns of rising audiometric frequencies, the longest first."""
    numbers = [(w, hz) for w in words for hz, _ in frequency_values(w.text)[:1] if hz >= 125]
    found = []
    for along in (0, 1):
        for word, _ in numbers:
            place, high = _middle(word), word.box[3] - word.box[1]
            row = sorted(
                (_middle(w)[along], hz)
                for w, hz in numbers
                if abs(_middle(w)[1 - along] - place[1 - along]) < 0.8 * high
            )
            if len(row) >= FEWEST_FREQUENCIES and all(a[1] < b[1] for a, b in pairwise(row)):
                found.append(_Line(along, tuple(hz for _, hz in row), tuple(at for at, _ in row), place[1 - along]))
    return sorted(found, key=lambda line: -len(line.hz))


def _labels(words: tuple[Word, ...], line: _Line) -> list[_Label]:
    """Find the ears that stand beside the frequencies: before the first column, or above the first row."""
    first, step = line.at[0], line.step
    beside = [
        w
        for w in words
        if 0.4 * step < first - _middle(w)[line.along] < LABELS_WITHIN * step
        and _middle(w)[1 - line.along] > line.across + 0.5 * (w.box[3] - w.box[1])
    ]
    labels = []
    for group in _grouped(beside, line.along):
        parts = [part for word in group for part in _parts(word)]
        ears: list[Ear] = [ear for ear, names in SIDES.items() if any(_is(p, names) for p in parts)]
        told = sum(_is(p, LABEL_WORDS) for p in parts) >= TOLD * len(parts)
        if len(ears) == 1 and told:
            masked = any(_is(p, MASKED) for p in parts) and not set(NOT) & set(parts)
            bone = any(_is(p, BONE) for p in parts)
            across = median(_middle(w)[1 - line.along] for w in group)
            labels.append(_Label(ears[0], "bone" if bone else "air", masked, across))
    return labels


def _grouped(words: list[Word], along: int) -> list[list[Word]]:
    """Put the words of one label together: those on one line, or above one column."""
    groups: list[list[Word]] = []
    for word in sorted(words, key=lambda w: (_middle(w)[1], w.box[0]) if along == 0 else (w.box[0], _middle(w)[1])):
        high = word.box[3] - word.box[1]
        for group in groups:
            last = group[-1]
            on_line = abs(_middle(last)[1] - _middle(word)[1]) < 0.6 * high
            close = along == 0 or word.box[0] - last.box[2] < 1.5 * high
            if on_line and close:
                group.append(word)
                break
        else:
            groups.append([word])
    return groups


def _cells(sheet: Sheet, line: _Line, labels: list[_Label]) -> tuple[tuple[Threshold, ...], tuple[Remark, ...]]:
    if not labels:
        return (), ()
    rows = sorted({line.across, *(label.across for label in labels)})
    pitch = min(b - a for a, b in pairwise(rows))
    values: list[Threshold] = []
    remarks: list[Remark] = []
    read = off_step = 0
    for label in labels:
        for hz, at in zip(line.hz, line.at, strict=True):
            inside = [
                w
                for w in sheet.words
                if abs(_middle(w)[line.along] - at) < REACH * line.step
                and abs(_middle(w)[1 - line.along] - label.across) < REACH * pitch
            ]
            numbers = [(w, n) for w in inside if (n := _number(w.text)) is not None]
            levels = [(w, level, heard) for w, (level, heard) in numbers if level is not None]
            read, off_step = read + len(numbers), off_step + len(numbers) - len(levels)
            place = (at, label.across) if line.along == 0 else (label.across, at)
            where = sheet.on_page(*place)
            if levels:
                word, level, heard = max(levels, key=lambda one: one[0].confidence)
                why = ("low-certainty",) if len(inside) == 1 else ("low-certainty", "two-readings")
                values.append(
                    Threshold(
                        label.ear, label.conduction, label.masked, hz, level, response=heard, standing="ask",
                        probability=0.5, why_ask=why, seen=Seen(None, sheet.on_page(*_middle(word)), hz, level),
                    )
                )  # fmt: skip
            elif inside or _inked(sheet, place, line, pitch):
                remarks.append(
                    remark("missing-expected", ear=label.ear, conduction=label.conduction, frequency_hz=hz, at=where)
                )
    if off_step > (1 - ON_STEP) * read:
        return (), ()
    return tuple(values), tuple(remarks)


def _number(text: str) -> tuple[float | None, bool] | None:
    """Read a cell: its level, None where that is no step of 5 dB, and whether it was heard; None for no number."""
    bare = text.strip().casefold()
    heard = not any(sign in bare for sign in ("+", "↓", "nr"))
    bare = bare.replace("+", "").replace("↓", "").replace("nr", "").strip(" .,:").translate(SLIPS)
    if not re.fullmatch(r"-?\d{1,3}", bare):
        return None
    level = level_value(bare.lstrip("0") or "0")
    return level if level is not None and -10 <= level <= 130 else None, heard


def _inked(sheet: Sheet, place: tuple[float, float], line: _Line, pitch: float) -> bool:
    """Say whether the middle of a cell holds ink."""
    wide, high = (line.step, pitch) if line.along == 0 else (pitch, line.step)
    x, y = place
    part = sheet.pixels[
        max(round(y - 0.3 * high), 0) : round(y + 0.3 * high), max(round(x - 0.35 * wide), 0) : round(x + 0.35 * wide)
    ]
    if not part.size:
        return False
    grey = part.min(axis=2).astype(float)
    return float((grey < 0.6 * np.median(grey)).mean()) > INKED
