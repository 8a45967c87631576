"""Read labels of a frequency axis that touch one another, each alone where it must stand.

On a narrow chart "500", "750", "1000" run into one word that no reader can read. Those that stand clear say where the
others must be and how they are written; each is believed only if the network reads it there.
"""

from __future__ import annotations

import math
from statistics import median

import numpy as np

from ...page import Pixels, Word
from ...sightings import LabelRun
from .numbers import INTER_OCTAVES, STANDARD_HZ, frequency_values
from .reader import chances, label_logits

LONG = 2.8
"""A word of more than one label is so many text heights long at least."""
OFF_ROW = 0.7
"""How far off their row, in text heights, labels that touch may have their middle: smaller ones are among them."""
BELIEVED = 0.5
"""The chance from which the network says what is expected."""
SHIFTS = (0.0, -0.15, 0.15)
"""Text heights by which a label is looked for aside."""
PAPER_PX = 12
OCTAVES = tuple(hz for hz in STANDARD_HZ if hz not in INTER_OCTAVES and hz <= 8000 and math.log2(hz / 125) % 1 == 0)

Box = tuple[float, float, float, float]


def with_touching(grey: Pixels, words: tuple[Word, ...], rows: tuple[LabelRun, ...]) -> tuple[Word, ...]:
    """Put the octaves that stand in words too long to read in the place of those words.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    words : tuple of Word
        Its words.
    rows : tuple of LabelRun
        The rows of frequencies among them.

    Returns
    -------
    tuple of Word
        The same words where no such octave is read.
    """
    for row in rows:
        labels = [w for w in words if _is_label(w, row)]
        long = [w for w in words if w not in labels and _is_long(w, row)]
        if row.scale != "log" or len(row.values) < 3 or len(labels) < 3 or not long:
            continue
        found = [word for hz in OCTAVES if hz not in row.values and (word := _read_at(grey, hz, row, labels, long))]
        gone = [w for w in long if any(w.box[0] < (f.box[0] + f.box[2]) / 2 < w.box[2] for f in found)]
        words = (*(w for w in words if w not in gone), *found)
    return words


def _is_label(word: Word, row: LabelRun) -> bool:
    middle = (word.box[0] + word.box[2]) / 2
    level = abs((word.box[1] + word.box[3]) / 2 - row.across) < row.text_height
    return bool(word.text) and level and not word.upright and any(abs(middle - at) < 1e-6 for at in row.at)


def _is_long(word: Word, row: LabelRun) -> bool:
    level = abs((word.box[1] + word.box[3]) / 2 - row.across) < OFF_ROW * row.text_height
    return level and not word.upright and word.box[2] - word.box[0] > LONG * row.text_height


def _read_at(grey: Pixels, hz: float, row: LabelRun, labels: list[Word], long: list[Word]) -> Word | None:
    """Look for one octave's label where the axis has it."""
    slope, start = np.polyfit(np.log2(row.values), row.at, 1)
    x = float(start + slope * math.log2(hz))
    if not any(w.box[0] - row.text_height < x < w.box[2] + row.text_height for w in long):
        return None
    character = median((w.box[2] - w.box[0]) / len(w.text) for w in labels)
    top, bottom = (median(w.box[side] for w in labels) for side in (1, 3))
    best = Word("", (x, top, x, bottom), 0.0)
    for text in _writings(hz, labels):
        half = character * len(text) / 2
        for shift in (share * row.text_height for share in SHIFTS):
            chance = _chance(grey, (x + shift - half, top, x + shift + half, bottom), text)
            best = max(best, Word(text, (x - half, top, x + half, bottom), chance), key=lambda w: w.confidence)
    return best if best.confidence >= BELIEVED else None


def _writings(hz: float, labels: list[Word]) -> list[str]:
    """Give how a row with such labels may write a frequency."""
    texts = [w.text for w in labels]
    in_khz = all(khz for text in texts for _, khz in frequency_values(text)[:1])
    if in_khz:
        written = f"{hz / 1000:g}"
        return [written.replace(".", ",")] if any("," in text for text in texts) else [written]
    whole = int(hz)
    return [str(whole)] if hz < 1000 else [str(whole), f"{hz / 1000:g}k", f"{whole:,}"]


def _chance(grey: Pixels, box: Box, text: str) -> float:
    """Say how likely a text stands in a box, with what stands beside it taken away."""
    left, top, right, bottom = box
    x0, y0, x1, y1 = round(left), max(round(top) - 1, 0), round(right) + 1, round(bottom) + 2
    part = grey[y0:y1, max(x0, 0) : max(x1, 0)]
    if not part.size:
        return 0.0
    paper = int(np.median(grey[y0:y1]))
    alone = np.pad(part, PAPER_PX, constant_values=paper)
    logits = label_logits(alone, [(PAPER_PX, PAPER_PX + 1.0, part.shape[1] + PAPER_PX - 1.0, PAPER_PX + bottom - top)])
    return float(np.exp(chances(logits, (text,))[0, 0]))
