"""Pure-tone averages by name, per ear and conduction; never silently over a missing frequency."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TypeVar

from ..errors import MisuseError
from ..record import Conduction, Ear, Threshold
from .doubt import Level, Row, Span, row_of


@dataclass(frozen=True, slots=True)
class AverageRule:
    """Which frequencies an average takes.

    Attributes
    ----------
    id : str
        Its frequencies in kHz; a frequency that counts twice is written twice.
    frequencies_hz : tuple of float
        Hz, each as often as it counts.
    best : int or None
        How many of them, the best ones, are averaged; None for all.
    use : str
        Where it is used, and the source.
    """

    id: str
    frequencies_hz: tuple[float, ...]
    use: str
    best: int | None = None


AVERAGES: dict[str, AverageRule] = {
    rule.id: rule
    for rule in (
        AverageRule("0.5-1-2", (500, 1000, 2000), "classic degree, agreement with SRT (Fletcher 1929; AMA 1959)"),
        AverageRule("0.5-1-2-4", (500, 1000, 2000, 4000), "WHO 1991 and 2021; BIAP 02/1 bis"),
        AverageRule("0.5-1-2-3", (500, 1000, 2000, 3000), "AAO/AMA 1979 handicap"),
        AverageRule("0.25-0.5-1-2-4", (250, 500, 1000, 2000, 4000), "BSA 2018 descriptors, section 9"),
        AverageRule("0.5-1-1-2", (500, 1000, 1000, 2000), "Japan, four-part A"),
        AverageRule("0.5-1-1-2-2-4", (500, 1000, 1000, 2000, 2000, 4000), "Japan, six-part, occupational"),
        AverageRule("1-2-4", (1000, 2000, 4000), "noise-induced loss (Moore, Lowe and Cox 2022)"),
        AverageRule("2-3-4", (2000, 3000, 4000), "occupational threshold shift (29 CFR 1904.10)"),
        AverageRule("3-4-6", (3000, 4000, 6000), "high-frequency average (common practice)"),
        AverageRule("4-6-8", (4000, 6000, 8000), "high-frequency average (common practice)"),
        AverageRule("two-best-of-0.5-1-2", (500, 1000, 2000), "sloping losses, SRT check (Fletcher 1950)", best=2),
    )
}
"""The averages by id."""


@dataclass(frozen=True, slots=True)
class Average:
    """One pure-tone average of one ear and conduction.

    Attributes
    ----------
    rule : str
        Id of the average in ``AVERAGES``.
    ear, conduction : str
        As in the record.
    db_hl : float or None
        The average in dB HL, unrounded; None where a frequency is missing.
    at_least : bool
        A no-response level entered as the level that was not heard: the true average lies higher.
    missing_hz, no_response_hz, ask_hz, masked_hz : tuple of float
        The frequencies of the rule, Hz, ascending: with no value, with no response, whose value a person must still
        look at, whose masked value was taken.
    span : Span or None
        What the average may truly be, dB HL: the values to look at within their doubt, no responses open above.
    """

    rule: str
    ear: Ear
    conduction: Conduction
    db_hl: float | None
    at_least: bool = False
    missing_hz: tuple[float, ...] = ()
    no_response_hz: tuple[float, ...] = ()
    ask_hz: tuple[float, ...] = ()
    masked_hz: tuple[float, ...] = ()
    span: Span | None = None


def average_rule(name: str) -> AverageRule:
    """Give the average of that id, or say which there are (MisuseError)."""
    if name not in AVERAGES:
        raise MisuseError(f"there is no average named '{name}'", f"Choose one of {', '.join(AVERAGES)}")
    return AVERAGES[name]


def average(
    thresholds: tuple[Threshold, ...],
    rule: str,
    ear: Ear,
    conduction: Conduction = "air",
    *,
    no_response_db: float | None = None,
) -> Average:
    """Average the unaided thresholds of one ear and conduction.

    Parameters
    ----------
    thresholds : tuple of Threshold
        All values of one audiogram; aided ones and comfortable or uncomfortable levels are left aside.
    rule : str
        Id of the average in ``AVERAGES``.
    ear, conduction : str
        Whose average.
    no_response_db : float, optional
        What a no response counts as, dB HL, where a scheme says so; else it enters with the level that was not heard,
        and the average is one of "at least".

    Returns
    -------
    Average
        With ``db_hl`` None and the missing frequencies named where any is missing.

    Raises
    ------
    MisuseError
        When there is no average of that id.

    Notes
    -----
    Which value stands for a frequency that has several: ``doubt.row_of``.
    """
    wanted = average_rule(rule)
    return average_of_row(row_of(thresholds, ear, conduction), wanted, ear, conduction, no_response_db=no_response_db)


def average_of_row(
    row: Row, wanted: AverageRule, ear: Ear, conduction: Conduction = "air", *, no_response_db: float | None = None
) -> Average:
    """Average a row of levels; as ``average``."""
    missing, silent, asking, masked = [], [], [], []
    for hz in _each_once(wanted.frequencies_hz):
        level = row.get(hz)
        if level is None:
            missing.append(hz)
            continue
        if not level.response:
            silent.append(hz)
        if level.ask:
            asking.append(hz)
        if level.threshold.masked:
            masked.append(hz)
    mean, at_least, span = None, False, None
    if not missing:
        levels = [row[hz] for hz in wanted.frequencies_hz]
        entering = _best([_entering(level.threshold, no_response_db) for level in levels], wanted.best)
        spans = [_span(level, no_response_db) for level in levels]
        mean, at_least = _mean([level for level, _ in entering]), any(is_open for _, is_open in entering)
        span = Span(
            _mean(_best([one.low for one in spans], wanted.best)),
            _mean(_best([one.high for one in spans], wanted.best)),
        )
    return Average(
        wanted.id, ear, conduction, mean, at_least, tuple(missing), tuple(silent), tuple(asking), tuple(masked), span
    )


def better_ear(right: Average, left: Average) -> Average | None:
    """Give the average of the better ear, as the person's.

    Returns
    -------
    Average or None
        Of ear "both"; its range is that of the lower of the two. None where one ear has no average: then nobody can
        tell which ear is the better one.
    """
    if right.db_hl is None or left.db_hl is None or right.span is None or left.span is None:
        return None
    better, other = sorted((right, left), key=_how_good)
    span = Span(min(right.span.low, left.span.low), min(right.span.high, left.span.high))
    # The other ear's doubts count too: within them it could be the better one.
    other_could = other.span is not None and better.span is not None and other.span.low < better.span.high
    ask_hz = _merged(better.ask_hz, other.ask_hz) if other_could else better.ask_hz
    return replace(better, ear="both", span=span, ask_hz=ask_hz)


def both_ears(right: Average, left: Average) -> Average | None:
    """Give the mean of the two ears' averages, as the person's; None where one is missing."""
    if right.db_hl is None or left.db_hl is None or right.span is None or left.span is None:
        return None
    return replace(
        right,
        ear="both",
        db_hl=(right.db_hl + left.db_hl) / 2,
        at_least=right.at_least or left.at_least,
        no_response_hz=_merged(right.no_response_hz, left.no_response_hz),
        ask_hz=_merged(right.ask_hz, left.ask_hz),
        masked_hz=_merged(right.masked_hz, left.masked_hz),
        span=Span((right.span.low + left.span.low) / 2, (right.span.high + left.span.high) / 2),
    )


def _how_good(mean: Average) -> tuple[float, bool, tuple[float, ...], tuple[float, ...]]:
    """Order averages by level; of equal ones the one that was heard is the better."""
    return mean.db_hl or 0.0, mean.at_least, mean.no_response_hz, mean.ask_hz


def _merged(one: tuple[float, ...], other: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(sorted({*one, *other}))


_Ordered = TypeVar("_Ordered", float, tuple[float, bool])


def _best(items: list[_Ordered], count: int | None) -> list[_Ordered]:
    """Give the lowest ``count`` of them, all where it is None."""
    return items if count is None else sorted(items)[:count]


@cache
def _each_once(frequencies_hz: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(sorted(set(frequencies_hz)))


def _mean(numbers: list[float]) -> float:
    return sum(numbers) / len(numbers)


def _entering(threshold: Threshold, no_response_db: float | None) -> tuple[float, bool]:
    """Give the level that enters, and whether it is one of "at least"."""
    if threshold.response:
        return threshold.level_db_hl, False
    if no_response_db is not None:
        return no_response_db, False
    return threshold.level_db_hl, True


def _span(level: Level, no_response_db: float | None) -> Span:
    if level.response or no_response_db is None:
        return level.span
    return Span(min(level.span.low, no_response_db) if level.ask else no_response_db, no_response_db)
