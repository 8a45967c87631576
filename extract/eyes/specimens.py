"""See the specimens of a printed key: marks in the size of its text."""

from __future__ import annotations

from ..page import Pixels, Word
from ..sightings import MarkSight
from .marks.crops import chart_crop
from .marks.drawn.lettered import READ, letter_sight
from .marks.network import marks_in

TEXT_PX = 17.0
"""How high the key's text stands in the crop that its specimens are looked for in."""
LEAST_SCORE = 0.4

Box = tuple[float, float, float, float]


def around(words: list[Word], room: Box) -> Box:
    """Give the box of some words with room to its left, above, to its right and below, in sheet pixels."""
    left, top, right, bottom = zip(*(w.box for w in words), strict=True)
    return min(left) - room[0], min(top) - room[1], max(right) + room[2], max(bottom) + room[3]


def specimens(pixels: Pixels, box: Box, height: float, words: tuple[Word, ...]) -> list[MarkSight]:
    """See the specimens in a part of the sheet.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    box : tuple of float
        Where to look (left, top, right, bottom), sheet pixels; what is beyond the sheet is left out.
    height : float
        How high the key's text is, sheet pixels.
    words : tuple of Word
        The sheet's words: a letter of one is no specimen.

    Returns
    -------
    list of MarkSight
        The clearest glyph of each place.
    """
    left, top, right, bottom = box
    inside = max(0.0, left), max(0.0, top), min(pixels.shape[1] - 1.0, right), min(pixels.shape[0] - 1.0, bottom)
    crop = chart_crop(pixels, inside, scale=TEXT_PX / height)
    marks = [m for m in marks_in(crop, -1) if m.score >= LEAST_SCORE]
    printed = [w for w in words if _is_text(w)]
    marks = [m for m in marks if not any(_inside(m, w) for w in printed)]
    marks += [_as_letter(w) for w in words if w.tight and w.text in READ and _holds(inside, w)]
    return [m for m in marks if not any(o.score > m.score and _at_one_place(o, m, height) for o in marks)]


def _is_text(word: Word) -> bool:
    """Say whether a word is none of marks: the 0 of an axis looks like a circle, and "mm" may be those of both ears."""
    return word.text.isdigit() or (len(word.text) > 1 and not (len({*word.text}) == 1 and word.text[0] in READ))


def _as_letter(word: Word) -> MarkSight:
    """Give the specimen that a letter is which the file names."""
    left, top, right, bottom = word.box
    at, size = ((left + right) / 2, (top + bottom) / 2), (right - left, bottom - top)
    return letter_sight(READ[word.text], at, size, word.ink)


def _holds(box: Box, word: Word) -> bool:
    return box[0] <= word.box[0] and word.box[2] <= box[2] and box[1] <= word.box[1] and word.box[3] <= box[3]


def _at_one_place(one: MarkSight, other: MarkSight, height: float) -> bool:
    return abs(one.at[0] - other.at[0]) + abs(one.at[1] - other.at[1]) < height


def _inside(mark: MarkSight, word: Word) -> bool:
    x, y = mark.at
    return word.box[0] - 1 <= x <= word.box[2] + 1 and word.box[1] - 1 <= y <= word.box[3] + 1
