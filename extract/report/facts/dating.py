"""The dates and times of a page together: which order their numbers have, and whether all of them can be so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from ....interpret.record import FactName
from ...page import Word
from ..lines import Line
from .draft import Draft
from .printed.labels import Label
from .printed.pairs import Pair
from .printed.vocabulary import Order, vocabulary
from .values.dates import Form, WrittenDate, dates_in, orders_shown
from .values.times import times_in

DATES: dict[str, FactName] = {
    "birth-date": "birth-date",
    "calibration-date": "calibration-date",
    "test-date": "test-date",
    "date": "test-date",
    "date-and-time": "test-date",
}
"""The facts that date labels announce; a date without more words is the test's."""
TIMED = frozenset({"test-date", "date", "date-and-time"})
"""Labels after whose date the time of the test may stand."""
OLDEST_YEARS = 115
"""Nobody who is tested is older (common practice)."""
Sure = Callable[[Sequence[Word]], bool]
"""Says whether some words were read for certain."""


@dataclass(frozen=True, slots=True)
class _Read:
    """A date by its label, not yet settled: where it stands in its pair, and other codes against it."""

    pair: Pair
    name: FactName
    generic: bool
    found: WrittenDate
    words: tuple[Word, ...]
    written: str
    why: tuple[str, ...]

    @property
    def draft(self) -> Draft:
        """The fact to be, without its value."""
        return Draft(
            self.name, "", self.written, self.words, self.pair.label, self.pair.place, self.why, strict=True
        )  # fmt: skip


def dates_of(
    pairs: Sequence[Pair], lines: Sequence[Line], over: Sequence[tuple[Draft, WrittenDate]], sure: Sure
) -> tuple[tuple[Draft, ...], tuple[Pair, ...]]:
    """Read the dates and times that labels announce.

    Parameters
    ----------
    pairs : sequence of Pair
        All labels with their values.
    lines : sequence of Line
        All lines: dates without a label show the order of numbers as well.
    over : sequence of tuple
        Dates without a label that stand over charts (``dates_over_charts``).
    sure : callable
        Whether words were read for certain: only such dates prove an order.

    Returns
    -------
    tuple of Draft
        A date whose day and month may change places stands there with the likelier one and ``date-order-unclear``.
    tuple of Pair
        Pairs that hold a date in form which is no day of the calendar.
    """
    read = [one for pair in pairs for one in _read(pair)]
    impossible = tuple(one.pair for one in read if not one.found.days)
    read = _without_doubles([one for one in read if one.found.days])
    numbers: tuple[Form, ...] = ("slashes", "hyphens")
    hinted: set[tuple[Form, Order]] = {(form, order) for order in _hints(pairs) for form in numbers}
    proved = _proved(lines, sure) | hinted
    language = language_of(pairs)  # weak evidence, for a value that will be asked about
    usual = vocabulary().orders[language][0] if language else "day-first"
    full_years: set[Form] = {one.found.form for one in read if not one.found.short_year}
    drafts = [_settled(one.draft, one.found, proved, usual, full_years) for one in read]
    if not drafts or not any(draft.name == "test-date" for draft in drafts):
        drafts += [_settled(draft, found, proved, usual, full_years) for draft, found in over]
    drafts = _all_possible(drafts)
    times = [time for one in read if one.pair.label.names & TIMED for time in _time_after(one)]
    return (*drafts, *times, *_times(pairs)), impossible


def _read(pair: Pair) -> list[_Read]:
    names = [name for name in pair.label.names if name in DATES]
    if len({DATES[name] for name in names}) != 1 or len(names) != len(pair.label.names):
        return []
    found = dates_in(pair.text)
    why: tuple[str, ...] = ()
    other = dates_in(_other_text(pair.words))
    if not found and other:
        found, why = other, ("text-uncertain",)
        text = _other_text(pair.words)
    else:
        text = pair.text
        if found and other and found[0].possible != other[0].possible:
            why = ("two-readings",)
    if not found:
        return []
    one, *further = found
    if further and further[0].possible != one.possible:
        why = (*why, "two-readings")
    words = words_between(pair.words, one.start, one.end, text)
    return [_Read(pair, DATES[names[0]], "date" in names, one, words, text[one.start : one.end], why)]


def _other_text(words: Sequence[Word]) -> str:
    """Join what the other reading says, where there is one."""
    return " ".join(word.others[0][0] if word.others and word.others[0][0] else word.text for word in words)


def words_between(words: Sequence[Word], start: int, end: int, text: str) -> tuple[Word, ...]:
    """Give the words of a joined text that stand in a part of it."""
    found, at = [], 0
    for word, piece in zip(words, _pieces(words, text), strict=True):
        if at < end and at + len(piece) > start:
            found.append(word)
        at += len(piece) + 1
    return tuple(found)


def _pieces(words: Sequence[Word], text: str) -> list[str]:
    own = [word.text for word in words]
    return own if " ".join(own) == text else [w.others[0][0] if w.others and w.others[0][0] else w.text for w in words]


def _without_doubles(read: list[_Read]) -> list[_Read]:
    """Drop what a plain "date" says where another label names the test's date: it is that again, or something else."""
    named = any(one.name == "test-date" and not one.generic for one in read)
    return [one for one in read if not (one.generic and named)]


def _proved(lines: Sequence[Line], sure: Sure) -> frozenset[tuple[Form, Order]]:
    dates = []
    for line in lines:
        words = line.words
        text = " ".join(word.text for word in words)
        dates += [one for one in dates_in(text) if sure(words_between(words, one.start, one.end, text))]
    return orders_shown(dates)


def _hints(pairs: Sequence[Pair]) -> set[Order]:
    return {pair.label.hint for pair in pairs if pair.label.hint is not None}


def language_of(pairs: Sequence[Pair]) -> str | None:
    """Give the language in which most labels are worded that are so in one language alone; None where none is."""
    votes: Counter[str] = Counter()
    for pair in pairs:
        if len(pair.label.languages) == 1:
            votes.update(pair.label.languages)
    return votes.most_common(1)[0][0] if votes else None


def _settled(
    one: Draft, found: WrittenDate, proved: Iterable[tuple[Form, Order]], usual: Order, full_years: set[Form]
) -> Draft:
    why = list(one.why_ask)
    if len(found.possible) == 1:
        day = found.possible[0]
    else:
        orders: set[Order] = {order for form, order in proved if form == found.form}
        order = orders.pop() if len(orders) == 1 else None
        day = found.by(order or usual) or found.possible[0]
        if order is None:
            why.append("date-order-unclear")
    if found.short_year and found.form in ("slashes", "hyphens") and found.form not in full_years:
        why.append("date-order-unclear")  # its first number may be the year
    if found.short_year and one.name == "birth-date":
        why.append("century-unclear")
    return replace(one, value=day.isoformat(), why_ask=tuple(dict.fromkeys(why)))


def _all_possible(drafts: list[Draft]) -> list[Draft]:
    """Let dates ask that cannot all be right: birth, then calibration, then test; and one birth date alone."""
    born = {d.value for d in drafts if d.name == "birth-date"}
    tested = {d.value for d in drafts if d.name == "test-date"}
    calibrated = {d.value for d in drafts if d.name == "calibration-date"}
    wrong: set[str] = set()
    for birth in born:
        for test in tested:
            if not birth < test or _years(birth, test) > OLDEST_YEARS:
                wrong |= {"birth-date", "test-date"}
    if any(calibration > max(tested) for calibration in calibrated if tested):
        wrong |= {"calibration-date", "test-date"}
    if len(born) > 1:
        wrong.add("birth-date")
    return [
        replace(d, why_ask=(*d.why_ask, "dates-disagree")) if d.name in wrong else d
        for d in drafts
    ]  # fmt: skip


def _years(first: str, last: str) -> float:
    return (date.fromisoformat(last) - date.fromisoformat(first)).days / 365.25


def _time_after(one: _Read) -> list[Draft]:
    text = one.pair.text
    times = [t for t in times_in(text) if t.start >= one.found.end and t.value is not None]
    return [_time(one.pair, times[0].start, times[0].end, times[0].value)] if len(times) == 1 and times[0].value else []


def _times(pairs: Sequence[Pair]) -> list[Draft]:
    """Read the times that have a label of their own."""
    drafts = []
    for pair in pairs:
        if pair.label.names == {"test-time"}:
            times = [t for t in times_in(pair.text) if t.value is not None]
            if times and times[0].value:
                drafts.append(_time(pair, times[0].start, times[0].end, times[0].value))
    return drafts


def _time(pair: Pair, start: int, end: int, value: str) -> Draft:
    words = words_between(pair.words, start, end, pair.text)
    others = [t.value for t in times_in(_other_text(words))]
    why = ("two-readings",) if others and others != [value] else ()
    return Draft("test-time", value, pair.text[start:end], words, pair.label, pair.place, why, strict=True)


def is_date_label(label: Label) -> bool:
    """Say whether a label announces a date and nothing else."""
    return bool(label.names) and label.names <= DATES.keys()
