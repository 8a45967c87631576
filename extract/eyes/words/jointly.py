"""Read a whole row of frequencies at once where a column of levels stands without one.

On coarse faxes hardly a label can be read alone. Together they can: each hypothesis of an axis says what must stand
where, and the network says of each word how likely that is. What is read so is worth too little to stand without a
question.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ...page import Pixels, Word
from ...sightings import ChartArea, LabelRun
from .evenly import COUNTS, likelier_in_steps
from .reader import chances, label_logits

ALL_HZ = (125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000)
BETWEEN_HZ = frozenset({750, 1500, 3000, 6000})
"""Forms print the octaves, and some of these."""
SERIES = (ALL_HZ, (125, 250, 500, 1000, 1500, 2000, 3000, 4000, 6000, 8000),
          (125, 250, 500, 1000, 2000, 3000, 4000, 6000, 8000))  # fmt: skip
"""What forms with equal columns print."""
STYLES = ("hz", "khz")
NO_LABEL = -12.0
"""The logarithm of its chance below which what a label may say tells nothing."""
AGAINST = -1.5
"""What a word speaks against an axis at the most: it may be hidden."""
LOST, UNMATCHED = -1.0, -0.5
"""What a label that an axis must have and no word shows speaks against it, and a word that is none of its labels."""
LEAST, AHEAD = 8.0, 3.0
"""So likely, as a logarithm, a row must be beside chance, and beside any other reading of it."""
SIBLING = 4.0
"""How much it speaks for a row that a chart with a column like this one's has its row in the same place."""
SLACK = 0.12
"""Columns or octaves by which a label may miss its place."""
WELL_READ_RUN, COLUMN = 2.4, 5
"""What the labels of a column must be worth, and how many they must be, to look for its row; a row that is worth as
much is read."""
AWAY_DB = 35.0
"""A row stands so far above or below the levels read, at most."""
FEWEST, MOST = 4, 30
"""Words in a row."""
LEAST_LABELS = 3
"""So many labels do where a chart alike has its own in the same places."""
SEEN, WORTH = 0.155, (1.8, 2.3)
"""What a label of such a row is worth at the least, and all together: an axis for which its values ask."""


@dataclass(frozen=True, slots=True)
class _Row:
    """A reading of a line of words: which frequency each of them is (by its number), where 1 kHz is, and its worth."""

    labels: dict[int, int]
    at_1k: float
    octave: float
    worth: float
    style: str

    def contradicts(self, other: _Row) -> bool:
        return any(other.labels.get(word, hz) != hz for word, hz in self.labels.items())


def with_joint_rows(
    grey: Pixels,
    words: tuple[Word, ...],
    rows: Sequence[LabelRun],
    columns: Sequence[LabelRun],
    areas: Sequence[ChartArea],
) -> tuple[Word, ...]:
    """Read the row of frequencies of each column of levels that has none.

    Parameters
    ----------
    grey : ndarray, shape (height, width), uint8
        The sheet.
    words : tuple of Word
        Its words.
    rows, columns : sequence of LabelRun
        The rows of frequencies and the columns of levels among them.
    areas : sequence of ChartArea
        The charts that they make with rows that were read.

    Returns
    -------
    tuple of Word
        The same words where no row can be told.
    """
    held = [run for area in areas for run in (area.level, area.frequency, *area.more)]
    known = [row for row in rows if row in held or sum(row.confidences) >= WELL_READ_RUN]
    for column in columns:
        if column in held or len(column.values) < COLUMN or sum(column.confidences) < WELL_READ_RUN:
            continue
        if any(_beside(column, area) for area in areas):
            continue
        free = tuple(w for w in words if not any(_in_row(w, row) for row in known))
        found = [row for line in _lines(free, column, columns) if (row := _read(grey, line, column, areas))]
        if found:
            words = _told(words, max(found, key=lambda pair: pair[1].worth))
    return words


def _beside(column: LabelRun, area: ChartArea) -> bool:
    """Say whether a column stands on a chart that was found."""
    inside = area.box[0] < column.across < area.box[2]
    return inside and area.box[1] < sum(column.at) / len(column.at) < area.box[3]


def _in_row(word: Word, row: LabelRun) -> bool:
    """Say whether a word stands in a row of frequencies that was read, or just beside it."""
    room = 0.5 * _pitch(row) + row.text_height
    return (
        abs(word.middle[1] - row.across) < row.text_height and min(row.at) - room < word.middle[0] < max(row.at) + room
    )


def _pitch(row: LabelRun) -> float:
    return (max(row.at) - min(row.at)) / (len(row.at) - 1)


def _lines(words: tuple[Word, ...], column: LabelRun, columns: Sequence[LabelRun]) -> Iterator[list[Word]]:
    """Give the lines of words above or below a column that may be its row, from left to right up to the next column."""
    decibel = (column.at[-1] - column.at[0]) / (column.values[-1] - column.values[0])
    away, height = AWAY_DB * decibel + 3 * column.text_height, column.text_height
    beside = [c for c in columns if c.at[0] < column.at[-1] and column.at[0] < c.at[-1]]
    end = min((c.across for c in beside if c.across > column.across + 3 * height), default=math.inf)
    some = [
        w for w in words
        if not w.upright
        and w.middle[0] < end
        and 0.5 * height < w.box[3] - w.box[1] < 1.7 * height
        and 0 < w.middle[0] - column.across < 400 * decibel
        and (-away < w.middle[1] - column.at[0] < 5 * decibel or -5 * decibel < w.middle[1] - column.at[-1] < away)
    ]  # fmt: skip
    seen: set[int] = set()
    for first in some:
        if id(first) in seen:
            continue
        line = [w for w in some if abs(w.middle[1] - first.middle[1]) < 0.6 * height]
        if FEWEST <= len(line) <= MOST:
            yield sorted(line, key=lambda w: w.middle[0])
            seen.update(map(id, line))


@lru_cache(maxsize=1)
def _writings() -> tuple[tuple[str, ...], tuple[tuple[str, int], ...]]:
    """Give what labels say, and of each whether it is in Hz or kHz, and its frequency."""
    found: list[tuple[str, str, int]] = []
    for hz in ALL_HZ:
        khz = f"{hz / 1000:g}"
        hertz = {str(hz)} | (
            {f"{hz // 1000}{mark}{hz % 1000:03d}" for mark in " ,."} | {f"{khz}k"} if hz >= 1000 else set()
        )
        found += [(text, "hz", hz) for text in sorted(hertz)]
        found += [(text, "khz", hz) for text in sorted({khz, khz.replace(".", ","), khz.removeprefix("0")})]
    return tuple(text for text, _, _ in found), tuple((style, hz) for _, style, hz in found)


def _read(
    grey: Pixels, line: list[Word], column: LabelRun, areas: Sequence[ChartArea]
) -> tuple[list[Word], _Row] | None:
    """Find the one reading of a line of words that is far likelier than any other."""
    texts, meant = _writings()
    logits = label_logits(grey, [w.box for w in line])
    said = chances(logits, texts)
    x = np.array([w.middle[0] for w in line])
    rows: list[_Row] = []
    for style in STYLES:
        rows += _hypotheses(x, _gains(said, meant, style), style, column)
    like = [_likeness(row, column, areas) for row in rows]
    rows = [
        replace(row, worth=row.worth + more) for row, more in zip(rows, like, strict=True)
        if more or len(row.labels) >= FEWEST
    ]  # fmt: skip
    rows.sort(key=lambda row: -row.worth)
    if not rows or rows[0].worth < LEAST:
        return None
    rival = next((row.worth for row in rows[1:] if row.contradicts(rows[0])), -math.inf)
    if rows[0].worth - rival < AHEAD or likelier_in_steps(x, chances(logits, COUNTS), _chances(rows[0], said, meant)):
        return None
    return line, rows[0]


def _chances(row: _Row, said: npt.NDArray[np.float64], meant: Sequence[tuple[str, int]]) -> dict[int, float]:
    """Give how probable, as logarithms, what a reading makes of each of its words is."""
    ways = {hz: [k for k, m in enumerate(meant) if m == (row.style, hz)] for hz in row.labels.values()}
    return {word: float(said[word, ways[hz]].max()) for word, hz in row.labels.items()}


def _gains(said: npt.NDArray[np.float64], meant: Sequence[tuple[str, int]], style: str) -> npt.NDArray[np.float64]:
    """Say how much likelier each frequency is for each word than any of them is by chance, as logarithms."""
    mine = [[k for k, m in enumerate(meant) if m == (style, hz)] for hz in ALL_HZ]
    each = np.array([np.logaddexp.reduce(said[:, k], axis=1) for k in mine]).T
    share = each - np.logaddexp(np.logaddexp.reduce(each, axis=1), NO_LABEL)[:, None]
    return np.maximum(share + math.log(len(ALL_HZ)), AGAINST)


def _hypotheses(x: npt.NDArray[np.float64], gain: npt.NDArray[np.float64], style: str, column: LabelRun) -> list[_Row]:
    """Try every axis through two words that may be labels."""
    rows = []
    decibel = (column.at[-1] - column.at[0]) / (column.values[-1] - column.values[0])
    for series in (None, *SERIES):
        known = ALL_HZ if series is None else series
        place = {hz: math.log2(hz / 1000) if series is None else known.index(hz) for hz in known}
        likely = [(i, n) for i in range(len(x)) for n, hz in enumerate(ALL_HZ) if hz in place and gain[i, n] > 1]
        for i, a in likely:
            for j, b in likely:
                if j <= i or b <= a:
                    continue
                step = (x[j] - x[i]) / (place[ALL_HZ[b]] - place[ALL_HZ[a]])
                octave = step * (1 if series is None else (len(known) - 1) / 6)
                if not 0.22 < 20 * decibel / octave < 4.2 or step < 1.5 * column.text_height:
                    continue
                start = x[i] - step * place[ALL_HZ[a]]
                labels, worth = _fit(
                    x, gain, {hz: start + step * at for hz, at in place.items()}, step, equal=series is not None
                )
                if len(labels) >= LEAST_LABELS:
                    worth -= 0.7 * abs(math.log2(20 * decibel / octave))
                    rows.append(_Row(labels, start + step * place[1000], octave, worth, style))
    return rows


def _fit(
    x: npt.NDArray[np.float64], gain: npt.NDArray[np.float64], places: dict[int, float], step: float, *, equal: bool
) -> tuple[dict[int, int], float]:
    """Say which word is which label of an axis, and how much they speak for it."""
    labels: dict[int, int] = {}
    gains: dict[int, float] = {}
    for hz, at in places.items():
        near = int(np.abs(x - at).argmin())
        if abs(x[near] - at) < SLACK * step and near not in labels:
            labels[near] = hz
            gains[hz] = float(gain[near, ALL_HZ.index(hz)])
    if not gains:
        return {}, -math.inf
    sure = [hz for hz, worth in gains.items() if worth > 0]
    if not sure:
        return {}, -math.inf
    low, high = min(sure), max(sure)
    labels = {word: hz for word, hz in labels.items() if low <= hz <= high}
    lost = [hz for hz in places if low <= hz <= high and hz not in labels.values() and (equal or hz not in BETWEEN_HZ)]
    between = sum(places[low] < at < places[high] for at in x) - len(labels)
    worth = sum(gains[hz] for hz in labels.values()) + LOST * len(lost) + UNMATCHED * max(between, 0)
    return labels, worth


def _likeness(row: _Row, column: LabelRun, areas: Sequence[ChartArea]) -> float:
    """Say how much it speaks for a row that it stands to its column as that of a chart alike."""
    for area in areas:
        other = area.level
        alike = len(set(column.values) & set(other.values)) >= COLUMN - 1
        decibels = [(c.at[-1] - c.at[0]) / (c.values[-1] - c.values[0]) for c in (column, other)]
        if not alike or not math.isclose(*decibels, rel_tol=0.03):
            continue
        octaves, at = np.log2(np.array(area.frequency.values) / 1000), np.array(area.frequency.at)
        octave = (at[-1] - at[0]) / (octaves[-1] - octaves[0])
        away = row.at_1k - column.across - (float(np.interp(0.0, octaves, at)) - other.across)
        if abs(away) < 0.15 * octave and math.isclose(row.octave, octave, rel_tol=0.08):
            return SIBLING
    return 0.0


def _told(words: tuple[Word, ...], found: tuple[list[Word], _Row]) -> tuple[Word, ...]:
    """Put the labels of a row in the place of its words."""
    line, row = found
    texts = {i: str(hz) if row.style == "hz" else f"{hz / 1000:g}" for i, hz in row.labels.items()}
    chance = _held_between({i: _chance(line[i], text) for i, text in texts.items()})
    labels = {id(line[i]): replace(line[i], text=text, confidence=chance[i], others=()) for i, text in texts.items()}
    return tuple(labels.get(id(w), w) for w in words)


def _held_between(chance: dict[int, float]) -> dict[int, float]:
    """Raise the labels' chances to what makes an axis, and lower them to one for which its values ask."""
    chance = {i: max(p, SEEN) for i, p in chance.items()}
    total, least = sum(chance.values()), SEEN * len(chance)
    if total < WORTH[0]:
        return {i: p + (WORTH[0] - total) / len(chance) for i, p in chance.items()}
    share = min((WORTH[1] - least) / max(total - least, 1e-9), 1.0)
    return {i: SEEN + (p - SEEN) * share for i, p in chance.items()}


def _chance(word: Word, text: str) -> float:
    return next((chance for said, chance in word.readings if said == text), 0.0)
