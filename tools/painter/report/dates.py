"""Dates and times as clinics write them, with what a reader can know of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

import numpy as np

from ..chart.chance import pick
from .languages import Language

Form = Literal[
    "iso", "slash", "dash", "dot", "dot-short", "dot-two", "words", "short", "month-first", "slashes-year-first"
]
Order = Literal["day-first", "month-first"]

_FORMS: dict[str, tuple[tuple[Form, float], ...]] = {
    "en": (
        ("iso", 0.18),
        ("slash", 0.34),
        ("dash", 0.06),
        ("dot", 0.06),
        ("words", 0.12),
        ("short", 0.1),
        ("month-first", 0.1),
        ("slashes-year-first", 0.04),
    ),
    "de": (("dot", 0.6), ("dot-short", 0.1), ("dot-two", 0.08), ("words", 0.14), ("iso", 0.08)),
    "es": (("slash", 0.55), ("dash", 0.12), ("words", 0.15), ("short", 0.08), ("iso", 0.1)),
    "fr": (("slash", 0.55), ("dot", 0.1), ("words", 0.2), ("short", 0.07), ("iso", 0.08)),
}
_TIMES: dict[str, tuple[str, ...]] = {
    "en": ("{h:02d}:{m:02d}", "{h12}:{m:02d} {ap}", "{h12}:{m:02d} {AP}", "{h:02d}:{m:02d} h"),
    "de": ("{h:02d}:{m:02d}", "{h:02d}:{m:02d} Uhr", "{h:02d}.{m:02d} Uhr"),
    "es": ("{h:02d}:{m:02d}", "{h:02d}:{m:02d} h", "{h}:{m:02d} h"),
    "fr": ("{h:02d}:{m:02d}", "{h:02d}h{m:02d}", "{h} h {m:02d}"),
}


@dataclass(frozen=True, slots=True)
class DateStyle:
    """How one page writes its dates; ``order`` matters where day and month are both numbers."""

    form: Form
    order: Order
    padded: bool = True
    two_digits: bool = False
    """A slashed date of a test gives the year's last two digits alone; birth dates never do."""

    @property
    def unclear_order(self) -> bool:
        """The form alone does not tell which number is the month."""
        return self.form in ("slash", "dash", "dot", "dot-two")


def any_style(rng: np.random.Generator, language: Language) -> DateStyle:
    """Choose how a page writes its dates."""
    forms = _FORMS[language.code]
    form: Form = pick(rng, [name for name, _ in forms], [odds for _, odds in forms])
    month_first = language.code == "en" and form in ("slash", "dash") and rng.random() < 0.5
    return DateStyle(
        form,
        "month-first" if month_first else "day-first",
        padded=bool(rng.random() < 0.8) or form == "dot-two",
        two_digits=bool(form == "slash" and rng.random() < 0.06),
    )


def written(rng: np.random.Generator, day: date, style: DateStyle, language: Language, *, birth: bool = False) -> str:
    """Write a date in a style; ``birth`` keeps all four digits of the year."""
    form = style.form
    if form == "iso":
        return day.isoformat()
    if form == "slashes-year-first":
        return f"{day.year}/{day.month:02d}/{day.day:02d}"
    if form in ("words", "short", "month-first"):
        return _in_words(rng, day, form, language)
    numbers = [day.day, day.month] if style.order == "day-first" else [day.month, day.day]
    parts = [f"{n:02d}" if style.padded and form != "dot-short" else str(n) for n in numbers]
    short = (form == "dot-two" or style.two_digits) and not birth
    year = f"{day.year % 100:02d}" if short else str(day.year)
    return {"slash": "/", "dash": "-"}.get(form, ".").join([*parts, year])


def _in_words(rng: np.random.Generator, day: date, form: Form, language: Language) -> str:
    full, brief = language.words("months")[day.month - 1], language.words("months_short")[day.month - 1]
    if language.code == "de":
        return f"{day.day}. {full} {day.year}"
    if language.code == "es":
        return f"{day.day:02d}-{brief}-{day.year}" if form == "short" else f"{day.day} de {full} de {day.year}"
    if language.code == "fr":
        number = "1er" if day.day == 1 else str(day.day)
        return f"{number} {brief if form == 'short' else full} {day.year}"
    if form == "month-first":
        return f"{pick(rng, (full, brief))} {day.day}, {day.year}"
    if form == "short":
        return pick(rng, (f"{day.day:02d}-{brief}-{day.year}", f"{day.day} {brief} {day.year}"))
    return f"{day.day} {full} {day.year}"


def order_is_open(day: date, style: DateStyle, language: Language, others: Sequence[date], *, hinted: bool) -> bool:
    """Say whether nobody can tell the month of a written date from its page.

    Parameters
    ----------
    day : datetime.date
        The date.
    style : DateStyle
        How the page writes all its dates.
    language : Language
        Only English is written in countries of either order [common practice].
    others : sequence of datetime.date
        Every other date on the page in the same style; one past the 12th shows the order.
    hinted : bool
        The page prints the order beside a date ("dd/mm/yyyy").
    """
    if language.code != "en" or not style.unclear_order or hinted or day.day == day.month or day.day > 12:
        return False
    return all(other.day <= 12 for other in others)


def any_day(rng: np.random.Generator, first: int, last: int) -> date:
    """Invent a date in the years ``first`` to ``last`` (the last one left out)."""
    return date(int(rng.integers(first, last)), int(rng.integers(1, 13)), int(rng.integers(1, 29)))


def time_written(rng: np.random.Generator, language: Language) -> tuple[str, str]:
    """Invent a time of a working day: as HH:MM, and as the page writes it."""
    hour, minute = int(rng.integers(8, 18)), int(rng.integers(0, 60))
    half = "pm" if hour >= 12 else "am"
    shown = pick(rng, _TIMES[language.code]).format(h=hour, m=minute, h12=(hour - 1) % 12 + 1, ap=half, AP=half.upper())
    return f"{hour:02d}:{minute:02d}", shown
