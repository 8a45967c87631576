"""Make each word one label of a frequency axis: groups of digits joined, two labels seen as one parted."""

from __future__ import annotations

import re

from ...page import Word
from ..words.numbers import STANDARD_HZ


def one_label_each(words: tuple[Word, ...]) -> list[Word]:
    """Join "1" and "000" of a label printed with a space between its groups of digits, and part two seen as one.

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
            if 0 < tail.box[0] - head.box[2] < (1.4 if tail.text == "000" else 0.9) * height:
                box = (head.box[0], min(head.box[1], tail.box[1]), tail.box[2], max(head.box[3], tail.box[3]))
                joined.append(Word(head.text + tail.text, box, min(head.confidence, tail.confidence)))
                parts |= {id(head), id(tail)}
    for word in words:
        if id(word) not in parts:
            joined += _two_labels(word) or [word]
    return joined


def _two_labels(word: Word) -> list[Word]:
    """Part two labels that stand so close that they were seen as one word."""
    for cut in range(3, len(word.text) - 2):
        left, right = word.text[:cut].strip(), word.text[cut:].strip()
        if not (left.isdigit() and right.isdigit() and float(left) in STANDARD_HZ and float(right) in STANDARD_HZ):
            continue
        if float(left) < float(right):
            x0, y0, x1, y1 = word.box
            middle_gap = 0.25 * (y1 - y0)
            digit = (x1 - x0 - middle_gap) / (len(left) + len(right))
            end = x0 + digit * len(left)
            confidence = 0.9 * word.confidence
            return [
                Word(left, (x0, y0, end, y1), confidence), Word(right, (end + middle_gap, y0, x1, y1), confidence)
            ]  # fmt: skip
    return []
