"""Rows and columns of rising audiometric frequencies, and words put together into lines and groups."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

from ...eyes.words.numbers import frequency_values
from ...page import Word
from ..cells.numbers import said_by

FEWEST = 4
"""Frequencies that make a table's line."""
LEAST_HZ = 125.0
ALIGNED = 0.6
"""How far words of one line may stand from one another across it, in heights of a word."""
SPREAD = 6.0
"""A step is at most so many times as wide as the least one of its line."""
UNDER = 0.3
"""A number stands under a frequency from whose place it is so far at most, in distances of frequencies."""
NEXT = 1.6
"""A frequency beside a line that is out of its order stands at most so many steps away."""
THREE_DIGITS = 3
"""Frequencies with fewer digits are in kilohertz."""
SPECK_LETTERS, SPECK_CHANCE, LONG_SPECK_CHANCE = 3, 0.35, 0.2
"""So few letters, read with so little chance, may be a speck: of a fax's broken line an "r" was read. And more letters
that are read with less."""


@dataclass(frozen=True, slots=True)
class Line:
    """Frequencies along a row (``along`` 0) or a column (1): their places, where the line stands, and its words."""

    along: int
    hz: tuple[float, ...]
    at: tuple[float, ...]
    across: float
    height: float
    words: tuple[Word, ...]
    doubtful: frozenset[int] = frozenset()
    """Which frequencies, by their number, were read in two ways or once where twice was tried."""
    contradicted: frozenset[int] = frozenset()
    """Those of which a second reading is another frequency."""

    @property
    def edges(self) -> tuple[tuple[float, float], ...]:
        """Where the cells of each frequency begin and end along the line."""
        middles = [(a + b) / 2 for a, b in pairwise(self.at)]
        first, last = self.at[0] - (middles[0] - self.at[0]), self.at[-1] + (self.at[-1] - middles[-1])
        return tuple(pairwise((first, *middles, last)))

    @property
    def step(self) -> float:
        """The median distance of neighbouring frequencies."""
        return median(b - a for a, b in pairwise(self.at))

    @property
    def sides(self) -> tuple[float, float]:
        """Where the line's own words begin and end across it."""
        return min(w.box[1 - self.along] for w in self.words), max(w.box[3 - self.along] for w in self.words)


def height(word: Word) -> float:
    """Give the height of a word's box."""
    return word.box[3] - word.box[1]


def frequency_lines(words: Sequence[Word]) -> list[Line]:
    """Find rows and columns of rising audiometric frequencies, the longest first; none shares a word with another.

    Parameters
    ----------
    words : sequence of Word
        In sheet pixels, upright.

    Returns
    -------
    list of Line
        Each of 4 frequencies or more.
    """
    numbers = [(w, hz) for w in words for hz, _ in frequency_values(w.text)[:1] if hz >= LEAST_HZ]
    found: list[Line] = []
    for along in (0, 1):
        for word, _ in numbers:
            row = [(w, hz) for w, hz in numbers if _in_line(w, word, along) and _of_one_unit(w, word)]
            row.sort(key=lambda one: one[0].middle[along])
            found += [line_of(run, along) for run in _rising(row, along) if len(run) >= FEWEST]
    found.sort(key=lambda line: (-len(line.hz), line.along))
    kept: list[Line] = []
    for line in found:
        if not any(word is other for one in kept for other in one.words for word in line.words):
            kept.append(line)
    kept = [line for line in kept if not any(_row_of(line, other) for other in kept)]
    taken = {id(word) for line in kept for word in line.words}
    loose = [(w, hz) for w, hz in numbers if id(w) not in taken]
    return [_ends_doubted(_with_loose(line, loose) if line.along == 0 else line, loose) for line in kept]


def _with_loose(line: Line, loose: Sequence[tuple[Word, float]]) -> Line:
    """Give a line with the frequencies at its ends that are out of order: in the order of the test, or tested twice."""
    heads = list(zip(line.words, line.hz, strict=True))
    first = line.words[0]
    agreed = [(w, hz) for w, hz in loose if not w.others or _agreed(w)]
    beside = [(w, hz) for w, hz in agreed if _in_line(w, first, 0) and _of_one_unit(w, first)]
    step = line.step
    while True:
        left, right = heads[0][0], heads[-1][0]
        before = [one for one in beside if 0 < left.middle[0] - one[0].middle[0] < NEXT * step]
        after = [one for one in beside if 0 < one[0].middle[0] - right.middle[0] < NEXT * step]
        if not before and not after:
            return _bare_doubted(line_of(heads, line.along), line) if len(heads) > len(line.hz) else line
        heads = [*before[-1:], *heads, *after[:1]]
        beside = [one for one in beside if all(one[0] is not word for word, _ in heads)]


def _bare_doubted(line: Line, before: Line) -> Line:
    """Doubt bare digits that were put at the ends of a line out of order: "5" may be what is left of "0.5"."""
    new = [i for i, w in enumerate(line.words) if not any(w is head for head in before.words)]
    bare = {i for i in new if line.words[i].text.isdigit() and len(line.words[i].text) < THREE_DIGITS}
    return replace(line, contradicted=line.contradicted | bare)


def _ends_doubted(line: Line, loose: Sequence[tuple[Word, float]]) -> Line:
    """Doubt the first or last frequency where one stands beyond it that is out of order: "20000" was read for 10000."""
    beyond = [(w.middle[line.along], hz) for w, hz in loose
              if _in_line(w, line.words[0], line.along) and not any(w is head for head in line.words)]  # fmt: skip
    reach, last = SPREAD * line.step, len(line.hz) - 1
    doubted = {0} if any(line.at[0] - reach < at < line.at[0] and hz > line.hz[0] for at, hz in beyond) else set()
    if any(line.at[-1] < at < line.at[-1] + reach and hz < line.hz[-1] for at, hz in beyond):
        doubted.add(last)
    return replace(line, contradicted=line.contradicted | doubted) if doubted else line


def _row_of(line: Line, other: Line) -> bool:
    """Say whether what may be a row of kHz is one of rising levels: each stands under a frequency of another line."""
    if line.along != other.along or line.across <= other.across or any(hz < 1000 for hz in line.hz):
        return False
    bare = all(w.text.isdigit() and len(w.text) < THREE_DIGITS for w in line.words)
    over = [min(zip(other.at, other.hz, strict=True), key=lambda head, x=x: abs(head[0] - x))[1] for x in line.at]
    if over == list(line.hz):
        return False  # the same frequencies once more: the head of the next table
    return bare and all(min(abs(x - at) for at in other.at) < UNDER * other.step for x in line.at)


def _in_line(word: Word, other: Word, along: int) -> bool:
    low, high = 1 - along, 3 - along
    apart = [abs(word.box[low] - other.box[low]), abs(word.box[high] - other.box[high])]
    apart.append(abs(word.middle[1 - along] - other.middle[1 - along]))
    return min(apart) < ALIGNED * height(other)


def _rising(row: list[tuple[Word, float]], along: int) -> list[list[tuple[Word, float]]]:
    """Split a row where its frequencies fall back or a gap is far wider than its steps."""
    runs: list[list[tuple[Word, float]]] = []
    for one in row:
        last = runs[-1][-1] if runs else None
        if last is not None and one[1] > last[1]:
            steps = [b[0].middle[along] - a[0].middle[along] for a, b in pairwise([*runs[-1], one])]
            if steps[-1] < SPREAD * min(steps):
                runs[-1].append(one)
                continue
        runs.append([one])
    return runs


def _of_one_unit(one: Word, other: Word) -> bool:
    """Say whether two frequencies may be in one unit: not "500" and "1", which is a speck beside it."""
    units = {"k" if "k" in w.text.casefold() else frequency_values(w.text)[0][1] for w in (one, other)}
    return units != {True, False}


def line_of(run: Sequence[tuple[Word, float]], along: int) -> Line:
    """Make a line of words and their frequencies, in the order of their places."""
    words = tuple(word for word, _ in run)
    return Line(
        along, tuple(hz for _, hz in run), tuple(w.middle[along] for w in words),
        median(w.middle[1 - along] for w in words), median(height(w) for w in words), words,
        frozenset(i for i, w in enumerate(words) if w.others and not _agreed(w)),
        frozenset(i for i, w in enumerate(words) if w.others and not _agreed(w) and frequency_values(w.others[0][0])),
    )  # fmt: skip


def _agreed(word: Word) -> bool:
    return frequency_values(word.others[0][0])[:1] == frequency_values(word.text)[:1]


def text_lines(words: Iterable[Word], high: float) -> list[list[Word]]:
    """Put words into printed lines, from the top down, each from left to right; ``high`` is the height of a word."""
    lines: list[list[Word]] = []
    for word in sorted(words, key=lambda w: w.middle[1]):
        if lines and word.middle[1] - median(w.middle[1] for w in lines[-1]) < 0.6 * high:
            lines[-1].append(word)
        else:
            lines.append([word])
    return [sorted(line, key=lambda w: w.box[0]) for line in lines]


def groups(line: Sequence[Word], gap: float) -> list[list[Word]]:
    """Split a printed line at gaps wider than ``gap`` pixels."""
    found: list[list[Word]] = []
    for word in line:
        if found and word.box[0] - max(w.box[2] for w in found[-1]) <= gap:
            found[-1].append(word)
        else:
            found.append([word])
    return found


def speck(word: Word) -> bool:
    """Say whether a word may be a speck or a piece of a line: between rows such a one names no ear."""
    chance = max((chance for text, chance in word.readings if text), default=0.0)
    return chance < (SPECK_CHANCE if len(word.text) <= SPECK_LETTERS else LONG_SPECK_CHANCE)


def numbers_apart(text: Sequence[Word], high: float) -> list[list[Word]]:
    """Put the words of a printed line into groups: one number each, with the signs and letters that stand by it."""
    found: list[list[Word]] = []
    for group in groups(text, high):
        for word in group:
            counted = any(c.isdigit() for c in word.text)
            if word is group[0] or (counted and any(c.isdigit() for w in found[-1] for c in w.text)):
                found.append([word])
            else:
                found[-1].append(word)
    return [part for group in found for part in _cells_of(group)]


def _cells_of(group: list[Word]) -> list[list[Word]]:
    """Part a number from words of the next cell, which say that nothing was measured there: "75" and "not tested"."""
    if said_by(" ".join(w.text for w in group)).kind == "unclear":
        for cut in range(1, len(group)):
            kinds = [said_by(" ".join(w.text for w in part)).kind for part in (group[:cut], group[cut:])]
            if kinds[0] == "level" and kinds[1] in ("untested", "unheard"):
                return [group[:cut], group[cut:]]
    return [group]
