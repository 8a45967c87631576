"""Make each word one label of a frequency axis: groups of digits and units joined, those seen as one parted."""

from __future__ import annotations

import re
from dataclasses import replace

from ...page import Word
from ..words.numbers import STANDARD_HZ

_Box = tuple[float, float, float, float]
UNIT = re.compile(r"k?hz\.?", re.IGNORECASE)
UNIT_GAP = 0.9
TOUCH, THOUSANDS_TOUCH = 0.2, 0.5
"""A unit stands no farther than so many text heights behind its number; boxes of two words may overlap by so many, and
those of a digit and its thousands by so many: they are one label, whatever the boxes say."""

MOST_DIGITS = 5
"""Of a frequency in Hz."""

SIDEWAYS = (90, 270)
"""The clockwise turns at which words that stand on their side read normally."""


def one_label_each(words: tuple[Word, ...]) -> list[Word]:
    """Join "1" and "000" of a label printed with a space, and a number and its "Hz"; part labels seen as one.

    Parameters
    ----------
    words : tuple of Word
        The words of a sheet.

    Returns
    -------
    list of Word
        The same words, each at most one label of a frequency axis.
    """
    parts: set[int] = set()
    joined = []
    for tail in words:
        if not re.fullmatch(r"[0257]00", tail.text):
            continue
        height = tail.box[3] - tail.box[1]
        for head in words:
            if not re.fullmatch(r"\d{1,2}", head.text) or abs(head.box[1] - tail.box[1]) > 0.4 * height:
                continue
            # "500" may be a label of its own, "000" is none
            touch, gap = (THOUSANDS_TOUCH, 1.4) if tail.text == "000" else (TOUCH, 0.9)
            if -touch * height < tail.box[0] - head.box[2] < gap * height:
                box = (head.box[0], min(head.box[1], tail.box[1]), tail.box[2], max(head.box[3], tail.box[3]))
                joined.append(Word(head.text + tail.text, box, min(head.confidence, tail.confidence)))
                parts |= {id(head), id(tail)}
    for word in words:
        if id(word) not in parts:
            joined += _parted(word) or [word]
    return _with_units(joined)


def _with_units(words: list[Word]) -> list[Word]:
    """Join numbers and the unit behind each: a label stands with the middle of both on its line."""
    units = [w for w in words if UNIT.fullmatch(w.text)]
    if not units:
        return words
    owners: dict[int, Word] = {}
    for unit in units:
        height = unit.box[3] - unit.box[1]
        before = [
            w
            for w in words
            if w.text[-1:].isdigit()
            and -TOUCH * height < unit.box[0] - w.box[2] < UNIT_GAP * height
            and abs(w.box[1] + w.box[3] - unit.box[1] - unit.box[3]) < 0.8 * height
        ]
        if before:
            owners[id(max(before, key=lambda w: w.box[2]))] = unit
    joined = {id(unit) for unit in owners.values()}
    return [_with_unit(w, owners[id(w)]) if id(w) in owners else w for w in words if id(w) not in joined]


def _with_unit(word: Word, unit: Word) -> Word:
    box = word.box[0], min(word.box[1], unit.box[1]), unit.box[2], max(word.box[3], unit.box[3])
    others = tuple((f"{text} {unit.text}", chance) for text, chance in word.others)
    return replace(word, text=f"{word.text} {unit.text}", box=box, others=others)


def _parted(word: Word) -> list[Word]:
    """Part labels that stand so close that they were seen as one word; nothing where it is no such word."""
    parts = _ascending(word.text, 0.0)
    if len(parts) < 2:
        return []
    x0, y0, x1, y1 = word.box
    gap = 0.25 * (y1 - y0)
    digit = (x1 - x0 - gap * (len(parts) - 1)) / sum(map(len, parts))
    found, left = [], x0
    for part in parts:
        right = left + digit * len(part)
        found.append(Word(part, (left, y0, right, y1), 0.9 * word.confidence))
        left = right + gap
    return found


def _ascending(digits: str, above: float) -> list[str]:
    """Part a row of digits into standard frequencies, each higher than the one before; nothing where that fails."""
    if not digits.isdigit():
        return []
    for cut in range(3, min(len(digits), MOST_DIGITS) + 1):
        head, rest = digits[:cut], digits[cut:]
        if not above < float(head) or float(head) not in STANDARD_HZ:
            continue
        if not rest:
            return [head]
        if tail := _ascending(rest, float(head)):
            return [head, *tail]
    return []


def sideways_labels(words: tuple[Word, ...], upright: int) -> list[Word]:
    """Give the words that stand on their side one way, each at most one label of a frequency axis.

    Parameters
    ----------
    words : tuple of Word
        The words of a sheet.
    upright : int
        90 or 270: the clockwise turn at which the wanted words read normally.

    Returns
    -------
    list of Word
        In the places where they stand, still on their side.
    """
    level = tuple(replace(w, box=_laid_level(w.box, upright)) for w in words if w.upright == upright)
    return [replace(w, box=_laid_level(w.box, 360 - upright), upright=upright) for w in one_label_each(level)]


def _laid_level(box: _Box, clockwise: int) -> _Box:
    """Turn a box about the sheet's corner."""
    left, top, right, bottom = box
    return (-bottom, left, -top, right) if clockwise == 90 else (top, -right, bottom, -left)
