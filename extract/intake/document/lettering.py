"""Letters to words: by the order in which they are drawn, their size, their baseline and the gaps between them."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...page import SIGNS, UNMAPPED, Pixels, Word
from .contents import Letter

Floats = npt.NDArray[np.float64]

_GAP = 0.2
"""Widest gap within a word, in letter heights: a space is about 0.25, tracking up to 0.1."""

_STOPS, _GAP_AT_STOP = frozenset(",;:"), 0.12
"""The same behind a stop, where condensed faces have spaces of 0.19: "List 2, 25 words" holds no 2,25."""

_BASELINE = 0.25
"""Largest step of the baseline within a word, in letter heights."""

_SIZE = 1.25
"""Largest ratio of letter heights within a word."""

_TOGETHER = 0.005
"""Signs of one text come as near to the place where the one before ends, in letter heights; marks beside each other
stand anyhow."""

_CAPITAL = 0.72
"""Height of capitals and digits over the size of the font; of common fonts 0.66 to 0.74."""

_DESCENT = 0.21
"""How far descending letters reach below the baseline, over the size of the font."""

_DESCENDING = frozenset("gjpqyQ,;()[]{}|/_@$ç")


@dataclass(frozen=True, slots=True)
class _Lines:
    """Letters or words in reading frames: along the line, across it (down), size, the turn of the frame, and the ink.

    ``ink`` has shape (n, 3), below 0 where it is not known.
    """

    start: Floats
    end: Floats
    across: Floats
    size: Floats
    turn: npt.NDArray[np.int64]
    ink: npt.NDArray[np.int64]

    def take(self, order: npt.NDArray[np.int64]) -> _Lines:
        return _Lines(
            self.start[order], self.end[order], self.across[order], self.size[order], self.turn[order], self.ink[order]
        )  # fmt: skip

    def breaks(self) -> npt.NDArray[np.bool_]:
        """Tell, of each entry but the first, whether it does not go on from the one before."""
        size = np.minimum(self.size[1:], self.size[:-1])
        gap = self.start[1:] - self.end[:-1]
        return (
            (self.turn[1:] != self.turn[:-1])
            | (np.maximum(self.size[1:], self.size[:-1]) > _SIZE * size)
            | (np.abs(np.diff(self.across)) > _BASELINE * size)
            | (gap > _GAP * size)
            | (gap < -_GAP * size)
        )


def words_of(letters: list[Letter], to_pixels: Floats) -> tuple[Word, ...]:
    """Group the letters of a page into words.

    Parameters
    ----------
    letters : list of Letter
        In drawing order.
    to_pixels : ndarray
        The affine map from raw points to page pixels, shape (2, 3).

    Returns
    -------
    tuple of Word
        Boxes in page pixels, from the baseline (or the descent, where a letter descends) to the height of capitals.
        ``upright`` is the clockwise turn to apply to the page for the word to read normally: 90 for text that runs
        upward. Words drawn twice at one place are given once.
    """
    if not letters:
        return ()
    lines = _in_reading_frames(letters, to_pixels)
    return _joined(*_gathered([letter.text for letter in letters], lines))


def visible(words: tuple[Word, ...], pixels: Pixels) -> tuple[Word, ...]:
    """Keep the words that the rendered page shows: not those of a hidden layer, clipped, covered or without ink."""
    height, width = pixels.shape[:2]
    kept = []
    for word in words:
        left, top, right, bottom = word.box
        columns = slice(max(0, int(left)), min(width, int(right) + 2))
        rows = slice(max(0, int(top)), min(height, int(bottom) + 2))
        crop = pixels[rows, columns]
        if crop.size and (crop != crop[0, 0]).any():
            kept.append(word)
    return tuple(kept)


def unmapped_share(words: tuple[Word, ...]) -> float:
    """Give the share of letters whose fonts do not say which letters they are."""
    letters = "".join(word.text for word in words)
    odd = sum(c == UNMAPPED or "\ue000" <= c <= "\uf8ff" or ord(c) < 32 for c in letters)
    return odd / max(1, len(letters))


def _in_reading_frames(letters: list[Letter], to_pixels: Floats) -> _Lines:
    matrix = np.array([letter.matrix for letter in letters], dtype=np.float64)
    size, advance, rise = np.array([(letter.size, letter.advance, letter.rise) for letter in letters]).T
    linear = to_pixels[:, :2]
    along, up = matrix[:, 0:2] @ linear.T, matrix[:, 2:4] @ linear.T
    origin = matrix[:, 4:6] @ linear.T + to_pixels[:, 2] + up * rise[:, None]
    angle = np.degrees(np.arctan2(along[:, 1], along[:, 0]))
    turn = (-np.round(angle / 90).astype(np.int64) * 90) % 360
    cosine, sine = np.cos(np.radians(turn)).round(), np.sin(np.radians(turn)).round()
    start = origin[:, 0] * cosine - origin[:, 1] * sine
    across = origin[:, 0] * sine + origin[:, 1] * cosine
    ink = np.array([letter.ink or (-1, -1, -1) for letter in letters], dtype=np.int64)
    return _Lines(start, start + np.hypot(*along.T) * advance, across, np.hypot(*up.T) * np.abs(size), turn, ink)


def _gathered(texts: list[str], lines: _Lines) -> tuple[list[str], _Lines]:
    """Put together what goes on from one entry to the next; a blank stands alone, and so do marks that are letters."""
    blank = np.array([not text.strip() for text in texts])
    stop = np.array([text[-1:] in _STOPS for text in texts])
    gap = lines.start[1:] - lines.end[:-1]
    parted = np.concatenate(([True], lines.breaks() | (stop[:-1] & (gap > _GAP_AT_STOP * lines.size[1:]))))
    parted[1:] |= blank[1:] | blank[:-1]
    signs = _all_in_word(np.array([SIGNS.issuperset(text) for text in texts]), parted)
    beside = np.array([_sign_by_digit(a[-1:], b[:1]) for a, b in itertools.pairwise(texts)], np.bool_)
    parted[1:] |= (signs[1:] | beside) & (np.abs(gap) > _TOGETHER * lines.size[1:])
    first = np.flatnonzero(parted)
    last = np.append(first[1:], len(texts))
    joined = ["".join(texts[a:b]) for a, b in zip(first, last, strict=True)]
    ends = np.maximum.reduceat(lines.end, first)
    return joined, _Lines(
        lines.start[first], ends, lines.across[first], lines.size[first], lines.turn[first], lines.ink[first]
    )  # fmt: skip


def _sign_by_digit(one: str, other: str) -> bool:
    """Say whether of two characters one is a sign and the other a digit: a mark beside an axis's label."""
    return any(a in SIGNS and not a.isalpha() and b.isdigit() for a, b in ((one, other), (other, one)))


def _all_in_word(holds: npt.NDArray[np.bool_], parted: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Say of each entry whether ``holds`` of all entries of its word; a word begins where it is ``parted``."""
    of_word = np.logical_and.reduceat(holds, np.flatnonzero(parted))
    return of_word[np.cumsum(parted) - 1]


def _joined(texts: list[str], words: _Lines) -> tuple[Word, ...]:
    """Join words that were drawn in pieces, drop those drawn twice, and give the rest their boxes.

    Blanks are among the pieces, as a narrow one may be all that keeps two words apart.
    """
    # Rows of half a letter's height bring pieces of one line side by side.
    row = np.round(words.across / np.maximum(1.0, 0.5 * words.size))
    order = np.lexsort((words.start, row, words.size.round(), words.turn))
    texts, words = [texts[i] for i in order], words.take(order)
    same = np.array([False, *(a == b for a, b in itertools.pairwise(texts))])
    another_ink = np.concatenate(([False], (np.diff(words.ink, axis=0) != 0).any(axis=1)))
    same &= ~(another_ink & np.array([text in SIGNS for text in texts]))  # marks of both ears at one place
    near = np.abs(np.diff(words.start, prepend=np.inf)) < 0.15 * words.size
    level = np.abs(np.diff(words.across, prepend=np.inf)) < 0.15 * words.size
    once = np.flatnonzero(~(same & near & level))
    texts, words = [texts[i] for i in once], words.take(once)
    texts, words = _gathered(texts, words)
    return tuple(_word(text.strip(), words, i) for i, text in enumerate(texts) if text.strip())


def _word(text: str, words: _Lines, i: int) -> Word:
    size, across, turn = float(words.size[i]), float(words.across[i]), int(words.turn[i])
    below = across + (_DESCENT * size if not _DESCENDING.isdisjoint(text) else 0.0)
    u0, u1, v0, v1 = float(words.start[i]), float(words.end[i]), across - _CAPITAL * size, below
    box = {0: (u0, v0, u1, v1), 90: (v0, -u1, v1, -u0), 180: (-u1, -v1, -u0, -v0), 270: (-v1, u0, -v0, u1)}[turn]
    red, green, blue = words.ink[i].tolist()
    return Word(text, box, 1.0, turn, ink=(red, green, blue) if min(red, green, blue) >= 0 else None)
