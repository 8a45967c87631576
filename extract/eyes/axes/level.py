"""Find columns of numbers that stand like the labels of a level axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from ...page import Word
from ...sightings import LabelRun
from ..words.numbers import LEAST_WORTH, SEED_CHANCE, Number, frequency_values, level_value, worth
from .against import crowded
from .lean import lean_of

LEVEL_SLACK_DB = 1.6
LABELS_OF_AN_AXIS = 6
"""A table's column seldom holds so many numbers in even steps: where it does, frequencies stand beside them."""
IN_TABLE, ON_LINE, LEAST_HZ = 0.6, 0.5, 125.0
"""A column of which so many numbers stand on the line of a frequency is a table's; how near that is, in heights."""
IN_LINE = 1.5
"""So near to the middle of a column, in text heights, labels stand that go on from its end without hundreds."""

PAIRS_AT_ONCE = 4096
"""Pairs of a column's numbers that are tried at a time: a page of a thousand numbers must not fill the memory."""


@lru_cache(maxsize=8)
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
    runs = [_with_hundreds(run, runs) for run in runs]
    return tuple(run for run in runs if not crowded(run, words))


def _with_hundreds(run: LabelRun, runs: list[LabelRun]) -> LabelRun:
    """Give a column with the hundreds that its labels lost, where it goes on from the end of a longer one.

    On a poor copy the first digits of 100, 110 and 120 go, all alike: below 90 stand 00, 10 and 20.
    """
    for other in runs:
        slack, decibel = LEVEL_SLACK_DB, (other.at[-1] - other.at[0]) / (other.values[-1] - other.values[0])
        above = len(other.at) > len(run.at) and other.at[-1] < run.at[0]
        if not above or abs(other.across - run.across) > IN_LINE * other.text_height:
            continue
        expected = [other.values[-1] + (at - other.at[-1]) / decibel for at in run.at]
        if all(abs(there - value - 100) < slack for there, value in zip(expected, run.values, strict=True)):
            return replace(run, values=tuple(value + 100 for value in run.values))
    return run


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
    """Give the numbers of a column that fit one axis: the likeliest such set of all that two of them can lay down."""
    values = np.array([n.value for _, n in column])
    y = np.array([n.y for _, n in column])
    heights = np.array([n.height for _, n in column])
    chances = np.array([n.confidence for _, n in column])
    first, second = np.triu_indices(len(column), 1)
    rises = (values[second] > values[first]) & (np.minimum(chances[first], chances[second]) >= SEED_CHANCE)
    first, second = first[rises], second[rises]
    decibel = (y[second] - y[first]) / (values[second] - values[first])
    spaced = (decibel * 20 >= 1.1 * heights[first]) & (decibel * 10 <= 14 * heights[first])
    first, decibel = first[spaced], decibel[spaced]
    best, most = np.zeros(len(column), bool), 0.0
    for at in range(0, len(first), PAIRS_AT_ONCE):
        start, step = first[at : at + PAIRS_AT_ONCE], decibel[at : at + PAIRS_AT_ONCE, None]
        off = np.abs(y - y[start][:, None] - step * (values - values[start][:, None]))
        fits = off < LEVEL_SLACK_DB * step
        worths = np.round(fits @ chances, 9)
        if worths.max() > most:
            best, most = fits[worths.argmax()], worths.max()
    members = [pair for pair, fits in zip(column, best, strict=True) if fits]
    return members if all(p.value < q.value for (_, p), (_, q) in pairwise(members)) else []


def _level_worth(members: list[tuple[Word, Number]]) -> float:
    return worth([n for _, n in members])


def _as_level_run(members: list[tuple[Word, Number]]) -> LabelRun:
    numbers = [n for _, n in members]
    height = sorted(n.height for n in numbers)[len(numbers) // 2]
    return LabelRun(
        "level",
        "y",
        "linear",
        tuple(n.value for n in numbers),
        tuple(n.y for n in numbers),
        sum((w.box[0] + w.box[2]) / 2 for w, _ in members) / len(members),
        tuple(n.confidence for n in numbers),
        height,
        0,
        _lean([w for w, _ in members], [n.y for n in numbers], height),
    )


def _lean(words: list[Word], y: list[float], height: float) -> float:
    """Give the lean of the edge or middle on which the labels of a column are set: where they stray the least."""
    edges = ([w.box[2] for w in words], [w.box[0] for w in words], [(w.box[0] + w.box[2]) / 2 for w in words])
    return lean_of(y, min(edges, key=lambda edge: _strays(y, edge)), height)


def _strays(y: list[float], x: list[float]) -> float:
    line = np.polyfit(y, x, 1)
    return float(np.abs(np.array(x) - np.polyval(line, y)).mean())


def without_level_axes(words: Sequence[Word]) -> tuple[Word, ...]:
    """Leave out the labels of level axes: columns of so many numbers as even in place as in value are no results.

    They may be where a frequency stands beside each of them: thresholds of a sloping loss, in a column of a table.

    Parameters
    ----------
    words : sequence of Word
        The words of a sheet.
    """
    heads = [(w.box[1] + w.box[3]) / 2 for w in words if not w.upright and _is_frequency(w.text)]
    runs = [
        run
        for run in level_runs(tuple(words))
        if len(run.values) >= LABELS_OF_AN_AXIS
        and sum(any(abs(at - y) < ON_LINE * run.text_height for y in heads) for at in run.at) < IN_TABLE * len(run.at)
    ]
    places = [(run.across, at, run.text_height) for run in runs for at in run.at]
    return tuple(
        w
        for w in words
        if not any(w.box[0] - slack <= x <= w.box[2] + slack and w.box[1] <= y <= w.box[3] for x, y, slack in places)
    )


def _is_frequency(text: str) -> bool:
    """Say whether a word is a frequency that is no level too: one in Hz, or a part of a kHz."""
    return any(hz >= LEAST_HZ and not (khz and text.strip().isdigit()) for hz, khz in frequency_values(text))
