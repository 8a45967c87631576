"""Keys in columns: a specimen for each ear under its name, and the words of both at the end of their line."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...interpret.symbols import Glyph
from ..page import Word
from ..sightings import MarkSight

EAR = re.compile(
    r"(?i)^\W*(right|left|rechts|links|recht(?:es|er\w*)|link(?:es|er\w*)|droite?|gauche|derech[ao]|izquierd[ao]|"
    r"destr[ao]|sinistr[ao]|direit[ao]|esquerd[ao]|höger|vänster)\W*$"
)
"""Words that name an ear, in the languages of the keys."""
MOST_ABOVE = 3.5
"""A column's head stands so many text heights above its first specimen at most."""
ASIDE = 0.7
"""The middle of a column stands so many text heights beside its head at most."""
WORD_GAP = 1.0
_PAIRS: tuple[tuple[Glyph, Glyph], ...] = (
    ("circle", "cross"), ("circle-filled", "cross-filled"), ("triangle", "square"), ("angle-left", "angle-right"),
    ("bracket-left", "bracket-right"), ("foot-right", "foot-left"), ("letter-u", "letter-u"), ("letter-m", "letter-m"),
)  # fmt: skip


def ear_above(mark: MarkSight, marks: Iterable[MarkSight], words: Iterable[Word], height: float) -> str:
    """Give the word above a specimen's column that names its ear; empty where none or several do.

    Parameters
    ----------
    mark : MarkSight
        The specimen.
    marks : iterable of MarkSight
        All specimens of the key.
    words : iterable of Word
        The sheet's words.
    height : float
        The height of the key's text in sheet pixels.

    Returns
    -------
    str
        The word as printed.
    """
    x = mark.at[0]
    column = [m.at[1] - m.size[1] / 2 for m in marks if abs(m.at[0] - x) < ASIDE * height]
    top = min(column)
    above = [w for w in words if w.upright == 0 and top - MOST_ABOVE * height < w.box[3] < top + 0.3 * height]
    found = [w for w in above if EAR.match(w.text) and _spans(_phrase(w, above), x, ASIDE * height)]
    return found[0].text if len(found) == 1 else ""


def _phrase(word: Word, others: list[Word]) -> tuple[float, float]:
    """Give how far a word and those that stand close beside it on its line reach, left and right."""
    left, right, high = word.box[0], word.box[2], word.box[3] - word.box[1]
    level = sorted((w for w in others if abs(w.box[3] - word.box[3]) < 0.4 * high), key=lambda w: w.box[0])
    for other in level:
        if other.box[0] > right and other.box[0] - right < WORD_GAP * high and not EAR.match(other.text):
            right = other.box[2]
    for other in reversed(level):
        if other.box[2] < left and left - other.box[2] < WORD_GAP * high and not EAR.match(other.text):
            left = other.box[0]
    return left, right


def _spans(reach: tuple[float, float], x: float, aside: float) -> bool:
    return abs((reach[0] + reach[1]) / 2 - x) < aside


def has_twin_before_words(mark: MarkSight, marks: Iterable[MarkSight], begin: float) -> bool:
    """Say whether the other ear's like of a specimen stands on its line, between it and where the words begin."""
    x, y = mark.at
    size = max(mark.size)
    twins = {*_PAIRS, *((b, a) for a, b in _PAIRS)}
    return any(
        (mark.glyph, other.glyph) in twins
        and x + size < other.at[0] < begin
        and abs(other.at[1] - y) < 0.3 * size
        and 0.6 < max(other.size) / size < 1.6
        for other in marks
    )
