"""How alike two names, record numbers or dates are, with what clinics and text recognition do to them in mind."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from itertools import zip_longest
from typing import Literal

from ..settings import day

Likeness = Literal["same", "near", "different"]
"""``near`` is what one slip makes of the same thing, and what may just as well be another one: a person must look."""

_TITLES = frozenset(
    ("mr", "mrs", "ms", "miss", "mx", "dr", "prof", "herr", "frau", "hr", "fr", "sr", "sra", "srta", "mme", "mlle")
)
"""Forms of address beside a name, in the languages that reports are read in; common practice, no published list."""

_SPELLED_OUT = {"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe", "æ": "ae", "œ": "oe", "ð": "d", "þ": "th"}
_PLAIN = {"ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d", "þ": "th"}
_LEAST_COMMON = 2


def name_likeness(one: str, other: str) -> Likeness:
    """Compare two names of people as printed.

    Parameters
    ----------
    one, other : str
        In any order of their parts, with or without a comma, accents, capitals and forms of address.

    Returns
    -------
    {"same", "near", "different"}
        ``same`` where all parts agree in any order, accents left out or spelled out (ü as u or as ue, ICAO Doc 9303
        part 3, section 6). ``near`` where one letter differs or is missing, where a part is an initial, or where one
        name has parts that the other lacks. Names without a letter are ``different`` from everything.
    """
    ones, others = name_keys(one), name_keys(other)
    if not all(ones) or not all(others):
        return "different"
    if ones & others:
        return "same"
    if any(_near(a, b) for a in ones for b in others):
        return "near"
    return "different"


@cache
def name_keys(name: str) -> frozenset[tuple[str, ...]]:
    """Give the forms of a name for comparing: its parts in alphabetical order, accents left out, and spelled out."""
    text = unicodedata.normalize("NFC", name).casefold()
    spelled = "".join(_SPELLED_OUT.get(letter, letter) for letter in text)
    plain = "".join(_PLAIN.get(letter, letter) for letter in text)
    return frozenset(_parts(form) for form in (plain, spelled))


def _parts(text: str) -> tuple[str, ...]:
    bare = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    words = re.findall(r"[^\W\d_]+", bare.replace("'", "").replace("’", ""))
    return tuple(sorted(word for word in words if word not in _TITLES) or sorted(words))


def _near(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    a, b = _rest(one, other), _rest(other, one)
    common = len(one) - len(a)
    if not a or not b:
        return common >= _LEAST_COMMON  # a middle name that one of them leaves out
    if len(a) == len(b) == 1:
        return one_slip(a[0], b[0]) or _is_initial(a[0], b[0], common)
    short, long = sorted((a, b), key=len)
    # A space that was lost between two parts.
    return (len(short), len(long)) == (1, 2) and short[0] in (long[0] + long[1], long[1] + long[0])


def _is_initial(one: str, other: str, common: int) -> bool:
    return common > 0 and one[:1] == other[:1] and 1 in (len(one), len(other))


def _rest(one: tuple[str, ...], other: tuple[str, ...]) -> list[str]:
    """Give the parts of one name that the other lacks."""
    left = list(one)
    for part in other:
        if part in left:
            left.remove(part)
    return left


def one_slip(one: str, other: str) -> bool:
    """Say whether one letter changed, lost, added or swapped with its neighbour makes one text of the other."""
    if abs(len(one) - len(other)) > 1 or one == other:
        return False
    start = next((n for n, (a, b) in enumerate(zip_longest(one, other)) if a != b), 0)
    a, b = one[start:], other[start:]
    return a[1:] == b[1:] or a[1:] == b or a == b[1:] or (a[2:] == b[2:] and a[:2] == b[1::-1] and len(a) > 1)


def number_likeness(one: str, other: str) -> Likeness:
    """Compare two record numbers: letters and digits alone count; ``near`` is one slip, or zeros before it."""
    a, b = (re.sub(r"[\W_]", "", text.casefold()) for text in (one, other))
    if not a or not b:
        return "different"
    if a == b:
        return "same"
    return "near" if one_slip(a, b) or a.lstrip("0") == b.lstrip("0") else "different"


def date_likeness(one: str, other: str) -> Likeness:
    """Compare two birth dates, year first: ``near`` is day and month swapped, or one digit; also what is no date."""
    if one == other:
        return "same"
    a, b = day(one), day(other)
    if a is None or b is None:
        return "near"
    swapped = (a.year, a.month, a.day) == (b.year, b.day, b.month)
    digits = sum(x != y for x, y in zip(a.isoformat(), b.isoformat(), strict=True))
    return "near" if swapped or digits == 1 else "different"
