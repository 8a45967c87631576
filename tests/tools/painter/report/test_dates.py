"""Written dates and times against Python's own reading of them, and against what a page shows of their order."""

from __future__ import annotations

from datetime import date, datetime

import numpy as np
import pytest

from octavo.tools.painter.report.dates import DateStyle, any_style, order_is_open, time_written, written
from octavo.tools.painter.report.languages import CODES, language

PATTERNS = {
    ("iso", "day-first"): "%Y-%m-%d",
    ("slashes-year-first", "day-first"): "%Y/%m/%d",
    ("slash", "day-first"): "%d/%m/%Y",
    ("slash", "month-first"): "%m/%d/%Y",
    ("dash", "day-first"): "%d-%m-%Y",
    ("dash", "month-first"): "%m-%d-%Y",
    ("dot", "day-first"): "%d.%m.%Y",
    ("dot-short", "day-first"): "%d.%m.%Y",
    ("dot-two", "day-first"): "%d.%m.%y",
}


def test_a_date_in_numbers_is_read_back_by_its_own_order() -> None:
    # datetime.strptime is the outside judge
    rng = np.random.default_rng(1)
    seen = set()
    for _ in range(600):
        words = language(CODES[int(rng.integers(4))])
        style = any_style(rng, words)
        if (style.form, style.order) not in PATTERNS:
            continue
        day = date(int(rng.integers(2009, 2026)), int(rng.integers(1, 13)), int(rng.integers(1, 29)))
        text = written(rng, day, style, words)
        pattern = PATTERNS[(style.form, style.order)].replace("%Y", "%y" if style.two_digits else "%Y")
        assert datetime.strptime(text, pattern).date() == day, text  # noqa: DTZ007
        seen.add((style.form, style.order))
    assert len(seen) >= 8


@pytest.mark.parametrize(
    ("code", "form", "text"),
    [
        ("en", "words", "3 March 2019"),
        ("de", "words", "3. März 2019"),
        ("es", "words", "3 de marzo de 2019"),
        ("fr", "words", "3 mars 2019"),
        ("es", "short", "03-mar-2019"),
    ],
)
def test_a_date_in_words_is_as_its_language_writes_it(code, form, text) -> None:
    # common practice of the four languages
    style = DateStyle(form, "day-first")
    assert written(np.random.default_rng(1), date(2019, 3, 3), style, language(code)) == text


def test_a_french_first_of_the_month_is_1er() -> None:
    style = DateStyle("words", "day-first")
    assert written(np.random.default_rng(1), date(2019, 3, 1), style, language("fr")) == "1er mars 2019"


def test_a_birth_date_keeps_its_century() -> None:
    for form in ("slash", "dot-two"):
        style = DateStyle(form, "day-first", two_digits=True)
        assert "1931" in written(np.random.default_rng(1), date(1931, 3, 4), style, language("de"), birth=True)


@pytest.mark.parametrize(
    ("form", "code", "day", "others", "hinted", "is_open"),
    [
        ("slash", "en", date(2019, 3, 4), [], False, True),
        ("slash", "en", date(2019, 3, 4), [date(1960, 5, 6)], False, True),
        ("slash", "en", date(2019, 3, 4), [date(1960, 5, 16)], False, False),
        ("slash", "en", date(2019, 3, 4), [], True, False),
        ("slash", "en", date(2019, 4, 4), [], False, False),
        ("slash", "en", date(2019, 3, 14), [], False, False),
        ("slash", "fr", date(2019, 3, 4), [], False, False),
        ("iso", "en", date(2019, 3, 4), [], False, False),
        ("words", "en", date(2019, 3, 4), [], False, False),
    ],
)
def test_the_order_is_open_where_nothing_on_the_page_shows_it(form, code, day, others, hinted, is_open) -> None:
    style = DateStyle(form, "day-first")
    assert order_is_open(day, style, language(code), others, hinted=hinted) is is_open


def test_a_written_time_says_the_hour_and_minute_of_its_value() -> None:
    rng = np.random.default_rng(2)
    for _ in range(200):
        value, text = time_written(rng, language(CODES[int(rng.integers(4))]))
        hour, minute = (int(part) for part in value.split(":"))
        if "m" in text.lower():
            assert datetime.strptime(text.upper(), "%I:%M %p").strftime("%H:%M") == value  # noqa: DTZ007
        else:
            digits = [int(part) for part in "".join(c if c.isdigit() else " " for c in text).split()]
            assert digits == [hour, minute]
