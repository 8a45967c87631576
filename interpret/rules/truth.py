"""Yes, no or not to be told: rules with an edge, judged over numbers that are known only within a range."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from .doubt import NO_LIMIT, Level, Row, Span

MET, NOT_MET = "met", "not met"


@dataclass(frozen=True, slots=True)
class Truth:
    """Whether something holds: surely, and possibly."""

    surely: bool
    possibly: bool

    def __and__(self, other: Truth) -> Truth:
        return Truth(self.surely and other.surely, self.possibly and other.possibly)

    def __or__(self, other: Truth) -> Truth:
        return Truth(self.surely or other.surely, self.possibly or other.possibly)


NO = Truth(surely=False, possibly=False)
UNKNOWN = Truth(surely=False, possibly=True)
YES = Truth(surely=True, possibly=True)

Spans = Mapping[float, Span]
"""Ranges by frequency, Hz."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """How a criterion came out.

    Attributes
    ----------
    word : {"met", "not met"} or None
        As the values read; None where what was not heard or not tested leaves it open.
    could_be : tuple of str
        Both words where the doubt of values to look at could turn it; else empty.
    """

    word: str | None
    could_be: tuple[str, ...]


def at_least(span: Span, edge: float) -> Truth:
    """Judge whether a number reaches the edge."""
    return Truth(span.low >= edge, span.high >= edge)


def above(span: Span, edge: float) -> Truth:
    """Judge whether a number lies beyond the edge."""
    return Truth(span.low > edge, span.high > edge)


def at_most(span: Span, edge: float) -> Truth:
    """Judge whether a number does not lie beyond the edge."""
    return Truth(span.high <= edge, span.low <= edge)


def any_of(truths: Iterable[Truth]) -> Truth:
    """Judge whether at least one holds."""
    found = NO
    for truth in truths:
        found |= truth
    return found


def at_least_n(truths: Iterable[Truth], n: int) -> Truth:
    """Judge whether at least ``n`` hold."""
    given = list(truths)
    return Truth(sum(t.surely for t in given) >= n, sum(t.possibly for t in given) >= n)


def mean(spans: Iterable[Span]) -> Span:
    """Give the range of the mean of numbers that are known within a range."""
    given = list(spans)
    return Span(sum(s.low for s in given) / len(given), sum(s.high for s in given) / len(given))


def worst(spans: Iterable[Span]) -> Span:
    """Give the range of the highest of them."""
    given = list(spans)
    return Span(max(s.low for s in given), max(s.high for s in given))


def as_read(level: Level) -> Span:
    """Give the range of a value taken as it reads: exact, or open above where nothing was heard."""
    return Span(level.db_hl, level.db_hl if level.response else NO_LIMIT)


def read_spans(row: Row) -> dict[float, Span]:
    """Give the ranges of a row taken as it reads."""
    return {hz: as_read(level) for hz, level in row.items()}


def marked_spans(row: Row) -> dict[float, Span]:
    """Give the levels of a row exactly as its marks stand, the ones that were not heard among them."""
    return {hz: Span(level.db_hl, level.db_hl) for hz, level in row.items()}


def full_spans(row: Row) -> dict[float, Span]:
    """Give the ranges of a row with the doubt of its values to look at."""
    return {hz: level.span for hz, level in row.items()}


def judged(test: Callable[..., Truth], *rows: Row) -> Verdict:
    """Judge a criterion over rows, once as they read and once with their doubts.

    Parameters
    ----------
    test : callable
        From the ranges of each row (``Spans``) to a ``Truth``.
    *rows : Row
        The rows that it takes.
    """
    plain = test(*map(read_spans, rows))
    asks = any(level.ask for row in rows for level in row.values())
    doubted = test(*map(full_spans, rows)) if asks else plain
    word = MET if plain.surely else None if plain.possibly else NOT_MET
    return Verdict(word, (NOT_MET, MET) if doubted.possibly and not doubted.surely and doubted != plain else ())
