"""Find columns of numbers that stand like the labels of a level axis."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ...page import Word
from ...sightings import LabelRun
from ..words.numbers import LEAST_WORTH, SEED_CHANCE, Number, level_value, worth

LEVEL_SLACK_DB = 1.6
LABELS_OF_AN_AXIS = 6
"""A table's column seldom holds so many numbers, and never in even steps."""


def level_runs(words: tuple[Word, ...]) -> tuple[LabelRun, ...]:
    """Find columns of words that read as a level axis increasing downward, at least three labels each.

    The words of a column may stand on their side, all the same way.
    """
    found = []
    for i, w in enumerate(words):
        if w.upright == 180:
            continue
        height = w.box[3] - w.box[1] if w.upright == 0 else w.box[2] - w.box[0]
        for value, chance in _values(w).items():
            found.append((w, Number(i, value, w.box[2], (w.box[1] + w.box[3]) / 2, height, chance, False)))
    runs: list[LabelRun] = []
    left = found
    while len(left) >= 3:
        best: list[tuple[Word, Number]] = []
        for column in _columns(left):
            members = _level_members(column)
            if _level_worth(members) > _level_worth(best):
                best = members
        if len(best) < 3 or _level_worth(best) < LEAST_WORTH:
            break
        runs.append(_as_level_run(best))
        taken = {id(w) for w, _ in best}
        left = [pair for pair in left if id(pair[0]) not in taken]
    return tuple(runs)


def _values(word: Word) -> dict[float, float]:
    """Give the levels that a word may mean, each with its chance; "- 10" and "-10" are one."""
    found: dict[float, float] = {}
    for text, chance in word.readings:
        value = level_value(text)
        if value is not None:
            found[value] = min(1.0, found.get(value, 0.0) + chance)
    return found


def _columns(found: list[tuple[Word, Number]]) -> list[list[tuple[Word, Number]]]:
    """Group numbers by their right edge, left edge or middle."""
    columns = []
    for edge in (lambda w: w.box[2], lambda w: w.box[0], lambda w: (w.box[0] + w.box[2]) / 2):
        seen: set[int] = set()
        for word, number in sorted(found, key=lambda pair: edge(pair[0])):
            if id(word) in seen:
                continue
            column = [
                pair
                for pair in found
                if abs(edge(pair[0]) - edge(word)) < 0.7 * number.height and pair[0].upright == word.upright
            ]
            seen |= {id(pair[0]) for pair in column}
            if len(column) >= 3:
                columns.append(sorted(column, key=lambda pair: pair[1].y))
    return columns


def _level_members(column: list[tuple[Word, Number]]) -> list[tuple[Word, Number]]:
    best: list[tuple[Word, Number]] = []
    for i, (_, a) in enumerate(column):
        for _, b in column[i + 1 :]:
            if b.value <= a.value or min(a.confidence, b.confidence) < SEED_CHANCE:
                continue
            decibel = (b.y - a.y) / (b.value - a.value)
            if decibel * 20 < 1.1 * a.height or decibel * 10 > 14 * a.height:
                continue
            members = [
                pair
                for pair in column
                if abs(pair[1].y - a.y - decibel * (pair[1].value - a.value)) < LEVEL_SLACK_DB * decibel
            ]
            if _level_worth(members) > _level_worth(best):
                best = members
    values = [n.value for _, n in best]
    return best if all(p < q for p, q in pairwise(values)) else []


def _level_worth(members: list[tuple[Word, Number]]) -> float:
    return worth([n for _, n in members])


def _as_level_run(members: list[tuple[Word, Number]]) -> LabelRun:
    numbers = [n for _, n in members]
    return LabelRun(
        "level",
        "y",
        "linear",
        tuple(n.value for n in numbers),
        tuple(n.y for n in numbers),
        sum((w.box[0] + w.box[2]) / 2 for w, _ in members) / len(members),
        tuple(n.confidence for n in numbers),
        sorted(n.height for n in numbers)[len(numbers) // 2],
        0,
    )


def without_level_axes(words: Sequence[Word]) -> tuple[Word, ...]:
    """Leave out the labels of level axes: columns of so many numbers as even in place as in value are no results.

    Parameters
    ----------
    words : sequence of Word
        The words of a sheet.
    """
    runs = [run for run in level_runs(tuple(words)) if len(run.values) >= LABELS_OF_AN_AXIS]
    places = [(run.across, at, run.text_height) for run in runs for at in run.at]
    return tuple(
        w
        for w in words
        if not any(w.box[0] - slack <= x <= w.box[2] + slack and w.box[1] <= y <= w.box[3] for x, y, slack in places)
    )
