"""Times of day as people write them, as HH:MM."""

from __future__ import annotations

import re
from dataclasses import dataclass

_TIME = re.compile(
    r"(?<![\d.,:/-])(\d{1,2})(?:\s?[:h.]\s?|\s?Uhr\s?)(\d{2})(?::(\d{2}))?(?![\d/:-])(?!\.\d)"
    r"\s*(?:([ap])\.?\s?m\b\.?|Uhr\b|h\b|hrs?\b)?",
    re.IGNORECASE,
)
_HOUR = re.compile(r"(?<![\d.,:/-])(\d{1,2})\s?(?:([ap])\.?\s?m\b\.?|Uhr\b|h\b)(?!\s?\d)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WrittenTime:
    """One time of a text: where it stands, and what it says as HH:MM; None where there is no such time."""

    start: int
    end: int
    value: str | None


def times_in(text: str) -> tuple[WrittenTime, ...]:
    """Find the times of a text.

    Parameters
    ----------
    text : str
        Words with single spaces.

    Returns
    -------
    tuple of WrittenTime
        In the order of the text. Hours run from 0 to 23 and minutes from 0 to 59 (ISO 8601-1:2019, 4.3.8 and 4.3.9);
        with a.m. or p.m. from 1 to 12, where 12 a.m. is midnight (common practice). Seconds are left out.
    """
    found = [
        WrittenTime(m.start(), m.end(), _value(int(m[1]), int(m[2]), int(m[3] or 0), m[4]))
        for m in _TIME.finditer(text)
    ]
    for m in _HOUR.finditer(text):
        if not any(m.start() < other.end and other.start < m.end() for other in found):
            found.append(WrittenTime(m.start(), m.end(), _value(int(m[1]), 0, 0, m[2])))
    return tuple(sorted(found, key=lambda one: one.start))


def _value(hour: int, minute: int, second: int, half: str | None) -> str | None:
    if half is not None:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half.lower() == "p" else 0)
    if hour > 23 or minute > 59 or second > 59:
        return None
    return f"{hour:02d}:{minute:02d}"
