"""Read labels of a frequency axis that were seen in part or run into one another, each where it must stand.

On a narrow chart "500", "750", "1000" run into one word that no reader can read. Those that stand clear say where the
others must be and how they are written; each is believed only if the network reads it there. Of "1 000" often the
"000" alone is seen.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
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
LEAST_CHANCE = 0.02
"""What a label may say else, from this chance on."""
SHIFTS = (0.0, -0.15, 0.15)
"""Text heights by which a label is looked for aside."""
PAPER_PX = 12
TAIL = re.compile(r"[0-9a-z-]?[0-9a-z][0o]0")
"""What is left of a label from 1,000 up whose first digit was not seen, as it is read."""
HEADS = (0.75, 1.1, 1.45)
"""Text heights by which such a label may begin farther left."""
GROUPED = tuple(f"{int(hz) // 1000}{mark}{int(hz) % 1000:03d}" for hz in STANDARD_HZ if hz >= 1000 for mark in " ,.")
NARROW = 2.4
"""The head of a label is one figure, or two, and begins no farther before its tail, in text heights."""
NEAR_OTHERS = 12
"""A label has another frequency within so many text heights, in its row."""
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


def with_heads(grey: Pixels, words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Read labels from 1,000 up once more of which the finder saw the last three figures alone.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    words : tuple of Word
        Its words.

    Returns
    -------
    tuple of Word
        The same but those that read as such a label where their box is longer at its left.
    """
    tails = [i for i, w in enumerate(words) if not w.upright and TAIL.fullmatch(w.text) and _has_room(w, words)]
    boxes = [(left, *words[i].box[1:]) for i in tails for left in _lefts(words[i], words)]
    if not boxes:
        return words
    said = np.exp(chances(label_logits(grey, boxes), GROUPED))
    found: list[Word | None] = list(words)
    for number, i in enumerate(tails):
        best = max(range(number * len(HEADS), (number + 1) * len(HEADS)), key=lambda k: said[k].max())
        order = np.argsort(-said[best])
        if said[best].sum() >= BELIEVED:
            rest = tuple((GROUPED[k], float(said[best, k])) for k in order[1:5] if said[best, k] >= LEAST_CHANCE)
            found[i] = replace(
                words[i], text=GROUPED[order[0]], box=boxes[best], confidence=float(said[best, order[0]]), others=rest
            )
            for head in _in_room(words[i], words):
                found[words.index(head)] = None
    return tuple(word for word in found if word is not None)


def _lefts(word: Word, words: tuple[Word, ...]) -> list[float]:
    """Give where a label may begin of which a word is the tail: at the head, where that was seen."""
    lefts = [word.box[0] - share * (word.box[3] - word.box[1]) for share in HEADS]
    head = min((w.box[0] for w in _in_room(word, words)), default=lefts[-1])
    return [*lefts[:-1], head]


def _has_room(word: Word, words: tuple[Word, ...]) -> bool:
    """Say whether a word stands in a row with other numbers, and at most a figure was seen where its head would be."""
    left, _, right, _ = word.box
    height = word.box[3] - word.box[1]
    if any(w.box[2] - w.box[0] > NARROW * height or w.box[0] < left - NARROW * height for w in _in_room(word, words)):
        return False
    row = [w for w in words if w is not word and _in_row(w, word)]
    near = (w for w in row if max(w.box[0] - right, left - w.box[2]) < NEAR_OTHERS * height)
    return any(frequency_values(w.text) or TAIL.fullmatch(w.text) for w in near)


def _in_room(word: Word, words: tuple[Word, ...]) -> list[Word]:
    """Give the words just before one."""
    left, room = word.box[0], HEADS[-1] * (word.box[3] - word.box[1])
    return [w for w in words if w.box[0] < left and w.box[2] > left - room and _in_row(w, word)]


def _in_row(one: Word, other: Word) -> bool:
    return abs(one.box[1] + one.box[3] - other.box[1] - other.box[3]) < other.box[3] - other.box[1]


def _is_label(word: Word, row: LabelRun) -> bool:
    middle = (word.box[0] + word.box[2]) / 2
    level = abs((word.box[1] + word.box[3]) / 2 - row.across) < row.text_height
    # a word may stand in a row by what else it could say, and itself say nothing
    return level and word.text != "" and not word.upright and any(abs(middle - at) < 1e-6 for at in row.at)


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
