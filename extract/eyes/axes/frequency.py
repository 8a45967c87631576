"""Find rows of numbers that stand like the labels of a frequency axis."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import combinations, pairwise

from ...page import Word
from ...sightings import LabelRun
from ..words.numbers import (
    INTER_OCTAVES,
    LEAST_WORTH,
    SEED_CHANCE,
    STANDARD_HZ,
    Number,
    frequency_values,
    lost_point,
    worth,
)
from .against import (
    COLUMN_CHANCE,
    CONTRADICTION,
    LOG_SLACK,
    RARE_HZ,
    STRETCHED_CHANCE,
    crowded,
    doubted,
    odd_series,
    runs_on,
)
from .joined import SIDEWAYS, one_label_each, sideways_labels
from .lean import lean_of
from .otherwise import counts_otherwise

MOST_OFF = 0.2
COLUMN_SLACK = 0.12
"""By how much of a column a label may miss one on an evenly spaced axis."""
MOST_LOST = 3
"""So many labels in a row of an evenly spaced axis may not have been read, where nothing else makes an axis."""
USUAL_COLUMNS_HZ = tuple(hz for hz in STANDARD_HZ if hz not in (187.5, 375.0, 5000.0, 12000.0))
MOST_COLUMNS = 4.5
"""Neighbouring labels of an axis stand no more columns apart."""
RARE = 0.15
"""How likely a form prints one of them, beside another frequency that the label may say."""
POINT = 0.6
"""How likely a decimal point was lost, beside what the label's digits say as they stand."""
ENOUGH = 5
"""So many labels are a frequency axis though the lowest that was read is 1 to 2 kHz."""
LABEL_SLACK = 0.3
"""Text heights by which a label's box may be off: a digit was cut away, or a speck taken in."""
HALF_WAY_SLACK = 0.11
"""The same for inter-octaves, which many forms print half way: 0.085 octave off (references: chart geometry)."""
ROW_HEIGHTS = 2.4
"""Labels of one axis stand within so many text heights of one another: many forms set every other one lower."""


CONTRADICTED = 0.9
"""What an axis with a contradiction is worth less than one without: not quite a label that was read for certain."""
STRAY_CHANCE = 0.8
"""A word in the axis' row that so likely is a label of another place speaks against the axis."""


@lru_cache(maxsize=8)  # several steps ask for those of one sheet
def frequency_runs(words: tuple[Word, ...]) -> tuple[LabelRun, ...]:
    """Find rows of words that read as an audiometric frequency axis, at least three labels each."""
    level = tuple(w for w in words if w.upright == 0)
    upright_runs = _runs_of([(w, (w.box[1] + w.box[3]) / 2) for w in one_label_each(level)])
    runs = [run for run in upright_runs if not counts_otherwise(run, words)]
    for upright in SIDEWAYS:
        labels = sideways_labels(words, upright)
        # labels on their side begin or end at the axis, or have their middles on one line
        lines = [[(w, share * w.box[1] + (1 - share) * w.box[3]) for w in labels] for share in (1, 0, 0.5)]
        ways = [(_runs_of(line), line) for line in lines]
        runs += max(ways, key=lambda way: (sum(len(run.values) for run in way[0]), -_off_line(*way)))[0]
    return tuple(run for run in runs if not crowded(run, words))


def _runs_of(labels: list[tuple[Word, float]]) -> list[LabelRun]:
    """Find the rows in labels that all stand one way, each given with its height on the sheet."""
    numbers = [
        Number(i, hz, (w.box[0] + w.box[2]) / 2, y, _text_height(w), chance, khz)
        for i, (w, y) in enumerate(labels)
        for text, said in w.readings
        for hz, khz, chance in _meant(text, said)
    ]
    runs: list[LabelRun] = []
    used: set[int] = set()
    for row in _rows(numbers):
        rest = row
        while len(rest) >= 3:
            run = max((_log_run(rest), _equal_run(rest)), key=lambda r: _weight(*r) if r else 0)
            if run is None or _counts_evenly(run[1]):
                run = _equal_run(rest, MOST_LOST)
            if run is None or _counts_evenly(run[1]):
                break
            label_run, members = run
            places = {m.place for m in members}
            if len(places & used) < len(places) / 2:
                runs.append(label_run)
                used |= places
            low, high = members[0].x, members[-1].x
            rest = [n for n in rest if n.place not in places and not low <= n.x <= high]
    return runs


def _off_line(runs: list[LabelRun], labels: list[tuple[Word, float]]) -> float:
    """Give how far the labels of rows stand off their lines altogether."""
    places = (((w.box[0] + w.box[2]) / 2, y) for w, y in labels)
    return sum(min((abs(y - run.across) for run in runs if x in run.at), default=0.0) for x, y in places)


def _text_height(word: Word) -> float:
    left, top, right, bottom = word.box
    return right - left if word.upright in SIDEWAYS else bottom - top


def _weight(run: LabelRun, members: list[Number]) -> float:
    """Give what the labels of a run are worth, less what contradicts it."""
    return worth(members) - (CONTRADICTED if run.strays >= CONTRADICTION else 0.0)


def _meant(text: str, chance: float) -> list[tuple[float, bool, float]]:
    """Give the frequencies that a label may mean, each with whether in kHz and its chance; its point may be lost."""
    lost = lost_point(text)
    found = [(hz, khz, chance) for hz, khz in frequency_values(text)]
    return found if lost is None else [*found, (lost, True, POINT * chance)]


def _counts_evenly(members: list[Number]) -> bool:
    """Say whether labels count in even steps, as axes of other things do, or few of them start at 1 kHz or above."""
    low, high = members[0], members[-1]
    if low.value > 2000 or (low.value >= 1000 and len(members) < ENOUGH):
        return True
    off = [
        abs((m.value - low.value) / (high.value - low.value) - (m.x - low.x) / (high.x - low.x)) for m in members[1:-1]
    ]
    return max(off, default=1.0) < 0.04


def _rows(numbers: list[Number]) -> list[list[Number]]:
    """Group numbers whose middles stand at one height, the longest groups first."""
    rows = []
    seen: set[int] = set()  # by identity: a page of ten thousand specks must not compare each with each
    for seed in sorted(numbers, key=lambda n: n.y):
        if id(seed) in seen:
            continue
        row = [n for n in numbers if abs(n.y - seed.y) < ROW_HEIGHTS * max(seed.height, n.height)]
        seen.update(map(id, row))
        rows.append(sorted(row, key=lambda n: n.x))
    return sorted(rows, key=len, reverse=True)


def _log_run(row: list[Number]) -> tuple[LabelRun, list[Number]] | None:
    best: list[Number] = []
    seeds = [n for n in row if n.confidence >= SEED_CHANCE]
    for i, a in enumerate(seeds):
        for b in seeds[i + 1 :]:
            if (
                b.value <= a.value
                or b.x - a.x < 1.2 * a.height
                or (a.in_khz != b.in_khz and a.value < 1000 <= b.value < 1000)
            ):
                continue
            octave = (b.x - a.x) / math.log2(b.value / a.value)
            if octave < 1.5 * a.height or octave > 60 * a.height:
                continue
            members = _log_members(row, a, octave)
            if worth(members) > worth(best):
                best = members
    if len(best) < 3 or worth(best) < LEAST_WORTH:
        return None
    longer = _with_stretched_ends(best, row)
    if len(longer) == len(best):
        return _as_frequency_run(best, "log", row), best
    return doubted(_as_frequency_run(longer, "equal", row), best, longer), longer


def _with_stretched_ends(members: list[Number], row: list[Number]) -> list[Number]:
    """Add labels of the same row that keep its order but not its spacing.

    Forms that space all test frequencies equally look logarithmic where they print octaves alone, and narrower where
    they have no inter-octaves.
    """
    octave = (members[-1].x - members[0].x) / math.log2(members[-1].value / members[0].value)
    level = sum(m.y for m in members) / len(members)
    longer = list(members)
    for n in sorted(row, key=lambda n: -n.confidence):
        if n.confidence < STRETCHED_CHANCE or n.value in RARE_HZ or any(n.value == m.value for m in longer):
            continue
        if abs(n.y - level) > 0.75 * n.height:
            continue
        if any((n.x < m.x) != (n.value < m.value) or abs(n.x - m.x) < 1.2 * n.height for m in longer):
            continue
        if not _in_one_style(n, members):
            continue
        near = min(longer, key=lambda m: abs(math.log2(m.value / n.value)))
        wide = abs(n.x - near.x) / abs(math.log2(near.value / n.value))
        if 0.35 * octave < wide < 2.8 * octave:
            longer.append(n)
    added = [n for n in longer if n not in members]
    if len(added) == 1 and _off_place(added[0], members, octave) < MOST_OFF:
        return members  # its box is off, no more
    return sorted(longer, key=lambda n: n.x)


def _in_one_style(n: Number, members: list[Number]) -> bool:
    """Say whether a label may stand in a row: forms count in Hz, in kHz, or in Hz up to 1 kHz and in kHz from there."""
    return all(n.in_khz == m.in_khz or n.value == 1000 or (n.value < m.value) == m.in_khz for m in members)


def _off_place(n: Number, members: list[Number], octave: float) -> float:
    """Give how far a label stands from its place on the members' logarithmic axis, in octaves."""
    return abs((n.x - members[0].x) / octave - math.log2(n.value / members[0].value))


def _log_members(row: list[Number], a: Number, octave: float) -> list[Number]:
    nearest: dict[float, Number] = {}
    for n in row:
        miss = (n.x - a.x) / octave - math.log2(n.value / a.value)
        slack = max(HALF_WAY_SLACK if n.value in INTER_OCTAVES else LOG_SLACK, LABEL_SLACK * n.height / octave)
        if abs(miss) < slack and (
            n.value not in nearest
            or abs(miss) - 0.05 * n.confidence
            < abs((nearest[n.value].x - a.x) / octave - math.log2(n.value / a.value))
            - 0.05 * nearest[n.value].confidence
        ):
            nearest[n.value] = n
    alone: dict[int, Number] = {}
    for n in nearest.values():  # a word is one label, the likelier
        if n.place not in alone or n.confidence > alone[n.place].confidence:
            alone[n.place] = n
    return sorted(alone.values(), key=lambda n: n.x)


def _equal_run(row: list[Number], lost: int = 0) -> tuple[LabelRun, list[Number]] | None:
    """Labels at equal distances in the order of the standard list, at least five, not also logarithmic.

    Up to ``lost`` columns between two may have lost their labels, no more than there are frequencies between them.
    """
    best: list[Number] = []
    row = sorted(row, key=lambda n: (n.x, -n.confidence * (RARE if n.value in RARE_HZ else 1.0)))
    for i, first in enumerate(row):
        for second in row[i + 1 : i + 6]:
            close = second.x - first.x < 1.2 * first.height
            if close or not first.value < second.value <= 2 * first.value:
                continue
            if min(first.confidence, second.confidence) < SEED_CHANCE:
                continue
            step = second.x - first.x
            members = [first, second]
            for n in row[i + 2 :]:
                if n.value in RARE_HZ and n.confidence < SEED_CHANCE:
                    continue  # a speck that may be any digit
                ahead = (n.x - members[-1].x) / step
                columns = min(max(round(ahead), 1), lost + 1)
                last = members[-1].value
                known = columns == 1 or columns <= sum(last < hz <= n.value for hz in USUAL_COLUMNS_HZ)
                if last < n.value <= last * 2**columns and abs(ahead - columns) < COLUMN_SLACK and known:
                    members.append(n)
            if worth(members) > worth(best):
                best = members
    if len(best) < 5 or worth(best) < LEAST_WORTH:
        return None
    best = _with_columns_between(best, row)
    fits = [_log_members(best, a, (b.x - a.x) / math.log2(b.value / a.value)) for a, b in combinations(best, 2)]
    return doubted(_as_frequency_run(best, "equal", row), max(fits, key=len), best), best


def _with_columns_between(members: list[Number], row: list[Number]) -> list[Number]:
    """Add labels that stand a whole number of columns from those of an evenly spaced axis, in order.

    A form may leave columns without a label between its octaves, and label every column below 500 and above 8000 Hz:
    the columns are then half the common step.
    """
    if len({round(math.log2(b.value / a.value), 2) for a, b in pairwise(members)}) == 1:
        return members  # one step throughout is an octave
    column = (members[-1].x - members[0].x) / (len(members) - 1) / 2
    level = sum(m.y for m in members) / len(members)
    more = list(members)
    middle = (members[0].x + members[-1].x) / 2
    for n in sorted(row, key=lambda n: abs(n.x - middle)):
        if min(abs(n.x - m.x) for m in more) > MOST_COLUMNS * column:
            continue  # another chart's
        columns = (n.x - members[0].x) / column
        off = abs(columns - round(columns)) > COLUMN_SLACK or abs(n.y - level) > 0.75 * n.height
        known = any(n.value == m.value for m in more)
        least = STRETCHED_CHANCE if n.value in RARE_HZ else COLUMN_CHANCE
        if off or known or n.confidence < least or not _in_one_style(n, more):
            continue
        if all((n.x < m.x) == (n.value < m.value) and abs(n.x - m.x) > 0.7 * column for m in more):
            more.append(n)
    return sorted(more, key=lambda n: n.x)


def _as_frequency_run(members: list[Number], scale, row: list[Number]) -> LabelRun:
    places = {m.place for m in members}
    low, high = members[0].x, members[-1].x
    level = sum(m.y for m in members) / len(members)
    certain = [n for n in row if n.confidence > STRAY_CHANCE and abs(n.y - level) < 0.75 * n.height]
    strays = len({n.place for n in certain if low < n.x < high or runs_on(n, members)} - places)
    if scale == "equal" and odd_series(members):
        strays += CONTRADICTION
    height = sorted(m.height for m in members)[len(members) // 2]
    firm = [m for m in members if m.value not in INTER_OCTAVES] if scale == "log" else members
    return LabelRun(
        "frequency",
        "x",
        scale,
        tuple(m.value for m in members),
        tuple(m.x for m in members),
        sum(m.y for m in members) / len(members),
        tuple(m.confidence for m in members),
        height,
        strays,
        lean_of([m.x for m in firm], [m.y for m in firm], height),
    )
