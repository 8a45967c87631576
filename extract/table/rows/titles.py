"""What stands over a table: its title, its date, and whether it is one of another test."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from ...page import Word
from ...report.facts.values.dates import dates_in
from ..cells.legend import masking_by_notes
from .lines import Line, groups, speck, text_lines
from .vocabulary import Name, kinds_of, name_of, parts_of, title_stems, title_words

DATE = re.compile(r"(?<!\d)(\d{4}[-./]\d{1,2}[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./](?:\d{4}|\d{2}))(?!\d)")
TITLE_WITHIN = (5.0, 8.0)
"""How far over a table its title may stand, in heights of a word: over a row, and over a column of frequencies."""
NEAREST = 8.0
"""The nearest line over a table is its title where it is no further away, if it is none that names anything."""
LOOKED_AT = 14.0
"""So far over it, the words may name another test."""
SIDE = 12.0
"""How far before its frequencies a title may begin, in heights of a word."""
APART = 2.5
"""Words of one title stand at most so many heights apart."""
OTHER_ROW = 3
"""A line with so many numbers is a row of another table, and the lines over it belong to that."""
LEAST_LETTERS = 2
"""A single letter says nothing of what a table holds."""
BARS = ("l", "i")
"""Such a letter alone is as likely a piece of a rule."""


def lines_over(words: Sequence[Word], line: Line, bound: float = -math.inf, end: float = math.inf) -> list[list[Word]]:
    """Give the printed lines over a table, the nearest first, up to another table's rows; titles are never cut.

    ``bound`` is where another table ends that stands at its left on the same height, ``end`` where one begins at its
    right.
    """
    high = line.height
    left, right = min(w.box[0] for w in line.words), max(w.box[2] for w in line.words)
    top = min(w.box[1] for w in line.words)
    right = min(right + (3 * SIDE * high if line.along == 1 else 0.0), end)
    left = max(left - 2 * SIDE * high, bound)
    near = [w for w in words if top - LOOKED_AT * high < w.middle[1] < top]
    found: list[list[Word]] = []
    for whole in text_lines(near, high)[::-1]:
        parts = groups(whole, APART * high)
        text = [w for part in parts if left < max(w.box[2] for w in part) and part[0].box[0] < right for w in part]
        if not text and len(parts) == 1 and bound < parts[0][0].box[0] < right:
            text = parts[0]  # a line of its own, far before a table that stands in the middle of the page
        if sum(w.text.strip("<>+*()[]").isdigit() for w in text) >= OTHER_ROW:
            break
        found += [text] if text else []
    return found


def title_of(over: Sequence[Sequence[Word]], line: Line) -> Name:
    """Give what the lines over a table name, the nearest first; ``other`` where any names a test of another kind."""
    found = Name()
    for number, whole in enumerate(over):
        text = [w for w in whole if not speck(w)]
        if [w.text for w in text] in ([bar] for bar in BARS):
            continue
        name = name_of(text)
        if name.other:
            if _in_passing(text) and any(told_by_titles([nearer], ()) for nearer in over[:number]):
                continue
            return name
        # over a column of frequencies, a line in several parts is the heads of its columns
        title = _within(whole, line) and (line.along == 0 or len(groups(text, 1.5 * line.height)) == 1)
        telling = (name.ear or name.conduction or name.measure or name.aided) is not None
        if title and name.told and telling and (found.ear is None or found.conduction is None):
            unknown = found.unknown + sum(not _known(part) for word in text for part in parts_of(word.text))
            note = masking_by_notes(text)  # "(* = masked)" tells of the sign, not of all values
            found = replace(found.under(replace(name, masked=None) if note else name), unknown=unknown)
    return found


def _in_passing(text: Sequence[Word]) -> bool:
    """Say whether a line names no other test but speaks of noise: "Noise exposure: 8 years in a sawmill"."""
    parts = [part for word in text for part in parts_of(word.text)]
    other = [part for part in parts if "other tests" in kinds_of(part)[0]]
    loud = all(title_words("noise").nearest(part) == part for part in other)
    return loud and 2 * sum(bool(kinds_of(part)[0]) for part in parts) <= len(parts)


def corner_of(words: Sequence[Word], line: Line) -> list[Word]:
    """Give the words before a row of frequencies, on its own line: they stand over the names of the rows."""
    first, high = line.edges[0][0], line.height
    on_line = [w for w in words if abs(w.middle[1] - line.across) < 0.6 * high and w.middle[0] < line.at[0]
               and not any(w is head for head in line.words)]  # fmt: skip
    before = [w for w in on_line if w.box[2] < line.words[0].box[0] and w.middle[0] < max(first, w.box[2])]
    corner: list[Word] = []
    edge = line.words[0].box[0]
    for word in sorted(before, key=lambda w: -w.box[0]):
        if edge - word.box[2] > SIDE * high:
            break
        corner.insert(0, word)
        edge = word.box[0]
    return corner


def of_other_numbers(over: Sequence[Sequence[Word]], corner: Sequence[Word], line: Line) -> bool:
    """Say whether a table may hold other numbers than measured levels in dB HL: shifts, norms, levels in dB SPL.

    Parameters
    ----------
    over : sequence of sequence of Word
        The lines over it (``lines_over``).
    corner : sequence of Word
        What stands before its frequencies.
    line : Line
        Its frequencies.

    Returns
    -------
    bool
        True where its title says so, or says nothing that is known.
    """
    high, left, top = line.height, min(w.box[0] for w in line.words), min(w.box[1] for w in line.words)
    lettered = [text for text in over if _letters(text)]
    titles = [text for text in lettered if _within(text, line)] or lettered[:1]
    if any(_derived(text) for text in (*titles, corner)):
        return True
    near = [text for text in titles[:1] if max(w.box[2] for w in text) > left - 2 * SIDE * high
            and top - text[0].middle[1] < NEAREST * high]  # fmt: skip
    return bool(near) and not understood(near[0])


def told_by_titles(over: Sequence[Sequence[Word]], corner: Sequence[Word]) -> bool:
    """Say whether what stands over a table calls its numbers thresholds, an audiogram, or levels in dB HL."""
    parts = {part for text in (*over, corner) for word in text for part in parts_of(word.text)}
    return "hl" in parts or any(stem in part for stem in title_stems() for part in parts)


def told_below(words: Sequence[Word], line: Line, last: float, others: Sequence[Line]) -> bool:
    """Say whether a note under a table says that its numbers are no measured levels in dB HL.

    Parameters
    ----------
    words : sequence of Word
        The sheet's words.
    line : Line
        The table's frequencies.
    last : float
        How far down its numbers reach.
    others : sequence of Line
        The page's other lines of frequencies, whose titles are no notes of this table.
    """
    high = line.height
    tops = (min(w.box[1] for w in other.words) - TITLE_WITHIN[other.along] * other.height for other in others)
    end = min((top for top in tops if top > last), default=math.inf)
    below = [w for w in words if last + 0.6 * high < w.middle[1] < min(last + LOOKED_AT * high, end)]
    for text in text_lines(below, high):
        if sum(word.text.isdigit() for word in text) >= OTHER_ROW:
            return False
        parts = [part for word in text for part in parts_of(word.text)]
        strong = sum(title_words("not so").nearest(part) is not None for part in parts)
        if strong > 1 or (strong and any(title_words("numbers").nearest(part) == part for part in parts)):
            return True
    return False


def strange(text: Sequence[Word]) -> bool:
    """Say whether a heading within a table names other numbers than thresholds, or nothing that is known."""
    return name_of(text).other or _derived(text) or not understood(text)


def understood(text: Sequence[Word]) -> bool:
    """Say whether a line holds a word that the titles and headings of tables of thresholds do, or a date."""
    if dates_in(" ".join(w.text for w in text)):
        return True
    return any(
        title_words("title").nearest(part)
        or any(stem in part for stem in title_stems())
        or (kinds_of(part)[0] and not title_words("linking").nearest(part))
        for word in text
        for said in word.readings
        for part in parts_of(said[0])
        if len(part) >= LEAST_LETTERS
    )


def _known(part: str) -> bool:
    stem = any(stem in part for stem in title_stems())
    return bool(stem or kinds_of(part)[0] or title_words("title").nearest(part) or title_words("linking").nearest(part))


def _derived(text: Sequence[Word]) -> bool:
    return any(title_words("derived").nearest(part) for word in text for part in parts_of(word.text))


def _letters(text: Sequence[Word]) -> bool:
    return any(len(part) >= LEAST_LETTERS for word in text if not speck(word) for part in parts_of(word.text))


def date_of(over: Sequence[Sequence[Word]], line: Line) -> str | None:
    """Give the date nearest over a table, as it is printed."""
    for text in over:
        said = DATE.search(" ".join(w.text for w in text))
        if said and _within(text, line):
            return said.group()
    return None


def without_date(name: Sequence[Word]) -> tuple[list[Word], str | None]:
    """Give the words of a name without those of the date in it, and the date as it is printed."""
    text = " ".join(w.text for w in name)
    found = dates_in(text)
    if not found:
        return list(name), None
    left: list[Word] = []
    at = 0
    for word in name:
        end = at + len(word.text)
        left += [word] if end <= found[0].start or at >= found[0].end else []
        at = end + 1
    return left, text[found[0].start : found[0].end]


def _within(text: Sequence[Word], line: Line) -> bool:
    top = min(w.box[1] for w in line.words)
    return top - text[0].middle[1] < TITLE_WITHIN[line.along] * line.height
