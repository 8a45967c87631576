"""How labels may be spelled with letters misread: how many may be, how far texts differ, and which may be meant."""

from __future__ import annotations

from functools import lru_cache

from .vocabulary import Phrase, vocabulary

LONG, LONGER = 5, 9
"""A wording of so many letters is known with one, or with two, of them misread."""
BEGIN = 12
"""So many first letters tell which wordings a text may be."""


def slips_allowed(letters: int) -> int:
    """Give how many letters of a text may be misread, by its length."""
    return (letters >= LONG) + (letters >= LONGER)


@lru_cache(maxsize=65536)  # the same label is held against the same wordings on every page
def misread(wanted: str, read: str) -> int:
    """Count the letters to change, drop or add between two texts, as far as two; 99 for more (edit distance)."""
    if wanted == read:
        return 0
    if abs(len(wanted) - len(read)) > 2:
        return 99
    row = list(range(len(read) + 1))
    for i, one in enumerate(wanted, 1):
        last, row[0] = row[0], i
        for j, other in enumerate(read, 1):
            last, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, last + (one != other))
        if min(row) > 2:
            return 99
    return row[-1] if row[-1] <= 2 else 99


@lru_cache(maxsize=4096)
def may_be(begins: tuple[str, ...]) -> tuple[Phrase, ...]:
    """Give the wordings that a text may begin with, by its first letters: quicker than to compare with them all."""
    found: set[int] = set()
    for long, places in _places().items():
        parts = {part for begin in begins for part in _parts(long, begin)}
        for part, low, high in parts:
            last = high - len(part)
            found |= {number for number, at in places.get(part, ()) if low <= at <= last}
    labels = vocabulary().labels
    return tuple(labels[number] for number in sorted(found))


@lru_cache(maxsize=1)
def _places() -> dict[int, dict[str, list[tuple[int, int]]]]:
    """List where parts of wordings stand: by the letters of these and by part, a wording's number and a place in it."""
    places: dict[int, dict[str, list[tuple[int, int]]]] = {}
    for number, phrase in enumerate(vocabulary().labels):
        long = len(phrase.letters)
        allowed = slips_allowed(long)
        shortest = min(long, BEGIN) - allowed if allowed else long
        of_long = places.setdefault(long, {})
        for size in {begin // (allowed + 1) for begin in range(shortest, long - allowed + 1)}:
            for at in range(long - size + 1):
                of_long.setdefault(phrase.letters[at : at + size], []).append((number, at))
    return places


_Part = tuple[str, int, int]


def _parts(long: int, begin: str) -> tuple[_Part, ...]:
    """Cut a text into what one part at least must be right of where it begins with a wording of so many letters.

    Returns
    -------
    tuple of (str, int, int)
        Parts, one more than letters may be misread, and from where to where in the wording each may stand; none where
        the text is too short.
    """
    allowed = slips_allowed(long)
    if not allowed:
        return ((begin[:long], 0, long),) if len(begin) >= long else ()
    if len(begin) < min(long, BEGIN) - allowed:
        return ()
    begin = begin[: long - allowed]
    size = len(begin) // (allowed + 1)
    starts = range(0, size * (allowed + 1), size)
    return tuple((begin[at : at + size], max(at - allowed, 0), at + size + allowed) for at in starts)
