"""Dates and times against Python's own calendar and ISO 8601-1:2019 (5.2.2.1 dates, 5.3.1.2 times of day)."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from octavo.extract.report.facts.values.dates import dates_in, orders_shown
from octavo.extract.report.facts.values.times import times_in

DAYS = st.dates(datetime.date(1900, 1, 1), datetime.date(2079, 12, 31))
TIMES = st.times().map(lambda t: t.replace(microsecond=0))
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")  # fmt: skip


def only(text: str) -> tuple[datetime.date, ...]:
    (found,) = dates_in(text)
    assert text[found.start : found.end] == text
    return found.possible


@given(DAYS)
def test_a_date_by_iso_8601_is_that_day(day: datetime.date) -> None:
    assert only(day.isoformat()) == (day,)


@given(DAYS)
def test_a_month_in_words_leaves_one_day(day: datetime.date) -> None:
    name = MONTHS[day.month - 1]
    brief = f"{day.day:02d}-{name[:3]}-{day.year}"
    for text in (f"{day.day} {name} {day.year}", f"{name} {day.day}, {day.year}", brief):
        assert only(text) == (day,)


@given(DAYS)
def test_a_date_with_dots_is_day_first(day: datetime.date) -> None:
    assert only(day.strftime("%d.%m.%Y")) == (day,)
    assert only(f"{day.day}.{day.month}.{day.year}") == (day,)


@given(DAYS, st.sampled_from("/-"))
def test_numbers_that_may_change_places_give_both_days_and_no_other(day: datetime.date, sign: str) -> None:
    possible = set(only(day.strftime(f"%d{sign}%m{sign}%Y")))
    assert day in possible
    other = day.replace(day=day.month, month=day.day) if day.day <= 12 else day
    assert possible == {day, other}


@given(st.integers(1, 39), st.integers(1, 19), st.integers(1900, 2079))
def test_what_the_calendar_lacks_is_no_day(day: int, month: int, year: int) -> None:
    found = dates_in(f"{day}.{month}.{year}")
    try:
        expected = (datetime.date(year, month, day),)
    except ValueError:
        expected = ()
    assert [one.possible for one in found] == [expected]


def test_a_year_of_two_digits_is_marked() -> None:
    (found,) = dates_in("13/04/18")
    assert found.short_year
    assert found.possible == (datetime.date(2018, 4, 13),)


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("14. März 2018", "2018-03-14"), ("14 de marzo de 2018", "2018-03-14"), ("1er août 2018", "2018-08-01"),
        ("04-ene-2018", "2018-01-04"), ("3 avr. 2021", "2021-04-03"), ("24. Dez. 2020", "2020-12-24"),
    ],
)  # fmt: skip
def test_months_of_other_languages_are_known(text: str, iso: str) -> None:
    (found,) = dates_in(text)
    assert [day.isoformat() for day in found.possible] == [iso]


@pytest.mark.parametrize(
    "text", ["version 1.2.3", "555 1234", "2018/0413", "752-328", "10.5", "0.5, 1, 2 kHz", "90/40/75%"]
)
def test_what_is_no_date_gives_none(text: str) -> None:
    assert dates_in(text) == ()


def test_a_number_above_twelve_proves_the_order_of_its_own_form_alone() -> None:
    assert orders_shown(dates_in("13/04/2018 and 03-05-2018")) == {("slashes", "day-first")}
    assert orders_shown(dates_in("04/13/2018")) == {("slashes", "month-first")}
    assert orders_shown(dates_in("03/04/2018 and 13.04.2018")) == frozenset()


@given(TIMES)
def test_a_time_by_iso_8601_is_that_time(time: datetime.time) -> None:
    for text in (time.strftime("%H:%M"), time.strftime("%H:%M:%S")):
        assert [one.value for one in times_in(text)] == [time.strftime("%H:%M")]


@given(TIMES)
def test_a_time_by_the_twelve_hour_clock_is_what_python_makes_of_it(time: datetime.time) -> None:
    for text in (time.strftime("%I:%M %p"), time.strftime("%I:%M%p").lower().lstrip("0")):
        assert [one.value for one in times_in(text)] == [time.strftime("%H:%M")]


@given(st.integers(0, 99), st.integers(0, 99))
def test_what_the_clock_lacks_is_no_time(hour: int, minute: int) -> None:
    values = [one.value for one in times_in(f"{hour:02d}:{minute:02d}")]
    assert values == [f"{hour:02d}:{minute:02d}" if hour <= 23 and minute <= 59 else None]


@pytest.mark.parametrize(
    ("text", "value"),
    [("14h30", "14:30"), ("9 h 05", "09:05"), ("09.15 Uhr", "09:15"), ("8:05 h", "08:05"), ("3 pm", "15:00")],
)
def test_times_of_other_languages_are_known(text: str, value: str) -> None:
    assert [one.value for one in times_in(text)] == [value]


def test_a_date_holds_no_time() -> None:
    assert times_in("14.03.2018") == ()
    assert times_in("2018-03-14") == ()
