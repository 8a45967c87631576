"""Lists of thresholds, one a line: each names its ear and conduction, its frequency, and its level."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import median

from ....eyes.words.numbers import frequency_values
from ....page import Word
from ...cells.numbers import said_by
from ..lines import height, line_of, text_lines
from ..row import Layout, row_of
from ..vocabulary import Name, name_of, parts_of

FEWEST_ENTRIES, FEWEST_OF_A_ROW = 4, 3
"""So many lines make a list, and so many of one ear and conduction a row of it; fewer are told as not read."""
ASIDE, NEXT_LINE = 2.0, 6.0
"""Levels stand under one another, and so do frequencies, within so many heights of a word; so far is the next line."""
LEAST_HZ, WORDS_OF_A_LINE = 125.0, 10
UNITS = frozenset({"hz", "khz", "k", "db", "hl", "dbhl"})


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a list: its name, its frequency and the word that says it, and the word of its level."""

    name: Name
    hz: float
    head: Word
    level: Word


@dataclass(frozen=True, slots=True)
class Listing:
    """A list of thresholds, and how many lines with a frequency in it or below it were not understood."""

    entries: tuple[Entry, ...]
    lost: int = 0


def lists_of(words: Sequence[Word]) -> list[Listing]:
    """Find lists of thresholds: lines of one ear, one frequency and one level, in columns under one another."""
    if not words:
        return []
    high = median(height(w) for w in words)
    lists: list[Listing] = []
    for text in text_lines(words, high):
        entry, last = _entry(text), lists[-1] if lists else Listing(())
        if entry is not None and _continues(last, entry, high):
            lists[-1] = replace(last, entries=(*last.entries, entry))
        elif entry is not None:
            lists.append(Listing((entry,)))
        elif last.entries and any(_follows(w, last.entries[-1].head, high) for w in text if frequency_values(w.text)):
            lists[-1] = replace(last, lost=last.lost + 1)
    return [one for one in lists if len(one.entries) >= FEWEST_ENTRIES]


def rows_of_list(listing: Listing, title: Name) -> list[Layout]:
    """Give each ear's row of a list, under its title, as a table with a column of frequencies of its own."""
    rows: dict[tuple[object, ...], list[Entry]] = {}
    for entry in listing.entries:
        name = entry.name
        rows.setdefault((name.ear, name.conduction, name.masked, name.aided, name.measure), []).append(entry)
    long = [row for row in rows.values() if len(row) >= FEWEST_OF_A_ROW]
    lost = listing.lost + len(rows) - len(long)
    layouts: list[Layout] = []
    for row in long:
        line = line_of([(entry.head, entry.hz) for entry in row], 1)
        across = median(entry.level.middle[0] for entry in row)
        named = row_of(row[0].name, title, across, [[entry.level] for entry in row], heir=False)
        layouts.append(Layout(line, (named,), lost if not layouts else 0))
    return layouts


def _entry(text: Sequence[Word]) -> Entry | None:
    """Read a line as one threshold; None where it says more, less, or anything that is not known."""
    lettered = [w for w in text if any(c.isalpha() for c in w.text) and not _number(w)]
    numbers = [w for w in text if _number(w)]
    heads = [(w, hz) for w in numbers for hz, khz in frequency_values(w.text)[:1] if not khz and hz >= LEAST_HZ]
    levels = [w for w in numbers if said_by(w.text).kind == "level" and not any(w is head for head, _ in heads)]
    if len(text) > WORDS_OF_A_LINE or len(heads) != 1 or len(levels) != 1 or len(numbers) != 2:
        return None
    name = name_of([w for w in lettered if not set(parts_of(w.text)) <= UNITS])
    if name.ear is None or name.unknown or name.torn or name.other or len(lettered) + 2 != len(text):
        return None
    return Entry(name, heads[0][1], heads[0][0], levels[0])


def _number(word: Word) -> bool:
    return said_by(word.text).kind == "level" or bool(frequency_values(word.text))


def _continues(listing: Listing, entry: Entry, high: float) -> bool:
    if not listing.entries:
        return False
    last = listing.entries[-1]
    return _follows(entry.head, last.head, high) and _under(entry.level, last.level, high)


def _follows(one: Word, before: Word, high: float) -> bool:
    """Say whether a frequency stands under another, on the next line or one of the next."""
    return _under(one, before, high) and 0 < one.middle[1] - before.middle[1] < NEXT_LINE * high


def _under(one: Word, before: Word, high: float) -> bool:
    sides = (one.box[0] - before.box[0], one.box[2] - before.box[2], one.middle[0] - before.middle[0])
    return min(map(abs, sides)) < ASIDE * high
