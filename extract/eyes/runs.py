"""Find runs of numbers that stand like axis labels: audiometric frequencies in a row, levels in a column."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from itertools import pairwise

from ..page import Word
from ..sightings import LabelRun

STANDARD_HZ = (
    125.0, 187.5, 250.0, 375.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 5000.0, 6000.0, 8000.0, 9000.0,
    10000.0, 11200.0, 12000.0, 12500.0, 14000.0, 16000.0, 18000.0, 20000.0,
)  # fmt: skip
"""Frequencies at which pure-tone audiometry is done (ISO 389 series and clinical forms; common practice)."""
PRINTED_ALIKE = {187.0: 187.5, 188.0: 187.5, 11000.0: 11200.0, 11250.0: 11200.0}
INTER_OCTAVES = frozenset({187.5, 375.0, 750.0, 1500.0, 3000.0, 6000.0, 12000.0})
LOG_SLACK = 0.045
"""Octaves by which a label may miss a logarithmic axis (labels are set by hand and eye)."""
HALF_WAY_SLACK = 0.11
"""The same for inter-octaves, which many forms print half way: 0.085 octave off (references: chart geometry)."""
LEVEL_SLACK_DB = 1.6
ROW_HEIGHTS = 2.4
"""Labels of one axis stand within so many text heights of one another: many forms set every other one lower."""


@dataclass(frozen=True, slots=True)
class _Number:
    value: float
    x: float
    y: float
    height: float
    confidence: float
    in_khz: bool


def frequency_values(text: str) -> list[tuple[float, bool]]:
    """Give the frequencies (Hz) that a label may mean, each with whether it was read as kHz.

    >>> frequency_values("0,5")
    [(500.0, True)]
    >>> frequency_values("1 000")
    [(1000.0, False)]
    """
    bare = re.sub(r"\s*(k?)Hz\.?$", r"\1", text.strip().replace("K", "k"))
    kilo = bare.endswith("k")
    bare = bare.rstrip("k").strip()
    if re.fullmatch(r"[1-9]\d?[ .,]\d{3}", bare):
        whole = float(re.sub(r"[ .,]", "", bare))
        grouped = [(whole, False)] if whole >= 1000 else []
        return grouped if not kilo else []
    if not re.fullmatch(r"\d*[.,]?\d+", bare):
        return []
    number = float(bare.replace(",", "."))
    found = []
    for hz, khz in ((number, False), (number * 1000, True)):
        hz = PRINTED_ALIKE.get(hz, hz)
        if (khz or not kilo) and hz in STANDARD_HZ:
            found.append((hz, khz))
    return found


def level_value(text: str) -> float | None:
    """Give the level in dB that a label means; None where it means none (-20 to 140 in steps of 5)."""
    bare = re.sub(r"\s*dB(\s*HL)?$", "", text.strip().replace("\u2212", "-").replace("\u2013", "-"))
    if not re.fullmatch(r"-? ?\d{1,3}", bare):
        return None
    value = float(bare.replace(" ", ""))
    return value if -20 <= value <= 140 and value % 5 == 0 else None


def frequency_runs(words: tuple[Word, ...]) -> tuple[LabelRun, ...]:
    """Find rows of words that read as an audiometric frequency axis, at least three labels each."""
    numbers = [
        _Number(hz, (w.box[0] + w.box[2]) / 2, (w.box[1] + w.box[3]) / 2, w.box[3] - w.box[1], w.confidence, khz)
        for w in _with_groups_joined(words)
        if w.upright == 0
        for hz, khz in frequency_values(w.text)
    ]
    runs: list[LabelRun] = []
    used: set[tuple[float, float]] = set()
    for row in _rows(numbers):
        rest = row
        while len(rest) >= 3:
            run = max((_log_run(rest), _equal_run(rest)), key=lambda r: len(r[1]) if r else 0)
            if run is None:
                break
            label_run, members = run
            if _counts_evenly(members):
                break
            places = {(m.x, m.y) for m in members}
            if len(places & used) < len(places) / 2:
                runs.append(label_run)
                used |= places
            low, high = members[0].x, members[-1].x
            rest = [n for n in rest if (n.x, n.y) not in places and not low <= n.x <= high]
    return tuple(runs)


def _with_groups_joined(words: tuple[Word, ...]) -> list[Word]:
    """Join "1" and "000" of a label printed with a space between its groups of digits."""
    parts: set[int] = set()
    joined = []
    for tail in words:
        if not re.fullmatch(r"[0257]00", tail.text):
            continue
        height = tail.box[3] - tail.box[1]
        for head in words:
            if not re.fullmatch(r"\d{1,2}", head.text) or abs(head.box[1] - tail.box[1]) > 0.4 * height:
                continue
            if 0 < tail.box[0] - head.box[2] < 0.9 * height:
                box = (head.box[0], min(head.box[1], tail.box[1]), tail.box[2], max(head.box[3], tail.box[3]))
                joined.append(Word(head.text + tail.text, box, min(head.confidence, tail.confidence)))
                parts |= {id(head), id(tail)}
    for word in words:
        if id(word) not in parts:
            joined += _two_labels(word) or [word]
    return joined


def _two_labels(word: Word) -> list[Word]:
    """Part two labels that stand so close that they were seen as one word."""
    for cut in range(3, len(word.text) - 2):
        left, right = word.text[:cut].strip(), word.text[cut:].strip()
        if not (left.isdigit() and right.isdigit() and float(left) in STANDARD_HZ and float(right) in STANDARD_HZ):
            continue
        if float(left) < float(right):
            x0, y0, x1, y1 = word.box
            middle_gap = 0.25 * (y1 - y0)
            digit = (x1 - x0 - middle_gap) / (len(left) + len(right))
            end = x0 + digit * len(left)
            confidence = 0.9 * word.confidence
            return [
                Word(left, (x0, y0, end, y1), confidence), Word(right, (end + middle_gap, y0, x1, y1), confidence)
            ]  # fmt: skip
    return []


def _counts_evenly(members: list[_Number]) -> bool:
    """Say whether the labels count in even steps, as axes of other things do, or start at 1 kHz or above."""
    low, high = members[0], members[-1]
    if low.value >= 1000:
        return True
    off = [
        abs((m.value - low.value) / (high.value - low.value) - (m.x - low.x) / (high.x - low.x)) for m in members[1:-1]
    ]
    return max(off, default=1.0) < 0.04


def _rows(numbers: list[_Number]) -> list[list[_Number]]:
    """Group numbers whose middles stand at one height, the longest groups first."""
    rows = []
    for seed in sorted(numbers, key=lambda n: n.y):
        if any(seed in row for row in rows):
            continue
        row = [n for n in numbers if abs(n.y - seed.y) < ROW_HEIGHTS * max(seed.height, n.height)]
        rows.append(sorted(row, key=lambda n: n.x))
    return sorted(rows, key=len, reverse=True)


def _log_run(row: list[_Number]) -> tuple[LabelRun, list[_Number]] | None:
    best: list[_Number] = []
    for i, a in enumerate(row):
        for b in row[i + 1 :]:
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
            if _worth(members) > _worth(best):
                best = members
    if len({m.value for m in best}) < 3:
        return None
    longer = _with_stretched_ends(best, row)
    return _as_frequency_run(longer, "log" if len(longer) == len(best) else "equal", row), longer


def _with_stretched_ends(members: list[_Number], row: list[_Number]) -> list[_Number]:
    """Add labels of the same row that keep its order but not its spacing.

    Forms that space all test frequencies equally look logarithmic where they print octaves alone, and narrower where
    they have no inter-octaves.
    """
    octave = (members[-1].x - members[0].x) / math.log2(members[-1].value / members[0].value)
    level = sum(m.y for m in members) / len(members)
    longer = list(members)
    for n in sorted(row, key=lambda n: -n.confidence):
        if n.confidence < 0.5 or abs(n.y - level) > 0.75 * n.height or any(n.value == m.value for m in longer):
            continue
        if any((n.x < m.x) != (n.value < m.value) or abs(n.x - m.x) < 1.2 * n.height for m in longer):
            continue
        if n.in_khz != members[0].in_khz and n.value != 1000:
            continue
        near = min(longer, key=lambda m: abs(math.log2(m.value / n.value)))
        wide = abs(n.x - near.x) / abs(math.log2(near.value / n.value))
        if 0.35 * octave < wide < 2.8 * octave:
            longer.append(n)
    return sorted(longer, key=lambda n: n.x)


def _log_members(row: list[_Number], a: _Number, octave: float) -> list[_Number]:
    nearest: dict[float, _Number] = {}
    for n in row:
        miss = (n.x - a.x) / octave - math.log2(n.value / a.value)
        slack = HALF_WAY_SLACK if n.value in INTER_OCTAVES else LOG_SLACK
        if abs(miss) < slack and (
            n.value not in nearest
            or abs(miss) < abs((nearest[n.value].x - a.x) / octave - math.log2(n.value / a.value))
        ):
            nearest[n.value] = n
    return sorted(nearest.values(), key=lambda n: n.x)


def _worth(members: list[_Number]) -> float:
    return len(members) + 0.001 * sum(m.confidence for m in members)


def _equal_run(row: list[_Number]) -> tuple[LabelRun, list[_Number]] | None:
    """Labels at equal distances in the order of the standard list, at least five, not also logarithmic."""
    best: list[_Number] = []
    for i, first in enumerate(row):
        for second in row[i + 1 : i + 4]:
            if second.value <= first.value or second.value > 2 * first.value or second.x - first.x < 1.2 * first.height:
                continue
            step = second.x - first.x
            members = [first, second]
            for n in row[i + 2 :]:
                ahead = (n.x - members[-1].x) / step
                if n.value > members[-1].value and abs(ahead - 1) < 0.12 and n.value <= 2 * members[-1].value:
                    members.append(n)
            if len(members) > len(best):
                best = members
    if len(best) < 5:
        return None
    return _as_frequency_run(best, "equal", row), best


def _as_frequency_run(members: list[_Number], scale, row: list[_Number]) -> LabelRun:
    places = {(m.x, m.y) for m in members}
    low, high = members[0].x, members[-1].x
    level = sum(m.y for m in members) / len(members)
    strays = len({(n.x, n.y) for n in row if low < n.x < high and abs(n.y - level) < 0.75 * n.height} - places)
    return LabelRun(
        "frequency",
        "x",
        scale,
        tuple(m.value for m in members),
        tuple(m.x for m in members),
        sum(m.y for m in members) / len(members),
        tuple(m.confidence for m in members),
        sorted(m.height for m in members)[len(members) // 2],
        strays,
    )


def level_runs(words: tuple[Word, ...]) -> tuple[LabelRun, ...]:
    """Find columns of words that read as a level axis increasing downward, at least three labels each."""
    found = []
    for w in words:
        value = level_value(w.text)
        if value is not None and w.upright == 0:
            found.append(
                (w, _Number(value, w.box[2], (w.box[1] + w.box[3]) / 2, w.box[3] - w.box[1], w.confidence, False))
            )
    runs: list[LabelRun] = []
    left = found
    while len(left) >= 3:
        best: list[tuple[Word, _Number]] = []
        for column in _columns(left):
            members = _level_members(column)
            if len(members) > len(best):
                best = members
        if len(best) < 3:
            break
        runs.append(_as_level_run(best))
        taken = {id(w) for w, _ in best}
        left = [pair for pair in left if id(pair[0]) not in taken]
    return tuple(runs)


def _columns(found: list[tuple[Word, _Number]]) -> list[list[tuple[Word, _Number]]]:
    """Group numbers by their right edge, left edge or middle."""
    columns = []
    for edge in (lambda w: w.box[2], lambda w: w.box[0], lambda w: (w.box[0] + w.box[2]) / 2):
        seen: set[int] = set()
        for word, number in sorted(found, key=lambda pair: edge(pair[0])):
            if id(word) in seen:
                continue
            column = [pair for pair in found if abs(edge(pair[0]) - edge(word)) < 0.7 * number.height]
            seen |= {id(pair[0]) for pair in column}
            if len(column) >= 3:
                columns.append(sorted(column, key=lambda pair: pair[1].y))
    return columns


def _level_members(column: list[tuple[Word, _Number]]) -> list[tuple[Word, _Number]]:
    best: list[tuple[Word, _Number]] = []
    for i, (_, a) in enumerate(column):
        for _, b in column[i + 1 :]:
            if b.value <= a.value:
                continue
            decibel = (b.y - a.y) / (b.value - a.value)
            if decibel * 20 < 1.1 * a.height or decibel * 10 > 14 * a.height:
                continue
            members = [
                pair
                for pair in column
                if abs(pair[1].y - a.y - decibel * (pair[1].value - a.value)) < LEVEL_SLACK_DB * decibel
            ]
            if len(members) > len(best):
                best = members
    values = [n.value for _, n in best]
    return best if all(p < q for p, q in pairwise(values)) else []


def _as_level_run(members: list[tuple[Word, _Number]]) -> LabelRun:
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
