"""Dates as people write them: every calendar day that a text may mean, and which order of its numbers that takes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal

from ..printed.vocabulary import Order, bare, vocabulary

Form = Literal["year-first", "dots", "slashes", "hyphens", "words"]

FIRST_YEAR, LAST_YEAR = 1880, 2099
"""No other four-digit year stands on a hearing test: nobody who was tested was born before, no report is from after."""
PIVOT = 40
"""Two-digit years from here on are of the last century. POSIX has 69 for ``%y``; no audiometer's page is older than
this."""

_YEAR_FIRST = re.compile(r"(?<![\d.,/-])(\d{4})([-./])(\d{1,2})\2(\d{1,2})(?![\d/-])")
_NUMBERS = re.compile(r"(?<![\d.,/-])(\d{1,2})\s?([-./])\s?(\d{1,2})\s?\2\s?(\d{4}|\d{2})(?![\d/%-])")
_MONTH = r"([^\W\d_]{3,10})\.?"
_DAY_MONTH = re.compile(
    rf"(?<!\d)(\d{{1,2}}|[lI](?=er))(?:\.|er|º|st|nd|rd|th)?[\s\-/]*(?:de\s+|of\s+)?{_MONTH},?[\s\-/]*(?:de\s+|del\s+)?(\d{{4}}|\d{{2}})(?!\d)",
    re.IGNORECASE,
)
_MONTH_DAY = re.compile(rf"{_MONTH}[\s\-]*(\d{{1,2}})(?:st|nd|rd|th)?(?:,|,?[\s\-]+)(\d{{4}})(?!\d)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WrittenDate:
    """One date in a text.

    Attributes
    ----------
    start, end : int
        Where it stands in the text.
    form : str
        How it is written.
    days : dict of str to datetime.date
        The days that it may mean, by the order of its numbers; both orders are given where the order does not matter.
        Empty where it is a date in form but no day of the calendar.
    short_year : bool
        It gives the last two digits of the year alone.
    """

    start: int
    end: int
    form: Form
    days: tuple[tuple[Order, date], ...]
    short_year: bool = False

    @property
    def possible(self) -> tuple[date, ...]:
        """The distinct days that it may mean."""
        return tuple(dict.fromkeys(day for _, day in self.days))

    def by(self, order: Order) -> date | None:
        """Give the day that it means under an order."""
        return dict(self.days).get(order)


def dates_in(text: str) -> tuple[WrittenDate, ...]:
    """Find the dates of a text.

    Parameters
    ----------
    text : str
        Words with single spaces.

    Returns
    -------
    tuple of WrittenDate
        In the order of the text, none over another.

    Notes
    -----
    A year written first is followed by month and day (ISO 8601-1:2019, 5.2.2.1 b; with slashes or dots by common
    practice). Numbers with dots between are taken day first: no locale that its author knows of writes the month first
    with dots (Unicode CLDR's short date patterns, from memory).
    """
    found: list[WrittenDate] = []
    for made in (*_year_first(text), *_numbers(text), *_in_words(text)):
        if not any(made.start < other.end and other.start < made.end for other in found):
            found.append(made)
    return tuple(sorted(found, key=lambda one: one.start))


def _year_first(text: str) -> Iterable[WrittenDate]:
    for match in _YEAR_FIRST.finditer(text):
        year, month, day = int(match[1]), int(match[3]), int(match[4])
        yield WrittenDate(match.start(), match.end(), "year-first", _both(_day(year, month, day)))


def _numbers(text: str) -> Iterable[WrittenDate]:
    for match in _NUMBERS.finditer(text):
        one, sign, other = int(match[1]), match[2], int(match[3])
        year, short = _year(match[4])
        if sign == ".":
            yield WrittenDate(match.start(), match.end(), "dots", _both(_day(year, other, one)), short)
            continue
        orders: tuple[tuple[Order, date | None], ...] = (
            ("day-first", _day(year, other, one)), ("month-first", _day(year, one, other)),
        )  # fmt: skip
        days: tuple[tuple[Order, date], ...] = tuple((order, day) for order, day in orders if day is not None)
        yield WrittenDate(match.start(), match.end(), "slashes" if sign == "/" else "hyphens", days, short)


def _in_words(text: str) -> Iterable[WrittenDate]:
    months = vocabulary().months
    for pattern, day_at, month_at in ((_DAY_MONTH, 1, 2), (_MONTH_DAY, 2, 1)):
        for match in pattern.finditer(text):
            month = months.get(bare(match[month_at]))
            if month is not None:
                year, short = _year(match[3])
                days = _both(_day(year, month, int(match[day_at].replace("l", "1").replace("I", "1"))))
                yield WrittenDate(match.start(), match.end(), "words", days, short)


def _year(digits: str) -> tuple[int, bool]:
    if len(digits) == 4:
        return int(digits), False
    number = int(digits)
    return (1900 if number >= PIVOT else 2000) + number, True


def _day(year: int, month: int, day: int) -> date | None:
    if not FIRST_YEAR <= year <= LAST_YEAR:
        return None
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _both(day: date | None) -> tuple[tuple[Order, date], ...]:
    return () if day is None else (("day-first", day), ("month-first", day))


def orders_shown(dates: Iterable[WrittenDate]) -> frozenset[tuple[Form, Order]]:
    """Give the orders that dates of a page prove, by their form: a number above twelve is no month.

    Parameters
    ----------
    dates : iterable of WrittenDate
        Dates that were read for certain.
    """
    proved: set[tuple[Form, Order]] = set()
    for one in dates:
        if one.form in ("slashes", "hyphens") and len(one.days) == 1:
            proved.add((one.form, one.days[0][0]))
    return frozenset(proved)
