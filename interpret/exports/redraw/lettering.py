"""How wide words are in the standard fonts of PDF, for words that end or are centred at a place."""

from __future__ import annotations

# Widths of Helvetica, and of Helvetica-Bold, in thousandths of the size, of the characters from the space (32) to the
# tilde (126): Adobe's published font metrics for the standard fonts.
_PLAIN = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
)  # fmt: skip
_BOLD = (
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611,
    556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389,
    280, 389, 584,
)  # fmt: skip
_OTHER = 556
"""Accented letters are about as wide as most small letters; only centred words feel the difference."""


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """Give the width of a line of words, points."""
    widths = _BOLD if bold else _PLAIN
    units = (widths[ord(c) - 32] if 32 <= ord(c) < 127 else _OTHER for c in text)
    return sum(units) * size / 1000
