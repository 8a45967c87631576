"""Rows of numbers that are no frequencies, though some read as such: axes of times, distances, doses and so on."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from itertools import pairwise

from ...page import Word
from ...sightings import LabelRun
from ..words.numbers import frequency_values, level_value

WELL_READ = 0.85
"""Words speak against an axis from this confidence on."""
ON_LINE, LIKE_SIZE = 0.5, 1.35
"""A number of a row stands so near to its line, in heights of its labels, and is so high as they within a factor."""
COLUMNS_BEFORE, OFF_COLUMN = 3.3, 0.15
"""A nought stands so many columns before the first label that was read at most, and a whole number of them."""
ALIGNED, COLUMN_HIGH = 0.6, 12.0
"""A number with levels above or below it is one of them: so near, in heights."""
CAPTION_LINES, CAPTION_GAP, CENTRED, MOST_WORDS = 4.5, 1.6, 0.15, 4
"""An axis' name stands so many heights off its labels at most, its words so near to each other, in heights, its middle
so near to the labels' middle, in shares of their span; and has no more words."""
FREQUENCY = re.compile(r"k?hz|hertz|fr[eé][ckq]|tonh", re.IGNORECASE)
OTHER_UNIT = re.compile(
    r"(?:[kcmµu]m|ms|sec|min|[mµuk]g|ml|%|°c|[hkd]?a?pa|mb|ppm|eur|usd|€|[1l]/min|[mlg]/s|[mg]/l|m[gl]/[ld]|km/h)"
)
"""Units in brackets behind the name of another quantity; no letter is among them that is a mark's name."""
OTHER_NAME = frozenset((
    "time", "distance", "depth", "dose", "week", "weeks", "month", "months", "year", "years", "age", "hour", "hours",
    "day", "days", "minutes", "seconds", "volume", "weight", "speed", "price", "temperature", "concentration", "length",
    "zeit", "abstand", "entfernung", "dosis", "woche", "wochen", "monat", "monate", "jahr", "jahre", "alter", "stunden",
    "tage", "minuten", "sekunden", "volumen", "gewicht", "preis", "temperatur", "temps", "jours", "semaines", "mois",
    "années", "âge", "heures", "tiempo", "distancia", "semanas", "meses", "años", "edad", "horas", "días",
))  # fmt: skip
"""Names of what other axes count, where one begins the name of an axis."""
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
MOST_GAP = 1.3
"""A row goes on with numbers so far apart as the labels that were read, within such a factor."""
ITS_PLACE = 0.06
"""A number stands so near, in octaves, to where a logarithmic axis has it."""
ON_LABEL, WORD_GAP, FEWEST_SPOKEN = 1.0, 0.9, 2
"""A word is a label, and words stand right beside each other, so near, in heights; from so many such a row is text."""
FEWEST_EVEN, EVEN_SLACK = 5, 0.1
"""So many numbers that count in even steps, each so near to its place, in steps, are an axis that does."""


def counts_otherwise(run: LabelRun, words: Sequence[Word]) -> bool:
    """Say whether a row counts something else than frequencies, by what stands among its labels or names their axis.

    Parameters
    ----------
    run : LabelRun
        The row, of labels that stand upright.
    words : sequence of Word
        The words of the sheet.
    """
    level = [w for w in words if w.upright == 0]
    line = [w for w in level if _on_line(w, run)]
    line = [w for w in line if not any(_in_column(w, other) for other in level)]
    if any(_is_nought(w, run) for w in line) or _in_sentence(run, line):
        return True
    first, last = _span(run, line)
    line = [w for w in line if first <= w.middle[0] <= last]
    captions = _captions(run, (first, last), level)
    if any(FREQUENCY.search(text) for text in captions):
        return False
    return (
        any(_names_other(text) for text in captions)
        or any(_is_foreign(w, run) for w in line)
        or _worth_in_steps(run, line) > sum(run.confidences)
    )


def _on_line(word: Word, run: LabelRun) -> bool:
    x, y = word.middle
    high = word.box[3] - word.box[1]
    line = run.across + run.lean * (x - sum(run.at) / len(run.at))
    like = 1 / LIKE_SIZE < high / run.text_height < LIKE_SIZE
    return like and abs(y - line) < ON_LINE * run.text_height


def _is_nought(word: Word, run: LabelRun) -> bool:
    """Say whether a word is the nought of an evenly spaced row, before its first label that was read.

    No audiogram has one there.
    """
    if word.text.strip() != "0" or word.confidence < WELL_READ:
        return False
    columns = (run.at[0] - word.middle[0]) / min(b - a for a, b in pairwise(run.at))
    return 0.8 < columns < COLUMNS_BEFORE and abs(columns - round(columns)) < OFF_COLUMN


def _in_column(word: Word, other: Word) -> bool:
    """Say whether another word is a level above or below a number, in one column with it beside the row."""
    high = word.box[3] - word.box[1]
    apart = abs(other.middle[1] - word.middle[1])
    if not high < apart < COLUMN_HIGH * high or level_value(other.text) is None or level_value(word.text) is None:
        return False
    edges = zip((*word.box[::2], word.middle[0]), (*other.box[::2], other.middle[0]), strict=True)
    return any(abs(a - b) < ALIGNED * high for a, b in edges)


def _in_sentence(run: LabelRun, line: Sequence[Word]) -> bool:
    """Say whether words stand right before or behind labels of a row and between them, as in a sentence."""
    own = [w for w in line if any(abs(w.middle[0] - at) < ON_LABEL * run.text_height for at in run.at)]
    spoken = [
        w for w in line
        if run.at[0] < w.middle[0] < run.at[-1]
        and w.confidence >= WELL_READ
        and re.fullmatch(r"[^\W\d_]{2,}[.,]?", w.text)
        and not FREQUENCY.match(w.text)
    ]  # fmt: skip
    gap = WORD_GAP * run.text_height
    beside = [w for w in own if any(abs(_gap(w, other)) < gap for other in spoken)]
    return len(beside) >= FEWEST_SPOKEN


def _gap(one: Word, other: Word) -> float:
    return max(one.box[0] - other.box[2], other.box[0] - one.box[2])


def _is_foreign(word: Word, run: LabelRun) -> bool:
    """Say whether a number stands at its own place on a logarithmic axis, and is no frequency of any hearing test."""
    if run.scale != "log" or word.confidence < WELL_READ or not NUMBER.fullmatch(word.text):
        return False
    octave = (run.at[-1] - run.at[0]) / math.log2(run.values[-1] / run.values[0])
    hz_there = run.values[0] * 2 ** ((word.middle[0] - run.at[0]) / octave)
    said = float(word.text.replace(",", "."))
    there = [said * unit for unit in (1, 1000) if said and abs(math.log2(said * unit / hz_there)) < ITS_PLACE]
    return bool(there) and not frequency_values(word.text)


def _span(run: LabelRun, line: Sequence[Word]) -> tuple[float, float]:
    """Give where an axis' numbers begin and end, those among them that no frequency is."""
    first, last = run.at[0], run.at[-1]
    reach = MOST_GAP * max(b - a for a, b in pairwise(run.at))
    numbers = sorted(w.middle[0] for w in line if NUMBER.fullmatch(w.text))
    for x in numbers:
        last = x if last < x < last + reach else last
    for x in reversed(numbers):
        first = x if first - reach < x < first else first
    return first, last


def _captions(run: LabelRun, span: tuple[float, float], words: Sequence[Word]) -> list[str]:
    """Give the texts that may be the name of a row's axis: short, above or below its middle."""
    high, (first, last) = run.text_height, span
    near = [
        w for w in words
        if high < abs(w.middle[1] - run.across) < CAPTION_LINES * high and first < w.middle[0] < last
    ]  # fmt: skip
    found = []
    for line in _lines(near, high):
        for text in _parted(line, CAPTION_GAP * high):
            left, right = text[0].box[0], text[-1].box[2]
            centred = abs((left + right) / 2 - (first + last) / 2) < CENTRED * (last - first)
            if centred and len(text) <= MOST_WORDS and min(w.confidence for w in text) >= WELL_READ:
                found.append(" ".join(w.text for w in text))
    return found


def _lines(words: Sequence[Word], high: float) -> list[list[Word]]:
    lines: list[list[Word]] = []
    for word in sorted(words, key=lambda w: w.middle[1]):
        if lines and word.middle[1] - lines[-1][-1].middle[1] < ON_LINE * high:
            lines[-1].append(word)
        else:
            lines.append([word])
    return lines


def _parted(line: list[Word], gap: float) -> list[list[Word]]:
    """Part a line of words where they stand far from each other."""
    line = sorted(line, key=lambda w: w.box[0])
    parts = [[line[0]]]
    for before, word in pairwise(line):
        if word.box[0] - before.box[2] > gap:
            parts.append([])
        parts[-1].append(word)
    return parts


def _names_other(text: str) -> bool:
    """Say whether the name of an axis is that of another quantity, or ends with another unit in brackets."""
    bare = re.sub(r"\s+", " ", text.strip().casefold())
    unit = re.search(r"[(\[]\s*([^()\[\]]+?)\s*[)\]]$", bare)
    if unit and OTHER_UNIT.fullmatch(unit.group(1)):
        return True
    first = re.match(r"[^\W\d]+", bare)
    return first is not None and first.group() in OTHER_NAME and (unit is not None or first.group() == bare)


def _worth_in_steps(run: LabelRun, line: Sequence[Word]) -> float:
    """Give what the numbers of a row are worth as an axis that counts in even steps."""
    numbers: list[tuple[float, float, float]] = []
    for word in line:
        numbers += [
            (word.middle[0], float(text.replace(",", ".")), chance)
            for text, chance in word.readings
            if NUMBER.fullmatch(text)
        ]
    best = 0.0
    pitch = min(b - a for a, b in pairwise(run.at))
    for x0, v0, _ in numbers:
        for x1, v1, _ in numbers:
            columns = round((x1 - x0) / pitch)
            if not 1 <= columns <= 2 or v1 <= v0:
                continue
            slope = (x1 - x0) / (v1 - v0)
            fits: dict[float, float] = {}
            for x, value, chance in numbers:
                if abs(x - x0 - slope * (value - v0)) < EVEN_SLACK * pitch:
                    fits[x] = max(fits.get(x, 0.0), chance)
            if len(fits) >= FEWEST_EVEN:
                best = max(best, sum(fits.values()))
    return best
