"""Read a key that is a table: an ear over each column and a kind of mark before each row, or the other way round."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from ..page import Pixels, Word
from ..sightings import KeyLine, MarkSight
from . import key_words
from .specimens import around, specimens

RIGHT = re.compile(rf"(?i)^\W*({key_words.RIGHT}|r)\W*$")
LEFT = re.compile(rf"(?i)^\W*({key_words.LEFT}|l)\W*$")
CONDUCTION = re.compile(rf"(?i)\b({key_words.AIR}|{key_words.BONE})\b")
FAR = 6.0
"""The ears of a table stand so many text heights from its nearest kind of mark at most."""
APART = 2.5
"""So many text heights stand columns from one another at least: closer words are those of one line."""
ON_LINE = 0.7
"""What is on one line has its middle within so many text heights."""
MOST_REACH = 4.0
"""A specimen stands within so many text heights of the middle of its column, and nearer to it than to the next."""
SPACE = 2.0
"""Words of one kind stand so many text heights apart at most."""
FEWEST = 3
"""So many specimens make a table, some of each ear."""


@dataclass(frozen=True, slots=True)
class _Cell:
    """Where in a table the specimen of an ear and a kind of mark stands, sheet pixels."""

    ear: str
    kind: str
    at: tuple[float, float]


def key_table(pixels: Pixels, cluster: list[Word], words: tuple[Word, ...]) -> list[KeyLine]:
    """Read the specimens of a table.

    Parameters
    ----------
    pixels : ndarray, shape (height, width, 3), uint8, RGB
        The sheet.
    cluster : list of Word
        Words near one another that keys use of conduction and masking.
    words : tuple of Word
        All words of the sheet.

    Returns
    -------
    list of KeyLine
        Each specimen with the words of its column and of its row; empty where the words are no table.
    """
    height = median(w.box[3] - w.box[1] for w in cluster)
    level = [w for w in words if not w.upright and len(w.text) > 1]
    kinds = _kinds(cluster, level, height)
    ears = [(w, "right") for w in words if RIGHT.match(w.text)], [(w, "left") for w in words if LEFT.match(w.text)]
    for pair in ((right, left) for right in ears[0] for left in ears[1]):
        cells, reach = _cells(pair, kinds, height)
        if not reach:
            continue
        room = FAR * height
        box = around([*cluster, *(word for word, _ in pair)], (room, height, room, room))
        marks = specimens(pixels, box, height, words)
        found = [(cell, mark) for mark in marks if (cell := _cell_of(mark, cells, reach, height))]
        if len(found) >= FEWEST and len({cell.ear for cell, _ in found}) == 2:
            return [KeyLine(m.glyph, m.ink, f"{cell.ear} {cell.kind}", m.score, m.at) for cell, m in found]
    return []


def _kinds(cluster: list[Word], words: list[Word], height: float) -> list[list[Word]]:
    """Give the words of each kind of mark: those of the cluster with what stands close to them on their line."""
    kinds: list[list[Word]] = []
    for word in sorted(cluster, key=lambda w: (w.box[1], w.box[0])):
        if any(word in kind for kind in kinds):
            continue
        kind = [word]
        for one in kind:
            kind += [w for w in words if w not in kind and _next_to(w, one, height)]
        kinds.append(sorted(kind, key=lambda w: w.box[0]))
    return kinds


def _next_to(one: Word, other: Word, height: float) -> bool:
    gap = max(one.box[0] - other.box[2], other.box[0] - one.box[2])
    return gap < SPACE * height and abs(one.middle[1] - other.middle[1]) < ON_LINE * height


def _cells(
    pair: tuple[tuple[Word, str], tuple[Word, str]], kinds: list[list[Word]], height: float
) -> tuple[list[_Cell], float]:
    """Give the cells of the table that two ears and the kinds of marks make, and how far they reach; none if none."""
    (x0, y0), (x1, y1) = (word.middle for word, _ in pair)
    if abs(y0 - y1) < ON_LINE * height and abs(x0 - x1) > APART * height:
        return _under_ears(pair, kinds, height)
    if abs(x0 - x1) < APART * height and abs(y0 - y1) > ON_LINE * height:
        return _beside_ears(pair, kinds, height)
    return [], 0.0


def _under_ears(
    pair: tuple[tuple[Word, str], tuple[Word, str]], kinds: list[list[Word]], height: float
) -> tuple[list[_Cell], float]:
    """Give the cells where each ear stands over its column, or over one of unmasked marks and one of masked ones."""
    level = max(word.middle[1] for word, _ in pair)
    named = [one for one in map(_named, kinds) if one[1][1] > level]  # a word above them may be a remark's
    if not named or min(y for _, (_, y) in named) - level >= FAR * height:
        return [], 0.0
    plain = [one for one in named if not CONDUCTION.search(one[0])]
    heads = [one for one in plain if sum(abs(one[1][1] - o[1][1]) < ON_LINE * height for o in plain) > 1]
    columns = [(ear, "", word.middle[0]) for word, ear in pair]
    if heads:
        columns = [(min(columns, key=lambda c: abs(c[2] - x))[0], text, x) for text, (x, _) in heads]
    rows: list[tuple[str, float]] = []
    said = ""
    for text, (_, y) in (one for one in named if one not in heads):
        said = text if CONDUCTION.search(text) else said
        rows.append((text if text == said else f"{said} {text}", y))
    cells = [_Cell(ear, f"{row} {head}".strip(), (x, y)) for ear, head, x in columns for row, y in rows]
    return cells, _reach([x for _, _, x in columns], height)


def _beside_ears(
    pair: tuple[tuple[Word, str], tuple[Word, str]], kinds: list[list[Word]], height: float
) -> tuple[list[_Cell], float]:
    """Give the cells where each ear stands before its row, and the kinds of marks stand over the columns."""
    heads = [_named(kind) for kind in _stacked(kinds, height)]
    middles = [y for _, (_, y) in heads]
    first, far = min(x for _, (x, _) in heads), min(word.middle[1] for word, _ in pair) - max(middles)
    before = max(word.middle[0] for word, _ in pair) < first
    if not before or max(middles) - min(middles) > height or not 0 < far < FAR * height:
        return [], 0.0
    cells = [_Cell(ear, text, (x, word.middle[1])) for word, ear in pair for text, (x, _) in heads]
    return cells, _reach([x for _, (x, _) in heads], height)


def _reach(across: list[float], height: float) -> float:
    """Say how far from its column's middle a specimen may stand; columns that are hardly apart have none."""
    gap = min((b - a for a, b in pairwise(sorted(across))), default=0.0)
    return min(0.5 * gap, MOST_REACH * height) if gap > APART * height else 0.0


def _named(kind: list[Word]) -> tuple[str, tuple[float, float]]:
    return " ".join(w.text for w in kind), _middle_of(kind)


def _middle_of(kind: list[Word]) -> tuple[float, float]:
    left, top, right, bottom = zip(*(w.box for w in kind), strict=True)
    return (min(left) + max(right)) / 2, (min(top) + max(bottom)) / 2


def _stacked(kinds: list[list[Word]], height: float) -> list[list[Word]]:
    """Give the kinds of marks with those that stand close under others joined to them."""
    stacks: list[list[Word]] = []
    for kind in sorted(kinds, key=lambda one: _middle_of(one)[1]):
        x, y = _middle_of(kind)
        for stack in stacks:
            above, lowest = _middle_of(stack)[0], max(w.middle[1] for w in stack)
            if abs(above - x) < APART * height and ON_LINE * height < y - lowest < 2 * height:
                stack += kind
                break
        else:
            stacks.append(list(kind))
    return stacks


def _cell_of(mark: MarkSight, cells: list[_Cell], reach: float, height: float) -> _Cell | None:
    """Give the cell that a specimen stands in."""
    x, y = mark.at
    near = [c for c in cells if abs(c.at[0] - x) < reach and abs(c.at[1] - y) < ON_LINE * height]
    return min(near, key=lambda c: abs(c.at[0] - x) + abs(c.at[1] - y), default=None)
